"""Whatever bytes stand in a file, reading answers with problems at places in it, never with a traceback."""

from __future__ import annotations

from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import example, given, settings

from effort import tries
from pattern_text import pattern_text
from seamleaf.reading import Pattern, Reading, read_pattern
from seamleaf.reading import source as source_module
from seamleaf.reading.part_records import Part, UseBlock
from seamleaf.reading.pattern import Block
from seamleaf.reading.uses import MAX_PARTS, inner_parts, own_fabrics

DEMO = (Path(__file__).parents[2] / "patterns" / "lamplight-crossing.yaml").read_bytes()

# What YAML and the grammar of patterns are made of, with everything that is refused.
SNIPPETS = [
    b"&a ", b"*a", b"!!str ", b"!x ", b"!<a,b> ", b"<<: ", b"? ", b": ", b"- ", b"[", b"]", b"{", b"}", b",", b"#",
    b"|", b">", b"|2\n", b">-3#\n", b"'", b'"', b"%", b"@", b"`", b"\t", b"\r", b"\n", b"\n\n", b"\0", b"\x85",
    b"\xc2\x85", b"\xe2\x80\xa8", b"\xef\xbb\xbf", b"---\n", b"...\n", b"%YAML 1.2\n", b"%TAG ! x:\n", b"\\",
    b'"\\ud800"', b'"\\0"', b'"\\Uffffffff"', b"\xff", b"\xf0\x9f\x98\x80", b" ", b"  ", b"::", b"~", b"=", b"a:b",
    b"title: again\n", b"{use: star}", b"{use: crossing}", b"star.3 2 x 2", b"x", b"2 1/2", b"-1", b"9" * 30, b"1/0",
    b"row: ", b"column: ", b"grid: [AB]", b"around: ", b"diamond: ", b"finished: ", b"[[[[", b"null", b"cover: ",
]  # fmt: skip


@st.composite
def mutated_patterns(draw: st.DrawFn) -> bytes:
    """Draw a pattern file with a few snippets put in and a few bytes taken out."""
    data = bytearray(draw(st.sampled_from([DEMO, pattern_text().encode(), b""])))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(data)))
        if draw(st.booleans()):
            data[at:at] = draw(st.sampled_from(SNIPPETS))
        else:
            del data[at : at + draw(st.integers(1, 30))]
    return bytes(data)


def check(reading: Reading, data: bytes) -> None:
    """Check that a reading is either clean or says what is wrong, at places that the file has."""
    text = data.decode("utf-8", errors="surrogateescape")  # one column for each byte that is not UTF-8
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    lines = text.removeprefix("\ufeff").split("\n")
    assert reading.pattern is not None or reading.problems
    assert list(reading.problems) == sorted(set(reading.problems))
    for problem in reading.problems:
        sentence = problem.sentence("pattern.yaml")
        assert sentence.isprintable()
        assert 1 <= problem.where.line <= len(lines) + 1
        line = lines[problem.where.line - 1] if problem.where.line <= len(lines) else ""
        assert 1 <= problem.where.column <= len(line) + 1
    if reading.pattern is not None:
        check_pattern(reading.pattern)


def check_pattern(pattern: Pattern) -> None:
    """Check that what was understood holds together, so that later layers need not look again."""
    assert pattern.fabrics
    assert pattern.sizes
    assert {id_: fabric.id for id_, fabric in pattern.fabrics.items()} == {id_: id_ for id_ in pattern.fabrics}
    for fabric in pattern.fabrics.values():
        assert fabric.colours
        assert fabric.is_yardage or fabric.usable[1]
    for block in pattern.blocks.values():
        check_block(block, pattern)
    tiles = [pattern.setting.blocks, pattern.setting.between or ()]
    for cell in (cell for tile in tiles for row in tile for cell in row):
        assert (cell.block is None) is not (cell.plain is None)
        assert cell.block is None or cell.block in pattern.blocks
        assert cell.plain is None or cell.plain.fabric in pattern.fabrics
    assert len({len(row) for row in pattern.setting.blocks}) == 1
    assert (pattern.setting.set == "on-point") is (pattern.setting.triangles is not None)
    for border in pattern.borders:
        assert border.fabric in pattern.fabrics
        assert (border.corner == "cornerstone") is (border.cornerstone is not None)
    for size in pattern.sizes.values():
        assert (size.blocks is None) is not (size.cover is None)
        assert size.borders is None or len(size.borders) == len(pattern.borders)
    assert all(plan.size in pattern.sizes for plan in pattern.classes.values())


def check_block(block: Block, pattern: Pattern) -> None:
    """Check that a block unfolds to known fabrics within the limits: the walk itself ends only without cycles."""
    waiting: list[tuple[Part, int]] = [(block.part, 1)]
    count = 0
    while waiting:
        part, level = waiting.pop()
        count += 1
        assert level <= 40
        assert count <= 2 * MAX_PARTS
        assert all(use.fabric in pattern.fabrics for use in own_fabrics(part))
        inner = (pattern.blocks[part.block].part,) if isinstance(part, UseBlock) else inner_parts(part)
        waiting.extend((each, level + 1) for each in inner)


@settings(deadline=None, max_examples=tries(300))
@given(st.binary(max_size=400))
@example(b"")
@example(b"\xef\xbb\xbf")
@example(b"\xff\xfet\0i\0")
@example(b"[" * 3000)
@example(b"{a: " * 3000)
@example(b"- " * 3000)
@example(b"? " * 3000)
@example(b'"\\Uffffffff"')
def test_any_bytes_are_answered(data: bytes) -> None:
    check(read_pattern(data, "pattern"), data)


@settings(deadline=None, max_examples=tries(400))
@given(mutated_patterns())
def test_any_mutation_of_a_pattern_is_answered(data: bytes) -> None:
    check(read_pattern(data, "pattern"), data)


@pytest.mark.skipif(source_module.FAST_LOADER is None, reason="PyYAML was built without libyaml")
@settings(deadline=None, max_examples=tries(400))
@given(mutated_patterns())
@example(DEMO)
@example(pattern_text(title="title: {a: Ready?}").encode())
@example(pattern_text(title="title: >#-").encode())
@example(b"!::!a b")
@example(b"---\n#")
def test_the_parser_in_pure_python_reads_the_same(data: bytes) -> None:
    fast = read_pattern(data, "pattern")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(source_module, "FAST_LOADER", None)
        plain = read_pattern(data, "pattern")

    assert plain == fast


@settings(deadline=None, max_examples=tries(60))
@given(mutated_patterns())
def test_line_ends_and_a_byte_order_mark_change_nothing(data: bytes) -> None:
    data = data.replace(b"\r", b"").replace(b"\xef\xbb\xbf", b"")
    plain = read_pattern(data, "pattern")

    assert read_pattern(data.replace(b"\n", b"\r\n"), "pattern") == plain
    assert read_pattern(data.replace(b"\n", b"\r"), "pattern") == plain
    assert read_pattern(b"\xef\xbb\xbf" + data, "pattern") == plain


def test_question_marks_and_tabs_within_lines_are_text_and_space(monkeypatch: pytest.MonkeyPatch) -> None:
    """PyYAML's own scanner in pure Python refuses both."""
    data = pattern_text(sizes="sizes: {crib: {title: Big enough?,\tblocks:\t2 x 3}}").encode()
    monkeypatch.setattr(source_module, "FAST_LOADER", None)

    reading = read_pattern(data, "pattern")

    assert reading.problems == ()
    assert reading.pattern is not None
    assert reading.pattern.sizes["crib"].title == "Big enough?"
