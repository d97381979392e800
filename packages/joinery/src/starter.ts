/** A design file to start from: every key that a maker is likely to touch, with what it means. */
export function starterDesign(): string {
  return text;
}

const text = `# A case for effects pedals. Measure your gear with its plugs in, then change the numbers.
# Lengths are in the units below unless they carry their own: 12mm, 1/2 in, 1 3/8".
dryfit: 1
name: my-case
units: mm

# The clear space between the panels.
inside:
  width: 480
  depth: 300
  front: 50          # from the inside floor to the front rail's top
  back: 110          # from the inside floor to the back rail's top

# The plywood in your hands. Measure it away from the edges; several readings are better than one:
#   thickness: [14.7, 14.8, 14.9]
sheet:
  name: birch plywood
  thickness: 14.8
  sizes:
    - [1220, 610]    # x, y; the face grain runs along x
  margin: 10         # kept free all round the sheet
  web: 4             # least wood between two cuts

# Tongues and the housings they stand in.
joint:
  rails: inner       # inner: cheeks flush with the rails. full: one setup less, cheeks stand out
  tongue: { thickness: 7, length: 6.8 }
  clearance: { side: 0.1, end: 0.4 }
  stop: 6            # least wood between a housing and the cheek's edges

cutter: 6            # diameter; inside corners are drawn for it

cheek:
  crest:
    form: batten     # straight, arc, or batten: a thin strip bent over three points
    through: { at: 150, height: 88 }
  feet:
    front: { drop: 8, length: 55 }
    back: { drop: 30, length: 55 }
`;
