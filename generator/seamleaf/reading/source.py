"""Bytes to a tree of text with places: encoding, line ends, forbidden characters, and the YAML that is allowed.

The limits and refusals are those of the pattern file's contract: one document, UTF-8, at most 1 MiB and 40 levels;
no anchors, aliases, merge keys, tags, duplicate keys, tabs as indentation or control characters.

The events of the parser are read one by one and never composed by the library, so that a file of a few bytes can
neither unfold into a large one nor reach deeper than the limit. libyaml reads the file where it is there; whenever
it objects, the parser in pure Python reads the file again, so that messages do not depend on the installation.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import Any, Final

import yaml

from seamleaf.reading.marks import MAX_BYTES, Mark
from seamleaf.reading.nodes import Entry, Mapping, Node, Refused, Scalar, Sequence
from seamleaf.reading.plain_yaml import PlainLoader
from seamleaf.reading.problems import Report
from seamleaf.reading.slips import mark_of, report_slip
from seamleaf.reading.wording import quoted

MAX_DEPTH: Final = 40

FAST_LOADER: Final[Any] = getattr(yaml, "CBaseLoader", None)
PLAIN_LOADER: Final[Any] = PlainLoader

_FIRST: Final = Mark(1, 1)
_FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff\ud800-\udfff]")
_TAB_INDENT = re.compile(r"^ *(\t)[ \t]*(?=[^ \t\n])", re.MULTILINE)


def read_source(data: bytes, report: Report) -> Mapping | None:
    """Read the file as a tree of text.

    Returns:
        The keys of the file, or ``None`` when there is nothing that could be read on with. What is wrong goes to
        ``report``, each with its place.

    """
    if len(data) > MAX_BYTES:
        report.add(_FIRST, "a file of more than a million letters", "a shorter one: a file is one pattern")
        return None
    text = _decode(data, report)
    if text is None:
        return None
    root = _parse(text, report)
    if root is None or isinstance(root, Mapping):
        return root
    if not isinstance(root, Refused):
        kind = "a list" if isinstance(root, Sequence) else "text alone"
        report.add(
            root.where, kind, "what a pattern has, each with a colon: title, version, fabrics, blocks, setting, sizes"
        )
    return None


# ------------------------------------------------------------------------------------------------- text


def _decode(data: bytes, report: Report) -> str | None:
    """Decode the bytes, with one kind of line end, and spaces for tabs within lines."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        report.add(_FIRST, "text that is saved as UTF-16", "text that is saved as UTF-8", "choose UTF-8 when you save")
        return None
    text = data.decode("utf-8", errors="surrogateescape").removeprefix("\ufeff")
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    text = _without_forbidden(text, report)
    places = _Places(text)
    tabs = [match.start(1) for match in _TAB_INDENT.finditer(text)]
    for index in tabs:
        report.add(places.mark(index), "a tab as indentation", "spaces")
    # How far a tab was meant to indent cannot be known, so a tree read past it would be a guess.
    return None if tabs else text.replace("\t", " ")


def _without_forbidden(text: str, report: Report) -> str:
    """Report the first character of each line that may not stand in a file, and put harmless ones in their place."""
    matches = list(_FORBIDDEN.finditer(text))
    if not matches:
        return text
    places = _Places(text)
    last_line = 0
    for match in matches:
        where = places.mark(match.start())
        if where.line != last_line:
            last_line = where.line
            report.add(where, *_name_forbidden(match.group()))
    return _FORBIDDEN.sub(lambda m: "_" if "\udc80" <= m.group() <= "\udcff" else " ", text)


def _name_forbidden(char: str) -> tuple[str, str, str]:
    """Say what a character that may not stand in a file is, and what to do about it."""
    code = ord(char)
    if 0xDC80 <= code <= 0xDCFF:
        return "a letter that is not saved as UTF-8", "text that is saved as UTF-8", "choose UTF-8 when you save"
    kind = "line end" if char in "\u2028\u2029" else "character"
    return f"an invisible {kind} (U+{code:04X})", "the text without it", "delete it, and type a space or a new line"


class _Places:
    """Finds line and column of an index into a text."""

    def __init__(self, text: str) -> None:
        self._starts = [0, *(match.end() for match in re.finditer("\n", text))]

    def mark(self, index: int) -> Mark:
        line = bisect_right(self._starts, index)
        return Mark(line, index - self._starts[line - 1] + 1)


# ------------------------------------------------------------------------------------------------- YAML


class _Stop(Exception):  # noqa: N818 - not an error, but the end of what can be read
    """Reading cannot go on; the reason is reported already."""


