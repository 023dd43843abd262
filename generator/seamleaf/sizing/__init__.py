"""Pattern and size to Quilt: exact geometry of blocks, set and borders; and every misfit among them."""

from seamleaf.sizing.check import check_pattern
from seamleaf.sizing.quilt import Quilt, size_quilt

__all__ = ["Quilt", "check_pattern", "size_quilt"]
