"""Strip sets that nobody asked for: where they save work and take no more fabric, in every size of the pattern."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from patterns_for_tests import booklet_of, booklets_of, grid
from proved import findings_in
from seamleaf.booklet import Booklet, to_json
from seamleaf.lengths import Length

NINE = grid(["DLD", "LDL", "DLD"], D="dark 2 x 2", L="light 2 x 2")
PATCHES = {"method": "patches"}
STRIPS = {"method": "strips"}
COUNTS = st.integers(3, 8)


def _needs(booklet: Booklet) -> dict[str, Length | int]:
    return {fabric.id: fabric.need for fabric in booklet.fabrics}


def _sets(booklet: Booklet) -> list[tuple[str, int, int]]:
    return [(unit.id, unit.count, unit.batches) for unit in booklet.units if unit.how == "strip-set"]


def test_thirty_nine_patches_come_from_six_strip_sets_and_no_more_fabric() -> None:
    """15 sub-cuts of 2 1/2 from 40 in, less an inch: four sets for 60 rows, two for 30 (derived)."""
    chosen, plain = booklet_of({"nine": NINE}, size="5 x 6"), booklet_of({"nine": NINE | PATCHES}, size="5 x 6")
    assert _sets(chosen) == [("U1", 60, 4), ("U2", 30, 2)]
    assert _sets(plain) == []
    assert _needs(chosen) == _needs(plain)
    assert chosen.pressing.nested == plain.pressing.nested == plain.pressing.match_points
    cuts = [sum(len(sheet.cuts) * sheet.times for sheet in booklet.cutting) for booklet in (chosen, plain)]
    assert cuts[0] + 6 * 16 < cuts[1]  # each set is squared and sub-cut 15 times
    assert findings_in(to_json(chosen)) == []


def test_where_a_fabric_would_need_more_patches_are_cut() -> None:
    plain = booklet_of({"nine": NINE}, size="6 x 8")
    asked = booklet_of({"nine": NINE | STRIPS}, size="6 x 8")
    assert _sets(plain) == []
    assert _sets(asked) != []
    assert any(asked_for > _needs(plain)[fabric] for fabric, asked_for in _needs(asked).items())


def test_what_one_size_cannot_have_no_size_has_so_that_labels_stay_the_same() -> None:
    small, large = booklets_of(
        {"nine": NINE}, sizes={"small": {"blocks": "5 x 6"}, "large": {"blocks": "6 x 8"}}
    ).values()
    assert _sets(small) == _sets(large) == []


def test_fewer_than_thirty_are_sewn_one_by_one() -> None:
    """Common practice, no source."""
    four = grid(["DL", "LD"], D="dark 3 x 3", L="light 3 x 3")
    assert _sets(booklet_of({"four": four}, size="2 x 7")) == []
    assert _sets(booklet_of({"four": four}, size="4 x 5")) == [("U1", 40, 4)]


def test_patches_of_a_bundle_or_with_a_direction_are_never_chosen() -> None:
    fabrics: dict[str, Any] = {"dark": {"source": "yardage", "directional": "true"}, "light": {"source": "yardage"}}
    assert _sets(booklet_of({"nine": NINE}, size="5 x 6", fabrics=fabrics)) == []


@settings(max_examples=8)
@given(
    st.integers(3, 8),
    st.integers(3, 8),
    st.sampled_from(["1 1/2", "2", "3"]),
    st.sampled_from(["DL/LD", "DLD/LDL/DLD"]),
)
def test_no_fabric_ever_needs_more_than_cut_in_patches(across: int, down: int, side: str, rows: str) -> None:
    part = grid(rows.split("/"), D=f"dark {side} x {side}", L=f"light {side} x {side}")
    size = f"{across} x {down}"
    free, plain = booklet_of({"block": part}, size=size), booklet_of({"block": part | PATCHES}, size=size)
    assert all(need <= _needs(plain)[fabric] for fabric, need in _needs(free).items())
