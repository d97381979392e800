import { lengthOf } from "@dryfit/geometry";
import type { Assembly } from "./assembly.ts";
import type { Part } from "./part.ts";
import { areaOfPart } from "./weight.ts";

/** Something that goes on the bare wood; the coats of a case stand in the order of use. */
export interface FinishCoat {
  readonly what: string;
  /** On faces and on edges: end grain drinks. */
  readonly coats: number;
  readonly edgeCoats: number;
  /** How far a litre goes in one coat, m². */
  readonly squareMetresPerLitre: number;
  /** Waiting time after each coat, hours. */
  readonly hours: number;
  /** Null: not told. */
  readonly perLitre: number | null;
}

/** How much of it one case takes. */
interface FinishLine extends FinishCoat {
  /** All coats together, m² and litres. */
  readonly area: number;
  readonly litres: number;
}

/** What goes on a case, with the areas that it covers, m². */
export interface FinishPlan {
  /** Whether it is what is common practice, not what a maker asked for. */
  readonly isCommon: boolean;
  readonly faces: number;
  readonly edges: number;
  readonly lines: readonly FinishLine[];
}

/** Coverage and waiting times of water-based sealer and varnish on plywood: common practice, no source. */
export const COMMON_FINISH: readonly FinishCoat[] = [
  { what: "Sanding sealer", coats: 1, edgeCoats: 2, squareMetresPerLitre: 10, hours: 2, perLitre: null },
  { what: "Clear varnish", coats: 2, edgeCoats: 2, squareMetresPerLitre: 12, hours: 4, perLitre: null },
];

/** Areas and quantities to a hundredth of a square metre and of a litre. */
export function planFinish(assembly: Assembly, coats: readonly FinishCoat[]): FinishPlan {
  const sum = (of: (part: Part) => number): number =>
    hundredths(assembly.parts.reduce((total, part) => total + of(part), 0) / 1e6);
  const faces = sum((part) => facesShown(part.id, assembly) * areaOfPart(part));
  const edges = sum((part) => edgesOf(part) * part.thickness.mean);
  return {
    isCommon: coats === COMMON_FINISH,
    faces,
    edges,
    lines: coats.map((coat) => {
      const area = faces * coat.coats + edges * coat.edgeCoats;
      return { ...coat, area: hundredths(area), litres: hundredths(area / coat.squareMetresPerLitre) };
    }),
  };
}

/** How long coats wait until they are dry, hours: faces and edges are coated at the same time. */
export function waitingHours(coats: readonly FinishCoat[]): number {
  return coats.reduce((sum, { coats, edgeCoats, hours }) => sum + Math.max(coats, edgeCoats) * hours, 0);
}

/** Of a panel that is glued up of layers, only the outer ones show a face each. */
function facesShown(id: string, { glued = [] }: Assembly): number {
  const stack = glued.find((layers) => layers.includes(id));
  if (stack === undefined || stack.length < 2) return 2;
  return stack[0] === id || stack.at(-1) === id ? 1 : 0;
}

function edgesOf({ outline, features }: Part): number {
  return features.reduce(
    (sum, f) => (f.kind === "opening" ? sum + lengthOf(f.loop) : sum),
    lengthOf(outline),
  );
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
