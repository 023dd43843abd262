"""The pages of patterns: every number bound to its booklet, every link and picture there, one size by itself."""

from __future__ import annotations

import html
import json
import posixpath
import re
from fractions import Fraction
from typing import get_args, get_type_hints

import jsonschema
import pytest

from accepted import accepted
from published import (
    METRIC,
    SASHED,
    SMALL,
    WAYS,
    PageReader,
    finished,
    number_in,
    published,
    read_page,
    text_of,
)
from seamleaf.booklet import from_json
from seamleaf.lengths import Length, measures_of
from seamleaf.planning.records import Unit
from seamleaf.publishing import load_templates, publish_fault, publish_pattern
from seamleaf.publishing.pointer import resolve
from seamleaf.publishing.techniques import TECHNIQUES, techniques

SITES = {
    "small": lambda: published(SMALL, "small-pond"),
    "metric": lambda: published(METRIC, "small-pond"),
    "sashed": lambda: published(SASHED, "sashed"),
    "ways": lambda: published(WAYS, "many-ways"),
}
STAGES = ("", "buy/", "prepare/", "cut/", "piece/", "layout/", "finish/", "print/")


@pytest.fixture(params=["demo", *sorted(SITES)], scope="module")
def files(request: pytest.FixtureRequest) -> dict[str, bytes]:
    """Return the files of each pattern in turn."""
    if request.param in SITES:
        return SITES[request.param]()
    found: dict[str, bytes] = request.getfixturevalue(request.param)
    return found


@pytest.fixture(scope="module")
def pages(files: dict[str, bytes]) -> dict[str, PageReader]:
    """Return the pages of each pattern in turn, read once."""
    return pages_of(files)


def pages_of(files: dict[str, bytes]) -> dict[str, PageReader]:
    return {name: read_page(content) for name, content in files.items() if name.endswith(".md")}


def booklet_of(page: str, place: str) -> tuple[str, str]:
    """Return the file of the booklet that a place on a page speaks of, and the pointer into it."""
    document, mark, path = place.rpartition("#")
    pattern, *rest = page.split("/")
    return f"{pattern}/{document}" if mark else f"{pattern}/{rest[0]}/booklet.json", path


def test_every_number_is_the_booklets_and_reads_as_its_value(
    files: dict[str, bytes], pages: dict[str, PageReader]
) -> None:
    """The value is that of the pointer; the text says it, rounded to the nearest mark where it has a root."""
    booklets = {name: json.loads(text) for name, text in files.items() if name.endswith("/booklet.json")}
    wrong, seen = [], 0
    for name, page in pages.items():
        for shown in page.shown:
            source, path = booklet_of(name, shown.place)
            value = resolve(booklets[source], path)
            seen += 1
            if shown.value != str(value):
                wrong.append((name, shown))
            elif isinstance(value, int):
                if shown.text != str(value):
                    wrong.append((name, shown))
            elif re.fullmatch(r"-?\d+(/\d+)?([+-]\d+(/\d+)?\*r2)?", value):
                length = Length.from_exact_text(value)
                if number_in(shown.text) != measures_of(booklets[source]["unit"]).shown_size(length).a:
                    wrong.append((name, shown))
            elif not re.fullmatch(r"\d+\.\d+|[a-z ]+ [\d /]+", value) and shown.text != value:
                wrong.append((name, shown))
    assert wrong == []
    assert seen > 200


def test_no_page_types_a_number_of_its_own(files: dict[str, bytes], pages: dict[str, PageReader]) -> None:
    """Free digits are the designer's words and names of units."""
    booklet = json.loads(next(content for name, content in files.items() if name.endswith("/booklet.json")))
    words = [booklet["pattern"][key] for key in ("summary", "title", "version")]
    for name, page in pages.items():
        text = " ".join("".join(page.free_text).split())
        for word in words:
            text = text.replace(word, "")
        assert re.findall(r"\S*\d\S*", re.sub(r"\bU\d+(\.B)?\b", "", text)) == [], name


def test_every_link_and_picture_leads_to_a_file(files: dict[str, bytes], pages: dict[str, PageReader]) -> None:
    """MkDocs looks at no link in raw HTML, so this test does; every page is the index of its folder."""
    built = {name.removesuffix(".md") + ".html" for name in pages}
    missing = []
    for name, page in pages.items():
        for target in [*page.links, *(image["src"] for image in page.images)]:
            address, _, place = target.partition("#")
            where = posixpath.normpath(posixpath.join(posixpath.dirname(name), address))
            there = where in files or where in built
            if there and place:
                there = f'id="{place}"' in html.unescape(files[f"{where.removesuffix('.html')}.md"].decode())
            if not there:
                missing.append((name, target))
    assert missing == []


