"""The booklet, one record a size: assembled from what planning returns; to and from JSON; its schema."""

from seamleaf.booklet.assemble import plan_booklets, plan_purchase
from seamleaf.booklet.codec import from_json, json_schema, to_json
from seamleaf.booklet.record import FORMAT, Booklet
from seamleaf.booklet.stated import compare_stated
from seamleaf.booklet.titles import fabric_title, with_backing_called

__all__ = [
    "FORMAT",
    "Booklet",
    "compare_stated",
    "fabric_title",
    "from_json",
    "json_schema",
    "plan_booklets",
    "plan_purchase",
    "to_json",
    "with_backing_called",
]
