"""The HTML of a page of ours as a tree of elements."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Final

_EMPTY: Final = frozenset(["br", "img", "input", "meta", "link", "hr", "wbr"])


@dataclass(slots=True)
class Element:
    """One element: its tag, classes, attributes, and what is in it."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    children: list[Element | str] = field(default_factory=list)

    @property
    def classes(self) -> frozenset[str]:
        """The names in its class attribute."""
        return frozenset(self.attributes.get("class", "").split())

    @property
    def elements(self) -> Iterator[Element]:
        """The elements directly in it."""
        return (child for child in self.children if isinstance(child, Element))

    def within(self, *tags: str) -> Iterator[Element]:
        """Every element of these tags anywhere in it, in order."""
        for child in self.elements:
            if child.tag in tags:
                yield child
            yield from child.within(*tags)

    def text(self) -> str:
        """All text in it."""
        return "".join(child if isinstance(child, str) else child.text() for child in self.children)


class _Builder(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open = [Element("body")]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(element)
        if tag not in _EMPTY:
            self.open.append(element)

    def handle_endtag(self, tag: str) -> None:
        for index in range(len(self.open) - 1, 0, -1):
            if self.open[index].tag == tag:
                del self.open[index:]
                break

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)


def read_elements(html: str) -> Element:
    """Return the tree of a page's HTML, in an element ``body``."""
    builder = _Builder()
    builder.feed(html)
    builder.close()
    return builder.open[0]
