"""A grammar of pattern files: right ones, nearly right ones, and hostile ones.

A right file is a random pattern of the suite, written as JSON, which is YAML in flow form. A nearly right one has a
few of its values, keys or lists changed to others that quilters might write. A hostile one has values put in that
were made to break programs, or snippets put into its bytes.
"""

from __future__ import annotations

import copy
import json
from random import Random
from typing import Any, Final

import hypothesis.strategies as st

from patterns_for_tests import file_of
from strategies import patterns

OF_EACH: Final = 8

NEARLY: Final[list[Any]] = [
    "0", "-1", "1", "2", "3 x 3", "2 1/2", "2.5", "1/3", "0 x 4", "4 x", "x", "12 in", "6 cm", "light", "dark.2", "red",
    "light 2 x 2", "prints.3 1 x 1", "prints.0 1 x 1", "yardage", "squares 10", "squares 5", "strips 2 1/2", "jelly",
    "fat eighths", "on-point", "straight", "true", "false", "yes", "up", "left", "90", "45", "360", "mitred", "butted",
    "cornerstone", "bias", "two", "eight", "flip", "triangles", "strips", "", None, [], {}, [[]], ["light", "dark"],
    [["one"]], [["one", "other"]], {"use": "one"}, {"use": "corner"}, {"use": "other", "turn": "90", "mirror": "true"},
    {"use": "nobody"}, {"row": ["light 1 x 1", "dark 1 x 2"]}, {"column": []},
    {"grid": ["AB"], "key": {"A": "red 1 x 1"}},
    {"mattress": "60 x 80", "drop": "12"}, {"fabric": "light"}, {"fabric": "red", "width": "1"}, "one@90", "one@45",
]  # fmt: skip

HOSTILE: Final[list[Any]] = [
    "9" * 30, "9" * 5000, "1" + "0" * 9, "1000000000 x 1000000000", "1/" + "9" * 40, "1/0", "0/0", "-0", "1e9", "1e999",
    ".inf", ".nan", "NaN", "0x10", "0o7", "1_000", "2026-11-27", "12:30:45", "~", "null", "=", "<<", "!!python/object",
    "\u0661\u0662", "\u00bd", "2\u20442", "\u202etxet", "a\u200bb", "\ufeff", "\U0001f9f5", "\x00", "\x1b[31m", "\x85",
    "\ud800", "<script>alert(1)</script>", "{{ 7*7 }}", "{% raw %}", "](javascript:x)", "`id`", "$(id)", "; rm x",
    "../../etc/passwd", "/etc/passwd", "..", "con", "a" * 201, "a" * 3000, "a\nb", "'\"", "\\", "&a", "*a", "%", "@",
    "300 x 300", "399 x 1/64", "2500 x 1", "50 x 50", "2501 x 1", "1/1024 x 1/1024", "1 x 1/7", "2 1/97 x 3 1/89",
    {"use": "one", "turn": "90", "mirror": "true", "extra": {"use": "one"}}, {"row": ["light 1/97 x 1"] * 60},
    {"grid": ["AB" * 40] * 40, "key": {"A": "light 1 x 1", "B": "dark 1 x 1"}}, {"around": {"centre": {"use": "one"}}},
]  # fmt: skip

# What YAML and the grammar of patterns are made of, with everything that is refused.
SNIPPETS: Final = [
    b"&a ", b"*a", b"!!str ", b"!x ", b"<<: ", b"? ", b": ", b"- ", b"[", b"]", b"{", b"}", b",", b"#", b"|", b">",
    b"'", b'"', b"%", b"@", b"`", b"\t", b"\r", b"\n", b"\r\n", b"\0", b"\x85", b"\xe2\x80\xa8", b"\xef\xbb\xbf",
    b"---\n", b"...\n", b"%YAML 1.2\n", b"\\", b'"\\ud800"', b'"\\Uffffffff"', b"\xff", b"\xc0\xaf",
    b"\xf0\x9f\x98\x80", b"  ", b"[" * 60, b"{a: " * 60, b"&a [*a, *a]", b"9" * 40, b"\xed\xa0\x80",
]  # fmt: skip


def _places(node: Any) -> list[tuple[Any, Any]]:
    """Return every value of a tree as its holder and its key or index."""
    found: list[tuple[Any, Any]] = []
    waiting = [node]
    while waiting:
        holder = waiting.pop()
        keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
        found += [(holder, key) for key in keys]
        waiting += [holder[key] for key in keys if isinstance(holder[key], dict | list)]
    return found


def _changed(tree: Any, chance: Random, values: list[Any], most: int) -> bytes:
    """Let up to ``most`` places of a pattern hold another value, lack theirs, or go by another key."""
    tree = copy.deepcopy(tree)
    for _ in range(chance.randint(1, most)):
        holder, key = chance.choice(_places(tree))
        what = chance.choice(["value", "value", "value", "gone", "twice", "key", "new", "swap"])
        if what == "gone":
            del holder[key]
        elif what == "twice" and isinstance(holder, list):
            holder.insert(key, copy.deepcopy(holder[key]))
        elif what == "key" and isinstance(holder, dict):
            at = chance.randint(0, len(key))
            holder[key[:at] + chance.choice(["", "s", "x", "é", "-"]) + key[at + 1 :]] = holder.pop(key)
        elif what == "new" and isinstance(holder, dict):
            name = chance.choice(["turn", "finished", "method", "oversize", "mirror", "use", "../up", "stated"])
            holder[name] = copy.deepcopy(chance.choice(values))
        elif what == "swap":
            other, at = chance.choice(_places(tree))
            holder[key] = copy.deepcopy(other[at])
        else:
            holder[key] = copy.deepcopy(chance.choice(values))
    return json.dumps(tree, ensure_ascii=chance.random() < 0.5, indent=1).encode("utf-8", errors="surrogatepass")


def _spoilt(text: bytes, chance: Random) -> bytes:
    """Put snippets into the bytes of a pattern file and take a few bytes out."""
    data = bytearray(text)
    for _ in range(chance.randint(1, 5)):
        at = chance.randint(0, len(data))
        if chance.random() < 0.5:
            data[at:at] = chance.choice(SNIPPETS)
        else:
            del data[at : at + chance.randint(1, 30)]
    return bytes(data)


def _sorts(sections: dict[str, Any], chance: Random) -> list[bytes]:
    """Return a right file, and others made from it."""
    right = file_of(**sections)
    tree = json.loads(right)
    files = [right]
    for _ in range(OF_EACH):
        files += [_changed(tree, chance, NEARLY, 2), _changed(tree, chance, HOSTILE, 3), _spoilt(right, chance)]
    return files


def pattern_files() -> st.SearchStrategy[list[bytes]]:
    """Return lists of files: a right one, then ``OF_EACH`` each of the nearly right, hostile and spoilt ones."""
    return st.builds(_sorts, patterns(), st.integers(0, 2**32).map(Random))
