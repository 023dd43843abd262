"""How long everything takes, and how that grows; all in one run, so that a busy machine slows every part alike.

    python tests/bench/speed.py core [PATTERNS, 20]     processor seconds a booklet by stage: plan, draw, JSON, prove
    python tests/bench/speed.py growth                  the same for quilts of 10 to 2,500 blocks, with log-log slopes
    python tests/bench/speed.py site [PATTERNS, 10]     a site of five sizes each, cold, unchanged, and bare MkDocs
    python tests/bench/speed.py edit [PATTERNS, 10]     one pattern edited under serve until its page is new
    python tests/bench/speed.py compare NEW [OLD]       ratios of a run beside the accepted ones; exit status 1: slower

The first four print a table, and with --json FILE write it as JSON too. Ratios are accepted by copying such a file to
tests/bench/accepted.json. Seconds are of the processor, with all child processes, but for ``edit``. The patterns are
those of the suite's strategy, always the same ones. ``site`` gives bare MkDocs the very pages and figures of the site.
"""

from __future__ import annotations

import argparse
import compileall
import functools
import gc
import json
import math
import resource
import signal
import socket
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from typing import Any

import yaml

sys.path[:0] = [str(Path(__file__).parents[1])]

from hypothesis import HealthCheck, Phase, given, settings

import seamleaf
from patterns_for_tests import file_of, pattern_of
from seamleaf.booklet import plan_booklets, to_json
from seamleaf.drawing import draw_figures
from seamleaf.planning import memory
from seamleaf.reading import Pattern, PatternError
from seamleaf.site.work.proving import prove_booklets
from strategies import patterns

SIZES = {"a": "2 x 2", "b": "3 x 3", "c": "3 x 4", "d": "4 x 4", "e": "4 x 5"}
ACCEPTED = Path(__file__).with_name("accepted.json")
SLOWER = 1.25
"""A ratio that grew by more than this is told; smaller changes are chance."""
NINE = {"nine": {"grid": ["DLD", "LDL", "DLD"], "key": {"D": "dark 2 x 2", "L": "light 2 x 2"}}}
GROWING = ("2 x 5", "5 x 5", "8 x 8", "16 x 16", "25 x 25", "50 x 50")
STAGES = ("plan", "draw", "json", "prove")
CONFIG = """\
site_name: Bench
site_url: ""
docs_dir: pages
theme: {name: material, font: false, features: [navigation.prune]}
extra: {generator: false}
"""
DUMP = """\
from pathlib import Path
from mkdocs.plugins import event_priority

@event_priority(-100)
def on_files(files, *, config):
    for file in files:
        if file.generated_by is not None:
            path = Path("bare") / file.src_uri
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(file.content_bytes)
"""
"""A hook that leaves what the plugin made, for bare MkDocs."""


def drawn(count: int) -> list[dict[str, Any]]:
    """Draw the sections of so many patterns that can be cut, in five sizes each."""
    found: list[dict[str, Any]] = []

    def keep(sections: dict[str, Any]) -> None:
        if len(found) < count:
            sections = sections | {"sizes": {name: {"blocks": blocks} for name, blocks in SIZES.items()}}
            try:
                plan_booklets(pattern_of(**dict(sections)), thorough=False)
            except PatternError:
                return
            found.append(sections)

    run = settings(
        max_examples=count * 3, deadline=None, derandomize=True, database=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )(given(patterns())(keep))  # fmt: skip
    run()
    return found


def stages(pattern: Pattern, size: str) -> dict[str, float]:
    """Return the processor seconds of every stage of one booklet, with no plan remembered."""
    memory._recent.clear()
    gc.collect()
    gc.freeze()  # what made the patterns up is not looked through again and again while they are planned
    at = [time.process_time()]
    booklet = plan_booklets(pattern, [size])[size]
    at.append(time.process_time())
    draw_figures(booklet)
    at.append(time.process_time())
    to_json(booklet)
    at.append(time.process_time())
    findings = prove_booklets(pattern.id, {size: booklet})
    at.append(time.process_time())
    assert findings == []
    return {stage: at[index + 1] - at[index] for index, stage in enumerate(STAGES)}


