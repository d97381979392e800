import {
  boundsOf,
  type Loop,
  type Placement,
  placeCurve,
  placement,
  point,
  roundedRectangle,
} from "@dryfit/geometry";
import type { Joint, Pose } from "./assembly.ts";
import { type HousingReach, leftPose, rightCheek } from "./cheek.ts";
import type { Design, LayerRules } from "./design.ts";
import { footRuns } from "./edge-runs.ts";
import { withRoundOvers } from "./edges.ts";
import type { Finding } from "./finding.ts";
import { finding } from "./findings.ts";
import { type LayerSlots, layerIds, layerSlots } from "./layer-slots.ts";
import { layeredBase, layeredRail } from "./layered-cross.ts";
import { layeredJoints } from "./layered-joints.ts";
import type { CaseNumbers, Span } from "./numbers.ts";
import { openingFeatures, withOpenings } from "./openings.ts";
import type { Feature, Opening, Part, Recess } from "./part.ts";
import { checkPins, pinHoles } from "./pins.ts";
import { sheetPart } from "./sheet-part.ts";
import { tierParts } from "./tier.ts";

export interface Placed {
  readonly part: Part;
  readonly pose: Pose;
}

/** What a case is built of, whichever way. */
export interface Built {
  readonly placed: readonly Placed[];
  /** The same by the panels that the design names, for checks of what is cut into them. */
  readonly panels: readonly Placed[];
  readonly joints: readonly Joint[];
  readonly glued: readonly (readonly string[])[];
  readonly findings: readonly Finding[];
}

/**
 * A case of through cuts only: each cheek of layers that are glued to one, slots in the inner ones, the outermost
 * plain; base and rails with tongues as thick as the sheet; the base's tongues go through the rails.
 */
export function layeredCase(
  design: Design,
  numbers: CaseNumbers,
  layers: LayerRules,
  outline: Loop<"panel">,
  reach: HousingReach,
): Built {
  const slots = layerSlots(design, numbers, layers, reach);
  const left = leftPanel(design, numbers, outline, slots);
  const cheeks = [left, rightCheek(left, design.inside.width)].map((panel) =>
    cheekLayers(panel, design, numbers, layers),
  );
  const others = [
    layeredBase(design, numbers, slots),
    layeredRail(design, numbers, "front", slots),
    layeredRail(design, numbers, "back", slots),
    ...(design.tier ? tierParts(design, numbers, design.tier) : []),
  ].map(({ part, pose }) => {
    const open = withoutPockets(withOpenings(part, pose, design, numbers));
    return { pose, ...withRoundOvers({ part: open, pose }, design, numbers) };
  });
  return {
    placed: [...cheeks.flatMap(({ placed }) => placed), ...others],
    panels: [...cheeks.map(({ panel }) => panel), ...others],
    joints: layeredJoints(design, numbers, layers, slots),
    glued: cheeks.map(({ placed }) => placed.map(({ part }) => part.id)),
    findings: [
      ...cheeks.flatMap(({ findings }) => findings),
      ...others.flatMap(({ findings }) => findings),
      ...pocketsLeftOut(design),
    ],
  };
}

/** The left cheek as the design speaks of it: its outline and the slots in its inner layers. */
function leftPanel(design: Design, numbers: CaseNumbers, outline: Loop<"panel">, slots: LayerSlots): Placed {
  const box = boundsOf(outline);
  const move: Placement<"panel", "panel"> = placement(point(-box.min.x, -box.min.y));
  const { baseHousing, frontHousing, backHousing, r } = numbers;
  const slot = (id: string, title: string, y: Span, z: Span): Opening => ({
    kind: "opening",
    id,
    title,
    loop: placeCurve(move, roundedRectangle(point<"panel">(y.min, z.min), point(y.max, z.max), r)),
  });
  const part = sheetPart(design, {
    id: "cheek-left",
    panel: "cheek",
    title: "Left cheek",
    outline: placeCurve(move, outline) as Loop<"panel">,
    features: [
      ...slots.base.map((y, i) => slot(`slot-base-${i + 1}`, "Slot for the base", y, baseHousing)),
      ...slots.front.map((z, i) => slot(`slot-front-${i + 1}`, "Slot for the front rail", frontHousing, z)),
      ...slots.back.map((z, i) => slot(`slot-back-${i + 1}`, "Slot for the back rail", backHousing, z)),
    ],
    grain: "x",
    faceNames: { A: "inside", B: "outside" },
  });
  return { part, pose: leftPose(box) };
}

