"""How long and how branched code is, read from its text."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass

BRANCHES = (ast.If, ast.IfExp, ast.For, ast.AsyncFor, ast.While, ast.ExceptHandler)
Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Measured:
    """One function: its name, its lines apart from the docstring, its cyclomatic complexity."""

    name: str
    n_lines: int
    complexity: int


def n_lines(text: str) -> int:
    """Return how many lines a file has."""
    return len(text.splitlines())


def functions(text: str) -> list[Measured]:
    """Measure every function and method in a module."""
    found = [node for node in ast.walk(ast.parse(text)) if isinstance(node, Function)]
    return [Measured(f.name, body_lines(f), complexity(f)) for f in found]


def body_lines(function: Function) -> int:
    """Return the lines of a function without its docstring and decorators."""
    total = (function.end_lineno or function.lineno) - function.lineno + 1
    first = function.body[0]
    if ast.get_docstring(function) is not None:
        total -= (first.end_lineno or first.lineno) - first.lineno + 1
    return total


def complexity(function: Function) -> int:
    """Return 1 and one more for each place where the way through the function forks."""
    forks = 0
    for node in own_nodes(function):
        if isinstance(node, BRANCHES):
            forks += 1
        elif isinstance(node, ast.Match):
            forks += len(node.cases) - 1
        elif isinstance(node, ast.comprehension):
            forks += len(node.ifs)  # a plain comprehension goes one way, a filtered one forks
    return 1 + forks


def own_nodes(function: Function) -> Iterator[ast.AST]:
    """Walk a function but not the functions inside it: they are measured by themselves."""
    waiting: list[ast.AST] = list(ast.iter_child_nodes(function))
    while waiting:
        node = waiting.pop()
        yield node
        if not isinstance(node, Function):
            waiting.extend(ast.iter_child_nodes(node))


def share_within(sizes: list[int], limit: int) -> float:
    """Return the share of sizes that keep a limit; 1 when there is none."""
    return sum(size <= limit for size in sizes) / len(sizes) if sizes else 1.0
