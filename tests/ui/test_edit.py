#!/usr/bin/python3
"""test_edit.py PROGRAM: place, season and roof edited in the real window as a person would. TAP on standard output."""
import re

from drive import Missing, until
from story import Story, tell


class Edit(Story):
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

    def on_screen(self, roof, x_mm, y_mm):
        """Where a point of the roof is drawn while all of it is shown. It stands in the middle of what its dimensions
        (64 + 16 px across, 24 + 28 px down) leave. Also px a mm."""
        plan = self.plan()
        x, y, width, height = plan.box
        left, top = plan.program_origin()
        scale = min((width - 80) / roof["length_mm"], (height - 52) / roof["width_mm"])
        return (round(left + x + 64 + (width - 80 - scale * roof["length_mm"]) / 2 + scale * x_mm),
                round(top + y + 24 + (height - 52 - scale * roof["width_mm"]) / 2 + scale * y_mm), scale)

    def drag(self, start, by_x, by_y):
        x, y = start[:2]
        self.desk.x("mousemove", x, y, "sleep", 0.05, "mousedown", 1, "sleep", 0.05)
        for step in range(1, 9):
            self.desk.x("mousemove", round(x + by_x * step / 8), round(y + by_y * step / 8), "sleep", 0.02)
        self.desk.x("mouseup", 1)

    def laid(self):
        return int(until(lambda: re.search(r"([1-9]\d*) panels? laid", self.plan().description), 20, "a layout").group(1))

    def drag_an_obstacle(self):
        self.show("roof")
        before = self.brief()["roof"]
        fan = before["obstacles"][0]
        middle = self.on_screen(before, fan["x_mm"] + fan["length_mm"] / 2, fan["y_mm"] + fan["width_mm"] / 2)
        scale = middle[2]
        self.laid()
        self.drag(middle, 40, 24)
        moved = self.until_brief(lambda b: b["roof"]["obstacles"][0] != fan and b["roof"], "the obstacle moved")
        there = moved["obstacles"][0]
        # To whole steps, or in line with something within 8 px.
        assert abs(there["x_mm"] - fan["x_mm"] - 40 / scale) < 10 / scale, (there, scale)
        assert abs(there["y_mm"] - fan["y_mm"] - 24 / scale) < 10 / scale, (there, scale)
        assert self.text("From the left of Roof fan").text == str(there["x_mm"])
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"] == before, "one undo for the drag")

    def resize_an_obstacle(self):
        """By the handle at its right back corner, which is there once it is chosen; with Shift to the millimetre."""
        self.show("roof")
        before = self.brief()["roof"]
        fan = before["obstacles"][0]
        middle = self.on_screen(before, fan["x_mm"] + fan["length_mm"] / 2, fan["y_mm"] + fan["width_mm"] / 2)
        self.desk.x("mousemove", *middle[:2], "click", 1)
        until(lambda: "Chosen: Roof fan" in self.plan().description, 5, "the obstacle chosen")
        corner = self.on_screen(before, fan["x_mm"] + fan["length_mm"], fan["y_mm"] + fan["width_mm"])
        self.desk.x("keydown", "shift")
        self.drag(corner, 24, 16)
        self.desk.x("keyup", "shift")
        there = self.until_brief(lambda b: b["roof"]["obstacles"][0] != fan and b["roof"]["obstacles"][0], "another size")
        assert (there["x_mm"], there["y_mm"]) == (fan["x_mm"], fan["y_mm"]), there
        scale = corner[2]
        assert abs(there["length_mm"] - fan["length_mm"] - 24 / scale) < 1 + 1 / scale, (there, scale)
        assert abs(there["width_mm"] - fan["width_mm"] - 16 / scale) < 1 + 1 / scale, (there, scale)
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"] == before, "one undo for the size")

    def pull_the_right_edge(self):
        self.show("roof")
        before = self.brief()["roof"]
        edge = self.on_screen(before, before["length_mm"], before["width_mm"] / 2)
        # An obstacle at the edge lies over it: the edge is taken from just outside.
        self.drag((edge[0] + 3, edge[1]), 30, 0)
        longer = self.until_brief(lambda b: b["roof"]["length_mm"] != before["length_mm"] and b["roof"]["length_mm"],
                                  "a longer roof")
        assert longer > before["length_mm"] and longer % 10 == 0, longer
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"] == before, "one undo for the edge")

    def choose(self, name):
        """By the keyboard alone, from whatever is chosen."""
        plan = self.plan()
        x, y, _, _ = plan.box
        left, top = plan.program_origin()
        self.desk.x("mousemove", left + x + 5, top + y + 5, "click", 1)
        for _ in range(40):
            self.desk.keys("space")
            if until(lambda: re.search("Chosen: ([^.]*)", self.plan().description), 5, "something chosen").group(1) == name:
                return
        raise Missing("never chosen: " + name)

    def panel_at(self):
        return tuple(int(n) for n in re.search(r"It is at (-?\d+), (-?\d+)", self.plan().description).groups())

    def pin_a_panel(self):
        """Pinned where it lies, nudged where there is room, and let go again."""
        self.show("roof")
        before = self.brief()["roof"]
        self.laid()
        self.choose("panel 1")
        x, y = self.panel_at()
        self.desk.keys("Return")
        pins = self.until_brief(lambda b: b["roof"].get("pins"), "a pin")
        assert [(p["x_mm"], p["y_mm"]) for p in pins] == [(x, y)], pins
        until(lambda: "Chosen: panel 1, pinned" in self.plan().description, 10, "the pinned one still chosen")
        up = y > before["margin_mm"] + 2
        there = y - 2 if up else y + 2
        self.desk.keys(*["Up" if up else "Down"] * 2)
        until(lambda: "It is at %d, %d." % (x, there) in self.plan().description, 10, "both nudges")  # a save between parts them
        self.until_brief(lambda b: b["roof"]["pins"][0]["y_mm"] == there, "the pin 2 mm further")
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"]["pins"][0]["y_mm"] == y, "one undo for both nudges")
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"] == before, "no pin")

    def drag_a_panel(self):
        """Dropped on an obstacle it goes back and the drawing says why; dropped on free roof it is pinned there."""
        self.show("roof")
        before = self.brief()["roof"]
        self.laid()
        self.choose("panel 1")
        x, y = self.panel_at()
        fan = before["obstacles"][0]
        start = self.on_screen(before, x + 60, y + 60)
        onto = self.on_screen(before, fan["x_mm"] + 60, fan["y_mm"] + 60)
        self.drag(start, onto[0] - start[0], onto[1] - start[1])
        until(lambda: "cannot lie there" in self.plan().description, 5, "why it cannot lie there")
        assert self.brief()["roof"] == before
        by = -10 if y > before["margin_mm"] + 20 / start[2] else 10
        self.drag(start, 0, by)
        pins = self.until_brief(lambda b: b["roof"].get("pins"), "a pin")
        assert abs(pins[0]["y_mm"] - y - by / start[2]) < 10 / start[2], (pins, start)
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"] == before, "no pin")

    def into_sight(self, role, name):
        """Scrolls what is below the plan until it can be clicked."""
        bottom = self.program.one("push button", "Keep").box[1] - 30
        plan = self.plan()
        x, y, width, height = plan.box
        left, top = plan.program_origin()
        self.desk.x("mousemove", left + x + width // 2, top + y + height + 110)
        for _ in range(40):
            item = self.program.one(role, name)
            above, below = item.box[1] < y + height + 50, item.box[1] + item.box[3] > bottom
            if not above and not below:
                return item
            self.desk.x("click", 4 if above else 5)
        raise Missing("%s stays out of sight" % name)

    def corners_of_the_roof(self):
        self.show("roof")
        before = self.brief()["roof"]
        self.into_sight("check box", "The outline is no rectangle").press()
        self.until_brief(lambda b: len(b["roof"].get("corners") or []) == 4, "four corners")
        self.choose("corner 3")
        self.desk.keys("ctrl+Up")
        self.until_brief(lambda b: b["roof"]["corners"][2] == [before["length_mm"], before["width_mm"] - 100],
                         "a corner nudged")
        self.desk.keys("Insert")
        self.until_brief(lambda b: len(b["roof"]["corners"]) == 5, "one corner more")
        until(lambda: "Chosen: corner 4" in self.plan().description, 5, "the new corner chosen")
        self.desk.keys("Delete")
        self.until_brief(lambda b: len(b["roof"]["corners"]) == 4, "one corner less")
        for _ in range(4):
            self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"] == before, "the rectangle")

    def zoom(self):
        """At any zoom the same hand moves the same millimetres."""
        self.show("roof")
        before = self.brief()["roof"]
        fan = before["obstacles"][0]
        middle = self.on_screen(before, fan["x_mm"] + fan["length_mm"] / 2, fan["y_mm"] + fan["width_mm"] / 2)
        self.desk.x("mousemove", *middle[:2], "click", 1, "keydown", "ctrl", "click", 4, "click", 4, "click", 4, "keyup", "ctrl")
        scale = middle[2] * 1.15 ** 3
        self.desk.x("keydown", "shift")
        self.drag(middle, 40, 0)
        self.desk.x("keyup", "shift")
        there = self.until_brief(lambda b: b["roof"]["obstacles"][0] != fan and b["roof"]["obstacles"][0], "a move")
        assert abs(there["x_mm"] - fan["x_mm"] - 40 / scale) < 1 + 1 / scale, (there, fan, scale)
        self.desk.keys("ctrl+z", "0")
        self.until_brief(lambda b: b["roof"] == before, "the roof of before")

    def change_a_kind(self):
        self.show("roof")
        self.into_sight(None, "Kind of Roof fan").press()
        self.desk.keys("Down", "Return")
        self.until_brief(lambda b: b["roof"]["obstacles"][0].get("shape") == "round", "a round one")
        until(lambda: "It is round" in self.plan().description, 5, "told as round")
        self.desk.keys("ctrl+z")
        self.until_brief(lambda b: b["roof"]["obstacles"][0].get("shape", "rectangle") == "rectangle", "square again")

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
        super().close()


tell(Edit, [Edit.choose_a_place, Edit.untick_a_month, Edit.refuse_a_tilt, Edit.type_without_confirming,
            Edit.own_figures, Edit.type_an_obstacle, Edit.nudge_an_obstacle, Edit.drag_an_obstacle,
            Edit.resize_an_obstacle, Edit.pull_the_right_edge, Edit.pin_a_panel, Edit.drag_a_panel,
            Edit.corners_of_the_roof, Edit.zoom, Edit.change_a_kind, Edit.add_and_remove_an_obstacle, Edit.close])
