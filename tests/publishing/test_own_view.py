"""The page of a reader's own prints: which sizes have one, and what it is told of the quilt."""

from __future__ import annotations

import json

from patterns_for_tests import PRINTS, YARDAGE, file_of
from published import published

FABRICS = {**YARDAGE, "star": PRINTS}
SASHING = {"fabric": "light", "width": "1", "cornerstone": "star"}


def test_cornerstones_from_a_bundle_are_no_blocks_to_lay_out() -> None:
    text = file_of({"a": "star 3 1/2 x 3 1/2"}, fabrics=FABRICS, size="3 x 3", sashing=SASHING).decode()
    page = published(text, "small")["small/one/prints/index.md"].decode()
    data = json.loads(page.partition('id="sl-own-prints">')[2].partition("</script>")[0])
    assert sorted(block["number"] for block in data["blocks"].values()) == [
        f"{row}.{column}" for row in (1, 3, 5) for column in (1, 2, 3)
    ]  # rows 2 and 4 are sashes


def test_a_size_whose_bundle_gives_cornerstones_alone_has_no_such_page() -> None:
    text = file_of({"a": "dark 3 1/2 x 3 1/2"}, fabrics=FABRICS, size="3 x 3", sashing=SASHING).decode()
    assert not [path for path in published(text, "small") if "/prints/" in path]


def test_a_pieced_border_is_drawn_patch_by_patch() -> None:
    blocks = {"a": "star 6 x 6", "edging": {"row": ["light 1 x 1", "red 1 x 1"]}}
    text = file_of(blocks, fabrics=FABRICS, size="2 x 3", borders=[{"fabric": "dark", "pieced": "edging"}]).decode()
    page = published(text, "small")["small/one/prints/index.md"].decode()
    data = json.loads(page.partition('id="sl-own-prints">')[2].partition("</script>")[0])
    fabrics = [fabric for fabric, _ in data["picture"]["borders"]]
    assert fabrics.count("light") == fabrics.count("red") == 9 * 2 + 7 * 2  # of 2 in, on 18 and 12 + 2 in
