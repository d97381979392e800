export type { CutLayer, CutPart } from "./cut-part.ts";
export type {
  CutterFacts,
  JobToProve,
  JointProof,
  MachineFacts,
  PartProof,
  ProgramFile,
  Proof,
} from "./proof.ts";
