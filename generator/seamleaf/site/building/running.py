"""MkDocs as ``seamleaf build`` and ``seamleaf serve`` run it: strict, quiet, and never leaving half a site."""

from __future__ import annotations

import logging
import os
import socket
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")  # the theme prints a notice to whoever imports it

from mkdocs.commands.build import build
from mkdocs.commands.serve import serve
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException, PluginError
from yaml import YAMLError

from seamleaf.site.building.faults import fault_of_author
from seamleaf.site.building.plugin import NOTE, SeamleafPlugin
from seamleaf.site.files.output import is_replaceable, replacing
from seamleaf.site.files.shelf import shelf_folder
from seamleaf.site.files.sources import pattern_files, slips_in
from seamleaf.site.work.cluster import SCHEME, ClusterError
from seamleaf.site.work.parts import SHELF, PartError, Shard, join_parts, note_part
from seamleaf.site.work.progress import Progress, Silent

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig


_LAST_PORT: Final = 65_535


class SiteError(Exception):
    """A site that cannot be built, for a reason that its author can mend; the message says which."""


def load_site(config_file: Path, site_dir: Path | None = None, *, strict: bool = True, **options: Any) -> MkDocsConfig:
    """Load the configuration of a site that uses the plugin; ``options`` are taken in place of those in the file.

    Raises:
        SiteError: no such file, a fault in it, or the plugin missing.

    """
    _log_to_stderr(NOTE)
    if site_dir is not None:
        options["site_dir"] = str(site_dir.absolute())
    try:
        if not config_file.is_file():
            raise SiteError(
                f"{config_file}: there is no such file here; go to your site, or make one: seamleaf new FOLDER"
            )
        config = load_config(config_file=str(config_file), strict=strict, **options)
    except OSError as fault:
        raise SiteError(f"{config_file}: cannot be read: {fault.strerror or fault}") from fault
    except RecursionError as fault:
        raise SiteError(f"{config_file}: nests too deep, or takes in itself by INHERIT") from fault
    except Abort as fault:
        raise SiteError(f"{config_file}: the configuration has faults") from fault
    except MkDocsException as fault:
        slips = slips_in(config_file) if isinstance(fault.__context__, YAMLError) else []
        raise SiteError(slips[0] if slips else f"{config_file}: {fault}") from fault
    if not any(isinstance(plugin, SeamleafPlugin) for plugin in config.plugins.values()):
        raise SiteError(f"{config_file}: seamleaf is not listed under plugins; add the line '  - seamleaf' there")
    return config


def build_site(
    config_file: Path,
    site_dir: Path | None = None,
    *,
    executor: str | None = None,
    progress: Progress | None = None,
) -> Path:
    """Build the whole site and put it in the place of the last one; on any fault the last one stays as it was.

    Args:
        config_file: configuration of the site.
        site_dir: folder of the site, in place of the configured one.
        executor: who works, in place of the configured one.
        progress: hears of the stages.

    Returns:
        The folder of the site.

    Raises:
        SiteError: the site has faults; MkDocs has logged each.
        OSError: the site cannot be written.

    """
    config = load_site(config_file, site_dir)
    target = Path(config.site_dir)
    if not is_replaceable(target):
        raise SiteError(f"{target}: holds something else than a site; choose a new or an empty folder")
    heard = progress or Silent()
    _plugin_of(config, executor).begin(heard)
    with replacing(target) as fresh:
        config.site_dir = str(fresh)
        config.plugins.on_startup(command="build", dirty=False)
        try:
            build(config)
        except Abort as fault:
            raise SiteError("nothing was published") from fault
        except ClusterError as fault:
            raise SiteError(str(fault)) from fault
        except Exception as fault:
            _raise_if_authors(fault, config_file)
            raise
        finally:
            config.plugins.on_shutdown()
        heard.stage("in place", 0)
    return target


