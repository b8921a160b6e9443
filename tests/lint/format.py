#!/usr/bin/python3
"""format.py ROOT CLANG-FORMAT: every C file is as clang-format 14 would write it."""
import os
import subprocess
import sys

from tap import report

root, formatter = sys.argv[1], sys.argv[2]
files = sorted(os.path.join(d, n) for top in ("app", "include", "tests") for d, _, ns in os.walk(os.path.join(root, top))
               for n in ns if n.endswith((".c", ".h")))
done = subprocess.run([formatter, "--dry-run", "-Werror"] + files, capture_output=True, text=True, cwd=root)
bad = sorted({line.split(":")[0] for line in done.stderr.split("\n") if "error:" in line})
report([("clang-format changes nothing", ["clang-format -i " + os.path.relpath(f, root) for f in bad])])
