import type { OutFile } from "../outfile.ts";

/** Services by name, in general words, for whoever has not asked theirs yet: `samples/shop/`, to the letter. */
export const SHIPPED_SERVICES: Readonly<Record<"laser" | "router", OutFile>> = {
  laser: {
    file: "laser-service.yaml",
    text: `# A laser service in general words. Ask yours for its figures and change the numbers.
# Lengths are mm, or text with a unit: 1/16 in.

name: laser service
units: mm

# through: cuts right through the sheet only. recesses: pockets part way into the wood as well.
cuts: through

# Whether it turns a sheet over and works the other face too.
secondFace: false

sheet:
  thickness: { least: 1.5, most: 9 }
  largest: [600, 400]

# Hole across, wood between two cuts, radius of an inside corner.
smallest: { hole: 1.5, web: 2, insideRadius: 0 }

# What the beam burns away. allowance: drawn where you draw it in, service where the service allows for it and
# drawings are nominal. Cut the coupon to measure it.
kerf: { width: 0.15, allowance: drawn }

files:
  release: R12          # or R2000, which states its unit and holds exact polyline arcs
  layout: nested        # whole sheets, or single: every part in a file of its own
  # {case}, {part}, {material}, {thickness}, {count} and {revision} are filled in.
  name: "{case}-{part}-{material}-{thickness}mm-{count}x"
  # null leaves a thing out: this service cuts all that it sees.
  layers: { outside: CUT, inside: CUT, bore: CUT, label: null, sheetEdge: null }
`,
  },
  router: {
    file: "router-service.yaml",
    text: `# A CNC router service in general words. Ask yours for its figures and change the numbers.
# Lengths are mm, or text with a unit: 1/4 in.

name: router service
units: mm

# through: cuts right through the sheet only. recesses: pockets part way into the wood as well.
cuts: recesses

# Whether it turns a sheet over and works the other face too.
secondFace: true

sheet:
  thickness: { least: 6, most: 30 }
  largest: [2500, 1250]

# Hole across, wood between two cuts, radius of an inside corner: half of its smallest cutter.
smallest: { hole: 3, web: 1.5, insideRadius: 1.5 }

# Its cutter's width. allowance: service, since it offsets its own paths and drawings are nominal.
kerf: { width: 6, allowance: service }

files:
  release: R2000        # or R12
  layout: single        # every part in a file of its own, or nested: whole sheets
  # {case}, {part}, {material}, {thickness}, {count} and {revision} are filled in.
  name: "{case}-{part}-{material}-{thickness}mm-{count}x"
  # {depth}, {diameter} and {face} are filled in, with - for the point. null leaves a thing out.
  layers:
    outside: THROUGH_OUTSIDE
    inside: THROUGH_INSIDE
    bore: "BORE_{diameter}_{depth}"
    recess: "RECESS_{depth}_{face}"
    label: LABEL
    sheetEdge: SHEET_EDGE
`,
  },
};
