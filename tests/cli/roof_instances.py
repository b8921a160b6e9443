#!/usr/bin/python3
"""roof_instances.py PROGRAM ROOT: `wattberth roof --instances` against known answers; layouts and proofs followed by
programs of their own."""
import csv
import os
import re
import sys

from roof_geometry import Roof, rect_of
from roof_proofs import Again, Broken, follow
from terminal import WRONG_INPUT, WRONG_USE, Terminal, equal, holds, main, one_sentence

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
sys.path.insert(0, os.path.join(ROOT, "tests", "core"))
from mix_proofs import Clauses, holds as clauses_hold  # noqa: E402

HERE = os.path.join(ROOT, "tests", "cli", "roof_instances.txt")
PROVED_MOST = 60  # of the published pallets: up to so many rectangles

# name: (answer, most)
ANSWERS = {
    "squares-5x12": ("fits", None), "squares-5x11": ("does-not-fit", None),
    "E00N10": ("does-not-fit", None), "E02F17": ("fits", None),
    "van4": ("proved", 3), "van6": ("proved", 0), "mix_boat0": ("does-not-fit", None), "mix_van4": ("fits", None),
    "bars": ("proved", 8), "bars-turned": ("proved", 10), "bars-crossed": ("proved", 6), "bars-9-fit-not": ("does-not-fit", 8),
    "just": ("proved", 2), "too-narrow": ("proved", 1), "larger": ("proved", 0), "covered": ("proved", 0),
    "seven": ("at-least", 7), "fills": ("fits", None),
}

terminal = Terminal(PROGRAM)
answer = terminal.json("roof", "--instances", HERE)
given = {instance["name"]: instance for instance in answer["instances"]}


def roof_of(instance, along=1, across=1):
    """As a brief's roof, stretched."""
    def stretched(rect):
        return {"x_mm": rect["x_mm"] * along, "y_mm": rect["y_mm"] * across, "length_mm": rect["length_mm"] * along,
                "width_mm": rect["width_mm"] * across, "clearance_mm": 0}
    return Roof({"length_mm": instance["length_mm"] * along, "width_mm": instance["width_mm"] * across,
                 "obstacles": [stretched(o) for o in instance["obstacles"]]})


def check_layout(instance):
    sizes, layout = instance["sizes"], instance["layout"]
    fault = roof_of(instance).fault([rect_of(rect) for rect in layout],
                                    [(sizes[r["size"]]["length_mm"], sizes[r["size"]]["width_mm"], instance["turns"]) for r in layout])
    holds(fault is None, "%s: %s" % (instance["name"], fault))
    counts = [sum(rect["size"] == i for rect in layout) for i in range(len(sizes))]
    if instance["answer"] == "fits":
        equal(counts, [size["count"] for size in sizes], instance["name"])
    elif instance["most"] is not None:
        equal(counts, [instance["most"]], instance["name"])
    else:
        holds(all(n <= size["count"] for n, size in zip(counts, sizes)) and len(layout) < instance["asked"], instance["name"])
    equal(instance["layout_checked"], bool(layout) or instance["most"] == 0, instance["name"])


def follow_mix(instance, proof):
    if proof["kind"] == "clauses":
        question = {"roof": [instance["length_mm"], instance["width_mm"], 0, 0],
                    "obstacles": [[*rect_of(o), 0] for o in instance["obstacles"]],
                    "items": [[s["length_mm"], s["width_mm"], s["count"], instance["turns"]] for s in instance["sizes"]]}
        literals = [literal for clause in proof["clauses"] for literal in [*clause, 0]]
        holds(clauses_hold(Clauses(question), literals), "%s: the clauses do not follow" % instance["name"])
        holds(not clauses_hold(Clauses(question), literals[:-1]), "%s: half a proof passes" % instance["name"])
    elif proof["kind"] == "one-size":
        item = proof["items"][proof["which"]]
        equal(proof["proof"]["panels"], item["count"], instance["name"])
        follow(proof["proof"], roof_of(instance), item["length_mm"], item["width_mm"])
    else:
        holds(proof["kind"] in ("size", "area"), proof["kind"])


