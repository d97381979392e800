export type { ProgramBench } from "./check-program.ts";
export { checkProgram } from "./check-program.ts";
export type { Engagement, EngagementBench } from "./cut/engagement.ts";
export { engagementsOf } from "./cut/engagement.ts";
export type { CutLayer, CutPart } from "./cut-part.ts";
export type { DryFit, PairOverlap, Reading } from "./dryfit.ts";
export { dryFit } from "./dryfit.ts";
export type { CaseMeasures } from "./dryfit-measures.ts";
export type { Footing } from "./feet.ts";
export { printedError, printedJoint, printedWeight } from "./printed.ts";
export type { Axis, Motion, Plane, Position, Turn } from "./program/motion.ts";
export { extentsOf, lengthOfMotion, minutesOf, positionAt } from "./program/motion.ts";
export type { ProgramFacts, ReadOptions, ReadProgram } from "./program/read-program.ts";
export { readProgram } from "./program/read-program.ts";
export type {
  CutterFacts,
  JobToProve,
  JointProof,
  MachineFacts,
  PartProof,
  ProgramFile,
  Proof,
} from "./proof.ts";
export { prove } from "./prove.ts";
export type { DrawingsToProve, DrawnPart, DrawnPocket } from "./prove-contours.ts";
export { proveDrawings } from "./prove-contours.ts";
export type { CutProof } from "./prove-cuts.ts";
export { proveCuts } from "./prove-cuts.ts";
export type { PartShare } from "./prove-share.ts";
export { proveCutsWith, proveShare, sharesOf } from "./prove-share.ts";
export type { SolidKernel } from "./solids.ts";
export { loadSolidKernel } from "./solids.ts";
export type { Swing } from "./swing.ts";
