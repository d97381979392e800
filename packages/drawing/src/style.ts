import { dark, light, paletteCss } from "./palette.ts";

/**
 * Line kinds of the sheet (ISO 128): weights in mm of paper, patterns before colours.
 * Scoped to `.drawing`, so that several drawings and their page share it.
 */
export function drawingStyle(): string {
  return `
.drawing { ${paletteCss(light)} background: var(--paper); color: var(--ink); font-family: system-ui, -apple-system, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; font-variant-numeric: tabular-nums; }
@media (prefers-color-scheme: dark) { .drawing { ${paletteCss(dark)} } }
@media print { .drawing { ${paletteCss({ ...light, paper: "#FFFFFF" })} } }
.drawing .paper { fill: var(--paper); }
.drawing text { fill: var(--ink); stroke: none; }
.drawing .border { fill: none; stroke: var(--ink); stroke-width: .7; }
.drawing .frame { fill: none; stroke: var(--ink); stroke-width: .35; }
.drawing .frame.thin, .drawing .rule { fill: none; stroke: var(--ink); stroke-width: .18; }
.drawing .sheet { fill: var(--ink); fill-opacity: .06; stroke: var(--ink); stroke-width: .35; }
.drawing .part { fill: var(--paper); stroke: none; }
.drawing .grain { fill: none; stroke: var(--pencil); stroke-width: .13; stroke-opacity: .45; }
.drawing .outline { fill: none; stroke: var(--ink); stroke-width: .5; stroke-linejoin: round; }
.drawing .opening { fill: var(--paper); stroke: var(--ink); stroke-width: .5; }
.drawing .waste { fill: var(--ink); fill-opacity: .06; stroke: none; }
.drawing .tick { stroke: var(--ink); stroke-width: .25; }
.drawing .recess { stroke: var(--recess); stroke-width: .35; }
.drawing .face-b { stroke: var(--faceB); }
.drawing .hidden { stroke-dasharray: 2.4 1.2; }
.drawing .hatch { fill: none; stroke: var(--recess); stroke-width: .18; }
.drawing .hatch.face-b { stroke: var(--faceB); }
.drawing .solid { fill: var(--paper); stroke: var(--ink); stroke-width: .5; stroke-linejoin: round; }
.drawing .slab-side { fill: var(--paper); stroke: none; }
.drawing .slab-edge { fill: none; stroke: var(--ink); stroke-width: .35; stroke-linecap: round; }
.drawing .slab-recess { fill: var(--recess); fill-opacity: .14; stroke: var(--recess); stroke-width: .25; fill-rule: evenodd; }
.drawing .hidden-edge { fill: none; stroke: var(--ink); stroke-width: .18; stroke-dasharray: 2 1; }
.drawing .cut-wood { stroke: var(--ink); stroke-width: .5; stroke-linejoin: round; }
.drawing .cut-hatch { stroke: var(--ink); stroke-width: .18; }
.drawing .bore { fill: none; stroke: var(--ink); stroke-width: .35; }
.drawing .centre { fill: none; stroke: var(--ink); stroke-width: .18; stroke-dasharray: 2.4 .6 .5 .6; }
.drawing .rapid { fill: none; stroke: var(--pencil); stroke-width: .13; stroke-linecap: round; stroke-dasharray: 0 .6; }
.drawing .cut { fill: none; stroke: var(--path); stroke-linejoin: round; stroke-linecap: round; }
.drawing .cut .head { fill: var(--ink); stroke: none; }
.drawing .cut-end { fill: var(--paper); stroke: var(--ink); stroke-width: .18; }
.drawing .tab { fill: none; stroke: var(--ink); stroke-width: .35; }
.drawing .fold { fill: none; stroke: var(--ink); stroke-width: .25; stroke-dasharray: 8 1.2 .6 1.2 .6 1.2; }
.drawing .keep-out { fill: none; stroke: var(--error); stroke-width: .35; stroke-dasharray: 2.4 1.2; }
.drawing .dimension { fill: none; stroke: var(--ink); stroke-width: .18; }
.drawing .head { fill: var(--ink); stroke: none; }
.drawing .leader { fill: none; stroke: var(--ink); stroke-width: .18; }
.drawing .note text, .drawing .dimension text { paint-order: stroke; stroke: var(--paper); stroke-width: .9; stroke-linejoin: round; }
.drawing .proved { fill: var(--proved); stroke: none; }
.drawing .refused { fill: var(--error); stroke: none; }
.drawing .on-mark { fill: none; stroke: var(--paper); stroke-width: .6; stroke-linecap: round; stroke-linejoin: round; }
`.trim();
}
