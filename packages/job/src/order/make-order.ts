import { orderPages, pdfText } from "@dryfit/drawing";
import { judgeDxf, withDrawingFiles, withKerf } from "@dryfit/dxf";
import { boundsOf, placeCurve } from "@dryfit/geometry";
import {
  type Assembly,
  type Design,
  type Finding,
  type Part,
  type Prices,
  readDesign,
  readPrices,
  recipe,
} from "@dryfit/joinery";
import { checkLayout, type NestJob, nest, type Sheet, stepBudget } from "@dryfit/nest";
import {
  type DrawingsToProve,
  printedJoint,
  printedWeight,
  proveDrawings,
  type SolidKernel,
} from "@dryfit/verify";
import { unreadable } from "../input.ts";
import type { PlacedFinding } from "../job.ts";
import { locksLeftOut } from "../locks.ts";
import { type OutFile, sha256Of } from "../outfile.ts";
import { spentOn } from "../papers.ts";
import { verificationOf } from "../proof-entries.ts";
import { hasErrors, type OnStage } from "../road.ts";
import { stocksOf } from "../stocks.ts";
import { checkAble } from "./able.ts";
import { type ChangedDesign, changedFor } from "./changed.ts";
import { type Drawing, drawnKerf, orderDrawings } from "./drawn.ts";
import { checkLayers } from "./layers.ts";
import type { OrderedFile, OrderedPartEntry, OrderJob } from "./order-job.ts";
import { orderPapers } from "./order-paper.ts";
import { orderFacts, orderText, rebateDepths } from "./order-text.ts";
import { readDrawings } from "./read-back.ts";
import { readService, type Service } from "./service.ts";
import { serviceCutting } from "./service-minutes.ts";

export interface OrderInput {
  readonly design: OutFile;
  readonly service: OutFile;
  /** The drawings that the design names, by the names it gives them; absent: none is at hand. */
  readonly drawings?: readonly OutFile[];
  /** What things cost; absent or null: not told. */
  readonly prices?: OutFile | null;
  /** Of the tool, for job.json. */
  readonly version: string;
}

export interface OrderMade {
  readonly outcome: "made" | "cannot" | "unreadable" | "disproved";
  /** The whole folder where `outcome` is "made", else nothing. */
  readonly files: readonly OutFile[];
  readonly job: OrderJob | null;
  readonly findings: readonly PlacedFinding[];
  /** Where the service cannot make it: the design file changed as far as is known; null where no change is. */
  readonly changed?: ChangedDesign | null;
}

/** The names of the inputs' copies in the folder. */
export const ORDER_NAMES = {
  design: "design.yaml",
  service: "service.yaml",
  prices: "keep/prices.yaml",
} as const;

/** From a design and a service to a folder that can be sent, proved from the drawings as written. */
export async function makeOrder(
  input: OrderInput,
  onStage: OnStage = () => {},
  kernel?: SolidKernel,
): Promise<OrderMade> {
  onStage("reading the design");
  const order = readOrder(input);
  if (!("assembly" in order)) return { outcome: "unreadable", files: [], job: null, findings: order };
  const { design, service, assembly, placed } = order;
  const able = hasErrors(assembly.findings) ? [] : checkAble(design, assembly, service);
  const told = [
    ...assembly.findings,
    ...able,
    ...checkLayers(assembly.parts, service),
    ...locksLeftOut(design, "in an order: the service lays the parts on sheets of its own."),
  ];
  if (hasErrors(told)) {
    const changed = hasErrors(assembly.findings) ? null : changedFor(input.design, design, service, able);
    return { outcome: "cannot", files: [], job: null, findings: told.map(placed), changed };
  }

  onStage("laying parts on sheets");
  const laid = layOut(design, assembly, service);
  const findings = [...told, ...laid.findings];
  if (hasErrors(findings)) return { outcome: "cannot", files: [], job: null, findings: findings.map(placed) };

  onStage("drawing");
  const revision = orderRevision(input, order.drawings);
  const drawings = orderDrawings({ design, service, revision, parts: assembly.parts, sheets: laid.sheets });
  return provedOrder(input, order, { drawings, findings, revision }, onStage, kernel);
}

