"""What a figure is, before and after it becomes SVG, and the desk on which all figures of a booklet are drawn."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final

from seamleaf.booklet.prints import print_roles
from seamleaf.booklet.record import Booklet, Seam, Unit
from seamleaf.booklet.titles import with_backing_called
from seamleaf.drawing.looks import Look, looks_of
from seamleaf.drawing.measures import box_text, size_text, with_unit
from seamleaf.drawing.regions import Flat, Piece, motion_of, spots_of
from seamleaf.drawing.scene import Scene, Spot
from seamleaf.drawing.svg import write_svg
from seamleaf.drawing.wording import say
from seamleaf.lengths import Length

MOST_ELEMENTS: Final = {**dict.fromkeys(("quilt", "grey", "lines", "bed", "cover"), 20_000), "row": 1000}
"""Elements of a picture, by kind, beyond which its patches of one ink are one: with 150,000 of them a browser takes
many seconds to show a quilt, and the paper engine gigabytes to set it; and there may be fifty rows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One finished figure."""

    id: str
    """Stable stem for a file, unique in a booklet: ``step-U3``, ``row-2``."""
    svg: str
    title: str
    """Alternative text: a sentence that says what to do."""
    desc: str
    """What can be seen, in more words; may be empty."""
    kind: str
    """Family: key, legend, cut, step, block, row, centre, layout, border, quilt, lines, backing, binding, gauge."""
    about: dict[str, str]
    """What it shows: ``unit``, ``sheet`` (index into cutting), ``fabric``, ``row``, ``border`` (its order)."""
    width: float
    """In points, as printed."""
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """A figure as a scene, before it is written as SVG."""

    id: str
    kind: str
    title: str
    scene: Scene
    desc: str = ""
    about: dict[str, str] = field(default_factory=dict)


def _untitled(booklet: Booklet) -> Booklet:
    pattern = replace(booklet.pattern, title="", version="", designer="", summary="")
    return replace(booklet, pattern=pattern, size=replace(booklet.size, title=""))


Use = tuple[str, int | None]
"""A fabric and, for a bundle, its print role."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A unit mirrored and turned about its own centre, in units of length."""

    outline: tuple[Spot, ...]
    patches: tuple[tuple[Use, tuple[Spot, ...]], ...]


class Desk:
    """A booklet looked up by id and label, with its looks and its units laid flat.

    It has no titles but in ``names``: what does not ask for those is the same whatever they are.
    """

    def __init__(self, booklet: Booklet) -> None:
        self.names = {"pattern": booklet.pattern.title, "size": booklet.size.title}
        self.booklet = booklet = _untitled(with_backing_called(booklet, say("fabrics.backing")))
        self.units: dict[str, Unit] = {unit.id: unit for unit in booklet.units}
        self.patches = {patch.label: patch for patch in booklet.patches}
        self.fabrics = {fabric.id: fabric for fabric in booklet.fabrics}
        self.seams: dict[str, Seam] = {seam.id: seam for seam in booklet.seams}
        self.looks = looks_of(booklet)
        self.roles = print_roles(booklet)
        self._flat = Flat(self.units)
        self._laid: dict[tuple[str, int, bool], Laid] = {}
        self._said: dict[tuple[Length, Length], str] = {}

    def box_text(self, w: Length, h: Length) -> str:
        """Return a width and height without the unit; a sheet shows few of them, each many times."""
        said = self._said.get((w, h))
        if said is None:
            said = self._said[w, h] = box_text(self.booklet, w, h, unit=False)
        return said

    def pieces(self, unit_id: str) -> tuple[Piece, ...]:
        """Return the patches that a unit shows, in its frame."""
        return self._flat.pieces(unit_id)

    def laid(self, unit_id: str, turn: int, mirror: bool) -> Laid:
        """Return a unit as it lies at places of this turn, about its own centre."""
        key = (unit_id, turn, mirror)
        done = self._laid.get(key)
        if done is None:
            done = self._laid[key] = self._lay(*key)
        return done

    def _lay(self, unit_id: str, turn: int, mirror: bool) -> Laid:
        unit = self.units[unit_id]
        a, b, c, d, e, f = motion_of(unit.finished, turn=turn, mirror=mirror).floats()

        def move(spots: tuple[Spot, ...]) -> tuple[Spot, ...]:
            return tuple((a * x + c * y + e, b * x + d * y + f) for x, y in spots)

        patches = tuple(((p.fabric, p.print), move(p.spots)) for p in self.pieces(unit_id))
        return Laid(outline=move(spots_of(unit.outline)), patches=patches)

    def look(self, fabric: str, print_role: int | None) -> Look:
        """Return the look of a fabric or of one print role of it."""
        found = self.looks.get((fabric, print_role))
        return found if found is not None else self.looks[fabric, None]

    def look_of(self, label: str) -> Look:
        """Return the look of a patch by its label."""
        patch = self.patches[label]
        return self.look(patch.fabric, patch.print)

    def cut_size(self, label: str) -> str:
        """Return the cut size of a patch, without unit: ``2½ × 4½``."""
        patch = self.patches[label]
        return box_text(self.booklet, patch.w, patch.h, unit=False)

    def seams_of(self, unit: Unit) -> tuple[Seam, ...]:
        """Return the seams of a unit in sewing order."""
        return tuple(self.seams[seam_id] for seam_id in unit.seams)

    def allowance(self) -> str:
        """Return the seam allowance with its unit."""
        return with_unit(self.booklet, size_text(self.booklet, self.booklet.seam))

    def finish(self, sketch: Sketch) -> Figure:
        """Write a sketch as SVG."""
        prefix = f"{self.booklet.pattern.id}-{self.booklet.size.id}-{sketch.id}"
        return Figure(
            id=sketch.id,
            svg=write_svg(
                sketch.scene, prefix=prefix, title=sketch.title, desc=sketch.desc, most=MOST_ELEMENTS.get(sketch.kind)
            ),
            title=sketch.title,
            desc=sketch.desc,
            kind=sketch.kind,
            about=dict(sketch.about),
            width=sketch.scene.w,
            height=sketch.scene.h,
        )
