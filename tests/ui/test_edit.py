#!/usr/bin/python3
"""test_edit.py PROGRAM: place, season and roof edited in the real window as a person would. TAP on standard output."""
import json
import os
import re
import sys
import tempfile

from drive import Desk, GLib, Missing, until

PROGRAM = sys.argv[1]


class Story:
    """The steps share one window; each is a test of its own."""

    def __init__(self, desk, folder):
        self.desk = desk
        self.folder = folder
        self.saves = 0
        self.program = desk.start([PROGRAM])

    def show(self, page):
        self.program.activate("page", GLib.Variant("s", page), 1)

    def brief(self):
        """The brief as it would be saved now."""
        self.saves += 1
        path = os.path.join(self.folder, "brief-%d.json" % self.saves)
        self.program.activate("save-as-path", GLib.Variant("s", path), 1)
        until(lambda: os.path.exists(path), 10, "the saved brief")
        with open(path) as file:
            return json.load(file)

    def until_brief(self, question, what):
        return until(lambda: question(self.brief()), 10, what)

    def text(self, name):
        return self.program.one("text", name)

    def choose_a_place(self):
        self.show("place")
        self.program.one("entry", "Find a built-in place").press()
        self.desk.write("baril")
        self.program.one("label", "Bariloche, Argentina", rows=True)
        self.desk.keys("Return")
        self.until_brief(lambda b: b["site"]["place"] == "bariloche-argentina", "the chosen place")
        self.program.one("label", re.compile("Figures: .*%.* From "))
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["site"]["place"] == "nantes-france", "the place of before")

    def untick_a_month(self):
        self.show("place")
        march = self.program.one("push button", "March")
        march.act()
        self.until_brief(lambda b: b["site"]["months"] == [4, 5, 6, 7, 8, 9, 10], "March out of use")
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["site"]["months"] == [3, 4, 5, 6, 7, 8, 9, 10], "March in use again")

    def refuse_a_tilt(self):
        self.show("place")
        tilt = self.text("Tilt, 0 is flat")
        tilt.enter("95")
        self.program.one("status bar", re.compile("/site/tilt.?deg is 95.* 0 to 90"))
        assert self.brief()["site"].get("tilt_deg", 0) == 0
        self.desk.keys("Escape")
        until(lambda: tilt.text == "0", 5, "the old tilt")
        assert not self.program.all("status bar", re.compile("tilt.?deg is"))

    def type_without_confirming(self):
        """An edit takes effect while the keyboard is still in the field; one undo takes it back."""
        self.show("place")
        tilt = self.text("Tilt, 0 is flat")
        tilt.press()
        self.desk.keys("ctrl+a")
        self.desk.write("12,5")
        self.until_brief(lambda b: b["site"]["tilt_deg"] == 12.5, "the tilt typed")
        assert tilt.text == "12,5", tilt.text
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["site"].get("tilt_deg", 0) == 0, "the tilt of before")
        until(lambda: tilt.text == "0", 5, "the old tilt shown")

    def own_figures(self):
        self.show("place")
        self.program.one("push button", "Use figures of my own").act()
        name = self.text("Name")
        name.enter("Our meadow")
        self.until_brief(lambda b: b["site"]["place"]["name"] == "Our meadow", "a place of one's own")
        altitude = self.text("Altitude")
        altitude.enter("9500")
        self.program.one("status bar", re.compile("altitude.?m is 9500.* 9000"))
        self.desk.keys("Escape")
        self.desk.keys("ctrl+z", "ctrl+z")
        self.until_brief(lambda b: b["site"]["place"] == "nantes-france", "the built-in place")

    def type_an_obstacle(self):
        self.show("roof")
        width = self.text("Width of Roof fan")
        old = self.brief()["roof"]["obstacles"][0]["width_mm"]
        width.enter("350")
        self.until_brief(lambda b: b["roof"]["obstacles"][0]["width_mm"] == 350, "another width")
        width.enter("0")
        self.program.one("status bar", re.compile("width.?mm is 0"))
        self.desk.keys("Escape", "ctrl+z")
        self.until_brief(lambda b: b["roof"]["obstacles"][0]["width_mm"] == old, "the width of before")

    def plan(self):
        return self.program.one("image", "The roof from above")

    def nudge_an_obstacle(self):
        self.show("roof")
        before = self.brief()["roof"]["obstacles"][0]
        plan = self.plan()
        x, y, _, _ = plan.box
        left, top = plan.program_origin()
        self.desk.x("mousemove", left + x + 5, top + y + 5, "click", 1)  # beside the roof: the keyboard comes here
        self.desk.keys("space")
        until(lambda: "Chosen: Roof fan" in self.plan().description, 5, "the first obstacle chosen")
        self.desk.keys("Right", "Right", "shift+Right", "ctrl+Right")
        until(lambda: self.text("From the left of Roof fan").text == str(before["x_mm"] + 112), 10, "nudges to the right")
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"]["obstacles"][0] == before, "one undo for nudges in a row")

    def drag_an_obstacle(self):
        self.show("roof")
        before = self.brief()["roof"]
        fan = before["obstacles"][0]
        plan = self.plan()
        x, y, width, height = plan.box
        left, top = plan.program_origin()
        # The drawing stands in the middle of what its dimensions (56 + 8 px, 8 + 26 px) leave.
        scale = min((width - 64) / before["length_mm"], (height - 34) / before["width_mm"])
        at_x = left + x + 56 + (width - 64 - scale * before["length_mm"]) / 2
        at_y = top + y + 8
        from_x = int(at_x + scale * (fan["x_mm"] + fan["length_mm"] / 2))
        from_y = int(at_y + scale * (fan["y_mm"] + fan["width_mm"] / 2))
        panels = until(lambda: re.search(r"(\d+) panels? laid", self.plan().description), 20, "a layout").group(1)
        assert int(panels) > 0
        self.desk.x("mousemove", from_x, from_y, "sleep", 0.05, "mousedown", 1, "sleep", 0.05)
        for step in range(1, 9):
            self.desk.x("mousemove", from_x + 5 * step, from_y + 3 * step, "sleep", 0.02)
        self.desk.x("mouseup", 1)
        moved = self.until_brief(lambda b: b["roof"]["obstacles"][0] != fan and b["roof"], "the obstacle moved")
        there = moved["obstacles"][0]
        assert there["x_mm"] % 10 == 0 and there["y_mm"] % 10 == 0, there
        assert abs(there["x_mm"] - fan["x_mm"] - 40 / scale) < 10 and abs(there["y_mm"] - fan["y_mm"] - 24 / scale) < 10, (
            there, scale)
        assert self.text("From the left of Roof fan").text == str(there["x_mm"])
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"] == before, "one undo for the drag")

    def add_and_remove_an_obstacle(self):
        self.show("roof")
        n = len(self.brief()["roof"]["obstacles"])
        self.program.one("push button", "Add").act()
        self.until_brief(lambda b: len(b["roof"]["obstacles"]) == n + 1, "one obstacle more")
        until(lambda: "Chosen: Vent" in self.plan().description, 5, "the new one chosen")
        self.program.one("push button", "Remove").act()
        self.until_brief(lambda b: len(b["roof"]["obstacles"]) == n, "one obstacle less")

    def close(self):
        self.brief()
        assert self.program.end() == 0
        assert not self.program.warnings(), self.program.warnings()


STEPS = [Story.choose_a_place, Story.untick_a_month, Story.refuse_a_tilt, Story.type_without_confirming, Story.own_figures,
         Story.type_an_obstacle, Story.nudge_an_obstacle, Story.drag_an_obstacle, Story.add_and_remove_an_obstacle,
         Story.close]


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
            except (Missing, AssertionError, GLib.Error, KeyError) as failure:
                failed += 1
                print("# %s: %s" % (type(failure).__name__, str(failure).replace("\n", "\n# ")))
                print("not ok %d - %s" % (number, name), flush=True)
    sys.exit(1 if failed else 0)


main()
