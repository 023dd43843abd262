"""A hunt for the errata of hand-made patterns: each is put into a good booklet and found by the check that names it."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from errata import BESIDE, ERRATA, accepted_booklets, hunt
from seamleaf.proof import Finding, prove
from spoiling import CRIB, Erratum, plus, spoilt


@pytest.mark.parametrize("erratum", ERRATA, ids=lambda erratum: erratum.number)
def test_an_erratum_is_found_by_the_check_that_names_it(
    erratum: Erratum,
    published: dict[str, bytes],
    booklet: Callable[[str], Any],
    folder: Callable[[dict[str, Any]], Path],
) -> None:
    wrong = spoilt(booklet(erratum.booklet), erratum)
    assert wrong != json.loads(published[erratum.booklet])
    pattern = erratum.booklet.split("/")[0]
    beside = {name: text for name, text in published.items() if name.startswith(f"{pattern}/")}
    others = beside if erratum.check in BESIDE else {}
    report = prove(folder({**others, erratum.booklet: wrong}))
    checks = {finding.check for finding in report.findings}
    assert erratum.check in checks, f"{erratum.says}: {report}"


def test_errata_are_found_in_every_accepted_booklet() -> None:
    """A sample, drawn by the booklet's name; ``tests/bench/errata_hunt.py`` hunts all kinds in all of them."""
    booklets = accepted_booklets()
    for name, text in booklets.items():
        kinds = random.Random(name).sample(ERRATA, max(2, 48 // len(booklets)))
        through = [erratum.number for erratum in kinds if hunt(text, erratum) is False]
        assert through == [], name


def test_at_least_forty_kinds_are_hunted() -> None:
    assert len({erratum.number for erratum in ERRATA}) == len(ERRATA) >= 40


def test_a_finding_names_file_place_and_check(
    booklet: Callable[[str], Any], folder: Callable[[dict[str, Any]], Path]
) -> None:
    wrong = booklet(CRIB)
    wrong["finished"]["w"] = "8+24*r2"
    root = folder({CRIB: wrong})
    findings = prove(root).findings
    assert (
        Finding(
            path=f"{root.as_posix()}/{CRIB}/booklet.json",
            pointer="/finished",
            message="the quilt: [8+24*r2, 7+36*r2] stated, [7+24*r2, 7+36*r2] proved",
            check="finished size",
        )
        in findings
    )
    assert str(findings[0]).startswith(f"{root.as_posix()}/{CRIB}/booklet.json:/")
    assert list(findings) == sorted(findings)


def test_keys_that_the_proof_does_not_know_are_passed_over(
    booklet: Callable[[str], Any], folder: Callable[[dict[str, Any]], Path]
) -> None:
    """More keys may be added to the format."""
    grown = booklet(CRIB)
    grown["quilting"] = {"lines": 12.5}
    grown["units"][0]["note"] = None
    assert prove(folder({CRIB: grown})).holds


def test_shown_fractions_of_the_errata_are_exact() -> None:
    """The helper that changes lengths is exact."""
    assert plus("-7-24*r2")("7+24*r2") == "0"
    assert plus("1/8")("5/2") == "21/8"
