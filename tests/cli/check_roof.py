#!/usr/bin/python3
"""check_roof.py PROGRAM ROOT: what `wattberth roof --json` says, checked by a program of its own: layouts against the
roof, small roofs against a search of its own. What was damaged on purpose must be refused."""
import copy
import json
import os
import sys

from roof_geometry import Roof, rect_of
from roof_proofs import Plain, overlap
from terminal import Terminal, equal, holds, main

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
SEARCHED_PLACES = 40  # own search: at most so many places

terminal = Terminal(PROGRAM)
with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as demo_file:
    BRIEF = json.load(demo_file)


def box(x, y, length, width, clearance=0, **more):
    return dict(name="Thing", x_mm=x, y_mm=y, length_mm=length, width_mm=width, clearance_mm=clearance, **more)


TAPERED = [[400, 0], [3020, 0], [3420, 1100], [3420, 1700], [0, 1700], [0, 900]]
# (name, members of the roof that replace the demo's)
ROOFS = [
    ("demo", {}),
    ("no margin and no gap", {"margin_mm": 0, "gap_mm": 0}),
    ("a wide gap", {"gap_mm": 170}),
    ("one thing in the middle", {"obstacles": [box(1500, 700, 300, 300, 35)]}),
    ("things over the edge", {"obstacles": [box(-100, 300, 250, 900, 20), box(3300, 1600, 400, 300, 10)]}),
    ("a tapered front", {"corners": TAPERED}),
    ("a tapered front, the other way round, no margin", {"corners": TAPERED[::-1], "margin_mm": 0}),
    ("a notch", {"corners": [[0, 0], [3420, 0], [3420, 1700], [2000, 1700], [2000, 900], [1400, 900], [1400, 1700], [0, 1700]],
                 "obstacles": []}),
    ("round things", {"obstacles": [box(1200, 600, 420, 420, 50, shape="round"), box(2500, 100, 90, 90, 60, shape="round"),
                                    box(300, 1500, 301, 301, 0, shape="round")]}),
    ("a walkway, shade, and a vent to pass over", {"standoff_mm": 100, "over_obstacles": True, "obstacles": [
        box(1600, 0, 300, 1700, kind="walkway"), box(0, 0, 900, 900, kind="shade"), box(600, 700, 300, 300, 40, height_mm=99),
        box(2500, 700, 300, 300, 40, height_mm=101)]}),
    ("things on each other", {"obstacles": [box(1000, 400, 700, 300, 5), box(1200, 500, 300, 900, 25)]}),
]


def with_roof(members):
    return dict(BRIEF, roof=dict(BRIEF["roof"], **members))


def ask(name, brief):
    return terminal.json("roof", terminal.write("%s.json" % name.replace(" ", "-"), json.dumps(brief)))


def sizes(panel):
    return [(panel["length_mm"], panel["width_mm"], True)] * len(panel["layout"])


def check_layouts(roof, answer):
    for panel in answer["panels"]:
        layout = [rect_of(rect) for rect in panel["layout"]]
        fault = roof.fault(layout, sizes(panel))
        holds(fault is None, "%s: %s" % (panel["panel"], fault))
        equal(len(layout), panel["most"], panel["panel"])
        equal(panel["layout_checked"], True, panel["panel"])
        holds(panel["most"] <= panel["mm_bound"] <= panel["bound"], "%(panel)s: %(most)d of %(mm_bound)d, %(bound)d" % panel)
        equal(panel["answer"] == "proved", panel["most"] == panel["bound"], panel["panel"])


def most_of(places, gap):
    """The most places that do not overlap, by trying all: the first one is taken, or it is not."""
    if not places:
        return 0
    first, rest = places[0], places[1:]
    taken = 1 + most_of([p for p in rest if not overlap(p, first, gap)], gap)
    return taken if taken > len(rest) else max(taken, most_of(rest, gap))


def check_small(roof, answer):
    """Where few places are possible, all ways are tried."""
    checked = 0
    for panel in answer["panels"]:
        places = Plain.of(roof).places(panel["length_mm"], panel["width_mm"])
        if len(places) <= SEARCHED_PLACES:
            equal(panel["most"], most_of(sorted(places), roof.gap), panel["panel"])
            checked += 1
    return checked


def roof_case(name, members):
    def test():
        brief = with_roof(members)
        roof, answer = Roof(brief["roof"]), ask(name, brief)
        check_layouts(roof, answer)
        if not roof.slanted():
            holds(check_small(roof, answer) >= 5, "own search: too few models")
    return test


