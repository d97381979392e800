export type { Assembly, Box3, Direction, Joint, Point3, Pose } from "./assembly.ts";
export type { Finding, Severity } from "./finding.ts";
export type { Bore, Face, Feature, Opening, Part, Recess, RoundOver, Thickness } from "./part.ts";
