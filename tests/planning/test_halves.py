"""Big quilts are sewn in halves, joined last (common practice, no source)."""

from __future__ import annotations

from typing import Any

import pytest

from patterns_for_tests import booklet_of
from proved import findings_in
from seamleaf.booklet import to_json

BLOCK = {"plain": {"row": ["dark 8 x 16", "light 8 x 16"]}}
SASHES = {"fabric": "red", "width": "2", "cornerstone": "dark"}


@pytest.mark.parametrize(
    ("sections", "half", "order"),
    [
        ({"size": "3 x 3"}, None, [1, 2]),
        ({"size": "4 x 5"}, 3, [1, 2, 4, 3]),
        ({"size": "5 x 3"}, None, [1, 2]),
        ({"size": "3 x 4", "on_point": "1"}, 3, [1, 2, 4, 5, 3]),
        ({"size": "4 x 4", "sashing": SASHES}, 4, [1, 2, 3, 5, 6, 4]),
        (
            {"size": "4 x 4", "sashing": SASHES, "on_point": "1"},
            8,
            [1, 3, 5, 10, 12, 14, 2, 4, 6, 7, 9, 11, 13, 8],  # side triangles wait for the first six
        ),
        ({"size": "4 x 4", "set": "strippy", "sashing": {"fabric": "red", "width": "2"}}, 4, [1, 2, 3, 5, 6, 4]),
    ],
)
def test_the_seam_between_the_halves_is_sewn_after_all_others_between_rows(
    sections: dict[str, Any], half: int | None, order: list[int]
) -> None:
    booklet = booklet_of(BLOCK, **sections)
    assert booklet.set.half == half
    joins = [seam.id for seam in booklet.seams if seam.of == "rows" and "corner" not in seam.id]
    assert joins == [f"rows.{row}" for row in order]
    assert findings_in(to_json(booklet).encode()) == []