def test_pins():
    """Pinned panels stand first and where they were put; the rest is laid round them; a pin in the way holds nothing."""
    pins = [{"panel": "p-orrelith-50-rigid", "x_mm": 1750, "y_mm": 100, "turned": True},
            {"panel": "p-orrelith-80-rigid", "x_mm": 100, "y_mm": 300, "turned": False},
            {"panel": "p-orrelith-50-rigid", "x_mm": 41, "y_mm": 43, "turned": False},
            {"panel": "p-orrelith-100-rigid", "x_mm": 1200, "y_mm": 600, "turned": False}]
    brief = with_roof({"pins": pins})
    answer, free = ask("pins", brief), {p["panel"]: p for p in ask("demo", BRIEF)["panels"]}
    check_layouts(Roof(brief["roof"]), answer)
    for panel in answer["panels"]:
        name, layout = panel["panel"], [rect_of(rect) for rect in panel["layout"]]
        equal(panel["pinned"], {"p-orrelith-50-rigid": 2, "p-orrelith-80-rigid": 1}.get(name, 0), name)
        equal(panel["pins_refused"] is not None, name == "p-orrelith-100-rigid", name)
        holds(panel["most"] <= free[name]["bound"], name)
        if panel["pinned"] == 0:
            equal((panel["most"], panel["bound"]), (free[name]["most"], free[name]["bound"]), name)
    fifty = next(p for p in answer["panels"] if p["panel"] == "p-orrelith-50-rigid")
    equal([rect_of(r) for r in fifty["layout"]][:2], [(1750, 100, 540, 630), (41, 43, 630, 540)])
    # The rest by a search of its own: the roof with the pinned ones as things in the way.
    roof = Roof(with_roof({"obstacles": BRIEF["roof"]["obstacles"] + [box(1750, 100, 540, 630, 20), box(41, 43, 630, 540, 20)]})["roof"])
    equal(fifty["most"], 2 + most_of(sorted(Plain.of(roof).places(630, 540)), roof.gap))


# ---- damaged on purpose ----

def damages(roof, layout):
    """Layouts that are wrong in one thing each, made of a sound one of at least two panels that is pushed to the left."""
    def moved(i, dx, dy):
        rects = copy.deepcopy(layout)
        rects[i] = (rects[i][0] + dx, rects[i][1] + dy) + rects[i][2:]
        return rects
    first = layout[0]
    yield "over the left edge", moved(0, roof.margin - first[0] - 1, 0)
    yield "over the back edge", moved(0, 0, roof.width - roof.margin - first[1] - first[3] + 1)
    yield "twice the same", [first] + layout
    yield "1 mm too near", [first, (first[0] + first[2] + roof.gap - 1, first[1]) + tuple(first[2:])]
    yield "1 mm shorter", [first[:2] + (first[2] - 1, first[3])] + layout[1:]
    yield "half a millimetre", [(first[0] + 0.5,) + tuple(first[1:])] + layout[1:]
    for obstacle in roof.obstacles:
        yield "on " + obstacle["name"], moved(0, obstacle["x_mm"] - obstacle.get("clearance_mm", 0) - first[0] - first[2] + 1,
                                              obstacle["y_mm"] - first[1])


def test_damaged_layouts():
    """The checker above can fail."""
    roof = Roof(BRIEF["roof"])
    panel = next(p for p in ask("demo", BRIEF)["panels"] if p["panel"] == "p-orrelith-50-rigid")
    layout = [rect_of(rect) for rect in panel["layout"]]
    kinds = set()
    for what, wrong in damages(roof, layout):
        fault = roof.fault(wrong, [sizes(panel)[0]] * len(wrong))
        holds(fault is not None, "not refused: " + what)
        kinds.add(fault.split(":")[0].split(" on ")[0].rstrip("0123456789 "))
    holds(len(roof.obstacles) == 5 and len(kinds) >= 4, kinds)


def test_geometry():
    """The checker's own geometry, on figures one sees at a glance."""
    tapered = Roof({"length_mm": 1000, "width_mm": 1000, "corners": [[0, 0], [1000, 0], [1000, 1000], [500, 1000]]})
    for rect, inside in (((500, 0, 500, 1000), True), ((499, 0, 500, 1000), False), ((250, 0, 100, 500), True),
                         ((249, 0, 100, 500), False), ((0, 900, 100, 100), False)):
        equal(tapered.place_ok(rect), inside, rect)
    notched = Roof({"length_mm": 100, "width_mm": 100, "margin_mm": 5,
                    "corners": [[0, 0], [100, 0], [100, 100], [60, 100], [60, 40], [40, 40], [40, 100], [0, 100]]})
    for rect, inside in (((5, 5, 90, 30), True), ((5, 5, 90, 31), False), ((5, 35, 30, 60), True), ((6, 35, 30, 60), False),
                         ((10, 60, 80, 20), False), ((45, 50, 10, 10), False)):
        equal(notched.place_ok(rect), inside, rect)
    # A disc of 50 at (50, 50): the corner (20, 10) of a panel is 30-40-50 from it.
    round_one = Roof({"length_mm": 200, "width_mm": 200, "obstacles": [box(0, 0, 100, 100, shape="round")]})
    for rect, free in (((0, 0, 20, 10), True), ((0, 0, 21, 10), False), ((0, 0, 20, 11), False), ((100, 0, 50, 100), True),
                       ((99, 0, 50, 100), False)):
        equal(round_one.place_ok(rect), free, rect)
    equal(Roof({"length_mm": 200, "width_mm": 200, "obstacles": [box(0, 0, 100, 100, 3, shape="round")]}).place_ok((0, 0, 17, 7)), True)
    equal(Roof({"length_mm": 200, "width_mm": 200, "obstacles": [box(0, 0, 100, 100, 3, shape="round")]}).place_ok((0, 0, 18, 7)), False)
    equal(most_of(Plain(0, 0, 19, 17, 0, []).places(9, 8), 0), 4)
    equal(most_of(Plain(0, 0, 13, 13, 0, [(6, 6, 7, 7)]).places(7, 6), 0), 4)  # a pinwheel round the middle


main([(name, roof_case(name, members)) for name, members in ROOFS] +
     [("pins", test_pins), ("damaged layouts are refused", test_damaged_layouts), ("own geometry", test_geometry)])
