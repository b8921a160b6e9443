#!/usr/bin/python3
"""shape.py ROOT: the top level is the design's, functions and files keep their length, no C file is
left out of the build, every file with translatable strings stands in po/POTFILES.in, and no loose ends
are left in the sources. A function over 60 lines says why in a comment "Long because ..." above it."""
import os
import re
import subprocess
import sys

from tap import report

TOP = {"app", "include", "data", "ui", "tests", "po", "meson.build", "README.md", "DEVELOPERS.md", "LICENSE"}
LOOSE = re.compile(r"\b(TODO|FIXME|XXX)\b")
START = re.compile(r"^\w[^;{}#]*\)\s*$")


def tracked(root):
    try:
        done = subprocess.run(["git", "-C", root, "ls-files", "-co", "--exclude-standard", "-z"], capture_output=True, text=True)
        names = done.stdout.split("\0") if done.returncode == 0 else []
    except FileNotFoundError:
        names = []
    if not any(names):  # no git, or no checkout: every file but what a build or a test leaves
        names = [os.path.relpath(os.path.join(d, n), root) for d, _, ns in os.walk(root) for n in ns
                 if not re.search(r"/(build[^/]*|\.git|__pycache__|shots/out)(/|$)", d)]
    return sorted(n for n in names if n and os.path.exists(os.path.join(root, n)))


def text(root, path):
    return open(os.path.join(root, path), encoding="utf-8", errors="replace").read()


def top_level(files):
    tops = {f.split("/")[0] for f in files}
    return ["the design does not allow %s at the top" % t for t in sorted(tops) if not t.startswith(".") and t not in TOP]


def functions(lines):
    """(name, first line, length, the three lines before) of each function body that starts in column 0."""
    start = None
    for number, line in enumerate(lines):
        if line.startswith("{"):
            start = number
        elif line.startswith("}") and start is not None:
            head = start
            while head > 0 and lines[head - 1].strip() and not lines[head - 1].startswith(("}", "#", "*/", " */")):
                head -= 1
            yield lines[head].strip(), head + 1, number - start - 1, "\n".join(lines[max(0, head - 4):head])
            start = None


def long_functions(root, files):
    found = []
    for path in files:
        if not path.endswith(".c") or not path.startswith("app/"):
            continue
        for name, line, length, before in functions(text(root, path).split("\n")):
            if length > 120 or (length > 60 and "Long because" not in before):
                found.append("%s:%d: %d lines: %s" % (path, line, length, name))
    return found


def long_files(root, files):
    sizes = ((f, text(root, f).count("\n")) for f in files if f.startswith(("app/", "include/")) and f.endswith((".c", ".h")))
    return ["%s has %d lines; split it before 600" % (f, n) for f, n in sizes if n >= 600]


def unbuilt(root, files):
    built = "".join(text(root, f) for f in files if f.endswith("meson.build"))
    return ["%s is in no meson.build" % f for f in files
            if f.startswith("app/") and f.endswith(".c") and "'%s'" % os.path.basename(f) not in built and "/%s'" % os.path.basename(f) not in built]


def untranslated(root, files):
    listed = set(text(root, "po/POTFILES.in").split())
    marks = re.compile(r'\b_\("|\bN_\("|\bC_\("|ngettext\(|translatable="yes"')
    wanted = {f for f in files if f.startswith(("app/", "ui/", "include/")) and f.endswith((".c", ".h", ".ui")) and marks.search(text(root, f))}
    return (["%s has translatable strings and is not in po/POTFILES.in" % f for f in sorted(wanted - listed)] +
            ["po/POTFILES.in lists %s, which is not there" % f for f in sorted(listed) if f.startswith(("app/", "ui/")) and f not in files])


def loose_ends(root, files):
    return ["%s:%d: %s" % (f, number, line.strip()) for f in files if f.startswith(("app/", "include/", "ui/"))
            for number, line in enumerate(text(root, f).split("\n"), 1) if LOOSE.search(line)]


def main():
    root = sys.argv[1]
    files = tracked(root)
    report([
        ("the top level is the design's", top_level(files)),
        ("functions keep their length", long_functions(root, files)),
        ("files keep their length", long_files(root, files)),
        ("every C file is built", unbuilt(root, files)),
        ("po/POTFILES.in is complete", untranslated(root, files)),
        ("no loose ends", loose_ends(root, files)),
    ])


main()