def test_every_picture_of_a_page_says_what_to_do(pages: dict[str, PageReader]) -> None:
    """An empty text is for pictures beside the same words in a link only."""
    for name, page in pages.items():
        sizes_chosen = name.count("/") == 1
        assert [image for image in page.images if not image["alt"] and not sizes_chosen] == [], name


def test_every_figure_of_the_work_is_shown_on_a_page(files: dict[str, bytes], pages: dict[str, PageReader]) -> None:
    shown = {
        posixpath.normpath(posixpath.join(posixpath.dirname(name), image["src"]))
        for name, page in pages.items()
        for image in page.images
    }
    figures = {name for name in files if name.endswith(".svg")}
    assert shown <= figures
    assert {posixpath.basename(name) for name in figures - shown} <= {"lines.svg", "binding-corner.svg"}


def test_each_size_has_its_pages_and_its_data(files: dict[str, bytes]) -> None:
    pattern = next(iter(files)).split("/")[0]
    sizes = {name.split("/")[1] for name in files if name.endswith("booklet.json")}
    for size in sizes:
        for stage in STAGES:
            assert f"{pattern}/{size}/{stage}index.md" in files
        booklet = json.loads(files[f"{pattern}/{size}/booklet.json"])
        jsonschema.validate(booklet, json.loads(files[f"{pattern}/{size}/booklet.schema.json"]))
        assert from_json(files[f"{pattern}/{size}/booklet.json"].decode()).size.id == size


def test_the_folder_of_a_size_speaks_of_no_other_size(demo: dict[str, bytes]) -> None:
    titles = {"crib": "Crib", "throw": "Throw", "twin": "Twin", "queen": "Queen", "king": "King"}
    for name, content in demo.items():
        parts = name.split("/")
        if len(parts) > 2 and name.endswith(".md"):
            text = content.decode()
            for size, title in titles.items():
                if size != parts[1]:
                    assert not re.search(rf"\b({title}|{size})\b", text), (name, title)
            assert "booklet.json#" not in text


def test_the_print_page_holds_every_number_of_the_other_pages(demo: dict[str, bytes]) -> None:
    pages = pages_of({name: content for name, content in demo.items() if "/crib/" in name})
    paper = {shown.place for shown in pages["lamplight-crossing/crib/print/index.md"].shown}
    for stage in STAGES[:-1]:
        page = pages[f"lamplight-crossing/crib/{stage}index.md"]
        assert {shown.place for shown in page.shown} <= paper


def test_a_proof_is_spoken_of_only_where_one_holds() -> None:
    """Each size says what was sewn again, on its first page and on the pattern's; without a proof no page does."""
    done = finished(SMALL, "small-pond")
    for proved in (True, False):
        files = publish_pattern(done.pattern, done.booklets, done.figures, load_templates(), proved=proved)
        told = {name for name, content in files.items() if name.endswith(".md") and b"all fit" in content}
        sizes = {f"small-pond/{size}/{page}index.md" for size in done.booklets for page in ("", "print/")}
        assert told == (sizes | {"small-pond/index.md"} if proved else set())
        reports = {f"small-pond/{size}/proof/index.md" for size in done.booklets}
        assert reports & files.keys() == (reports if proved else set())
        pages = pages_of(files)
        linked = {name for name in pages if any(link.endswith("proof/index.html") for link in pages[name].links)}
        assert linked == {name for name in told if "/print/" not in name}
    totals = done.booklets["mat"].totals
    text = text_of(read_page(published(SMALL, "small-pond")["small-pond/mat/index.md"]))
    assert f"{totals.sheets} sheets of fabric, {totals.patches} patches, 8 blocks, " in text


def test_the_words_of_a_designer_stay_words() -> None:
    """A title is raw text: no tag, link, emphasis or template of it comes to life."""
    for name, page in pages_of(published(WAYS, "many-ways")).items():
        assert not {"script", "i", "blue", "ways"} & page.tags, name
        assert "x" not in page.links
    source = published(WAYS, "many-ways")["many-ways/index.md"].decode().split("---\n", 2)[2]
    assert "{{" not in source
    assert "*more*" not in source


def test_the_front_matter_survives_any_title() -> None:
    import yaml

    for name, content in published(WAYS, "many-ways").items():
        if name.endswith(".md"):
            head = content.decode().split("---\n")[1]
            title = yaml.safe_load(head)["title"]
            assert "<" not in title, name


