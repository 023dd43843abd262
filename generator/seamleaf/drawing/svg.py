"""The one serialiser: a scene to SVG text.

Only path, rect, polygon, line, circle, g, text, title and desc are written, with presentation attributes alone, so that
browsers, the paper engine and plain SVG converters all draw the same. Attributes are sorted and numbers are rounded
here, once, to two decimals: the same scene gives the same bytes everywhere.
"""

from __future__ import annotations

import functools
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from seamleaf.drawing.scene import Group, Ink, Scene, Spot, Step, Text

FONTS: Final = "DejaVu Sans, Verdana, sans-serif"


@functools.lru_cache(maxsize=1 << 16)
def number(value: float) -> str:
    """Write a coordinate: at most two decimals, no trailing zeros, never a negative zero.

    >>> [number(v) for v in (12, 0.5, 2.006, -0.001)]
    ['12', '0.5', '2.01', '0']
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


class SvgPen:
    """Writes the elements of one figure."""

    def __init__(self) -> None:
        self.lines: list[str] = []
        self._depth = 1
        self._inks: dict[Ink, dict[str, str]] = {}
        # Blocks repeat all over a quilt and share their paths' steps: each is written out once.
        self._paths: dict[int, str] = {}
        self._points: dict[int, str] = {}

    def _element(self, name: str, attributes: dict[str, str], ink: Ink) -> None:
        painted = self._inks.get(ink)
        if painted is None:
            painted = self._inks[ink] = _paint(ink)
        merged = attributes | painted
        written = " ".join(f'{key}="{merged[key]}"' for key in sorted(merged))
        self.lines.append(f"{' ' * self._depth}<{name} {written}/>")

    def written(self) -> list[str]:
        """Return all lines."""
        return self.lines

    def path(self, steps: tuple[Step, ...], ink: Ink) -> None:
        """Write a path element."""
        text = self._paths.get(id(steps))
        if text is None:
            text = self._paths[id(steps)] = " ".join([_command(*step) for step in steps])
        self._element("path", {"d": text}, ink)

    def polygon(self, points: tuple[Spot, ...], ink: Ink) -> None:
        """Write a polygon element."""
        text = self._points.get(id(points))
        if text is None:
            text = self._points[id(points)] = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self._element("polygon", {"points": text}, ink)

    def rect(self, x: float, y: float, w: float, h: float, corner: float, ink: Ink) -> None:
        """Write a rect element."""
        place = {"x": number(x), "y": number(y), "width": number(w), "height": number(h)}
        self._element("rect", place | ({"rx": number(corner)} if corner else {}), ink)

    def line(self, start: Spot, end: Spot, ink: Ink) -> None:
        """Write a line element."""
        (x1, y1), (x2, y2) = start, end
        self._element("line", {"x1": number(x1), "y1": number(y1), "x2": number(x2), "y2": number(y2)}, ink)

    def circle(self, centre: Spot, radius: float, ink: Ink) -> None:
        """Write a circle element."""
        self._element("circle", {"cx": number(centre[0]), "cy": number(centre[1]), "r": number(radius)}, ink)

    def text(self, text: Text) -> None:
        """Write a text element."""
        attributes = {
            "fill": text.colour, "font-family": FONTS, "font-size": number(text.size), "text-anchor": text.anchor,
            "x": number(text.x), "y": number(text.y),
        }  # fmt: skip
        if text.bold:
            attributes["font-weight"] = "bold"
        if text.turned:
            attributes["transform"] = f"rotate(-90 {number(text.x)} {number(text.y)})"
        written = " ".join(f'{key}="{attributes[key]}"' for key in sorted(attributes))
        self.lines.append(f"{' ' * self._depth}<text {written}>{escape(text.text)}</text>")

    def open_group(self, group: Group) -> None:
        """Begin a g element."""
        shifted = f' transform="translate({number(group.dx)} {number(group.dy)})"' if group.dx or group.dy else ""
        self.lines.append(f"{' ' * self._depth}<g{shifted}>")
        self._depth += 1

    def close_group(self) -> None:
        """End a g element."""
        self._depth -= 1
        self.lines.append(f"{' ' * self._depth}</g>")


class _GatheringPen(SvgPen):
    """Writes all filled paths of one ink as one element, where the first of them stands."""

    def __init__(self) -> None:
        super().__init__()
        self._at = (0.0, 0.0)
        self._outside: list[tuple[float, float]] = []
        self._first: int | None = None
        """Where in the lines the gathered paths belong."""
        self._base, self._inside = (0.0, 0.0), 0
        self._gathered: dict[Ink, list[str]] = {}

    def path(self, steps: tuple[Step, ...], ink: Ink) -> None:
        """Keep a patch for the end; a mark that is a line alone stays over what is under it."""
        if not ink.fill:
            super().path(steps, ink)
            return
        if self._first is None:
            self._first, self._base, self._inside = len(self.lines), self._at, self._depth
        shift = (self._at[0] - self._base[0], self._at[1] - self._base[1])
        self._gathered.setdefault(ink, []).append(_short(steps, shift))

    def open_group(self, group: Group) -> None:
        """Begin a g element."""
        self._outside.append(self._at)
        self._at = (self._at[0] + group.dx, self._at[1] + group.dy)
        super().open_group(group)

    def close_group(self) -> None:
        """End a g element."""
        self._at = self._outside.pop()
        super().close_group()

    def written(self) -> list[str]:
        """Return all lines."""
        lines, self.lines, depth, self._depth = self.lines, [], self._depth, self._inside
        for ink, paths in self._gathered.items():
            plain = replace(ink, rounded=False)  # an engine for paper keeps several curves for each round corner
            self._element("path", {"d": "".join(paths)}, plain)
        gathered, self.lines, self._depth = self.lines, lines, depth
        first = self._first or 0
        return [*lines[:first], *gathered, *lines[first:]]


def _command(code: str, numbers: Sequence[float]) -> str:
    if len(numbers) == 2:  # nearly all of them
        return f"{code}{number(numbers[0])} {number(numbers[1])}"
    return code + " ".join(map(number, numbers))


def write_svg(scene: Scene, *, prefix: str, title: str, desc: str, most: int | None = None) -> str:
    """Return the figure as SVG text.

    Args:
        scene: what it shows.
        prefix: begins every id, so that several figures can stand in one page.
        title: alternative text, a sentence that says what to do.
        desc: what the figure shows in more words; empty for none.
        most: elements beyond which paths of one ink are gathered, in a picture whose paths do not overlap.

    """
    pen = SvgPen()
    scene.draw(pen)
    if most is not None and len(pen.lines) > most:
        pen = _GatheringPen()
        scene.draw(pen)
    w, h = number(scene.w), number(scene.h)
    labels = f"{prefix}-title {prefix}-desc" if desc else f"{prefix}-title"
    attributes = {
        "aria-labelledby": labels, "height": f"{h}pt", "role": "img", "viewBox": f"0 0 {w} {h}", "width": f"{w}pt",
        "xmlns": "http://www.w3.org/2000/svg",
    }  # fmt: skip
    head = " ".join(f"{key}={quoteattr(attributes[key])}" for key in sorted(attributes))
    words = [f' <title id="{prefix}-title">{escape(title)}</title>']
    if desc:
        words.append(f' <desc id="{prefix}-desc">{escape(desc)}</desc>')
    paper = f' <rect fill="#ffffff" height="{h}" width="{w}" x="0" y="0"/>'
    return "\n".join([f"<svg {head}>", *words, paper, *pen.written(), "</svg>", ""])


def _short(steps: Iterable[Step], shift: Spot) -> str:
    """Write a shifted path in few letters: of a line no more than how far it goes on from rounded end to rounded end.

    >>> steps = (("M", (1, 2)), ("L", (1.5, 2)), ("L", (2, 3)), ("C", (2, 4, 3, 4, 3, 5)), ("L", (3, 6)), ("Z", ()))
    >>> _short(steps, (0, 0.25))
    'M1 2.25h0.5l0.5 1C2 4.25 3 4.25 3 5.25v1Z'
    """
    written: list[str] = []
    here = begun = (0, 0)
    for code, numbers in steps:
        places = [round((value + shift[at % 2]) * 100) for at, value in enumerate(numbers)]
        before, here = here, (places[-2], places[-1]) if places else begun
        if code == "M":
            begun = here
        across, down = here[0] - before[0], here[1] - before[1]
        if code != "L":
            written.append(code + " ".join(number(place / 100) for place in places))
        elif across and down:
            written.append(f"l{number(across / 100)} {number(down / 100)}")
        else:
            written.append(f"v{number(down / 100)}" if down else f"h{number(across / 100)}")
    return "".join(written)


def _paint(ink: Ink) -> dict[str, str]:
    painted = {"fill": ink.fill or "none"}
    if ink.fill and ink.opacity != 1:
        painted["fill-opacity"] = number(ink.opacity)
    if ink.stroke:
        painted |= {"stroke": ink.stroke, "stroke-width": number(ink.width)}
        if ink.dash:
            painted["stroke-dasharray"] = _numbers(ink.dash)
        if ink.rounded:
            painted |= {"stroke-linecap": "round", "stroke-linejoin": "round"}
    return painted


def _numbers(values: Iterable[float]) -> str:
    return " ".join(number(value) for value in values)
