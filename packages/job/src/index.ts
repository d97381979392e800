export { printedError } from "@dryfit/verify";
export type { Beforehand } from "./air-programs.ts";
export { spotsOf, walksOf } from "./air-programs.ts";
export type { BatchJob, BatchJobCase, BatchMade } from "./batch/batch-job.ts";
export { checkBatch } from "./batch/check-batch.ts";
export type { BatchInput } from "./batch/make-batch.ts";
export { designsOf, makeBatch } from "./batch/make-batch.ts";
export type { Beside, Share } from "./beside.ts";
export { shareDone } from "./beside.ts";
export { checkJob } from "./check.ts";
export type { Explained } from "./explain.ts";
export { explainJob } from "./explain.ts";
export type { FitAnswers, FitChange, FitJob, Fitted } from "./fit.ts";
export { fitDesign } from "./fit.ts";
export type { JobInput } from "./input.ts";
export type {
  Job,
  JobCutter,
  JobPart,
  JobProgram,
  JobSheet,
  PlacedFinding,
  Verification,
} from "./job.ts";
export type { BareSheet } from "./judge.ts";
export { judgeDrawing, judgeProgram } from "./judge.ts";
export type { Made } from "./make.ts";
export { makeJob } from "./make.ts";
export { checkOrder } from "./order/check-order.ts";
export type { OrderInput, OrderMade } from "./order/make-order.ts";
export { makeOrder } from "./order/make-order.ts";
export type { OrderJob } from "./order/order-job.ts";
export { SHIPPED_SERVICES } from "./order/shipped-services.ts";
export type { OutFile } from "./outfile.ts";
export type { Resumable, Resumed } from "./resume.ts";
export { resumableIn, resumeJob } from "./resume.ts";
export type { OnStage } from "./road.ts";
export type { SchemaName } from "./schemas.ts";
export { SCHEMAS, schemaOf } from "./schemas.ts";
export type { Shown, ShownProgram } from "./shown.ts";
export { screwsOf } from "./shown.ts";
export type { Calibrated, TimingPrograms } from "./timing.ts";
export { calibratedJob, timingOf } from "./timing.ts";
export { VERSION } from "./version.ts";
export type { Work } from "./work.ts";
