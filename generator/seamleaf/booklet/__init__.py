"""The booklet, one record a size: what planning fills, what drawing, publishing and the JSON show."""

from seamleaf.booklet.codec import from_json, json_schema, to_json
from seamleaf.booklet.record import FORMAT, Booklet

__all__ = ["FORMAT", "Booklet", "from_json", "json_schema", "to_json"]
