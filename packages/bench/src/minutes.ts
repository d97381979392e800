import type { Risk, TimeEntry } from "@dryfit/drawing";
import { lengthOf } from "@dryfit/geometry";
import type { Joint } from "@dryfit/joinery";
import type { Slot } from "./slots.ts";
import type { Step } from "./step.ts";
import type { Template } from "./template.ts";

/** A hand's minutes: common practice, no source. */
const SETTING = 10;
const LAYING = 2;
const ROUTE_MM_PER_MIN = 1500;
const BLANK = 5;
const CORNERS = 4;
const HOLE = 1.5;
const EDGE = 3;
const BOARD = 25;

/** To set a tool, try it on an offcut, lay so many parts and run so much route, mm. */
export function routingMinutes(parts: number, route: number): number {
  return Math.round(SETTING + LAYING * parts + route / ROUTE_MM_PER_MIN);
}

export const blankMinutes = (parts: number): number => BLANK * parts;
export const cornerMinutes = (parts: number): number => CORNERS * parts;
export const drillMinutes = (holes: number): number => Math.round(SETTING + HOLE * holes);
export const edgeMinutes = (edges: number): number => SETTING + EDGE * edges;

/** Along all the edges of a template. */
export function routeOf({ contours }: Pick<Template, "contours">): number {
  return contours
    .flatMap(({ outer, holes }) => [outer, ...holes])
    .reduce((sum, loop) => sum + lengthOf(loop), 0);
}

export function slotLength({ ends }: Pick<Slot, "ends">): number {
  return ends[1] - ends[0];
}

/** Along a joint's tongue. */
export function tongueLength({ tongue: { box }, into, across }: Joint): number {
  const along = (["x", "y", "z"] as const).find((axis) => axis !== across && axis !== into[1])!;
  return box.max[along] - box.min[along];
}

/** What a hand router's build sheet says of the time; what is another way to the same cut is not counted. */
export function handTime(templates: readonly Template[], routing: readonly Step[]): readonly TimeEntry[] {
  const counted = routing.filter(({ instead }) => !instead);
  const minutes = (of: readonly Step[]): number => of.reduce((sum, step) => sum + step.minutes, 0);
  const sawing = counted.filter(({ id }) => id.startsWith("saw-"));
  const others = counted.filter((step) => !sawing.includes(step));
  return [
    {
      what: "Making the templates",
      minutes: BOARD * templates.length,
      waitingHours: 0,
      by: `${BOARD} min for each of ${templates.length}: print, join, glue on, saw and file; none where they are lasered`,
    },
    {
      what: "Sawing",
      minutes: minutes(sawing),
      waitingHours: 0,
      by: `${BLANK} min for each blank, ${CORNERS} for each part's corners`,
    },
    {
      what: "Routing and drilling",
      minutes: minutes(others),
      waitingHours: 0,
      by: `${SETTING} min to set and try each of ${others.length} steps, ${LAYING} to lay each part, the router at ${ROUTE_MM_PER_MIN / 1000} m a minute`,
    },
  ];
}

/** What no proof of templates can know. */
export const HAND_RISKS: readonly Risk[] = [
  {
    what: "The print is not at actual size",
    shows: "a 100 mm check is longer or shorter",
    helps: "print at 100 %, or give the measured lengths and make it again",
  },
  {
    what: "The bush does not stand round the cutter",
    shows: "a housing is off to one side, by another amount each time",
    helps: "centre it; keep the same place of the base on the wall",
  },
  {
    what: "A setting moved between passes",
    shows: "steps in a wall, a tongue that binds at one end",
    helps: "lock it, try the offcut again before every part",
  },
  {
    what: "The router ran off the template",
    shows: "a notch in a wall",
    helps: "shallow passes, against the cutter's turn; lift only when it stands still",
  },
];
