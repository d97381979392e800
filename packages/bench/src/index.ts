export { checkSawPlan } from "./check-saw-plan.ts";
export { checkTemplates } from "./check-templates.ts";
export { chooseInside, type Fit, guideWords, type Wanted } from "./choose.ts";
export { type DrilledHole, drilledHoles } from "./drilling.ts";
export { type FenceSetting, fenceSetting, spacersFor } from "./fence.ts";
export { type BenchFindingCode, benchFindingMeanings } from "./findings.ts";
export {
  cornerRelief,
  fenceOffset,
  finishedHole,
  finishedRadius,
  guideOffset,
  insideTemplate,
  leftInCorner,
  outsideTemplate,
  type Pair,
  routedInside,
  routedOutside,
  tightestCorner,
  withKerf,
} from "./guide.ts";
export { makeSawPlan, type SawInput, type SawMade, type SawPlanJob } from "./make-saw-plan.ts";
export { makeTemplates, type TemplatesInput, type TemplatesMade } from "./make-templates.ts";
export { type BenchPlan, planBench } from "./plan.ts";
export { handToolsJsonSchema, readHandTools } from "./read-tools.ts";
export { type Slot, slotsOf } from "./slots.ts";
export type { Step, StepFigure } from "./step.ts";
export { grooveFences, passesTo, type Rebate, type RebateSetting, rebateSetting } from "./table.ts";
export type { Template, TemplateUse } from "./template.ts";
export { boardOf, templateDxf } from "./template-dxf.ts";
export type { BenchFinding, TemplatesJob, TextFile } from "./templates-job.ts";
export type { Bearing, Bush, Guide, HandCutter, HandTools } from "./tools.ts";
