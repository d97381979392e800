import { readFileSync } from "node:fs";
import { makeJob } from "@dryfit/job";
import { loadSolidKernel } from "@dryfit/verify";
const text = readFileSync("/tmp/me/samples/tidepool.yaml", "utf8");
const kernel = await loadSolidKernel();
for (let i = 0; i < 10; i++) {
  const marks: [string, number][] = [];
  const t0 = performance.now();
  await makeJob({ design: { file: "t.yaml", text: text.replace("width: 540", `width: ${530 - i}`) }, machine: null, cutters: null, version: "0" }, (s) => { marks.push([s, performance.now()]); }, kernel);
  marks.push(["end", performance.now()]);
  if (i >= 6) console.log((performance.now() - t0).toFixed(0), marks.slice(0, -1).map(([s, t], k) => `${s} ${(marks[k + 1]![1] - t).toFixed(0)}`).join(", "));
}
