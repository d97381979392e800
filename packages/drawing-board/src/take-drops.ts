import { openFiles } from "./state/open-files.ts";
import type { Store } from "./state/store.ts";

/** Files dropped anywhere on the page are opened. */
export function takeDrops({ set }: Store): void {
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", async (event) => {
    event.preventDefault();
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length > 0) set(await openFiles(files));
  });
}
