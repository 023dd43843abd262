"""The MkDocs plugin: pattern files of the docs_dir in, generated pages out; nothing is written beside them.

Everything is computed, and its booklets proved, before MkDocs cleans the site folder, so a broken pattern leaves the
last good site alone. What was published is proved at the end; until then the last site is kept beside the new one.
Under ``serve`` nothing here raises: MkDocs would leave every request waiting until the next good build.
"""

from __future__ import annotations

import logging
import os
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal
from urllib.parse import urljoin, urlsplit

from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel

from seamleaf.publishing import (
    ENGLISH,
    GALLERY_MARK,
    TemplateError,
    load_templates,
    notes_on_own,
    page_titles,
    publish_home,
    theme_folder,
)
from seamleaf.reading.marks import SCHEMA_FILE
from seamleaf.site.cards import Cards
from seamleaf.site.entries import unfit_entries
from seamleaf.site.examples import ExamplePages
from seamleaf.site.history import KEPT, History, read_history
from seamleaf.site.navigation import FRONT, navigation, pattern_section
from seamleaf.site.options import SeamleafConfig, epoch_problem, speak
from seamleaf.site.output import LastSite
from seamleaf.site.progress import Progress, Silent
from seamleaf.site.proving import KeptProofs, prove_folder
from seamleaf.site.published import cover_path
from seamleaf.site.rendered import RenderedPages
from seamleaf.site.serving import Showing, lay_one
from seamleaf.site.sources import pattern_files, printable, unread_files
from seamleaf.site.studio import Studio, open_studio

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page
    from mkdocs.utils.templates import TemplateContext

    from seamleaf.publishing import Templates
    from seamleaf.site.edits import Edits, Shown
    from seamleaf.site.parts import Shard
    from seamleaf.site.published import Published
    from seamleaf.site.publisher import Publisher

_MARK: Final = "<!-- seamleaf: "
"""Begins what an author's page asks for."""
WORKER_URI: Final = "seamleaf-worker.js"
"""At the top of the site, because a worker serves only what lies below it."""

NOTE: Final = (logging.INFO + logging.WARNING) // 2
"""Level of what an author should know and no build fails for: MkDocs counts warnings as faults when it is strict."""

_READING_NOTHING: Final = frozenset({"search", "material/search", "seamleaf"})
"""Plugins for which a page follows from its own text."""

log = get_plugin_logger("seamleaf")


