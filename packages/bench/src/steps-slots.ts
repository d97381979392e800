import type { Finding } from "@dryfit/joinery";
import { fenceSetting, nearestBaseEdge } from "./fence.ts";
import { finding } from "./findings.ts";
import { routingMinutes, slotLength } from "./minutes.ts";
import type { Slot } from "./slots.ts";
import { listed, type Step, type StepFigure } from "./step.ts";
import { grooveFences, passesTo } from "./table.ts";
import type { HandCutter, HandTools } from "./tools.ts";

/** A slot whose setting holds for several parts. */
interface SlotGroup {
  readonly slots: readonly Slot[];
  readonly first: Slot;
}

interface Planned {
  readonly steps: readonly Step[];
  readonly findings: readonly Finding[];
}

/** Grooves: on the table where there is one, else along a straightedge. */
export function grooveSteps(slots: readonly Slot[], tools: HandTools): Planned {
  const grooves = slots.filter(({ recess }) => recess.purpose === "groove");
  return joined(
    groupsOf(grooves).map((group) => (tools.table ? onTable(group, tools) : alongFence(group, tools, null))),
  );
}

/** Housings along a straightedge: another way to what their templates cut. */
export function housingFenceSteps(slots: readonly Slot[], tools: HandTools): Planned {
  const housings = slots.filter(({ recess }) => recess.purpose === "housing");
  const note = "No board to make; leave this out where the template was used.";
  return joined(groupsOf(housings).map((group) => alongFence(group, tools, note)));
}

function joined(all: readonly Planned[]): Planned {
  return { steps: all.flatMap(({ steps }) => steps), findings: all.flatMap(({ findings }) => findings) };
}

/** Slots of one setting: left and right cheeks differ in their side, so mirrored ones stand apart. */
function groupsOf(slots: readonly Slot[]): readonly SlotGroup[] {
  const keyOf = ({ run, walls, ends, recess }: Slot): string =>
    [
      run,
      recess.purpose,
      recess.depth.toFixed(3),
      ...walls.map((v) => v.toFixed(3)),
      ...ends.map((v) => v.toFixed(3)),
    ].join();
  return [...new Set(slots.map(keyOf))].map((key) => {
    const same = slots.filter((slot) => keyOf(slot) === key);
    return { slots: same, first: same[0]! };
  });
}

/** The widest straight cutter that goes into a slot and deep enough. */
function slotCutter({ walls, recess }: Slot, tools: HandTools): HandCutter | null {
  const width = walls[1] - walls[0];
  return (
    tools.cutters
      .filter((c) => c.kind === "straight" && c.diameter <= width + 0.02 && c.cuttingLength >= recess.depth)
      .sort((a, b) => b.diameter - a.diameter)[0] ?? null
  );
}

function tooWide(group: SlotGroup, tools: HandTools): Planned {
  const { walls, recess, part } = group.first;
  const width = walls[1] - walls[0];
  const least = Math.min(
    ...tools.cutters.filter(({ kind }) => kind === "straight").map(({ diameter }) => diameter),
  );
  return {
    steps: [],
    findings: [
      finding(
        "cutter_wide",
        "error",
        `${part.id}.${recess.id}`,
        `The ${recess.purpose} of ${listed(group.slots.map((s) => s.part.id))} is ${width.toFixed(2)} mm wide and ${recess.depth.toFixed(2)} mm deep; no straight cutter of yours goes into it.`,
        { width, depth: recess.depth, ...(Number.isFinite(least) ? { narrowest: least } : {}) },
        `Take a cutter of ${width.toFixed(2)} mm or less, or make the design's tongues thicker.`,
      ),
    ],
  };
}

