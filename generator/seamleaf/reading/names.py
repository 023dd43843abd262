"""Ids and what they stand for: fabrics with their prints, blocks; unknown names reported where they are used."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from seamleaf.reading.limits import MAX_PRINT
from seamleaf.reading.marks import Mark
from seamleaf.reading.nodes import Entry, Scalar
from seamleaf.reading.part_records import FabricUse
from seamleaf.reading.pattern import Fabric
from seamleaf.reading.problems import Report
from seamleaf.reading.wording import did_you_mean, meant, nearest, one_of, quoted, shown

_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_SLUG = re.compile(r"[a-z][a-z0-9-]{0,39}")
_DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_DESCRIBE = "a fabric of its own is described under fabrics"
_PRINT = re.compile(r"[1-9][0-9]?")


def is_slug(text: str) -> bool:
    """Whether a text may name a size, a class or the file: it becomes part of an address."""
    return _SLUG.fullmatch(text) is not None


def check_slug(entry: Entry, what: str, report: Report) -> None:
    """Report an id of a size or class that cannot stand in an address."""
    if not is_slug(entry.key.text):
        near = re.sub(r"[^a-z0-9]+", "-", entry.key.text.lower()).strip("-")
        report.add(
            entry.key.where,
            f"the short name {quoted(entry.key.text)}",
            f"a short name of {what}: a small letter, then small letters, digits or hyphens, at most 40 in all",
            f"such as {near}, with title: {shown(entry.key.text)}" if is_slug(near) else "",
        )


def check_name(entry: Entry, what: str, report: Report) -> None:
    """Report an id of a fabric or block that a part could not hold: ``x`` and a last digit read as sizes."""
    text = entry.key.text
    hint = ""
    if _NAME.fullmatch(text) is None:
        expected = f"a short name of {what}: a letter, then letters, digits, _ or -"
    elif text == "x":
        expected = f"a short name of {what} other than x, which stands between width and height"
    elif text[-1].isdigit():
        expected = f"a short name of {what} that does not end in a digit, so that it cannot be taken for a size"
        hint = f"such as {text[:-1].rstrip('-_')}-{_DIGITS[int(text[-1])]}" if text[-2:-1].isalpha() else ""
    else:
        return
    report.add(entry.key.where, f"the short name {quoted(text)}", expected, hint)


class Names:
    """Looks up fabrics and blocks; ``None`` for either when the file does not say what there is."""

    def __init__(
        self,
        fabrics: Mapping[str, Fabric] | None,
        unclear: Iterable[str],
        blocks: Iterable[str] | None,
        report: Report,
    ) -> None:
        self._fabrics = fabrics
        self._unclear = frozenset(unclear)
        self._blocks = None if blocks is None else dict.fromkeys(blocks)
        self._report = report
        self.guessed = False
        """Whether an unknown fabric stands as another that is not even alike."""

    def fabric(self, id_: str) -> Fabric | None:
        """Return a fabric that is known."""
        return None if self._fabrics is None else self._fabrics.get(id_)

    def is_unclear(self, id_: str) -> bool:
        """Whether the source of a fabric could not be read."""
        return id_ in self._unclear

    def has_block(self, id_: str) -> bool:
        """Whether there is such a block."""
        return self._blocks is None or id_ in self._blocks

    def has_fabric(self, id_: str) -> bool:
        """Whether there is such a fabric."""
        return self._fabrics is None or id_ in self._fabrics

    @property
    def blocks(self) -> tuple[str, ...]:
        """The ids of the blocks that are known."""
        return tuple(self._blocks or ())

    @property
    def fabrics(self) -> tuple[str, ...]:
        """The ids of the fabrics that are known."""
        return tuple(self._fabrics or ())

    @property
    def any_yardage(self) -> str:
        """A fabric to go on with where none could be read: yardage if there is any."""
        fabrics = self._fabrics or {}
        return next((id_ for id_, fabric in fabrics.items() if fabric.is_yardage), next(iter(fabrics), ""))

    def use(self, text: str, where: Mark) -> FabricUse:
        """Read ``FABRIC`` or ``FABRIC.PRINT``; an unknown fabric is reported and stands as the one most like it."""
        text, *rest = text.split(maxsplit=1)
        name, dot, print_text = text.partition(".")
        if self._fabrics is None:
            return FabricUse(fabric=name, print=None, where=where)
        if rest:
            meant_one = name if name in self._fabrics else nearest(name, self._fabrics) or self.any_yardage
            expected = f"a fabric alone, such as {quoted(meant_one)}: its size follows from the unit"
            self._report.add(where, quoted(f"{text} {rest[0]}"), expected)
        fabric = self._known(name, where, self._fabrics)
        if fabric.id in self._unclear:
            return FabricUse(fabric=fabric.id, print=None, where=where)
        if not dot:
            return FabricUse(fabric=fabric.id, print=None if fabric.is_yardage else 1, where=where)
        if fabric.is_yardage:
            if fabric.id == name:
                self._report.add(where, f"print {quoted(text)} of yardage", f"{quoted(name)}: only a bundle has prints")
            return FabricUse(fabric=fabric.id, print=None, where=where)
        if _PRINT.fullmatch(print_text) is None:
            self._report.add(
                where, f"print {quoted(text)}", f"a print from {shown(name)}.1 to {shown(name)}.{MAX_PRINT}"
            )
            return FabricUse(fabric=fabric.id, print=1, where=where)
        return FabricUse(fabric=fabric.id, print=int(print_text), where=where)

    def _known(self, name: str, where: Mark, fabrics: Mapping[str, Fabric]) -> Fabric:
        if name in fabrics:
            return fabrics[name]
        near = nearest(name, fabrics)
        self._report.add(where, f"unknown fabric {quoted(name)}", one_of(fabrics), meant(near) or _DESCRIBE)
        if near is not None:
            return fabrics[near]
        self.guessed = True
        return fabrics[self.any_yardage]

    def yardage(self, text: Scalar | None, use: str, default: str) -> str:
        """Read the id of a fabric for a use that takes long strips, so that a bundle is refused."""
        if text is None:
            return default
        name = text.text
        if self._fabrics is None:
            return name
        fabric = self._known(name.partition(".")[0], text.where, self._fabrics)
        if "." in name:
            self._report.add(text.where, quoted(name), f"a fabric without a print: {use} is cut from yardage")
        elif not fabric.is_yardage and fabric.id == name:
            bought = [id_ for id_, each in self._fabrics.items() if each.is_yardage]
            expected = f"yardage{f', such as {quoted(bought[0])}' if bought else ''}: {use} is cut from yardage"
            self._report.add(text.where, f"{quoted(name)}, which is {fabric.source_text}", expected)
        return fabric.id

    def report_block(self, name: str, where: Mark, *, plain_too: bool = False) -> str | None:
        """Report an unknown block; return the one most like it, if any comes near."""
        choices = tuple(dict.fromkeys((*self.blocks, *(self.fabrics if plain_too else ()))))
        what = "block or fabric" if plain_too else "block"
        self._report.add(where, f"unknown {what} {quoted(name)}", one_of(choices), did_you_mean(name, choices))
        return nearest(name, self.blocks)
