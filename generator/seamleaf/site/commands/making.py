"""The commands that make a site: build, join and serve."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

from seamleaf.site.commands.telling import FINE, WRONG_USE, refuse, say
from seamleaf.site.work.progress import Progress, showing
from seamleaf.site.work.workers import collect_seldom, shared_workers


def build(options: argparse.Namespace) -> int:
    """Build the whole site, or work out a part of its patterns."""
    from seamleaf.site.building.running import build_site, work_out_part  # late: only this needs MkDocs

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


def join(options: argparse.Namespace) -> int:
    """Build the whole site from parts that were worked out elsewhere."""
    from seamleaf.site.building.running import join_site  # late, as above

    folder = Path(options.site_dir) if options.site_dir else None
    parts = [Path(part) for part in options.parts]
    return _in_stages(options, lambda progress: join_site(Path(options.config_file), parts, folder, progress=progress))


def _in_stages(options: argparse.Namespace, work: Callable[[Progress], object]) -> int:
    """Do the work of a site and show its stages."""
    from seamleaf.site.building.running import SiteError  # late, as above

    collect_seldom()
    try:
        shown = sys.stderr.isatty() if options.progress is None else options.progress
        with showing(shown=shown, profiled=options.profile) as progress, shared_workers():
            work(progress)
    except SiteError as fault:
        return refuse(fault)
    except OSError as fault:
        return refuse(f"cannot build the site: {fault}")
    return FINE


def serve(options: argparse.Namespace) -> int:
    """Show the site and follow every edit."""
    from seamleaf.site.building.running import SiteError, serve_site  # late: only this needs MkDocs

    try:
        serve_site(Path(options.config_file), options.dev_addr)
    except SiteError as fault:
        return refuse(fault)
    except OSError as fault:
        return refuse(f"cannot serve: {fault}")
    return FINE
