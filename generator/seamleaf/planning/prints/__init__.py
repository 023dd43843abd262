"""Colours of a bundle to the pieces in every block: choose the squares, pair them, lay the blocks out.

Takes a quilt with its placed blocks and the cutting plans of its bundles; returns the pieces of every block, the
verdict on every colour, and a report on the layout. Whole numbers, seeded by the pattern: one quilt, one layout.
"""

from seamleaf.planning.prints.planner import PrintsPlan, plan_prints

__all__ = ["PrintsPlan", "plan_prints"]
