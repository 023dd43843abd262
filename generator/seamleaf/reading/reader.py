"""The whole file: each section by its own reader, every problem collected, the pattern put together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from seamleaf.lengths import Length, Measures, measures_of
from seamleaf.lengths.rounding import UnitName
from seamleaf.reading import keys
from seamleaf.reading.defaults import defaults_for
from seamleaf.reading.fabrics import FabricReader
from seamleaf.reading.fields import Fields, open_entries, open_fields
from seamleaf.reading.finishing import FinishingReader
from seamleaf.reading.marks import Mark
from seamleaf.reading.names import Names, check_name, is_slug
from seamleaf.reading.nodes import Mapping, Node, Sequence
from seamleaf.reading.paces import read_paces
from seamleaf.reading.parts import PartReader
from seamleaf.reading.pattern import Block, Pattern, Setting
from seamleaf.reading.problems import Problem, Report
from seamleaf.reading.scalars import Scalars
from seamleaf.reading.setting import SettingReader
from seamleaf.reading.sizes import SizeReader
from seamleaf.reading.source import read_source
from seamleaf.reading.stated import StatedReader
from seamleaf.reading.uses import break_cycles, check_prints, limit_trees
from seamleaf.reading.wording import found, quoted

_FIRST: Final = Mark(1, 1)
_UNITS: Final[tuple[UnitName, ...]] = ("in", "cm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a file says, and what is wrong with it."""

    pattern: Pattern | None
    """The pattern; with problems, as much of it as was understood; ``None`` when a main section is missing."""
    problems: tuple[Problem, ...]
    """All problems of form, in the order of the file; a pattern without any is well formed."""


def read_pattern(text: bytes, pattern_id: str) -> Reading:
    """Read a pattern file.

    Args:
        text: the file's bytes.
        pattern_id: the file's stem, which becomes part of addresses.

    Returns:
        The pattern and all problems of form. Whether the sizes of parts fit together is not looked at here.

    """
    report = Report()
    if not is_slug(pattern_id):
        report.add(
            _FIRST,
            f"the file name {quoted(pattern_id)}",
            "a file name of a small letter, then small letters, digits or hyphens, at most 40 in all",
        )
    root = read_source(text, report)
    pattern = None if root is None else _pattern(root, pattern_id, report)
    return Reading(pattern=pattern, problems=report.sorted())


def _pattern(root: Mapping, pattern_id: str, report: Report) -> Pattern | None:
    fields = open_fields(root, _FIRST, keys.PATTERN, report)
    measures = _measures(fields, report)
    defaults = defaults_for(measures)
    scalars = Scalars(measures, report)

    fabric_reader = FabricReader(scalars, defaults, report)
    fabrics = fabric_reader.fabrics(fields["fabrics"])
    block_entries = open_entries(fields["blocks"], "blocks by their short names, each a part", report)
    names = Names(fabrics or None, fabric_reader.unclear, [entry.key.text for entry in block_entries] or None, report)

    part_reader = PartReader(names, scalars, report)
    blocks: dict[str, Block] = {}
    for entry in block_entries:
        check_name(entry, "a block", report)
        blocks[entry.key.text] = part_reader.block(entry)
    blocks = limit_trees(break_cycles(blocks, part_reader.uses, report), report)

    setting = SettingReader(names, scalars, defaults, report).setting(fields["setting"], fields.key("setting"))
    if not names.guessed and fabrics:
        check_prints(blocks, _placed(setting), report)

    finishing = FinishingReader(fields, names, scalars, defaults, report)
    borders, binding, backing = finishing.borders(), finishing.binding(), finishing.backing()
    batting_extra = finishing.batting_extra()

    size_reader = SizeReader(setting, _border_count(fields["borders"]), names, scalars, report)
    sizes = size_reader.sizes(fields["sizes"])
    classes = size_reader.classes(fields["classes"], _ids(fields["sizes"]))

    classes = {id_: plan for id_, plan in classes.items() if plan.size in sizes}

    title = scalars.title(fields["title"], pattern_id)
    version = scalars.title(fields["version"], "0", "a version")
    designer = scalars.title(fields["designer"], "", "the designer's name")
    summary = scalars.paragraph(fields["summary"], "")
    skill = scalars.title(fields["skill"], "", "a skill level")
    versions = {
        entry.key.text: scalars.paragraph(entry.value, "")
        for entry in open_entries(fields["versions"], "versions, each with what it corrects", report)
    }
    stated = StatedReader(names, _ids(fields["sizes"]), scalars, report).stated(fields["stated"])
    paces = read_paces(fields["pace"], fields.key("pace"), scalars, report)
    seam = _seam(fields["seam"], defaults.seam, scalars, report)
    if not fabrics or not blocks or setting is None or not sizes:
        return None
    return Pattern(
        id=pattern_id,
        title=title,
        version=version,
        designer=designer,
        summary=summary,
        skill=skill,
        measures=measures,
        seam=seam,
        fabrics=fabrics,
        blocks=blocks,
        setting=setting,
        borders=borders,
        binding=binding,
        backing=backing,
        batting_extra=batting_extra,
        sizes=sizes,
        classes=classes,
        paces=paces,
        versions=versions,
        stated=stated,
        version_where=fields.key("version"),
    )


def _measures(fields: Fields, report: Report) -> Measures:
    """Read the unit, which decides how every other number is read."""
    inches = measures_of("in")
    return measures_of(Scalars(inches, report).choice(fields["unit"], _UNITS) or "in")


def _seam(node: Node | None, default: Length, scalars: Scalars, report: Report) -> Length:
    """Read the seam allowance: over 0 and up to 1 in."""
    seam = scalars.length(node, default)
    if node is not None and seam > scalars.measures.inch:
        most = "1 in" if scalars.measures.unit == "in" else "2.54 cm (1 in)"
        report.add(node.where, f"{found(node)} as the seam allowance", f"over 0 and up to {most}")
        return default
    return seam


def _placed(setting: Setting | None) -> set[str]:
    tiles = () if setting is None else (setting.blocks, setting.between or ())
    return {cell.block for tile in tiles for row in tile for cell in row if cell.block is not None}


def _border_count(node: Node | None) -> int | None:
    if node is None:
        return 0
    return len(node.items) if isinstance(node, Sequence) and node.items else None


def _ids(node: Node | None) -> tuple[str, ...]:
    return tuple(entry.key.text for entry in node.entries) if isinstance(node, Mapping) else ()
