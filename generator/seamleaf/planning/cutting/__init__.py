"""Demands of one fabric to its cutting plan: strips of yardage, or pieces of a bundle; with a proven lower bound.

The flow of each planner: lengths to whole steps (``scale``, ``kinds``), a plan in whole steps, sheets with cuts
and rests (``tree``, ``sheets``), and a check of the finished plan (``verify``).
"""

from seamleaf.planning.cutting.bundle import plan_bundle
from seamleaf.planning.cutting.verify import PlanError, verify_plan
from seamleaf.planning.cutting.yardage import plan_yardage

__all__ = ["PlanError", "plan_bundle", "plan_yardage", "verify_plan"]
