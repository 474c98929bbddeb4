"""The house rules that a machine can hold: imports run one way."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
ORDER = ["extractor", "planner", "postproc", "rillwright"]
FILES = sorted(path for room in ORDER for path in (ROOT / room).rglob("*.py"))


def imported_rooms(source: str) -> set[str]:
    """Names of the top packages that a source text imports."""
    rooms = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            rooms |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            rooms.add(node.module.split(".")[0])
    return rooms & set(ORDER)


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(ROOT)))
def test_imports_run_one_way(path):
    room = path.relative_to(ROOT).parts[0]
    allowed = set(ORDER[: ORDER.index(room) + 1])
    assert imported_rooms(path.read_text()) <= allowed


def test_the_import_check_can_fail():
    assert imported_rooms("from postproc.program import Program") == {"postproc"}
