"""Which squares of a bundle to cut, and into what: contrast with the ground first, then variety.

Squares are judged by the lightness contrast with every fabric that they are sewn to, since value outranks hue; the
CIEDE2000 difference ranks those that are equal in it. Squares that pass for each other are one print with several
squares. Where there are more prints than squares to cut, those that differ most are taken; where there are fewer,
prints are cut again, as evenly as can be.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from seamleaf.planning.print_records import ColourNote, Reason, State
from seamleaf.planning.prints.colour import Lab, difference, family_of
from seamleaf.planning.prints.conventions import CONVENTIONS
from seamleaf.planning.prints.transport import Transport

Grade = Literal[0, 1, 2]
"""Clear, faint, lost."""

CLEAR: Final = 0
LOST: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """One colour of a bundle."""

    lab: Lab
    spread: int = 0
    """From the 5th to the 95th percentile of its lightness, in hundredths; 0 for a flat colour."""
    squares: int = 1
    """How many squares of it there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """Pieces that are cut alike."""

    pieces: int
    grounds: tuple[Lab, ...]
    """The yardage fabrics that their patches are sewn to inside the block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The colours of the pieces, in the order of cutting, and the verdict on every colour."""

    pieces: tuple[int, ...]
    verdicts: tuple[ColourNote, ...]


def choose(squares: Sequence[Square], kinds: Sequence[Kind], claims: Sequence[Mapping[int, int]] = ()) -> Choice:
    """Choose a colour for every piece; there must be at least as many squares as pieces.

    Args:
        squares: the colours.
        kinds: the pieces, in the order of cutting.
        claims: for each kind, how many pieces of it certain colours have for sure; those come first in their kind.

    """
    return _Chooser(squares, kinds, claims or [{} for _ in kinds]).choice()


