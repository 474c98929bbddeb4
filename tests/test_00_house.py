"""The house rules that a machine can hold: imports run one way, between the rooms and between their inner rooms."""

import ast
import importlib
import re
import tomllib
from graphlib import CycleError, TopologicalSorter

import pytest
from support.source import FILES, ROOMS, ROOT, nodes, text


def imported_rooms(source: str) -> set[str]:
    """Names of the top packages that a source text imports."""
    rooms = set()
    for node in nodes(source):
        if isinstance(node, ast.Import):
            rooms |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            rooms.add(node.module.split(".")[0])
    return rooms & set(ROOMS)


@pytest.mark.parametrize("room", ROOMS)
def test_imports_run_one_way(room):
    later = set(ROOMS[ROOMS.index(room) + 1 :])
    assert not [path for path in FILES if path.is_relative_to(ROOT / room) and imported_rooms(text(path)) & later]


def test_the_import_check_can_fail():
    assert imported_rooms("from postproc.program import Program") == {"postproc"}


def imported_inner_rooms(source: str, room: str) -> set[str]:
    """Names of a room's inner rooms, and of its modules at the top, that a source text imports; `room`: dotted."""
    names = set()
    for node in nodes(source):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return {name.removeprefix(f"{room}.").split(".")[0] for name in names if name.startswith(f"{room}.")}


def inner_imports(room: str) -> dict[str, set[str]]:
    """Which inner rooms each inner room of a room imports; `room`: dotted."""
    place = ROOT / room.replace(".", "/")
    graph: dict[str, set[str]] = {path.parent.name: set() for path in place.glob("*/__init__.py")}
    for name, targets in graph.items():
        for path in (place / name).rglob("*.py"):
            targets |= (imported_inner_rooms(text(path), room) & graph.keys()) - {name}
    return graph


@pytest.mark.parametrize("room", [*ROOMS, "extractor.sizing"])
def test_inner_rooms_import_in_no_circle(room):
    graph = inner_imports(room)
    assert graph
    list(TopologicalSorter(graph).static_order())


def test_viewing_and_geometry_know_nothing_of_what_stands_on_them():
    graph = inner_imports("extractor")
    assert graph["recess"] >= {"geometry", "viewing"}
    assert "geometry" in graph["viewing"]
    assert "recess" not in graph["viewing"]
    assert graph["geometry"] == set()


def test_the_circle_check_can_fail():
    assert imported_inner_rooms("from extractor.viewing.views import View", "extractor") == {"viewing"}
    assert imported_inner_rooms("from extractor import recess", "extractor") == {"recess"}
    assert imported_inner_rooms("from extractor.sizing.ends.front import decide_front", "extractor.sizing") == {"ends"}
    with pytest.raises(CycleError):
        list(TopologicalSorter({"viewing": {"recess"}, "recess": {"viewing"}}).static_order())


DOORS = ("extractor", "planner", "postproc", "postproc.dialects")


def through_doors(source: str) -> set[tuple[str, str]]:
    """(room, name) of what a source text imports from a room itself, its modules left out."""
    found = {(n.module, a.name) for n in nodes(source) if isinstance(n, ast.ImportFrom) and n.module for a in n.names}
    return {(r, n) for r, n in found if r in DOORS and not list(ROOT.glob(f"{r.replace('.', '/')}/{n}*"))}


def test_each_door_hands_out_just_what_it_names():
    handed = {(room, name) for room in DOORS for name in importlib.import_module(room).__all__}
    used = {one for path in FILES for one in through_doors(text(path)) if one[0].replace(".", "/") != path.parent.name}
    assert used <= handed
    assert all(hasattr(importlib.import_module(room), name) for room, name in handed)


def test_the_check_of_doors_can_fail():
    assert through_doors("from planner import plan_part, choose") == {("planner", "plan_part")}


LIMITS = "extractor/limits.py"
HOLDERS = {"extractor/part.py", "rillwright/console.py"}
"""What checks a groove when it is built, and what prints those of a record."""


def limits_read(source: str) -> bool:
    """True if a source text reads or sets the deviations of a groove itself."""
    return any(
        (isinstance(node, ast.Attribute) and node.attr == "tolerances")
        or (isinstance(node, ast.keyword) and node.arg == "tolerances")
        for node in nodes(source)
    )


def test_one_module_alone_reads_tolerances_and_builds_limits():
    found = {str(p.relative_to(ROOT)) for p in FILES if limits_read(text(p))}
    assert found - HOLDERS == {LIMITS}


def test_the_limits_check_can_fail():
    assert limits_read("low, high = groove.tolerances['width']")
    assert limits_read("replace(groove, tolerances={})")
    assert not limits_read("tolerances = deviations(groove)")


SIDES = "extractor/side.py"
NAMES = {"outside", "inside", "face"}


def sides_told_apart(source: str) -> list[int]:
    """Lines of a source text that compare something with the name of a side."""
    compared = [node for node in nodes(source) if isinstance(node, ast.Compare)]
    return [n.lineno for n in compared if any(isinstance(c, ast.Constant) and c.value in NAMES for c in ast.walk(n))]


def test_one_module_alone_tells_the_sides_apart():
    found = {str(p.relative_to(ROOT)): lines for p in FILES if (lines := sides_told_apart(text(p)))}
    assert found.keys() <= {SIDES}, found


def test_the_check_of_sides_can_fail():
    assert sides_told_apart("if groove.where == 'face': ...")
    assert sides_told_apart("x = a if where not in ('inside', 'face') else b")
    assert not sides_told_apart("if groove.side.axial: ...")


def compiles_values(source: str) -> bool:
    """True if the library makes the frozen classes of a source text: it compiles each when the module is imported."""
    frozen = any(
        isinstance(call, ast.Call) and any(word.arg == "frozen" for word in call.keywords)
        for node in nodes(source)
        if isinstance(node, ast.ClassDef)
        for call in node.decorator_list
    )
    shared = any(isinstance(node, ast.ImportFrom) and node.module == "extractor.values" for node in nodes(source))
    return frozen and not shared


def test_values_share_their_methods():
    assert not [path for path in FILES if compiles_values(text(path))]


def test_the_check_of_values_can_fail():
    made = "@dataclass(frozen=True)\nclass A: ..."
    assert compiles_values(f"from dataclasses import dataclass\n{made}")
    assert compiles_values(f"import dataclasses\n@dataclasses.{made[1:]}")
    assert not compiles_values(f"from extractor.values import dataclass\n{made}")
    assert not compiles_values(made.replace("(frozen=True)", ""))


def test_the_lowest_versions_are_those_that_the_bounds_allow():
    wanted = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["dependencies"]
    held = [line for line in (ROOT / ".ci" / "lowest.txt").read_text().splitlines() if not line.startswith("#")]
    bounds = [dict(re.findall(r"([a-z0-9]+)(?:>=|==)([0-9.]+)", " ".join(lines))) for lines in (wanted, held)]
    lowest = [{name: (*map(int, v.split(".")), 0)[:3] for name, v in one.items()} for one in bounds]
    assert len(held) == len(wanted)
    assert lowest[0] == lowest[1]
