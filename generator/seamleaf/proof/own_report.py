"""The page that reports what was proved of a size: it counts as the proof does, and names the booklet beside it."""

from __future__ import annotations

import hashlib
import re
from pathlib import Path
from typing import Final

from seamleaf.proof.record import Booklet
from seamleaf.proof.report import Findings, Summary

REPORT: Final = "report of the proof"
_PAGE: Final = "proof/index.html"
_SAID: Final = re.compile(r'<(\w+) [^>]*?data-proved="?([\w-]+)"?[^>]*>(.*?)</\1>', re.DOTALL)
_TAG: Final = re.compile(r"<[^>]+>")
_BESIDE: Final = {"pages": ("index.html", "*/index.html"), "figures": ("figures/*.svg",), "papers": ("*.pdf",)}
"""What is read beside a booklet; an author may put more there than the report knows of."""


def check_report(booklet: Booklet, summary: Summary, path: Path) -> Findings:
    """Look at the report beside ``path``, the booklet's file; a folder without a report says nothing of a proof."""
    folder = path.parent
    findings = Findings((folder / _PAGE).as_posix())
    try:
        page = (folder / _PAGE).read_text(encoding="utf-8")
        digest = hashlib.sha256(path.read_bytes()).hexdigest()
    except (OSError, UnicodeDecodeError):
        return findings  # a page that cannot be read is told of with the other pages
    said = {key: "".join(_TAG.sub("", text).split()) for _, key, text in _SAID.findall(page)}
    counted = {
        "sheets": summary.sheets,
        "patches": summary.patches,
        "units": summary.units,
        "blocks": summary.blocks,
        "points": summary.match_points,
        "borders": sum(len(border.strips) for border in booklet.borders),
        "stops": len(booklet.gates),
        "purchases": len(booklet.fabrics),
    }
    needed = {key: str(count) for key, count in counted.items() if count} | {"digest": digest}
    for key, real in needed.items():
        findings.expect_equal(said.get(key), real, REPORT, "", key)
    for key, forms in _BESIDE.items():
        beside = sum(1 for form in forms for _ in folder.glob(form))
        text = said.get(key, "0")
        good = text.isascii() and text.isdigit() and int(text[:9]) <= beside
        findings.expect(good, REPORT, "", f"{key}: {text} stated, {beside} read")
    for key in sorted(said.keys() - needed.keys() - _BESIDE.keys()):
        findings.add(REPORT, "", f"{key}: {said[key]} stated, nothing proved")
    return findings