def light_contrast(square: Square, ground: Lab) -> int:
    """Return the lightness contrast of a square with a ground: from the edge of its own lightness that lies nearer."""
    return max(0, abs(square.lab[0] - ground[0]) - square.spread // 2)


def grade_of(square: Square, grounds: Sequence[Lab]) -> Grade:
    """Return how a square stands out from all of these grounds."""
    least = min((light_contrast(square, ground) for ground in grounds), default=CONVENTIONS.clear)
    return 0 if least >= CONVENTIONS.clear else 1 if least >= CONVENTIONS.faint else 2


def prints_of(squares: Sequence[Square]) -> list[int]:
    """Return for each colour the first that it passes for, itself if there is none before it."""
    first: list[int] = []
    for index, square in enumerate(squares):
        known = (
            other for other in range(index) if first[other] == other and _pass_for_each_other(square, squares[other])
        )
        first.append(next(known, index))
    return first


def _pass_for_each_other(one: Square, other: Square) -> bool:
    # Lightness alone rules most pairs out: its part in CIEDE2000 is never divided by more than 1.75.
    near = abs(one.lab[0] - other.lab[0]) < 2 * CONVENTIONS.alike
    return near and difference(one.lab, other.lab) < CONVENTIONS.alike


class _Chooser:
    def __init__(self, squares: Sequence[Square], kinds: Sequence[Kind], claims: Sequence[Mapping[int, int]]) -> None:
        self._squares = squares
        self._kinds = kinds
        self._claims = claims
        self._grounds = sorted({ground for kind in kinds for ground in kind.grounds})
        self._outside = [grade_of(square, self._grounds) for square in squares]
        """The grade where a square meets every ground."""
        self._first = prints_of(squares)
        prints: dict[int, list[int]] = {}
        for index, first in enumerate(self._first):
            prints.setdefault(first, []).append(index)
        # A print is judged by its worst square, so that any of them will do.
        self._prints = [sorted(members, key=lambda i: (self._outside[i], i)) for members in prints.values()]

    def choice(self) -> Choice:
        """Choose the prints, send each kind of piece to its prints, and hand out their squares."""
        chosen = self._chosen()
        costs = [
            [self._cost(kind, number, chosen) for number in range(len(self._prints))]
            for kind in range(len(self._kinds))
        ]
        held = [[sum(claim.get(index, 0) for index in members) for members in self._prints] for claim in self._claims]
        taken = [sum(column) for column in zip(*held, strict=True)]
        sent = Transport(
            supply=[kind.pieces - sum(of_kind) for kind, of_kind in zip(self._kinds, held, strict=True)],
            room=[
                sum(self._squares[index].squares for index in members) - already
                for members, already in zip(self._prints, taken, strict=True)
            ],
            cost=lambda kind, number, before: (
                costs[kind][number] + (before + held[kind][number]) * CONVENTIONS.again_alike_cost
            ),
            sink_cost=lambda number, before: (before + taken[number]) * CONVENTIONS.again_cost,
        ).solve()
        pieces: list[int] = []
        used: Counter[int] = Counter()
        for claim in self._claims:
            used.update(claim)
        worst: dict[int, int] = {}
        for kind, claim, of_kind in zip(self._kinds, self._claims, sent, strict=True):
            shown = list(Counter(claim).elements())
            for number, times in enumerate(of_kind):
                for _ in range(times):
                    shown.append(self._next_square(number, used))
                    used[shown[-1]] += 1
            for index in shown:
                worst[index] = max(worst.get(index, CLEAR), grade_of(self._squares[index], kind.grounds))
            pieces += shown
        verdicts = tuple(self._verdict(index, used, worst) for index in range(len(self._squares)))
        return Choice(pieces=tuple(pieces), verdicts=verdicts)

    def _next_square(self, number: int, used: Counter[int]) -> int:
        free = [index for index in self._prints[number] if used[index] < self._squares[index].squares]
        return min(free, key=lambda index: used[index])

    def _grade(self, kind: int, number: int) -> Grade:
        return max(grade_of(self._squares[index], self._kinds[kind].grounds) for index in self._prints[number])

    def _cost(self, kind: int, number: int, chosen: set[int]) -> int:
        grounds = self._kinds[kind].grounds
        cost = (0, CONVENTIONS.faint_cost, CONVENTIONS.reject_cost)[self._grade(kind, number)]
        cost += 0 if number in chosen else CONVENTIONS.spare_cost
        square = self._squares[self._prints[number][0]]
        light = min((light_contrast(square, ground) for ground in grounds), default=CONVENTIONS.bold)
        return cost + max(0, CONVENTIONS.bold - light) // 100

    # ---- more prints than pieces ----

    def _chosen(self) -> set[int]:
        """Return the prints to cut: all of them, or as many as there are pieces, chosen to differ."""
        wanted = sum(kind.pieces for kind in self._kinds)
        if len(self._prints) <= wanted:
            return set(range(len(self._prints)))
        outside = [max(self._outside[index] for index in members) for members in self._prints]
        inside_too = any(not kind.grounds for kind in self._kinds)
        touching = sum(kind.pieces for kind in self._kinds if kind.grounds)
        anywhere = [0 if inside_too else grade for grade in outside]
        picker = _Picker([self._squares[members[0]].lab for members in self._prints], wanted)
        claimed = {index for claim in self._claims for index in claim}
        for number, members in enumerate(self._prints):
            if claimed.intersection(members):
                picker.take(number)
        already = len(picker.picked)
        picker.pick(max(0, touching - already), outside)
        picker.pick(wanted - max(touching, already), anywhere)
        return set(picker.picked)

    # ---- reasons ----

    def _verdict(self, index: int, used: Counter[int], worst: dict[int, int]) -> ColourNote:
        """Judge a colour; contrast in lightness is less half of its spread, and bold where nothing is ground."""
        square = self._squares[index]
        state, reason = self._state(index, used, worst)
        light, apart = min(
            ((light_contrast(square, ground), difference(square.lab, ground)) for ground in self._grounds),
            default=(CONVENTIONS.bold, CONVENTIONS.bold),
        )
        first = self._first[index]
        return ColourNote(
            state=state, reason=reason, light=light, difference=apart, alike=first if first != index else None
        )

    def _state(self, index: int, used: Counter[int], worst: dict[int, int]) -> tuple[State, Reason]:
        outside = self._outside[index]
        if used[index]:
            if worst[index] != CLEAR:
                return "used", "needed" if worst[index] == LOST else "faint"
            return "used", "clear" if outside == CLEAR else "inside"
        if all(grade_of(self._squares[index], kind.grounds) == LOST for kind in self._kinds):
            return "reject", "lost"
        if any(used[other] for other, first in enumerate(self._first) if first == self._first[index]):
            return "spare", "alike"
        if outside == CLEAR:
            return "spare", "enough"
        return "spare", "faint" if outside != LOST else "inside"


class _Picker:
    """Picks prints one by one: the best grade, no hue family over its share, and as different as can be."""

    def __init__(self, labs: Sequence[Lab], wanted: int) -> None:
        self._labs = labs
        self._families = [family_of(lab) for lab in labs]
        self._left = set(range(len(labs)))
        self._nearest = [1 << 30] * len(labs)
        self._taken: Counter[int] = Counter()
        total = 100 * len(labs)
        over = 100 + CONVENTIONS.share_over
        self._share = {f: -(-n * wanted * over // total) for f, n in Counter(self._families).items()}
        self.picked: list[int] = []

    def pick(self, count: int, grades: Sequence[int]) -> None:
        """Pick so many more; the lightest and the darkest of the best grade come first of all."""
        for _ in range(count):
            best = min(grades[number] for number in self._left)
            equal = sorted(number for number in self._left if grades[number] == best)
            if len(self.picked) < 2:
                sign = -1 if not self.picked else 1
                self.take(min(equal, key=lambda number: (sign * self._labs[number][0], number)))
                continue
            within = [n for n in equal if self._taken[self._families[n]] < self._share[self._families[n]]]
            self.take(min(within or equal, key=lambda number: (-self._nearest[number], number)))

    def take(self, number: int) -> None:
        """Take one print."""
        self.picked.append(number)
        self._left.discard(number)
        self._taken[self._families[number]] += 1
        for other in self._left:
            self._nearest[other] = min(self._nearest[other], difference(self._labs[number], self._labs[other]))
