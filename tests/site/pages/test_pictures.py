"""Figures as PNG on demand, and a cover picture that other sites show beside a link."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import pytest
from PIL import Image

from published import SMALL, finished
from seamleaf.booklet import to_json
from seamleaf.drawing import draw_cover, draw_figures
from seamleaf.site.building.running import SiteError, build_site
from seamleaf.site.commands.command import main
from seamleaf.site.pages.pictures import cover_png


@pytest.fixture
def booklet_file(tmp_path: Path) -> Path:
    path = tmp_path / "booklet.json"
    path.write_text(to_json(finished(SMALL, "small").booklets["mat"]), encoding="utf-8")
    return path


def test_every_figure_becomes_a_picture_as_wide_as_asked(booklet_file: Path, tmp_path: Path) -> None:
    assert main(["figures", str(booklet_file), "--png", str(tmp_path / "out"), "--width", "300"]) == 0
    names = {path.stem for path in (tmp_path / "out").iterdir()}
    assert names == {figure.id for figure in draw_figures(finished(SMALL, "small").booklets["mat"])} | {"cover"}
    for path in (tmp_path / "out").glob("*.png"):
        with Image.open(path) as picture:
            assert picture.width == (1200 if path.stem == "cover" else 300)
            assert any(low < high for low, high in picture.convert("RGB").getextrema()), f"{path.name} is empty"


@pytest.mark.parametrize("width", ["0", "9000", "-5", "wide", "3.5"])
def test_a_width_that_is_none_is_refused(booklet_file: Path, width: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["figures", str(booklet_file), "--png", "out", f"--width={width}"])
    assert stopped.value.code == 2
    assert "expected pixels from 1 to 8000" in capsys.readouterr().err


def test_a_file_that_is_no_booklet_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "other.json"
    for text in ("{}", "[", json.dumps({"format": "seamleaf-booklet/1"})):
        path.write_text(text, encoding="utf-8")
        assert main(["figures", str(path), "--png", str(tmp_path / "out")]) == 1
        assert "no booklet" in capsys.readouterr().err
    assert main(["figures", str(tmp_path / "missing.json"), "--png", str(tmp_path / "out")]) == 1
    assert not (tmp_path / "out").exists()


def test_a_cover_shows_the_whole_quilt_in_the_shape_of_a_link_preview() -> None:
    booklet = finished(SMALL, "small").booklets["runner"]
    figure = draw_cover(booklet)
    assert figure.width / figure.height == pytest.approx(1200 / 630, rel=1e-3)
    with Image.open(io.BytesIO(cover_png(booklet))) as picture:
        assert picture.size == (1200, 630)
        corners = {picture.convert("RGB").getpixel(spot) for spot in ((0, 0), (1199, 0), (0, 629), (1199, 629))}
        assert corners == {(0xF3, 0xF1, 0xEC)}
        assert picture.convert("RGB").getpixel((600, 315)) not in corners


def site(tmp_path: Path, address: str) -> Path:
    (tmp_path / "patterns").mkdir()
    (tmp_path / "patterns" / "small.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(
        f"site_name: Pond\nsite_url: {address}\ndocs_dir: patterns\nuse_directory_urls: false\n"
        "theme: {name: material, font: false}\nplugins: [{seamleaf: {covers: true, paper: []}}]\n",
        encoding="utf-8",
    )
    return tmp_path / "mkdocs.yml"


def test_pages_of_a_pattern_name_its_cover_by_the_whole_address(tmp_path: Path) -> None:
    build_site(site(tmp_path, "https://pond.example/quilts"), None)
    page = (tmp_path / "site" / "small" / "index.html").read_text(encoding="utf-8")
    assert '<meta property="og:image" content="https://pond.example/quilts/small/cover.png">' in page
    assert re.search(r'<meta property="og:title" content="Small Pond">', page)
    assert (tmp_path / "site" / "small" / "cover.png").read_bytes()[:4] == b"\x89PNG"
    home = (tmp_path / "site" / "index.html").read_text(encoding="utf-8")
    assert "og:image" not in home


def test_covers_need_an_address(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    with pytest.raises(SiteError):
        build_site(site(tmp_path, '""'), None)
    assert "covers: true needs site_url" in caplog.text
    assert not (tmp_path / "site").exists()
