"""A grammar of pattern files: right ones, nearly right ones, and hostile ones.

A right file is a random pattern of the suite, written as JSON, which is YAML in flow form. A nearly right one has a
few of its values, keys or lists changed to others that quilters might write. A hostile one has values put in that
were made to break programs, or snippets put into its bytes.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any, Final

import hypothesis.strategies as st

from patterns_for_tests import file_of
from strategies import patterns

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

Step = Callable[[Any, Any], None]


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


@st.composite
def changed_files(draw: st.DrawFn, values: list[Any], most: int) -> bytes:
    """Draw a pattern file in which up to ``most`` places hold another value, lack theirs, or go by another key."""
    tree = json.loads(file_of(**draw(patterns())))
    for _ in range(draw(st.integers(1, most))):
        holder, key = draw(st.sampled_from(_places(tree)))
        what = draw(st.sampled_from(["value", "value", "value", "gone", "twice", "key", "new", "swap"]))
        if what == "gone":
            del holder[key]
        elif what == "twice" and isinstance(holder, list):
            holder.insert(key, copy.deepcopy(holder[key]))
        elif what == "key" and isinstance(holder, dict):
            at = draw(st.integers(0, len(key)))
            holder[key[:at] + draw(st.sampled_from(["", "s", "x", "é", "-"])) + key[at + 1 :]] = holder.pop(key)
        elif what == "new" and isinstance(holder, dict):
            name = draw(st.sampled_from(["turn", "finished", "method", "oversize", "mirror", "use", "../up", "stated"]))
            holder[name] = copy.deepcopy(draw(st.sampled_from(values)))
        elif what == "swap":
            other, at = draw(st.sampled_from(_places(tree)))
            holder[key] = copy.deepcopy(other[at])
        else:
            holder[key] = copy.deepcopy(draw(st.sampled_from(values)))
        if not tree:
            break
    return json.dumps(tree, ensure_ascii=draw(st.booleans()), indent=1).encode("utf-8", errors="surrogatepass")


@st.composite
def spoilt_files(draw: st.DrawFn) -> bytes:
    """Draw a pattern file with snippets put into its bytes and a few bytes taken out."""
    data = bytearray(file_of(**draw(patterns())))
    for _ in range(draw(st.integers(1, 5))):
        at = draw(st.integers(0, len(data)))
        if draw(st.booleans()):
            data[at:at] = draw(st.sampled_from(SNIPPETS))
        else:
            del data[at : at + draw(st.integers(1, 30))]
    return bytes(data)


def pattern_files() -> st.SearchStrategy[bytes]:
    """Return files of every sort; a right one is rare, because it is planned whole and takes the longest."""
    right = patterns().map(lambda sections: file_of(**sections))
    nearly = changed_files(NEARLY, 2)
    hostile = changed_files(HOSTILE, 3)
    return st.sampled_from([right, *[nearly] * 7, *[hostile] * 6, *[spoilt_files()] * 6]).flatmap(lambda sort: sort)
