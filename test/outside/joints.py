"""Cuts through joints and measures the sections with shapely: a second opinion on the dry fit.

stdin: {"parts": {id: {"pose", "thickness", "layers": [{"from", "to", "solid": [{"outer", "holes"}]}]}},
        "joints": [{"id", "tongue": {"part", "box"}, "housing": {"part", "behind"}, "into", "across", "along"}],
        "shares": [0..1 along the tongue]}
stdout: per joint, at each share: air at both sides, under the end, at the shoulder (null: none there), and the
area of wood in wood, mm and mm².
"""

import json
import sys

from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union


def main():
    job = json.load(sys.stdin)
    verdicts = []
    for joint in job["joints"]:
        low, high = (joint["tongue"]["box"][end][joint["along"]] for end in ("min", "max"))
        cuts = [measure(job["parts"], joint, low + (high - low) * share) for share in job["shares"]]
        verdicts.append({"id": joint["id"], "cuts": cuts})
    print(json.dumps(verdicts))


def measure(parts, joint, at):
    """In the plane `along` = `at`: u is the way in, from shoulder to end, v the way across."""
    sign = 1 if joint["into"][0] == "+" else -1
    def wood_of(part):
        return section(parts[part], joint["along"], at, joint["into"][1], sign, joint["across"])

    tongue = wood_of(joint["tongue"]["part"])
    layers = [joint["housing"]["part"], *joint["housing"].get("behind", [])]
    housing = unary_union([wood_of(part) for part in layers])
    low, high = joint["tongue"]["box"]["min"], joint["tongue"]["box"]["max"]
    shoulder, end = sorted(sign * corner[joint["into"][1]] for corner in (low, high))
    bottom, top = low[joint["across"]], high[joint["across"]]
    depth, middle = (shoulder + end) / 2, (bottom + top) / 2

    across = stretches(tongue, "v", depth)
    wood = next((s for s in across if s[0] < middle < s[1]), None)
    walls = stretches(housing, "v", depth)
    if wood is None or not walls:
        return None
    below = max((s[1] for s in walls if s[1] <= middle), default=None)
    above = min((s[0] for s in walls if s[0] >= middle), default=None)
    tip = max(s[1] for s in stretches(tongue, "u", middle) if s[0] < depth)
    floor = min((s[0] for s in stretches(housing, "u", middle) if s[0] > depth), default=None)
    if joint.get("through"):
        floor = housing.bounds[2]
    shoulders = []
    for beside in (bottom - 2, top + 2):
        here = [s[1] for s in stretches(tongue, "u", beside) if s[0] < shoulder - 0.5 and s[1] < depth]
        there = [s[0] for s in stretches(housing, "u", beside) if s[0] > shoulder - 1]
        if here and there:
            shoulders.append(min(there) - max(here))
    return {
        "sides": [None if below is None else wood[0] - below, None if above is None else above - wood[1]],
        "end": None if floor is None else floor - tip,
        "shoulder": min(shoulders, default=None),
        "overlap": tongue.intersection(housing).area,
    }


def stretches(shape, axis, at):
    """Where a line at u (axis "v") or v (axis "u") = `at` runs in wood: pairs of ends."""
    far = 1e5
    line = LineString([(at, -far), (at, far)] if axis == "v" else [(-far, at), (far, at)])
    met = shape.intersection(line)
    pieces = getattr(met, "geoms", [met])
    k = 1 if axis == "v" else 0
    return sorted((piece.bounds[k], piece.bounds[k + 2]) for piece in pieces if not piece.is_empty)


def section(part, along, at, into, sign, across):
    """The part's wood in the plane along = at, as a shape of (u, v)."""
    pose = part["pose"]
    datum = ((1 if pose["datum"] == "B" else 0) - pose.get("stacked", 0)) * part["thickness"]
    axes = {pose["x"][1]: "x", pose["y"][1]: "y", pose["into"][1]: "d"}

    def panel(axis, value):
        name = axes[axis]
        way = pose["into" if name == "d" else name]
        inside = (value - pose["origin"][axis]) * (1 if way[0] == "+" else -1)
        return inside + datum if name == "d" else inside

    def case(axis, value):
        name = axes[axis]
        way = pose["into" if name == "d" else name]
        return pose["origin"][axis] + (value - (datum if name == "d" else 0.0)) * (1 if way[0] == "+" else -1)

    fixed, where = axes[along], panel(along, at)
    shapes = []
    for layer in part["layers"]:
        for region in layer["solid"]:
            shape = Polygon(region["outer"], region["holes"])
            if fixed == "d":
                if layer["from"] < where <= layer["to"]:
                    shapes.append(mapped(shape, lambda x, y: {"x": x, "y": y}, axes, into, sign, across, case))
                continue
            far = 1e5
            line = LineString([(where, -far), (where, far)] if fixed == "x" else [(-far, where), (far, where)])
            met = shape.intersection(line)
            free, k = ("y", 1) if fixed == "x" else ("x", 0)
            for piece in getattr(met, "geoms", [met]):
                if piece.is_empty:
                    continue
                slab = box(piece.bounds[k], layer["from"], piece.bounds[k + 2], layer["to"])
                named = lambda a, d, free=free: {free: a, "d": d}
                shapes.append(mapped(slab, named, axes, into, sign, across, case))
    return unary_union(shapes)


def mapped(shape, named, axes, into, sign, across, case):
    def uv(point):
        inside = named(*point)
        return (sign * case(into, inside[axes[into]]), case(across, inside[axes[across]]))

    return Polygon([uv(p) for p in shape.exterior.coords], [[uv(p) for p in hole.coords] for hole in shape.interiors])


if __name__ == "__main__":
    main()
