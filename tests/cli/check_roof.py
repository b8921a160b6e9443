#!/usr/bin/python3
"""check_roof.py PROGRAM ROOT: what `wattberth roof --json` says, checked by a program of its own: layouts against the
roof, small roofs against a search of its own, every proof step by step, every change on the roof so changed. What was
damaged on purpose must be refused."""
import copy
import json
import os
import sys

sys.path.append(os.path.join(os.path.dirname(os.path.abspath(__file__)), os.pardir, "core"))
from mix_proofs import Clauses, holds as clauses_hold  # the second checker of clauses, from METHOD.md alone
from roof_damages import claim_damages, keep_damages, split_damages, step_damages, strip_damages, weight_damages
from roof_geometry import Roof, rect_of
from roof_proofs import Broken, Plain, follow, overlap
from terminal import Terminal, equal, holds, main

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
SEARCHED_PLACES = 40  # own search: at most so many places

terminal = Terminal(PROGRAM)
with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as demo_file:
    BRIEF = json.load(demo_file)


def box(x, y, length, width, clearance=0, **more):
    return dict(name="Thing", x_mm=x, y_mm=y, length_mm=length, width_mm=width, clearance_mm=clearance, **more)


TAPERED = [[400, 0], [3020, 0], [3420, 1100], [3420, 1700], [0, 1700], [0, 900]]
EIGHT = [[500, 0], [2920, 0], [3320, 300], [3420, 900], [3420, 1700], [0, 1700], [0, 900], [100, 300]]
# (name, members of the roof that replace the demo's)
ROOFS = [
    ("demo", {}),
    ("no margin and no gap", {"margin_mm": 0, "gap_mm": 0}),
    ("a wide gap", {"gap_mm": 170}),
    ("a small bare roof", {"length_mm": 1000, "width_mm": 700, "obstacles": []}),
    ("one thing in the middle", {"obstacles": [box(1500, 700, 300, 300, 35)]}),
    ("things over the edge", {"obstacles": [box(-100, 300, 250, 900, 20), box(3300, 1600, 400, 300, 10)]}),
    ("a tapered front", {"corners": TAPERED}),
    ("a tapered front, the other way round, no margin", {"corners": TAPERED[::-1], "margin_mm": 0}),
    ("a rounded front", {"corners": EIGHT}),
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
        decided = panel["most"] == panel["bound"]
        equal(panel["answer"] in ("proved", "searched"), decided, panel["panel"])
        equal(panel["answer"] == "proved", decided and panel["proof"] is not None, panel["panel"])


# ---- proofs ----

FOLLOWED = {}  # kind: how many


def check_proofs(roof, answer):
    """What is said to be proved has a proof of that many and one more, and it shows it."""
    followed = 0
    for panel in answer["panels"]:
        proof = panel["proof"]
        if proof is None:
            continue
        equal((proof["panels"], proof["checked"]), (panel["bound"] + 1, True), panel["panel"])
        equal((proof["length_mm"], proof["width_mm"]), (panel["length_mm"], panel["width_mm"]), panel["panel"])
        follow(proof, roof, panel["length_mm"], panel["width_mm"])
        FOLLOWED[proof["kind"]] = FOLLOWED.get(proof["kind"], 0) + 1
        followed += 1
    return followed


# ---- changes ----

LESS = {"margin": "margin_mm", "gap": "gap_mm"}


def changed(brief_roof, panel, change):
    """The roof and the panel's size with this change made."""
    roof, size, by = copy.deepcopy(brief_roof), [panel["length_mm"], panel["width_mm"]], change["by_mm"]
    kind = change["kind"]
    if kind in LESS:
        roof[LESS[kind]] -= by
    elif kind == "clearance":
        roof["obstacles"][change["obstacle"]]["clearance_mm"] -= by
    elif kind in ("move-x", "move-y"):
        roof["obstacles"][change["obstacle"]]["%s_mm" % kind[-1]] += by
    else:
        size[("panel-length", "panel-width").index(kind)] -= by
    return roof, size


def check_changes(brief_roof, answer):
    seen = 0
    for panel in answer["panels"]:
        for change in panel["changes"] or []:
            roof, size = changed(brief_roof, panel, change)
            layout = [rect_of(rect) for rect in change["layout"]]
            equal(len(layout), panel["most"] + 1, panel["panel"])
            fault = Roof(roof).fault(layout, [(*size, True)] * len(layout))
            holds(fault is None, "%s, %s: %s" % (panel["panel"], change["sentence"], fault))
            holds(change["by_mm"] != 0 and (change["by_mm"] > 0 or change["kind"] in ("move-x", "move-y")), change["kind"])
            holds(str(abs(change["by_mm"])) in change["sentence"].replace(",", "") or " mm instead of " in change["sentence"], change["sentence"])
            seen += 1
    return seen


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
        holds(check_proofs(roof, answer) >= len(answer["panels"]) - 2, "too few proofs")
        holds(check_changes(brief["roof"], answer) >= 20, "too few changes")
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
    # Pinned ones are obstacles in the proof, with the gap round them.
    for panel in answer["panels"]:
        held = [rect_of(rect) for rect in panel["layout"]][:panel["pinned"]]
        beside = Roof(with_roof({"obstacles": BRIEF["roof"]["obstacles"] + [box(*rect, 20) for rect in held]})["roof"])
        equal(panel["proof"]["panels"], panel["bound"] + 1 - panel["pinned"], panel["panel"])
        follow(panel["proof"], beside, panel["length_mm"], panel["width_mm"])
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


def refuse_all(damages, roof, length, width):
    """How many: each of them is refused."""
    refused = 0
    for what, proof in damages:
        try:
            follow(proof, roof, length, width)
        except Broken:
            refused += 1
            continue
        except (KeyError, IndexError, TypeError, ValueError) as error:
            raise AssertionError("%s: not refused but stumbled over: %r" % (what, error))
        except Exception as error:  # "search again" is no refusal
            raise AssertionError("%s: %r" % (what, error))
        raise AssertionError("not refused: " + what)
    return refused


def damages_of(panel, roof):
    proof, most = panel["proof"], panel["most"]
    yield from claim_damages(proof, most)
    yield from weight_damages(proof)
    yield from step_damages(proof)
    yield from strip_damages(proof, roof, [rect_of(rect) for rect in panel["layout"]])


def test_damaged_proofs():
    """Three models of the demo roof, and one dropped point after the other."""
    roof, refused = Roof(BRIEF["roof"]), 0
    panels = {p["panel"]: p for p in ask("demo", BRIEF)["panels"]}
    for name in ("p-brambleray-100-rigid", "p-orrelith-50-rigid", "p-tarnfeld-90-rigid"):
        panel = panels[name]
        equal((panel["proof"]["kind"], panel["proof"]["steps"][-1]["kind"]), ("weights", "refute"), name)
        refused += refuse_all(damages_of(panel, roof), roof, panel["length_mm"], panel["width_mm"])
        # Not on another roof, and not of smaller panels.
        without = Roof(with_roof({"obstacles": BRIEF["roof"]["obstacles"][1:]})["roof"])
        wider = Roof(with_roof({"margin_mm": 0, "obstacles": []})["roof"])
        for other, length, width in ((without, panel["length_mm"], panel["width_mm"]), (wider, panel["length_mm"], panel["width_mm"]),
                                     (roof, panel["length_mm"] // 3, panel["width_mm"] // 3)):
            refused += refuse_all([("another roof or panel than %s" % name, panel["proof"])], other, length, width)
    holds(refused >= 100, refused)
    print("# %d damaged proofs refused" % refused)


def test_slanted_strips():
    """On slants and circles: a strip 8 mm towards the middle of the roof is not forbidden any more."""
    for name, members in (("a rounded front", {"corners": EIGHT}), ("round things", dict(ROOFS)["round things"])):
        brief = with_roof(members)
        roof = Roof(brief["roof"])
        panel = next(p for p in ask(name, brief)["panels"] if p["panel"] == "p-orrelith-50-rigid")
        proof, refused = panel["proof"], 0
        holds(proof["step_mm"] >= 1 and proof["strips"], name)
        for i, (x, y, length, width) in enumerate(proof["strips"]):
            if Plain.off(roof, (x, y, length, width)):
                continue
            for grown in ([x - proof["step_mm"] - 8, y, length + proof["step_mm"] + 8, width], [x, y, length + proof["step_mm"] + 8, width]):
                strips = proof["strips"][:i] + [grown] + proof["strips"][i + 1:]
                try:
                    follow(dict(proof, strips=strips), roof, panel["length_mm"], panel["width_mm"])
                except Broken:
                    refused += 1
        holds(refused >= 5, "%s: %d of them refused" % (name, refused))


# 22 x 19 with three things on it; 33 of 3 x 4 are refuted by cases.
CASES = "cases 22 19 3 1 1 1\n12 9 2 1\n6 6 3 3\n8 4 1 1\n3 4 99\n"


def test_cases():
    """A proof by cases, and what becomes of it without one."""
    given = terminal.json("roof", "--instances", terminal.write("cases.txt", CASES))["instances"][0]
    proof = given["proof"]
    roof = Roof({"length_mm": 22, "width_mm": 19, "obstacles": given["obstacles"]})
    holds(sum(step["kind"] == "split" for step in proof["steps"]) >= 2, "no cases")
    equal((given["answer"], given["most"], proof["panels"]), ("proved", 32, 33))
    follow(proof, roof, 3, 4)
    damaged = list(split_damages(proof)) + list(step_damages(proof)) + list(claim_damages(proof, 32))
    equal(refuse_all(damaged, roof, 3, 4), len(damaged))
    # With few nodes by the places that no other can stand for.
    given = terminal.json("roof", "--instances", terminal.write("cases.txt", CASES), "--nodes", "16000")["instances"][0]
    proof = given["proof"]
    equal((given["answer"], given["proof_checked"], proof["panels"]), ("proved", True, 33))
    follow(proof, roof, 3, 4)
    damaged = list(keep_damages(proof))
    equal(refuse_all(damaged, roof, 3, 4), len(damaged))
    # By hand: 850 x 300 with a gap of 50 has two places for 400 x 300.
    one = 1 << 30
    by_hand = {"kind": "weights", "panels": 3, "strips": [], "weight_of_one": one, "points": [[450, 0, one]], "places": [[0, 0, 400, 300]],
               "steps": [{"kind": "split", "x_mm": 0, "y_mm": 0, "first_place": 0, "n_places": 1},
                         {"kind": "refute", "first": 0, "n": 1}, {"kind": "refute", "first": 0, "n": 1}]}
    room = Roof({"length_mm": 850, "width_mm": 300, "gap_mm": 50})
    follow(by_hand, room, 400, 300)
    # Area shows it too, and a search would.
    claims = [(what, proof) for what, proof in claim_damages(by_hand, 2) if what not in ("by area", "by a search")]
    damaged = list(split_damages(by_hand)) + claims
    equal(refuse_all(damaged, room, 400, 300), len(damaged))


# ---- mixes ----

def follow_mix(proof, roof):
    """Raises unless its items do not all lie on the roof."""
    items, plain = proof["items"], Plain.of(roof, [tuple(strip) for strip in proof["strips"]])
    if proof["kind"] == "one-size":
        item = items[proof["which"]]
        equal(proof["proof"]["panels"], item["count"])
        follow(proof["proof"], roof, item["length_mm"], item["width_mm"])
    elif proof["kind"] == "clauses":
        question = {"roof": [roof.length, roof.width, roof.margin, roof.gap], "obstacles": [[*strip, 0] for strip in proof["strips"]],
                    "items": [[i["length_mm"], i["width_mm"], i["count"], i["turns"]] for i in items]}
        literals = [literal for clause in proof["clauses"] for literal in [*clause, 0]]
        holds(clauses_hold(Clauses(question), literals), "the clauses do not follow")
        holds(not clauses_hold(Clauses(question), literals[:-1]), "half a proof passes")
    elif proof["kind"] == "size":
        item = items[proof["which"]]
        sides = (item["length_mm"], item["width_mm"])
        holds(not any(l <= plain.right - plain.left and w <= plain.back - plain.front for l, w in (sides, sides[::-1])), "it enters")
    else:
        equal(proof["kind"], "area")
        wanted = sum(i["count"] * (i["length_mm"] + roof.gap) * (i["width_mm"] + roof.gap) for i in items)
        holds(plain.clear_of_gap_area() < wanted, "the area is enough")


def mix_damages(proof, roof, first):
    """first: the mix that does lie there, {(length, width): count}."""
    fits = [dict(item, count=first[item["length_mm"], item["width_mm"]]) for item in proof["items"]]
    yield "what fits", dict(proof, items=fits)
    yield "no clause", dict(proof, clauses=[])
    yield "the last clause alone", dict(proof, clauses=proof["clauses"][-1:])
    yield "by size", dict(proof, kind="size", which=0)
    yield "by area", dict(proof, kind="area")
    yield "by word of mouth", dict(proof, kind="trust")
    yield "a strip in the open", dict(proof, strips=proof["strips"] + [[roof.length // 2, roof.margin, 1, 1]])
    yield "no strips", dict(proof, strips=[])


def refuse_mixes(proof, roof, first):
    refused = 0
    for what, damaged in mix_damages(proof, roof, first):
        try:
            follow_mix(damaged, roof)
        except (AssertionError, Broken):
            refused += 1
            continue
        raise AssertionError("not refused: a mix, " + what)
    return refused


MIXED = ["p-brambleray-120-rigid", "p-sundrell-110-flexible", "p-tarnfeld-200-rigid"]


def check_mixes(brief, sizes_of):
    """The front: layouts, watts and money; what one more would meet."""
    roof = Roof(brief["roof"])
    mixes = terminal.json("roof", terminal.write("mixes.json", json.dumps(brief)), "--mix", "--nodes", "4000000")["mixes"]
    watts, price = float("inf"), float("inf")
    for mix in mixes["front"]:
        layout = [rect_of(rect) for rect in mix["layout"]]
        names = [rect["panel"] for rect in mix["layout"]]
        equal({c["panel"]: c["count"] for c in mix["counts"] if c["count"]}, {name: names.count(name) for name in names})
        fault = roof.fault(layout, [(*sizes_of[name][:2], True) for name in names])
        holds(fault is None and mix["layout_checked"], fault)
        equal(mix["power_w"], sum(sizes_of[name][2] for name in names))
        holds(mix["power_w"] < watts and mix["price_minor"] < price and mix["load_kg"] <= brief["roof"]["max_load_kg"], mix["power_w"])
        watts, price = mix["power_w"], mix["price_minor"]
    cheapest = min(mix["price_minor"] / mix["power_w"] for mix in mixes["front"])
    equal([mix["price_minor"] / mix["power_w"] for mix in mixes["front"] if mix["most_for_the_money"]], [cheapest])
    first = {c["panel"]: c["count"] for c in mixes["front"][0]["counts"]}
    kinds = []
    for more in mixes["one_more"]:
        if more["answer"] != "does-not-fit":
            equal(more["proof"], None)
            continue
        wanted = sorted((*sizes_of[name][:2], count + (name == more["panel"])) for name, count in first.items())
        equal(sorted((i["length_mm"], i["width_mm"], i["count"]) for i in more["proof"]["items"]), wanted)
        equal(more["proof"]["checked"], True)
        follow_mix(more["proof"], roof)
        kinds.append(more["proof"]["kind"])
        if kinds[-1] == "clauses":
            equal(refuse_mixes(more["proof"], roof, {sizes_of[name][:2]: count for name, count in first.items()}), 8)
    return mixes, kinds


def test_mixes():
    """Three models at once: the best mix, and that no more lie beside it."""
    sizes_of = {p["panel"]: (p["length_mm"], p["width_mm"], p["power_w"] / p["most"]) for p in ask("demo", BRIEF)["panels"] if p["most"]}
    others = [part for part in candidates() if not part.startswith("p-")]
    brief = dict(BRIEF, candidates=others + MIXED)
    mixes, kinds = check_mixes(brief, sizes_of)
    equal((mixes["most_watts_proved"], mixes["undecided"]), (True, 0))
    equal([more["answer"] for more in mixes["one_more"]], ["does-not-fit"] * 3)
    # No model alone gives as much.
    alone = {p["panel"]: p["power_w"] for p in ask("three", brief)["panels"]}
    equal(set(alone), set(MIXED))
    holds(mixes["front"][0]["power_w"] > max(alone.values()), (mixes["front"][0]["power_w"], alone))
    slanted, more_kinds = check_mixes(dict(brief, roof=dict(BRIEF["roof"], corners=EIGHT)), sizes_of)
    holds(slanted["front"][0]["power_w"] <= mixes["front"][0]["power_w"], "more on a smaller roof")
    holds((kinds + more_kinds).count("clauses") >= 2 and len(kinds + more_kinds) >= 5, kinds + more_kinds)


def candidates():
    catalogue = json.loads(terminal.text("catalogue", "export", "-"))
    return [part["id"] for kind in ("panels", "controllers", "storage", "inverters", "dcdc") for part in catalogue[kind]]


def test_followed():
    """Last: how many proofs were followed on the way."""
    holds(FOLLOWED.get("weights", 0) >= 200 and FOLLOWED.get("area", 0) >= 3 and FOLLOWED.get("size", 0) >= 10, FOLLOWED)
    print("# proofs followed: %s" % FOLLOWED)


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
     [("pins", test_pins), ("damaged layouts are refused", test_damaged_layouts),
      ("damaged proofs are refused", test_damaged_proofs), ("strips in the open are refused", test_slanted_strips),
      ("a proof by cases", test_cases), ("mixes", test_mixes), ("proofs followed", test_followed), ("own geometry", test_geometry)])