def core(count: int) -> dict[str, float]:
    """Return the median, and the slowest in twenty, of each stage and of all."""
    all_of: dict[str, list[float]] = {stage: [] for stage in (*STAGES, "all")}
    for sections in drawn(count):
        pattern = pattern_of(**dict(sections))
        for size in pattern.sizes:
            took = stages(pattern, size)
            for stage, seconds in (took | {"all": sum(took.values())}).items():
                all_of[stage].append(seconds)
    result: dict[str, float] = {"booklets": len(all_of["all"])}
    for stage, seconds in all_of.items():
        result[f"{stage}, median"] = statistics.median(seconds)
        result[f"{stage}, 95 %"] = sorted(seconds)[len(seconds) * 95 // 100]
    return result | {f"ratio {stage} : all": result[f"{stage}, median"] / result["all, median"] for stage in STAGES}


def growth() -> dict[str, float]:
    """Return the seconds of each stage by blocks, and the slope from a hundred-odd blocks on."""
    result: dict[str, float] = {}
    seen: dict[str, list[tuple[float, float]]] = {stage: [] for stage in STAGES}
    for blocks in GROWING:
        across, down = map(int, blocks.split(" x "))
        for stage, seconds in stages(pattern_of(NINE, size=blocks), "one").items():
            result[f"{stage}, {across * down} blocks"] = seconds
            if across * down >= 64:
                seen[stage].append((math.log(across * down), math.log(seconds)))
    for stage, points in seen.items():
        result[f"ratio slope {stage}"] = statistics.linear_regression(*zip(*points, strict=True)).slope
    return result


def make_site(folder: Path, count: int) -> None:
    """Write a site of so many patterns."""
    (folder / "pages").mkdir()
    (folder / "bare").mkdir()
    (folder / "dump.py").write_text(DUMP, encoding="utf-8")
    home = "# Bench\n\nPatterns.\n"
    for name in ("pages", "bare"):
        (folder / name / "index.md").write_text(home, encoding="utf-8")
    for number, sections in enumerate(drawn(count)):
        (folder / "pages" / f"p{number}.yaml").write_bytes(file_of(**dict(sections)))
    ours = yaml.safe_load(CONFIG) | {"plugins": ["search", "seamleaf"]}
    for name, config in {
        "ours": ours,
        "dump": ours | {"hooks": ["dump.py"]},
        "bare": yaml.safe_load(CONFIG) | {"docs_dir": "bare", "plugins": ["search"], "site_dir": "bare-site"},
    }.items():
        (folder / f"{name}.yml").write_text(yaml.safe_dump(config), encoding="utf-8")


def timed(folder: Path, *command: str) -> tuple[float, float, float]:
    """Run a command; return processor seconds, seconds, and the most memory in MiB that one of its processes took."""
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run([sys.executable, "-m", *command], cwd=folder, check=True, capture_output=True)
    after, taken = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter() - begun
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return spent, taken, after.ru_maxrss / 1024


def site(count: int) -> dict[str, float]:
    """Return what a cold build takes, one with nothing changed, and bare MkDocs on the same pages.

    All modules are compiled before, as they are where a program was installed.
    """
    compileall.compile_dir(str(Path(seamleaf.__file__).parent), quiet=1)
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        make_site(folder, count)
        cold = timed(folder, "seamleaf.site", "build", "--config-file", "ours.yml")
        again = timed(folder, "seamleaf.site", "build", "--config-file", "ours.yml")
        timed(folder, "seamleaf.site", "build", "--config-file", "dump.yml")
        bare = timed(folder, "mkdocs", "build", "-f", "bare.yml")
        pages, bare_pages = (sum(1 for _ in (folder / name).rglob("*.html")) for name in ("site", "bare-site"))
        assert pages == bare_pages
    result: dict[str, float] = {"patterns": count, "pages": pages}
    for name, (spent, taken, memory_) in {"cold": cold, "unchanged": again, "bare MkDocs": bare}.items():
        result |= {f"{name}, processor s": spent, f"{name}, s": taken, f"{name}, peak MiB so far": memory_}
    by_clock = {"cold : bare, by the clock": cold[1] / bare[1], "unchanged : bare, by the clock": again[1] / bare[1]}
    return result | by_clock | {"ratio cold : bare": cold[0] / bare[0], "ratio unchanged : bare": again[0] / bare[0]}


def edit(count: int) -> dict[str, float]:
    """Return how long an edited title takes to show."""
    with tempfile.TemporaryDirectory() as scratch, socket.socket() as probe:
        folder = Path(scratch)
        make_site(folder, count)
        timed(folder, "seamleaf.site", "build", "--config-file", "ours.yml")
        probe.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{probe.getsockname()[1]}"
        probe.close()
        command = [sys.executable, "-m", "seamleaf.site", "serve", "--config-file", "ours.yml", "--dev-addr", address]
        served = subprocess.Popen(
            command,
            cwd=folder,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            # A shell's background job ignores the interrupt, and what it starts would too.
            preexec_fn=functools.partial(signal.signal, signal.SIGINT, signal.SIG_DFL),
        )
        try:
            wait_for(f"http://{address}/p0/", "A test")
            path, begun = folder / "pages" / "p0.yaml", time.perf_counter()
            path.write_bytes(path.read_bytes().replace(b"A test", b"Edited"))
            wait_for(f"http://{address}/p0/", "Edited")
            return {"patterns": count, "edit to page, s": time.perf_counter() - begun}
        finally:
            served.send_signal(signal.SIGINT)
            served.wait(timeout=60)


def wait_for(address: str, text: str, patience: float = 600) -> None:
    """Ask for a page until it holds a text."""
    end = time.monotonic() + patience
    while time.monotonic() < end:
        try:
            with urllib.request.urlopen(address, timeout=60) as answer:  # noqa: S310 -- loopback only
                if text in answer.read().decode():
                    return
        except OSError:
            pass
        time.sleep(0.02)
    raise TimeoutError(address)


def compare(new: Path, old: Path) -> int:
    """Print every ratio of a run beside the accepted one."""
    accepted, status = json.loads(old.read_text(encoding="utf-8")), 0
    for part, values in json.loads(new.read_text(encoding="utf-8")).items():
        old_values = accepted.get(part, {})
        if old_values.get("patterns") != values.get("patterns"):  # ratios grow with a site
            print(f"{part:8} of {values['patterns']} patterns: the accepted ones are of {old_values.get('patterns')}")
            continue
        for name, value in values.items():
            before = old_values.get(name)
            if name.startswith("ratio") and before is not None:
                slower = value > before * SLOWER
                status |= slower
                print(f"{part:8} {name:28} {before:8.2f} {value:8.2f} {'SLOWER' if slower else ''}")
    return status


def main() -> int:
    """Do what is asked."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("part", choices=("core", "growth", "site", "edit", "compare"))
    parser.add_argument("given", nargs="*")
    parser.add_argument("--json", type=Path)
    options = parser.parse_args()
    if options.part == "compare":
        return compare(*map(Path, [*options.given, ACCEPTED][:2]))
    makers = {"core": core, "site": site, "edit": edit}
    count = int(options.given[0]) if options.given else {"core": 20}.get(options.part, 10)
    result = growth() if options.part == "growth" else makers[options.part](count)
    for name, value in result.items():
        print(f"{name:32} {value:10.3f}")
    if options.json:
        kept = json.loads(options.json.read_text(encoding="utf-8")) if options.json.exists() else {}
        options.json.write_text(json.dumps(kept | {options.part: result}, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
