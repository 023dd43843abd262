"""Spoils published booklets: errors of known kinds, planted at named places of the JSON."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from seamleaf.lengths import Length

CRIB = "lamplight-crossing/crib"
PIECED = "pieced/one"
WAYS = "ways/small"
SASHED = "sashed/mat"
SPUN = "spun/one"
TAUGHT = "taught/one"
STRIPPY = "strippy/one"
NINE = "nine/one"
ROUND = "round/one"
HALVED = "halved/one"
FLOATING = "floating/one"
LONG = "long/one"

Change = Callable[[Any], Any]
"""Takes the old value and returns the new one; ``...`` for none at all."""


@dataclass(frozen=True, slots=True)
class Erratum:
    """One kind of error, planted at places of a booklet."""

    number: str
    says: str
    booklet: str
    check: str
    changes: dict[str, Any]
    """New values, or changes of old ones, by JSON Pointer; in a list a name stands for the item of that name."""
    alone: bool = False
    """Whether the names in it stand for such things in this pattern only."""


def plus(text: str) -> Change:
    """Return what adds to an exact length."""
    return lambda old: (Length.from_exact_text(old) + Length.from_exact_text(text)).exact_text()


def more(count: int) -> Change:
    """Return what adds to a count."""
    return lambda old: old + count


def flipped(press: str) -> str:
    """Press a seam to its other side."""
    return {"before": "after", "after": "before"}[press]


def without(*names: str | int) -> Change:
    """Return what drops items of a list, by name or index."""
    return lambda old: [item for index, item in enumerate(old) if index not in names and name_of(item) not in names]


def swapped(a: int, b: int) -> Change:
    """Return what makes two items of a list change places."""

    def change(old: list[Any]) -> list[Any]:
        new = list(old)
        new[a], new[b] = old[b], old[a]
        return new

    return change


def twice(index: int) -> Change:
    """Return what puts an item of a list into it once more."""
    return lambda old: [*old, old[index]]


def recut(label: str, size: str) -> Change:
    """Return what cuts the squares of a label to another size, wherever they are cut."""

    def change(booklet: Any) -> Any:
        patch = at(booklet["patches"], label)
        patch["w"] = patch["h"] = size
        for sheet in booklet["cutting"]:
            for part in sheet["parts"]:
                if part["label"] == label:
                    part["w"] = part["h"] = size
        return booklet

    return change


def recut_all(how: str, by: str) -> Change:
    """Return what cuts the squares of every unit that is sewn so larger, or smaller, by a length."""

    def change(booklet: Any) -> Any:
        units = [unit for unit in booklet["units"] if unit["how"] == how]
        labels = {label for unit in units for label in unit["batch"]}
        for patch in [patch for patch in booklet["patches"] if patch["label"] in labels]:
            recut(patch["label"], plus(by)(patch["w"]))(booklet)
        return booklet

    return change


def finished_for_cut(booklet: Any) -> Any:
    """Give the first patch that is joined as it is cut without its seam allowances, as if they were half an inch."""
    labels = {take["label"] for unit in booklet["units"] if unit["how"] == "join" for take in unit["from"]}
    patch = next(each for each in booklet["patches"] if each["label"] in labels and each["use"] == "block")
    patch["w"] = plus("-1/2")(patch["w"])
    return booklet


def cut_the_other_way(patches: list[Any]) -> list[Any]:
    """Cut the squares of side triangles once, and those of corner triangles twice."""
    other = {"quartered": "halved", "halved": "quartered"}
    if all(patch["use"] != "triangle" for patch in patches):
        raise LookupError
    return [{**each, "shape": other[each["shape"]]} if each["use"] == "triangle" else each for each in patches]


def overlong(seams: list[Any]) -> list[Any]:
    """Sew the first seam of the first border longer by an inch."""
    seam = at(seams, "of=border 1")
    which = 1 if seam["axis"] == "x" else 0
    seam["span"][0] = seam["line"][0][which] = plus("-1")(seam["line"][0][which])
    return seams


def unsewn(booklet: Any) -> Any:
    """Leave a seam of a joined unit out."""
    unit = at(booklet["units"], "how=join")
    seam = unit["seams"].pop()
    booklet["seams"] = without(seam)(booklet["seams"])
    return booklet


def overlapped(sheets: list[Any]) -> list[Any]:
    """Lay two patches of a sheet on each other."""
    parts = next(sheet["parts"] for sheet in sheets if len(sheet["parts"]) > 1)
    parts[1]["x"], parts[1]["y"] = parts[0]["x"], parts[0]["y"]
    return sheets


def unready(units: list[Any]) -> list[Any]:
    """Sew a unit before one of those that it takes."""
    unit = next(unit for unit in units if any(take["unit"] for take in unit["from"]))
    return [unit, *(each for each in units if each is not unit)]


def uncut(label: str) -> Change:
    """Return what drops all sheets that a label is cut from."""
    return lambda sheets: [sheet for sheet in sheets if label not in sheet["gives"]]


def dealt_in_order(hands: list[list[int]]) -> list[list[int]]:
    """Give the lightest pieces to the first kit and the darkest to the last."""
    pieces = sorted(piece for hand in hands for piece in hand)
    return [pieces[len(hands[0]) * kit :][: len(hands[0])] for kit in range(len(hands))]


def uncaught(lessons: list[Any]) -> list[Any]:
    """Give all time of the first catch-up to what comes after it."""
    first = next(index for index, each in enumerate(lessons) if each["what"] == "catch-up")
    lessons[first]["minutes"] = lessons[first]["least"] = lessons[first]["most"] = 1
    return lessons


def everywhere(pointer: str, change: Any, kind: str) -> Change:
    """Return what changes a key of every place of a kind."""

    def spoil(places: list[Any]) -> list[Any]:
        for place in places:
            if place["kind"] == kind:
                set_at(place, pointer, change)
        return places

    return spoil


def renumbered(sheets: list[Any]) -> list[Any]:
    """Count the pieces of every bundle sheet from 1."""
    return [{**sheet, "pieces": [1, sheet["times"]]} if sheet["pieces"] else sheet for sheet in sheets]


def widen(sheet: Any) -> Any:
    """Return a bundle piece that is as large as its name says."""
    return {**sheet, "sheet": {"w": "10", "h": "10"}}


def name_of(item: Any) -> Any:
    """Return what an item of a list goes by."""
    keys = ("id", "label") if isinstance(item, dict) else ()
    return next((item[key] for key in keys if key in item), item if isinstance(item, str) else None)


def at(value: Any, token: str) -> Any:
    """Follow one token of a pointer."""
    if isinstance(value, dict):
        return value[token]
    return value[index_of(value, token)]


def index_of(items: list[Any], token: str) -> int:
    """Return the index that a token stands for: of a name, of the first with a value, of the first without it."""
    for sign, alike in (("=", True), ("!", False)):
        key, mark, value = token.partition(sign)
        if mark:
            return next(index for index, item in enumerate(items) if (str(item[key]) == value) is alike)
    names = [name_of(item) for item in items]
    return names.index(token) if token in names else int(token)


def set_at(value: Any, pointer: str, new: Any) -> Any:
    """Put a new value at a place, or change the one there; return the whole."""
    tokens = pointer.split("/")[1:]
    if not tokens:
        return new(value)
    holder = value
    for token in tokens[:-1]:
        holder = at(holder, token)
    key: Any = tokens[-1] if isinstance(holder, dict) else index_of(holder, tokens[-1])
    if new is ...:
        del holder[key]
    else:
        holder[key] = new(holder[key]) if callable(new) else new
    return value


def spoilt(booklet: Any, erratum: Erratum) -> Any:
    """Plant an erratum in a booklet's JSON values, which may be changed in place; return them."""
    for pointer, new in erratum.changes.items():
        booklet = set_at(booklet, pointer, new)
    return booklet
