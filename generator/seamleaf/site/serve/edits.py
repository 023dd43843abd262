"""An edit under ``serve``, shown at once: of a pattern that has changed, only what is looked at is worked out first.

MkDocs builds a whole site again at every change. While serving, its builder stands behind the one of this module.
Where nothing but patterns and the author's own pages was written, processes that stand ready work out the sizes of
those patterns, the one that was looked at last before the others, each with its proof; a page is published and rendered
when it is asked for, as :mod:`seamleaf.site.serve.live` does it. What is shown is never a guess: a page waits for the
plan that the build would make. Problems of sizes that nobody looks at show on all pages of the pattern as soon as they
are known. Any other change is left to MkDocs.
"""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable, Iterable
from concurrent.futures import CancelledError, Future, wait
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from seamleaf.publishing import Gallery, chrome_title
from seamleaf.reading.pattern import Pattern
from seamleaf.site.files.sources import is_pattern_name, printable, read_text
from seamleaf.site.pages.published import Published
from seamleaf.site.pages.publisher import Publisher
from seamleaf.site.pages.showing import App, Showing
from seamleaf.site.serve.live import LiveSite
from seamleaf.site.serve.standing import StandingCrew
from seamleaf.site.serve.watching import Watched
from seamleaf.site.work.jobs import Job, Outcome, try_job
from seamleaf.site.work.pipeline import read_checked
from seamleaf.site.work.workshop import Finished, put_together

if TYPE_CHECKING:
    from mkdocs.structure.files import File

log = logging.getLogger("mkdocs.plugins.seamleaf")

_READY_WITHIN: Final = 5.0
"""Seconds for which a server waits for its processes, at most."""
_OVERVIEW = ""
"""The pages of a pattern that are no size's."""
_AS_IT_WAS, _NOTHING = "the site is shown as it was", "nothing is shown until that is mended"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What the last whole build shows, and with what."""

    live: LiveSite
    publisher: Publisher
    showing: Showing
    published: list[Published]
    docs_dir: Path
    lay_navigation: Callable[[], Any]
    draw_examples: Callable[[File], dict[str, bytes]] | None
    """Draws the examples on a page of the author's; nothing where pages may follow from other files too."""
    galleries: set[str]
    """The pages that hold a gallery."""


@dataclass(slots=True, kw_only=True)
class Edit:
    """A pattern that was edited and is being worked out."""

    path: Path
    given: tuple[object, ...]
    pattern: Pattern
    text: bytes
    jobs: dict[str, Job]
    begun: dict[str, Future[Outcome | Exception]] = field(default_factory=dict)
    parts: dict[str, dict[str, bytes | Path]]
    """The files that are shown, by size."""
    todo: set[str]
    """The parts that still show what was before."""
    _outcomes: dict[str, Outcome | Exception] = field(default_factory=dict)

    def needs(self, part: str) -> list[Future[Outcome | Exception]]:
        """Return what a part waits for: for a size its outcome, but for all of them once something is wrong."""
        sizes = [part] if part else list(self.jobs)
        begun = [self.begun[size] for size in sizes]
        if part and all(each.done() for each in begun) and isinstance(self.finished(sizes), Exception):
            return list(self.begun.values())
        return begun

    def finished(self, sizes: Iterable[str] | None = None) -> Finished | Exception:
        """Return what came of sizes, or of all."""
        wanted = list(self.jobs if sizes is None else sizes)
        return put_together(self.pattern, {size: self._outcome(size) for size in wanted}, whole=sizes is None)

    def is_done(self) -> bool:
        """Tell whether every size is worked out."""
        return all(each.done() and not each.cancelled() for each in self.begun.values())

    def gallery(self) -> Gallery:
        """Return the pattern as a gallery shows it.

        Raises:
            Exception: what is wrong with it.

        """
        done = self.finished()
        if isinstance(done, Exception):
            raise done
        return Gallery(pattern=done.pattern, booklets=done.booklets, figures=done.figures)

    def published(self) -> Published:
        """Return the pattern as it is shown now."""
        return Published(
            id=self.pattern.id,
            title=self.pattern.title,
            sizes={size.id: size.title for size in self.pattern.sizes.values()},
            classes={each.id: each.title for each in self.pattern.classes.values()},
            files={path: content for part in self.parts.values() for path, content in part.items()},
            gallery=self.gallery,
        )

    def _outcome(self, size: str) -> Outcome | Exception:
        if size not in self._outcomes:
            try:
                self._outcomes[size] = self.begun[size].result()
            except (BrokenProcessPool, CancelledError):  # a process was killed, perhaps for its memory
                self._outcomes[size] = try_job(self.jobs[size])
        return self._outcomes[size]