/** All that is read of an order's inputs. */
export interface Order {
  readonly design: Design;
  /** Those that the design names, as far as they are at hand. */
  readonly drawings: readonly OutFile[];
  readonly service: Service;
  readonly prices: { readonly file: OutFile; readonly value: Prices } | null;
  readonly assembly: Assembly;
  readonly placed: (finding: Finding) => PlacedFinding;
}

/** Both files read and the case worked out, or every problem of either. */
export function readOrder(input: OrderInput): Order | readonly PlacedFinding[] {
  const design = readDesign(input.design.text, input.design.file);
  const service = readService(input.service.text, input.service.file);
  const prices = input.prices ? readPrices(input.prices.text, input.prices.file) : null;
  if (!design.ok || !service.ok || prices?.ok === false)
    return [design, service, ...(prices ? [prices] : [])].flatMap((read) =>
      read.ok ? [] : read.problems.map(unreadable),
    );
  const drawn = withDrawingFiles(design.value, input.drawings ?? []);
  const assembly = recipe(drawn.design);
  const parts = new Set(assembly.parts.map(({ id }) => id));
  const placed = (finding: Finding): PlacedFinding => {
    const { path } = finding;
    if (path.startsWith("service.")) return { ...finding, at: service.place(path.slice("service.".length)) };
    const elsewhere = /\.(dxf|svg)(:|$)/i.test(path) || parts.has(path);
    return { ...finding, at: elsewhere ? null : design.place(path) };
  };
  return {
    design: drawn.design,
    drawings: drawn.used,
    service: service.value,
    prices: prices && input.prices ? { file: input.prices, value: prices.value } : null,
    assembly,
    placed,
  };
}

/** Eight digits that change whenever anything that the papers depend on does. */
export function orderRevision(
  { design, service, prices, version }: OrderInput,
  drawings: readonly OutFile[],
): string {
  const drawn = [...(prices ? [prices] : []), ...drawings].map(({ text }) => text);
  return sha256Of([version, design.text, service.text, ...drawn].join("\0")).slice(0, 8);
}

export interface Drawn {
  readonly drawings: readonly Drawing[];
  readonly findings: readonly Finding[];
  readonly revision: string;
}

/** The proof of drawings as they are written, and the papers that tell of them. */
export async function provedOrder(
  input: OrderInput,
  { design, drawings: ownDrawings, service, prices, assembly, placed }: Order,
  { drawings, findings: before, revision }: Drawn,
  onStage: OnStage,
  kernel?: SolidKernel,
): Promise<OrderMade> {
  onStage("proving the drawings and standing the case up");
  const { parts } = assembly;
  const { layers } = service.files;
  const idle = [layers.label, layers.sheetEdge].filter((layer) => layer !== null);
  const read = readDrawings(drawings, parts, service);
  const toProve: DrawingsToProve = {
    assembly,
    drawn: read.drawn,
    densities: { [design.sheet.name]: design.sheet.density },
  };
  const proof = await proveDrawings(toProve, kernel);
  const findings = [
    ...before,
    ...drawings.flatMap(({ file, text }) =>
      judgeDxf(text, { file, referenceLayers: idle }).filter(({ severity }) => severity === "error"),
    ),
    ...read.findings,
    ...proof.findings,
  ].map(placed);
  if (hasErrors(findings)) return { outcome: "disproved", files: [], job: null, findings };

  onStage("drawing the papers");
  const words = { design, service, revision, parts, drawings };
  const pages = orderPages({
    name: design.name,
    revision,
    facts: orderFacts(words),
    parts: grouped(drawings, parts).map(({ ids, file, part }) => ({
      ids,
      file,
      part,
      depths: rebateDepths(part),
    })),
    sheets: drawings.flatMap(({ file, sheet }) => (sheet ? [sheetOf(sheet, file, parts)] : [])),
  });
  const filedFindings = findings.map((finding) => inFolder(finding, input));
  const files: readonly OutFile[] = [
    { file: ORDER_NAMES.design, text: input.design.text },
    { file: ORDER_NAMES.service, text: input.service.text },
    ...ownDrawings,
    { file: "order.txt", text: orderText(words) },
    { file: "drawing.pdf", text: pdfText(`${design.name}: order`, pages) },
    ...drawings.map(({ file, text }) => ({ file, text })),
    ...(prices ? [{ file: ORDER_NAMES.prices, text: prices.file.text }] : []),
    ...orderPapers(words, assembly, proof, filedFindings, prices).map(({ file, text }) => ({
      file: `keep/${file}`,
      text,
    })),
  ];
  const job: OrderJob = {
    name: design.name,
    units: "mm",
    kind: "order",
    tool: { name: "dryfit", version: input.version },
    design: { file: ORDER_NAMES.design, sha256: sha256Of(input.design.text) },
    service: { file: ORDER_NAMES.service, sha256: sha256Of(input.service.text), name: service.name },
    revision,
    material: design.sheet.name,
    thickness: design.sheet.thickness,
    kerf: service.kerf,
    cutting: serviceCutting(parts, service),
    drawings: drawings.map(filed),
    parts: parts.map((part) => entryOf(part, service)),
    joints: proof.joints.map(printedJoint),
    verification: verificationOf(proof),
    ...spentOn({ design, prices }, { assembly }, { sheets: [], minutes: 0 }),
    weightKg: printedWeight(proof),
    findings: filedFindings,
    files: files.map(({ file, text }) => ({ file, sha256: sha256Of(text) })),
  };
  const manifest = { file: "job.json", text: `${JSON.stringify(job, null, 2)}\n` };
  return { outcome: "made", files: [manifest, ...files], job, findings };
}

