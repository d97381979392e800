/** Colours of the sheet. Marks are the set of Okabe and Ito, which colour-blind people tell apart. */
export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly pencil: string;
  readonly recess: string;
  readonly proved: string;
  readonly error: string;
  readonly warning: string;
  readonly faceB: string;
  readonly path: string;
}

export const light: Palette = {
  paper: "#FBFAF6",
  ink: "#1C2B39",
  pencil: "#6B7680",
  recess: "#0072B2",
  proved: "#009E73",
  error: "#D55E00",
  warning: "#E69F00",
  faceB: "#CC79A7",
  path: "#56B4E9",
};

/** The same sheet by lamplight: paper and ink change places, the marks stay. */
export const dark: Palette = { ...light, paper: "#161B20", ink: "#E8E4DA", pencil: "#97A1AA" };

/** Contrast of two colours, 1 to 21. Source: WCAG 2.1, relative luminance. */
export function contrast(a: string, b: string): number {
  const [dim, bright] = [luminance(a), luminance(b)].sort((p, q) => p - q) as [number, number];
  return (bright + 0.05) / (dim + 0.05);
}

/** Custom properties for a style sheet: `--paper: #FBFAF6; …`. */
export function paletteCss(palette: Palette): string {
  return Object.entries(palette)
    .map(([name, colour]) => `--${name}: ${colour};`)
    .join(" ");
}

function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
