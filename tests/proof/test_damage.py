"""Damaged files: a finding each, never a crash and never a long wait."""

from __future__ import annotations

import json
import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from effort import tries
from seamleaf.proof import Finding, prove
from spoiling import CRIB, SASHED, WAYS, at

Proof = Callable[[bytes], list[Finding]]
Publish = Callable[[dict[str, Any]], Path]

values = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(-(10**12), 10**12),
        st.integers(-3, 3),
        st.floats(allow_nan=False, allow_infinity=False),
        st.text(max_size=6),
        st.sampled_from(["0", "1", "-1", "1/3", "7/97", "0+1*r2", "-5-7/8*r2", "1" * 100]),
        st.sampled_from(["crossing", "U1", "A1", "d", "spin"]),
    ),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3),
    max_leaves=6,
)


def places_of(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Return the path of every value inside a value."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(each for key, item in inner for each in places_of(item, (*path, key)))]


@pytest.mark.parametrize("name", [CRIB, WAYS, SASHED])
@settings(max_examples=tries(16), deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_any_value_anywhere_gives_findings_or_none_and_no_crash(
    booklet: Callable[[str], Any], findings_of: Proof, name: str, data: st.DataObject
) -> None:
    spoilt = booklet(name)
    for _ in range(data.draw(st.integers(1, 3))):
        *path, key = data.draw(st.sampled_from(places_of(spoilt)[1:]))
        holder = spoilt
        for step in path:
            holder = holder[step]
        change = data.draw(st.sampled_from(["put", "drop", "copy"]))
        if change == "put":
            holder[key] = data.draw(values)
        elif change == "drop":
            del holder[key]
        else:
            holder[key] = json.loads(json.dumps(at(spoilt, data.draw(st.sampled_from(sorted(spoilt))))))
    findings_of(json.dumps(spoilt).encode())


@settings(max_examples=tries(30), deadline=None, suppress_health_check=list(HealthCheck))
@given(content=st.one_of(st.binary(max_size=60), values.map(json.dumps).map(str.encode)))
def test_what_is_no_booklet_is_a_finding(findings_of: Proof, content: bytes) -> None:
    assert findings_of(content)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "not JSON at line 1, column 1"),
        (b"\xff\xfe{}", "not UTF-8 at byte 0"),
        (b"{}", "the key 'format' is missing"),
        (b"[" * 100_000, "nested too deep"),
        (b'{"unit": "in", "unit": "cm"}', "the key 'unit' stands twice"),
        (b'{"seam": NaN}', "NaN is no JSON"),
        (b"1" * 5000, "too large"),
        (b"null", "null where a booklet is expected"),
        (b'"text"', "stands where an object is expected"),
    ],
)
def test_what_is_wrong_with_a_file_is_said(findings_of: Proof, content: bytes, says: str) -> None:
    assert any(says in finding.message for finding in findings_of(content)), findings_of(content)


def test_a_triangle_that_lost_a_corner_is_a_finding(booklet: Callable[[str], Any], findings_of: Proof) -> None:
    spoilt = booklet(WAYS)
    unit = next(each for each in spoilt["units"] if (each["how"], each["method"]) == ("three-triangle", "two"))
    for region in unit["regions"]:
        del region["outline"][2]
    assert any(finding.check == "outline" for finding in findings_of(json.dumps(spoilt).encode()))


def test_every_fault_of_form_is_listed(booklet: Callable[[str], Any], findings_of: Proof) -> None:
    spoilt = booklet(CRIB)
    spoilt["patches"][3]["w"] = "2.5"
    spoilt["units"][0]["count"] = 1.5
    spoilt["seams"][1]["press"] = "sideways"
    del spoilt["binding"]["strips"]
    found = {finding.pointer: finding.message for finding in findings_of(json.dumps(spoilt).encode())}
    assert set(found) == {"/patches/3/w", "/units/0/count", "/seams/1/press", "/binding"}
    assert "'2.5' is not an exact length" in found["/patches/3/w"]
    assert '"sideways" stands where before or after or open or spin is expected' in found["/seams/1/press"]


