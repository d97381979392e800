import { dark, light, paletteCss } from "./palette.ts";

/** The bench paper's own style: a sheet on screen, plain pages from the printer. No fonts or files from elsewhere. */
export function pageStyle(): string {
  return `
:root { color-scheme: light dark; ${paletteCss(light)} }
@media (prefers-color-scheme: dark) { :root { ${paletteCss(dark)} } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 15px/1.5 system-ui, -apple-system, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; font-variant-numeric: tabular-nums; }
main { max-width: 1100px; margin: 24px auto; padding: 28px 36px; border: 2px solid var(--ink); }
h1 { font-size: 2rem; line-height: 1.1; margin: 0; }
h2 { font-size: 1.15rem; margin: 2.2em 0 .6em; padding-bottom: .2em; border-bottom: 1px solid var(--ink); break-after: avoid; }
h3 { font-size: 1rem; margin: 1.2em 0 .3em; break-after: avoid; }
p, li { max-width: 46em; }
a { color: inherit; }
.block { display: flex; flex-wrap: wrap; border: 1.5px solid var(--ink); overflow: hidden; }
.block > * { flex: 1 1 22%; max-width: none; padding: .35em .7em; border-bottom: 1px solid var(--ink); border-left: 1px solid var(--ink); margin: 0 0 -1px -1px; }
.block .verdict { flex-basis: 100%; font-weight: 600; font-size: 1.1rem; display: flex; gap: .6em; align-items: center; padding: .7em; }
.block .name { flex-basis: 45%; padding: .15em .35em; }
.block .subject { flex-basis: 45%; text-align: right; font-size: 1.2rem; }
.block small { display: block; font-size: .75rem; }
.mark { flex: none; width: 1.5em; height: 1.5em; }
.mark .proved { fill: var(--proved); } .mark .refused { fill: var(--error); } .mark path { fill: none; stroke: var(--paper); stroke-width: 2; stroke-linecap: round; stroke-linejoin: round; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .93rem; break-inside: auto; }
th, td { text-align: left; padding: .28em .7em .28em .2em; border-bottom: 1px solid var(--pencil); vertical-align: top; }
thead th { border-bottom: 1.5px solid var(--ink); border-top: 1.5px solid var(--ink); }
tr { break-inside: avoid; }
.figure { text-align: right; white-space: nowrap; }
.blank { min-width: 6em; border-bottom: 1px dotted var(--ink); }
ol.steps > li, ul.checks > li { margin: .35em 0; }
ul.checks { list-style: none; padding: 0; }
ul.checks > li { padding-left: 1.8em; position: relative; }
ul.checks > li::before { content: ""; position: absolute; left: 0; top: .28em; width: .9em; height: .9em; border: 1.5px solid var(--ink); }
ul.findings { list-style: none; padding: 0; }
ul.findings > li { display: flex; gap: .7em; margin: .5em 0; }
.balloon { flex: none; width: 1.7em; height: 1.7em; border-radius: 50%; text-align: center; line-height: 1.5em; font-weight: 600; border: 1.5px solid transparent; }
.balloon.error { background: var(--ink); color: var(--paper); border-color: var(--ink); }
.balloon.warning { border-color: var(--ink); outline: 1.5px solid var(--ink); outline-offset: 2px; }
.balloon.note { border-color: var(--pencil); }
figure { margin: 1em 0; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { font-size: .85rem; }
.caution { border: 1.5px solid var(--ink); padding: .4em 1em; }
@page { margin: 12mm; }
@media print { :root { ${paletteCss({ ...light, paper: "#FFFFFF" })} } body { font-size: 10.5pt; } main { border: 0; margin: 0; padding: 0; max-width: none; } #case, #sheets, .page, figure.wide + figure.wide { break-before: page; } .scroll { overflow: visible; } }
@media (max-width: 700px) { main { padding: 16px; border: 0; margin: 0; } .block > * { flex-basis: 45%; } .block .name, .block .subject { flex-basis: 100%; text-align: left; } }
`.trim();
}