def work_out_part(
    config_file: Path, shard: Shard, folder: Path, *, executor: str | None = None, progress: Progress | None = None
) -> int:
    """Work out one part of the patterns of a site, for :func:`join_site`.

    Returns:
        How many patterns the part has.

    Raises:
        SiteError: the patterns have faults; MkDocs has logged each.
        OSError: the part cannot be written.

    """
    config = load_site(config_file)
    if folder.exists() and any(folder.iterdir()) and not (folder / SHELF).is_dir():
        raise SiteError(f"{folder}: holds something else than a part; choose a new or an empty folder")
    plugin = _plugin_of(config, executor)
    plugin.begin(progress or Silent(), shard, folder)
    config.plugins.on_startup(command="build", dirty=False)
    try:
        plugin.on_config(config)
    except PluginError as fault:
        logging.getLogger("mkdocs").error("%s", fault)
        raise SiteError("no part was made") from fault
    except ClusterError as fault:
        raise SiteError(str(fault)) from fault
    (folder / SHELF).mkdir(parents=True, exist_ok=True)
    note_part(folder, shard)
    return len(shard.of_all(pattern_files(Path(config.docs_dir))))


def join_site(
    config_file: Path, parts: Sequence[Path], site_dir: Path | None = None, *, progress: Progress | None = None
) -> Path:
    """Build a site from what its parts have worked out.

    Raises:
        SiteError: the parts are not all there, or the site has faults.
        OSError: something cannot be read or written.

    """
    try:
        config = load_site(config_file)
        join_parts(parts, shelf_folder(config.config_file_path, config.docs_dir))
    except PartError as fault:
        raise SiteError(str(fault)) from fault
    return build_site(config_file, site_dir, progress=progress)


def _plugin_of(config: MkDocsConfig, executor: str | None) -> SeamleafPlugin:
    """Return the plugin, told who works.

    Raises:
        SiteError: no such executor.

    """
    (plugin,) = [each for each in config.plugins.values() if isinstance(each, SeamleafPlugin)]
    if executor is not None:
        plugin.config.executor = executor
    named = plugin.config.executor
    if named != "processes" and not named.startswith(SCHEME):
        raise SiteError(f"executor: found {named!r}, expected processes or {SCHEME}HOST:PORT")
    return plugin


def serve_site(config_file: Path, address: str | None = None) -> None:
    """Serve the site and build it again whenever a pattern or a template changes, until interrupted.

    Raises:
        SiteError: the configuration has faults, the address cannot be used, or the first build fails for another reason
            than a pattern.
        OSError: the site cannot be written where a server keeps it.

    """
    options: dict[str, Any] = {"dev_addr": address} if address else {}
    config = load_site(config_file, strict=False, **options)
    host, port = config["dev_addr"]
    if not 0 <= port <= _LAST_PORT:
        raise SiteError(f"cannot serve: found port {port}, expected 0 to {_LAST_PORT}")
    try:
        with socket.create_server((host, port)):
            pass  # an address that is in use is told of before the first build, not after it
    except OSError as fault:
        other = "--dev-addr 127.0.0.1:8001 takes another address"
        raise SiteError(f"cannot serve: {fault.strerror or fault}; {other}") from fault
    _log_to_stderr(logging.INFO)
    try:
        serve(config_file=str(config_file), strict=False, **options)
    except Abort as fault:
        raise SiteError("the site cannot be served") from fault
    except MkDocsException as fault:
        raise SiteError(f"{config_file}: {fault}") from fault
    except Exception as fault:
        _raise_if_authors(fault, config_file)
        raise


def _raise_if_authors(fault: Exception, config_file: Path) -> None:
    """Raise a fault of what the author has written as one of the site."""
    told = fault_of_author(fault, config_file.absolute().parent)
    if told is not None:
        raise SiteError(told) from fault


def _log_to_stderr(level: int) -> None:
    """Send what MkDocs reports to standard error, once a line, in this program's name."""
    logger = logging.getLogger("mkdocs")
    logger.setLevel(level)
    for handler in [each for each in logger.handlers if isinstance(each, _Lines)]:
        logger.removeHandler(handler)
    logger.addHandler(_Lines(sys.stderr))


class _Lines(logging.StreamHandler):  # type: ignore[type-arg]  # generic only in the type stubs
    """Writes ``seamleaf: message``; a list of problems stands in lines of its own, ready for an editor to jump to."""

    def format(self, record: logging.LogRecord) -> str:
        return "\n".join(line if number else f"seamleaf: {line}" for number, line in enumerate(_lines(record)))


def _lines(record: logging.LogRecord) -> list[str]:
    return record.getMessage().removeprefix("seamleaf: ").splitlines() or [""]
