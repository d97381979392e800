import { cosine, polyline, rectangle, sine } from "@dryfit/geometry";
import { curveOperators } from "./curve.ts";
import { figure } from "./figure.ts";
import type { PdfColour, PdfMark, PdfPage, PdfStroke } from "./mark.ts";
import { pdfString, textWidth } from "./text.ts";

/**
 * Pages as the text of a PDF file, true to scale: one mm on the page is one mm on paper printed at actual size.
 *
 * Plain ASCII throughout, no dates, no random identifiers: the same pages give the same bytes, and a text file's
 * way to the disk cannot harm them. Source: ISO 32000-1.
 */
export function pdfText(title: string, pages: readonly PdfPage[]): string {
  const first = FIXED + 1;
  const objects = [
    "<< /Type /Catalog /Pages 2 0 R >>",
    `<< /Type /Pages /Count ${pages.length} /Kids [${pages.map((_, i) => `${first + 2 * i} 0 R`).join(" ")}] >>`,
    font("Helvetica"),
    font("Helvetica-Bold"),
    `<< /Title ${pdfString(title)} /Producer (dryfit) >>`,
    ...pages.flatMap((page, i) => [pageObject(page, first + 2 * i + 1), stream(contentOf(page))]),
  ];
  let text = "%PDF-1.4\n";
  const offsets = objects.map((object, i) => {
    const offset = text.length;
    text += `${i + 1} 0 obj\n${object}\nendobj\n`;
    return offset;
  });
  const entries = offsets.map((offset) => `${String(offset).padStart(10, "0")} 00000 n \n`);
  return (
    `${text}xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${entries.join("")}` +
    `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R /Info 5 0 R >>\nstartxref\n${text.length}\n%%EOF\n`
  );
}

/** Catalogue, page list, two fonts, title. */
const FIXED = 5;

/** A PDF counts in 72nds of an inch. */
const pointsPerMm = 72 / 25.4;

function font(name: string): string {
  return `<< /Type /Font /Subtype /Type1 /BaseFont /${name} /Encoding /WinAnsiEncoding >>`;
}

function pageObject({ size }: PdfPage, content: number): string {
  const [width, height] = size.map((mm) => figure(mm * pointsPerMm));
  return (
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 ${width} ${height}] /Contents ${content} 0 R ` +
    "/Resources << /Font << /F1 3 0 R /F2 4 0 R >> >> >>"
  );
}

function stream(content: string): string {
  return `<< /Length ${content.length} >>\nstream\n${content}\nendstream`;
}

function contentOf({ marks }: PdfPage): string {
  const scale = figure(pointsPerMm, 10);
  return [`${scale} 0 0 ${scale} 0 0 cm`, "1 J 1 j", ...marks.flatMap(operators)].join("\n");
}

function operators(mark: PdfMark): readonly string[] {
  switch (mark.kind) {
    case "stroke":
      return [...pencil(mark.style), ...mark.curves.flatMap(curveOperators), "S"];
    case "fill":
      return [`${colour(mark.colour)} rg`, ...mark.curves.flatMap(curveOperators), "f*"];
    case "text":
      return textOperators(mark);
    case "within":
      return ["q", ...mark.curves.flatMap(curveOperators), "W* n", ...mark.marks.flatMap(operators), "Q"];
    case "group": {
      const { clip, scale, shift, marks } = mark;
      return [
        "q",
        ...(clip ? [...curveOperators(rectangle(clip.min, clip.max)), "W n"] : []),
        `${figure(scale.x, 10)} 0 0 ${figure(scale.y, 10)} ${figure(shift.x)} ${figure(shift.y)} cm`,
        ...marks.flatMap(operators),
        "Q",
      ];
    }
  }
}

function textOperators(mark: Extract<PdfMark, { kind: "text" }>): readonly string[] {
  const { text, at, size, anchor = "start", bold = false, angle = 0, halo = 0 } = mark;
  const back = textWidth(text, size, bold) * { start: 0, middle: 0.5, end: 1 }[anchor];
  const [cos, sin] = [cosine(angle), sine(angle)];
  const matrix = [cos, sin, -sin, cos, at.x - back * cos, at.y - back * sin];
  const words = [
    "BT",
    `/${bold ? "F2" : "F1"} ${figure(size)} Tf`,
    `${matrix.map((n) => figure(n)).join(" ")} Tm`,
    `${pdfString(text)} Tj`,
    "ET",
  ];
  const round = halo > 0 ? [...pencil({ width: halo, colour: [1, 1, 1] }), "1 Tr", ...words, "0 Tr"] : [];
  return [...round, `${colour(mark.colour ?? BLACK)} rg`, ...words];
}

const BLACK: PdfColour = [0, 0, 0];

function pencil({ width, dash = [], colour: drawn = BLACK }: PdfStroke): readonly string[] {
  return [`${figure(width)} w`, `[${dash.map((d) => figure(d)).join(" ")}] 0 d`, `${colour(drawn)} RG`];
}

function colour(channels: PdfColour): string {
  return channels.map((channel) => figure(channel, 3)).join(" ");
}

/** A straight stroke. */
export function line(x0: number, y0: number, x1: number, y1: number, style: PdfStroke): PdfMark {
  return {
    kind: "stroke",
    curves: [
      polyline([
        { x: x0, y: y0 },
        { x: x1, y: y1 },
      ]),
    ],
    style,
  };
}
