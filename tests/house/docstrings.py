"""Do the public functions of the core say what goes in and what comes out?"""

import ast
import re
from collections.abc import Iterator

Function = ast.FunctionDef | ast.AsyncFunctionDef
PLAIN_DECORATORS = {"property", "cached_property", "override"}
UNDERLINE = r"\n\s*-{3,}\s*\n"


def complaints(text: str) -> list[str]:
    """Return what is missing from the docstrings of one module."""
    module = ast.parse(text)
    found = [] if ast.get_docstring(module) else ["the module says nothing of itself"]
    for name, function in public_functions(module):
        found += [f"{name}: {what}" for what in missing(function)]
    return found


def public_functions(module: ast.Module) -> Iterator[tuple[str, Function]]:
    """Yield public functions and the public methods of public classes."""
    for node in module.body:
        if isinstance(node, Function) and not node.name.startswith("_"):
            yield node.name, node
        elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for method in node.body:
                if isinstance(method, Function) and not method.name.startswith("_"):
                    yield f"{node.name}.{method.name}", method


def missing(function: Function) -> list[str]:
    """Return which parts of a numpydoc docstring a function lacks."""
    doc = ast.get_docstring(function)
    if doc is None:
        return ["no docstring"]
    if any(isinstance(d, ast.Name) and d.id in PLAIN_DECORATORS for d in function.decorator_list):
        return []
    told = section(doc, "Parameters")
    lacks = [f"parameter {name} not told" for name in parameters(function) if not tells(told, name)]
    if gives_back(function) and not (section(doc, "Returns") or section(doc, "Yields")):
        lacks.append("no Returns")
    return lacks


def parameters(function: Function) -> list[str]:
    """Return the names a caller fills."""
    given = function.args
    every = [*given.posonlyargs, *given.args, *given.kwonlyargs]
    every += [one for one in (given.vararg, given.kwarg) if one]
    return [one.arg for one in every if one.arg not in ("self", "cls")]


def gives_back(function: Function) -> bool:
    """Say whether a function is annotated to return something."""
    wanted = function.returns
    if wanted is None or (isinstance(wanted, ast.Constant) and wanted.value is None):
        return False
    return not (isinstance(wanted, ast.Name) and wanted.id in ("NoReturn", "Never"))


def section(doc: str, title: str) -> str:
    """Return the text under a numpydoc heading, up to the next one."""
    found = re.search(
        rf"(?:^|\n)\s*{title}{UNDERLINE}(.*?)(?=\n\s*\w[\w ]*{UNDERLINE}|\Z)", doc, re.S
    )
    return found[1] if found else ""


def tells(told: str, name: str) -> bool:
    """Say whether a Parameters section has a line for a name (`a, b : float` tells both)."""
    heads = [line.split(":")[0] for line in told.splitlines() if line and not line[0].isspace()]
    return any(name in re.split(r"[,\s*]+", head) for head in heads)
