"""What DEVELOPERS.md and the glossaries of the rooms name exists: files, folders, functions and values of the tree."""

import ast
import re
from functools import cache
from importlib import import_module

import pytest
from support.source import FILES, ROOT, text

PAGE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
NAMED = re.compile(r"`([^`\n]+)`")
IN_FILE = re.compile(r"`([\w./]+)` \(((?:`\w+`(?:, )?)+)")
"""A file with names in brackets behind it, which are its own."""
DEFINED = re.compile(r"\b(?:def|class) (\w+)|^ *(\w+)(?:, \w+)*(?:: [^=\n]+)?(?: = |$)", re.MULTILINE)
"""Names that a source text defines: of functions, classes, constants and fields."""
NAME = re.compile(r"[A-Za-z_]\w*(?:\.\w+)*")
FILE = re.compile(r"[\w./]*(?:/|\.py|\.md|\.toml|\.json|/[a-z_0-9]+)")
MADE_UP = re.compile(r"\bNAME\b|_\dx$|^\.venv")
"""Files of the user, and whole rows of files."""
OTHERS = {"concurrent.futures", "rillwright.dialects", "click", "h11", "PYTHONPATH", "RILLWRIGHT_CAD_PYTHON"}
"""Names of libraries, of entry points, of a class of tolerances and of the environment."""
TREES = (*(p.parent.name for p in ROOT.glob("*/__init__.py")), "tests", "drawings", ".ci")


def named(page: str) -> list[str]:
    """What a page names between backticks, outside its blocks of code; of a command its first word that is a file."""
    told = NAMED.findall(re.sub(r"```.*?```", "", page, flags=re.DOTALL))
    return [next((word for word in one.split() if word.endswith(".py")), one) for one in told]


@cache
def paths() -> frozenset[str]:
    """Every file and folder of the tree, whole and by each of its ends, and without the ending of the file."""
    found = set()
    for path in (path for tree in TREES for path in [ROOT / tree, *(ROOT / tree).rglob("*")]):
        parts = path.relative_to(ROOT).parts
        ends = {"/".join(parts[at:]) for at in range(len(parts))}
        found |= ends | {end.rsplit(".", 1)[0] for end in ends}
    return frozenset(found)


def defined(source: str) -> set[str]:
    """Names that a source text defines."""
    return {name for pair in DEFINED.findall(source) for name in pair if name}


@cache
def names() -> frozenset[str]:
    """All names that the sources and the tests define."""
    return frozenset().union(*(defined(text(path)) for path in [*FILES, *(ROOT / "tests").rglob("*.py")]))


def missing(told: str) -> bool:
    """True for what reads like a file or a name and is none in the tree."""
    if {told.rstrip("/"), told.replace(".", "/")} & (OTHERS | paths() | names()) or MADE_UP.search(told):
        return False
    owner, _, name = told.rpartition(".")
    if FILE.fullmatch(told) or not owner or not NAME.fullmatch(told):
        return bool(FILE.fullmatch(told) or NAME.fullmatch(told))
    place = owner.replace(".", "/")
    files = [p for p in FILES if str(p.with_suffix("")).endswith((f"/{place}", f"/{place}/__init__"))]
    return not any(re.search(rf"\b{name}\b", text(p)) for p in files) and not {owner, name} <= names()


def of_their_file(page: str) -> list[tuple[str, str]]:
    """(file, name) for each name in brackets behind a file."""
    return [(file, name) for file, told in IN_FILE.findall(page) for name in NAMED.findall(told)]


def test_the_page_names_what_is_there():
    assert [one for one in named(PAGE) if missing(one)] == []


@pytest.mark.parametrize(("file", "name"), of_their_file(PAGE))
def test_a_name_behind_a_file_is_defined_in_it(file, name):
    ends = (f"/{file}", f"/{file}.py")
    assert [p for p in FILES if str(p).endswith(ends) and name in defined(text(p))]


def test_the_glossaries_name_what_is_there():
    rooms = [p for p in FILES if p.name == "__init__.py"]
    told = {p: named(ast.get_docstring(ast.parse(text(p))) or "") for p in rooms}
    assert [(str(p.relative_to(ROOT)), one) for p in rooms for one in told[p] if missing(one)] == []


@pytest.mark.parametrize(
    "told", ["extractor/no_such_file.py", "no_such_file.py", "no_such_folder/", "no_such_name", "Dialect.no_such_field"]
)
def test_the_check_of_names_can_fail(told):
    assert missing(told)
    assert not missing("Dialect.grid")


def test_the_check_of_files_can_fail():
    found = of_their_file("`viewing/gaps.py` (`close`, `_wide`: as far as that)")
    assert found == [("viewing/gaps.py", "close"), ("viewing/gaps.py", "_wide")]
    assert defined("def close(a):\n    b: int = 3\nclass C:\n    d: str\nE, F = 1, 2\n") == {
        "close",
        "b",
        "C",
        "d",
        "E",
    }


def test_the_changes_that_nothing_notices_are_of_lines_that_stand_there(monkeypatch):
    """Where a line has changed, look at its change anew, or take it out of the list."""
    monkeypatch.syspath_prepend(str(ROOT / "tests" / "bench"))
    listed = import_module("operator_equivalents").EQUIVALENT
    gone = [(file, line) for file, line, *_ in listed if line not in text(ROOT / file)]
    assert listed
    assert gone == []


def test_the_rooms_whose_operators_are_changed_have_their_files(monkeypatch):
    monkeypatch.syspath_prepend(str(ROOT / "tests" / "bench"))
    told = [one for room in import_module("operator_rooms").ROOMS.values() for words in room for one in words.split()]
    assert [one for one in told if not list(ROOT.glob(one))] == []
