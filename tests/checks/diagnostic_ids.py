"""Finds every id that the program gives to a diagnostic, by reading the program."""

import ast
import re
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from bindoff.plan.rowcount import Trouble

PACKAGE = Path(__file__).parents[2] / "generator/bindoff"

_ID = re.compile(r"[a-z]+[.-][a-z]+(?:[.-][a-z]+)*")
_MAKERS = ("fail", "Diagnostic", "_found", "refuse")


@cache
def ids_used() -> dict[str, str]:
    """Every id but those of checks in the catalogue, with a place that uses it."""
    found: dict[str, str] = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        if "checks" not in path.parts or path.name == "engine.py":
            for id, line in _ids_of(path):
                found.setdefault(id, f"{path.relative_to(PACKAGE)}:{line}")
    for trouble in Trouble:
        found.setdefault(f"row.{trouble.replace(' ', '-')}", "plan/mismatch.py")
    return found


def _ids_of(path: Path) -> Iterator[tuple[str, int]]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    in_formula, in_rows = "formula" in path.parts, "rowlang" in path.parts
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else _name(node.func)
            texts = _texts(node.args)
            if name in _MAKERS:
                yield from ((text, node.lineno) for text in texts[:1] if _ID.fullmatch(text))
            elif in_formula and name in ("FormulaFaultError", "_fault") and texts:
                yield f"formula.{texts[0]}", node.lineno
            elif in_formula and name == "unknown":
                yield f"formula.unknown-{texts[0]}", node.lineno
            elif in_rows and name == "_wrong":
                yield f"row.{texts[0]}", node.lineno
            elif name in ("_known", "_declared") and texts:
                yield f"source.unknown-{texts[-1]}", node.lineno
        elif isinstance(node, ast.Return | ast.Tuple):
            # An id handed on with its message: the first text of a tuple.
            value = node.value if isinstance(node, ast.Return) else node
            if isinstance(value, ast.Tuple) and len(value.elts) >= 3:
                for text in _texts(value.elts[:1]):
                    if re.fullmatch(r"[a-z]+\.[a-z-]+", text):
                        yield text, node.lineno


def _name(node: ast.expr) -> str:
    return node.id if isinstance(node, ast.Name) else ""


def _texts(nodes: Iterable[ast.expr]) -> list[str]:
    constants = (node.value for node in nodes if isinstance(node, ast.Constant))
    return [value for value in constants if isinstance(value, str)]
