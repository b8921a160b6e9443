#!/usr/bin/python3
"""test_roof.py PROGRAM: lists, keys, print dialog and large briefs on the roof page of the real window. Says as a comment
the longest the window kept a question waiting. TAP on standard output."""
import json
import os
import re
import threading
import time

from drive import GLib, Missing, until
from story import Story, tell

DEMO = os.path.join(os.path.dirname(__file__), "../../data/demo.brief.json")


class Waits:
    """Asks the window something small again and again; the longest it took to answer is how long its main loop stood."""

    def __init__(self, program):
        self.program = program
        self.longest = 0
        self.over = threading.Event()

    def __enter__(self):
        self.thread = threading.Thread(target=self.ask)
        self.thread.start()
        return self

    def ask(self):
        while not self.over.is_set():
            began = time.monotonic()
            self.program.root.role
            self.longest = max(self.longest, time.monotonic() - began)
            time.sleep(0.005)

    def __exit__(self, *failure):
        self.over.set()
        self.thread.join()


def many_obstacles(n):
    """A square roof of 12 m with n small vents on a grid."""
    with open(DEMO) as file:
        brief = json.load(file)
    side = int(n ** 0.5) + 1
    brief["roof"].update(length_mm=12000, width_mm=12000, obstacles=[
        {"name": "Vent %d" % (i + 1), "x_mm": i % side * 12000 // side, "y_mm": i // side * 12000 // side,
         "length_mm": 30, "width_mm": 30, "clearance_mm": 5} for i in range(n)])
    return brief


