// Makes a picture of each view of the drawing board, as wide as a desk and as narrow as a phone, by day and by
// lamplight, and the drawing as it prints.
//   npm run screenshots -- --out out/screenshots [--only case,cut]
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { register } from "tsx/esm/api";

register();
const { boardUrl, builtPage, fresh, launch, proved } = await import("./browser.ts");

const { values } = parseArgs({
  options: { out: { type: "string", default: "out/screenshots" }, only: { type: "string" } },
});
const tabs = values.only?.split(",") ?? ["case", "gear", "sheets", "cut", "stand-up", "papers"];
mkdirSync(values.out, { recursive: true });
await builtPage();
const browser = await launch({ at3D: true });
for (const [width, height] of [
  [1440, 1000],
  [390, 844],
]) {
  const { page } = await fresh(browser, { width, height });
  // A slip for the first visit lies over the drawing; who comes again has put it away.
  await page.addInitScript({ content: 'localStorage.setItem("dryfit.introduced", "1")' });
  await page.goto(boardUrl);
  await proved(page);
  // On a picture of the whole sheet the title block stands where the sheet ends, not where a screen would.
  await page.addStyleTag({ content: ".title-block { position: relative !important; bottom: 0 !important }" });
  for (const tab of tabs) {
    await page.click(`#tab-${tab}`);
    for (const colorScheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme });
      // Sheets, the cut and the standing case are painted after they are turned to.
      await page.waitForTimeout(1000);
      const path = join(values.out, `${tab}-${width}-${colorScheme}.png`);
      await page.screenshot({ path, fullPage: true });
      process.stdout.write(`${path}\n`);
    }
  }
  if (width === 1440) {
    await page.click("#tab-case");
    const path = join(values.out, "case.pdf");
    await page.pdf({ path, preferCSSPageSize: true });
    process.stdout.write(`${path}\n`);
  }
  await page.context().close();
}
await browser.close();
