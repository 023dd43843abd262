"""Whether what a maker has is enough for a size, and if not, ways out; each is planned and proved like a booklet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice
from typing import Final

from seamleaf.booklet import Booklet, plan_booklets, plan_bounds
from seamleaf.booklet.record import FabricNote
from seamleaf.booklet.sewn import fabrics_of
from seamleaf.lengths import Length, Measures, format_rational
from seamleaf.reading.pattern import Pattern, Size
from seamleaf.reading.problems import PatternError
from seamleaf.site.commands.having import Have, note_of
from seamleaf.site.work.proving import prove_booklets
from seamleaf.sizing import size_quilt

ENOUGH_WAYS: Final = 5
"""Ways out that are told; the first are the least change."""
OF_A_KIND: Final = {"layout": 2, "layout, binding": 2, "size": 3}
"""How many of a kind are told, where it is more than one."""
FEW_WAYS: Final = 3
"""Where they are fewer, more of a kind are told."""
LEAST_SHARE: Final = Fraction(3, 4)
"""A layout of half the blocks takes no less than half of three quarters of the fabric, or so: less is not tried."""
MOST_LAYOUTS: Final = 12
"""Smaller layouts that are tried, the largest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A change of a pattern in one size that might need less."""

    words: str
    pattern: Pattern
    size: str


def answer(pattern: Pattern, haves: Sequence[Have], sizes: Sequence[str]) -> list[str]:
    """Say for each size whether what is there is enough, and how to come by with it.

    Raises:
        PatternError: a size that cannot be planned.

    """
    booklets = plan_booklets(pattern, sizes)
    lines: list[str] = []
    for size, booklet in booklets.items():
        short = [line for have in haves for line in _short(have, booklet, pattern.measures)]
        if not short:
            lines.append(f"{size}: enough")
            continue
        lines += [f"{size}: {line}" for line in short]
        ways = _ways_out(pattern, booklet, size, haves)
        lines += [f"{size}: way out {number}: {words}" for number, words in enumerate(ways, start=1)]
        if not ways:
            lines.append(f"{size}: no smaller layout, border or backing of this pattern does with that")
    return lines


def _short(have: Have, booklet: Booklet, measures: Measures) -> Iterator[str]:
    note = note_of(booklet.fabrics, have.fabric)
    if note is not None and not have.is_enough(booklet.fabrics, measures):
        there = have.told.removeprefix(note.id).strip()
        yield f"not enough of {note.id}: {there}; the plan takes {_need(note, measures)}"


def _with_margin(amount: Length | int, note: FabricNote) -> Length | int:
    return amount + note.margin if isinstance(amount, Length) else amount


def _need(note: FabricNote, measures: Measures) -> str:
    if isinstance(note.need, int):
        return f"{note.need} pieces"
    need, margin = (_length(each, measures) for each in (note.need, note.margin))
    bought = format_rational(Fraction(note.buy.amount), measures.unit)
    return f"{need} and {margin} to straighten the edges, so buy {bought} {note.buy.unit}"


def _ways_out(pattern: Pattern, booklet: Booklet, size: str, haves: Sequence[Have]) -> list[str]:
    """Return what does with what is there: planned again, and sewn again by the proof."""
    found = [*_more_pieces(pattern, booklet, size, haves)]
    kinds: Counter[str] = Counter()
    passed_over: list[Way] = []

    def take(way: Way) -> bool:
        changed = _planned(way, haves, pattern.measures)
        if changed is None or prove_booklets(way.pattern.id, {way.size: changed}):
            return False
        found.append("; ".join([way.words, *_told(changed, booklet, haves, pattern)]))
        return True

    for kind, way in _candidates(pattern, booklet, size, haves):
        if len(found) == ENOUGH_WAYS:
            break
        if kinds[kind] == OF_A_KIND.get(kind, 1):
            passed_over.append(way)  # the least changes of its kind were found
        else:
            kinds[kind] += take(way)
    for way in passed_over:
        if len(found) >= FEW_WAYS:
            break
        take(way)
    return found


def _more_pieces(pattern: Pattern, booklet: Booklet, size: str, haves: Sequence[Have]) -> Iterator[str]:
    """Yield the plan as it is, where nothing but some pieces of bundles is missing: others of their size may do."""
    lacking = [have for have in haves if not have.is_enough(booklet.fabrics, pattern.measures)]
    if any(have.pieces is None for have in lacking) or prove_booklets(pattern.id, {size: booklet}):
        return
    words: list[str] = []
    for have in lacking:
        note = note_of(booklet.fabrics, have.fabric)
        if note is None or have.pieces is None or not isinstance(note.need, int) or isinstance(note.usable, Length):
            return
        sure = f"{_number(note.usable.w, pattern.measures)} x {_length(note.usable.h, pattern.measures)}"
        words.append(f"{note.need - have.pieces} more of {note.id}, of other fabric that gives {sure} each")
    yield "; ".join([" and ".join(words), *_told(booklet, booklet, haves, pattern)])


def _told(booklet: Booklet, planned: Booklet, haves: Sequence[Have], pattern: Pattern) -> list[str]:
    """Say how large the quilt becomes, and what it takes."""
    more = _more(booklet, planned, haves, pattern.measures)
    return [f"finished {_size(booklet, pattern.measures)}", _needs(booklet, haves, pattern), *more]


def _planned(way: Way, haves: Sequence[Have], measures: Measures) -> Booklet | None:
    """Return the booklet of a way that does with what there is; a shorter search says first whether that may be."""
    fabrics = fabrics_of(way.pattern)
    try:
        bounds = plan_bounds(way.pattern, way.size, [have.fabric for have in haves])
        if any(
            have.fabric in bounds and not have.gives(bounds[have.fabric], fabrics[have.fabric].margin, measures)
            for have in haves
        ):
            return None
        booklet = plan_booklets(way.pattern, [way.size])[way.size]
    except PatternError:
        return None
    return booklet if all(have.is_enough(booklet.fabrics, measures) for have in haves) else None


def _more(booklet: Booklet, planned: Booklet, haves: Sequence[Have], measures: Measures) -> Iterator[str]:
    """Say of which other fabrics a way takes more than the plan does."""
    named = {have.fabric for have in haves}
    for note in booklet.fabrics:
        before = note_of(planned.fabrics, note.id)
        if note.id not in named and (before is None or _more_than(note.need, before.need)):
            was = "none" if before is None else _amount(before, measures)
            yield f"but {_amount(note, measures)} of {note.id}, not {was}"


def _more_than(need: Length | int, before: Length | int) -> bool:
    return need - before > 0


def _amount(note: FabricNote, measures: Measures) -> str:
    amount = _with_margin(note.need, note)
    return f"{amount} pieces" if isinstance(amount, int) else _length(amount, measures)


def _needs(booklet: Booklet, haves: Sequence[Have], pattern: Pattern) -> str:
    named = {have.fabric for have in haves}
    told = [f"{note.id} {_amount(note, pattern.measures)}" for note in booklet.fabrics if note.id in named]
    return "takes " + ", ".join(told) if told else "takes none of it"


def _length(length: Length, measures: Measures) -> str:
    return f"{_number(length, measures)} {measures.unit}"


def _number(length: Length, measures: Measures) -> str:
    return format_rational(measures.shown_size(length).a, measures.unit)


def _size(booklet: Booklet, measures: Measures) -> str:
    w, h = booklet.finished.w, booklet.finished.h
    about = "" if w.is_rational and h.is_rational else "about "
    return f"{about}{_number(w, measures)} x {_length(h, measures)}"


def _candidates(pattern: Pattern, booklet: Booklet, size: str, haves: Sequence[Have]) -> Iterator[tuple[str, Way]]:
    """Yield changes, the least first: the back, the borders, the layout, and the pattern's other sizes."""
    asked = pattern.sizes[size]
    fixed = replace(
        asked,
        blocks=(booklet.set.across, booklet.set.down),
        cover=None,
        borders=tuple((border.width,) for border in booklet.borders),
    )

    def with_size(changed: Size, base: Pattern = pattern) -> Pattern:
        return replace(base, sizes={size: changed}, classes={}, stated=())

    named = {have.fabric for have in haves}
    if booklet.backing.fabric in named and not pattern.backing.insert:
        pieced = replace(pattern, backing=replace(pattern.backing, insert=True))
        yield "back", Way(words="piece leftovers into the back", pattern=with_size(fixed, pieced), size=size)
    step = Length(pattern.measures.inch / 2 if pattern.measures.unit == "in" else Fraction(1))
    for index, border in enumerate(booklet.borders):
        width = border.width - step
        while width > step:
            widths = tuple((width if at == index else each.width,) for at, each in enumerate(booklet.borders))
            narrow, wide = (_length(each, pattern.measures) for each in (width, border.width))
            words = f"border {border.order} {narrow} wide, not {wide}"
            yield f"border {index}", Way(words=words, pattern=with_size(replace(fixed, borders=widths)), size=size)
            width = width - step
    bindings = list(_bound_otherwise(pattern, named))
    for words, bound in bindings:
        yield "binding", Way(words=words, pattern=with_size(fixed, bound), size=size)
    triangles = pattern.setting.triangles
    if triangles is not None and triangles.oversize and triangles.fabric in named:
        exact = replace(pattern.setting, triangles=replace(triangles, oversize=Length(0)))
        words = "setting triangles cut without anything to trim"
        yield "triangles", Way(words=words, pattern=with_size(fixed, replace(pattern, setting=exact)), size=size)
    across, down = booklet.set.across, booklet.set.down
    for a, d in _smaller_layouts(booklet, haves, pattern.measures):
        words = f"{a} x {d} blocks, not {across} x {down}"
        yield "layout", Way(words=words, pattern=with_size(replace(fixed, blocks=(a, d))), size=size)
        for more, bound in bindings[:1]:
            changed = with_size(replace(fixed, blocks=(a, d)), bound)
            yield "layout, binding", Way(words=f"{words}, and {more}", pattern=changed, size=size)
    if booklet.borders:
        bare = replace(pattern, borders=pattern.borders[:-1])
        smaller = replace(fixed, borders=fixed.borders[:-1] if fixed.borders else None)
        yield "without", Way(words="without the outermost border", pattern=with_size(smaller, bare), size=size)
    for id_ in _smaller_sizes(pattern, booklet.finished.w * booklet.finished.h):
        yield "size", Way(words=f"size {id_}", pattern=replace(pattern, classes={}, stated=()), size=id_)


