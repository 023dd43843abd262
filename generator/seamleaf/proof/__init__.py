"""The proof: published files to findings.

A second program, which shares nothing with the one that computes and publishes but exact lengths. It reads what was
published and cuts, sews, presses, lays out and finishes the quilt again from that alone; what does not fit is a
finding. It never looks at a pattern file.
"""

from seamleaf.proof.memory import Memory
from seamleaf.proof.prove import prove
from seamleaf.proof.report import Finding, ProofReport, Summary

__all__ = ["Finding", "Memory", "ProofReport", "Summary", "prove"]
