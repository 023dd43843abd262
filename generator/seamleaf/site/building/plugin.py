"""The MkDocs plugin: pattern files of the docs_dir in, generated pages out; nothing is written beside them.

Everything is computed, and its booklets proved, before MkDocs cleans the site folder, so a broken pattern leaves the
last good site alone. What was published is proved at the end; until then the last site is kept beside the new one.
Under ``serve`` nothing here raises: MkDocs would leave every request waiting until the next good build.
"""

from __future__ import annotations

import logging
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal
from urllib.parse import urljoin, urlsplit

from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import Files, InclusionLevel

from seamleaf.publishing import (
    TemplateError,
    load_templates,
    notes_on_own,
    page_titles,
    publish_home,
    theme_folder,
)
from seamleaf.site.building.author_pages import AuthorPages
from seamleaf.site.building.entries import unfit_entries
from seamleaf.site.building.generated import add_file, add_schema, take_out_sources
from seamleaf.site.building.navigation import FRONT, beside, navigation, pattern_section
from seamleaf.site.building.options import SeamleafConfig, epoch_problem, speak
from seamleaf.site.building.rendered import RenderedPages
from seamleaf.site.building.studio import Studio, open_studio
from seamleaf.site.building.waiting import WaitingPages
from seamleaf.site.files.output import LastSite
from seamleaf.site.files.sources import pattern_files, printable, unread_files
from seamleaf.site.pages.cards import Cards
from seamleaf.site.pages.history import History, read_history
from seamleaf.site.pages.published import MAKER, cover_path
from seamleaf.site.pages.showing import Showing, lay_one
from seamleaf.site.work.progress import Progress, Silent
from seamleaf.site.work.proving import KeptProofs, prove_folder

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page
    from mkdocs.utils.templates import TemplateContext

    from seamleaf.site.pages.published import Published
    from seamleaf.site.pages.publisher import Publisher
    from seamleaf.site.serve.edits import Edits, Shown
    from seamleaf.site.work.parts import Shard
    from seamleaf.site.work.workshop import Workshop

WORKER_URI: Final = "seamleaf-worker.js"
"""At the top of the site, because a worker serves only what lies below it."""

NOTE: Final = (logging.INFO + logging.WARNING) // 2
"""Level of what an author should know and no build fails for: MkDocs counts warnings as faults when it is strict."""