def _smaller_sizes(pattern: Pattern, area: Length) -> list[str]:
    """Return the other sizes of a smaller area, the largest first."""
    areas: dict[str, Length] = {}
    for id_ in pattern.sizes:
        try:
            w, h = size_quilt(pattern, id_).finished
        except PatternError:
            continue  # whoever asks for that size is told
        areas[id_] = w * h
    return [id_ for id_ in sorted(areas, key=lambda each: areas[each], reverse=True) if areas[id_] < area]


def _bound_otherwise(pattern: Pattern, named: set[str]) -> Iterator[tuple[str, Pattern]]:
    """Yield the pattern with its binding from each yardage that is not short."""
    binding = pattern.binding
    if binding is not None and binding.fabric in named:
        for fabric in pattern.fabrics.values():
            if fabric.is_yardage and fabric.id not in named:
                changed = replace(pattern, binding=replace(binding, fabric=fabric.id))
                yield f"a binding of {fabric.id}, not {binding.fabric}", changed


def _smaller_layouts(booklet: Booklet, haves: Sequence[Have], measures: Measures) -> Iterator[tuple[int, int]]:
    """Return smaller layouts, the largest first, but for those whose share of the fabric is far more than there is."""
    across, down = booklet.set.across, booklet.set.down
    layouts = [(a, d) for a in range(1, across + 1) for d in range(1, down + 1) if (a, d) != (across, down)]
    layouts.sort(key=lambda each: (-each[0] * each[1], -each[0]))

    def could_do(a: int, d: int) -> bool:
        share = Fraction(a * d, across * down) * LEAST_SHARE
        return all(have.gives_share(share, booklet.fabrics, measures) for have in haves)

    return islice((each for each in layouts if could_do(*each)), MOST_LAYOUTS)
