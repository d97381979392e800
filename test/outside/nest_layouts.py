"""An outside judge of bench results: one JSON object per line, {"instance": …, "result": …}; prints one line a fault.

Judge: shapely, on the instance's own polygons. Contact is no overlap: SLACK is a share of the smaller item's area.
"""
import json
import sys
from collections import Counter

from shapely.affinity import rotate, translate
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

SLACK = 1e-6


def sheet_of(instance, sheet):
    for known in instance.get("sheets", []):
        if known["id"] == sheet.get("sheet"):
            # Defects may overlap each other and the edge, which a polygon's holes may not.
            return Polygon(known["polygon"]).difference(unary_union([Polygon(h) for h in known.get("holes", [])]))
    return box(0, 0, *sheet["size"])


for line in sys.stdin:
    case = json.loads(line)
    instance, result = case["instance"], case["result"]
    name = instance["name"]
    fault = lambda text: print(f"{name}: {text}")
    items = {item["id"]: item for item in instance["items"]}
    seen = Counter(p["id"] for sheet in result["sheets"] for p in sheet["placements"])
    may_leave = instance["kind"] in ("guillotine-knapsack", "keep-out")
    for id, item in items.items():
        if seen[id] > item["demand"] or (seen[id] < item["demand"] and not may_leave):
            fault(f"{id} lies there {seen[id]} times, {item['demand']} are asked for")
    for number, sheet in enumerate(result["sheets"]):
        room = sheet_of(instance, sheet)
        laid = []
        for p in sheet["placements"]:
            if p["rotationDeg"] not in items[p["id"]]["allowedRotationsDeg"]:
                fault(f"{p['id']} is turned by {p['rotationDeg']}")
            shape = rotate(Polygon(items[p["id"]]["polygon"]), p["rotationDeg"], origin=(0, 0))
            laid.append((p["id"], translate(shape, p["x"], p["y"])))
        others = laid + [(k["id"], Polygon(k["polygon"])) for k in instance.get("keepOuts") or []]
        for i, (id, shape) in enumerate(laid):
            if shape.difference(room).area > SLACK * shape.area:
                fault(f"{id} leaves sheet {number + 1}")
            for other, held in others[i + 1 :]:
                if shape.intersection(held).area > SLACK * min(shape.area, held.area):
                    fault(f"{id} and {other} share wood on sheet {number + 1}")
