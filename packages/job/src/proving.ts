import type { Cutter, Flip, Machine } from "@dryfit/gcode";
import type { JobToProve, MachineFacts, ProgramFile } from "@dryfit/verify";
import type { Shop } from "./input.ts";
import type { Road, WrittenProgram } from "./road.ts";

/** All that the proof may know: the parts as designed, where they lie, and the programs' texts. */
export function toProve(road: Road, { machine, design }: Shop): JobToProve {
  return {
    assembly: road.assembly,
    sheets: road.layout.sheets,
    flips: Object.fromEntries(Object.entries(road.flips).map(([id, flip]) => [id, withPlay(flip, machine)])),
    programs: road.programs.map(programFile),
    machine: machineFacts(machine),
    densities: { [design.sheet.name]: design.sheet.density },
  };
}

function withPlay({ axis, at, pins }: Flip, machine: Machine): JobToProve["flips"][string] {
  return { axis, at, ...(pins === undefined ? {} : { pins: { ...pins, play: machine.pins.play } }) };
}

export function machineFacts(machine: Machine): MachineFacts {
  return {
    travel: machine.travel,
    bedAllowance: machine.bedAllowance,
    keepOutHeight: machine.keepOutHeight,
    maxPlungeMmPerMin: machine.maxFeedMmPerMin.z,
    dwellUnit: machine.controller.dwellUnit,
    spindle: machine.spindle,
    spindleControl: machine.controller.spindleControl,
  };
}

function programFile({
  file,
  text,
  sheet,
  setup,
  zZero,
  cutters,
  tabs,
  corners,
  edges,
  cleared,
  skin,
}: WrittenProgram): ProgramFile {
  return {
    file,
    text,
    sheet,
    setup,
    zZero,
    cutters: cutters.map(facts),
    tabs,
    corners,
    edges,
    cleared,
    skin,
  };
}

function facts(cutter: Cutter): ProgramFile["cutters"][number] {
  const { number, id, kind, diameter, fluteLength, shankDiameter, maxRpm, holder } = cutter;
  const { cornerRadius, bearingDiameter, bearingHeight, angleDeg } = cutter;
  const shape = { cornerRadius, bearingDiameter, bearingHeight, angleDeg };
  return { number, id, kind, diameter, fluteLength, shankDiameter, maxRpm, holder, ...shape };
}
