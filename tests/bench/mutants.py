"""Mutation testing of sizing and planning: small faults are put in, and the suite or the proof must see them.

    python tests/bench/mutants.py [--count 60] [--seed 1] [--workers 2] [MODULE ...]

Draws a sample of faults: a comparison turned, a sum made a difference, a number one larger, a condition negated. Each
runs in a process of its own against a fast part of the suite: the booklets of three demo patterns must be those that
the sound program makes, as the golden tests ask, and the tests of the layer must pass. What survives is listed with its
line, to be killed by a test or explained in ``EQUAL``.
"""

from __future__ import annotations

import argparse
import ast
import importlib.abc
import importlib.machinery
import importlib.util
import os
import random
import resource
import sys
import traceback
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "generator" / "seamleaf"
LAYERS = {
    "planning/prints": ["tests/planning/prints"],
    "sizing": ["tests/sizing", "tests/reading/test_limits.py"],
    "planning": ["tests/planning", "tests/booklet"],
    "planning/cutting": ["tests/planning/cutting", "tests/planning/test_yardage.py"],
    "planning/piecing": [
        "tests/planning/test_units.py",
        "tests/planning/test_block_cuts.py",
        "tests/planning/test_twins.py",
    ],
    "planning/pressing": ["tests/planning/test_pressing.py", "tests/planning/test_colouring.py"],
}
"""Folders of the program, and the tests that their faults are run against."""

DEMOS = (("kitchen-garden", "table"), ("lamplight-crossing", "crib"), ("millrace", "crib"))
CPU_SECONDS = 90
"""What a fault may make the program take before it counts as seen: the suite would not end."""

EQUAL: dict[str, str] = {}
"""Faults that change nothing that can be seen, by ``module:line: before -> after``, with the reason."""

_COMPARED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_COUNTED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.FloorDiv, ast.FloorDiv: ast.Mult, ast.Mod: ast.FloorDiv}


@dataclass(frozen=True, slots=True)
class Mutant:
    """One fault: the ``index``-th that can be put into a module."""

    module: str
    index: int
    name: str


class Planter(ast.NodeTransformer):
    """Counts the faults that a module can have, and plants one of them."""

    def __init__(self, wanted: int | None = None) -> None:
        self.wanted = wanted
        self.names: list[str] = []

    def _plant(self, node: ast.AST, changed: ast.AST) -> ast.AST:
        line = getattr(node, "lineno", 0)
        self.names.append(f"{line}: {ast.unparse(node)[:70]} -> {ast.unparse(changed)[:70]}")
        here = len(self.names) - 1 == self.wanted
        return ast.copy_location(changed, node) if here else node

    def visit_Compare(self, node: ast.Compare) -> ast.AST:
        """Turn the first comparison."""
        self.generic_visit(node)
        turned = _COMPARED.get(type(node.ops[0]))
        if turned is None:
            return node
        return self._plant(node, ast.Compare(node.left, [turned(), *node.ops[1:]], node.comparators))

    def visit_BinOp(self, node: ast.BinOp) -> ast.AST:
        """Make a sum a difference, a product a quotient."""
        self.generic_visit(node)
        other = _COUNTED.get(type(node.op))
        text = isinstance(node.left, ast.JoinedStr) or isinstance(getattr(node.left, "value", None), str)
        if other is None or text:
            return node
        return self._plant(node, ast.BinOp(node.left, other(), node.right))

    def visit_BoolOp(self, node: ast.BoolOp) -> ast.AST:
        """Make ``and`` an ``or``."""
        self.generic_visit(node)
        other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        return self._plant(node, ast.BoolOp(other, node.values))

    def visit_If(self, node: ast.If) -> ast.AST:
        """Negate a condition."""
        self.generic_visit(node)
        name = ast.unparse(node.test)[:70]
        self.names.append(f"{node.lineno}: if {name} -> if not {name}")
        if len(self.names) - 1 == self.wanted:
            node.test = ast.copy_location(ast.UnaryOp(ast.Not(), node.test), node.test)
        return node

    def visit_Constant(self, node: ast.Constant) -> ast.AST:
        """Make a whole number one larger, a truth value the other."""
        if isinstance(node.value, bool):
            return self._plant(node, ast.Constant(not node.value))
        if isinstance(node.value, int):
            return self._plant(node, ast.Constant(node.value + 1))
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST:
        """Leave annotations alone."""
        if node.value is not None:
            node.value = self.visit(node.value)
        return node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        """Leave annotations and decorators alone."""
        node.body = [self.visit(statement) for statement in node.body]
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        """Leave bases and decorators alone."""
        node.body = [self.visit(statement) for statement in node.body]
        return node


def mutants_of(module: str) -> list[Mutant]:
    """Return every fault that can be put into a module."""
    planter = Planter()
    planter.visit(ast.parse((SOURCE / module).read_text(encoding="utf-8")))
    return [Mutant(module, index, f"{module}:{name}") for index, name in enumerate(planter.names)]


def mutated(mutant: Mutant) -> ast.Module:
    """Return a module with its fault."""
    tree = Planter(mutant.index).visit(ast.parse((SOURCE / mutant.module).read_text(encoding="utf-8")))
    return ast.fix_missing_locations(tree)


