import { render } from "preact";
import { Board } from "./board.tsx";
import { follow } from "./follow.ts";
import { paperStyle } from "./paper-style.ts";
import { openingBoard } from "./state/opening.ts";
import { createStore } from "./state/store.ts";
// In this order: a later sheet of the style has the last word.
import "./style/paper.css";
import "./style/border.css";
import "./style/case.css";
import "./style/notes.css";
import "./style/tables.css";
import "./style/title-block.css";
import "./style/phone.css";
import "./style/print.css";

/** A page that is not painted by then is in the background. */
const LONGEST_MS = 1500;

const store = createStore(
  openingBoard(location.hash, document.getElementById("served")?.textContent ?? null),
);
document.head.append(Object.assign(document.createElement("style"), { textContent: paperStyle() }));
const root = document.getElementById("board")!;
const show = (): void => render(<Board board={store.get()} set={store.set} />, root);
store.subscribe(show);
show();
follow(store, onceOnScreen);

/** The first sheet is on the screen before the worker is unpacked, which would take the processor from it. */
function onceOnScreen(go: () => void): void {
  let isGone = false;
  const leave = (): void => {
    if (!isGone) go();
    isGone = true;
  };
  new PerformanceObserver((list) => list.getEntries().length > 0 && leave()).observe({ type: "paint" });
  setTimeout(leave, LONGEST_MS);
}
