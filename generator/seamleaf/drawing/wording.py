"""Sentences of titles and captions, composed from labels, so that figure and words come from one value."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, Final

from seamleaf.booklet.record import Seam
from seamleaf.words import Words, english

_SPOKEN: ContextVar[Words | None] = ContextVar("words", default=None)


@contextmanager
def speaking(words: Words) -> Iterator[None]:
    """Draw in these words; a context of its own, so that drawings beside it speak theirs."""
    token = _SPOKEN.set(words)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


def say(key: str, **values: Any) -> str:
    """Return a text of the catalogue, in the words that are being drawn in; English where none are set."""
    return (_SPOKEN.get() or english()).say(key, **values)


_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_TWIN: Final = ".B"
_TOLD = 5
"""Seams that a sentence tells one by one; more are left to the arrows."""
_BOTH = 2
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def count_word(count: int) -> str:
    """Return a small count as a word, a larger one in digits."""
    return say(f"figure.count.{_NUMBERS[count]}") if count < len(_NUMBERS) else str(count)


def ordinal(n: int) -> str:
    """Return ``first`` for 1 and so on; ``11th`` from there."""
    if n <= len(_ORDINALS):
        return say(f"figure.ordinal.{_ORDINALS[n - 1]}")
    tail = "th" if 10 < n % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return say(f"figure.ordinal.{tail}", number=n)


def listed(items: Sequence[str]) -> str:
    """Return ``A1, B2 and A1``."""
    return items[0] if len(items) == 1 else say("figure.and", most=", ".join(items[:-1]), last=items[-1])


def spoken(name: str) -> str:
    """Return a patch, unit or block as it is said: ``flight (B)`` for the B twin of ``flight``."""
    twin = name.removesuffix(_TWIN)
    return name if twin == name else say("label.variant", id=twin, variant="B")


def counted(items: Iterable[str]) -> str:
    """Return ``two A1 and one B2``: every item once, with how often it comes, in order of appearance."""
    counts: dict[str, int] = {}
    for item in map(spoken, items):
        counts[item] = counts.get(item, 0) + 1
    return listed([f"{count_word(n)} {item}" for item, n in counts.items()])


_WAYS: Final = {
    ("x", "before"): "left", ("x", "after"): "right", ("y", "before"): "up", ("y", "after"): "down",
}  # fmt: skip


def press_words(seam: Seam) -> str:
    """Return where a seam allowance goes: ``toward B1``, ``open``; a direction where both sides have one name."""
    if seam.press == "open":
        return say("figure.way.open")
    if seam.press == "spin":
        return say("figure.way.spin")
    if seam.first == seam.second:
        return say(f"figure.way.{_WAYS.get((seam.axis, seam.press), 'arrow')}")
    return toward(seam.first if seam.press == "before" else seam.second)


def toward(name: str) -> str:
    """Return ``toward B1``."""
    return say("figure.way.toward", name=spoken(name))


def _leads(seam: Seam) -> bool:
    """Whether a seam is pressed to one of two things of different names."""
    return seam.press in ("before", "after") and seam.first != seam.second


def press_sentence(seams: Sequence[Seam]) -> str:
    """Return the press instruction of a unit's seams in sewing order; one clause where all go the same way."""
    if not seams:
        return ""
    if all(seam.press == "spin" for seam in seams):
        return say("figure.press.spin", n=len(seams))
    clauses = [press_words(seam) for seam in seams]
    if len(set(clauses)) == 1:
        key = "figure.press.both" if len(seams) == _BOTH else "figure.press.all"
        return say(key, n=len(seams), way=clauses[0])
    sources = {seam.second if seam.press == "before" else seam.first for seam in seams}
    if len(sources) == 1 and all(map(_leads, seams)):
        return say(
            "figure.press.both-away" if len(seams) == _BOTH else "figure.press.all-away", name=spoken(sources.pop())
        )
    if len(clauses) > _TOLD:
        return say("figure.press.arrows")
    told = [say("figure.press.one", which=ordinal(i), way=clause) for i, clause in enumerate(clauses, start=1)]
    return say("figure.press.each", told=listed(told))


def capital(text: str) -> str:
    """Return the text with a capital first letter."""
    return text[:1].upper() + text[1:]