class Edits:
    """Shows edits of the site that is served."""

    def __init__(self) -> None:
        self.watched = Watched()
        self.shown: Shown | None = None
        """Set when a whole build is done, taken away when one begins."""
        self._lock = threading.RLock()
        self._edits: dict[str, Edit] = {}
        self._looked_at: dict[str, str] = {}
        """The size of each pattern that was asked for last."""
        self._crew, self._started = StandingCrew(1), False
        self._ask: Callable[[], None] = lambda: None
        self._fault = ""
        """Why the last build has left no whole site."""

    def start(self, processes: int) -> None:
        """Have processes started, once, while the site is built."""
        if not self._started:
            self._started, self._crew = True, StandingCrew(processes)
            self._crew.start()

    def get_ready(self, ask: Callable[[], None]) -> None:
        """Do all that an edit takes once, so that the first one shows as soon as others; ``ask`` calls the builder."""
        self._ask = ask
        if self.shown is not None:
            for each in [each for each in self.shown.published if each.sizes and not each.problems][:1]:
                text = read_text(self.shown.docs_dir / f"{each.id}.yaml")
                if isinstance(text, bytes):
                    publisher, size = self.shown.publisher, next(iter(each.sizes))
                    begun = self._crew.get_ready(publisher.workshop.job(each.id, text, size))
                    done = next(publisher.workshop.finish([(each.id, text)]))
                    if isinstance(done, Finished):
                        publisher.publish_again(done, size)
                    wait(begun, timeout=_READY_WITHIN)

    def leave(self) -> None:
        """End what stands ready."""
        self._crew.leave()

    def builder(self, whole: Callable[[], None], roots: Callable[[], Iterable[str]]) -> Callable[[], None]:
        """Return what shows edits, and has everything built where that is not enough.

        Args:
            whole: builds the whole site.
            roots: the files and folders that are watched.

        """

        def build() -> None:
            with self._lock:
                changed = self.watched.changed(roots())
                if self.shown is not None and changed is not None and self._take(self.shown, changed):
                    return
                self._fault = ""
                try:
                    whole()
                except Exception as fault:  # MkDocs would show a traceback, and let everybody wait for a good build
                    told = "\n".join(map(printable, str(fault).splitlines())) or type(fault).__name__
                    if self.shown is None:  # the site was begun
                        self._fault = told
                    log.error("%s; %s", told, _NOTHING if self._fault else _AS_IT_WAS)

        return build

    def begin_whole(self) -> None:
        """Forget what is shown, since the whole site is built anew."""
        for edit in list(self._edits.values()):
            self._drop(edit.pattern.id)
        self.shown = None

    def application(self, app: App, below: Callable[[str], str]) -> App:
        """Return the application with pages that are made when they are asked for.

        ``below`` returns the path below the site of what is asked for.
        """

        def answer(environ: dict[str, Any], start: Callable[..., Any]) -> Iterable[bytes]:
            if self._fault:
                return _refused(start, self._fault)
            path = str(environ.get("PATH_INFO", "")).encode("latin-1").decode("utf-8", "ignore")
            try:
                self._make(below(path))
            except Exception as fault:  # whatever other plugins do; the server goes on
                log.error("%s: %s", path, fault)
                return _refused(start, str(fault))
            return app(environ, start)

        return answer

    def _make(self, path: str) -> None:
        """Bring up to date what is asked for, once the sizes that it needs are worked out."""
        while True:
            with self._lock:
                if self.shown is None:
                    return
                wanted = self._wanted(self.shown, path)
                needed = [each for edit, part in wanted for each in edit.needs(part)]
                if all(each.done() for each in needed):
                    for edit, part in wanted:
                        self._settle(self.shown, edit, {part})
                    self.shown.live.render(path)
                    return
            wait(needed)

    def _wanted(self, shown: Shown, path: str) -> list[tuple[Edit, str]]:
        if shown.live.uri_at(path) in shown.galleries:
            return [(edit, _OVERVIEW) for edit in self._edits.values() if _OVERVIEW in edit.todo]
        pattern_id, _, rest = path.partition("/")
        part = rest.partition("/")[0]
        if rest.endswith(("/", ".html")):
            self._looked_at[pattern_id] = part
        edit = self._edits.get(pattern_id)
        if edit is None:
            return []
        part = part if part in edit.jobs else _OVERVIEW
        return [(edit, part)] if part in edit.todo else []

    def _take(self, shown: Shown, changed: set[Path]) -> bool:
        """Show what has changed, unless it is something for MkDocs."""
        for edit in [each for each in self._edits.values() if each.is_done()]:
            if not _is_good(edit.finished()):
                self._settle(shown, edit, edit.todo)
        known = {each.id for each in shown.published}
        patterns = [path for path in changed if path.parent == shown.docs_dir and is_pattern_name(path.name)]
        if any(path.stem not in known or not path.is_file() for path in patterns):
            return False
        own = [_own_file(shown, path) for path in changed.difference(patterns)]
        files = [file for file in own if file is not None]
        if len(files) < len(own) or (files and shown.draw_examples is None):
            return False
        for file in files:
            if shown.draw_examples is not None and file.is_documentation_page():
                shown.live.replace(shown.draw_examples(file), {})
                shown.live.read_now(file.src_uri)
            else:
                file.copy_file()
        if any(file.is_documentation_page() for file in files):
            shown.live.navigate(shown.lay_navigation())
        for path in sorted(patterns):
            self._begin(shown, path)
        return True

    def _begin(self, shown: Shown, path: Path) -> None:
        """Begin to work out a pattern, and show at once what is known of it."""
        publisher, text = shown.publisher, read_text(path)
        given = publisher.given(path, text)
        self._drop(path.stem)
        last = shown.showing.last(path.stem, given)
        if last is not None:
            self._show(shown, last)
            return
        try:
            if isinstance(text, Exception):
                raise text
            pattern = read_checked(text, path.stem)
        except Exception as fault:
            self._show(shown, publisher.publish(path, fault), given)
            return
        jobs = {size: publisher.workshop.job(pattern.id, text, size) for size in pattern.sizes}
        good = shown.showing.good(pattern.id)
        edit = Edit(
            path=path, given=given, pattern=pattern, text=text, jobs=jobs,
            parts=_parts(good.files if good is not None else {}, pattern.sizes), todo={_OVERVIEW, *jobs},
        )  # fmt: skip
        self._edits[pattern.id] = edit
        first = self._looked_at.get(pattern.id)
        for size in sorted(jobs, key=lambda each: each != first):
            edit.begun[size] = self._crew.begin(jobs[size])
        for begun in edit.begun.values():
            begun.add_done_callback(lambda _: self._heard(shown, edit))
        now = edit.published()
        if good is None or (good.sizes.keys(), good.classes.keys()) != (now.sizes.keys(), now.classes.keys()):
            self._settle(shown, edit, edit.todo)  # which pages there are is known when all are made
        else:
            self._swap(shown, now)

    def _settle(self, shown: Shown, edit: Edit, parts: set[str]) -> None:
        """Put parts of an edit in their place, or what is wrong with it in the place of all."""
        if self._edits.get(edit.pattern.id) is not edit:
            return
        if _OVERVIEW in parts and shown.publisher.history.of(edit.pattern.id):
            parts = {*parts, *edit.todo}  # what has changed since the earlier versions is told of all sizes
        try:
            done = edit.finished([part for part in parts if part] if _OVERVIEW not in parts else None)
            if not _is_good(done):
                done = edit.finished()
                self._show(shown, shown.publisher.publish(edit.path, done), edit.given)
                return
            assert isinstance(done, Finished)  # noqa: S101 -- as it is good
            made: dict[str, dict[str, bytes | Path]] = {
                part: {**shown.publisher.size_files(done, part)} for part in parts & edit.todo if part
            }
            if _OVERVIEW in parts:
                parts_now = {**edit.parts, **made}.values()
                sizes = {path: each for part in parts_now for path, each in part.items() if isinstance(each, bytes)}
                made[_OVERVIEW] = {**shown.publisher.overview_files(done, sizes)}
        except Exception as fault:
            self._show(shown, shown.publisher.publish(edit.path, fault), edit.given)
            return
        for part, files in made.items():
            edit.parts[part] = files
        edit.todo -= made.keys()
        now = edit.published()
        self._swap(shown, now)
        if not edit.todo:
            shown.showing.shows(now, edit.given)
            self._edits.pop(edit.pattern.id)

    def _show(self, shown: Shown, published: Published, given: tuple[object, ...] | None = None) -> None:
        """Show a pattern as it was published whole, or its fault."""
        self._drop(published.id)
        if given is not None:
            shown.showing.shows(published, given)
        for line in published.problems:
            log.info("%s", line)
        self._swap(shown, shown.showing.in_place(published) if published.problems else published)

    def _swap(self, shown: Shown, now: Published) -> None:
        """Put a pattern in the place of what was shown of it."""
        at = next(index for index, each in enumerate(shown.published) if each.id == now.id)
        before = shown.published[at]
        shown.published[at] = now
        moved = shown.live.replace(now.files, before.files, pages_only=bool(now.problems))
        if moved or any(getattr(before, name) != getattr(now, name) for name in ("title", "sizes", "classes")):
            shown.live.entitle(f"{now.id}/index.md", chrome_title(now.title))
            shown.live.navigate(shown.lay_navigation())
        for uri in shown.galleries:
            shown.live.read_again(uri)

    def _heard(self, shown: Shown, edit: Edit) -> None:
        """Hear that a size is done: once all are, what is wrong is shown, and what is right remembered."""
        if edit.is_done() and self._edits.get(edit.pattern.id) is edit:
            done = edit.finished()
            if isinstance(done, Finished) and not done.findings:
                shown.publisher.workshop.remember(edit.pattern.id, edit.text, done)
            else:
                self._ask()

    def _drop(self, pattern_id: str) -> None:
        edit = self._edits.pop(pattern_id, None)
        if edit is not None:
            for begun in edit.begun.values():
                begun.cancel()


def _refused(start: Callable[..., Any], why: str) -> list[bytes]:
    start("500 Internal Server Error", [("Content-Type", "text/plain; charset=utf-8")])
    return [why.encode("utf-8", "backslashreplace")]


def _is_good(done: Finished | Exception) -> bool:
    return isinstance(done, Finished) and not done.findings


def _own_file(shown: Shown, path: Path) -> File | None:
    """Return a file of the author's own that the site holds and that was written."""
    if not path.is_file() or not path.is_relative_to(shown.docs_dir):
        return None
    file = shown.live.files.get_file_from_path(path.relative_to(shown.docs_dir).as_posix())
    return file if file is not None and file.generated_by is None else None


def _parts(files: Any, sizes: Iterable[str]) -> dict[str, dict[str, bytes | Path]]:
    """Return files by the size that they belong to."""
    parts: dict[str, dict[str, bytes | Path]] = {_OVERVIEW: {}, **{size: {} for size in sizes}}
    for path, content in files.items():
        folder = path.split("/")[1]
        parts[folder if folder in parts else _OVERVIEW][path] = content
    return parts
