"""Find the distinct units of a set of blocks, in sewing order, and how they sit in each other.

Parts that are the same after a turn are one unit: a maker sews them as one batch and turns some. Mirrored twins are
two units, but for those that one batch gives as many of as of the other. Parts with a directional fabric are never
turned, so each way round is a unit of its own.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from typing import Final, Literal

from seamleaf.lengths import Length
from seamleaf.planning.frames import Frame
from seamleaf.planning.piecing.rounds import Rounds, sew_around, sew_ring
from seamleaf.planning.piecing.shapes import (
    Face,
    SeamDraft,
    corners,
    diamond_centre,
    diamond_corners,
    geese,
    half_rectangle,
    half_square,
    quarter_square,
    three_triangle,
)
from seamleaf.planning.records import Point
from seamleaf.reading.part_records import (
    Around,
    Corners,
    Diamond,
    FabricUse,
    Geese,
    HalfRectangle,
    HalfSquare,
    Join,
    Part,
    Partial,
    Patch,
    QuarterSquare,
    ThreeTriangle,
)
from seamleaf.reading.pattern import Pattern
from seamleaf.sizing.blocks import walk
from seamleaf.sizing.turning import expand, turned

_Look = tuple[FabricUse, frozenset[Point]]
"""A patch as it is seen: its fabric and its corners."""
_WORDS: Final = ("row", "rows")
"""What the format says of seams that belong to no unit; a block of that name is numbered like any other unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ref:
    """A part as it lies in its parent: a bare patch, or a unit and its turn."""

    patch: Patch | None = None
    unit: str | None = None
    turn: int = 0
    mirror: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Child:
    """One part of a unit, with the centre of its box in the unit's frame."""

    ref: Ref
    x: Length
    y: Length

    def frame(self, unit: Draft) -> Frame:
        """Return how the unit that it is lies in its parent."""
        return Frame(w=unit.w, h=unit.h, x=self.x, y=self.y, turn=self.ref.turn, mirror=self.ref.mirror)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A distinct unit, before its method, counts and labels are known. Its frame is that of its own tree, unturned."""

    id: str
    block: str | None
    tree: Part
    w: Length
    h: Length
    children: tuple[Child, ...]
    """Parts that keep their own outline: patches and units."""
    faces: tuple[Face, ...]
    """Finished outlines of the patches, those of ``children`` first."""
    seams: tuple[SeamDraft, ...]
    """Their ``first`` and ``second`` index the children and then the faces that no child stands for."""
    symmetry: int
    variant: Literal["A", "B"] | None = None
    paired: bool = False
    """Whether it is sewn with its mirror image, as which half of its copies lie."""
    lies: int = 0
    """A whole block: how the pattern draws it, in degrees clockwise from the frame."""


@dataclass(slots=True)
class Workbench:
    """Collects the units of one pattern's blocks."""

    pattern: Pattern
    pairs: frozenset[Part] = frozenset()
    """Trees whose batches give their mirror image as often; see :func:`seamleaf.planning.piecing.twins.find_pairs`."""
    drafts: dict[str, Draft] = field(default_factory=dict)
    _refs: dict[Part, Ref] = field(default_factory=dict)
    _names: dict[Part, str] = field(default_factory=dict)
    _seen: dict[str, frozenset[_Look]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for block_id in self.pattern.blocks:
            tree = self._tree(block_id)
            for turn in self._turns(tree):
                self._names.setdefault(turned(tree, turn), block_id)

    def place_block(self, block_id: str) -> Ref:
        """Return the unit of a block that is set into the quilt, sewing what it needs first."""
        tree = self._tree(block_id)
        return self._place_patch(tree, block_id) if isinstance(tree, Patch) else self._add(tree)

    def place_plain(self, use: FabricUse, w: Length, h: Length) -> Ref:
        """Return the unit of a plain block of fabric."""
        return self._place_patch(Patch(use=use, w=w, h=h, where=use.where), None)

    def reserve(self, patch: Patch) -> None:
        """Give a patch that not every size has its place in the order of labels."""
        self._place_patch(patch, None)

    def place_strip(self, name: str, strip: Join) -> None:
        """Keep a row of a name of its own, whatever other row may be like it, sewing what it needs first."""
        self._add_join(strip, name)

    def tree_of(self, block_id: str) -> Part:
        """Return a block's tree with all that it uses in place."""
        return self._tree(block_id)

    def _tree(self, block_id: str) -> Part:
        return expand(self.pattern.blocks[block_id].part, self.pattern)

    def _place_patch(self, patch: Patch, block_id: str | None) -> Ref:
        if patch not in self._refs:
            child = Child(ref=Ref(patch=patch), x=patch.w / 2, y=patch.h / 2)
            self._keep(patch, block_id, patch.w, patch.h, (child,), _patch_faces((child,)), ())
        return self._refs[patch]

    def _add(self, part: Part) -> Ref:
        if isinstance(part, Patch):
            return Ref(patch=part)
        if part not in self._refs:
            match part:
                case HalfSquare() | HalfRectangle() | ThreeTriangle() | Geese():
                    self._add_upright(part)
                case Join():
                    self._add_join(part)
                case QuarterSquare():
                    self._keep(part, None, part.w, part.h, (), *quarter_square(part))
                case Corners():
                    self._keep(part, None, part.w, part.h, (), *corners(part))
                case Diamond():
                    self._add_diamond(part)
                case Around():
                    w, h = self.size(self._add(part.centre))
                    self._add_rounds(part, sew_around(part, w, h))
                case Partial():
                    self._add_rounds(part, sew_ring(part, self.size(self._add(part.centre))[0]))
                case _:
                    raise AssertionError("check_pattern refuses other parts")
        return self._refs[part]

    def _add_upright(self, part: HalfSquare | HalfRectangle | ThreeTriangle | Geese) -> None:
        """Draw what is drawn one way round, whichever way the pattern meets it first."""
        lying = part.point in ("left", "right") if isinstance(part, Geese) else part.turn in (90, 270)
        w, h = (part.h, part.w) if lying else (part.w, part.h)
        match part:
            case HalfSquare():
                upright = replace(part, turn=0)
                self._keep(upright, None, w, h, (), *half_square(upright))
            case HalfRectangle():
                rising = replace(part, turn=0, w=w, h=h)
                self._keep(rising, None, w, h, (), *half_rectangle(rising))
            case ThreeTriangle():
                whole = replace(part, turn=0)
                self._keep(whole, None, w, h, (), *three_triangle(whole))
            case Geese():
                flying = replace(part, point="up", w=w, h=h)
                self._keep(flying, None, w, h, (), *geese(flying))

    def _add_join(self, part: Join, name: str | None = None) -> None:
        refs = [self._add(each) for each in part.parts]
        children: list[Child] = []
        seams: list[SeamDraft] = []
        zero, at, across = Length(0), Length(0), Length(0)
        for index, ref in enumerate(refs):
            w, h = self.size(ref)
            length, across = (w, h) if part.axis == "row" else (h, w)
            if index:
                ends = ((at, zero), (at, across)) if part.axis == "row" else ((zero, at), (across, at))
                toward = (Length(1), zero) if part.axis == "row" else (zero, Length(1))
                axis: Literal["x", "y"] = "x" if part.axis == "row" else "y"
                seams.append(SeamDraft(axis=axis, line=ends, first=index - 1, second=index, toward=toward))
            x, y = (at + length / 2, across / 2) if part.axis == "row" else (across / 2, at + length / 2)
            children.append(Child(ref=ref, x=x, y=y))
            at = at + length
        w, h = (at, across) if part.axis == "row" else (across, at)
        faces = _patch_faces(tuple(children))
        if name is None:
            self._keep(part, None, w, h, tuple(children), faces, tuple(seams))
        else:
            draft = Draft(
                id=name,
                block=None,
                tree=part,
                w=w,
                h=h,
                children=tuple(children),
                faces=faces,
                seams=tuple(seams),
                symmetry=360,
            )
            turns = self._turns(part)
            self.drafts[name] = replace(draft, symmetry=self._symmetry(draft)) if len(turns) > 1 else draft

    def _add_diamond(self, part: Diamond) -> None:
        middle = (part.w / 2, part.h / 2)
        faces, seams = diamond_corners(part)
        if isinstance(part.centre, FabricUse):
            side = part.w.times_root2() / 2
            ref = Ref(patch=Patch(use=part.centre, w=side, h=side, where=part.where), turn=45)
            faces = (Face(use=part.centre, outline=diamond_centre(part)), *faces)
        else:
            inner = self._add(part.centre)
            ref = replace(inner, turn=inner.turn + 45)
        child = Child(ref=ref, x=middle[0], y=middle[1])
        self._keep(part, None, part.w, part.h, (child,), faces, seams)

    def _add_rounds(self, part: Around | Partial, rounds: Rounds) -> None:
        laid = [(self._add(part.centre), rounds.centre), *((Ref(patch=patch), at) for patch, at in rounds.patches)]
        children = tuple(Child(ref=ref, x=at.x + at.w / 2, y=at.y + at.h / 2) for ref, at in laid)
        self._keep(part, None, rounds.w, rounds.h, children, _patch_faces(children), rounds.seams)

    def _keep(
        self,
        tree: Part,
        block: str | None,
        w: Length,
        h: Length,
        children: tuple[Child, ...],
        faces: tuple[Face, ...],
        seams: tuple[SeamDraft, ...],
    ) -> None:
        block = block or self._names.get(tree)
        if block in self.drafts:
            block = None
        unit_id = block
        if unit_id is None or unit_id in _WORDS:
            letter = "P" if isinstance(tree, Patch) else "U"
            unit_id = f"{letter}{1 + sum(id_[0] == letter and id_[1:].isdigit() for id_ in self.drafts)}"
        turns = self._turns(tree)
        draft = Draft(
            id=unit_id,
            block=block,
            tree=tree,
            w=w,
            h=h,
            children=children,
            faces=faces,
            seams=seams,
            symmetry=360,
            paired=tree in self.pairs,
            lies=next((turn for turn in turns if block and turned(tree, turn) == self._tree(block)), 0),
        )
        self.drafts[unit_id] = draft
        if len(turns) > 1:
            self.drafts[unit_id] = replace(draft, symmetry=self._symmetry(draft))
        for turn in turns:
            self._refs.setdefault(turned(tree, turn), Ref(unit=unit_id, turn=turn))
        for turn in turns if draft.paired else ():
            self._refs.setdefault(turned(tree, turn, mirror=True), Ref(unit=unit_id, turn=turn, mirror=True))

    def size(self, ref: Ref) -> tuple[Length, Length]:
        """Return the finished width and height of a part as it lies."""
        if ref.patch:
            return ref.patch.w, ref.patch.h
        draft = self.drafts[ref.unit or ""]
        return (draft.h, draft.w) if ref.turn in (90, 270) else (draft.w, draft.h)

    def _symmetry(self, draft: Draft) -> int:
        """Return the smallest turn after which every fabric lies where it lay; how it is sewn does not count."""
        looks = self._looks(draft)
        for turn in (90, 180):
            if turn == 180 or draft.w == draft.h:
                frame = Frame(w=draft.w, h=draft.h, x=draft.w / 2, y=draft.h / 2, turn=turn)
                if all(_placed(look, frame) in looks for look in looks):  # as many as before: no two become one
                    return turn
        return 360

    def _looks(self, draft: Draft) -> frozenset[_Look]:
        """Return every patch of a unit as its fabric and corners, in the unit's frame."""
        if draft.id not in self._seen:
            looks = {(face.use, frozenset(face.outline)) for face in draft.faces}
            for child in draft.children:
                if child.ref.unit:
                    inner = self.drafts[child.ref.unit]
                    frame = child.frame(inner)
                    looks |= {_placed(look, frame) for look in self._looks(inner)}
            self._seen[draft.id] = frozenset(looks)
        return self._seen[draft.id]

    def _turns(self, tree: Part) -> tuple[int, ...]:
        """Return the turns under which a tree is one unit: none but its own if a rectangle of it has a direction."""
        rectangles: list[FabricUse] = []
        walk(tree, lambda part: rectangles.extend(_rectangles(part)))
        return (0,) if any(self.pattern.fabrics[use.fabric].directional for use in rectangles) else (0, 90, 180, 270)


def _placed(look: _Look, frame: Frame) -> _Look:
    use, corners = look
    return use, frozenset(map(frame.point, corners))


def _rectangles(part: Part) -> tuple[FabricUse, ...]:
    """Return the fabrics of the rectangles that a part names itself; triangles of squares have no direction anyhow."""
    match part:
        case Patch():
            return (part.use,)
        case Corners():
            return (part.base,)
        case Around():
            return tuple(log.use for log in part.logs)
        case Partial():
            return (part.ring.use,)
        case Diamond(centre=FabricUse() as centre):
            return (centre,)
        case _:
            return ()


def copies_in(block: str, drafts: dict[str, Draft]) -> Counter[str]:
    """Count the units in one copy of a block, itself among them."""
    total: Counter[str] = Counter({block: 1})
    for child in drafts[block].children:
        if child.ref.unit:
            total.update(copies_in(child.ref.unit, drafts))
    return total


def _patch_faces(children: tuple[Child, ...]) -> tuple[Face, ...]:
    faces: list[Face] = []
    for child in children:
        if child.ref.patch:
            w, h = child.ref.patch.w / 2, child.ref.patch.h / 2
            corners = ((-w, -h), (w, -h), (w, h), (-w, h))
            outline = tuple((child.x + dx, child.y + dy) for dx, dy in corners)
            faces.append(Face(use=child.ref.patch.use, outline=outline))
    return tuple(faces)
