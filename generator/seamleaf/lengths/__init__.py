"""Exact lengths of the form ``a + b*sqrt(2)``: arithmetic, text, and the named roundings.

Takes and returns nothing but numbers and text; imports the standard library only.
"""

from seamleaf.lengths.exact import ZERO, Length
from seamleaf.lengths.rounding import CENTIMETRES, INCHES, Measures, measures_of
from seamleaf.lengths.text import LENGTH_PATTERN, LengthError, format_rational, mixed_parts, parse_length, say_length

__all__ = [
    "CENTIMETRES",
    "INCHES",
    "LENGTH_PATTERN",
    "ZERO",
    "Length",
    "LengthError",
    "Measures",
    "format_rational",
    "measures_of",
    "mixed_parts",
    "parse_length",
    "say_length",
]
