"""What may stand under the plugin in ``mkdocs.yml``."""

from __future__ import annotations

import os
import re
from typing import TYPE_CHECKING, Final

from mkdocs.config import base, config_options

from seamleaf.publishing import EDITIONS, ENGLISH, languages

if TYPE_CHECKING:
    from mkdocs.theme import Theme

EPOCH: Final = "SOURCE_DATE_EPOCH"
_LAST: Final = 2**32 - 1
"""The last second that the compressed sitemap can be dated with: RFC 1952 gives it four bytes."""


class SeamleafConfig(base.Config):  # type: ignore[no-untyped-call]  # MkDocs leaves its class hook bare
    """Options of the plugin in ``mkdocs.yml``."""

    templates = config_options.Optional(config_options.Dir(exists=True))
    """A designer's own folder of templates; a file in it replaces the packaged one of the same path."""
    proof = config_options.Type(bool, default=True)
    """Whether the booklets and the published pages are proved; a finding fails the build."""
    paper = config_options.ListOfItems(config_options.Choice([each.id for each in EDITIONS]), default=["a4", "letter"])
    """The PDF files that every size gets."""
    language = config_options.Optional(config_options.Choice(languages()))
    """Language of pages and figures; else that of the theme, where it is spoken, or English."""
    covers = config_options.Type(bool, default=False)
    """Whether each pattern gets a cover picture, which other sites show beside a link; needs site_url."""
    processes = config_options.Type(int, default=0)
    """How many processes work at once; 0 for as many as there are processors."""
    executor = config_options.Type(str, default="processes")
    """Who works: ``processes`` of this machine, or a cluster by the address of its scheduler, ``dask://HOST:PORT``."""
    cache = config_options.Type(bool, default=True)
    """Whether booklets and figures are kept in ``.cache/seamleaf`` beside the configuration, for the next build."""


def speak(asked: str | None, theme: Theme) -> str:
    """Return the language of the pages; where the option names it, the theme speaks it too."""
    if asked is not None:
        if "language" in theme:
            theme["language"] = asked
        return asked
    named = str(theme["language"]) if "language" in theme else ENGLISH
    return named if named in languages() else ENGLISH


def epoch_problem() -> str | None:
    """Say what is wrong with the date that the environment gives a build, if anything is."""
    told = os.environ.get(EPOCH)
    if told is None or (re.fullmatch("[0-9]{1,10}", told) and int(told) <= _LAST):
        return None
    return f"{EPOCH}: found {told!r}, expected whole seconds since 1970, from 0 to {_LAST}"
