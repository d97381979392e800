import { randomBytes } from "node:crypto";
import { once } from "node:events";
import { rename, writeFile } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { basename, dirname, join, resolve } from "node:path";
import type { OutFile } from "@dryfit/job";
import { boardPage } from "./board-page.ts";
import { designFile } from "./design-file.ts";
import { EXIT, type ExitCode, Failure } from "./failure.ts";
import { readText } from "./folder.ts";

/** `dryfit board`: serves the drawing board to this computer alone, with a design on it, until Ctrl-C. */
export async function board(
  designFile: string | undefined,
  options: { readonly port?: string },
): Promise<ExitCode> {
  const port = portOf(options.port);
  const design = designFile === undefined ? null : await openDesign(designFile);
  const page = await boardPage();
  const token = randomBytes(16).toString("hex");
  const server = createServer((request, response) => {
    answer(request, response, { token, page, design }).catch((error: unknown) =>
      end(response, 500, error instanceof Error ? error.message : String(error)),
    );
  });
  await listen(server, port);
  const stopped = once(process, "SIGINT").then(() => EXIT.made);
  const what = designFile === undefined ? "The drawing board" : `The drawing board with ${designFile}`;
  process.stdout.write(`${what}: ${addressOf(server)}/${token}/\nCtrl-C stops it.\n`);
  const code = await stopped;
  server.close();
  server.closeAllConnections();
  return code;
}

interface Desk {
  /** Leads every path: a page of another origin cannot guess it. */
  readonly token: string;
  readonly page: string;
  readonly design: OpenDesign | null;
}

interface OpenDesign {
  readonly name: string;
  readonly path: string;
  /** The text as this desk last read or wrote it. */
  known: string;
}

async function openDesign(file: string): Promise<OpenDesign> {
  return { name: basename(file), path: resolve(file), known: await readText(file) };
}

async function answer(request: IncomingMessage, response: ServerResponse, desk: Desk): Promise<void> {
  if (!isFromHere(request))
    return end(response, 403, "This board answers its own page on this computer only.");
  const path = new URL(request.url ?? "/", "http://board").pathname;
  if (path === `/${desk.token}/` && request.method === "GET") return sendPage(response, desk);
  if (path === `/${desk.token}/design` && request.method === "PUT" && desk.design)
    return saveDesign(request, response, desk.design);
  end(response, 404, "There is nothing here.");
}

/**
 * Whether a request names this server and comes from its own page: a name that another site points at 127.0.0.1
 * shows in Host, a page of another site in Origin.
 */
function isFromHere({ headers, method, socket }: IncomingMessage): boolean {
  const hosts = ["127.0.0.1", "localhost"].map((name) => `${name}:${socket.localPort}`);
  if (!hosts.includes(headers.host ?? "")) return false;
  const { origin } = headers;
  if (origin === undefined) return method === "GET";
  return origin === `http://${headers.host}`;
}

async function sendPage(response: ServerResponse, { page, design, token }: Desk): Promise<void> {
  const served = design && { ...(await readAnew(design)), file: design.name, url: `/${token}/design` };
  // No text of a design can end the element that holds it.
  const json = served && JSON.stringify(served).replaceAll("<", "\\u003c");
  const script = json ? `<script type="application/json" id="served">${json}</script>` : "";
  response.writeHead(200, {
    "content-type": "text/html; charset=utf-8",
    "cache-control": "no-store",
    "content-security-policy": POLICY,
    "referrer-policy": "no-referrer",
    "x-content-type-options": "nosniff",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
  });
  response.end(page.replace("</head>", () => `${script}</head>`));
}

/** The design and the drawings beside it, as they are now. */
async function readAnew(
  open: OpenDesign,
): Promise<{ readonly text: string; readonly drawings: readonly OutFile[] }> {
  const { design, drawings } = await designFile(open.path);
  open.known = design.text;
  return { text: design.text, drawings };
}

/** The page holds all that it needs: it may reach this server and nothing else. */
const POLICY = [
  "default-src 'none'",
  "script-src 'unsafe-inline' 'unsafe-eval' blob:",
  "style-src 'unsafe-inline'",
  "worker-src blob:",
  "connect-src 'self'",
  "img-src data: blob:",
  "frame-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

/** Writes the text beside the file and then puts it in its place; never over what someone else wrote there since. */
async function saveDesign(
  request: IncomingMessage,
  response: ServerResponse,
  design: OpenDesign,
): Promise<void> {
  const text = await bodyOf(request);
  if (text === null) return end(response, 413, "That is larger than any design file.");
  const onDisk = await readText(design.path).catch(() => null);
  if (onDisk !== null && onDisk !== design.known) {
    const advice = "Reload the page to see that, or save this one under another name.";
    return end(response, 409, `${design.name} was changed by another program since. ${advice}`);
  }
  const fresh = join(dirname(design.path), `.${design.name}-saving-${randomBytes(4).toString("hex")}`);
  await writeFile(fresh, text, { flag: "wx" });
  await rename(fresh, design.path);
  design.known = text;
  end(response, 200, "Saved.");
}

async function bodyOf(request: IncomingMessage): Promise<string | null> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request) {
    size += (chunk as Buffer).length;
    if (size > BODY_MAX) return null;
    chunks.push(chunk as Buffer);
  }
  return Buffer.concat(chunks).toString("utf8");
}

const BODY_MAX = 2_000_000;

function end(response: ServerResponse, status: number, text: string): void {
  response.writeHead(status, { "content-type": "text/plain; charset=utf-8", "cache-control": "no-store" });
  response.end(text);
}

function portOf(text: string | undefined): number {
  if (text === undefined) return 0;
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65535) return port;
  throw new Failure(`--port ${text}: a whole number from 0 to 65535; 0 takes a free one.`);
}

async function listen(server: Server, port: number): Promise<void> {
  server.listen(port, "127.0.0.1");
  try {
    await once(server, "listening");
  } catch (error) {
    const isTaken = (error as NodeJS.ErrnoException).code === "EADDRINUSE";
    throw new Failure(
      isTaken
        ? `Port ${port} is taken. Leave --port away to have a free one.`
        : `Could not serve on port ${port}: ${(error as Error).message}`,
    );
  }
}

function addressOf(server: Server): string {
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
}
