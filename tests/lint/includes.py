#!/usr/bin/python3
"""includes.py ROOT: includes point only from ui to model to store to core (DESIGN, layers), no header
includes itself by a detour, header names are unique. Also plants each fault in a small tree of its own
and checks that it is found."""
import os
import re
import sys
import tempfile

from tap import report

MAY_USE = {
    "core": {"core"},
    "store": {"store", "core"},
    "model": {"model", "store", "core"},
    "ui": {"ui", "model", "core"},
    "cli": {"cli", "model", "store", "core"},
    "top": {"core", "store", "model", "ui", "cli"},
}
# immintrin.h is the compiler's own: the machine's vector instructions.
C_HEADERS = {"assert.h", "errno.h", "float.h", "immintrin.h", "inttypes.h", "limits.h", "math.h", "pthread.h", "stdarg.h", "stdatomic.h",
             "stdbool.h", "stddef.h", "stdint.h", "stdio.h", "stdlib.h", "string.h", "threads.h"}
# Libraries a layer may not see, by the beginning of the include.
NOT_FOR = {
    "store": ("gtk/", "gdk/", "gio/", "glib-object", "gobject/"),
    "model": ("gtk/", "gdk/", "sqlite3", "cjson/", "cJSON"),
    "ui": ("sqlite3", "cjson/", "cJSON"),
    "cli": ("gtk/", "gdk/", "sqlite3"),
    "top": ("sqlite3", "cjson/", "cJSON"),
}
INCLUDE = re.compile(r'^\s*#\s*include\s*(["<])([^">]+)[">]', re.M)


def layer_of(path):
    parts = path.split("/")
    return parts[1] if len(parts) > 2 and parts[1] in MAY_USE else "top"


def sources(root):
    for top in ("app", "include"):
        for folder, _, names in os.walk(os.path.join(root, top)):
            for name in sorted(names):
                if name.endswith((".c", ".h")):
                    yield os.path.relpath(os.path.join(folder, name), root)


def read(root):
    """{path: [(quote, name)]} of all sources."""
    return {path: INCLUDE.findall(open(os.path.join(root, path), encoding="utf-8").read()) for path in sources(root)}


def headers_by_name(tree):
    names = {}
    for path in tree:
        if path.endswith(".h"):
            names.setdefault(os.path.basename(path), []).append(path)
    return names


def twice(tree):
    return ["%s stands in %s" % (name, " and ".join(paths)) for name, paths in headers_by_name(tree).items() if len(paths) > 1]


def wrong_direction(tree):
    names, found = headers_by_name(tree), []
    for path, includes in sorted(tree.items()):
        layer = layer_of(path)
        for quote, name in includes:
            if quote == "<":
                if layer == "core" and name not in C_HEADERS:
                    found.append("%s: core may not include <%s>" % (path, name))
                if name.startswith(NOT_FOR.get(layer, ())) and NOT_FOR.get(layer):
                    found.append("%s: %s may not include <%s>" % (path, layer, name))
                continue
            for header in names.get(os.path.basename(name), []):
                target = layer_of(header)
                if target not in MAY_USE[layer]:
                    found.append("%s: %s may not include %s of %s" % (path, layer, name, target))
                if header.startswith("app/") and target != layer and layer != "top":
                    found.append("%s: %s is private to %s" % (path, name, target))
    return found


def cycles(tree):
    names, found, state = headers_by_name(tree), [], {}

    def visit(header, trail):
        if state.get(header) == "open":
            found.append(" -> ".join(trail[trail.index(header):] + [header]))
        if header in state:
            return
        state[header] = "open"
        for quote, name in tree[header]:
            for target in names.get(os.path.basename(name), []) if quote == '"' else []:
                visit(target, trail + [header])
        state[header] = "done"

    for header in sorted(tree):
        if header.endswith(".h"):
            visit(header, [])
    return found


def planted(files, check, what):
    """Problems if `check` does not find the fault in a tree of these files."""
    with tempfile.TemporaryDirectory() as root:
        for path, text in files.items():
            os.makedirs(os.path.dirname(os.path.join(root, path)), exist_ok=True)
            open(os.path.join(root, path), "w", encoding="utf-8").write(text)
        return [] if check(read(root)) else ["a planted fault was not found: " + what]


def main():
    tree = read(sys.argv[1])
    report([
        ("includes point from ui to model to store to core", wrong_direction(tree)),
        ("no cycle among headers", cycles(tree)),
        ("header names are unique", twice(tree)),
        ("finds core including store",
         planted({"include/store/s.h": "", "app/core/x/a.c": '#include "s.h"\n'}, wrong_direction, "core -> store")),
        ("finds store including GTK", planted({"app/store/a.c": "#include <gtk/gtk.h>\n"}, wrong_direction, "store -> GTK")),
        ("finds core including GLib", planted({"app/core/a.c": "#include <glib.h>\n"}, wrong_direction, "core -> GLib")),
        ("finds ui reaching into a private header",
         planted({"app/model/p.h": "", "app/ui/a.c": '#include "p.h"\n'}, wrong_direction, "private header")),
        ("finds a cycle of two headers",
         planted({"include/core/a.h": '#include "b.h"\n', "include/core/b.h": '#include "a.h"\n'}, cycles, "a -> b -> a")),
    ])


main()
