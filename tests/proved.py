"""What the proof finds in one booklet, without a file."""

from __future__ import annotations

from seamleaf.proof.checks import prove_booklet
from seamleaf.proof.reading import as_booklet, read_json
from seamleaf.proof.report import Finding, Findings


def findings_in(content: str | bytes) -> list[Finding]:
    """Return the findings of the proof in the text of a booklet."""
    findings = Findings("booklet.json")
    value = read_json(content.encode() if isinstance(content, str) else content, findings)
    booklet = None if value is None else as_booklet(value, findings)
    if booklet is not None:
        prove_booklet(booklet, findings)
    return findings.found