def check_proof(instance):
    """What is said not to fit has a proof, and it proves that and no more."""
    proof, name, stretch = instance["proof"], instance["name"], (instance["stretch_along"], instance["stretch_across"])
    needed = instance["answer"] in ("proved", "does-not-fit")
    equal((proof is not None, instance["proof_checked"]), (needed, needed), name)
    if not needed:
        return equal(instance["proof_kind"], None, name)
    equal(proof["kind"], instance["proof_kind"], name)
    if instance["most"] is None:
        return follow_mix(instance, proof)
    equal(proof["panels"], instance["most"] + 1 if instance["question"] == "most" else instance["asked"], name)
    equal(stretch == (1, 1), instance["turns"], name)
    roof = roof_of(instance, *stretch)
    size = instance["sizes"][0]
    if not instance["turns"] and instance["layout"]:
        length, width = size["length_mm"] * stretch[0], size["width_mm"] * stretch[1]
        equal((proof["length_mm"], proof["width_mm"]), (length, width), name)
        holds(width > roof.length or length > roof.width, "%s: a turned one enters the stretched roof" % name)
    try:
        follow(proof, roof, proof["length_mm"], proof["width_mm"])
        less = dict(proof, panels=instance["most"])
        try:
            follow(less, roof, proof["length_mm"], proof["width_mm"])
        except Broken:
            return None
        raise AssertionError("%s: the proof shows that what lies there does not" % name)
    except Again:
        equal(proof["kind"], "search", name)


def test_answers():
    equal([i["name"] for i in answer["instances"]], list(ANSWERS))
    equal({n: (i["answer"], i["most"]) for n, i in given.items()}, ANSWERS)
    with open(HERE, encoding="utf-8") as file:
        lines = file.read().split("\n")
    for instance in answer["instances"]:
        equal(lines[instance["line"] - 1].split(" ")[:3], [instance["name"], str(instance["length_mm"]), str(instance["width_mm"])])


def test_table():
    """The same answers as a table, and a sum."""
    printed = terminal.text("roof", "--instances", HERE)
    rows = {line.split()[0]: line for line in printed.split("\n") if line.strip()}
    words = {"fits": "fits", "does-not-fit": "does not fit", "proved": "proved", "at-least": "at least"}
    for name, (code, most) in ANSWERS.items():
        holds(rows[name].endswith("  " + words[code]), rows[name])
        equal(rows[name].split()[1:4], [str(given[name]["asked"])] + (["-", "-"] if most is None else [str(most), str(given[name]["bound"])]), name)
        holds(re.search(r"  layout(, proof)?  |  proof  ", rows[name]), rows[name])
    holds("%d instances, %d decided, 0 not decided; 0 whose" % (len(ANSWERS), len(ANSWERS)) in " ".join(printed.split()), printed)


def test_budget():
    """A small budget decides less and says so; the same one says the same."""
    path = terminal.write("hard.txt", "E03X18 20 20 0 16 0 0\n18 3 1\n13 2 1\n7 3 1\n2 17 1\n4 16 1\n2 16 1\n7 8 1\n5 5 1\n1 6 1\n"
                          "1 12 1\n1 2 1\n1 5 2\n10 2 1\n3 3 2\n1 4 1\n2 2 1\nroof 8000 3500 0 1 1 1\n1200 540 999\n")
    little, more = (terminal.json("roof", "--instances", path, "--nodes", n)["instances"] for n in ("1", "200000"))
    equal([i["answer"] for i in little], ["not-decided", "not-decided"])
    holds(little[1]["most"] < little[1]["bound"], little[1])
    for instance in little + more:
        check_layout(instance)
    equal(little[0]["proof"], None)
    equal([i["answer"] for i in more], ["fits", "proved"])
    again = terminal.json("roof", "--instances", path, "--nodes", "1")["instances"]

    def untimed(instances):
        return [{k: v for k, v in i.items() if not k.endswith("_ms") or k in ("length_mm", "width_mm")} for i in instances]
    equal(untimed(again), untimed(little))
    holds("0 decided, 2 not decided" in terminal.text("roof", "--instances", path, "--nodes", "1"), "the sum")


