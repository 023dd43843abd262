"""Elements of a page to calls of the functions that ``site_templates/paper/booklet.typ`` defines.

What a page says reaches typst in string literals alone, so nothing that a designer wrote can act in it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise
from typing import Final

from seamleaf.publishing.paper.elements import Element

_LEFT_OUT: Final = frozenset(["sl-stages", "sl-eyebrow", "sl-imprint", "sl-screen", "sl-narrow", "sl-done", "sl-tools"])
"""What belongs to a screen, or stands on the cover."""
_WAYS: Final = {"sl-way--before": "←", "sl-way--after": "→", "sl-way--open": "↔", "sl-way--spin": "↻"}
_COLOUR: Final = re.compile(r"background:\s*(#[0-9a-fA-F]{6})")
_BLOCKS: Final = frozenset(
    ["p", "div", "ul", "ol", "li", "dl", "dt", "dd", "figure", "table", "h1", "h2", "h3", "h4", "nav", "caption"]
)
_PARAGRAPHS: Final = {
    "sl-gate": "gate", "sl-make": "lead", "sl-step__do": "lead", "sl-stop__title": "lead",
    "sl-caution__title": "lead", "sl-shop__note": "note", "sl-small": "note", "sl-writes": "writes",
    "sl-shop__for": "under",
}  # fmt: skip
_NUMBER: Final = re.compile(r"[1-9][0-9]*(?:\.[0-9]+)?")
_SHORT: Final = 9
"""Rows of a table that stays with the step before it."""
_FEW_LETTERS: Final = 900
"""In a list that stays in one piece: about half a sheet of the large print."""
_LISTS: Final = ("ol", "ul")
_HEADINGS: Final = {"h2": 1, "h3": 2, "h4": 3}


def set_elements(body: Element) -> str:
    """Return the code that sets everything in an element; what has to fill one sheet is told so."""
    parts: list[str] = []
    run: list[Element | str] = []
    one = False
    for child in [*body.children, Element("div", {"class": "sl-page"})]:
        if not isinstance(child, Element) or "sl-page" not in child.classes:
            run.append(child)
            continue
        inner = _block(run)
        gauges = any("sl-figure--gauge" in each.classes for each in Element("div", children=run).within("figure"))
        tight = f"tightened({inner}, gauges: {'true' if gauges else 'false'})"
        parts += [tight if one and inner else inner, _of_block(child)]
        run, one = [], "sl-page--one" in child.classes
    return _joined(parts[:-1])


FOR_EDITION: Final = ("fig", "figs", "lead", "beside", "grid-of", "step", "one-sheet", "tightened")
"""The functions that are told the size of the text and the width of the sheet."""


def literal(text: str) -> str:
    """Write a string literal of typst."""
    return f'"{"".join(map(_escaped, text))}"'


def _escaped(mark: str) -> str:
    if mark in '\\"':
        return f"\\{mark}"
    return mark if mark.isprintable() or mark == "\u00a0" else f"\\u{{{ord(mark):x}}}"


def _block(children: Iterable[Element | str]) -> str:
    """Set what stands in a block: text of its own becomes paragraphs, blocks follow each other."""
    out: list[str] = []
    run: list[Element | str] = []

    def end_run() -> None:
        text = _line(run)
        if text:
            out.append(f"para({text})")
        run.clear()

    before: Element | None = None
    head = False  # whether a heading stands before what stands before
    for child in children:
        if isinstance(child, Element) and child.tag in _BLOCKS:
            end_run()
            if (
                before is not None
                and before.tag == "p"
                and (_is_led_to(child) or before.text().rstrip().endswith(":") or (head and child.tag in _HEADINGS))
            ):
                out[-1] = f"opening({out[-1] or literal('')})"
            out.append(_of_block(child))
            if before is not None:
                out[-2:] = _together(before, child, out[-2:])
            head, before = before is not None and before.tag in _HEADINGS, child
        elif not isinstance(child, str) or child.strip():
            run.append(child)
            before = None
        else:
            run.append(child)
    end_run()
    return _joined(out)


def _together(before: Element, after: Element, out: list[str]) -> list[str]:
    """Join what is set of two elements where they belong together: a list stands beside its figure."""
    if _is_kept(before, after):
        return [f"one-sheet({_joined(out)}, figures: {_sizes([before])})"]
    calls = _figures(before) if before.tag == "figure" and after.tag in _LISTS else []
    return [f"beside({calls[0]}, {_letters([after])}, {out[-1]})"] if len(calls) == 1 else out


def _is_led_to(element: Element) -> bool:
    if "sl-pair" in element.classes:  # it begins with headings of its own
        return False
    return "sl-step" in element.classes or element.tag in ("table", *_LISTS) or any(element.within("table"))


def _is_kept(before: Element, after: Element) -> bool:
    """Return whether a short table stands with the step that it is of, or a remark with its short table."""
    if "sl-step" in before.classes:
        return _is_short_table(after)
    return after.tag == "p" and _is_short_table(before)


def _is_short_table(element: Element) -> bool:
    """Return whether it is a table that surely fits below the step before it."""
    return "sl-scroll" in element.classes and sum(1 for _ in element.within("tr")) <= _SHORT


def _of_block(element: Element) -> str:
    if element.classes & _LEFT_OUT or element.tag in ("nav", "h1"):
        return ""
    if element.tag in _HEADINGS:
        return f"head({_HEADINGS[element.tag]}, {_inline(element.children)})"
    known: dict[str, Callable[[Element], str]] = {
        "p": _paragraph, "ul": _list, "ol": _list, "dl": _facts, "figure": _figure, "table": _table,
    }  # fmt: skip
    if element.tag in known:
        return known[element.tag](element)
    if "sl-written" in element.classes:
        expected, label = element.elements
        return f"written({_block([expected])}, {_inline(label.children)})"
    if "sl-page" in element.classes:
        return "new-part()" if "sl-page--part" in element.classes else "pagebreak(weak: true)"
    if "sl-scale" in element.classes:
        return f"scale-check({', '.join(_inline(each.children) for each in element.within('p'))})"
    if "sl-step" in element.classes:
        return _step(element)
    if "sl-whole" in element.classes:
        return f"one-sheet({_block(element.children)}, figures: {_sizes(element.children)})"
    if "sl-stop" in element.classes:
        return _stop(element)
    if "sl-caution" in element.classes:
        return f"caution({_block(element.children)})"
    if element.classes & {"sl-lead", "sl-pair", "sl-gauges"}:
        return _pair(list(element.elements))
    return _block(element.children)


def _pair(children: list[Element]) -> str:
    """Set elements side by side: figures as far as there is room, a figure and text, or text alone."""
    shown = [_figures(child) if child.tag == "figure" else [] for child in children]
    if all(shown):
        return f"figs({''.join(f'({call}), ' for calls in shown for call in calls)})"
    if len(children) == 2 and sum(map(len, shown)) == 1:
        (call,), text = (shown[0], children[1]) if shown[0] else (shown[1], children[0])
        return f"lead({call}, {_block([text]) or literal('')}, before: {'true' if shown[0] else 'false'})"
    parts = [_block([child]) for child in children]
    return f"side-by-side({', '.join(parts)})" if len(parts) > 1 else _joined(parts)


def _letters(children: list[Element | str]) -> str:
    """Return how many letters each paragraph has, as an array of typst, for a guess of its height."""
    lengths: list[int] = []
    for each in Element("div", children=children).within("p", "li"):
        lengths.append(len(" ".join(each.text().split())))
        if "sl-writes" in each.classes:
            lengths += [1, 1]  # the line to write on, and the room above it
    return _array(map(str, lengths))


def _sizes(children: list[Element | str]) -> str:
    """Return the kind, width and height of each figure, in pixels of CSS, as an array of typst."""
    figures = Element("div", children=children).within("figure")
    return _array(f"({kind}, {size})" for each in figures for _, kind, size in _shown(each))


def _pixels(written: str) -> str:
    """Return a measure of an image; a template of a designer's own may say none in pixels."""
    return written if _NUMBER.fullmatch(written) else "400"


