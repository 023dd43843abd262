"""Prove every booklet under a folder, or remember that it holds, the very same bytes having been proved before."""

from __future__ import annotations

import contextlib
from pathlib import Path
from typing import TYPE_CHECKING

from seamleaf.proof.memory import Memory, NoMemory, digest_of
from seamleaf.proof.report import BOOKLET, FILE, Finding, ProofReport, said_of, summaries_of

if TYPE_CHECKING:
    from seamleaf.proof.checks import Each


def prove(folder: Path, each: Each = map, memory: Memory | None = None) -> ProofReport:
    """Sew every published booklet under a folder again, and look up every number of the pages and PDFs beside them.

    Args:
        folder: a built site, or what holds ``<pattern>/<size>/booklet.json``.
        each: how booklets, then pages, and then PDF files, are gone through.
        memory: what was seen to hold before of the very same bytes; without it everything is looked at.

    Returns:
        All findings. A folder without a booklet is a finding, since nothing in it was proved; so is what is no file,
        and then nothing is looked at.

    """
    odd = sorted(path for path in folder.rglob("*") if path.exists() and not path.is_file() and not path.is_dir())
    if odd:  # before anything waits for what nobody writes
        findings = tuple(Finding(path.as_posix(), "", "a pipe, a socket or a device, no file", FILE) for path in odd)
        return ProofReport(findings=findings, booklets=())
    paths = sorted(path for path in folder.rglob(BOOKLET) if path.is_file())
    whole = ""
    if memory is not None and paths and all(len(path.relative_to(folder).parts) > 2 for path in paths):
        everything = sorted(path for path in folder.rglob("*") if path.is_file())
        with contextlib.suppress(OSError):  # told of by whichever check meets it
            whole = digest_of("site", everything, folder) if any(path.suffix == ".html" for path in everything) else ""
            if whole and (said := memory.recall(whole)) is not None:
                return ProofReport(findings=(), booklets=summaries_of(said, folder))
    from seamleaf.proof.checks import check_all  # late: all the checks take longer to load than to remember

    report = check_all(folder, paths, each, memory or NoMemory())
    if memory is not None and whole and report.holds:
        memory.keep(whole, said_of(report.booklets, folder))
    return report
