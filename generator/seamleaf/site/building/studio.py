"""What the patterns of a site are published with; each part of it is loaded and opened by whoever first needs it.

A build with nothing new needs the shelf alone, and takes no longer than MkDocs does.
"""

from __future__ import annotations

import logging
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from seamleaf.publishing import EDITIONS
from seamleaf.site.files.shelf import Shelf, key_for, shelf_folder
from seamleaf.site.files.sources import read_text
from seamleaf.site.pages.keeping import Keeper
from seamleaf.site.work.parts import SHELF
from seamleaf.site.work.workers import give_back_memory, processors

if TYPE_CHECKING:
    from collections.abc import Sequence

    from mkdocs.config.defaults import MkDocsConfig

    from seamleaf.publishing import Edition, Templates
    from seamleaf.site.building.options import SeamleafConfig
    from seamleaf.site.pages.history import History
    from seamleaf.site.pages.published import Published
    from seamleaf.site.pages.publisher import Publisher
    from seamleaf.site.pages.showing import Showing
    from seamleaf.site.work.progress import Progress
    from seamleaf.site.work.workshop import Workshop

log = logging.getLogger("mkdocs.plugins.seamleaf")


@dataclass(slots=True, kw_only=True)
class Studio:
    """Publishes the patterns of one site, with the options of the plugin."""

    options: SeamleafConfig
    progress: Progress
    shelf: Shelf | None
    publisher: Publisher | None = None
    """Who published last, where anybody had to."""
    _workshop: Workshop | None = None

    @property
    def processes(self) -> int:
        """How many processes work at once."""
        return self.options.processes if self.options.processes > 0 else processors()

    @property
    def editions(self) -> list[Edition]:
        """The PDF files that every size gets."""
        return [each for each in EDITIONS if each.id in self.options.paper]

    def workshop(self, templates: Templates) -> Workshop:
        """Return the workshop; it is made once, so that an edit elsewhere plans nothing again."""
        from seamleaf.site.work.workshop import Workshop  # late, as all of this module

        if self._workshop is None:
            self._workshop = Workshop(
                self.shelf,
                self.processes,
                prove=self.options.proof,
                machines=None if self.options.executor == "processes" else self.options.executor,
                progress=self.progress,
            )
        self._workshop.speak(templates.wording.words)
        return self._workshop

    def publish_all(
        self, paths: Sequence[Path], templates: Templates, history: History, address: str, showing: Showing | None
    ) -> list[Published]:
        """Publish patterns; with nothing changed, all of them are at hand.

        Args:
            paths: their files.
            templates: what turns them into pages.
            history: their earlier versions.
            address: where the site will be; empty when nobody says.
            showing: what is shown already, while a site is served.

        """
        options = (self.options.paper, self.options.proof, self.options.covers, showing is not None)
        given = (templates.digest, templates.language, address, options)
        keeper = None if self.shelf is None else Keeper(self.shelf, given, pages_at_hand=showing is not None)

        def opened() -> Publisher:
            from seamleaf.site.pages.publisher import Publisher

            return Publisher(
                workshop=self.workshop(templates),
                templates=templates,
                history=history,
                editions=self.editions,
                address=address,
                proved=self.options.proof,
                covers=self.options.covers,
                showing=showing,
                keeper=keeper,
            )

        texts = {path.stem: text for path in paths if isinstance(text := read_text(path), bytes)}
        if keeper is not None and showing is None and len(texts) == len(paths):
            found = keeper.take_all(texts, history, lambda *of: opened().gallery_of(*of))
            if found is not None:
                return found
        self.publisher = opened()
        published = self.publisher.publish_all(paths)
        give_back_memory()  # a catalogue's plans took hundreds of megabytes, before the theme takes its own
        return published

    def schema(self) -> bytes:
        """Return the schema of pattern files."""
        key = key_for(b"schema")
        kept = None if self.shelf is None else self.shelf.take(key)
        if kept is not None:
            return kept
        from seamleaf.reading.schema import schema_text

        text = schema_text().encode("utf-8")
        if self.shelf is not None:
            self.shelf.put(key, text)
        return text


def open_studio(options: SeamleafConfig, config: MkDocsConfig, progress: Progress, part: Path | None) -> Studio:
    """Open the studio of a site; of one ``part`` of its patterns the shelf lies in the folder of that part."""
    folder = part / SHELF if part else shelf_folder(config.config_file_path, config.docs_dir)
    shelf = Shelf(folder, lambda line: log.info("%s", line)) if options.cache or part else None
    return Studio(options=options, progress=progress, shelf=shelf)
