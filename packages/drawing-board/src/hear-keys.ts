import { redo, undo } from "./state/edit.ts";
import type { Store } from "./state/store.ts";
import { save } from "./title/save.ts";

/** Undo, redo and save by the keys that everyone's fingers know. A field with a draft keeps its own undo. */
export function hearKeys({ get, set }: Store): void {
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const isDraft = event.target instanceof HTMLElement && event.target.hasAttribute("data-draft");
    if (key === "s") {
      event.preventDefault();
      void save(get(), set);
    } else if ((key === "z" || key === "y") && !isDraft) {
      event.preventDefault();
      set(key === "y" || event.shiftKey ? redo : undo);
    }
  });
}
