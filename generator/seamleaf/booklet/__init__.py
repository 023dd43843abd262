"""The booklet, one record a size: assembled from what planning returns; to and from JSON; its schema."""

from seamleaf.booklet.assemble import plan_booklets
from seamleaf.booklet.codec import from_json, json_schema, to_json
from seamleaf.booklet.record import FORMAT, Booklet
from seamleaf.booklet.stated import compare_stated

__all__ = ["FORMAT", "Booklet", "compare_stated", "from_json", "json_schema", "plan_booklets", "to_json"]
