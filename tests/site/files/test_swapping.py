"""A site is replaced in one step: a kill, a full disk or another build at the same time leave a whole one."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from folders import files_below
from seamleaf.site.files import swapping
from seamleaf.site.files.output import LastSite, replacing
from seamleaf.site.files.swapping import WAITING, Scratch, exchange, take_place

FILES = 40
AGAIN = f"""\
import sys
from pathlib import Path
from seamleaf.site.files.output import replacing
for number in range(int(sys.argv[3])):
    with replacing(Path(sys.argv[1])) as fresh:
        for name in range({FILES}):
            (fresh / str(name)).write_text(f"{{sys.argv[2]}}-{{number}}")
"""
"""Replaces a site again and again; every file of one site says the same."""


def again(site: Path, word: str, times: int = 10**9) -> subprocess.Popen[bytes]:
    return subprocess.Popen([sys.executable, "-c", AGAIN, str(site), word, str(times)])


def make(folder: Path, word: str = "old") -> Path:
    for name in range(FILES):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / str(name)).write_text(word, encoding="utf-8")
    (folder / ".git").mkdir()
    (folder / ".git" / "HEAD").write_text("ref", encoding="utf-8")
    return folder


def words_of(site: Path) -> set[bytes]:
    files = {name: content for name, content in files_below(site).items() if not name.startswith(".git")}
    assert len(files) == FILES
    return set(files.values())


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux has the one step")
def test_a_kill_at_any_moment_leaves_a_whole_site_and_the_next_build_clears_up(tmp_path: Path) -> None:
    site = make(tmp_path / "site")
    moments = random.Random(27)
    for turn in range(12):
        process = again(site, f"turn {turn}")
        try:
            while not (site / "0").read_bytes().startswith(f"turn {turn}-".encode()):  # the site is there all the time
                assert process.poll() is None
            time.sleep(moments.random() * 0.05)
        finally:
            process.send_signal(signal.SIGKILL)
            process.wait(timeout=60)
        assert len(words_of(site)) == 1
    with replacing(site) as fresh:
        (fresh / "a").write_text("last", encoding="utf-8")
    assert files_below(site) == {"a": b"last", ".git/HEAD": b"ref"}
    assert list(tmp_path.iterdir()) == [site]


def test_builds_at_the_same_time_do_not_harm_each_other(tmp_path: Path) -> None:
    site = make(tmp_path / "site")
    processes = [again(site, word, 60) for word in ("one", "two", "three")]
    assert [process.wait(timeout=120) for process in processes] == [0, 0, 0]
    assert len(words_of(site)) == 1
    assert (site / ".git" / "HEAD").read_text(encoding="utf-8") == "ref"
    assert list(tmp_path.iterdir()) == [site]


@pytest.mark.parametrize("one_step", [True, False])
def test_names_with_a_dot_move_while_no_other_build_may_take_the_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, one_step: bool
) -> None:
    """Else the other one may throw the folder away into which they have just gone."""
    fcntl = pytest.importorskip("fcntl")
    if not one_step:
        monkeypatch.setattr(swapping, "exchange", lambda *_: False)
    site = make(tmp_path / "site")
    rename, is_free = Path.rename, []

    def watched(path: Path, target: Path) -> Path:
        if path.name == ".git":
            other = os.open(tmp_path, os.O_RDONLY)
            try:
                fcntl.flock(other, fcntl.LOCK_EX | fcntl.LOCK_NB)
                is_free.append(True)
            except BlockingIOError:
                is_free.append(False)
            finally:
                os.close(other)
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", watched)
    with replacing(site):
        pass
    last = LastSite(site)
    site.mkdir()
    last.let_go()
    assert (site / ".git" / "HEAD").is_file()
    assert is_free == [False, False]


def test_a_build_within_a_build_does_not_wait_for_itself(tmp_path: Path) -> None:
    """MkDocs, run by ``seamleaf build``, is given a new folder, and the plugin looks for a last site there."""
    with replacing(tmp_path / "site") as fresh:
        LastSite(fresh).let_go()
        (fresh / "a").touch()
    assert list(files_below(tmp_path)) == ["site/a"]


@pytest.mark.parametrize("one_step", [True, False])
def test_a_folder_takes_the_place_of_another(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, one_step: bool) -> None:
    if not one_step:
        monkeypatch.setattr(swapping, "exchange", lambda *_: False)
    folder, fresh = tmp_path / "site", make(tmp_path / "fresh", "new")
    take_place(fresh, folder, tmp_path / "waiting")
    assert words_of(folder) == {b"new"}
    fresh = make(tmp_path / "fresh", "newer")
    take_place(fresh, folder, tmp_path / "waiting")
    assert words_of(folder) == {b"newer"}
    assert words_of(fresh if one_step else tmp_path / "waiting") == {b"new"}


@pytest.mark.skipif(sys.platform != "linux", reason="as above")
def test_an_exchange_that_fails_says_why(tmp_path: Path) -> None:
    make(tmp_path / "one")
    with pytest.raises(FileNotFoundError):
        exchange(tmp_path / "one", tmp_path / "missing")


def left_behind(site: Path, *names: str) -> Path:
    """Leave a scratch folder as a killed build does."""
    path = Path(tempfile.mkdtemp(prefix=f".{site.name}-", dir=site.parent))
    for name in names:
        make(path / name, name)
    return path


def test_a_site_that_a_killed_build_had_put_aside_comes_back(tmp_path: Path) -> None:
    """As MkDocs' own command leaves it, or ``seamleaf build`` where the change of place takes two steps."""
    site = tmp_path / "site"
    left_behind(site, WAITING, "new")
    LastSite(site).give_back()
    assert words_of(site) == {WAITING.encode()}
    assert (site / ".git" / "HEAD").is_file()
    assert list(tmp_path.iterdir()) == [site]


