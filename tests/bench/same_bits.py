#!/usr/bin/python3
"""same_bits.py ROOT: made weather and what a plane meets of it have the same bits from gcc and clang, from -O0 to -O3.
Compiles app/core/sky with tests/bench/weather.c in a scratch folder and compares the hashes. A compiler that is not there is skipped
and said so."""
import os
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

NEEDED = {"gcc": "gcc", "clang": "clang-14"}
# What core's meson.build gives every file that bears on floating point.
FLAGS = ["-std=gnu17", "-ffp-contract=off"]


def sources(root):
    sky = os.path.join(root, "app/core/sky")
    names = [os.path.join(sky, n) for n in sorted(os.listdir(sky)) if n.endswith(".c")]
    return names + [os.path.join(root, "app/core/util/random.c"), os.path.join(root, "tests/bench/weather.c")]


def hashes(compiler, level, root, folder):
    program = os.path.join(folder, os.path.basename(compiler) + level)
    subprocess.run([compiler, level, *FLAGS, "-I", os.path.join(root, "include/core"), "-o", program, *sources(root), "-lm"],
                   check=True)
    out = subprocess.run([program, "hash"], check=True, capture_output=True, text=True).stdout
    return re.findall(r"^\d+,([0-9a-f]{16})$", out, re.M)


def main():
    root = sys.argv[1]
    found = {kind: shutil.which(kind) or shutil.which(other) for kind, other in NEEDED.items()}
    skipped = [kind for kind in found if not found[kind]]
    builds = [(kind, level) for kind in found if found[kind] for level in ("-O0", "-O1", "-O2", "-O3")]
    with tempfile.TemporaryDirectory(prefix="wattberth-bits-") as folder, ThreadPoolExecutor(2) as pool:
        got = pool.map(lambda build: hashes(found[build[0]], build[1], root, folder), builds)
        cases = [("%s %s" % build, its) for build, its in zip(builds, got)]
    print("1..%d" % (len(cases) + len(skipped)))
    bad = 0
    for number, (name, got) in enumerate(cases, 1):
        right = got == cases[0][1] and len(got) == 2
        bad += not right
        print("# %s: %s" % (name, " ".join(got)))
        print("%s %d - %s" % ("ok" if right else "not ok", number, name))
    for number, kind in enumerate(skipped, len(cases) + 1):
        print("ok %d - %s # SKIP %s is not installed" % (number, kind, kind))
    sys.exit(1 if bad else 0)


main()