class SeamleafPlugin(BasePlugin[SeamleafConfig]):  # type: ignore[no-untyped-call]  # as above
    """Publishes the pattern files of a site."""

    def __init__(self) -> None:
        self._command = ""
        """What MkDocs was asked to do; empty where nobody told."""
        self._dirty = False
        self._last: LastSite | None = None
        self._built = False
        self._published: list[Published] = []
        self._address = ""
        """Where the site will be; empty when nobody says."""
        self._unfit: dict[Path, str] = {}
        """What of the docs_dir cannot be published, and why."""
        self._history = History()
        self._examples = ExamplePages()
        self._templates: Templates | None = None
        self._language = ENGLISH
        self._progress: Progress = Silent()
        self._shard: Shard | None = None
        self._part: Path | None = None
        self._studio: Studio | None = None
        """Opened once, since MkDocs keeps this object while it serves."""
        self._showing = Showing()
        self._edits: Edits | None = None
        """Shows edits, while a site is served."""
        self._pages = RenderedPages()
        self._cards = Cards()
        self._galleries: set[str] = set()
        """The pages that hold a gallery."""
        self._written_nav: Any = None
        """The navigation that the author wrote, if any."""
        self._nav: Navigation | None = None
        self._env: Environment | None = None
        self._files: Files | None = None

    def begin(self, progress: Progress, shard: Shard | None = None, part: Path | None = None) -> None:
        """Begin anew, since MkDocs keeps this object: show the stages, and work out one shard alone into a folder."""
        self._progress, self._shard, self._part, self._studio = progress, shard, part, None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Note what is being done; having this event also makes MkDocs keep the plugin object."""
        self._command, self._dirty = command, dirty
        self._studio = None  # what an earlier command of this process opened, perhaps with others at work
        if self._serving:
            from seamleaf.site.edits import Edits  # late, like much here: a build with nothing new takes no more

            self._edits = Edits()

    @property
    def _serving(self) -> bool:
        return self._command == "serve"

    @event_priority(50)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Compute every pattern, and point MkDocs to the style sheet, the theme parts and the watched folders.

        Raises:
            PluginError: in a build, with every problem of every pattern; a date from the environment that is none.

        """
        self._language = speak(self.config.language, config.theme)
        own = Path(self.config.templates) if self.config.templates else None
        self._address = config.site_url or ""
        self._refuse_unfit(config)
        self._history = read_history(Path(config.docs_dir))
        if self._studio is None:
            self._studio = open_studio(self.config, config, self._progress, self._part)
            self._cards = Cards(self._studio.shelf)
            self._pages = RenderedPages(self._studio.shelf, in_memory=self._serving)
        self._studio.options = self.config
        if self._edits is not None:
            self._edits.start(self._studio.processes)
            config.watch += [str(folder) for folder in (own, theme_folder().parent) if folder is not None]
            self._edits.watched.look([config.docs_dir, config.config_file_path, *config.watch])
        try:
            self._templates = self._showing.templates(load_templates(own, self._language))
            for line in notes_on_own(own) if own is not None else ():
                log.log(NOTE, "%s", printable(line))
        except TemplateError as fault:
            if not self._serving:
                raise PluginError(str(fault)) from fault
            from seamleaf.site.publisher import publish_faulty

            self._templates = load_templates(language=self._language)
            self._published = [
                self._showing.in_place(publish_faulty(path, path.stem, [str(fault)], self._language))
                for path in self._patterns(config)
            ]
        else:
            showing = self._showing if self._serving else None
            published = self._studio.publish_all(
                self._patterns(config), self._templates, self._history, self._address, showing
            )
            self._published = [self._showing.in_place(each) if each.problems else each for each in published]
        if not self._published:
            log.info("there is no pattern file in %s", config.docs_dir)
        problems = [*self._history.problems, *(line for each in self._published for line in each.problems)]
        if problems and not self._serving:
            raise PluginError("\n".join(["the patterns cannot be published:", *problems]))
        for line in problems:
            log.info("%s", line)
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(theme_folder()))
        for asset in [asset for asset in self._templates.assets if asset.count("/") == 1]:  # others are for one page
            listing = config.extra_css if asset.endswith(".css") else config.extra_javascript
            if asset.endswith((".css", ".js")) and asset not in listing:
                listing.append(asset)
        return config

    def _refuse_unfit(self, config: MkDocsConfig) -> None:
        """Refuse what cannot be published before MkDocs looks at it; while serving, say so and pass it over.

        Raises:
            PluginError: also where the environment gives a date that is none, which no edit can mend.

        """
        wrong_date = epoch_problem()
        if wrong_date is not None:
            raise PluginError(wrong_date)
        home = Path(config.config_file_path or config.docs_dir).parent
        self._unfit = unfit_entries(Path(config.docs_dir), home)
        if self._unfit and not self._serving:
            raise PluginError("\n".join(["the folder cannot be published:", *self._unfit.values()]))
        for line in self._unfit.values():
            log.info("%s", line)

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Keep the last site until the new one is known to be good."""
        if self._edits is not None:
            self._edits.begin_whole()
        self._galleries.clear()
        if self._command in ("build", "gh-deploy") and not self._dirty:
            self._last, self._built = LastSite(Path(config.site_dir)), False

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages, figures and data, take the pattern files out, and write the navigation."""
        assert self._templates is not None  # noqa: S101 -- on_config came first
        for each in self._published:
            source = files.get_file_from_path(f"{each.id}.yaml")
            if source is not None:  # the designer's manuscript is not part of the site
                files.remove(source)
        for path in self._unfit:
            for file in [file for file in files if Path(file.abs_src_path or "").is_relative_to(path)]:
                files.remove(file)
        for file in [file for file in files if file.src_uri.startswith(f"{KEPT}/") and file.src_uri.endswith(".json")]:
            files.remove(file)  # kept to compare with, not to be sewn from
        for uri, content in self._templates.assets.items():
            self._add(files, config, uri, content)
        self._add(files, config, WORKER_URI, self._templates.worker)
        for each in self._published:
            for uri, made in each.files.items():
                self._add(files, config, uri, made)
        self._publish_schema(files, config)
        self._draw_examples(files, config)
        if files.get_file_from_path("index.md") is None and files.get_file_from_path("README.md") is None:
            home = self._rendered(lambda templates: publish_home(config.site_name, templates))
            self._add(files, config, FRONT, home.encode("utf-8"))  # a site needs one
            if config.nav is not None:  # whoever wrote a navigation cannot have forgotten a page that was not there
                files.src_uris[FRONT].inclusion = InclusionLevel.NOT_IN_NAV
        self._written_nav = config.nav
        config.nav = self._navigation(files)
        self._progress.stage("pages", len(files.documentation_pages()))
        return files

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:  # noqa: ARG002 -- MkDocs passes them by name
        """Note a page that is done."""
        self._progress.step()
        return output

    def _navigation(self, files: Files) -> Any:
        assert self._templates is not None  # noqa: S101 -- on_config came first
        sections = {
            each.id: pattern_section(each.title, each.files, each.sizes, page_titles(self._templates, each.classes))
            for each in self._published
        }
        return navigation(self._written_nav, files, sections)

    @event_priority(-100)
    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:  # noqa: ARG002 -- as above
        """Note the navigation as other plugins leave it."""
        self._nav = nav
        return nav

    def on_pre_page(self, page: Page, *, config: MkDocsConfig, files: Files) -> Page:
        """Render a page only where it is not what it was last."""
        self._pages.remember(page, config, files)
        return page

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:  # noqa: ARG002 -- as above
        """Compile the theme's templates once."""
        if self._serving:
            self._showing.keep_compiled(env)
            self._env, self._files = env, files
        return env

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, **_: Any) -> LiveReloadServer:
        """Show edits at once, and set a PDF when someone asks for it."""
        mount = urlsplit(config.site_url or "").path.lstrip("/")

        def below(path: str) -> str:
            return path.lstrip("/").removeprefix(mount)

        assert self._edits is not None  # noqa: S101 -- on_startup came first
        from seamleaf.site.watching import call_builder, watch_closely, watched_by

        app = self._showing.press_when_asked(server.serve_request, lambda path: self._pressed(below(path)))
        server.set_app(self._edits.application(app, below))
        watch_closely(server)
        server.builder = self._edits.builder(server.builder, lambda: watched_by(server))
        self._edits.get_ready(lambda: call_builder(server))
        return server

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Prove what was published, after every other plugin has had its say.

        Raises:
            PluginError: with every finding.

        """
        shelf = self._opened.shelf
        if self.config.proof and self._published and not self._serving:
            self._progress.stage("proof", 0)
            findings, summaries = prove_folder(
                Path(config.site_dir),
                below=True,
                processes=self._opened.processes,
                memory=KeptProofs(shelf.folder) if shelf is not None else None,
            )
            if findings:
                raise PluginError("\n".join(["the published site has faults:", *findings]))
            for line in summaries:
                log.info("%s", line)
        if shelf is not None:
            shelf.tidy()
        if self._edits is not None and self._opened.publisher is not None:
            self._edits.shown = self._shown(config, self._opened.publisher)
        self._built = True

    def on_build_error(self, *, error: Exception) -> None:  # noqa: ARG002 -- MkDocs passes it by name
        """Put the last good site back."""
        if self._last is not None:
            self._last.give_back()
            self._last = None

    def on_shutdown(self) -> None:
        """Let the last site go if the new one is whole; an interrupted build is not."""
        if self._edits is not None:
            self._edits.leave()
        if self._last is not None:
            if self._built:
                self._last.let_go()
            else:
                self._last.give_back()
            self._last = None

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002 -- MkDocs passes it by name
        """Put the patterns of the site, and examples with their figures, where an author's page asks for them."""
        home = "../" * page.file.dest_uri.count("/")
        uri = page.file.src_uri
        markdown = self._rendered(lambda templates: self._examples.put_in(uri, markdown, home, templates))
        if _MARK in markdown:
            from seamleaf.site.reference import with_reference

            markdown = self._rendered(lambda templates: with_reference(markdown, templates, SeamleafConfig))
        if GALLERY_MARK not in markdown:
            return markdown
        self._galleries.add(uri)
        return markdown.replace(GALLERY_MARK, self._cards.gallery(self._published, home, self._rendered))

    def _publish_schema(self, files: Files, config: MkDocsConfig) -> None:
        """Publish the schema of pattern files; a copy beside the patterns that has become old is told of."""
        current = self._opened.schema()
        own = files.get_file_from_path(SCHEMA_FILE)
        if own is not None and own.content_bytes != current:
            shown = printable(os.path.relpath(own.abs_src_path or own.src_uri))
            log.log(NOTE, "%s is of another version; 'seamleaf schema --out %s' writes it anew", shown, shown)
            files.remove(own)
        self._add(files, config, SCHEMA_FILE, current)

    def _rendered(self, render: Callable[[Templates], str]) -> str:
        """Render with the site's templates; if they have a fault, serving goes on with the packaged ones.

        Raises:
            PluginError: in a build.

        """
        assert self._templates is not None  # noqa: S101 -- on_config came first
        try:
            return render(self._templates)
        except TemplateError as fault:
            if not self._serving:
                raise PluginError(str(fault)) from fault
            log.info("%s", fault)
            return render(load_templates(language=self._language))

    def _draw_examples(self, files: Files, config: MkDocsConfig) -> None:
        """Draw the examples on the author's own pages.

        Raises:
            PluginError: in a build, with every problem of every example.

        """
        problems: list[str] = []
        for file in [each for each in files.documentation_pages() if each.generated_by is None]:
            figures, found = self._examples_of(file)
            problems += found
            for uri, content in figures.items():
                self._add(files, config, uri, content)
        if problems and not self._serving:
            raise PluginError("\n".join(["the examples cannot be shown:", *problems]))

    def _examples_of(self, file: File) -> tuple[dict[str, bytes], list[str]]:
        assert self._templates is not None  # noqa: S101 -- on_config came first
        templates, shown = self._templates, printable(os.path.relpath(file.abs_src_path or file.src_uri))
        return self._examples.read(
            file.src_uri, shown, file.content_string, templates, lambda: self._opened.workshop(templates)
        )

    def _shown(self, config: MkDocsConfig, publisher: Publisher) -> Shown | None:
        """Return what this build shows, for edits that need no other."""
        if self._files is None or self._nav is None or self._env is None:
            return None
        from seamleaf.site.edits import Shown
        from seamleaf.site.live import LiveSite

        files = self._files

        def lay_navigation() -> Any:
            self._pages.look_around()
            return self._navigation(files)

        alone = self._pages.lasting and config.plugins.keys() <= _READING_NOTHING and not config.hooks
        return Shown(
            live=LiveSite(config, files, self._nav, self._env),
            publisher=publisher,
            showing=self._showing,
            published=self._published,
            docs_dir=Path(config.docs_dir),
            lay_navigation=lay_navigation,
            draw_examples=(lambda file: self._examples_of(file)[0]) if alone else None,
            galleries=self._galleries,
        )

    @staticmethod
    def _add(files: Files, config: MkDocsConfig, uri: str, content: bytes | Path) -> None:
        if files.get_file_from_path(uri) is None:  # an author's own file of this path stands before ours
            if isinstance(content, Path):
                files.append(File.generated(config, uri, abs_src_path=str(content)))
            else:
                files.append(File.generated(config, uri, content=content))

    def _pressed(self, path: str) -> bytes | None:
        """Set one PDF of what is shown."""
        assert self._templates is not None  # noqa: S101 -- on_config came first
        paper = lay_one(path, self._published, self._templates, self._opened.editions, self._address)
        return None if paper is None else self._opened.workshop(self._templates).press([paper])[0]

    @property
    def _opened(self) -> Studio:
        assert self._studio is not None  # noqa: S101 -- on_config came first
        return self._studio

    def on_page_context(self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation) -> Any:  # noqa: ARG002 -- MkDocs passes them by name
        """Tell the theme which picture to show beside a link to a pattern's page."""
        pattern_id = page.file.src_uri.split("/")[0]
        if any(each.id == pattern_id and cover_path(pattern_id) in each.files for each in self._published):
            context["cover"] = urljoin(f"{(config.site_url or '').rstrip('/')}/", cover_path(pattern_id))  # type: ignore[typeddict-unknown-key]  # themes take more
        return context

    def _patterns(self, config: MkDocsConfig) -> list[Path]:
        found = [path for path in pattern_files(Path(config.docs_dir)) if path not in self._unfit]
        for line in unread_files(Path(config.docs_dir)):
            log.log(NOTE, "%s", printable(line))
        return self._shard.of_all(found) if self._shard else found
