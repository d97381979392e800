export type { Layout, NestJob, NestRules, PlacedPart, Sheet, Stock } from "./layout.ts";
