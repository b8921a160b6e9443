#!/usr/bin/env python3
"""Turns a file into a C source that carries it: embed.py INPUT OUTPUT NAME

The source defines `const char wb_embedded_NAME[]` (a NUL stands after the last byte) and
`const size_t wb_embedded_NAME_length` (without that NUL)."""
import sys

BYTES_A_LINE = 80


def c_text(data):
    """A C string literal; octal escapes of three digits end by themselves."""
    plain = set(range(0x20, 0x7F)) - set(b'"\\?')
    return '"' + "".join(chr(b) if b in plain else "\\%03o" % b for b in data) + '"'


def main(source, target, name):
    with open(source, "rb") as file:
        data = file.read()
    lines = [c_text(data[i:i + BYTES_A_LINE]) for i in range(0, len(data), BYTES_A_LINE)] or ['""']
    with open(target, "w", encoding="ascii") as out:
        out.write("#include <stddef.h>\n\n")
        out.write(f"extern const char wb_embedded_{name}[];\n")
        out.write(f"extern const size_t wb_embedded_{name}_length;\n\n")
        out.write(f"const char wb_embedded_{name}[] =\n    " + "\n    ".join(lines) + ";\n")
        out.write(f"const size_t wb_embedded_{name}_length = {len(data)};\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
