"""An outside judge of layouts: reads one JSON object per line, prints one line per fault.

{"job", "spacing", "margin", "sheet": [rings], "keepOuts": [[rings]], "parts": [{"id", "rings"}]}
Rings are flattened on the true curves; SLACK covers the chords' rise. Judge: shapely.
"""
import json
import sys

from shapely.geometry import Polygon

SLACK = 0.003


def polygon(rings):
    return Polygon(rings[0], rings[1:])


for line in sys.stdin:
    case = json.loads(line)
    sheet = polygon(case["sheet"])
    parts = [(p["id"], polygon(p["rings"])) for p in case["parts"]]
    fault = lambda text: print(f"{case['job']}: {text}")
    for name, shape in parts:
        if not shape.is_valid:
            fault(f"{name} is no polygon")
        if shape.difference(sheet).area > SLACK * shape.length:
            fault(f"{name} leaves the sheet")
        elif case["margin"] > 0 and shape.distance(sheet.boundary) < case["margin"] - SLACK:
            fault(f"{name} is too near to the edge")
    others = parts + [(f"keep-out {k}", polygon(rings)) for k, rings in enumerate(case["keepOuts"])]
    for i, (name, shape) in enumerate(parts):
        for other, held in others[i + 1 :]:
            if shape.intersection(held).area > SLACK * min(shape.length, held.length):
                fault(f"{name} and {other} share wood")
            elif shape.distance(held) < case["spacing"] - SLACK:
                fault(f"{name} and {other} are {shape.distance(held):.4f} apart")
