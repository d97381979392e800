"""Judges DXF files with ezdxf: audit errors and fixes, units, release, and what stands on each layer.

Usage: dxf_audit.py FILE...   One JSON object per file on standard output.
"""

import json
import math
import sys

import ezdxf
from ezdxf import recover


def contour(entity):
    """Area and extents of a closed polyline or circle, arcs included, by Green's theorem."""
    if entity.dxftype() == "CIRCLE":
        c, r = entity.dxf.center, entity.dxf.radius
        return math.pi * r * r, [c.x - r, c.y - r, c.x + r, c.y + r]
    if entity.dxftype() == "LWPOLYLINE":
        vertices = [(x, y, b) for x, y, b in entity.get_points("xyb")]
    else:
        vertices = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)) for v in entity.vertices]
    twice = 0.0
    points = []
    for (x, y, b), (nx, ny, _) in zip(vertices, vertices[1:] + vertices[:1]):
        twice += x * ny - nx * y
        points.append((x, y))
        if b == 0:
            continue
        start, sweep, centre, radius = arc_of(x, y, nx, ny, b)
        twice += radius * radius * (sweep - math.sin(sweep))
        steps = max(2, math.ceil(abs(sweep) / 0.01))
        for i in range(1, steps):
            angle = start + sweep * i / steps
            points.append((centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)))
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return abs(twice) / 2, [min(xs), min(ys), max(xs), max(ys)]


def arc_of(x, y, nx, ny, bulge):
    sweep = 4 * math.atan(bulge)
    chord = math.hypot(nx - x, ny - y)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    away = chord * (1 - bulge * bulge) / (4 * bulge)
    ux, uy = (nx - x) / chord, (ny - y) / chord
    centre = ((x + nx) / 2 - uy * away, (y + ny) / 2 + ux * away)
    return math.atan2(y - centre[1], x - centre[0]), sweep, centre, radius


def is_closed(entity):
    if entity.dxftype() == "CIRCLE":
        return True
    if entity.dxftype() == "LWPOLYLINE":
        return bool(entity.closed)
    return entity.dxftype() == "POLYLINE" and bool(entity.is_closed)


def judge(path):
    document, auditor = recover.readfile(path)
    strict = ezdxf.readfile(path).audit()
    layers = {}
    for entity in document.modelspace():
        layer = layers.setdefault(entity.dxf.layer, {"types": {}, "open": 0, "contours": []})
        kind = entity.dxftype()
        layer["types"][kind] = layer["types"].get(kind, 0) + 1
        if kind == "TEXT":
            continue
        if not is_closed(entity):
            layer["open"] += 1
            continue
        area, box = contour(entity)
        layer["contours"].append({"area": area, "box": box})
    defined = {layer.dxf.name for layer in document.layers}
    return {
        "file": path,
        "errors": len(auditor.errors) + len(strict.errors),
        "fixes": len(auditor.fixes) + len(strict.fixes),
        "messages": [e.message for e in [*auditor.errors, *auditor.fixes, *strict.errors, *strict.fixes]],
        "release": document.dxfversion,
        "units": document.header.get("$INSUNITS", None) if document.dxfversion != "AC1009" else None,
        "undefinedLayers": sorted(set(layers) - defined),
        "layers": layers,
    }


for name in sys.argv[1:]:
    print(json.dumps(judge(name)))
