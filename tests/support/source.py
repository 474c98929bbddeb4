"""The project's own source as the house's tests read it: each file is parsed once."""

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
ROOMS = ("extractor", "planner", "postproc", "rillwright")
FILES = tuple(sorted(path for room in ROOMS for path in (ROOT / room).rglob("*.py")))


@cache
def nodes(source: str) -> tuple[ast.AST, ...]:
    """Every node of a source text, outermost first."""
    return tuple(ast.walk(ast.parse(source)))


@cache
def text(path: Path) -> str:
    """A file's text."""
    return path.read_text(encoding="utf-8")
