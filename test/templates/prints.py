"""Measures printed pages as a maker would with a ruler.

stdin: {"perMm": pixels a millimetre, "pages": [pgm file], "tiles": [{"name", "window", "shift"}], "lines": [[[x, y], ...]] closed, "scale": [x, y]}
stdout: per page the two 100 mm checks in pixels; the joined sheets' line compared with `lines`, mm.
"""

import json
import sys

import numpy as np
from shapely.geometry import LinearRing

JOB = json.load(sys.stdin)
PX = JOB["perMm"]

# A sharper turn within a millimetre is a corner, where the line has no middle. Radians.
CORNER = 0.3


def main():
    job = JOB
    pages = [read(path) for path in job["pages"]]
    checks = [{"across": across(page), "up": up(page)} for page in pages]
    joined = compare(pages, job["tiles"], job["lines"], job["scale"]) if job["lines"] else None
    print(json.dumps({"checks": checks, "joined": joined, "sizes": [list(page.shape[::-1]) for page in pages]}))


def read(path):
    with open(path, "rb") as file:
        kind, size, most = file.readline(), file.readline(), file.readline()
        assert kind == b"P5\n" and most == b"255\n"
        width, height = map(int, size.split())
        return 1 - np.frombuffer(file.read(), np.uint8).reshape(height, width).astype(np.float32) / 255


def middles(darkness):
    """Centres of the runs of ink."""
    found, i = [], 0
    while i < len(darkness):
        if darkness[i] < 0.1:
            i += 1
            continue
        k = i
        while k < len(darkness) and darkness[k] >= 0.1:
            k += 1
        found.append(float(np.average(np.arange(i, k) + 0.5, weights=darkness[i:k])))
        i = k
    return found


def across(page):
    """Just below the level check's line only the two end ticks have ink."""
    row = page.shape[0] - int(30 * PX) + int(1.5 * PX)
    ticks = middles(page[row, int(5 * PX) : int(117 * PX)])
    assert len(ticks) == 2, ticks
    return ticks[1] - ticks[0]


def up(page):
    """Just right of the upright check's line only the two end ticks have ink."""
    column = int(14 * PX) + int(1.5 * PX)
    bottom = page.shape[0] - int(37 * PX)
    ticks = middles(page[bottom - int(107 * PX) : bottom + int(2 * PX), column])
    assert len(ticks) == 2, ticks
    return ticks[1] - ticks[0]


def join_line(page, expected, axis):
    """Where the dash-dot join really is: the middle of the darkest line within 2 mm of where it should be."""
    reach = int(2 * PX)
    low = int(expected) - reach
    if axis == "x":
        ink = page[int(15 * PX) : page.shape[0] - int(40 * PX), low : low + 2 * reach].sum(axis=0)
    else:
        ink = page[low : low + 2 * reach, int(20 * PX) : page.shape[1] - int(15 * PX)].sum(axis=1)
    ink = np.where(ink > 0.4 * ink.max(), ink, 0)
    return low + float(np.average(np.arange(2 * reach) + 0.5, weights=ink))


def compare(pages, tiles, lines, scale):
    """Sheets laid together by their join lines alone; then how far the heavy line is from where it should be."""
    places = {0: np.zeros(2)}
    while len(places) < len(tiles):
        for i, a in enumerate(tiles):
            for k, b in enumerate(tiles):
                if i in places and k not in places and neighbours(a, b):
                    places[k] = places[i] + step(pages, tiles, i, k)
    height = pages[0].shape[0]
    shift = np.array(tiles[0]["shift"])
    worst, seen, hidden, sampled = 0.0, 0, 0, 0
    for points in lines:
        ring = LinearRing(points)
        for along in np.arange(0.5, ring.length, 1.5):
            spots = [ring.interpolate(s % ring.length) for s in (along, along + 0.6, along - 0.6)]
            here, ahead, behind = (np.array([p.x, p.y]) for p in spots)
            sampled += 1
            if bend(behind, here, ahead) > CORNER:
                hidden += 1
                continue
            way = ahead - behind
            normal = np.array([-way[1], way[0]]) / np.hypot(*way)
            found = False
            for k, page in enumerate(pages):
                window = tiles[k]["window"]
                if any(not window[0][j] + 2 < here[j] < window[1][j] - 2 for j in (0, 1)):
                    continue
                found = True
                reach = np.arange(-1.2, 1.2001, 0.02)
                at = here + reach[:, None] * normal
                pixels = PX * (shift + np.array(scale) * at)
                xs = pixels[:, 0] - places[k][0]
                ys = height - pixels[:, 1] - places[k][1]
                ink = bilinear(page, xs, ys)
                dark = reach[ink > 0.5]
                if len(dark) == 0:
                    worst, seen = max(worst, 9.0), seen + 1
                    continue
                # A corner, or a thinner line that lies beside or crosses here, cannot be told from the heavy one.
                beside = ink[abs(reach - (dark[0] + dark[-1]) / 2) > 0.45].sum()
                if dark[-1] - dark[0] > 0.62 or beside > 0.01 * ink.sum():
                    hidden += 1
                    continue
                worst = max(worst, abs(float(np.average(reach, weights=ink))))
                seen += 1
            if not found:
                hidden += 1
    return {"worst": worst, "seen": seen, "hidden": hidden, "sampled": sampled}


def bend(a, b, c):
    """By how much the way from a over b to c turns, radians."""
    (ux, uy), (vx, vy) = b - a, c - b
    return abs(np.arctan2(ux * vy - uy * vx, ux * vx + uy * vy))


def neighbours(a, b):
    (row, column), (other_row, other_column) = ((t["name"][0], int(t["name"][1:])) for t in (a, b))
    return abs(ord(row) - ord(other_row)) + abs(column - other_column) == 1


def step(pages, tiles, i, k):
    """How far sheet k's paper lies from sheet i's, pixels, when their common join lines are laid on each other."""
    a, b = tiles[i], tiles[k]
    axis = 0 if a["name"][0] == b["name"][0] else 1
    middle = (max(a["window"][0][axis], b["window"][0][axis]) + min(a["window"][1][axis], b["window"][1][axis])) / 2
    spots = []
    for tile, page in ((a, pages[i]), (b, pages[k])):
        at = PX * (tile["shift"][axis] + tile["scale"][axis] * middle)
        spots.append(join_line(page, at if axis == 0 else page.shape[0] - at, "x" if axis == 0 else "y"))
    offset = np.zeros(2)
    offset[axis] = spots[0] - spots[1]
    return offset


def bilinear(page, xs, ys):
    xs, ys = xs - 0.5, ys - 0.5
    x0, y0 = np.floor(xs).astype(int), np.floor(ys).astype(int)
    fx, fy = xs - x0, ys - y0
    x0, y0 = np.clip(x0, 0, page.shape[1] - 2), np.clip(y0, 0, page.shape[0] - 2)
    return (
        page[y0, x0] * (1 - fx) * (1 - fy)
        + page[y0, x0 + 1] * fx * (1 - fy)
        + page[y0 + 1, x0] * (1 - fx) * fy
        + page[y0 + 1, x0 + 1] * fx * fy
    )


main()