/** What nesting may spend: a few tenths of a second, and the same layout everywhere. */
const NEST_STEPS = 2500;

/** Sheets that the service can hold, with its kerf and its least wood between the parts. */
function layOut(
  design: Design,
  { parts }: Assembly,
  service: Service,
): { readonly sheets: readonly Sheet[]; readonly findings: readonly Finding[] } {
  if (service.files.layout === "single") return { sheets: [], findings: [] };
  const [x, y] = service.sheet.largest;
  const job: NestJob = {
    parts,
    stocks: stocksOf(design).filter(({ size: [a, b] }) => (a <= x && b <= y) || (b <= x && a <= y)),
    rules: {
      spacing: service.kerf.width + Math.max(design.sheet.web, service.smallest.web),
      margin: design.sheet.margin,
    },
    seed: 1,
  };
  const layout = nest(job, { budget: stepBudget(NEST_STEPS) });
  return { sheets: layout.sheets, findings: [...layout.findings, ...checkLayout(job, layout)] };
}

/** Parts on one page each: those that one contour cuts share it. */
function grouped(drawings: readonly Drawing[], parts: readonly Part[]) {
  return drawings.flatMap(({ file, parts: ids, sheet }) => {
    const groups = sheet ? ids.map((id) => [id]) : [ids];
    return groups.flatMap((group) => {
      const part = parts.find(({ id }) => id === group[0]);
      return part ? [{ ids: group, file, part }] : [];
    });
  });
}

function sheetOf({ id, stock, parts: placed }: Sheet, file: string, parts: readonly Part[]) {
  return {
    id,
    file,
    size: stock.size,
    outlines: placed.flatMap(({ part, placement }) => {
      const found = parts.find((one) => one.id === part);
      return found ? [{ id: part, loop: placeCurve(placement, found.outline) }] : [];
    }),
  };
}

function filed({ file, count, parts, sheet }: Drawing): OrderedFile {
  return {
    file,
    count,
    parts,
    sheet: sheet && {
      id: sheet.id,
      size: sheet.stock.size,
      placed: sheet.parts.map(({ part, placement: { quarters, angle, shift } }) => ({
        part,
        turnDeg: quarters * 90 + (angle * 180) / Math.PI,
        shift: [shift.x, shift.y],
      })),
    },
  };
}

function entryOf(part: Part, service: Service): OrderedPartEntry {
  return {
    id: part.id,
    panel: part.panel,
    upFace: part.faceNames.A,
    size: sizeOf(part),
    drawn: sizeOf(withKerf(part, drawnKerf(service))),
  };
}

function sizeOf({ outline }: Part): readonly [number, number] {
  const { min, max } = boundsOf(outline);
  return [round(max.x - min.x), round(max.y - min.y)];
}

/** Its place named as the folder names the file: where the inputs lay before makes no difference to the job. */
function inFolder(finding: PlacedFinding, input: OrderInput): PlacedFinding {
  const { at } = finding;
  const kind = (["design", "service"] as const).find((each) => input[each].file === at?.file);
  return at && kind ? { ...finding, at: { ...at, file: ORDER_NAMES[kind] } } : finding;
}

/** The last decimal place that we print; no −0. */
function round(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
