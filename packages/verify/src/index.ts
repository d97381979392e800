export type {
  CutterFacts,
  JobToProve,
  JointProof,
  MachineFacts,
  PartProof,
  ProgramFile,
  Proof,
} from "./proof.ts";