def _array(parts: Iterable[str]) -> str:
    return f"({''.join(f'{part}, ' for part in parts)})"


def _stop(element: Element) -> str:
    """Set a stop: what is expected, and beside it room for what was measured."""
    children: list[Element | str] = []
    for child in element.elements:
        labels = list(child.within("label"))
        if "sl-writes" in child.classes and children and len(labels) == 1:
            children.append(Element("div", {"class": "sl-written"}, [children.pop(), *labels]))
        else:
            children.append(child)
    return f"stop({_block(children)})"


def _step(element: Element) -> str:
    """Set a step in one box, what follows its figure beside it where there is room, and under it the stop to measure.

    The picture of the whole block may stand on the next sheet.
    """
    within: list[Element | str] = []
    stops: list[Element | str] = []
    pictures: list[Element | str] = []
    for child in element.children:
        inner = child.children if isinstance(child, Element) and "sl-step__text" in child.classes else [child]
        for each in inner:
            classes = each.classes if isinstance(each, Element) else frozenset[str]()
            (stops if "sl-stop" in classes else pictures if "sl-pair" in classes else within).append(each)
    parts = _parts(within)
    split = f", parts: {_array(_beside(part) for part in parts)}" if len(parts) > 1 else ""
    below = f", stops: {_block(stops)}" if stops else ""
    box = f"step({_beside(within)}, letters: {_letters([*within, *stops])}, figures: {_sizes(within)}{split}{below})"
    return _joined([box, _block(pictures)])