def test_pallets():
    """The rows of tests/published/pallet.csv in the CSV form; a column of answers is named, not read."""
    with open(os.path.join(ROOT, "tests", "published", "pallet.csv"), encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(line for line in file if not line.startswith("#"))
                if row["expect"] == "proved" and int(row["most"]) <= PROVED_MOST]
    holds(len(rows) >= 10, len(rows))
    text = "w,most,l,W,L\n" + "".join("%(panel_b)s,%(most)s,%(panel_a)s,%(width)s,%(length)s\r\n" % row for row in rows)
    done = terminal.run("roof", "--instances", "-", "--json", stdin=text.encode())
    equal((done.returncode, done.stderr), (0, b"Not read: the columns most\n"))
    table = terminal.run("roof", "--instances", terminal.write("pallets.csv", text))
    equal((table.returncode, table.stderr), (0, b"Not read: the columns most\n"))
    instances = terminal.json("roof", "--instances", terminal.write("bare.csv", "L,W,l,w\n" + "".join(
        "%(length)s,%(width)s,%(panel_a)s,%(panel_b)s\n" % row for row in rows)))["instances"]
    for instance, row in zip(instances, rows):
        equal(instance["name"], "%(length)sx%(width)s/%(panel_a)sx%(panel_b)s" % row)
        equal((instance["answer"], instance["most"]), ("proved", int(row["most"])), instance["name"])
        check_layout(instance)
        check_proof(instance)
        holds(re.search(r"(?m)^%s +any +%s " % (instance["name"], row["most"]), table.stdout.decode()), instance["name"])


def test_large():
    """What only sizes make hard: an answer in good time, never more than was found."""
    path = terminal.write("large.txt", "dots 100000 100000 0 1 1 1\n1 1 100000\nroof 100000 100000 0 1 1 1\n99999 50000 9\n")
    dots, halves = terminal.json("roof", "--instances", path, "--nodes", "2000")["instances"]
    holds(dots["most"] <= dots["bound"] <= 10000 and len(dots["layout"]) == dots["most"] and dots["layout_checked"], "dots")
    equal((halves["answer"], halves["most"]), ("proved", 2))
    fixed = terminal.write("fixed.txt", "ok 10 10 0 1 1 1\n5 5 5\nfixed 100000 50000 0 1 1 0\n10 20 999\n")
    said = one_sentence(terminal.run("roof", "--instances", fixed), WRONG_INPUT)
    holds("fixed.txt, line 3" in said and "may not turn" in said, said)


def test_wrong_use():
    for arguments in (["demo", "--instances", HERE], ["--instances", HERE, "--panel", "p-x"], ["--instances", HERE, "--catalogue", "c.db"],
                      ["--instances"], ["--instances", HERE, "--nodes", "0"], []):
        said = one_sentence(terminal.run("roof", *arguments), WRONG_USE)
        holds("roof" in said or "--nodes" in said, said)


def keys_of(value):
    """All keys but those of proofs."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from keys_of(inner) if key != "proof" else ()
    elif isinstance(value, list):
        for inner in value:
            yield from keys_of(inner)


def test_keys():
    with open(os.path.join(ROOT, "data", "wattberth.1"), encoding="utf-8") as file:
        page = re.sub(r"\\f[A-Z]", "", file.read()).replace("\\-", "-")
    equal(list(answer)[:2], ["format", "version"])
    part = page[page.index(answer["format"]):]
    part = part[:part.index("\n.SS ", 10)]
    for key in set(keys_of(answer)) - {"format", "version", "x_mm", "y_mm"}:
        holds(re.search(r"(?<![a-z_])%s(?![a-z_])" % key, part), "the manual page lacks the key " + key)


def each(check):
    def test():
        for instance in answer["instances"]:
            check(instance)
    return test


main([
    ("the known answers", test_answers),
    ("every layout, by a program of its own", each(check_layout)),
    ("every proof, by a program of its own", each(check_proof)),
    ("the table", test_table),
    ("a budget", test_budget),
    ("published pallets as CSV", test_pallets),
    ("large ones", test_large),
    ("wrong use", test_wrong_use),
    ("keys in the manual page", test_keys),
])
