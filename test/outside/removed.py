"""What programs leave of each part, worked out a second time with shapely from the program text alone.

stdin: {"thickness", "programs": [{"text", "zero": "bed" | "top", "diameters": {tool: mm},
        "flip": null | {"axis": "x" | "y", "at"}}],
        "parts": [{"id", "outline", "through": [ring], "tabs": [{"at", "length", "height", "flip"}],
        "skin": null | {"height", "flip"}, "layers": [{"from", "to", "solid": [{"outer", "holes"}]}]}]}
stdout: per part and layer, how far the given wood is off the wood found here, mm, where, and both areas, mm2.

Depths are from face A; regions and rings lie in the sheet frame, corners as [x, y]. Looked at is the part and a
strip beside its edges; what is sanded off (tabs, skin) is left out at its depths.
"""

import json
import math
import sys

from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

import programs

CHORD_MM = 0.0003  # how far a chord stands off its arc, a thirtieth of what is judged
STRIP_MM = 0.9  # how far beside an edge wood is compared; narrower than the thinnest cutter's radius


def main():
    job = json.load(sys.stdin)
    cuts = [cut for program in job["programs"] for cut in cuts_of(program, job["thickness"])]
    print(json.dumps([judge(part, cuts, job["thickness"]) for part in job["parts"]]))


def judge(part, cuts, thickness):
    outline, holes = Polygon(part["outline"]), [Polygon(ring) for ring in part["through"]]
    body = outline.difference(unary_union(holes))
    near = outline.buffer(STRIP_MM).difference(unary_union([hole.buffer(-STRIP_MM) for hole in holes]))
    reach = box(*near.bounds)
    here = [cut for cut in cuts if cut["box"].intersects(reach)]
    verdicts = []
    for layer in part["layers"]:
        depth = (layer["from"] + layer["to"]) / 2
        window = looked_at(part, body, near, depth, thickness)
        ours = window.difference(unary_union([shape for cut in here for shape in swept(cut, depth)]))
        theirs = window.intersection(
            unary_union([Polygon(r["outer"], r["holes"]).buffer(0) for r in layer["solid"]])
        )
        width, at = widest(ours.symmetric_difference(theirs))
        verdicts.append({"depth": depth, "deviation": width, "at": at, "areas": [ours.area, theirs.area]})
    return {"id": part["id"], "moves": len(here), "layers": verdicts}


def looked_at(part, body, near, depth, thickness):
    def holds(left):
        return depth < left["height"] if left["flip"] else depth > thickness - left["height"]

    if part["skin"] and holds(part["skin"]):
        return body
    tabs = [Point(tab["at"]).buffer(tab["length"] / 2 + 2 * STRIP_MM) for tab in part["tabs"] if holds(tab)]
    return near.difference(unary_union(tabs).difference(body))


def cuts_of(program, thickness):
    """Every move in the sheet frame, as (start, end, centre, sweep, radius, side) with depths from face A."""
    flip = program.get("flip")
    for move in programs.read(program["text"]):
        if None in move["start"]:
            continue
        # A program for one cutter need not name it.
        mounted = program["diameters"]
        radius = (list(mounted.values())[0] if move["tool"] == 0 else mounted[str(move["tool"])]) / 2

        def place(p):
            depth = (thickness if program["zero"] == "bed" else 0.0) - p[2]
            x, y = p[0], p[1]
            if flip:
                depth = thickness - depth
                x, y = (2 * flip["at"] - x, y) if flip["axis"] == "y" else (x, 2 * flip["at"] - y)
            return (x, y, depth)

        centre = move.get("centre")
        start, end = place(move["start"]), place(move["end"])
        yield {
            "start": start,
            "end": end,
            "box": reach_of(start, end, centre and place((*centre, 0.0)), radius),
            "centre": place((*centre, 0.0))[:2] if centre else None,
            "sweep": (-1 if flip else 1) * move["sweep"] if centre else 0.0,
            "radius": radius,
            # From face A the cutter takes all above its tip; from face B, all below.
            "deeper": (lambda depth, level: depth < level) if flip else (lambda depth, level: depth > level),
        }