def _parts(children: list[Element | str]) -> list[list[Element | str]]:
    """Take a step apart behind each measuring, for sheets on which it does not stand whole."""
    parts: list[list[Element | str]] = [[]]
    for child in children:
        parts[-1].append(child)
        if isinstance(child, Element) and "sl-measure" in child.classes:
            parts.append([])
    return [part for part in parts if _block(part)]


def _beside(children: list[Element | str]) -> str:
    """Set each figure with what follows beside it, up to the next one."""
    places = [at for at, child in enumerate(children) if isinstance(child, Element) and child.tag == "figure"]
    ends = [*places, len(children)]
    parts = [_block(children[: ends[0]])]
    for at, end in pairwise(ends):
        figure, after = children[at], children[at + 1 : end]
        calls, text = _figures(figure) if isinstance(figure, Element) else [], _block(after)
        if len(calls) == 1 and text:
            parts.append(f"beside({calls[0]}, {_letters(after)}, {text})")
        else:
            parts.append(_block(children[at:end]))
    return _joined(parts)


def _paragraph(element: Element) -> str:
    kind = next((kind for name, kind in _PARAGRAPHS.items() if name in element.classes), "plain")
    if kind == "writes":
        return f"writes({', '.join(_of_inline(label) for label in element.within('label'))})"
    content = _line(element.children)
    if "sl-boxes" in element.classes:
        return f"boxes({content}, {sum('sl-box' in each.classes for each in element.within('span'))})"
    return f"para({content}, kind: {literal(kind)})" if content else ""


def _line(children: list[Element | str]) -> str:
    """Set the text of a paragraph; where all of it belongs to a box to tick, it hangs beside that."""
    alone = [each for each in children if not isinstance(each, str) or each.strip()]
    if len(alone) == 1 and isinstance(alone[0], Element) and "sl-tick" in alone[0].classes:
        return f"ticked({_inline(alone[0].children)})"
    return _inline(children)


def _list(element: Element) -> str:
    set_item = _column if "sl-rows--down" in element.classes else _item
    items = [set_item(child) for child in element.elements if child.tag == "li"]
    kind = "numbered" if element.tag == "ol" and not element.classes & {"sl-rows"} else "plain"
    ticked = any("sl-tick--step" in label.classes for label in element.within("label"))
    if ticked or element.classes & {"sl-ticks", "sl-shop", "sl-rows"}:
        kind = "bare"
    if "sl-shop__facts" in element.classes:
        kind = "notes"
    if "sl-bags" in element.classes:
        kind = "labels" if "sl-bags--small" in element.classes else "cards"
    if element.classes & {"sl-prints", "sl-rows--down"}:
        kind = "columns"
    if "sl-ticks--many" in element.classes:
        kind = "few"
    call = f"items({literal(kind)}, ({''.join(f'{item}, ' for item in items)}))"
    return f"kept({call})" if _is_short_list(element) else call


def _item(element: Element) -> str:
    return _block(element.children)


def _column(element: Element) -> str:
    """Keep a column's name with its figure; where it is stopped to measure may stand on the next sheet."""
    stops = [each for each in element.elements if "sl-stop" in each.classes]
    told = _block(child for child in element.children if child not in stops)
    return _joined([f"kept({told})", _block(stops)])


def _is_short_list(element: Element) -> bool:
    """Return whether a list surely fits below what leads to it, so that its last line need not stand alone."""
    return (
        element.tag == "ul"
        and "sl-bags" not in element.classes  # cards are whole one by one
        and len(element.text()) < _FEW_LETTERS
        and not any(element.within("figure", "table"))
    )


def _facts(element: Element) -> str:
    pairs = [_inline(each.children) or literal("") for each in element.within("dt", "dd")]
    call = "terms" if "sl-words" in element.classes else "facts"
    return f"{call}(({''.join(f'{pair}, ' for pair in pairs)}))"


def _figure(element: Element) -> str:
    return _joined(f"fig({call})" for call in _figures(element))


def _figures(element: Element) -> list[str]:
    """Return what is to be known of each figure: name, alternative text, kind, width and height."""
    return [f"{name}, {kind}, {size}" for name, kind, size in _shown(element)]


