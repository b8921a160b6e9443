"""Proofs and layouts damaged on purpose, in one thing each; none of them shows what it claims."""
import copy


def with_step(proof, at, **members):
    damaged = copy.deepcopy(proof)
    damaged["steps"][at].update(members)
    return damaged


def with_strips(proof, strips):
    return dict(copy.deepcopy(proof), strips=strips)


def with_points(proof, change):
    return dict(proof, points=[change(*point) for point in proof["points"]])


def weight_damages(proof):
    """Of a proof whose first step has weights."""
    one = proof["weight_of_one"]
    yield "no weights", dict(proof, points=[])
    yield "all weights 0", with_points(proof, lambda x, y, w: [x, y, 0])
    yield "half the weights", with_points(proof, lambda x, y, w: [x, y, w // 2])
    yield "one unit of one weight too little for the rest", with_points(proof, lambda x, y, w: [x, y, 0 if w == one else w // 3])
    yield "weights off the roof", with_points(proof, lambda x, y, w: [x + 100000, y, w])
    yield "weights behind the roof", with_points(proof, lambda x, y, w: [x, y + 100000, w])
    yield "weights in one place", with_points(proof, lambda x, y, w: [*proof["points"][0][:2], w])
    yield "a weight below 0", dict(proof, points=[[*proof["points"][0][:2], -1]] + proof["points"][1:])
    yield "a weight above 1", dict(proof, points=[[*proof["points"][0][:2], one + 1]] + proof["points"][1:])
    yield "a point without weight", dict(proof, points=[proof["points"][0][:2]] + proof["points"][1:])
    yield "the unit of the weights made larger", dict(proof, weight_of_one=2 * one)


def step_damages(proof):
    """Of any proof with steps; the last is a refute."""
    steps = proof["steps"]
    last = len(steps) - 1
    yield "no steps", dict(proof, steps=[])
    yield "the last step dropped", dict(proof, steps=steps[:-1])
    yield "the last step twice", dict(proof, steps=steps + steps[-1:])
    yield "an empty step after the end", dict(proof, steps=steps + [{"kind": "empty"}])
    yield "a case said to be empty", dict(proof, steps=steps[:-1] + [{"kind": "empty"}])
    yield "a step of no kind", with_step(proof, last, kind="believe")
    yield "a step that only closes", with_step(proof, last, kind="close")
    yield "weights beyond the list", with_step(proof, last, first=len(proof["points"]))
    yield "more weights than there are", with_step(proof, last, n=len(proof["points"]) + 1)
    yield "weights from before the list", with_step(proof, last, first=-1)
    yield "none of the weights", with_step(proof, last, n=0)


def claim_damages(proof, most):
    """`most` panels do lie there."""
    yield "what fits", dict(proof, panels=most)
    yield "one that fits", dict(proof, panels=1)
    yield "no panel", dict(proof, panels=0)
    yield "less than none", dict(proof, panels=-1)
    yield "by size", dict(proof, kind="size")
    yield "by area", dict(proof, kind="area")
    yield "by a search", dict(proof, kind="search")
    yield "by word of mouth", dict(proof, kind="trust")


def strip_damages(proof, roof, layout):
    """roof: without corners. layout: what lies there."""
    strips = proof["strips"]
    yield "a strip over the first panel", with_strips(proof, strips + [list(layout[0])])
    yield "1 mm of the first panel forbidden", with_strips(proof, strips + [[*layout[0][:2], 1, 1]])
    yield "a strip without width", with_strips(proof, strips + [[*strips[0][:2], 0, 1]])
    yield "a strip turned inside out", with_strips(proof, strips + [[strips[0][0] + 1, strips[0][1] + 1, -1, 1]])
    for i, (x, y, length, width) in enumerate(strips):
        grown = {"to the left": [x - 1, y, length + 1, width], "to the right": [x, y, length + 1, width],
                 "to the front": [x, y - 1, length, width + 1], "to the back": [x, y, length, width + 1],
                 "but 1 mm further right": [x + 1, y, length, width], "but 1 mm further back": [x, y + 1, length, width]}
        for how, strip in grown.items():
            off = roof.margin >= min(strip[0] + strip[2], strip[1] + strip[3]) or strip[0] >= roof.length - roof.margin or strip[1] >= roof.width - roof.margin
            if not off:
                yield "strip %d %s" % (i, how), with_strips(proof, strips[:i] + [strip] + strips[i + 1:])


def split_damages(proof):
    """Of a proof with cases; each shows soon."""
    at = next(i for i, step in enumerate(proof["steps"]) if step["kind"] == "split")
    step = proof["steps"][at]
    first, places = step["first_place"], proof["places"]
    yield "a place dropped", with_step(proof, at, n_places=step["n_places"] - 1)
    yield "a case dropped", with_step(proof, at, n_places=0)
    yield "the first place left out", with_step(proof, at, first_place=first + 1, n_places=step["n_places"] - 1)
    yield "places beyond the list", with_step(proof, at, first_place=len(places))
    yield "places from before the list", with_step(proof, at, first_place=-1)
    yield "a place 1 mm off", dict(proof, places=places[:first] + [[places[first][0] + 1, *places[first][1:]]] + places[first + 1:])
    yield "a place of another size", dict(proof, places=places[:first] + [[*places[first][:2], places[first][2] + 1, places[first][3]]] + places[first + 1:])
    yield "a split said to be an end", with_step(proof, at, kind="empty")
    yield "the split left out", dict(proof, steps=proof["steps"][:at] + proof["steps"][at + 1:])
    if step["n_places"] > 1:
        yield "the same place twice", dict(proof, places=places[:first + 1] + [places[first]] + places[first + 2:])


def keep_damages(proof):
    """Of a proof that keeps places; what it keeps, nothing else of it can stand for."""
    at = next(i for i, step in enumerate(proof["steps"]) if step["kind"] == "keep")
    step, places = proof["steps"][at], proof["places"]
    first = step["first_place"]
    yield "a kept place let go", with_step(proof, at, n_places=step["n_places"] - 1)
    yield "another kept place let go", with_step(proof, at, first_place=first + 1, n_places=step["n_places"] - 1)
    yield "nothing kept", with_step(proof, at, n_places=0)
    yield "kept from beyond the list", with_step(proof, at, first_place=len(places))
    yield "kept from before the list", with_step(proof, at, first_place=-1)
    yield "a kept place 1 mm off", dict(proof, places=places[:first] + [[places[first][0] + 1, *places[first][1:]]] + places[first + 1:])
    yield "a kept place twice and another not", dict(proof, places=places[:first + 1] + [places[first]] + places[first + 2:])
    yield "the keeping said to be an end", with_step(proof, at, kind="empty")
