import { createHash } from "node:crypto";
import { mkdir, mkdtemp, readdir, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { basename, dirname, join, relative, resolve } from "node:path";
import type { OutFile } from "@dryfit/job";
import { Failure } from "./failure.ts";

const MANIFEST = "job.json";

/**
 * Writes all files or none: into a new folder beside `dir`, then a rename.
 *
 * Errors: Failure where `dir` holds anything that dryfit did not write or that was changed since,
 * and where the disk refuses; `dir` is then as it was.
 */
export async function writeFolder(dir: string, files: readonly OutFile[]): Promise<void> {
  await refuseTaken(dir);
  const target = resolve(dir);
  const parent = dirname(target);
  let fresh: string | null = null;
  try {
    await mkdir(parent, { recursive: true });
    fresh = await mkdtemp(join(parent, `.${basename(target)}-making-`));
    for (const { file, text } of files) {
      const path = join(fresh, file);
      await mkdir(dirname(path), { recursive: true });
      await writeFile(path, text);
    }
    await exchange(fresh, target);
    fresh = null;
  } catch (error) {
    throw error instanceof Failure ? error : new Failure(`Could not write ${dir}: ${sentence(error)}`);
  } finally {
    if (fresh !== null) await rm(fresh, { recursive: true, force: true });
  }
}

/** Where a command leaves its files unless told otherwise: "out/case-saw" for `kind` "saw" of "case.yaml". */
export function folderFor(file: string, kind?: string): string {
  const name = basename(file).replace(/\.ya?ml$/i, "");
  return join("out", kind === undefined ? name : `${name}-${kind}`);
}

/** Every file of a folder, relative paths sorted. */
export async function readFolder(dir: string): Promise<OutFile[]> {
  const names = await listFolder(dir);
  return Promise.all(names.map(async (file) => ({ file, text: await readText(join(dir, file)) })));
}

async function listFolder(dir: string): Promise<string[]> {
  try {
    const entries = await readdir(dir, { recursive: true, withFileTypes: true });
    return entries
      .filter((entry) => !entry.isDirectory())
      .map((entry) => relative(dir, join(entry.parentPath, entry.name)).replaceAll("\\", "/"))
      .sort();
  } catch (error) {
    throw new Failure(`Could not read ${dir}: ${sentence(error)}`);
  }
}

/**
 * To be asked before the work too, so that nobody waits for what then cannot be written.
 *
 * Errors: Failure where `dir` is a file, or holds anything that dryfit did not write or that was changed since.
 */
export async function refuseTaken(dir: string): Promise<void> {
  const target = resolve(dir);
  const kind = await stat(target).catch(() => null);
  if (kind === null) return;
  if (!kind.isDirectory()) throw new Failure(`${dir} is a file, not a folder. Name another with --out.`);
  const found = await listFolder(target);
  if (found.length === 0) return;
  const ours = await manifest(target);
  if (ours === null)
    throw new Failure(
      `${dir} holds files that dryfit did not write (${some(found)}). Empty it or name another folder with --out.`,
    );
  const strangers: string[] = [];
  for (const file of found) {
    if (file === MANIFEST) continue;
    const known = ours.get(file);
    const hash = createHash("sha256")
      .update(await readFile(join(target, file)))
      .digest("hex");
    if (known !== hash) strangers.push(file);
  }
  if (strangers.length > 0)
    throw new Failure(
      `${dir} holds files that dryfit did not write, or that were changed since (${some(strangers)}). ` +
        "Move them away or name another folder with --out.",
    );
}

/** File → SHA-256 as our own job.json lists them; null where there is none of ours. */
async function manifest(dir: string): Promise<Map<string, string> | null> {
  try {
    const job = JSON.parse(await readFile(join(dir, MANIFEST), "utf8"));
    if (job.tool?.name !== "dryfit" || !Array.isArray(job.files)) return null;
    return new Map(job.files.map((f: { file: string; sha256: string }) => [f.file, f.sha256]));
  } catch {
    return null;
  }
}

/** Puts `fresh` where `target` is; should the second step fail, the first is taken back. */
async function exchange(fresh: string, target: string): Promise<void> {
  const exists = (await stat(target).catch(() => null)) !== null;
  if (!exists) return rename(fresh, target);
  const old = `${fresh}-old`;
  await rename(target, old);
  try {
    await rename(fresh, target);
  } catch (error) {
    await rename(old, target);
    throw error;
  }
  await rm(old, { recursive: true, force: true });
}

function some(names: readonly string[]): string {
  const shown = names.slice(0, 3).join(", ");
  return names.length > 3 ? `${shown} and ${names.length - 3} more` : shown;
}

function sentence(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === "ENOENT") return "there is no such file or folder.";
  if (code === "EACCES" || code === "EPERM") return "not permitted.";
  if (code === "ENOSPC") return "the disk is full.";
  if (code === "EISDIR") return "it is a folder.";
  if (code === "ENOTDIR") return "a part of the path is a file.";
  return error instanceof Error ? error.message : String(error);
}

/** The text of a file, or a Failure that says why not. */
export async function readText(file: string): Promise<string> {
  try {
    return await readFile(file, "utf8");
  } catch (error) {
    throw new Failure(`Could not read ${file}: ${sentence(error)}`);
  }
}
