"""A small G-code reader of its own: G0 to G3 in G17, absolute, mm, and the drilling cycles G81 to G83.

It shares nothing with dryfit's reader, and refuses what it does not know rather than skip it.
"""

import math
import re

WORD = re.compile(r"([A-Z])\s*([-+]?(?:\d+\.?\d*|\.\d+))")
KNOWN_G = {0, 1, 2, 3, 4, 17, 21, 40, 49, 54, 55, 56, 57, 58, 59, 61, 64, 80, 81, 82, 83, 90, 94, 98, 99}
KNOWN_M = {0, 1, 2, 3, 4, 5, 6, 8, 9, 30}


def read(text):
    """The motions of a program: dicts of line, kind, start, end, tool and, for arcs, centre and sweep."""
    here = {"X": None, "Y": None, "Z": None}
    motions, tool, mode, sticky, retract = [], 0, None, {}, 98
    for number, raw in enumerate(text.splitlines(), start=1):
        line = re.sub(r"\([^()]*\)", " ", raw.split(";")[0]).upper().strip().lstrip("/")
        if line in ("", "%"):
            continue
        words = WORD.findall(line)
        if WORD.sub("", line).strip():
            raise ValueError(f"line {number}: {raw!r}")
        codes = [float(value) for letter, value in words if letter == "G"]
        stops = [float(value) for letter, value in words if letter == "M"]
        if set(codes) - KNOWN_G or set(stops) - KNOWN_M:
            raise ValueError(f"line {number}: unknown code in {raw!r}")
        value = {letter: float(v) for letter, v in words if letter not in "GMN"}
        if "T" in value:
            tool = int(value["T"])
        for code in codes:
            if code in (0, 1, 2, 3, 80, 81, 82, 83):
                mode, sticky = int(code), (sticky if code == mode else {})
            if code in (98, 99):
                retract = int(code)
        if any(axis in value for axis in "XYZ") and 4 not in codes:
            motions += step(number, mode, here, value, sticky, retract, tool)
        if {2, 30} & set(stops):
            break
    return motions


def step(number, mode, here, value, sticky, retract, tool):
    """What one line of axis words does; moves `here` along."""
    start = dict(here)
    if mode in (81, 82, 83):
        sticky.update({k: value[k] for k in "ZRQ" if k in value})
        at = {"X": value.get("X", here["X"]), "Y": value.get("Y", here["Y"])}
        back = max(sticky["R"], start["Z"]) if retract == 98 else sticky["R"]
        over, bottom, clear = {**at, "Z": start["Z"]}, {**at, "Z": sticky["Z"]}, {**at, "Z": back}
        here.update(clear)
        return [
            motion(number, "rapid", start, over, tool),
            motion(number, "feed", over, bottom, tool),
            motion(number, "rapid", bottom, clear, tool),
        ]
    here.update({k: value[k] for k in "XYZ" if k in value})
    if mode in (0, 1):
        return [motion(number, "rapid" if mode == 0 else "feed", start, dict(here), tool)]
    if mode in (2, 3):
        if "R" in value or not {"I", "J"} & set(value):
            raise ValueError(f"line {number}: an arc without its centre")
        arc = motion(number, "feed", start, dict(here), tool)
        arc["centre"] = (start["X"] + value.get("I", 0.0), start["Y"] + value.get("J", 0.0))
        arc["sweep"] = sweep(arc["start"], arc["end"], arc["centre"], 1 if mode == 3 else -1)
        return [arc]
    raise ValueError(f"line {number}: axis words without a motion mode")


def motion(number, kind, start, end, tool):
    def point(p):
        return (p["X"], p["Y"], p["Z"])

    return {"line": number, "kind": kind, "start": point(start), "end": point(end), "tool": tool}


def sweep(start, end, centre, turn):
    """Radians, signed; a full circle where the ends agree."""
    a = math.atan2(start[1] - centre[1], start[0] - centre[0])
    b = math.atan2(end[1] - centre[1], end[0] - centre[0])
    if math.dist(start[:2], end[:2]) < 1e-9:
        return turn * 2 * math.pi
    return turn * ((turn * (b - a)) % (2 * math.pi))
