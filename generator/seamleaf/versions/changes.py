"""Differences to changes that a maker understands: of what thing, at which stage of the work, with what to do about it.

A change matters for whoever has passed its stage: who has not cut yet cuts by the new number.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final, Literal

from seamleaf.lengths import Length
from seamleaf.versions.differences import Difference, differences

Stage = Literal["buy", "cut", "sew", "join", "finish", "read"]
STAGES: Final[tuple[Stage, ...]] = ("buy", "cut", "sew", "join", "finish", "read")
"""Stages of the work, in order; ``read`` for words that change nothing that is made."""

Kind = Literal["length", "count", "amount", "word", "plan"]
"""How a value is shown; a plan is not shown as a number, it is to be looked at again."""

Rule = Literal["size", "count", "buy", "press", "measure", "look", "none"]


@dataclass(frozen=True, slots=True)
class Facet:
    """How a change of one value is told."""

    stage: Stage
    kind: Kind
    rule: Rule


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change of one size."""

    stage: Stage
    section: str
    """Key of the booklet that it stands under: ``patches``."""
    name: str
    """What the thing is called: ``A3``; empty where there is one of its kind."""
    key: str
    """Which of its values: ``w``; ``plan`` for a change of more than a number."""
    kind: Kind
    old: Any
    new: Any
    old_at: str | None
    new_at: str | None
    advice: str
    """What to do about it for whoever has passed the stage: ``size-up``, ``size-down``, ``look`` ..."""


_LENGTH_CUT: Final = Facet("cut", "length", "size")
FACETS: Final[dict[str, Facet]] = {
    "seam": Facet("sew", "length", "look"),
    "finished/w": Facet("read", "length", "none"),
    "finished/h": Facet("read", "length", "none"),
    "fabrics/*/buy/amount": Facet("buy", "amount", "buy"),
    "fabrics/*/also/amount": Facet("buy", "amount", "buy"),
    "fabrics/*/least": Facet("read", "plan", "none"),
    "fabrics/*/need": Facet("read", "plan", "none"),
    "fabrics/*/bound": Facet("read", "plan", "none"),
    "fabrics/*/tightest": Facet("read", "plan", "none"),
    "fabrics/*/cliff": Facet("read", "plan", "none"),
    "fabrics/*/left": Facet("read", "plan", "none"),
    "fabrics/*/short": Facet("read", "plan", "none"),
    "fabrics/*/usables": Facet("read", "plan", "none"),
    "fabrics/*/prints": Facet("buy", "count", "count"),
    "fabrics/*/source": Facet("buy", "word", "look"),
    "patches/*/w": _LENGTH_CUT,
    "patches/*/h": _LENGTH_CUT,
    "patches/*/shape": Facet("cut", "word", "look"),
    "patches/*/count": Facet("cut", "count", "count"),
    "patches/*/spare": Facet("read", "plan", "none"),
    "units/*/count": Facet("sew", "count", "count"),
    "units/*/batches": Facet("sew", "count", "count"),
    "units/*/made/w": Facet("sew", "length", "measure"),
    "units/*/made/h": Facet("sew", "length", "measure"),
    "units/*/trim/w": Facet("sew", "length", "measure"),
    "units/*/trim/h": Facet("sew", "length", "measure"),
    "units/*/finished/w": Facet("sew", "length", "measure"),
    "units/*/finished/h": Facet("sew", "length", "measure"),
    "seams/*/press": Facet("sew", "word", "press"),
    "set/across": Facet("join", "count", "look"),
    "set/down": Facet("join", "count", "look"),
    "set/blocks": Facet("sew", "count", "count"),
    "borders/*/pieces": Facet("finish", "count", "count"),
    "borders/*/width": Facet("finish", "length", "size"),
    "borders/*/corner": Facet("finish", "word", "look"),
    "borders/*/strips/*/length": Facet("finish", "length", "size"),
    "borders/*/strips/*/w": Facet("finish", "length", "size"),
    "binding/strips": Facet("finish", "count", "count"),
    "binding/width": Facet("finish", "length", "size"),
    "binding/length": Facet("finish", "length", "none"),
    "binding/need": Facet("finish", "length", "none"),
    "backing/panels": Facet("finish", "count", "count"),
    "backing/w": Facet("finish", "length", "size"),
    "backing/h": Facet("finish", "length", "size"),
    "backing/panel/h": Facet("finish", "length", "size"),
    "backing/seam": Facet("finish", "word", "look"),
    "batting/w": Facet("finish", "length", "size"),
    "batting/h": Facet("finish", "length", "size"),
    "classes/*/kits": Facet("buy", "count", "count"),
}
"""What is told with its old and new value, by the way to it; all else is told as a plan to look at again."""