def test_cautions_stand_once_in_a_booklet_and_the_crib_carries_its_own(demo: dict[str, bytes]) -> None:
    """No quilts in an infant's sleep space: AAP, Pediatrics 2022;150(1):e2022057990; cpsc.gov, 15 September 2021."""
    for size, own in (("crib", 1), ("king", 0)):
        for stage in STAGES[:-1]:
            text = demo[f"lamplight-crossing/{size}/{stage}index.md"].decode()
            assert text.count("infant") == (own if stage == "prepare/" else 0)
            assert text.count("Rotary cutters are very sharp") == (stage == "prepare/")


def test_the_seam_test_is_the_published_one(demo: dict[str, bytes]) -> None:
    """Three 1 1/2 in strips: the middle measures 1 in, the whole 3 1/2 in (quiltcentric.com, 2012/09)."""
    page = read_page(demo["lamplight-crossing/crib/prepare/index.md"])
    assert "Cut three strips 1 1/2 in wide" in text_of(page)
    assert "The middle strip measures 1 in, and the whole measures 3 1/2 in." in text_of(page)
    assert {f"/seam_test/{key}" for key in ("strip", "middle", "whole")} <= {shown.place for shown in page.shown}


def test_a_unit_names_the_patch_that_its_seam_is_pressed_to(demo: dict[str, bytes]) -> None:
    """The sentence, the arrow and the booklet come from one value."""
    booklet = json.loads(demo["lamplight-crossing/crib/booklet.json"])
    text = read_page(demo["lamplight-crossing/crib/piece/index.md"])
    page = demo["lamplight-crossing/crib/piece/index.md"].decode()
    assert text.shown
    for unit in booklet["units"]:
        seams = [seam for seam in booklet["seams"] if seam["of"] == unit["id"] and seam["press"] in ("before", "after")]
        for seam in seams:
            target = seam["first"] if seam["press"] == "before" else seam["second"]
            assert re.search(rf"toward <b class=\"sl-label\">{target}</b>", page)


def test_the_cutting_page_gives_every_label_its_sheets(demo: dict[str, bytes]) -> None:
    """For each label, sheets times parts is what the quilt takes and the spare, in squares for triangles."""
    for size in ("crib", "king"):
        booklet = json.loads(demo[f"lamplight-crossing/{size}/booklet.json"])
        page = read_page(demo[f"lamplight-crossing/{size}/cut/index.md"])
        given: dict[str, Fraction] = {}
        for shown in page.shown:
            if match := re.fullmatch(r"/cutting/(\d+)/gives/(\w+)", shown.place):
                times = booklet["cutting"][int(match[1])]["times"]
                given[match[2]] = given.get(match[2], Fraction(0)) + times * int(shown.value)
        for patch in booklet["patches"]:
            if patch["shape"] != "strip":
                pieces = {"rectangle": 1, "halved": 2, "quartered": 4}[patch["shape"]]
                assert given[patch["label"]] * pieces == patch["count"] + patch["spare"], (size, patch["label"])


def test_the_cutting_page_tells_how_a_print_with_an_up_lies_and_where_it_will_not_stand_upright() -> None:
    """Strips across lie on their side at two edges, triangles each their own way (common practice, no source)."""
    pages = published(UPRIGHT, "upright")
    cut = text_of(read_page(pages["upright/lap/cut/index.md"]))
    leaf, plain = cut.split("Fabric A: Leaf")[1].split("Fabric B: Plain")
    assert "No patch is turned in the cut. Its border strips run across the fabric: at the left and the right" in leaf
    assert "Its border strips run along the fabric: at the top and the bottom" in leaf
    assert "Note for each triangle which way its long edge lay." in leaf
    assert "Cut one of the squares from the lower left to the upper right" in leaf
    assert not any(words in plain for words in ("up and a down", "upright", "on its side"))


UPRIGHT = """
title: Upright
version: 1.0.0
fabrics:
  leaf: {title: Leaf, source: yardage, directional: true}
  plain: {title: Plain, source: yardage}
blocks: {four: {grid: [LP, PL], key: {L: leaf 4 x 4, P: plain 4 x 4}}}
setting: {set: on-point, blocks: [[four]], triangles: {fabric: leaf}}
borders:
  - {fabric: leaf, width: 2}
  - {fabric: leaf, width: 3, cut: lengthwise}
  - {fabric: plain, width: 1, corner: mitred}
sizes: {lap: {blocks: 2 x 3}}
"""


