"""Runs the real program in a home of its own and reports in TAP."""
import json
import os
import shutil
import subprocess
import sys
import tempfile

DONE, WRONG_INPUT, WRONG_USE, FILE, NO_KIT, DISPLAY = 0, 1, 2, 3, 4, 5


class Terminal:
    def __init__(self, program):
        self.program = os.path.abspath(program)
        self.home = tempfile.mkdtemp(prefix="wattberth-cli-")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        shutil.rmtree(self.home)

    def path(self, name):
        return os.path.join(self.home, name)

    def database(self):
        return self.path("data/wattberth/catalogue.db")

    def write(self, name, content):
        data = content if isinstance(content, bytes) else content.encode()
        with open(self.path(name), "wb") as file:
            file.write(data)
        return self.path(name)

    def run(self, *arguments, stdin=b"", stdout=subprocess.PIPE, **variables):
        env = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY")}
        env.update(HOME=self.home, XDG_DATA_HOME=self.path("data"), XDG_CONFIG_HOME=self.path("config"),
                   XDG_CACHE_HOME=self.path("cache"), **variables)
        return subprocess.run([self.program, *arguments], input=stdin, stdout=stdout, stderr=subprocess.PIPE,
                              env=env, cwd=self.home, timeout=600)

    def text(self, *arguments, **more):
        done = self.run(*arguments, **more)
        if done.returncode != DONE:
            raise AssertionError("%s gives %d: %s" % (arguments, done.returncode, done.stderr.decode()))
        equal(done.stderr, b"", "standard error of %r" % (arguments,))
        return done.stdout.decode()

    def json(self, *arguments, **more):
        """NaN and Infinity are no JSON, though Python's reader takes them."""
        def refuse(word):
            raise AssertionError("%s in JSON" % word)
        return json.loads(self.text(*arguments, "--json", **more), parse_constant=refuse)


def equal(got, wanted, what=""):
    if got != wanted:
        raise AssertionError("%s: got %r, wanted %r" % (what, got, wanted))


def holds(condition, what):
    if not condition:
        raise AssertionError(what)


def one_sentence(done, code):
    """Standard error carries one line, one sentence, and nothing went to standard output."""
    said = done.stderr.decode()
    equal(done.returncode, code, said)
    equal(said.count("\n"), 1, said)
    holds(said.startswith("wattberth: ") and said.endswith(".\n"), said)
    equal(done.stdout, b"", said)
    return said


def main(tests):
    """tests: (name, function); a failed assertion fails one test, anything else too."""
    print("1..%d" % len(tests))
    failed = 0
    for number, (name, test) in enumerate(tests, 1):
        try:
            test()
            print("ok %d - %s" % (number, name), flush=True)
        except Exception as error:  # reported, whatever it is
            failed += 1
            for line in ("%s: %s" % (type(error).__name__, error)).split("\n"):
                print("# " + line[:2000])
            print("not ok %d - %s" % (number, name), flush=True)
    sys.exit(1 if failed else 0)
