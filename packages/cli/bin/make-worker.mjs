// A job made beside the terminal, so that Ctrl-C is heard while it searches; from the sources, as dev.mjs does.
import { register } from "tsx/esm/api";

register();
await import("../src/make-beside.ts");