def test_the_cutting_page_asks_for_a_measure_where_strips_take_the_whole_width() -> None:
    """Eight squares of 5 in fill 40 in, which a fabric sold as 40 in wide need not give; eleven of 3 1/2 do not."""
    pages = published(FILLED, "filled")
    wide, narrow = text_of(read_page(pages["filled/lap/cut/index.md"])).split("Fabric A: Five")[1].split("Fabric B:")
    assert "usable width. Some strips use all of it: measure yours before you cut." in wide
    assert "Some strips use all of it" not in narrow


def test_the_page_of_a_pattern_names_the_fabrics_of_every_size_not_only_of_the_first() -> None:
    """One block is sewn of one fabric; a larger size takes a second block and sashes beside it."""
    page = text_of(read_page(published(GROWING, "growing")["growing/index.md"]))
    amounts = page.split("Fabric for every size")[1]
    order = [amounts.index(title) for title in ("A First", "B Second", "C Third", "D Backing", "Batting")]
    assert order == sorted(order)
    assert "to 10 yd" not in page, "a range whose ends are alike is no range"


def test_the_page_of_a_pattern_says_what_will_be_sewn_so_that_makers_see_whether_it_is_for_them() -> None:
    """Whatever way a unit is made has its word, in the order of the work; that of a join goes without saying."""
    assert set(get_args(get_type_hints(Unit)["how"])) - {"patch", "join"} <= set(TECHNIQUES)
    growing, upright = (published(text, "some")["some/index.md"] for text in (GROWING, UPRIGHT))
    assert "What you will sew: sashing." in text_of(read_page(growing))
    assert "sew: blocks on point with setting triangles, mitred corners." in text_of(read_page(upright))
    of_columns = techniques([accepted("market-day", "lap")])  # of a quilt without a sash that would have to match
    assert "columns" in of_columns
    assert "sashing" not in of_columns


def test_a_pattern_without_a_binding_says_so_where_fabric_is_bought_and_where_it_would_be_sewn(
    demo: dict[str, bytes],
) -> None:
    """A quilt has to be bound; what is missing from a list is an erratum that makers find in the shop, or too late."""
    without = published(GROWING, "growing")
    assert "No fabric for a binding is in this list" in text_of(read_page(without["growing/small/buy/index.md"]))
    assert "The pattern leaves the binding to you" in text_of(read_page(without["growing/small/finish/index.md"]))
    bound = text_of(read_page(demo["lamplight-crossing/crib/print/index.md"]))
    assert "for a binding is in this list" not in bound
    assert "leaves the binding to you" not in bound


def test_panels_of_a_back_are_joined_with_the_seam_that_they_were_reckoned_with_whatever_that_of_the_blocks() -> None:
    """A join loses an inch, two seams of 1/2 in (quiltingboard.com t290638): of 1.25 cm where a ruler shows no 1.27."""
    wide = GROWING.replace("sizes:", "seam: 3/8\nsizes:").replace("1 x 1", "12 x 12")
    page = text_of(read_page(published(wide, "growing")["growing/small/finish/index.md"]))
    assert "with seams of 1/2 in. Press open." in page
    metric = wide.replace("seam: 3/8", "unit: cm").replace("12 x 12", "40 x 40")
    page = text_of(read_page(published(metric, "growing")["growing/small/finish/index.md"]))
    assert "with seams of 1.25 cm. Press open." in page


def test_no_ring_is_spoken_of_where_a_match_point_lies_on_an_open_seam() -> None:
    """Two like rows of one fabric meet in one point: rings mark what clashes, and nothing clashes here."""
    same = GROWING.replace("left: one 4 x 4", "left: {grid: [LL, LL], key: {L: one 2 x 2}}")
    page = text_of(read_page(published(same, "growing")["growing/small/piece/index.md"]))
    assert "0 of 1 match points in it nest. Elsewhere a seam is pressed open: match it and pin." in page


GROWING = """
title: Growing
version: 1.0.0
fabrics:
  one: {title: First, source: yardage}
  two: {title: Second, source: yardage}
  three: {title: Third, source: yardage}
blocks: {left: one 4 x 4, right: {row: [two 2 x 4, two 2 x 4]}}
setting: {set: straight, blocks: [[left, right]], sashing: {fabric: three, width: 1}}
sizes: {small: {blocks: 1 x 1}, large: {blocks: 2 x 2}}
"""
FILLED = """
title: Filled
version: 1.0.0
fabrics: {five: {title: Five, source: yardage}, three: {title: Three, source: yardage}}
blocks: {two: {row: [five 4 1/2 x 4 1/2, {column: [three 3 x 3, three 3 x 1 1/2]}]}}
setting: {set: straight, blocks: [[two]]}
sizes: {lap: {blocks: 4 x 4}}
"""