def reach_of(start, end, centre, radius):
    if centre is None:
        xs, ys = (start[0], end[0]), (start[1], end[1])
    else:
        arm = math.dist(start[:2], centre[:2])
        xs, ys = (centre[0] - arm, centre[0] + arm), (centre[1] - arm, centre[1] + arm)
    return box(min(xs) - radius, min(ys) - radius, max(xs) + radius, max(ys) + radius)


def swept(cut, level):
    """What a flat cutter takes of the plane: the part of the move during which its tip is beyond it."""
    (x0, y0, d0), (x1, y1, d1) = cut["start"], cut["end"]
    beyond = cut["deeper"]
    if not beyond(d0, level) and not beyond(d1, level):
        return []
    t0, t1 = 0.0, 1.0
    if beyond(d0, level) != beyond(d1, level):
        crossing = (level - d0) / (d1 - d0)
        t0, t1 = (0.0, crossing) if beyond(d0, level) else (crossing, 1.0)
    if cut["centre"] is None:
        a = (x0 + (x1 - x0) * t0, y0 + (y1 - y0) * t0)
        b = (x0 + (x1 - x0) * t1, y0 + (y1 - y0) * t1)
        return capsule(a, b, cut["radius"])
    return bent(cut, t0, t1)


def capsule(a, b, radius):
    length = math.dist(a, b)
    ends = [disc(a, radius), disc(b, radius)]
    if length < 1e-9:
        return ends[:1]
    nx, ny = radius * (a[1] - b[1]) / length, radius * (b[0] - a[0]) / length
    corners = [(a[0] + nx, a[1] + ny), (a[0] - nx, a[1] - ny), (b[0] - nx, b[1] - ny), (b[0] + nx, b[1] + ny)]
    return [Polygon(corners), *ends]


def bent(cut, t0, t1):
    """The ring sector between |R - r| (0 where the cutter covers the centre) and R + r, and a disc at each end."""
    (cx, cy), r = cut["centre"], cut["radius"]
    arm = math.dist(cut["start"][:2], cut["centre"])
    first = math.atan2(cut["start"][1] - cy, cut["start"][0] - cx)
    a, b = first + cut["sweep"] * t0, first + cut["sweep"] * t1

    def on(radius, angle):
        return (cx + radius * math.cos(angle), cy + radius * math.sin(angle))

    count = max(2, math.ceil(abs(b - a) / chord_angle(arm + r)))
    angles = [a + (b - a) * i / count for i in range(count + 1)]
    ends = [disc(on(arm, a), r), disc(on(arm, b), r)]
    # In halves: a ring that closes on itself is no simple polygon.
    half = count // 2
    sectors = []
    for part in (angles[: half + 1], angles[half:]):
        inner = [on(arm - r, angle) for angle in reversed(part)] if arm > r else [(cx, cy)]
        sectors.append(Polygon([on(arm + r, angle) for angle in part] + inner))
    return [*sectors, *ends]


def disc(centre, radius):
    count = math.ceil(2 * math.pi / chord_angle(radius))
    turn = 2 * math.pi / count
    return Polygon(
        [(centre[0] + radius * math.cos(i * turn), centre[1] + radius * math.sin(i * turn)) for i in range(count)]
    )


def chord_angle(radius):
    return 2 * math.acos(1 - CHORD_MM / radius)


def widest(region):
    """The width of the widest piece, by planing it off from all sides until it is gone; and where that is."""
    if region.is_empty:
        return 0.0, None
    low, high, at = 0.0, 0.0005, None
    while high < 100:
        core = region.buffer(-high / 2)
        if core.is_empty:
            break
        low, at, region, high = high, list(core.representative_point().coords)[0], region, high * 2
    for _ in range(6):
        middle = (low + high) / 2
        core = region.buffer(-middle / 2)
        if core.is_empty:
            high = middle
        else:
            low, at = middle, list(core.representative_point().coords)[0]
    return high, at


if __name__ == "__main__":
    main()