class Faulty(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Loads one module with its fault."""

    def __init__(self, mutant: Mutant) -> None:
        self.name = "seamleaf." + mutant.module.removesuffix(".py").replace("/", ".")
        self.path = SOURCE / mutant.module
        self.code = compile(mutated(mutant), str(self.path), "exec")

    def find_spec(self, fullname: str, *_: object) -> importlib.machinery.ModuleSpec | None:
        """Answer for the one module."""
        return importlib.util.spec_from_loader(fullname, self, origin=str(self.path)) if fullname == self.name else None

    def exec_module(self, module: ModuleType) -> None:
        """Run it."""
        module.__file__ = str(self.path)
        exec(self.code, module.__dict__)  # noqa: S102 -- what runs is our own source with one fault in it


def demo_booklets() -> Iterator[str]:
    """Yield the booklets of the demo patterns as the program makes them."""
    from seamleaf.booklet import plan_booklets, to_json
    from seamleaf.site.pipeline import read_checked

    for pattern_id, size in DEMOS:
        pattern = read_checked((ROOT / "patterns" / f"{pattern_id}.yaml").read_bytes(), pattern_id)
        yield to_json(plan_booklets(pattern, [size])[size])


def run_tests(layer: str) -> int:
    """Run the tests of a layer, and return pytest's status."""
    import pytest

    options = [
        "-x",
        "-q",
        "-p",
        "no:cacheprovider",
        "-p",
        "no:xdist",
        "--no-header",
        "--deselect",
        "tests/planning/test_colouring_at_size.py",
    ]
    return int(pytest.main([*options, *(str(ROOT / each) for each in LAYERS[layer])]))


def judge(mutant: Mutant | None, layer: str, sound: list[str]) -> str:
    """Return what saw a fault: ``booklets``, ``tests``, or nothing; runs in a process of its own."""
    for name in [name for name in sys.modules if name == "seamleaf" or name.startswith("seamleaf.")]:
        del sys.modules[name]
    if mutant is not None:
        sys.meta_path.insert(0, Faulty(mutant))
    try:
        if any(made != right for made, right in zip(demo_booklets(), sound, strict=True)):
            return "booklets"
    except Exception:  # whatever it is, the suite would have seen it
        return "booklets"
    return "" if run_tests(layer) == 0 else "tests"


def hunt(mutant: Mutant | None, layer: str, sound: list[str]) -> str:
    """Fork, judge, and return what saw the fault; with no fault, what is wrong without one."""
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        resource.setrlimit(resource.RLIMIT_CPU, (CPU_SECONDS, CPU_SECONDS + 1))
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        try:
            seen = judge(mutant, layer, sound)
        except BaseException:  # a test that leaves the process has seen the fault as well
            traceback.print_exc()
            seen = "tests"
        os.write(writer, seen.encode())
        os._exit(0)
    os.close(writer)
    with os.fdopen(reader) as answer:
        seen = answer.read()
    _, status = os.waitpid(child, 0)
    return "time" if status else seen


def main() -> int:
    """Hunt a sample and tell what survived."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument(
        "modules", nargs="*", help="below generator/seamleaf; all of sizing and planning if none is named"
    )
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=2)
    options = parser.parse_args()
    os.chdir(ROOT)
    sys.path[:0] = [str(ROOT / "generator"), str(ROOT / "tests")]
    layer_of = {
        str(path.relative_to(SOURCE)): folder
        for folder in LAYERS
        for path in sorted((SOURCE / folder).glob("*.py"))
        if path.name not in ("__init__.py", "records.py")
    }
    modules = options.modules or sorted(layer_of)
    everything = [mutant for module in modules for mutant in mutants_of(module)]
    sample = random.Random(options.seed).sample(everything, min(options.count, len(everything)))
    sound = list(demo_booklets())
    # Hypothesis is left to every process: pytest wants to see it imported.
    import pytest  # noqa: F401 -- once here, and not again in every process

    for layer in sorted({layer_of[mutant.module] for mutant in sample}):
        if wrong := hunt(None, layer, sound):
            print(f"the {wrong} of {layer} fail without any fault: nothing can be told")
            return 1
    seen: dict[str, int] = {}
    survivors: list[str] = []
    with ThreadPoolExecutor(options.workers) as pool:
        for mutant, by in zip(
            sample, pool.map(lambda each: hunt(each, layer_of[each.module], sound), sample), strict=True
        ):
            print(f"{by or 'nothing'}: {mutant.name}", flush=True)
            excused = not by and mutant.name in EQUAL
            seen[by or ("equal" if excused else "nothing")] = seen.get(by or ("equal" if excused else "nothing"), 0) + 1
            if not by:
                survivors.append(f"{mutant.name}{'  (' + EQUAL[mutant.name] + ')' if excused else ''}")
                print("survives:", survivors[-1], flush=True)
    missed = seen.get("nothing", 0)
    print(f"{len(everything)} faults possible, {len(sample)} drawn: {seen}")
    print(f"{100 * (len(sample) - missed) // len(sample)} % seen")
    return int(missed * 10 > len(sample))


if __name__ == "__main__":
    sys.exit(main())
