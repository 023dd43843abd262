"""The commands that make a site: build, join and serve."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

from seamleaf.site.parts import Shard
from seamleaf.site.progress import Progress, showing
from seamleaf.site.sources import printable
from seamleaf.site.telling import FINE, WRONG_USE, refuse, say
from seamleaf.site.workers import shared_workers


def add_site_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the commands to those of a parser."""
    build = commands.add_parser("build", help="build the whole site")
    add_config_file(build)
    build.add_argument("--site-dir", metavar="DIR", help="folder of the site, in place of the configured one")
    _add_stages(build)
    build.add_argument(
        "--executor",
        metavar="WHO",
        help="who works: 'processes', or a cluster by its scheduler, 'dask://HOST:PORT'",
    )
    build.add_argument(
        "--shard",
        metavar="PART",
        type=_shard,
        help="work out a part of the patterns alone, as in 3/16, into the folder of --site-dir, for join",
    )
    build.set_defaults(run=_build)

    join = commands.add_parser("join", help="build the whole site from what build --shard has worked out")
    join.add_argument("parts", nargs="+", metavar="DIR", help="the folders of all parts")
    add_config_file(join)
    join.add_argument("--site-dir", metavar="DIR", help="folder of the site, in place of the configured one")
    _add_stages(join)
    join.set_defaults(run=_join)

    serve = commands.add_parser("serve", help="show the site and follow every edit")
    add_config_file(serve)
    serve.add_argument("--dev-addr", metavar="IP:PORT", help="address to serve at, in place of the configured one")
    serve.set_defaults(run=_serve)


def add_config_file(parser: argparse.ArgumentParser) -> None:
    """Add the option that names the configuration of the site."""
    parser.add_argument(
        "--config-file",
        metavar="FILE",
        default="mkdocs.yml",
        help="configuration of the site; mkdocs.yml without this option",
    )


def _add_stages(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--progress",
        action=argparse.BooleanOptionalAction,
        help="show what is being done: a bar on a terminal, else a line for each stage; without this option only a bar",
    )
    parser.add_argument("--profile", action="store_true", help="tell at the end where the time went")


def _shard(text: str) -> Shard:
    try:
        return Shard.read(text)
    except ValueError as fault:
        raise argparse.ArgumentTypeError(printable(str(fault))) from None


def _build(options: argparse.Namespace) -> int:
    from seamleaf.site.building import build_site, work_out_part  # late: only this needs MkDocs

    folder = Path(options.site_dir) if options.site_dir else None
    if options.shard is None:
        return _in_stages(
            options,
            lambda progress: build_site(
                Path(options.config_file), folder, executor=options.executor, progress=progress
            ),
        )
    if folder is None:
        say("--shard goes with --site-dir, the folder that takes the part")
        return WRONG_USE
    return _in_stages(
        options,
        lambda progress: work_out_part(
            Path(options.config_file), options.shard, folder, executor=options.executor, progress=progress
        ),
    )


def _join(options: argparse.Namespace) -> int:
    from seamleaf.site.building import join_site  # late, as above

    folder = Path(options.site_dir) if options.site_dir else None
    parts = [Path(part) for part in options.parts]
    return _in_stages(options, lambda progress: join_site(Path(options.config_file), parts, folder, progress=progress))


def _in_stages(options: argparse.Namespace, work: Callable[[Progress], object]) -> int:
    """Do the work of a site and show its stages."""
    from seamleaf.site.building import SiteError  # late, as above

    try:
        shown = sys.stderr.isatty() if options.progress is None else options.progress
        with showing(shown=shown, profiled=options.profile) as progress, shared_workers():
            work(progress)
    except SiteError as fault:
        return refuse(fault)
    except OSError as fault:
        return refuse(f"cannot build the site: {fault}")
    return FINE


def _serve(options: argparse.Namespace) -> int:
    from seamleaf.site.building import SiteError, serve_site  # late: only this needs MkDocs

    try:
        serve_site(Path(options.config_file), options.dev_addr)
    except SiteError as fault:
        return refuse(fault)
    except OSError as fault:
        return refuse(f"cannot serve: {fault}")
    return FINE
