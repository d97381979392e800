import {
  areaOf,
  compose,
  distanceTo,
  intersectionFlat,
  type Loop,
  type Path,
  type Placement,
  type Point,
  pathOf,
  placeCurve,
  placeRegion,
  type Region,
  segments,
} from "@dryfit/geometry";
import type { Face, Finding, Part, RoundOver } from "@dryfit/joinery";
import type { PlacedPart } from "@dryfit/nest";
import type { Cutter } from "./cutter.ts";
import { type EdgeTool, edgeToolFor } from "./edge-tool.ts";
import { type EdgeWay, edgeWay } from "./edge-way.ts";
import { approach, leave, standsAfter, zigzag } from "./entry.ts";
import type { Bench, Ready } from "./plan-build.ts";
import type { Task } from "./plan-task.ts";
import { type Track, turnedRound } from "./plan-track.ts";
import { mm } from "./sum.ts";
import type { Operation } from "./toolpath.ts";

/** What edges must reckon with on a sheet. */
export interface EdgeJob {
  readonly placed: readonly PlacedPart[];
  readonly parts: ReadonlyMap<string, Part>;
  readonly cutters: readonly Cutter[];
  readonly setupFromSheet: Readonly<Record<Face, Placement<"setup", "sheet">>>;
  /** The setups that there are. */
  readonly setups: readonly Face[];
  /** The setup in which a part is cut free. */
  readonly freedIn: (part: Part) => Face;
  readonly outlines: readonly { readonly part: string; readonly loop: Loop<"sheet"> }[];
  readonly pins: { readonly at: readonly Point<"sheet">[]; readonly diameter: number };
  /** Whether the part still bears tabs where none may stand at these places. */
  readonly bearsTabs: (part: Part, without: readonly Region<"panel">[]) => boolean;
}

/** An edge that a shaped cutter makes. */
export interface EdgePass {
  readonly part: Part;
  readonly over: RoundOver;
  readonly face: Face;
  readonly tool: EdgeTool;
  readonly way: EdgeWay;
  readonly setupFromPanel: Placement<"setup", "panel">;
  /** The same for any setup. */
  readonly onSetup: (setup: Face) => Placement<"setup", "panel">;
}

/**
 * The edges that passes can make, of those for which the design asks for a cutter: in the setup in which their face
 * is up, while the part is still held all round. What cannot be reached is left to the hand, and a note says why.
 */
export function edgePasses(job: EdgeJob): {
  readonly passes: readonly EdgePass[];
  readonly findings: readonly Finding[];
} {
  const passes: EdgePass[] = [];
  const findings: Finding[] = [];
  for (const { part: id, placement } of job.placed) {
    const part = job.parts.get(id)!;
    for (const over of part.roundOvers.filter(({ by }) => by === "cutter"))
      for (const face of over.faces) {
        const pass = passFor(job, part, over, face, placement);
        const why = typeof pass === "string" ? pass : tabsInWay(job, [...passes, pass], part);
        if (why !== null) findings.push(byHand(part, over, face, why));
        else passes.push(pass as EdgePass);
      }
  }
  return { passes, findings };
}

/** Where no tab may stand on a part, since edges made before have taken the wood there. */
export function takenByEdges(
  passes: readonly EdgePass[],
  part: Part,
  freedIn: Face,
): readonly Region<"panel">[] {
  return passes
    .filter((pass) => pass.part === part && pass.face !== freedIn)
    .flatMap(({ way }) => [...way.reach, ...way.channel] as Region<"panel">[]);
}

/** The rooms for bearings: cleared like recesses, before the edges are made. `like` gives what does not differ. */
export function channelTasks({ part, over, face, tool, way, setupFromPanel }: EdgePass, like: Task): Task[] {
  const outline = placeCurve(setupFromPanel, part.outline);
  const { drawn: _, ...common } = like;
  return way.channel.map((region, i): Task => {
    const room = placeRegion(setupFromPanel, region as Region<"panel">);
    return {
      ...common,
      id: `${part.id}/${nameOf(over, face)}-room${i === 0 ? "" : `-${i + 1}`}`,
      kind: "recess",
      feature: `room for the bearing at ${nameOf(over, face)}`,
      setup: face,
      // Open along the edge like a rebate, but outside it.
      shape: { kind: "pocket", region: room, outline },
      depth: tool.channel!.depth,
      lastPass: false,
    };
  });
}

