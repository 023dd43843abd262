"""How much room text takes: the advance widths of DejaVu Sans, the first font of the figures.

Figures are laid out without opening a font file, so that they come out the same on a machine without fonts. The next
fonts of the family are no wider than a hair more, or narrower.
"""

from __future__ import annotations

from typing import Final

from seamleaf.words.direction import MARKS

ASCENT: Final = 0.76
"""Height of digits and capitals above the baseline, an em being 1; with a little air."""
DESCENT: Final = 0.24

# Advance widths in thousandths of an em, measured from DejaVu Sans 2.37.
_REGULAR: Final = {
    275: "'", 278: "ijl", 295: "IJ", 318: " \u00a0,.’·", 337: "/:;\\|", 352: "f", 361: "-", 374: "″", 390: "()[]",
    392: "t",
    401: "!", 411: "r", 460: '"', 500: "*_`°–", 521: "s", 525: "z", 531: "?", 550: "c", 557: "L", 575: "F", 579: "k",
    592: "vxy", 603: "P", 611: "TY", 612: "o", 613: "a", 615: "eé", 632: "E", 634: "hnu", 635: "Sbdgpq",
    636: "$0123456789{}", 656: "K", 684: "AV", 685: "XZ", 686: "B", 695: "R", 698: "C", 732: "U", 748: "N", 752: "H",
    770: "D", 775: "G", 780: "&", 787: "OQ", 818: "w", 838: "#+<=>^~×", 863: "M", 950: "%", 969: "¼½¾⅓⅔⅛⅜⅝⅞", 974: "m",
    989: "W", 1000: "@—…",
}  # fmt: skip
_BOLD: Final = {
    306: "'", 343: "ijl", 348: " \u00a0", 365: "/\\|", 372: "IJ", 380: ",.’·", 400: ":;", 415: "-", 435: "f", 447: "″",
    456: "!", 457: "()[]", 478: "t", 493: "r", 500: "_`°–", 521: '"', 523: "*", 580: "?", 582: "z", 593: "c", 595: "s",
    637: "L", 645: "x", 652: "vy", 665: "k", 675: "a", 678: "eé", 682: "T", 683: "EF", 687: "o", 696: "$0123456789",
    712: "hnu{}", 716: "bdgpq", 720: "S", 724: "Y", 725: "Z", 733: "P", 734: "C", 762: "B", 770: "R", 771: "X",
    774: "AV", 775: "K", 812: "U", 821: "G", 830: "D", 837: "HN", 838: "#+<=>^~×", 850: "OQ", 872: "&", 924: "w",
    995: "M", 1000: "@—…", 1002: "%", 1035: "¼½¾⅓⅔⅛⅜⅝⅞", 1042: "m", 1103: "W",
}  # fmt: skip
_WIDTHS: Final = tuple({char: width for width, chars in table.items() for char in chars} for table in (_REGULAR, _BOLD))
_UNKNOWN: Final = 1000


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of a line of text in points; characters that the table lacks count a full em.

    Marks of direction take no room.
    """
    widths = _WIDTHS[bold]
    return sum(0 if char in MARKS else widths.get(char, _UNKNOWN) for char in text) * size / 1000


def wrap(text: str, size: float, width: float) -> tuple[str, ...]:
    """Break text into lines of at most ``width`` points at its spaces; a longer word gets a line of its own.

    Spaces that do not break (U+00A0) hold a size together.
    """
    lines: list[str] = []
    for word in filter(None, text.split(" ")):
        if lines and text_width(f"{lines[-1]} {word}", size) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return tuple(lines)


def shortened(text: str, size: float, width: float, *, bold: bool = False) -> str:
    """Return the text, or as much of its beginning as the width holds with an ellipsis."""
    if text_width(text, size, bold=bold) <= width:
        return text
    kept = text
    while kept and text_width(f"{kept}…", size, bold=bold) > width:
        kept = kept[:-1]
    return f"{kept}…"
