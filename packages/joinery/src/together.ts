import type { Assembly, Joint } from "./assembly.ts";

/** The same case with its name before every part's and joint's, so that several go into one job. */
export function named(assembly: Assembly, name: string): Assembly {
  const of = (id: string): string => `${name}-${id}`;
  return {
    ...assembly,
    name,
    parts: assembly.parts.map((part) => ({ ...part, id: of(part.id), title: `${part.title} (${name})` })),
    poses: Object.fromEntries(Object.entries(assembly.poses).map(([id, pose]) => [of(id), pose])),
    joints: assembly.joints.map((joint) => namedJoint(joint, of)),
    ...(assembly.glued ? { glued: assembly.glued.map((stack) => stack.map(of)) } : {}),
    hinge: assembly.hinge && { ...assembly.hinge, parts: assembly.hinge.parts.map(of) },
  };
}

/**
 * The parts of several cases as one job to cut. They stand in each other's place, so it can be laid out,
 * cut and read back, but never stood up: that is done case by case.
 */
export function together(name: string, cases: readonly Assembly[]): Assembly {
  return {
    name,
    parts: cases.flatMap(({ parts }) => parts),
    poses: Object.assign({}, ...cases.map(({ poses }) => poses)),
    joints: cases.flatMap(({ joints }) => joints),
    inside: { width: 0, depth: 0, front: 0, back: 0 },
    outside: { width: 0, depth: 0, height: 0 },
    rake: 0,
    feet: [],
    hinge: null,
    findings: cases.flatMap(({ findings }) => findings),
  };
}

function namedJoint(joint: Joint, of: (id: string) => string): Joint {
  const { tongue, housing } = joint;
  const behind = housing.behind ? { behind: housing.behind.map(of) } : {};
  return {
    ...joint,
    id: of(joint.id),
    tongue: { ...tongue, part: of(tongue.part) },
    housing: { ...housing, part: of(housing.part), ...behind },
  };
}
