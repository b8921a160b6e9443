"""A few lines of TAP: each check counts once, and says what was wrong where it fails."""

import sys


class Tap:
    def __init__(self):
        self.count = 0
        self.failed = 0

    def check(self, name, wrong):
        """wrong: a list of sentences, empty where all is well."""
        self.count += 1
        self.failed += bool(wrong)
        print(f"{'not ok' if wrong else 'ok'} {self.count} - {name}")
        for line in wrong[:20]:
            print(f"# {line}")

    def done(self):
        print(f"1..{self.count}")
        sys.exit(1 if self.failed else 0)
