import { distance, nearest, pathOf } from "@dryfit/geometry";
import { FREE, goTo } from "./clear-engage-link.ts";
import { discsAbout, push, type Work } from "./clear-engage-work.ts";
import { widestOnLine, widestOnTrack } from "./clear-widest.ts";
import { startedAt, type Track } from "./plan-track.ts";

/** The last pass along a wall, started where a disc touches it. */
export function alongWall(work: Work, wall: Track): void {
  const path = pathOf(wall);
  const { pen, radius } = work;
  const places = work.discs.all.flatMap((disc, i) => {
    const { point, distance: away, s } = nearest(path, disc.at);
    if (Math.abs(away - disc.radius) > TOUCH_MM) return [];
    return [{ i, point, s, from: disc.at, far: pen === null ? 0 : distance(pen, point) }];
  });
  const sorted = places.sort(
    (a, b) => Number(a.far < JUST_CUT_MM) - Number(b.far < JUST_CUT_MM) || a.far - b.far,
  );
  const start =
    sorted.find(({ from, point }) => {
      const discs = discsAbout(work, from, distance(from, point));
      return widestOnLine({ discs, radius }, from, point) <= FREE;
    }) ?? sorted[0];
  const round = start === undefined ? wall : startedAt(wall, start.s);
  if (start !== undefined && work.pen !== null) goTo(work, start.from, start.i);
  if (start !== undefined && work.pen !== null)
    push(work, [{ kind: "line", from: work.pen, to: round[0]!.from }]);
  else work.pen = null;
  push(work, round);
  work.widest = Math.max(
    work.widest,
    widestOnTrack((at) => discsAbout(work, at, 0), radius, round),
  );
}

/** So near to where the last stroke ended, what is left is not yet thin, mm. */
const JUST_CUT_MM = 2;

/** A disc touches a wall that is this close to its edge, mm: discs stay a little off it. */
const TOUCH_MM = 0.01;
