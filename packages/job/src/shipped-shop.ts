import type { OutFile } from "./outfile.ts";

/** The router that serves where no machine file is named: `samples/shop/machine.yaml`, to the letter. */
export const SHIPPED_MACHINE: OutFile = {
  file: "machine.yaml",
  text: `# A router, as far as programs depend on it. Measure yours and change the numbers.
# Lengths are mm, or text with a unit: 12 mm, 1/2 in. Speeds are named: mm/min, mm/s².

name: garage router
units: mm

# How far the cutter's middle can move.
travel: { x: 1260, y: 660, z: 95 }

# Where Z0 is set: bed (the surface the sheet lies on) or top (the sheet's upper face).
zZero: bed

# Height of rapid moves over the sheet.
safeHeight: 5

# How far a through cut may go into the bed.
bedAllowance: 0.5

rapidMmPerMin: { xy: 6000, z: 2000 }
maxFeedMmPerMin: { xy: 5000, z: 1500 }
accelerationMmPerS2: { xy: 500, z: 300 }

# How far the path may round a corner instead of stopping there.
cornerDeviation: 0.01

spindle:
  minRpm: 8000
  maxRpm: 24000
  powerW: 800
  spinUpSeconds: 4

# Share of the handbook's chip load that this frame bears: 0.3 to 0.5 for light machines, 1 for industrial ones.
derate: 0.4

# What the timing programs found: true acceleration over the one above, least seconds per block.
timing: { acceleration: 1, blockSeconds: 0 }

# How high clamps, screws and all that a sheet must be kept clear of stand over its face: rapids that cross such a
# place go that much higher. Clamps that never move: [left, bottom, width, height] from X0 Y0.
keepOutHeight: 10
clamps: []

# The pins that a sheet is found by again when it is turned over: how deep they stand in the board on the bed, and
# how far a sheet can be pushed from side to side on one of them.
pins: { diameter: 6, depth: 6, play: 0.05 }

# How it cuts. \`finish\` leaves wood on the walls for one last pass, \`score\` cuts the upper veneer first.
# To hold parts by a skin instead of tabs: hold: { kind: skin, height: 0.4, finalPass: true }
cutting:
  direction: climb            # or conventional
  rampDeg: 5                  # the steepest way down into wood
  finish: null                # or { allowance: 0.3, roughing: conventional }
  # How recesses are cleared: contour (rings along the walls), raster (lines along the grain), engagement (never more of
  # the cutter's rim in wood than engagementDeg says: 180 is a full slot), or auto, the quickest that keeps to it.
  clearing: { method: auto, engagementDeg: null }
  # Where a recess has room for a wider cutter than its corners have: that one roughs it, and the one that fits clears
  # corners, necks and walls. auto: where it saves time, the change counted; or always, never.
  rest: auto
  score: 0
  hold: { kind: tabs, width: 5, height: 1.5, every: 350 }
  lead: 1                     # radius of the arc that leads off a wall

# What the controller understands: basic, full, or one of them with changes, as in
#   controller: { like: basic, decimals: 4, fullCircle: true }
controller: basic
`,
};

/** The cutters that serve where no cutter file is named: `samples/shop/cutters.yaml`, to the letter. */
export const SHIPPED_CUTTERS: OutFile = {
  file: "cutters.yaml",
  text: `# The cutters in the drawer, measured with a caliper. \`number\` is what a program's T word names.
# Lengths are mm, or text with a unit: 1/8 in. \`fluteLength\` is how deep the cutter can go.
# Speeds and feeds follow from the chip load; to set one by hand, add for example
#   set: { rpm: 16000, feedMmPerMin: 2500, plungeMmPerMin: 600, depthPerPass: 5, stepover: 2.5 }

units: mm

cutters:
  - id: up-6
    number: 1
    kind: up-cut
    diameter: 6
    flutes: 2
    fluteLength: 25
    shankDiameter: 6
    holder: { diameter: 24, stickOut: 33 }
    maxRpm: 24000

  # Pushes chips down: clean top edges in shallow housings.
  - id: down-6
    number: 2
    kind: down-cut
    diameter: 6
    flutes: 2
    fluteLength: 22
    shankDiameter: 6
    holder: { diameter: 24, stickOut: 30 }
    maxRpm: 24000

  # Clean on both faces, where the first pass is deeper than its up-cut tip.
  - id: compression-6
    number: 3
    kind: compression
    diameter: 6
    flutes: 2
    fluteLength: 22
    shankDiameter: 6
    holder: { diameter: 24, stickOut: 30 }
    maxRpm: 24000
    upCutLength: 5

  - id: up-3
    number: 4
    kind: up-cut
    diameter: 1/8 in
    flutes: 2
    fluteLength: 17
    shankDiameter: 6
    holder: { diameter: 24, stickOut: 25 }
    maxRpm: 24000

  - id: up-8
    number: 5
    kind: up-cut
    diameter: 8
    flutes: 2
    fluteLength: 32
    shankDiameter: 8
    holder: { diameter: 24, stickOut: 40 }
    maxRpm: 24000

  - id: drill-3
    number: 6
    kind: drill
    diameter: 3.2
    flutes: 2
    fluteLength: 30
    shankDiameter: 3.2
    holder: { diameter: 24, stickOut: 38 }
    maxRpm: 12000

  - id: drill-5
    number: 7
    kind: drill
    diameter: 5
    flutes: 2
    fluteLength: 40
    shankDiameter: 5
    holder: { diameter: 24, stickOut: 48 }
    maxRpm: 12000

  - id: drill-3-1
    number: 11
    kind: drill
    diameter: 3.1
    flutes: 2
    fluteLength: 30
    shankDiameter: 3.1
    holder: { diameter: 24, stickOut: 38 }
    maxRpm: 12000

  - id: drill-3-5
    number: 10
    kind: drill
    diameter: 3.5
    flutes: 2
    fluteLength: 32
    shankDiameter: 3.5
    holder: { diameter: 24, stickOut: 40 }
    maxRpm: 12000

  - id: v-90
    number: 8
    kind: v
    diameter: 12.7
    flutes: 2
    fluteLength: 6.35
    shankDiameter: 6
    holder: { diameter: 24, stickOut: 14.35 }
    maxRpm: 22000
    angleDeg: 90

  # Its bearing runs along the edge; it leaves a radius of 3. Bearing and screw reach 7 mm below the profile.
  - id: round-3
    number: 9
    kind: round-over
    diameter: 16
    flutes: 2
    fluteLength: 12
    shankDiameter: 6
    holder: { diameter: 24, stickOut: 20 }
    maxRpm: 22000
    cornerRadius: 3
    bearingDiameter: 9.5
    bearingHeight: 7
`,
};
