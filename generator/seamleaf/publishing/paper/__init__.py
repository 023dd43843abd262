"""Paper: the print page of a size, set by typst as a PDF for A4, Letter, and in large print."""

from seamleaf.publishing.editions import EDITIONS, Edition
from seamleaf.publishing.paper.picture import WIDEST, set_picture
from seamleaf.publishing.paper.sheets import Paper, lay_paper, paper_path, set_paper

__all__ = ["EDITIONS", "WIDEST", "Edition", "Paper", "lay_paper", "paper_path", "set_paper", "set_picture"]
