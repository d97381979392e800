import { render } from "preact";
import { Board } from "./board.tsx";
import { follow } from "./follow.ts";
import { paperStyle } from "./paper-style.ts";
import { openingBoard } from "./state/opening.ts";
import { createStore } from "./state/store.ts";
import "./style.css";

const store = createStore(
  openingBoard(location.hash, document.getElementById("served")?.textContent ?? null),
);
document.head.append(Object.assign(document.createElement("style"), { textContent: paperStyle() }));
const root = document.getElementById("board")!;
const show = (): void => render(<Board board={store.get()} set={store.set} />, root);
store.subscribe(show);
show();
// The first sheet is painted before the worker is unpacked.
setTimeout(() => follow(store));
