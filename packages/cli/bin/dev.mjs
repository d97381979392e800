#!/usr/bin/env node
// Runs the command from the sources of a checkout, without a build.
import { register } from "tsx/esm/api";

register();
await import("../src/main.ts");
