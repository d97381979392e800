export type { CutLayer, CutPart } from "./cut-part.ts";
export type { DryFit, PairOverlap, Reading } from "./dryfit.ts";
export { dryFit } from "./dryfit.ts";
export type { CaseMeasures } from "./dryfit-measures.ts";
export type { Footing } from "./feet.ts";
export type {
  CutterFacts,
  JobToProve,
  JointProof,
  MachineFacts,
  PartProof,
  ProgramFile,
  Proof,
} from "./proof.ts";
export type { SolidKernel } from "./solids.ts";
export { loadSolidKernel } from "./solids.ts";
export type { Swing } from "./swing.ts";
