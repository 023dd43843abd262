"""The generated files among those of the author: what is added, and what of the docs_dir is no part of the site."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from mkdocs.structure.files import File

from seamleaf.reading.marks import SCHEMA_FILE
from seamleaf.site.files.sources import printable
from seamleaf.site.pages.history import KEPT

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files

    from seamleaf.site.pages.published import Published


def take_out_sources(files: Files, published: Iterable[Published], unfit: Iterable[Path]) -> None:
    """Take out the designer's manuscripts, what cannot be published, and earlier versions' data.

    Args:
        files: all of the site.
        published: the patterns, each of which has a file of its name.
        unfit: what of the docs_dir cannot be published, with all below it.

    """
    for each in published:
        source = files.get_file_from_path(f"{each.id}.yaml")
        if source is not None:
            files.remove(source)
    for path in unfit:
        for file in [file for file in files if Path(file.abs_src_path or "").is_relative_to(path)]:
            files.remove(file)
    for file in [file for file in files if file.src_uri.startswith(f"{KEPT}/") and file.src_uri.endswith(".json")]:
        files.remove(file)  # kept to compare with, not to be sewn from


def add_file(files: Files, config: MkDocsConfig, uri: str, content: bytes | Path) -> None:
    """Add one file by its bytes or where they lie; an author's own file of this path stands before ours."""
    if files.get_file_from_path(uri) is None:
        if isinstance(content, Path):
            files.append(File.generated(config, uri, abs_src_path=str(content)))
        else:
            files.append(File.generated(config, uri, content=content))


def add_schema(files: Files, config: MkDocsConfig, schema: bytes) -> str | None:
    """Add the schema of pattern files; return what there is to say of a copy beside them that has become old."""
    told = None
    own = files.get_file_from_path(SCHEMA_FILE)
    if own is not None and own.content_bytes != schema:
        shown = printable(os.path.relpath(own.abs_src_path or own.src_uri))
        told = f"{shown} is of another version; 'seamleaf schema --out {shown}' writes it anew"
        files.remove(own)
    add_file(files, config, SCHEMA_FILE, schema)
    return told
