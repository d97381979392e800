/** A design file to start from: every key that a maker is likely to touch, with what it means. */
export function starterDesign(): string {
  return text;
}

const text = `# A case for effects pedals. Measure your gear with its plugs in, then change the numbers.
# Lengths are in the units below unless they carry their own: 12mm, 1/2 in, 1 3/8".
dryfit: 1
name: my-case
units: mm            # or in

# The clear space between the panels.
inside:
  width: 480
  depth: 310
  front: 50          # from the inside floor to the front rail's top
  back: 110          # from the inside floor to the back rail's top

# The plywood in your hands: caliper readings from several places, away from the edges.
sheet:
  name: birch plywood
  thickness: [14.8, 14.7, 14.8, 14.9, 14.8]
  sizes:
    - [1220, 610]    # x, y; add your offcuts: - { id: offcut, size: [700, 400], count: 1 }
  grain: x           # the face grain runs along x
  margin: 10         # kept free all round the sheet
  web: 4             # least wood between two cuts
  # locked: [{ part: base, x: 20, y: 10, turn: 180 }]   # laid down by hand; the rest nests round it

# Tongues and the housings they stand in. Left out, these follow the thickness.
joint:
  rails: inner       # inner: cheeks flush with the rails. full: one setup less, but cheeks stand out.
  tongue: { thickness: 7, length: 6.8 }
  clearance: { side: 0.1, end: 0.4 }   # air on each side of a tongue, and under it
  stop: 6            # least wood between a housing and the cheek's edges

# construction: layered   # for a laser: every cut goes through, cheeks are glued up of layers, tongues follow the sheet

cutter: 6            # diameter; inside corners are drawn for it

# The side panels.
cheek:
  crest:
    form: batten     # straight, arc, or batten: a thin strip bent over three places; or your own, file: crest.svg
    through: { at: 155, height: 86 }   # from the front rail's inside; over the floor
  feet:
    front: { drop: 8, length: 55 }     # how far below the base; how long on the floor
    back: { drop: 30, length: 55 }
  overhang: { front: 0, back: 0 }      # how far the cheeks stand out over the rails

# A raised level of slats at the back. Leave it out for a flat floor.
tier:
  slats: 2
  slat: 75
  gap: 28            # for cables
  height: 60         # from the inside floor to the slats' top
  swing: 90          # degrees it lifts to get at what is under it; 0: screwed down

# Cutouts: rectangle, circle, slot, handle, vent, cable-hole, jack, jack-plastic, round-audio, mains-inlet,
# mains-inlet-switched, dc-inlet, five-pin, usb, network, footswitch. The place is the cutout's middle.
openings:
  - id: supply
    panel: rail-back
    shape: dc-inlet
    from: { left: 60, floor: 22 }
#   size: { hole: 11 }                 # change a measure to suit the part in your hand
# - { id: star, panel: cheek-left, file: star.dxf, from: { front: 150, floor: 20 } }   # your own DXF or SVG contours
#   relief: diagonal                   # square corners for a square part: none, diagonal, along-width, along-height

# Edges to round over, or to chamfer with form: chamfer. They are made by hand afterwards; with by: cutter, by a pass
# with a round-over or V cutter of the drawer, where it reaches the edge.
edges:
  - { panel: cheek-left, edge: crest, radius: 3 }
  - { panel: cheek-right, edge: crest, radius: 3 }
`;
