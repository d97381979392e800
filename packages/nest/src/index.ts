export { checkLayout, regionOfPart } from "./check.ts";
export type { Layout, NestJob, NestRules, PlacedPart, Sheet, Stock } from "./layout.ts";
export { nest } from "./nest.ts";
export type { Turn } from "./turns.ts";
