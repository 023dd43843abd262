"""Colours of a bundle to the pieces in every block: choose the squares, pair them, lay the blocks out.

A quilt with its placed blocks and the cutting plans of its bundles sets a task; the task and the colours give the
pieces of every block, the verdict on every colour, and a report on the layout. Whole numbers, seeded by the pattern:
one quilt, one layout. The scripts in ``site_templates/assets/prints`` do the same in the browser, module by module.
"""

from seamleaf.planning.prints.planner import PrintsPlan, plan_prints, plan_squares
from seamleaf.planning.prints.task import task_of

__all__ = ["PrintsPlan", "plan_prints", "plan_squares", "task_of"]
