import { dark, drawingStyle, light, paletteCss } from "@dryfit/drawing";

/** The colours of paper and ink, and the line kinds, from where the papers have them. */
export function paperStyle(): string {
  return `
:root { ${paletteCss(light)} }
@media (prefers-color-scheme: dark) { :root { ${paletteCss(dark)} } }
@media print { :root { ${paletteCss({ ...light, paper: "#FFFFFF" })} } }
${drawingStyle()}
`;
}