def _shown(element: Element) -> Iterator[tuple[str, str, str]]:
    """Yield name and alternative text, kind, and width and height of each image of a figure."""
    kind = next((name.rpartition("--")[2] for name in element.classes if "--" in name), "")
    for image in element.within("img"):
        name = image.attributes.get("src", "").rpartition("/")[2]
        size = ", ".join(_pixels(image.attributes.get(side, "")) for side in ("width", "height"))
        yield f"{literal(name)}, {literal(image.attributes.get('alt', ''))}", literal(kind), size


def _table(element: Element) -> str:
    rows = [list(row.within("th", "td")) for row in element.within("tr")]
    headings = [list(row.within("th")) for head in element.within("thead") for row in head.within("tr")]
    columns = max((len(row) for row in rows), default=1)
    top = [cell for row in headings for cell in row]
    body = [cell for row in rows[len(headings) :] for cell in row]
    first = [_cell(cell) for cell in top]
    rest = [f"strong({_cell(cell)})" if cell.tag == "th" else _cell(cell) for cell in body]
    caption = next((_inline(each.children) for each in element.within("caption")), '""')
    fill = [_to_fill(body[index::columns]) for index in range(columns)]
    # The text before a column for a pencil shares the width with it, or it would take all.
    shares = "".join("1fr, " if any(fill[index : index + 2]) else "auto, " for index in range(columns))
    across = 70 // max(columns, 1)
    lines = sum(max((-(-len(cell.text()) // across) for cell in row), default=1) for row in rows)
    return (
        f"grid-of(({shares}), ({''.join(f'{cell}, ' for cell in first)}), ({''.join(f'{cell}, ' for cell in rest)}),"
        f" {caption}, lines: {lines})"
    )


def _to_fill(cells: list[Element]) -> bool:
    """Return whether a column is left for a pencil: it takes the width that the others leave."""
    return bool(cells) and all(_cell(cell) == "blank" for cell in cells)


def _cell(cell: Element) -> str:
    blocks = any(child.tag in _BLOCKS for child in cell.elements)
    return (_block(cell.children) if blocks else _inline(cell.children)) or "blank"


# ------------------------------------------------------------------------------------------------ text


def _inline(children: Iterable[Element | str]) -> str:
    """Set a run of text; the spaces at its ends are the layout's of the page's source, not the sentence's."""
    parts: list[str] = []
    for child in children:
        if isinstance(child, str):
            text = re.sub(r"[ \t\r\n]+", " ", child)
            if text:
                parts.append(literal(text))
        else:
            set_ = _of_inline(child)
            if set_:
                parts.append(set_)
    while parts and parts[0] == '" "':
        parts.pop(0)
    while parts and parts[-1] == '" "':
        parts.pop()
    if parts and parts[0].startswith('" '):
        parts[0] = '"' + parts[0][2:]
    return _joined(parts)


def _of_inline(element: Element) -> str:
    classes = element.classes
    if classes & _LEFT_OUT:
        return ""
    if element.tag == "br":
        return "linebreak()"
    if element.tag in ("input", "script", "style"):
        return ""
    if "sl-fraction" in classes:
        top, bottom = (next((each.text() for each in element.within(tag)), "") for tag in ("sup", "sub"))
        return f"fraction({literal(top)}, {literal(bottom)})"
    if "sl-swatch" in classes:
        colours = [m.group(1) for each in element.elements if (m := _COLOUR.search(each.attributes.get("style", "")))]
        return f"swatch(({''.join(f'{literal(colour)}, ' for colour in colours)}))"
    if "sl-tick" in classes:
        return f"tick({_inline(element.children) or literal('')})"
    if "sl-write" in classes:
        return f"write({_inline(element.children) or literal('')})"
    content = _inline(element.children)
    way = next((arrow for name, arrow in _WAYS.items() if name in classes), "")
    if way:
        return f"way({literal(way)})"
    calls = (
        (element.tag in ("b", "strong"), "strong"),
        (element.tag == "small", "small"),
        ("sl-letter" in classes, "letter"),
        ("sl-item" in classes, "dashed" if classes & {"sl-item--side", "sl-item--corner"} else "tag"),
        ("sl-size" in classes, "box"),
        ("sl-print" in classes, "apart"),
    )
    for holds, call in calls:
        if holds and content:
            return f"{call}({content})"
    return content


def _joined(parts: Iterable[str]) -> str:
    """Join pieces of code to one that gives all their content."""
    kept = [part for part in parts if part]
    if not kept:
        return ""
    return kept[0] if len(kept) == 1 else "{ " + "; ".join(kept) + " }"
