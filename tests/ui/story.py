"""A story of the real window: steps that share one window, each a test of its own, TAP on standard output.

    class MyStory(Story):
        def a_step(self): ...
    tell(MyStory, [MyStory.a_step, MyStory.close])
"""
import json
import os
import sys
import tempfile

from drive import Desk, GLib, Missing, until

FAILURES = (Missing, AssertionError, GLib.Error, AttributeError, KeyError, IndexError)


class Story:
    def __init__(self, desk, folder, program):
        self.desk = desk
        self.folder = folder
        self.program_path = program
        self.saves = 0
        self.program = None
        self.begin()

    def begin(self):
        self.program = self.desk.start([self.program_path])

    def show(self, page):
        self.program.activate("page", GLib.Variant("s", page), 1)

    def picture(self, name):
        if os.environ.get("WB_UI_PICTURES"):
            self.desk.picture(os.path.join(os.environ["WB_UI_PICTURES"], name + ".png"))

    def brief(self):
        """The brief as it would be saved now."""
        self.saves += 1
        path = os.path.join(self.folder, "brief-%d.json" % self.saves)
        self.program.activate("save-as-path", GLib.Variant("s", path), 1)
        until(lambda: os.path.exists(path), 10, "the saved brief")
        with open(path) as file:
            return json.load(file)

    def close(self):
        assert self.program.end() == 0
        assert not self.program.warnings(), self.program.warnings()


def tell(kind, steps):
    """The program is the first argument. Exits 1 where a step failed."""
    print("1..%d" % len(steps), flush=True)
    failed = 0
    with tempfile.TemporaryDirectory() as folder, Desk() as desk:
        story = kind(desk, folder, sys.argv[1])
        for number, step in enumerate(steps, 1):
            name = step.__name__.replace("_", " ")
            try:
                step(story)
                print("ok %d - %s" % (number, name), flush=True)
            except FAILURES as failure:
                failed += 1
                for line in ("%s: %s" % (type(failure).__name__, failure)).splitlines():
                    print("# " + line)
                if story.program:
                    print("# the program said: %s" % story.program.said()[-2000:].replace("\n", "\n# "))
                print("not ok %d - %s" % (number, name), flush=True)
                story.picture("failed-%d" % number)
    sys.exit(1 if failed else 0)
