import type { Words } from "./block.ts";
import { type Controller, type Emit, mmPerUnit, originOf, travel } from "./controller.ts";
import { AXES_OF, type Position } from "./motion.ts";
import { type Problem, problem } from "./problem.ts";

/** How far G83 backs off above the last bottom before it feeds on (reference interpreter: 0.010 inch). */
const PECK_BACK_OFF_MM = 0.254;
/** More holes than any program means; a guard against `L` times a slip of the finger. */
const HOLES_MAX = 100_000;
const PECKS_MAX = 10_000;

/** Carries out one line of G81, G82 or G83 as the moves it stands for (NISTIR 6556, 3.5.16). */
export function drill(controller: Controller, emit: Emit, code: number, words: Words): Problem | null {
  if (code > 830)
    return problem("unsupported_code", `G${code / 10} is a cycle that a router has no use for.`, {
      code: code / 10,
    });
  if (controller.inverseTime)
    return problem("cycle_not_allowed", "A drilling cycle cannot run in inverse time (G93).");
  const [u, v, w] = AXES_OF[controller.plane];
  if (words[u] === undefined && words[v] === undefined && words[w] === undefined)
    return problem("axis_words_missing", `G${code / 10} needs a position.`);
  if (controller.feed === 0) return problem("feed_missing", "A drilling cycle needs a feed.");

  const last = controller.motion === code ? controller.cycle : null;
  const sticky = {
    r: words.r ?? last?.r,
    z: words[w] ?? last?.z,
    p: words.p ?? last?.p ?? (code === 820 ? undefined : 0),
    q: words.q ?? last?.q ?? (code === 830 ? undefined : 0),
  };
  const { r: asked, z: bottom, p, q } = sticky;
  if (asked === undefined || bottom === undefined || p === undefined || q === undefined)
    return problem("missing_word", `G${code / 10} lacks ${missing(sticky)} the first time it is used.`);
  if (p < 0) return problem("value_out_of_range", "A dwell cannot be negative.", { p });
  if (code === 830 && q <= 0) return problem("value_out_of_range", "A peck must be more than 0.", { q });
  const repeats = words.l ?? 1;
  if (!Number.isInteger(repeats) || repeats < 1 || repeats > HOLES_MAX)
    return problem("value_out_of_range", `L must be a whole number from 1 to ${HOLES_MAX}.`, { l: repeats });

  const scale = mmPerUnit(controller);
  const start = controller.position;
  const relative = !controller.absolute;
  const retract = asked * scale + (relative ? start[w] : originOf(controller, w));
  const floor = bottom * scale + (relative ? retract : originOf(controller, w));
  if (retract < floor)
    return problem("cycle_below_retract", "A cycle's bottom lies above its retract plane R.", {
      r: retract,
      bottom: floor,
    });
  const peck = q * scale;
  if (code === 830 && (retract - floor) / peck > PECKS_MAX)
    return problem("value_out_of_range", `A cycle of more than ${PECKS_MAX} pecks.`, { q });

  const at = (first: number, second: number, height: number): Position => ({
    ...start,
    [u]: first,
    [v]: second,
    [w]: height,
  });
  const rapid = (to: Position) => travel(controller, emit, to, 0);
  const feed = (to: Position) => travel(controller, emit, to, controller.feed);
  const place = (axis: typeof u) => {
    const word = words[axis];
    return word === undefined || relative ? start[axis] : word * scale + originOf(controller, axis);
  };
  const step = (axis: typeof u) => (relative ? (words[axis] ?? 0) * scale : 0);

  if (start[w] < retract) rapid(at(start[u], start[v], retract));
  const clear = controller.returnsToStart ? Math.max(start[w], retract) : retract;
  for (let hole = 1; hole <= repeats; hole++) {
    const [first, second] = [place(u) + hole * step(u), place(v) + hole * step(v)];
    rapid(at(first, second, controller.position[w]));
    if (controller.position[w] !== retract) rapid(at(first, second, retract));
    if (code === 830)
      for (let depth = retract - peck; depth > floor; depth -= peck) {
        feed(at(first, second, depth));
        rapid(at(first, second, clear));
        rapid(at(first, second, Math.min(clear, depth + PECK_BACK_OFF_MM)));
      }
    feed(at(first, second, floor));
    controller.dwellSeconds += p;
    rapid(at(first, second, clear));
  }
  controller.motion = code;
  controller.cycle = { r: asked, z: bottom, p, q };
  return null;
}

function missing(sticky: Readonly<Record<string, number | undefined>>): string {
  return Object.keys(sticky)
    .filter((word) => sticky[word] === undefined)
    .map((word) => word.toUpperCase())
    .join(", ");
}
