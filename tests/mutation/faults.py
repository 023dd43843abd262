"""Small faults that can be put into a module: a comparison turned, a sum made a difference, a condition negated."""

from __future__ import annotations

import ast
import importlib.abc
import importlib.machinery
import importlib.util
from dataclasses import dataclass
from types import ModuleType

from mutation.reach import SOURCE

_COMPARED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_COUNTED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.FloorDiv, ast.FloorDiv: ast.Mult, ast.Mod: ast.FloorDiv}


@dataclass(frozen=True, slots=True)
class Mutant:
    """One fault: the ``index``-th that can be put into a module."""

    module: str
    """Path below the package."""
    index: int
    line: int
    function: str
    """Its innermost function, as ``first line name``; empty outside of functions."""
    change: str
    """``before -> after``."""

    @property
    def name(self) -> str:
        """What it is called whatever stands above it in the module."""
        return f"{self.module} {self.function.partition(' ')[2] or '-'}: {self.change}"

    @property
    def reached(self) -> str:
        """Its function as :mod:`mutation.reach` writes it; the module alone outside of functions."""
        return f"{self.module}:{self.function.partition(' ')[0]}".rstrip(":")


class Planter(ast.NodeTransformer):
    """Counts the faults that a module can have, and plants one of them."""

    def __init__(self, wanted: int | None = None) -> None:
        self.wanted = wanted
        self.found: list[tuple[int, str, str]] = []
        self._inside = [""]

    def _note(self, node: ast.AST, change: str) -> bool:
        self.found.append((getattr(node, "lineno", 0), self._inside[-1], change))
        return len(self.found) - 1 == self.wanted

    def _plant(self, node: ast.AST, changed: ast.AST) -> ast.AST:
        here = self._note(node, f"{ast.unparse(node)[:70]} -> {ast.unparse(changed)[:70]}")
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
        if self._note(node, f"if {name} -> if not {name}"):
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
        first = min([node.lineno, *(each.lineno for each in node.decorator_list)])
        self._inside.append(f"{first} {node.name}")
        node.body = [self.visit(statement) for statement in node.body]
        self._inside.pop()
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        """Leave bases and decorators alone."""
        node.body = [self.visit(statement) for statement in node.body]
        return node


def mutants_of(module: str) -> list[Mutant]:
    """Return every fault that can be put into a module."""
    planter = Planter()
    planter.visit(ast.parse((SOURCE / module).read_text(encoding="utf-8")))
    return [Mutant(module, index, *found) for index, found in enumerate(planter.found)]


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