_READING_NOTHING: Final = frozenset({"search", "material/search", "seamleaf"})
"""Plugins that look at no other page than the one that they are given."""

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
        self._author = AuthorPages()
        self._progress: Progress = Silent()
        self._shard: Shard | None = None
        self._part: Path | None = None
        self._studio: Studio | None = None
        """Opened once, since MkDocs keeps this object while it serves."""
        self._showing = Showing()
        self._edits: Edits | None = None
        """Shows edits, while a site is served."""
        self._pages = RenderedPages()
        self._waiting = WaitingPages()
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
        self._author.serving = self._serving
        self._studio = None  # what an earlier command of this process opened, perhaps with others at work
        if self._serving:
            from seamleaf.site.serve.edits import Edits  # late, like much here: a build with nothing new takes no more

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
        language = speak(self.config.language, config.theme)
        own = Path(self.config.templates) if self.config.templates else None
        self._address = config.site_url or ""
        self._refuse_unfit(config)
        self._history = read_history(Path(config.docs_dir))
        if self._studio is None:
            self._studio = open_studio(self.config, config, self._progress, self._part)
            self._author.cards = Cards(self._studio.shelf)
            self._pages = RenderedPages(self._studio.shelf, in_memory=self._serving)
        self._studio.options = self.config
        if self._edits is not None:
            self._edits.start(self._studio.processes)
            config.watch += [str(folder) for folder in (own, theme_folder().parent) if folder is not None]
            self._edits.watched.look([config.docs_dir, config.config_file_path, *config.watch])
        try:
            templates = self._showing.templates(load_templates(own, language))
            self._author.speak(templates, language)
            for line in notes_on_own(own) if own is not None else ():
                log.log(NOTE, "%s", printable(line))
        except TemplateError as fault:
            if not self._serving:
                raise PluginError(str(fault)) from fault
            from seamleaf.site.pages.publisher import publish_faulty

            templates = load_templates(language=language)
            self._author.speak(templates, language)
            self._published = [
                self._showing.in_place(publish_faulty(path, path.stem, [str(fault)], language))
                for path in self._patterns(config)
            ]
        else:
            showing = self._showing if self._serving else None
            published = self._studio.publish_all(
                self._patterns(config), templates, self._history, self._address, showing
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
        for asset in [asset for asset in templates.assets if asset.count("/") == 1]:  # others are for one page
            listing = config.extra_css if asset.endswith(".css") else config.extra_javascript
            if asset.endswith((".css", ".js")) and asset not in listing:
                listing.append(asset)
        return config

    def _refuse_unfit(self, config: MkDocsConfig) -> None:
        """Refuse what cannot be published before MkDocs looks at it; while serving, say so and pass it over.

        Raises:
            PluginError: also where the environment gives a date that is none, which no edit can mend, or nothing tells
                where the covers will be.

        """
        if self.config.covers and not config.site_url:
            raise PluginError(
                "covers: true needs site_url, since a link preview names its picture by the whole address"
            )
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
        self._author.galleries.clear()
        if self._command in ("build", "gh-deploy") and not self._dirty:
            self._last, self._built = LastSite(Path(config.site_dir)), False

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages, figures and data, take the pattern files out, and write the navigation."""
        templates = self._author.templates
        take_out_sources(files, self._published, self._unfit)
        for uri, content in templates.assets.items():
            add_file(files, config, uri, content)
        add_file(files, config, WORKER_URI, templates.worker())
        for each in self._published:
            for uri, made in each.files.items():
                add_file(files, config, uri, made)
        old_copy = add_schema(files, config, self._opened.schema())
        if old_copy is not None:
            log.log(NOTE, "%s", old_copy)
        written = [each for each in files.documentation_pages() if each.generated_by is None]
        for uri, figure in self._author.draw_examples(written, self._open_workshop).items():
            add_file(files, config, uri, figure)
        if files.get_file_from_path("index.md") is None and files.get_file_from_path("README.md") is None:
            home = self._author.rendered(lambda templates: publish_home(config.site_name, templates))
            add_file(files, config, FRONT, home.encode("utf-8"))  # a site needs one
            if config.nav is not None:  # whoever wrote a navigation cannot have forgotten a page that was not there
                files.src_uris[FRONT].inclusion = InclusionLevel.NOT_IN_NAV
        self._written_nav = config.nav
        config.nav = self._navigation(files)
        self._progress.stage("pages", len(files.documentation_pages()))
        return files

    @event_priority(-100)
    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002 -- MkDocs passes them by name
        """Let go of the text of our pages when it is rendered: a catalogue has thousands, each is read once a build."""
        if self._serving or page.file.generated_by != MAKER:
            return html
        page.markdown = ""
        return self._waiting.pack(page, html) if _reads_nothing(config) else html

    @event_priority(-100)
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:  # noqa: ARG002 -- MkDocs passes them by name
        """Note a page that is done."""
        self._waiting.let_go(page)
        self._progress.step()
        return output

    def _navigation(self, files: Files) -> Any:
        templates = self._author.templates
        sections = {
            each.id: pattern_section(each.title, each.files, each.sizes, page_titles(templates, each.classes))
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
        from seamleaf.site.serve.watching import call_builder, watch_closely, watched_by

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
        return self._author.put_in(markdown, page.file, self._published)

    def _shown(self, config: MkDocsConfig, publisher: Publisher) -> Shown | None:
        """Return what this build shows, for edits that need no other."""
        if self._files is None or self._nav is None or self._env is None:
            return None
        from seamleaf.site.serve.edits import Shown
        from seamleaf.site.serve.live import LiveSite

        files = self._files

        def lay_navigation() -> Any:
            self._pages.look_around()
            return self._navigation(files)

        alone = self._pages.lasting and _reads_nothing(config)
        return Shown(
            live=LiveSite(config, files, self._nav, self._env),
            publisher=publisher,
            showing=self._showing,
            published=self._published,
            docs_dir=Path(config.docs_dir),
            lay_navigation=lay_navigation,
            draw_examples=(lambda file: self._author.draw_examples([file], self._open_workshop)) if alone else None,
            galleries=self._author.galleries,
        )

    def _pressed(self, path: str) -> bytes | None:
        """Set one PDF of what is shown."""
        paper = lay_one(path, self._published, self._author.templates, self._opened.editions, self._address)
        return None if paper is None else self._open_workshop().press([paper])[0]

    def _open_workshop(self) -> Workshop:
        return self._opened.workshop(self._author.templates)

    @property
    def _opened(self) -> Studio:
        assert self._studio is not None  # noqa: S101 -- on_config came first
        return self._studio

    @event_priority(100)
    def on_page_context(self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation) -> Any:
        """Have a page whole again before any other plugin, and tell the theme what belongs to its pattern."""
        self._waiting.unpack(page)
        patterns = {each.id: each for each in self._published}
        own = patterns.get(page.file.src_uri.split("/")[0])
        if own is None:
            return context
        if self._written_nav is None:
            context["nav"] = beside(nav, own.id, patterns)
        if cover_path(own.id) in own.files:  # the picture beside a link to its page
            context["cover"] = urljoin(f"{(config.site_url or '').rstrip('/')}/", cover_path(own.id))  # type: ignore[typeddict-unknown-key]  # themes take more
        return context

    def _patterns(self, config: MkDocsConfig) -> list[Path]:
        found = [path for path in pattern_files(Path(config.docs_dir)) if path not in self._unfit]
        for line in unread_files(Path(config.docs_dir)):
            log.log(NOTE, "%s", printable(line))
        return self._shard.of_all(found) if self._shard else found


def _reads_nothing(config: MkDocsConfig) -> bool:
    """Tell whether no plugin or hook looks at other pages than the one that it is given."""
    return config.plugins.keys() <= _READING_NOTHING and not config.hooks
