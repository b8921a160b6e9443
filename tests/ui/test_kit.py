#!/usr/bin/python3
"""test_kit.py PROGRAM: the four sides of the kit page in the real window, by keyboard and pointer. TAP on standard output."""
import json
import os
import re
import sys
import tempfile

from drive import Desk, GLib, Missing, until

PROGRAM = sys.argv[1]
DEMO = os.path.join(os.path.dirname(__file__), "../../data/demo.brief.json")


class Story:
    """The steps share one window; each is a test of its own."""

    def __init__(self, desk, folder):
        self.desk = desk
        self.folder = folder
        self.program = desk.start([PROGRAM])
        self.program.activate("page", GLib.Variant("s", "ranking"), 1)
        self.program.one("tree table", re.compile("^Kits that work"), seconds=120)
        self.program.activate("page", GLib.Variant("s", "kit"), 1)

    def open(self, change):
        with open(DEMO) as file:
            brief = json.load(file)
        change(brief)
        path = os.path.join(self.folder, "opened.json")
        with open(path, "w") as file:
            json.dump(brief, file)
        self.program.activate("open-path", GLib.Variant("s", path), 1)

    def tab(self, name):
        self.program.one("page tab", name).act()

    def labels(self):
        """Texts on the screen; a label that is taken away meanwhile is left out."""
        found = []
        for label in self.program.all("label"):
            try:
                found.append(label.text)
            except GLib.Error:
                continue
        return found

    def until_label(self, pattern, seconds=10):
        return until(lambda: [text for text in self.labels() if re.search(pattern, text)], seconds, "a label " + pattern)[0]

    def finding(self, pattern):
        return self.program.one("push button", re.compile(pattern))

    def opened(self):
        return [text for text in self.labels() if text in ("Formula", "Source", "To change", "To keep farther from it")]

    def diagram(self):
        return self.program.one("image", "Wiring diagram", seconds=30)

    def chosen(self):
        told = re.search("Chosen: ([^:]*):", self.diagram().description)
        return told.group(1) if told else None

    def circuits(self):
        return int(re.search(r"^(\d+) circuit", self.diagram().description).group(1))

    def scroll(self, clicks):
        x, y, width, _ = self.diagram().box
        left, top = self.diagram().program_origin()
        self.desk.x("mousemove", left + x + width - 30, top + max(y, 0) + 150)
        for _ in range(abs(clicks)):
            self.desk.x("click", 5 if clicks > 0 else 4)

    # ---- findings ----

    def findings_stand_by_severity(self):
        self.tab("Findings")
        titles = [text for text in self.labels() if re.search(r" \(\d+\)$", text)]
        order = ["Stops: it does not work", "Cautions", "Notes", "Checked and within its limits"]
        places = [order.index(re.sub(r" \(\d+\)$", "", title)) for title in titles]
        assert places == sorted(places), titles
        bars = [bar.description for bar in self.program.all("image") if re.search("left of|over|more than|short of", bar.description)]
        assert bars, "no bar tells how near its limit a finding stands"

    def a_finding_opens_by_pointer(self):
        assert not self.opened()
        self.finding("^The kit has .* panels; the roof takes").press()
        self.until_label("^Formula$")
        assert set(self.opened()) >= {"Formula", "Source"}, self.opened()
        self.until_label("panels <= the most that can be laid")

    def and_shuts_by_key(self):
        self.desk.keys("space")
        until(lambda: not self.opened(), 5, "the finding shut")
        self.desk.keys("Return")
        until(self.opened, 5, "the finding open again")

    def it_stays_open_when_told_anew(self):
        self.program.activate("page", GLib.Variant("s", "ranking"), 1)
        self.program.activate("page", GLib.Variant("s", "kit"), 1)
        self.until_label("^Formula$")

    # ---- wiring ----

    def keys_walk_the_circuits(self):
        self.tab("Wiring")
        until(lambda: self.diagram().description, 20, "the diagram")
        assert self.chosen() is None
        x, y, width, _ = self.diagram().box
        left, top = self.diagram().program_origin()
        self.desk.x("mousemove", left + x + width - 20, top + y + 60, "click", 1)
        walked = []
        for _ in range(3):
            before = self.chosen()
            self.desk.keys("Down")
            walked.append(until(lambda: self.chosen() != before and self.chosen(), 5, "the next circuit"))
        assert len(set(walked)) == 3, walked
        self.desk.keys("Up")
        until(lambda: self.chosen() == walked[1], 5, "the circuit before")
        self.until_label("  " + re.escape(walked[1]) + "$")

    def the_ends_and_none(self):
        self.desk.keys("End")
        last = until(self.chosen, 5, "the last circuit")
        self.desk.keys("Home")
        first = until(lambda: self.chosen() != last and self.chosen(), 5, "the first circuit")
        assert first in ("Panels to controller", "Panel string") or "alike" in first, first
        self.desk.keys("Escape")
        until(lambda: self.chosen() is None, 5, "none")

    def a_click_chooses(self):
        x, y, width, _ = self.diagram().box
        left, top = self.diagram().program_origin()
        for down in range(40, 400, 12):
            self.desk.x("mousemove", left + x + width // 8, top + y + down, "click", 1)
            if self.chosen():
                return
        raise Missing("no circuit under a click")

    def ctrl_and_wheel_zoom_and_do_not_scroll(self):
        place = self.diagram().box[1]
        self.desk.x("keydown", "Control_L")
        self.scroll(-2)
        self.desk.x("keyup", "Control_L")
        assert self.diagram().box[1] == place
        self.scroll(2)
        until(lambda: self.diagram().box[1] < place, 5, "the page scrolled")
        self.scroll(-10)

    def a_row_chooses(self):
        table = self.program.one("tree table", "Circuits")
        rows = [child for child in table.children if child.role == "list"][0]
        rows.call("Selection", "SelectChild", "(i)", 2)
        until(lambda: self.chosen() and self.diagram(), 5, "the row's circuit")
        self.until_label("^3  ")
        self.until_label("^Design current$")

    def what_is_asked_stands_above(self):
        assert self.program.all(None, re.compile("^Rules, sizes and lengths"))

    # ---- other briefs ----

    def without_wiring_it_says_so(self):
        self.open(lambda brief: brief["wiring"].update(on=False))
        self.program.activate("page", GLib.Variant("s", "kit"), 1)
        self.until_label("Circuits are not sized", 120)

    def has_all(self):
        try:
            return self.program.all("image", "Wiring diagram") and self.circuits() > 44
        except GLib.Error:
            return False  # it went away while we looked

    def forty_loads(self):
        def many(brief):
            brief["loads"] += [{"name": "Lamp %d over the long desk at the back" % i, "watts": 2, "supply": "dc",
                                "hours_per_day": 0.1, "when": "evening", "drop_percent": 10} for i in range(40)]
        self.open(many)
        self.program.activate("page", GLib.Variant("s", "kit"), 1)
        until(self.has_all, 180, "all circuits")
        self.desk.keys("End")

    def the_other_sides(self):
        self.tab("Energy")
        self.until_label("^Month by month$")
        self.tab("By hand")
        self.until_label("^By hand, from the worst month$")

    def close(self):
        assert self.program.end() == 0
        assert not self.program.warnings(), self.program.warnings()


STEPS = [Story.findings_stand_by_severity, Story.a_finding_opens_by_pointer, Story.and_shuts_by_key,
         Story.it_stays_open_when_told_anew, Story.keys_walk_the_circuits, Story.the_ends_and_none, Story.a_click_chooses,
         Story.ctrl_and_wheel_zoom_and_do_not_scroll, Story.a_row_chooses, Story.what_is_asked_stands_above,
         Story.without_wiring_it_says_so, Story.forty_loads, Story.the_other_sides, Story.close]


def main():
    print("1..%d" % len(STEPS))
    failed = 0
    with tempfile.TemporaryDirectory() as folder, Desk() as desk:
        story = Story(desk, folder)
        for number, step in enumerate(STEPS, 1):
            name = step.__name__.replace("_", " ")
            try:
                step(story)
                print("ok %d - %s" % (number, name), flush=True)
            except (Missing, AssertionError, GLib.Error, KeyError, IndexError) as failure:
                failed += 1
                print("# %s: %s" % (type(failure).__name__, str(failure).replace("\n", "\n# ")))
                print("not ok %d - %s" % (number, name), flush=True)
    sys.exit(1 if failed else 0)


main()
