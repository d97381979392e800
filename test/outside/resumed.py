"""Whether a program taken up again removes just the wood that the interrupted one had left, found with shapely.

stdin: [{"whole", "until", "resumed", "zero": "bed" | "top", "thickness", "diameters": {tool: mm}, "levels": [depth]}]
stdout: per case and level the areas, mm2, that the whole program and the one until then take, and the widths, mm, of
what is "missing" (left by the two, taken by the whole) and "extra" (taken by the resumed one, not by the whole).
"""

import json
import sys

from shapely.ops import unary_union

import removed

removed.CHORD_MM = 0.05  # the same arcs become the same chords on both sides, so they need not be fine


def main():
    print(json.dumps([[judge(case, level) for level in case["levels"]] for case in json.load(sys.stdin)]))


def judge(case, level):
    whole, until, rest = (taken(case, case[name], level) for name in ("whole", "until", "resumed"))
    missing, _ = removed.widest(whole.difference(until.union(rest)))
    extra, _ = removed.widest(rest.difference(whole))
    left, resumed = whole.difference(until), rest.difference(until)
    return {
        "level": level,
        "whole": whole.area,
        "left": left.area,
        "resumed": resumed.area,
        "missing": missing,
        "extra": extra,
    }


def taken(case, text, level):
    program = {"text": text, "zero": case["zero"], "diameters": case["diameters"]}
    cuts = removed.cuts_of(program, case["thickness"])
    return unary_union([shape for cut in cuts for shape in removed.swept(cut, level)])


if __name__ == "__main__":
    main()
