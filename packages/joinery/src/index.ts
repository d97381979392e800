export type { DesignEdit, Layered } from "./as-layered.ts";
export { asLayered } from "./as-layered.ts";
export type { Assembly, Box3, Direction, Joint, Point3, Pose } from "./assembly.ts";
export type { CouponForm, CutWay } from "./coupon.ts";
export { coupon, couponWays, kerfCoupon } from "./coupon.ts";
export type { CouponTrials, Trial } from "./coupon-trials.ts";
export { couponLetter, couponTrials, kerfTrials } from "./coupon-trials.ts";
export type { CutListLine } from "./cut-list.ts";
export { cutList, workedFaces } from "./cut-list.ts";
export type {
  CheekRules,
  CrestRules,
  Design,
  EdgeName,
  EdgeRules,
  FootRules,
  Inside,
  JointRules,
  LockedPart,
  OpeningRules,
  Relief,
  SheetMaterial,
  SheetSize,
  TierRules,
  Units,
} from "./design.ts";
export { designText } from "./design-text.ts";
export type { DrawingPlace, DrawingRef, DrawnShape } from "./drawing.ts";
export { drawingPlaces, withDrawings } from "./drawing.ts";
export { edgeNames } from "./edges.ts";
export type { Explanation } from "./explain.ts";
export { explain, explanationText } from "./explain.ts";
export { lengthIn, oneOf } from "./file-values.ts";
export type { Finding, Severity } from "./finding.ts";
export type { FindingCode } from "./findings.ts";
export { findingCodes, findingMeanings } from "./findings.ts";
export type { FinishPlan } from "./finish.ts";
export { waitingHours } from "./finish.ts";
export type { HardwareLine } from "./hardware.ts";
export { hardware } from "./hardware.ts";
export { formatLength, lengthInMm, mmPerInch, parseLength } from "./length.ts";
export type { CaseNumbers, RailStyle, Span } from "./numbers.ts";
export { numbersOf } from "./numbers.ts";
export type { EdgePlace } from "./openings.ts";
export { edgePlaces, edgesOn, panelsOf } from "./openings.ts";
export type { Bore, Face, Feature, Opening, Part, Recess, RoundOver, Thickness } from "./part.ts";
export { boxInCase, caseFromPanel, panelFromCase } from "./pose.ts";
export type { Preset, PresetName, ShapeName } from "./presets.ts";
export { presetNames, presets } from "./presets.ts";
export type { Cost, Prices, Used } from "./prices.ts";
export { costOf, finishOf, pricesJsonSchema, readPrices } from "./prices.ts";
export { designJsonSchema, readDesign } from "./read-design.ts";
export { recipe } from "./recipe.ts";
export { slotEnd } from "./slot-end.ts";
export { starterDesign } from "./starter.ts";
export { named, together } from "./together.ts";
export { areaOfPart, volumeOf, weightOf } from "./weight.ts";
export type { Plain } from "./yaml-edit.ts";
export { withItem, without, withValue, writtenAt } from "./yaml-edit.ts";
export type { FileProblem, Place, Read } from "./yaml-file.ts";
export { readYaml } from "./yaml-file.ts";