def _parse(text: str, report: Report) -> Node | None:
    loaders = [PLAIN_LOADER] if FAST_LOADER is None else [FAST_LOADER, PLAIN_LOADER]
    for loader in loaders:
        attempt = Report()
        tree = _Tree(attempt)
        parser = loader(text)
        try:
            tree.build(parser)
        except _Stop:
            report.extend(attempt.sorted())
            return None
        except yaml.MarkedYAMLError as error:
            if loader is not PLAIN_LOADER:
                continue
            report_slip(error, text.split("\n"), attempt)
            report.extend(attempt.sorted())
            return None
        except (yaml.YAMLError, ValueError, OverflowError):
            # An escape such as "\Uffffffff" names no character; the library lets the error of chr() through.
            if loader is not PLAIN_LOADER:
                continue
            attempt.add(
                mark_of(parser.get_mark()), "a backslash and a number that is no character", "the character itself"
            )
            report.extend(attempt.sorted())
            return None
        finally:
            parser.dispose()
        report.extend(attempt.sorted())
        return tree.root
    return None


@dataclass(slots=True)
class _Open:
    """A list or mapping that is not closed yet."""

    where: Mark
    keyed: bool
    items: list[Node] = field(default_factory=list)
    entries: dict[str, Entry] = field(default_factory=dict)
    key: Scalar | None = None
    wants_key: bool = True


class _Tree:
    """Builds the tree from the parser's events, refusing what a pattern file may not hold."""

    def __init__(self, report: Report) -> None:
        self.root: Node | None = None
        self._report = report
        self._open: list[_Open] = []
        self._documents = 0

    def build(self, parser: Any) -> None:
        """Take every event of the parser.

        Raises:
            _Stop: nothing after this place can be read.
            yaml.YAMLError, ValueError, OverflowError: from the parser.

        """
        while parser.check_event():
            self._take(parser.get_event())
        if self.root is None or (isinstance(self.root, Scalar) and not self.root.text):
            self.root = None
            self._report.add(_FIRST, "an empty file", "title, version, fabrics, blocks, setting and sizes")

    def _take(self, event: Any) -> None:
        where = mark_of(event.start_mark)
        if isinstance(event, yaml.DocumentStartEvent):
            self._documents += 1
            if self._documents > 1:
                self._report.add(
                    where,
                    "a line of three dashes, which begins a second file",
                    "one pattern a file",
                    "leave out the line of three dashes",
                )
                raise _Stop
        elif isinstance(event, yaml.AliasEvent):
            self._report.add(
                where, f"*{event.anchor}, which would stand for another line", "the value itself, written out"
            )
            self._place(Refused(where=where))
        elif isinstance(event, yaml.ScalarEvent):
            self._check_properties(event, where)
            self._place(self._scalar(event, where))
        elif isinstance(event, yaml.CollectionStartEvent):
            self._check_properties(event, where)
            if len(self._open) == MAX_DEPTH:
                self._report.add(where, f"parts inside parts, {MAX_DEPTH + 1} deep", f"at most {MAX_DEPTH} deep")
                raise _Stop
            self._open.append(_Open(where=where, keyed=isinstance(event, yaml.MappingStartEvent)))
        elif isinstance(event, yaml.CollectionEndEvent):
            done = self._open.pop()
            if done.keyed:
                self._place(Mapping(entries=tuple(done.entries.values()), where=done.where))
            else:
                self._place(Sequence(items=tuple(done.items), where=done.where))

    def _check_properties(self, event: Any, where: Mark) -> None:
        if event.anchor is not None:
            self._report.add(
                where, f"&{event.anchor}, a mark to repeat a line by", "the value alone", "write what repeats each time"
            )
        if event.tag is not None:
            self._report.add(where, "a word after !", "the value alone", "or quotes round a text that begins with !")

    def _scalar(self, event: Any, where: Mark) -> Node:
        bad = _FORBIDDEN.search(event.value)
        if bad is not None:  # by an escape in double quotes
            name = f"U+{ord(bad.group()):04X}"
            self._report.add(where, f"text with an invisible character ({name})", "the text without it")
            return Refused(where=where)
        return Scalar(text=event.value, where=where)

    def _place(self, node: Node) -> None:
        if not self._open:
            self.root = node if self.root is None else self.root
            return
        parent = self._open[-1]
        if not parent.keyed:
            parent.items.append(node)
        elif parent.wants_key:
            parent.key = self._key(parent, node)
            parent.wants_key = False
        else:
            parent.wants_key = True
            if parent.key is not None:
                if node == Scalar(text="", where=node.where):
                    node = Scalar(text="", where=parent.key.where)
                parent.entries[parent.key.text] = Entry(key=parent.key, value=node)

    def _key(self, parent: _Open, node: Node) -> Scalar | None:
        """Return the key, or ``None`` when it is refused and its value is to be dropped."""
        if isinstance(node, Refused):
            return None
        if not isinstance(node, Scalar):
            kind = "a list" if isinstance(node, Sequence) else "braces"
            self._report.add(node.where, f"{kind} before a colon", "a word before the colon")
            return None
        if node.text == "<<":
            self._report.add(
                node.where, "<<, which would copy lines from elsewhere", "the lines themselves, written out"
            )
            return None
        first = parent.entries.get(node.text)
        if first is not None:
            line = first.key.where.line
            self._report.add(
                node.where,
                f"{quoted(node.text)} again",
                f"each word once before a colon here; it stands in line {line}",
            )
            return None
        return node
