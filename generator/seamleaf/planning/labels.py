"""Labels of patches: the fabric's letter and a number in order of use, the same in every size.

Letters I, O and Q are left out, since they read as numerals (common practice, no source); P, T and U, since the
ids of units begin with them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from seamleaf.lengths import Length

Shape = Literal["rectangle", "halved", "quartered", "strip"]
_ALPHABET: Final = "ABCDEFGHJKLMNRSVWXYZ"


@dataclass(frozen=True, slots=True, kw_only=True)
class PatchKey:
    """What makes patches alike: fabric, print role, shape and cut size (for triangles their square's)."""

    fabric: str
    print: int | None
    w: Length
    h: Length
    shape: Shape
    own: str = ""
    """What it is for, if it shares its label with nothing else."""


def letters(fabrics: Iterable[str]) -> dict[str, str]:
    """Give each fabric its letter: A, B, ... Z, AA, AB, ..."""
    result: dict[str, str] = {}
    for index, fabric in enumerate(fabrics):
        high, low = divmod(index, len(_ALPHABET))
        result[fabric] = (_ALPHABET[high - 1] if high else "") + _ALPHABET[low]
    return result


@dataclass(slots=True)
class Labels:
    """Hands out labels in the order in which patches are asked for."""

    letter_of: dict[str, str]
    directional: frozenset[str]
    _label_of: dict[PatchKey, str] = field(default_factory=dict)
    _keys: dict[str, PatchKey] = field(default_factory=dict)
    _used: dict[str, int] = field(default_factory=dict)

    def label(self, key: PatchKey) -> tuple[str, bool]:
        """Return the label of such a patch, and whether the labelled patch must be turned by a quarter to lie so."""
        if key in self._label_of:
            return self._label_of[key], False
        if key.shape == "halved":  # a rectangle cut the other way up gives triangles of the other hand
            self._label_of[key] = self.fresh(key)
            return self._label_of[key], False
        upended = replace(key, w=key.h, h=key.w)
        if upended in self._label_of and key.fabric not in self.directional:
            return self._label_of[upended], True
        self._label_of[key] = self.fresh(key)
        return self._label_of[key], False

    def fresh(self, key: PatchKey) -> str:
        """Return a label of its own, as every border has, so that equal widths in one size do not merge labels."""
        number = self._used.get(key.fabric, 0) + 1
        self._used[key.fabric] = number
        label = f"{self.letter_of[key.fabric]}{number}"
        self._keys[label] = key
        return label

    def keys(self) -> dict[str, PatchKey]:
        """Return what each label stands for, in the order of first use."""
        return dict(self._keys)
