export type { Assembly, Box3, Direction, Joint, Point3, Pose } from "./assembly.ts";
export type {
  CheekRules,
  CrestRules,
  Design,
  EdgeName,
  EdgeRules,
  FootRules,
  Inside,
  JointRules,
  OpeningRules,
  SheetMaterial,
  SheetSize,
  TierRules,
  Units,
} from "./design.ts";
export type { Finding, Severity } from "./finding.ts";
export { formatLength, lengthInMm, mmPerInch, parseLength } from "./length.ts";
export type { CaseNumbers, RailStyle, Span } from "./numbers.ts";
export { numbersOf } from "./numbers.ts";
export type { Bore, Face, Feature, Opening, Part, Recess, RoundOver, Thickness } from "./part.ts";
export { designJsonSchema, readDesign } from "./read-design.ts";
export { recipe } from "./recipe.ts";
export { slotEnd } from "./slot-end.ts";
export { starterDesign } from "./starter.ts";
export type { FileProblem, Place, Read } from "./yaml-file.ts";
export { readYaml } from "./yaml-file.ts";
