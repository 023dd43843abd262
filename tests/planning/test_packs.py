"""Packs of a bundle: what stays whole, and where one pack fewer would not do."""

from __future__ import annotations

from typing import Any

import pytest

from patterns_for_tests import booklet_of


def star(size: str, pack: str) -> Any:
    fabrics = {"star": {"source": "squares 5", "pack": pack}, "dark": {"source": "yardage"}}
    booklet = booklet_of({"two": {"row": ["star.1 4 x 4", "dark 4 x 4"]}}, size=size, fabrics=fabrics)
    return next(fabric for fabric in booklet.fabrics if fabric.id == "star")


@pytest.mark.parametrize(
    ("size", "pack", "packs", "left", "short"),
    [
        ("5 x 8", "40", 1, 0, None),
        ("41 x 1", "40", 2, 39, 1),
        ("5 x 8", "42", 1, 2, None),
        ("5 x 8", "20", 2, 0, 20),
    ],
)
def test_41_squares_do_not_come_from_a_pack_of_40(
    size: str, pack: str, packs: int, left: int, short: int | None
) -> None:
    """One square a block: 40 come from a pack of 40, the forty-first takes another pack (derived)."""
    note = star(size, pack)
    assert note.need == note.bound
    assert (note.buy.amount, note.buy.unit, note.left, note.short) == (packs, "pack", left, short)


def test_yardage_comes_in_no_packs() -> None:
    booklet = booklet_of({"plain": "dark 4 x 4"}, fabrics={"dark": {"source": "yardage"}})
    assert {(fabric.left, fabric.short) for fabric in booklet.fabrics} == {(None, None)}