/** A cheek's layers as they are cut, from the inside out. */
function cheekLayers(panel: Placed, design: Design, numbers: CaseNumbers, layers: LayerRules) {
  const { pose } = panel;
  const own = design.openings
    .filter((o) => o.panel === panel.part.id)
    .flatMap((o) => openingFeatures(o, pose, design, numbers));
  const inner = { ...panel.part, features: [...panel.part.features, ...inInnerLayers(own)] };
  const pins = pinHoles(inner, layers);
  const edged = withRoundOvers({ part: inner, pose }, design, numbers);
  const ids = layerIds(panel.part.id, layers);
  const placed = ids.map((id, i): Placed => {
    const isOuter = i === ids.length - 1;
    const rounded = edged.part.roundOvers.flatMap((over) => {
      const faces = over.faces.filter((face) => (face === "A" ? i === 0 : isOuter));
      return faces.length === 0 ? [] : [{ ...over, faces }];
    });
    const part: Part = {
      ...panel.part,
      id,
      title: `${panel.part.title}, ${id.slice(panel.part.id.length + 1).replace("-", " ")} layer`,
      features: [...(isOuter ? inOuterLayer(own) : inner.features), ...pins],
      roundOvers: rounded,
      faceNames: { A: i === 0 ? "inside" : "glued", B: isOuter ? "outside" : "glued" },
      mating: footRuns(inner, pose, design, numbers),
    };
    return { part, pose: { ...pose, stacked: i } };
  });
  return {
    placed,
    panel: { part: inner, pose },
    findings: [...edged.findings, ...checkPins(pins, panel.part.title, layers, design)],
  };
}

/** A pocket goes right through the inner layers, and what is cut within it is gone with it. */
function inInnerLayers(own: readonly Feature[]): readonly Feature[] {
  const pockets = own.filter((f): f is Recess => f.kind === "recess");
  const opened = pockets.map(
    (f): Opening => ({ kind: "opening", id: f.id, loop: f.region.outer, title: "Pocket" }),
  );
  const behind = pockets.map((f) => f.id.replace(/-pocket$/, ""));
  return [...opened, ...own.filter((f) => f.kind !== "recess" && !behind.includes(f.id))];
}

function inOuterLayer(own: readonly Feature[]): readonly Feature[] {
  return own.filter((f) => f.kind !== "recess");
}

function withoutPockets(part: Part): Part {
  return { ...part, features: part.features.filter((f) => f.kind !== "recess") };
}

/** Cutouts in single panels whose pocket would leave less wood than the sheet is thick. */
function pocketsLeftOut({ openings, sheet }: Design): Finding[] {
  return openings.flatMap((o, i) => {
    const { hole = 0, pocket = 0, leave = 0 } = o.size;
    if (o.panel.startsWith("cheek-") || !(pocket > hole) || leave >= sheet.thickness.mean) return [];
    return [
      finding(
        "pocket_left_out",
        "warning",
        `openings[${i}].size.pocket`,
        `"${o.id}" on ${o.panel} wants a pocket that leaves ${leave} mm of wood; every cut goes through here, so all ${sheet.thickness.mean} mm are left.`,
        { leave, thickness: sheet.thickness.mean },
        "Check that the part's bush is long enough, or set size.pocket to 0.",
      ),
    ];
  });
}
