"""Marks of an author's page are replaced where they ask for something, and shown where the page tells of them."""

from __future__ import annotations

import pytest

from seamleaf.site.building.marks import marks_of, put_in_marks

MARK = "<!-- seamleaf: gallery -->"


@pytest.mark.parametrize(
    ("page", "shown"),
    [
        (f"# T\n\n{MARK}\n", "# T\n\nHERE\n"),
        (f"{MARK} and {MARK}", "HERE and HERE"),
        ("<!-- seamleaf: keys -->", "<!-- seamleaf: keys -->"),
        (f"```html\n{MARK}\n```\n\n{MARK}\n", f"```html\n{MARK}\n```\n\nHERE\n"),
        (f"~~~~\n{MARK}\n```\n{MARK}\n~~~~\n{MARK}", f"~~~~\n{MARK}\n```\n{MARK}\n~~~~\nHERE"),
        (f"{MARK}\n\n```\n{MARK}\n", f"HERE\n\n```\n{MARK}\n"),
    ],
)
def test_a_mark_between_fences_stays_as_it_is_written(page: str, shown: str) -> None:
    assert put_in_marks(page, {"gallery": "HERE"}.get) == shown


def test_only_marks_outside_fences_ask_for_something() -> None:
    assert marks_of(f"{MARK}\n```\n<!-- seamleaf: keys -->\n```\n") == {"gallery"}
    assert marks_of("<!-- a comment -->") == set()
