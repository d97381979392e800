"""The wood that programs remove, worked out a second time with shapely from the program text alone.

stdin: {"sheets": [{"name", "thickness", "programs": [{"text", "zero": "bed" | "top", "diameters": {tool: mm},
        "flip": null | {"axis": "x" | "y", "at"}}], "levels": [{"depth", "removed": [{"outer", "holes"}]}]}]}
stdout: one verdict per level: how far the given region is off this one, mm, where, and both areas, mm².

Level: a plane `depth` below face A. Regions: sheet frame, corners as [x, y].
"""

import json
import math
import sys

from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union

import programs

CHORD_MM = 0.0003  # how far a chord stands off its arc, a thirtieth of what is judged


def main():
    job = json.load(sys.stdin)
    print(json.dumps([judge(sheet) for sheet in job["sheets"]]))


def judge(sheet):
    cuts = [cut for program in sheet["programs"] for cut in cuts_of(program, sheet["thickness"])]
    verdicts = []
    for level in sheet["levels"]:
        ours = unary_union([shape for cut in cuts for shape in swept(cut, level["depth"])])
        theirs = unary_union([Polygon(r["outer"], r["holes"]).buffer(0) for r in level["removed"]])
        off = ours.symmetric_difference(theirs)
        width, at = widest(off)
        verdicts.append(
            {"depth": level["depth"], "deviation": width, "at": at, "areas": [ours.area, theirs.area]}
        )
    return {"name": sheet["name"], "moves": len(cuts), "levels": verdicts}


def cuts_of(program, thickness):
    """Every move in the sheet frame, as (start, end, centre, sweep, radius, side) with depths from face A."""
    flip = program.get("flip")
    for move in programs.read(program["text"]):
        if None in move["start"]:
            continue
        radius = program["diameters"][str(move["tool"])] / 2

        def place(p):
            depth = (thickness if program["zero"] == "bed" else 0.0) - p[2]
            x, y = p[0], p[1]
            if flip:
                depth = thickness - depth
                x, y = (2 * flip["at"] - x, y) if flip["axis"] == "y" else (x, 2 * flip["at"] - y)
            return (x, y, depth)

        centre = move.get("centre")
        yield {
            "start": place(move["start"]),
            "end": place(move["end"]),
            "centre": place((*centre, 0.0))[:2] if centre else None,
            "sweep": (-1 if flip else 1) * move["sweep"] if centre else 0.0,
            "radius": radius,
            # From face A the cutter takes all above its tip; from face B, all below.
            "deeper": (lambda depth, level: depth < level) if flip else (lambda depth, level: depth > level),
        }


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
