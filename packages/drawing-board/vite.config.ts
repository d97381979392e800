import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { deflateRawSync } from "node:zlib";
import { build, defineConfig, type Plugin } from "vite";
import { viteSingleFile } from "vite-plugin-singlefile";

/** One file that opens from disk: script, style, worker and solid modeller are all in the page. */
export default defineConfig({
  root: fileURLToPath(new URL(".", import.meta.url)),
  build: { outDir: "dist", emptyOutDir: false, target: "es2023", rollupOptions: { input: "board.html" } },
  plugins: [packed(), viteSingleFile(), packedPage()],
});

/** The page's own script deflated as well: a third of the letters, unpacked by the browser itself before it paints. */
function packedPage(): Plugin {
  return {
    name: "packed-page",
    enforce: "post",
    generateBundle: {
      // After the script has been put into the page.
      order: "post",
      handler(_, bundle) {
        const page = bundle["board.html"];
        if (page?.type !== "asset") throw new RangeError("board.html was not built");
        const html = String(page.source);
        const [element, code] = /<script type="module"[^>]*>([\s\S]*?)<\/script>/.exec(html) ?? [];
        if (!element || !code) throw new RangeError("board.html holds no script");
        const own = base64(`(()=>{${code}})()`);
        const scripts = `<script type="text/plain" id="packed">${own}</script><script>(${unpack})()</script>`;
        page.source = html.replace(element, "").replace("</body>", () => `${scripts}</body>`);
      },
    },
  };
}

/** Runs in the page, as it stands here. */
const unpack = `async () => {
  const letters = atob(document.getElementById("packed").textContent);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = letters.charCodeAt(i);
  let text;
  try {
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
    text = await new Response(stream).text();
  } catch {
    document.getElementById("board").textContent = "This browser is too old for the drawing board.";
    return;
  }
  document.head.append(Object.assign(document.createElement("script"), { textContent: text }));
}`;

/**
 * `import text from "./file.ts?packed"`: the script and all that it imports as one classic script, deflated, in
 * base64. The worker and the 3D view weigh a third this way, and neither is looked at before it is needed.
 */
function packed(): Plugin {
  return {
    name: "packed",
    enforce: "pre",
    async resolveId(id, importer) {
      if (!id.endsWith("?packed")) return null;
      const resolved = await this.resolve(id.slice(0, -"?packed".length), importer);
      return resolved && `\0packed:${resolved.id}`;
    },
    async load(id) {
      if (!id.startsWith("\0packed:")) return null;
      const { code, watched } = await script(id.slice("\0packed:".length));
      for (const file of watched) this.addWatchFile(file);
      return `export default ${JSON.stringify(base64(code))};`;
    },
  };
}

async function script(
  entry: string,
): Promise<{ readonly code: string; readonly watched: readonly string[] }> {
  const result = await build({
    configFile: false,
    logLevel: "warn",
    plugins: [solidModeller()],
    build: {
      write: false,
      target: "es2023",
      lib: { entry, formats: ["iife"], name: "packed" },
    },
  });
  const [output] = Array.isArray(result) ? result : [result];
  if (!output || !("output" in output)) throw new RangeError(`${entry} was not built`);
  const [chunk] = output.output;
  return { code: chunk.code, watched: Object.keys(chunk.modules).filter((file) => file.startsWith("/")) };
}

/** `virtual:solid-modeller`: the .wasm of the solid modeller, deflated, in base64; nothing is left to fetch. */
function solidModeller(): Plugin {
  const name = "virtual:solid-modeller";
  return {
    name: "solid-modeller",
    enforce: "pre",
    resolveId: (id) => (id === name || id === "node:module" ? `\0${id}` : null),
    load(id) {
      // The loader asks for it under Node only.
      if (id === "\0node:module") return "export const createRequire = undefined;";
      if (id !== `\0${name}`) return null;
      const wasm = readFileSync(createRequire(import.meta.url).resolve("manifold-3d/manifold.wasm"));
      return `export default ${JSON.stringify(base64(wasm))};`;
    },
    transform(code, id) {
      if (!/manifold-3d[\\/]manifold\.js$/.test(id)) return null;
      return code
        .replaceAll(/new URL\((["'])manifold\.wasm\1,\s*import\.meta\.url\)\.href/g, '""')
        .replaceAll("import.meta.url", "self.location.href");
    },
  };
}

function base64(content: string | Uint8Array): string {
  return deflateRawSync(content, { level: 9 }).toString("base64");
}