/** The pass itself: down on a ramp along the edge, to its end and back over the ramp. */
export function edgeWork(pass: EdgePass, bench: Bench): { readonly ready: Ready; readonly gates: Point[] } {
  const { part, over, face, tool, way, setupFromPanel } = pass;
  const path = placeCurve(setupFromPanel, pathOf(way.track) as Path<"panel">);
  const track: Track = segments(path);
  const own = bench.data(tool.cutter, part.material, {
    kind: "clearing",
    depth: tool.tip,
    width: over.radius,
  });
  const data = { ...own, feedMmPerMin: own.feedMmPerMin * SHARE_OF_FEED };
  const descent = {
    top: bench.top - tool.below,
    bottom: -tool.tip,
    most: Math.min(data.depthPerPass, MOST_AT_ONCE_MM),
    rampAngle: bench.options.rampAngle,
  };
  const operation: Omit<Operation, "moves"> = {
    id: `${part.id}/${nameOf(over, face)}`,
    kind: "round-over",
    part: part.id,
    feature: nameOf(over, face),
    cutter: tool.cutter.id,
    tabs: [],
    corners: [],
    edge: { part: part.id, edge: over.id, face, left: way.left },
  };
  const ends = [track[0]!.from, track.at(-1)!.to];
  const ready: Ready = (near) => {
    const far = (p: Point): number => Math.hypot(p.x - near.x, p.y - near.y);
    const line = far(ends[1]!) < far(ends[0]!) ? turnedRound(track) : track;
    const start = { ...line[0]!.from, z: descent.top };
    const cutting = zigzag(line, descent, data);
    return {
      ...operation,
      moves: [
        ...approach(start, bench.safe, data),
        ...cutting,
        leave(standsAfter(cutting, start), bench.safe),
      ],
    };
  };
  return { ready, gates: ends };
}

/** Share of a straight cutter's feed: a profile's chip is thickest where it is widest. From memory. */
const SHARE_OF_FEED = 0.5;

/** What a profile takes at once, mm deep. From memory. */
const MOST_AT_ONCE_MM = 4;

/** Wood that must be left under the room for a bearing, mm: tabs stand there. */
const FLOOR_MM = 3;

/** Wood between a shaped cutter and a pin's hole, mm. */
const PIN_AIR_MM = 1;

/** What a shaped cutter would take of its neighbours at most, mm²: float noise. */
const NOTHING_MM2 = 0.01;

function passFor(
  job: EdgeJob,
  part: Part,
  over: RoundOver,
  face: Face,
  placement: PlacedPart["placement"],
): EdgePass | string {
  const tool = edgeToolFor(job.cutters, over);
  if (tool === null)
    return over.form === "round"
      ? `the drawer holds no round-over cutter of ${mm(over.radius)} with its bearing measured`
      : `the drawer holds no V cutter of 90° for ${mm(over.radius)}`;
  if (!job.setups.includes(face)) return "its face is never up, since the sheet is not turned over";
  if (face === "B" && job.freedIn(part) === "A") return "the part is cut free before its face is up";
  if ((tool.channel?.depth ?? tool.tip) > part.thickness.min - FLOOR_MM)
    return "the cutter reaches too deep for this sheet";
  const way = edgeWay(part, over, tool);
  if (typeof way === "string") return way;
  const onSheet = [...way.reach, ...way.channel].map((region) =>
    placeRegion(placement, region as Region<"panel">),
  );
  const others = job.outlines.filter((outline) => outline.part !== part.id);
  const hit = others.find(
    ({ loop }) => areaOf(intersectionFlat(onSheet, [{ outer: loop, holes: [] }])) > NOTHING_MM2,
  );
  if (hit !== undefined) return `${hit.part} lies too near`;
  const line = placeCurve(placement, pathOf(way.track) as Path<"panel">);
  const pinAir = tool.cutter.diameter / 2 + job.pins.diameter / 2 + PIN_AIR_MM;
  if (job.pins.at.some((pin) => distanceTo(line, pin) < pinAir)) return "a pin stands in its way";
  const onSetup = (setup: Face): Placement<"setup", "panel"> => compose(job.setupFromSheet[setup], placement);
  return { part, over, face, tool, way, setupFromPanel: onSetup(face), onSetup };
}

/** Edges of the face that lies down when the part is cut free cost places for tabs. */
function tabsInWay({ freedIn, bearsTabs }: EdgeJob, passes: readonly EdgePass[], part: Part): string | null {
  const without = takenByEdges(passes, part, freedIn(part));
  return without.length === 0 || bearsTabs(part, without) ? null : "the part needs its tabs there";
}

/** "round-crest-a": one arris of an edge. */
function nameOf({ id }: RoundOver, face: Face): string {
  return `${id}-${face.toLowerCase()}`;
}

function byHand(part: Part, over: RoundOver, face: Face, why: string): Finding {
  return {
    code: "edge_by_hand",
    severity: "note",
    path: `${part.id}/${over.id}`,
    message: `${part.title}, ${over.id.replaceAll("-", " ")}, ${part.faceNames[face]}: made by hand, since ${why}.`,
    numbers: { radius: over.radius },
  };
}
