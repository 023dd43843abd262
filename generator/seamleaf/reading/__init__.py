"""YAML text to Pattern, or every problem with its place in the file.

Takes the bytes of a pattern file and gives a :class:`Reading`: the pattern as written, in exact lengths, and all
problems of form. The geometry is looked at by :mod:`seamleaf.sizing`.
"""

from seamleaf.reading.pattern import Mark, Pattern
from seamleaf.reading.problems import PatternError, Problem
from seamleaf.reading.reader import Reading, read_pattern

__all__ = ["Mark", "Pattern", "PatternError", "Problem", "Reading", "read_pattern"]
