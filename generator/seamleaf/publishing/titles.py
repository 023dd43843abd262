"""What the pages of a pattern are called, in the navigation and at their heads; and in which folders they lie."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from markupsafe import Markup

from seamleaf.publishing.glossary import GLOSSARY
from seamleaf.words import isolated

if TYPE_CHECKING:
    from seamleaf.publishing.templates import Templates

STAGES: Final = ("glance", "buy", "prepare", "cut", "piece", "layout", "finish", "print")
"""The pages of one size, in the order of the work."""
FIRST: Final = "glance"
OWN_PRINTS: Final = "prints"
"""Folder of the page on which a reader lays out prints of their own; sizes with prints of a bundle have one."""
TESTER: Final = "tester"
"""Folder of the form for whoever tests a size."""
REPORT: Final = "proof"
"""Folder of the report of what was proved of a size; without a proof there is none."""


def page_titles(templates: Templates, classes: Mapping[str, str]) -> dict[str, str]:
    """Return the short titles of a size's pages by their folder below the size's, for the navigation.

    ``classes`` are the titles of the classes, by id.
    """
    say = templates.wording.say
    titles = {"" if name == FIRST else name: chrome_title(say(f"page.{name}")) for name in STAGES}
    titles[GLOSSARY] = chrome_title(say("glossary.title"))
    titles[TESTER] = chrome_title(say("tester.title"))
    titles[REPORT] = chrome_title(say("proof.report"))
    titles[OWN_PRINTS] = chrome_title(say("own.title"))
    return titles | {
        class_folder(each): chrome_title(say("class.page", title=title)) for each, title in classes.items()
    }


def chrome_title(title: str) -> str:
    """Return a title for the front matter and the navigation, which themes print without escaping.

    Angle brackets become angle quotation marks, because themes take tags out and references in titles back.
    """
    plain = title.unescape() if isinstance(title, Markup) else title
    return isolated(plain).translate({ord("<"): "‹", ord(">"): "›"}).replace("&", "&amp;").replace('"', "&quot;")


def class_folder(class_id: str) -> str:
    """Return the folder of a class below its size's; no stage has such a name."""
    return f"class-{class_id}"


def front_matter(title: str) -> Markup:
    """Write a title as a YAML scalar, safe for a theme."""
    return Markup(json.dumps(chrome_title(title), ensure_ascii=False))  # noqa: S704 -- chrome_title has made it safe