function onTable(group: SlotGroup, tools: HandTools): Planned {
  const cutter = slotCutter(group.first, tools);
  if (!cutter) return tooWide(group, tools);
  const { walls, recess, part, run } = group.first;
  const other = recess.face === "A" ? "B" : "A";
  const edge = run === "x" ? "bottom" : "left";
  const heights = passesTo(recess.depth, cutter.depthPerPass);
  const fences = grooveFences(walls, cutter.diameter);
  return {
    steps: [
      {
        id: `groove-${part.id}`,
        title: `Groove ${listed(group.slots.map((s) => s.part.id))} on the table`,
        parts: group.slots.map((s) => s.part.id),
        tool: cutter.id,
        figures: [
          { what: "cutter above the table, pass by pass", mm: heights },
          { what: "fence to the cutter's near edge", mm: fences },
        ],
        notes: [
          `Face ${recess.face} (${part.faceNames[recess.face]}) down, the ${edge} edge against the fence; face ${other} looks up. All parts at one setting before it is changed.`,
          "At each height make all fence passes, nearest first: the later ones then cut against the cutter's turn. Feed from right to left.",
          ...(group.first.open.every(Boolean)
            ? ["It runs out at both ends: back the far end with a strip of waste."]
            : []),
        ],
        minutes: minutesOf(group, heights.length * fences.length),
        first: `Groove an offcut: ${(walls[1] - walls[0]).toFixed(2)} mm wide, ${recess.depth.toFixed(2)} mm deep, ${walls[0].toFixed(2)} mm from the edge.`,
      },
    ],
    findings: [],
  };
}

function alongFence(group: SlotGroup, tools: HandTools, note: string | null): Planned {
  const cutter = slotCutter(group.first, tools);
  if (!cutter) return tooWide(group, tools);
  const { recess, part, walls } = group.first;
  const base = nearestBaseEdge(tools);
  const setting = fenceSetting(group.first, cutter, base.toMiddle);
  const names = listed(group.slots.map((s) => s.part.id));
  const depths = passesTo(recess.depth, cutter.depthPerPass);
  const stops = setting.stops.flatMap((stop, i): StepFigure[] => {
    if (!stop) return [];
    const end = ["first", "second"][i]!;
    return [
      {
        what: `${end} end: cut stops at, stop block at (from the ${setting.stopEdge} edge)`,
        mm: [stop.cut, stop.block],
      },
    ];
  });
  return {
    steps: [
      {
        id: `fence-${part.id}-${group.first.run}-${walls[0].toFixed(0)}`,
        title: note
          ? `Instead of the template: housing of ${names} along a straightedge`
          : `Groove of ${names} along a straightedge`,
        parts: group.slots.map((s) => s.part.id),
        tool: `${cutter.id}, base edge "${base.id}" on the straightedge`,
        figures: [
          { what: `straightedge from the ${setting.edge} edge`, mm: [setting.fence] },
          { what: `walls from the ${setting.edge} edge`, mm: setting.walls },
          ...(setting.spacers.length > 1
            ? [{ what: "strip between base and straightedge, pass by pass", mm: setting.spacers }]
            : []),
          ...stops,
          { what: "depth, pass by pass", mm: depths },
        ],
        notes: [
          ...(note ? [note] : []),
          `Face ${recess.face} (${part.faceNames[recess.face]}) up; edges are seen from face A. Push away from you with the straightedge on your left: the cutter then draws the base onto it.`,
          ...(setting.stops.some((stop) => stop && stop.block < 0)
            ? ["A stop block at a minus figure stands beyond the edge, on the board beside the part."]
            : []),
          ...(setting.beyond > 0
            ? [
                `The straightedge lies ${setting.beyond.toFixed(1)} mm off the part: clamp it to a board of the same thickness set against the edge.`,
              ]
            : []),
        ],
        minutes: minutesOf(group, depths.length * setting.spacers.length),
        ...(note ? { instead: true as const } : {}),
        first: `Bases are rarely round about their cutter: cut an offcut against the straightedge and measure from it to the cut; ${(base.toMiddle - cutter.diameter / 2).toFixed(2)} mm is assumed. Keep the same place of the base on it.`,
      },
    ],
    findings:
      setting.beyond > 0
        ? [
            finding(
              "fence_off_part",
              "note",
              `${part.id}.${recess.id}`,
              `The straightedge for the ${recess.purpose} of ${names} stands ${setting.beyond.toFixed(1)} mm beyond the part's edge.`,
              { beyond: setting.beyond },
              "Clamp it to a board of the same thickness set against the edge.",
            ),
          ]
        : [],
  };
}

function minutesOf({ slots }: SlotGroup, passes: number): number {
  const length = slots.reduce((sum, slot) => sum + slotLength(slot), 0);
  return routingMinutes(slots.length, length * passes);
}