class Roof(Story):
    def begin(self):
        super().begin()
        self.show("roof")

    def until_roof(self, question, what):
        return until(lambda: question(self.brief()["roof"]), 10, what)

    def open(self, brief):
        path = os.path.join(self.folder, "opened.json")
        with open(path, "w") as file:
            json.dump(brief, file)
        self.program.activate("open-path", GLib.Variant("s", path), 1)

    def plan(self):
        return self.program.one("image", "The roof from above")

    def told(self):
        return self.plan().description

    def laid(self):
        found = re.search(r"(\d+) panels? laid", self.told())
        return int(found.group(1)) if found else 0

    def tab(self, name):
        self.program.one("page tab", name).act()

    def pointer(self, item):
        x, y, width, height = item.box
        left, top = item.program_origin()
        self.desk.x("mousemove", left + x + width // 2, top + y + height // 2)

    def away(self):
        x, y, _, _ = self.plan().box
        left, top = self.plan().program_origin()
        self.desk.x("mousemove", left + x + 5, top + y + 5)

    def rows(self, name):
        lists = self.program.all("list", name)
        return self.program.all("list item", below=lists[0]) if lists else []

    def choose(self, name):
        self.away()
        self.desk.x("click", 1)
        for _ in range(60):
            self.desk.keys("space")
            if until(lambda: re.search("Chosen: ([^.]*)", self.told()), 5, "something chosen").group(1) == name:
                return
        raise Missing("never chosen: " + name)

    # ---- lists ----

    def a_row_shows_its_layout(self):
        self.tab("What fits")
        row = until(lambda: [r for r in self.rows("What fits of each ticked panel") if "proved" in r.name], 60, "a proof")[0]
        most = int(re.search(r": (\d+) fit", row.name).group(1))
        row.press()
        self.away()
        until(lambda: self.laid() == most, 10, "the row's layout")

    def figures_stand_under_their_heads(self):
        """In a window so narrow that answers take several lines, too: every figure of a column ends where its head does."""
        window = self.desk.x("search", "--onlyvisible", "--pid", self.program.process.pid).split()[0]
        for width in (1000, 1180, 1280):
            self.desk.x("windowsize", "--sync", window, width, 800)
            heads = [self.program.one("push button", "Sort by " + word) for word in
                     ("size", "the watts of one", "how many fit", "watts on the roof", "weight on the roof")]

            def off():
                ends = [head.box[0] + head.box[2] for head in heads]
                lines = [[label.box for label in self.program.all("label", below=row)[1:6]]
                         for row in self.rows("What fits of each ticked panel")]
                return [[x + w for x, _, w, _ in line] for line in lines if [x + w for x, _, w, _ in line] != ends] or \
                    ([] if lines else "no rows")
            try:
                until(lambda: not off(), 10, "figures under their heads")
            except Missing:
                raise AssertionError("at %d: %s off %s" % (width, off()[:3], [head.box for head in heads]))

    def a_change_is_tried_on_the_plan(self):
        row = until(lambda: [r for r in self.rows("What fits of each ticked panel")
                             if self.program.all("push button", re.compile("fit"), below=r)], 60, "a change")[0]
        row.press()
        change = self.program.one("push button", re.compile("fit"), below=row)
        self.away()
        until(lambda: "Shown dashed" not in self.told(), 5, "the layout as it is")
        self.pointer(change)
        until(lambda: "Shown dashed" in self.told(), 5, "the change under the pointer")
        self.away()
        until(lambda: "Shown dashed" not in self.told(), 5, "the layout as it is again")
        change.press()
        self.away()
        until(lambda: "Shown dashed" in self.told(), 5, "the change pressed down")
        change.press()
        self.away()
        self.plan().press()
        until(lambda: "Shown dashed" not in self.told(), 5, "the change let go of")

    def a_mix_is_looked_at_only(self):
        self.tab("Mixes")
        for box in self.program.all("check box", re.compile("W$"))[:2]:
            box.press()
        row = until(lambda: self.rows("The best mixes"), 60, "a mix")[0]
        row.press()
        self.away()
        count = sum(int(n) for n in re.findall(r"(\d+) \u00d7 ", row.name))
        until(lambda: self.laid() == count, 10, "the mix on the plan")
        self.choose("panel 1")
        self.desk.keys("Return")
        until(lambda: "A mix is only looked at" in self.told(), 5, "why it cannot be pinned")
        assert not self.brief()["roof"].get("pins")
        self.tab("Outline and obstacles")

    # ---- keys ----

    def the_gland_is_deleted(self):
        before = self.brief()
        self.open(dict(before, roof=dict(before["roof"], gland={"x_mm": 1000, "y_mm": 30})))
        until(lambda: self.brief()["roof"].get("gland"), 10, "a gland")
        self.choose("the cable gland")
        self.desk.keys("Delete")
        self.until_roof(lambda r: not r.get("gland"), "no gland")
        self.desk.keys("ctrl+z")
        self.until_roof(lambda r: r.get("gland"), "the gland again")

    def a_panel_is_turned(self):
        """Where there is no room for it, it stays and the drawing says why."""
        until(self.laid, 60, "panels")
        self.choose("panel 1")
        self.desk.keys("t")
        pinned = until(lambda: self.brief()["roof"].get("pins") or "cannot lie there" in self.told(), 10, "an answer")
        if pinned is not True:
            self.desk.keys("ctrl+z")
            self.until_roof(lambda r: not r.get("pins"), "no pin")

    def alt_and_arrows_resize(self):
        fan = self.brief()["roof"]["obstacles"][0]
        self.choose("Roof fan")
        self.desk.keys("alt+Right", "alt+shift+Down")
        self.until_roof(lambda r: (r["obstacles"][0]["length_mm"], r["obstacles"][0]["width_mm"]) ==
                        (fan["length_mm"] + 1, fan["width_mm"] + 10), "a larger fan")
        for _ in range(2):  # a save between the two parts them
            if self.brief()["roof"]["obstacles"][0] != fan:
                self.desk.keys("ctrl+z")
                time.sleep(0.3)
        self.until_roof(lambda r: r["obstacles"][0] == fan, "the fan of before")

    def chosen(self):
        found = re.search("Chosen: ([^.]*)", self.told())
        return found.group(1) if found else ""

    def the_middle_button_pans(self):
        """Zoomed in, the fan is taken hold of where it was pushed to."""
        self.choose("Roof fan")
        before = self.brief()["roof"]
        self.desk.keys("plus", "plus", "plus")
        x, y, width, height = self.plan().box
        left, top = self.plan().program_origin()
        middle = (left + x + width // 2, top + y + height // 2)
        self.desk.x("mousemove", *middle, "sleep", 0.1, "click", 1)
        time.sleep(0.5)
        first = self.chosen()
        for _ in range(6):
            self.desk.x("mousemove", *middle, "sleep", 0.1, "mousedown", 2, "sleep", 0.1, "mousemove_relative", "--", -60, 0,
                        "sleep", 0.1, "mousemove_relative", "--", -60, 0, "sleep", 0.1, "mouseup", 2, "sleep", 0.1,
                        "mousemove", *middle, "sleep", 0.1, "click", 1)
            time.sleep(0.5)
            if self.chosen() != first:
                break
        assert self.chosen() != first, "the same lies under the pointer: " + first
        self.desk.keys("0")
        assert self.brief()["roof"] == before

    def printing_can_be_cancelled(self):
        before = self.brief()
        self.program.one("push button", "Drawing sheet").press()
        self.program.one("menu item", re.compile("Print")).act()
        dialog = until(lambda: [w for w in self.program.root.children if w.role != "frame" or w.name != self.program.window.name
                                if self.program.all("push button", "Cancel", below=w)], 20, "the print dialog")[0]
        self.program.one("push button", "Cancel", below=dialog).act()
        until(lambda: not self.program.all("push button", "Cancel"), 10, "the dialog gone")
        assert self.brief() == before

    # ---- other roofs ----

    def a_size_that_leaves_something_out_is_refused(self):
        self.choose("the right edge")
        self.desk.keys("ctrl+Left")
        until(lambda: re.search("Ladder rack begins.* Move it to the left or remove it", self.told()), 5, "what to move first")
        assert self.brief()["roof"]["length_mm"] == 3420

    def an_old_layout_is_never_shown(self):
        """Panels that are laid after an edit are the new roof's: their answer is known when asked for later."""
        self.open(many_obstacles(300))
        until(lambda: "And 280 obstacles more" in self.told(), 20, "the large roof")
        self.tab("What fits")
        row = until(lambda: self.rows("What fits of each ticked panel"), 20, "a row")[0]
        panel = row.name.split(":")[0]
        row.press()
        until(self.laid, 60, "panels on it")
        self.choose("Vent 1")
        for step in range(1, 4):
            self.desk.keys("ctrl+Right")
            until(lambda: "It is at %d, 0." % (100 * step) in self.told(), 10, "the vent moved")
            if self.laid():
                answer = [r.name for r in self.rows("What fits of each ticked panel") if r.name.startswith(panel + ":")]
                assert answer and "being worked out" not in answer[0], answer
        self.tab("Outline and obstacles")

    def a_thousand_obstacles(self):
        with Waits(self.program) as waits:
            self.open(many_obstacles(1000))
            until(lambda: "And 980 obstacles more" in self.told(), 20, "a thousand obstacles")
            until(self.laid, 120, "what fits between them")
            self.choose("Vent 2")
            self.desk.keys("Right", "Right", "ctrl+Right")
            until(lambda: re.search(r"Chosen: Vent 2\. It is at \d+", self.told()), 10, "the vent moved")
            time.sleep(1)
        print("# 1,000 obstacles: longest wait %.0f ms" % (1000 * waits.longest))
        assert waits.longest < 5, waits.longest

    def ten_thousand_obstacles(self):
        """Refused with what is accepted; the roof of before stays."""
        with Waits(self.program) as waits:
            self.open(many_obstacles(10000))
            self.program.one(None, re.compile("obstacles has 10000 items, but must have from 0 to 1000"))
        print("# 10,000 obstacles: longest wait %.0f ms" % (1000 * waits.longest))
        assert waits.longest < 5, waits.longest
        assert "And 980 obstacles more" in self.told()

    def a_search_let_run_on(self):
        brief = many_obstacles(16)
        brief["roof"].update(length_mm=7000, width_mm=2400, obstacles=[
            dict(o, x_mm=o["x_mm"] // 2, y_mm=o["y_mm"] // 6) for o in brief["roof"]["obstacles"]])
        self.open(brief)
        self.tab("What fits")
        button = until(lambda: self.program.all("push button", "Search on"), 120, "something not decided")[0]
        with Waits(self.program) as waits:
            button.act()
            until(lambda: [r for r in self.rows("What fits of each ticked panel") if "Searching on" in r.name] or
                  not self.program.all("push button", "Search on"), 30, "the search")
            for stop in self.program.all("push button", "Stop", below=self.program.one("list", "What fits of each ticked panel")):
                stop.act()
            until(lambda: not [r for r in self.rows("What fits of each ticked panel") if "Searching on" in r.name], 30,
                  "the search stopped")
        self.tab("Outline and obstacles")
        print("# searching on: longest wait %.0f ms" % (1000 * waits.longest))


tell(Roof, [Roof.a_row_shows_its_layout, Roof.figures_stand_under_their_heads, Roof.a_change_is_tried_on_the_plan,
            Roof.a_mix_is_looked_at_only, Roof.the_gland_is_deleted, Roof.a_panel_is_turned,
            Roof.alt_and_arrows_resize, Roof.the_middle_button_pans, Roof.printing_can_be_cancelled,
            Roof.a_size_that_leaves_something_out_is_refused, Roof.a_search_let_run_on,
            Roof.an_old_layout_is_never_shown, Roof.a_thousand_obstacles, Roof.ten_thousand_obstacles, Roof.close])
