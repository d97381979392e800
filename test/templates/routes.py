"""Runs a bush (or bearing) round templates with shapely, and compares what the cutter leaves with the design.

stdin: [{"kind", "template": [rings], "guide", "cutter", "design": [rings]}]; a ring is a list of points, outers only.
stdout: per job how far the cut goes beyond the design ("gouge") and stays short of it ("left"), mm at most.
"""

import json
import sys

from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

FINE = 128


def main():
    print(json.dumps([run(job) for job in json.load(sys.stdin)]))


def run(job):
    template, design = (unary_union([Polygon(ring) for ring in job[key]]) for key in ("template", "design"))
    if job["kind"] == "inside":
        # The bush's middle stays its radius inside the hole; the cutter removes a disc about it.
        removed = grown(grown(template, -job["guide"] / 2), job["cutter"] / 2)
        return {"gouge": apart(removed, design), "left": apart(design, removed)}
    # The middle stays the radius outside the template; what no cutter reaches is left standing.
    standing = grown(grown(template, job["guide"] / 2), -job["cutter"] / 2)
    return {"gouge": apart(design, standing), "left": apart(standing, design)}


def grown(shape, by):
    return shape.buffer(by, FINE)


def apart(shape, other):
    """How far a shape reaches out of another: of its farthest corner outside it. No other shape: endlessly."""
    if other.is_empty:
        return 1e9
    piece = shape.difference(other)
    corners = [p for part in getattr(piece, "geoms", [piece]) if not part.is_empty for p in part.exterior.coords]
    return max((other.distance(Point(p)) for p in corners), default=0.0)


main()
