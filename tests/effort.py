"""How many examples a property is tried with: a few in every run, and many in a deep one.

bash .ci/deep                 the whole suite, with ten times as many examples, new ones each time
bash .ci/deep tests/lengths   what follows is passed to pytest
"""

from __future__ import annotations

from typing import Final

from hypothesis import settings

DEEPER: Final = 10


def tries(few: int) -> int:
    """Return how many examples to try where an ordinary run tries a few."""
    return few * DEEPER if is_deep() else few


def is_deep() -> bool:
    """Tell whether this is a deep run."""
    return settings.get_current_profile_name() == "deep"
