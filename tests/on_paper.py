"""What every PDF has to keep: little ink, and tags for readers who hear it."""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Iterator
from typing import Any

import numpy as np
import pypdf
import pypdfium2
from pypdf.generic import ArrayObject, DictionaryObject


def grey_sheets(pdf: bytes, scale: float) -> Iterator[Any]:
    """Yield the sheets as grey pictures."""
    document = pypdfium2.PdfDocument(pdf)
    for sheet in document:
        yield np.asarray(sheet.render(scale=scale).to_pil().convert("L"))
    document.close()


def assert_light(pdf: bytes) -> None:
    """Under 8 % of the paper on average (a rule of this project; no source)."""
    inks = [1 - sheet.mean() / 255 for sheet in grey_sheets(pdf, 1.5)]
    assert sum(inks) / len(inks) < 0.08


def assert_tagged(pdf: bytes, title: str) -> Counter[str]:
    """See what PDF/UA-1 (ISO 14289-1) asks for: marks, a language, a title that is shown, a text for every figure.

    Returns:
        How many elements of each kind there are.

    """
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    root: Any = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert reader.metadata is not None
    assert reader.metadata.title == title
    assert b"pdfuaid" in root["/Metadata"].get_data()
    kinds: Counter[str] = Counter()
    for element in structure_of(root["/StructTreeRoot"]):
        kinds[element["/S"]] += 1
        assert element["/S"] != "/Figure" or element.get("/Alt")
    return kinds


def structure_of(element: Any) -> Iterator[DictionaryObject]:
    """Yield every element of a structure tree."""
    children = element.get("/K", [])
    for child in children if isinstance(children, ArrayObject) else [children]:
        each = child.get_object()
        if isinstance(each, DictionaryObject) and "/S" in each:
            yield each
            yield from structure_of(each)
