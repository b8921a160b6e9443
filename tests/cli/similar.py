#!/usr/bin/python3
"""similar.py PROGRAM ROOT: who leads similar kits, worked out anew from the parts of each, and how the table tells it."""
import json
import os
import re
import sys

from terminal import WRONG_USE, Terminal, equal, holds, main, one_sentence

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
WIDTH = 100
PARTS = ("panels", "controllers", "bank", "inverter", "dcdc")
WORDS = ("the panels", "the controllers", "the bank", "the inverter", "the DC-DC charger")

terminal = Terminal(PROGRAM)


def choices(kit):
    """The five choices of a kit; the panels without how they are wired."""
    parts = kit["parts"]
    named = [parts[kind] and (parts[kind]["id"], parts[kind]["count"]) for kind in ("panel", "controller", "inverter", "dcdc")]
    bank = (parts["storage"]["id"], parts["storage"]["series"], parts["storage"]["parallel"])
    return named[0], named[1], bank, named[2], named[3]


def differences(a, b):
    return [name for name, x, y in zip(PARTS, choices(a), choices(b)) if x != y]


def leaders_of(kits):
    """For each kit the first kit that leads and that it is like, itself where there is none."""
    leaders, found = [], []
    for kit in kits:
        like = [leader for leader in leaders if len(differences(leader, kit)) <= 1]
        if not like:
            leaders.append(kit)
        found.append(like[0] if like else kit)
    return found


def small_brief():
    """The demo with few candidates, so that all that works can be looked at."""
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        brief = json.load(file)
    best = terminal.json("rank", "demo", "--top", "60")["kits"]
    used = {kit["parts"][kind]["id"] for kit in best for kind in kit["parts"] if kit["parts"][kind]}
    for kind, most in (("panel", 3), ("controller", 3), ("storage", 2), ("inverter", 2), ("dcdc", 1)):
        ids = sorted({kit["parts"][kind]["id"] for kit in best if kit["parts"][kind]})
        used -= set(ids[most:])
    brief["candidates"] = sorted(used)
    return terminal.write("small.json", json.dumps(brief))


small = small_brief()
whole = terminal.json("rank", small, "--top", "1000000")


def check_list(kits, complete):
    found = leaders_of(kits)
    for kit, leader in zip(kits, found):
        told = kit["similar"]
        equal(told["leader"], leader["id"], kit["id"])
        differs = differences(kit, leader)
        equal(told["differs_in"], None if leader is kit else differs[0] if differs else "panel-wiring", kit["id"])
        count = sum(other is leader for other in found) - 1
        holds(told["like_leader"] == count if complete else told["like_leader"] >= count, kit["id"])
    return found


def test_everything():
    kits = whole["kits"]
    equal(len(kits), whole["totals"]["feasible"])
    print("# %d kits" % len(kits))
    holds(50 < len(kits) < 5000, "a list of a size to look at: %d" % len(kits))
    check_list(kits, True)


def test_part_of_the_list():
    """Rows and leaders do not depend on how many are asked for, counts are of all that works."""
    equal(terminal.json("rank", small, "--top", "7")["kits"], whole["kits"][:7])
    check_list(terminal.json("rank", "demo", "--top", "200")["kits"], False)


def test_front():
    check_list(terminal.json("rank", small, "--list", "front", "--top", "1000000")["kits"], True)


def table(*arguments):
    """Rank, and the line of those like it, of each kit of the table."""
    text = terminal.text("rank", small, *arguments)
    for line in text.split("\n"):
        holds(len(line) <= WIDTH, line)
    kits = text.split("Ruled out by")[0]
    blocks = re.split(r"^ *(\d+)[* ]  (?=\d\.)", kits, flags=re.M)[1:]
    found = {}
    for rank, block in zip(blocks[::2], blocks[1::2]):
        line = re.search(r"^ +\+ (.*?)(?=^\S|\Z)", block, re.M | re.S)
        found[int(rank)] = re.sub(r"\s+", " ", line.group(1)).strip() if line else None
    return found, re.sub(r"\s+", " ", text)


def number(value):
    return "{:,}".format(value)


def check_line(line, members):
    if not members:
        equal(line, None)
        return
    holds(line.startswith("%d like it, differing in " % len(members)), line)
    names = [member["similar"]["differs_in"] for member in members]
    wanted = [words if names.count(name) == len(members) else "%s (%d)" % (words, names.count(name))
              for name, words in zip(PARTS + ("panel-wiring",), WORDS + ("the wiring of the panels",)) if name in names]
    equal(re.search(r"differing in (.*?)[;:]", line).group(1).split(", "), wanted, line)
    cheapest = min(members, key=lambda kit: (kit["figures"]["cost_minor"], kit["rank"]))
    lightest = min(members, key=lambda kit: (kit["figures"]["weight_kg"], kit["rank"]))
    for kit in (cheapest, lightest):
        holds("(number %s)" % number(kit["rank"]) in line, line)
    holds("{:,.2f} ".format(cheapest["figures"]["cost_minor"] / 100) in line, line)
    holds("{:,.1f} kg".format(lightest["figures"]["weight_kg"]) in line, line)


def test_table():
    leading = [kit for kit in whole["kits"] if kit["similar"]["leader"] == kit["id"]]
    for top in (1, 10, 1000000):
        found, text = table("--top", str(top))
        equal(list(found), [kit["rank"] for kit in leading][:top])
        holds("So %s kits are %s real choices" % (number(len(whole["kits"])), number(len(leading))) in text, text)
        for leader in leading[:top]:
            members = [kit for kit in whole["kits"] if kit["similar"]["leader"] == leader["id"] and kit is not leader]
            check_line(found[leader["rank"]], members)


def test_beyond_the_rows():
    """Kits beyond those the ranking keeps in full are shown as those within."""
    found = re.findall(r"^ *([\d,]+)[* ]  \d\.\d+ .*", terminal.text("rank", "demo", "--top", "400"), re.M)
    equal(len(found), 400)
    holds(int(found[-1].replace(",", "")) > 1000, found[-1])


def test_every():
    found, text = table("--every", "--top", "12")
    equal(list(found), list(range(1, 13)))
    holds(not any(found.values()) and "real choices" not in text, "similar kits told though each is listed")
    equal(terminal.json("rank", small, "--every", "--top", "7"), terminal.json("rank", small, "--top", "7"))
    one_sentence(terminal.run("rank", small, "--every=2"), WRONG_USE)
    one_sentence(terminal.run("explain", small, "--every"), WRONG_USE)


main([
    ("leaders of everything that works", test_everything),
    ("leaders of the first few", test_part_of_the_list),
    ("leaders of the front", test_front),
    ("the table", test_table),
    ("the table beyond the rows kept", test_beyond_the_rows),
    ("every kit", test_every),
])