def test_the_quilting_keeps_out_of_seams_that_are_pressed_open_where_there_are_any(demo: dict[str, bytes]) -> None:
    """A ditch has a low side, which an open seam has not (common practice, no source); here those of the mitres."""
    open_ = text_of(read_page(published(UPRIGHT, "upright")["upright/lap/finish/index.md"]))
    pressed = text_of(read_page(demo["lamplight-crossing/crib/finish/index.md"]))
    assert "stitch on its low side" in open_
    assert "stitch on its low side" in pressed
    assert "Do not stitch in a seam that is pressed open" in open_
    assert "pressed open: nothing but" not in pressed


def test_the_prints_of_each_block_stand_beside_their_colours() -> None:
    """A block lists its prints fabric by fabric and role by role; each colour is that of its own bundle."""
    files = published(SASHED, "sashed")
    booklet = json.loads(files["sashed/mat/booklet.json"])
    bundles = {fabric["id"]: fabric for fabric in booklet["fabrics"]}
    page = html.unescape(files["sashed/mat/layout/index.md"].decode())
    roles = {"nine": ["bits", "more"], "five": ["more"]}
    for index, place in enumerate(booklet["places"]):
        for position, fabric in enumerate(roles.get(place["unit"].removesuffix(".B"), [])):
            number = place["prints"][position]
            colour = bundles[fabric]["colours"][bundles[fabric]["pieces"][number - 1]]
            data = f'<data value="{number}" data-from="/places/{index}/prints/{position}"'
            label = {"bits": "A", "more": "C"}[fabric]
            assert re.search(rf'>{label}\d</b> <span[^>]*><span[^>]*background:{colour}"></span></span> {data}', page)


@pytest.mark.parametrize("name", ["sashed/mat", "lamplight-crossing/crib", "lamplight-crossing/queen"])
def test_the_cutting_page_says_which_numbered_pieces_are_cut_how(demo: dict[str, bytes], name: str) -> None:
    """The numbers run on over the sheets of a bundle, and the layout takes each label from pieces that give it."""
    files = published(SASHED, "sashed") if name.startswith("sashed") else demo
    booklet = json.loads(files[f"{name}/booklet.json"])
    text = text_of(read_page(files[f"{name}/cut/index.md"]))
    giving: dict[str, set[int]] = {}
    for fabric in (fabric for fabric in booklet["fabrics"] if fabric["source"] != "yardage"):
        numbers: list[int] = []
        for sheet in (sheet for sheet in booklet["cutting"] if sheet["fabric"] == fabric["id"]):
            first, last = sheet["pieces"]
            several = f"Take {sheet['times']} pieces of fabric {fabric['letter']}, numbers {first} to {last}."
            one = f"Take 1 piece of fabric {fabric['letter']}, number {first}."
            assert (several if sheet["times"] > 1 else one) in text
            numbers += range(first, last + 1)
            for label in sheet["gives"]:
                giving.setdefault(label, set()).update(range(first, last + 1))
        assert numbers == list(range(1, fabric["need"] + 1))
    layout = files[f"{name}/layout/index.md"].decode()
    told = re.findall(r'<span class="sl-print">(.*?)<span.*?<data value="(\d+)"', layout)
    assert len(told) == sum(len(place["prints"]) for place in booklet["places"])
    for labels, number in told:
        assert all(int(number) in giving[label] for label in re.findall(r">(\w+)<", labels))


def test_publishing_twice_gives_the_same_bytes() -> None:
    done = finished(SMALL, "small-pond")
    again = publish_pattern(done.pattern, done.booklets, done.figures, load_templates(), proved=True)
    assert list(again.items()) == list(published(SMALL, "small-pond").items())


def test_a_fault_page_shows_every_problem_as_text() -> None:
    problems = ["a.yaml:3:4: found <b>, expected *x*", "a.yaml:9:1: found `y`, expected z"]
    files = publish_fault("a", "Not & yet", problems, load_templates())
    assert list(files) == ["a/index.md"]
    page = read_page(files["a/index.md"])
    assert "b" not in page.tags
    assert all(problem in html.unescape(files["a/index.md"].decode()) for problem in problems)