_SECTIONS: Final[dict[str, Stage]] = {
    "fabrics": "buy",
    "classes": "buy",
    "patches": "cut",
    "cutting": "cut",
    "offcuts": "cut",
    "bonus": "sew",
    "units": "sew",
    "seams": "sew",
    "seam_test": "sew",
    "seam": "sew",
    "unit": "cut",
    "set": "join",
    "places": "join",
    "rows": "join",
    "borders": "finish",
    "binding": "finish",
    "backing": "finish",
    "batting": "finish",
}
"""The stage of each part of a booklet; other parts are words, sums and explanations."""

NAMED: Final = ("fabrics", "patches", "units", "seams", "borders", "classes")
"""Lists whose items have names."""
_IGNORED: Final = ("format",)


def compare_booklets(old: Any, new: Any) -> tuple[Change, ...]:
    """Return every change from one booklet of a size to another, each once, in the order of the work."""
    found: dict[tuple[Stage, str, str, str], Change] = {}
    for each in differences(old, new):
        if each.path[0] in _IGNORED or each.path == ("pattern", "version"):
            continue
        change = _change(each, old, new)
        # A plan is one change, however many of its values differ.
        found.setdefault((change.stage, change.section, change.name, change.key), change)
    return tuple(sorted(found.values(), key=lambda change: STAGES.index(change.stage)))


def _change(each: Difference, old: Any, new: Any) -> Change:
    section, facet = each.path[0], _facet_of(each)
    name = each.path[1] if section in NAMED and len(each.path) > 1 else ""
    stage: Stage = facet.stage if facet is not None else _SECTIONS.get(section, "read")
    at: tuple[str | None, str | None] = each.old_at, each.new_at
    if section == "seams":
        stage = _stage_of_seam(name, old, new)
        if stage == "finish" and each.path[2:3] in (("at",), ("span",), ("line",)):
            stage = "read"  # a seam of a border lies where its strips end, whose lengths are told
    if section == "cutting":
        name = _fabric_of(each, old, new)
    if facet is None or facet.kind == "plan":
        whole = len(each.path) == 2 and section in NAMED and each.path[1] != "order"
        key = "plan" if not whole else "added" if each.old is None else "removed" if each.new is None else "plan"
        advice = "none" if stage == "read" else "look"
        return Change(
            stage=stage, section=section, name=name, key=key, kind="plan", old=None, new=None,
            old_at=at[0], new_at=at[1], advice=advice,
        )  # fmt: skip
    which = "/".join(each.path[2 if name else 1 :]) or section
    return Change(
        stage=stage, section=section, name=name, key=which, kind=facet.kind,
        old=each.old, new=each.new, old_at=at[0], new_at=at[1], advice=_advice(facet, each),
    )  # fmt: skip


def _facet_of(each: Difference) -> Facet | None:
    path = list(each.path)
    if path[0] in NAMED and len(path) > 1:
        path[1] = "*"
    if path[:1] == ["borders"] and path[2:3] == ["strips"] and len(path) > 3:
        path[3] = "*"
    if path[0] == "fabrics" and path[2:3] in (["usables"], ["least"]):
        path = path[:3]
    facet = FACETS.get("/".join(path))
    if facet is not None and (each.old is None or each.new is None):
        return None  # there is nothing to set beside it
    return facet


def _advice(facet: Facet, each: Difference) -> str:
    if facet.rule == "size":
        return "size-up" if Length.from_exact_text(each.old) < Length.from_exact_text(each.new) else "size-down"
    if facet.rule in ("count", "buy"):
        return f"{facet.rule}-up" if Fraction(each.old) < Fraction(each.new) else f"{facet.rule}-down"
    return facet.rule


def _stage_of_seam(name: str, old: Any, new: Any) -> Stage:
    seams = {seam["id"]: seam["of"] for booklet in (old, new) for seam in booklet.get("seams", ())}
    of = str(seams.get(name, ""))
    return "finish" if of.startswith("border ") else "join" if of in ("row", "rows") else "sew"


def _fabric_of(each: Difference, old: Any, new: Any) -> str:
    """Return the fabric of a sheet, by its place in the newer or the older list."""
    if len(each.path) > 1 and each.path[1].isdecimal():
        index = int(each.path[1])
        for booklet in (new, old):
            sheets = booklet["cutting"]
            if index < len(sheets):
                return str(sheets[index]["fabric"])
    return ""
