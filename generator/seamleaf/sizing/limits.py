"""The limits that keep every input computable in bounded time."""

from typing import Final

MAX_BLOCKS: Final = 2500
MAX_SIDE_INCHES: Final = 400
