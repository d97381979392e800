import type { Region } from "@dryfit/geometry";
import type { Assembly, Box3, Part } from "@dryfit/joinery";
import { pathData, type View } from "./outline.ts";
import {
  type Axis,
  axisOf,
  boxInCase,
  boxLoop,
  type Eye,
  faceLoop,
  isFacing,
  poseOf,
  sectionOf,
} from "./standing.ts";
import { el, group, type Markup } from "./svg.ts";

/** The whole case as the eye sees it: nearer parts hide farther ones, tongues inside them are dashed. */
export function outsideView(assembly: Assembly, eye: Eye, view: View): Markup {
  const sorted = farFirst(assembly, eye);
  return group(
    "view",
    ...sorted.map((part) => partOutside(assembly, part, eye, view)),
    ...assembly.joints.map((joint) =>
      el("path", { class: "hidden-edge", d: pathData(view, [boxLoop(eye, joint.tongue.box)]) }),
    ),
  );
}

/** The case cut by a plane: what lies behind it in outline, what it cuts hatched, neighbours the other way. */
export function sectionView(assembly: Assembly, eye: Eye, view: View, at: number, prefix: string): Markup {
  const axis = axisOf(eye.towards);
  const sign = eye.towards[0] === "+" ? 1 : -1;
  const behind = farFirst(assembly, eye).filter((part) => {
    const { min, max } = boxInCase(part, poseOf(assembly, part));
    return sign > 0 ? max[axis] <= at : min[axis] >= at;
  });
  const cut = assembly.parts.map((part) => ({
    part,
    wood: sectionOf(eye, part, poseOf(assembly, part), at),
  }));
  return group(
    "view",
    ...behind.map((part) => partOutside(assembly, part, eye, view)),
    ...cut
      .filter(({ wood }) => wood.length > 0)
      .map(({ part, wood }, i) => cutWood(wood, view, `${prefix}-cut-${hatchTurn(assembly, part, i)}`)),
  );
}

/** The two hatches of cut wood. */
export function cutPatterns(prefix: string): Markup {
  return [45, -45]
    .map((turnDeg, i) =>
      el(
        "pattern",
        {
          id: `${prefix}-cut-${i}`,
          width: 2,
          height: 2,
          patternUnits: "userSpaceOnUse",
          patternTransform: `rotate(${turnDeg})`,
        },
        el("line", { class: "cut-hatch", x1: 1, y1: 0, x2: 1, y2: 2 }),
      ),
    )
    .join("");
}

function cutWood(wood: readonly Region[], view: View, hatch: string): Markup {
  const d = pathData(
    view,
    wood.flatMap((region) => [region.outer, ...region.holes]),
  );
  return (
    el("path", { class: "solid", "fill-rule": "evenodd", d }) +
    el("path", { class: "cut-wood", "fill-rule": "evenodd", fill: `url(#${hatch})`, d })
  );
}

/** A part that holds tongues and one whose tongues it holds are hatched opposite ways. */
function hatchTurn(assembly: Assembly, part: Part, otherwise: number): 0 | 1 {
  const holds = assembly.joints.some((joint) => joint.housing.part === part.id);
  const held = assembly.joints.some((joint) => joint.tongue.part === part.id);
  if (holds !== held) return holds ? 1 : 0;
  return (otherwise % 2) as 0 | 1;
}

function partOutside(assembly: Assembly, part: Part, eye: Eye, view: View): Markup {
  const pose = poseOf(assembly, part);
  if (!isFacing(eye, pose)) {
    const core = withoutTongues(assembly, part, boxInCase(part, pose));
    return el("path", { class: "solid", d: pathData(view, [boxLoop(eye, core)]) });
  }
  const openings = part.features.flatMap((f) => (f.kind === "opening" ? [f.loop] : []));
  const loops = [part.outline, ...openings].map((loop) => faceLoop(eye, part, pose, loop));
  return el("path", { class: "solid", "fill-rule": "evenodd", d: pathData(view, loops) });
}

/** What is seen of a part beside the housings that its tongues stand in. */
function withoutTongues(assembly: Assembly, part: Part, box: Box3): Box3 {
  let { min, max } = box;
  for (const { tongue, into } of assembly.joints) {
    if (tongue.part !== part.id) continue;
    const axis: Axis = axisOf(into);
    if (into[0] === "+") max = { ...max, [axis]: Math.min(max[axis], tongue.box.min[axis]) };
    else min = { ...min, [axis]: Math.max(min[axis], tongue.box.max[axis]) };
  }
  return { min, max };
}

function farFirst(assembly: Assembly, eye: Eye): readonly Part[] {
  const axis = axisOf(eye.towards);
  const near = (part: Part) => {
    const { min, max } = boxInCase(part, poseOf(assembly, part));
    return eye.towards[0] === "+" ? max[axis] : -min[axis];
  };
  return [...assembly.parts].sort((a, b) => near(a) - near(b));
}