def test_trees_that_double_at_every_step_are_refused_at_once(booklet: Callable[[str], Any], findings_of: Proof) -> None:
    """Sixty units that each take the one before twice have more seams than there is time."""
    spoilt = booklet(CRIB)
    last = next(unit for unit in spoilt["units"] if unit["id"] == "crossing")
    for number in range(60):
        below = spoilt["units"][-1] if number else last
        unit = json.loads(json.dumps(last))
        unit["id"] = f"D{number}"
        unit["seams"] = []
        take = {**last["from"][0], "unit": below["id"], "label": None}
        unit["from"] = [take, take]
        spoilt["units"].append(unit)
    begun = time.process_time()  # of this process: a busy machine is no fault
    assert findings_of(json.dumps(spoilt).encode())
    assert time.process_time() - begun < 10


def test_numbers_and_names_that_would_take_for_ever_are_refused(
    booklet: Callable[[str], Any], findings_of: Proof
) -> None:
    spoilt = booklet(CRIB)
    spoilt["cutting"][0]["times"] = 10**9
    spoilt["fabrics"][1]["need"] = 10**9
    spoilt["cutting"][10]["times"] = 10**9
    spoilt["patches"][3]["w"] = "1/" + "9" * 110
    spoilt["classes"] = [{"id": "a", "title": "A", "students": 10**9, "kits": 10**9, "sheets": []}]
    begun = time.process_time()
    assert findings_of(json.dumps(spoilt).encode())
    assert time.process_time() - begun < 10


def test_a_unit_that_takes_itself_is_a_finding(booklet: Callable[[str], Any], findings_of: Proof) -> None:
    spoilt = booklet(CRIB)
    unit = at(spoilt["units"], "U2")
    unit["from"][1]["unit"] = "U2"
    assert {finding.check for finding in findings_of(json.dumps(spoilt).encode())} == {"sewing order"}


# ------------------------------------------------------------------------------------------- folders


def test_a_folder_without_a_booklet_proves_nothing(tmp_path: Path) -> None:
    (finding,) = prove(tmp_path).findings
    assert finding.check == "file"
    assert str(finding) == f"{tmp_path.as_posix()}:: no booklet.json here or in any folder below [file]"
    assert not prove(tmp_path / "nowhere").holds


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names here")
@pytest.mark.parametrize("name", ["page.html", "crib.pdf", "booklet.json"])
def test_nobody_waits_for_a_pipe(tmp_path: Path, name: str) -> None:
    (tmp_path / "pond").mkdir()
    os.mkfifo(tmp_path / "pond" / name)
    (found,) = prove(tmp_path).findings
    assert (Path(found.path).name, found.check) == (name, "file")


def test_one_damaged_file_does_not_keep_the_others_from_their_proof(
    published: dict[str, bytes], folder: Publish
) -> None:
    root = folder({CRIB: published[CRIB], "lamplight-crossing/throw": b"{"})
    report = prove(root)
    assert [finding.path for finding in report.findings] == [f"{root.as_posix()}/lamplight-crossing/throw/booklet.json"]
    assert [summary.size for summary in report.booklets] == ["crib"]


def test_a_file_that_may_not_be_read_is_a_finding(
    published: dict[str, bytes], folder: Publish, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(path))

    root = folder({CRIB: published[CRIB]})
    monkeypatch.setattr(Path, "read_bytes", refuse)
    (finding,) = prove(root).findings
    assert finding.message == "cannot be read: Permission denied"


def test_paths_are_given_as_the_folder_was(
    published: dict[str, bytes], folder: Publish, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = folder({CRIB: published[CRIB]})
    monkeypatch.chdir(root)
    (summary,) = prove(Path("lamplight-crossing")).booklets
    assert summary.path == "lamplight-crossing/crib/booklet.json"
