"""The number type of every measurement: a + b*sqrt(2) with rational a and b.

On-point geometry lives in the field Q(sqrt 2), so sums, products, quotients and comparisons of cut
sizes are decided exactly. No float is ever made except by :meth:`Length.to_float`, for drawing.
"""

from __future__ import annotations

import math
import operator
import re
from fractions import Fraction
from typing import Final

from seamleaf.lengths.ratios import (
    difference,
    float_of,
    hash_of,
    inverse,
    negative,
    order_of,
    product,
    same,
    sign_of,
    total,
    whole,
)

_URAT = r"[0-9]+(?:/[0-9]*[1-9][0-9]*)?"
_NOUGHT: Final = Fraction(0)
"""The root part of most lengths: sums and comparisons of lengths that share it leave it out."""
_HALF: Final = Fraction(1, 2)
_ROOT: Final = math.sqrt(2)
_EXACT_TEXT = re.compile(rf"(-?{_URAT})(?:([+-])({_URAT})\*r2)?")


class Length:
    """An immutable exact number ``a + b*sqrt(2)``, in whatever unit the caller keeps.

    >>> Length(12) * Length(0, 1)
    Length('0+12*r2')
    >>> Length(12) * Length(0, 1) < Length(17)
    True
    """

    __slots__ = ("a", "b")

    a: Fraction
    b: Fraction

    def __init__(self, a: Fraction | int = 0, b: Fraction | int = 0) -> None:
        _set(self, "a", _fraction(a))
        _set(self, "b", b if b is _NOUGHT else _root_part(b))

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"a Length is immutable: cannot set {name}")

    def __reduce__(self) -> tuple[type[Length], tuple[Fraction, Fraction]]:
        return (Length, (self.a, self.b))

    @classmethod
    def from_exact_text(cls, text: str) -> Length:
        """Read the booklet's notation, for example ``9/2`` or ``0+24*r2``.

        Raises:
            ValueError: the text is not in that notation (lowest terms are not demanded).

        """
        match = _EXACT_TEXT.fullmatch(text)
        if match is None:
            raise ValueError(f"not an exact length: {text!r}")
        rational, sign, root = match.groups()
        b = Fraction(0) if root is None else Fraction(root)
        return cls(Fraction(rational), -b if sign == "-" else b)

    def exact_text(self) -> str:
        """Write the booklet's notation: lowest terms, the root part left out when it is 0."""
        if self.b is _NOUGHT:
            return str(self.a)
        sign = "-" if self.b < 0 else "+"
        return f"{self.a}{sign}{abs(self.b)}*r2"

    def __repr__(self) -> str:
        return f"Length({self.exact_text()!r})"

    @property
    def is_rational(self) -> bool:
        """Whether the root part is 0, so that a ruler can show the length."""
        return self.b is _NOUGHT

    def __add__(self, other: Length | Fraction | int) -> Length:
        if isinstance(other, Length):
            b = other.b
            return _made(
                total(self.a, other.a), self.b if b is _NOUGHT else b if self.b is _NOUGHT else total(self.b, b)
            )
        return _made(total(self.a, _fraction(other)), self.b)

    __radd__ = __add__

    def __neg__(self) -> Length:
        return _made(negative(self.a), self.b if self.b is _NOUGHT else negative(self.b))

    def __sub__(self, other: Length | Fraction | int) -> Length:
        if isinstance(other, Length):
            return _made(difference(self.a, other.a), self.b if other.b is _NOUGHT else difference(self.b, other.b))
        return _made(difference(self.a, _fraction(other)), self.b)

    def __rsub__(self, other: Fraction | int) -> Length:
        return -(self - other)

    def __mul__(self, other: Length | Fraction | int) -> Length:
        if isinstance(other, Length):
            a, b = product(self.a, other.a), _NOUGHT
            if self.b is not _NOUGHT:
                b = product(self.b, other.a)
            if other.b is not _NOUGHT:
                b = total(b, product(self.a, other.b))
                if self.b is not _NOUGHT:
                    twice = product(self.b, other.b)
                    a = total(a, total(twice, twice))
            return _made(a, b)
        times = _fraction(other)
        return _made(product(self.a, times), self.b if self.b is _NOUGHT else product(self.b, times))

    __rmul__ = __mul__

    def __truediv__(self, other: Length | Fraction | int) -> Length:
        if isinstance(other, Length):
            if other.b is not _NOUGHT:
                norm = other.a * other.a - 2 * other.b * other.b
                return self * Length(other.a / norm, -other.b / norm)
            other = other.a
        return self * inverse(_fraction(other))

    def times_root2(self) -> Length:
        """Multiply by sqrt(2): the diagonal of a square of this side."""
        return _made(total(self.b, self.b), self.a)

    def sign(self) -> int:
        """Return -1, 0 or 1, decided exactly."""
        a, b = self.a, self.b
        if b is _NOUGHT:
            return sign_of(a)
        sign_a, sign_b = sign_of(a), sign_of(b)
        if sign_a in (0, sign_b):
            return sign_b
        return sign_b if order_of(product(b, b), product(product(a, a), _HALF)) > 0 else sign_a

    def __abs__(self) -> Length:
        return -self if self.sign() < 0 else self

    def __bool__(self) -> bool:
        return self.b is not _NOUGHT or bool(self.a)

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Length):
            return same(self.a, other.a) and (self.b is other.b or same(self.b, other.b))
        if isinstance(other, (Fraction, int)):
            return self.b is _NOUGHT and self.a == other
        return NotImplemented

    def __hash__(self) -> int:
        return hash_of(self.a) if self.b is _NOUGHT else hash((hash_of(self.a), hash_of(self.b)))

    def __lt__(self, other: Length | Fraction | int) -> bool:
        if isinstance(other, Length) and self.b is other.b:
            return order_of(self.a, other.a) < 0
        return (self - other).sign() < 0

    def __le__(self, other: Length | Fraction | int) -> bool:
        if isinstance(other, Length) and self.b is other.b:
            return order_of(self.a, other.a) <= 0
        return (self - other).sign() <= 0

    def __gt__(self, other: Length | Fraction | int) -> bool:
        if isinstance(other, Length) and self.b is other.b:
            return order_of(self.a, other.a) > 0
        return (self - other).sign() > 0

    def __ge__(self, other: Length | Fraction | int) -> bool:
        if isinstance(other, Length) and self.b is other.b:
            return order_of(self.a, other.a) >= 0
        return (self - other).sign() >= 0

    def floor(self) -> int:
        """Return the greatest integer not above this length."""
        denominator = math.lcm(self.a.denominator, self.b.denominator)
        p = self.a.numerator * (denominator // self.a.denominator)
        q = self.b.numerator * (denominator // self.b.denominator)
        root = math.isqrt(2 * q * q)  # q*sqrt(2) is irrational unless q is 0, so floor(-x) = -floor(x) - 1
        return (p + (root if q >= 0 else -root - 1)) // denominator

    def ceil(self) -> int:
        """Return the least integer not below this length."""
        return -(-self).floor()

    def round_up(self, grid: Fraction) -> Length:
        """Return the least multiple of ``grid`` that is not below this length."""
        return Length((self / grid).ceil() * grid)

    def round_nearest(self, grid: Fraction) -> Length:
        """Return the nearest multiple of ``grid``; a tie goes up."""
        return Length((self / grid + Fraction(1, 2)).floor() * grid)

    def to_float(self) -> float:
        """Return an approximation, for coordinates in a drawing and for nothing else."""
        rational = float_of(self.a)
        return rational if self.b is _NOUGHT else rational + float_of(self.b) * _ROOT


_set: Final = object.__setattr__
_new: Final = object.__new__
_set_a, _set_b = vars(Length)["a"].__set__, vars(Length)["b"].__set__


def _made(a: Fraction, b: Fraction) -> Length:
    """Return a length of fractions."""
    made = _new(Length)
    _set_a(made, a)
    _set_b(made, b if b is _NOUGHT else b or _NOUGHT)
    return made


def _fraction(number: Fraction | int) -> Fraction:
    """Return a number as a fraction; operator.index turns floats away."""
    if number.__class__ is int:  # soonest told: to see that something is no Fraction takes long
        return whole(number)
    return number if isinstance(number, Fraction) else whole(operator.index(number))


def _root_part(b: Fraction | int) -> Fraction:
    """Return the root part of a length; nought is always the same object."""
    return _fraction(b) or _NOUGHT


ZERO: Final = Length(0)
