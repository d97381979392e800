import { waitingHours } from "@dryfit/joinery";
import { looseParts } from "./build-assembly.ts";
import { count } from "./build-cutting.ts";
import type { BuildSheetData, TimeEntry } from "./build-data.ts";
import { length } from "./lettering.ts";
import { paragraph, type Section, section, table } from "./paper/block.ts";

/** How long it takes: at work in minutes, and what must wait in hours. */
export function timeSection(data: BuildSheetData): Section {
  const entries = [...(data.making?.time ?? machineTime(data)), ...benchTime(data)];
  const minutes = entries.reduce((sum, entry) => sum + entry.minutes, 0);
  const hours = entries.reduce((sum, entry) => sum + entry.waitingHours, 0);
  return section(
    "time",
    "Time",
    table(
      [
        { title: "what" },
        { title: "at work, min", figures: true },
        { title: "waiting, h", figures: true },
        { title: "how it is reckoned" },
      ],
      [
        ...entries.map((entry) => [
          entry.what,
          entry.minutes === 0 ? "" : length(entry.minutes, 0),
          entry.waitingHours === 0 ? "" : length(entry.waitingHours, 1),
          entry.by,
        ]),
        ["Together", length(minutes, 0), length(hours, 1), ""],
      ],
    ),
    paragraph(
      `About ${inHours(minutes)} at work and ${length(hours, 0)} h of waiting. What is reckoned by the piece is common practice, no source: a first case takes twice as long.`,
    ),
  )!;
}

/** By the programs' own moves; laying, fitting and setting zero take a person as long as they take. */
function machineTime({ programs, sheets }: BuildSheetData): readonly TimeEntry[] {
  const setups = new Set(programs.map(({ sheet, setup }) => `${sheet} ${setup}`)).size;
  return [
    {
      what: "Setting up",
      minutes: SETUP * setups + FITTING * programs.length,
      waitingHours: 0,
      by: `${SETUP} min each for ${count(setups, "setup")} of ${count(sheets.length, "sheet")}, ${FITTING} for each cutter and its zero`,
    },
    {
      what: `Cutting, ${count(programs.length, "program")}`,
      minutes: programs.reduce((sum, program) => sum + program.minutes, 0),
      waitingHours: 0,
      by: "the programs' moves, as the machine speeds up and slows down",
    },
  ];
}

/** What every case takes once its parts are cut. */
function benchTime({ assembly, finish }: BuildSheetData): readonly TimeEntry[] {
  const parts = assembly.parts.length;
  const layered = assembly.glued?.filter((layers) => layers.length > 1).length ?? 0;
  const loose = looseParts(assembly).length;
  const area = finish.lines.reduce((sum, line) => sum + line.area, 0);
  const coatHours = waitingHours(finish.lines);
  return [
    ...(layered > 0
      ? [
          {
            what: "Gluing up layers",
            minutes: LAYERS * layered,
            waitingHours: CLAMPED,
            by: `${LAYERS} min each for ${count(layered, "panel")}, then in clamps`,
          },
        ]
      : []),
    {
      what: "Cleaning up and dry fit",
      minutes: CLEANING * parts,
      waitingHours: 0,
      by: `${CLEANING} min for each of ${count(parts, "part")}`,
    },
    {
      what: "Glue-up",
      minutes: GLUING + FIXING * loose,
      waitingHours: SETTING,
      by: `${GLUING} min${loose > 0 ? `, ${FIXING} for each part that is glued or screwed in later` : ""}; a day without load`,
    },
    {
      what: "Rounding over and sanding",
      minutes: SANDING * finish.faces,
      waitingHours: 0,
      by: `${SANDING} min for each m² of faces`,
    },
    {
      what: "Coats",
      minutes: COATING * area,
      waitingHours: coatHours,
      by: `${COATING} min for each m² of a coat, and the waiting times above`,
    },
  ];
}

/** Minutes and hours by the piece: common practice, no source. */
const SETUP = 10;
const FITTING = 5;
const LAYERS = 15;
const CLAMPED = 1;
const CLEANING = 5;
const GLUING = 30;
const FIXING = 5;
const SETTING = 24;
const SANDING = 40;
const COATING = 12;

/** "3 h 35 min". */
function inHours(minutes: number): string {
  const whole = Math.round(minutes / 5) * 5;
  const [h, min] = [Math.floor(whole / 60), whole % 60];
  return [...(h > 0 ? [`${h} h`] : []), ...(min > 0 || h === 0 ? [`${min} min`] : [])].join(" ");
}
