"""Two published versions of a pattern: what changed between their booklets, and for whom it matters.

Works on plain JSON as it was published, so that a version of long ago can be compared whatever keys its format lacked.
"""

from seamleaf.versions.changes import STAGES, Change, compare_booklets
from seamleaf.versions.earlier import Edition, EditionError, editions_below, order_of, pointers_on, read_edition
from seamleaf.versions.note import Group, Note, compare_editions

__all__ = [
    "STAGES",
    "Change",
    "Edition",
    "EditionError",
    "Group",
    "Note",
    "compare_booklets",
    "compare_editions",
    "editions_below",
    "order_of",
    "pointers_on",
    "read_edition",
]