def test_names_with_a_dot_come_back_from_a_build_that_was_killed_before_it_had_moved_them(tmp_path: Path) -> None:
    site = tmp_path / "site"
    site.mkdir()
    left_behind(site, "new")
    Scratch(site).close()
    assert files_below(tmp_path) == {"site/.git/HEAD": b"ref"}


def test_what_is_in_use_or_not_ours_is_left_alone(tmp_path: Path) -> None:
    site = make(tmp_path / "site")
    used = Scratch(site)
    make(used.path / "new")
    mine = left_behind(site, "new", "photographs")
    open_to_all = left_behind(site, "new")
    open_to_all.chmod(0o755)
    Scratch(site).close()
    assert all(words_of(path / "new") for path in (used.path, mine, open_to_all))
    used.close()
    assert not used.path.exists()


FULL = """\
import sys
from pathlib import Path
from seamleaf.site.files.output import replacing
try:
    with replacing(Path(sys.argv[1])) as fresh:
        (fresh / "large").write_bytes(bytes(4_000_000))
except OSError as fault:
    sys.exit(f"refused: {fault.strerror}")
"""


def test_a_disk_that_takes_no_more_leaves_the_site(tmp_path: Path) -> None:
    """The limit on the size of a file stands for the full disk, as not everybody may mount one."""
    site = make(tmp_path / "site")
    limited = "import resource; resource.setrlimit(resource.RLIMIT_FSIZE, (1_000_000, 1_000_000))\n" + FULL
    done = subprocess.run([sys.executable, "-c", limited, site], capture_output=True, text=True, timeout=60)
    assert done.returncode == 1
    assert done.stderr.startswith("refused: ")
    assert words_of(site) == {b"old"}
    assert list(tmp_path.iterdir()) == [site]


def test_a_full_disk_leaves_the_site(tmp_path: Path) -> None:
    mount = ["mount", "-t", "tmpfs", "-o", "size=1m", "none", str(tmp_path)]
    if os.geteuid() != 0 or subprocess.run(mount, capture_output=True, timeout=60).returncode != 0:
        pytest.skip("nobody may mount a disk here; the test above has the same fault by other means")
    try:
        site = make(tmp_path / "site")
        done = subprocess.run([sys.executable, "-c", FULL, site], capture_output=True, text=True, timeout=60)
        assert done.stderr == "refused: No space left on device\n"
        assert words_of(site) == {b"old"}
        assert list(tmp_path.iterdir()) == [site]
    finally:
        subprocess.run(["umount", str(tmp_path)], check=True, timeout=60)
