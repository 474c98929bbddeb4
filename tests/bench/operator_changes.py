"""Changes one operator or constant at a time in the modules of limits and judging, and says which no test notices.

    python tests/bench/operator_changes.py --count 80 --seed 1 [--room ROOM] [--module FILE ...] [--line N ...]
                                           [--quick] [--seconds S]

Works on a copy of the tree, so the tree itself is never touched. Each change runs the tests below until one fails, in a
process that is split off one that has the libraries loaded. `--line`: changes on these lines alone, all of them.
`--quick`: leave the slow tests out. `--room`: a random sample of all modules of one room below, by its own tests.
`--seconds`: begin no change after so long; the figures are of those that were made.
"""

import argparse
import ast
import os
import random
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from itertools import pairwise, takewhile
from pathlib import Path

# Loaded once, so that no change waits for them again; nothing of the tree is.
import ezdxf
import hypothesis
import networkx
import numpy
import pytest
import shapely

LOADED = (ezdxf, hypothesis, networkx, numpy, shapely)

MODULES = (
    "extractor/distance.py",
    "extractor/limits.py",
    "extractor/places.py",
    "extractor/side.py",
    "extractor/sizing/spacing.py",
    "planner/cuts/ground.py",
    "postproc/judging/one_side.py",
    "postproc/judging/target.py",
    "postproc/judging/measure.py",
    "postproc/judging/spacing.py",
    "postproc/judging/leftover.py",
    "postproc/judging/form.py",
    "postproc/judging/line.py",
    "planner/cuts/sweep.py",
)
TESTS = (
    "tests/extractor/test_57_distances.py",
    "tests/extractor/test_69_places.py",
    "tests/extractor/test_60_tolerances_of_grooves.py",
    "tests/planner/test_15_values.py",
    "tests/postproc/test_57_leftover.py",
    "tests/postproc/test_58_limits.py",
    "tests/postproc/test_52_forms.py",
    "tests/postproc/test_51_states.py",
    "tests/postproc/test_54_land_and_corners.py",
    "tests/rillwright/test_52_sheet_figures.py",
    "tests/postproc/test_53_broken_edges.py",
)
SLOW = (
    "tests/postproc/test_56_followed_recesses.py",
    "tests/planner/test_64_face.py",
    "tests/planner/test_61_inside_face_form.py",
    "tests/test_89_printed_limits.py",
)
"""Run where none of the tests above notices a change."""
NEAREST = {
    "extractor/limits.py": "tests/planner/test_15_values.py",
    "extractor/sizing/spacing.py": "tests/extractor/test_57_distances.py",
    "planner/cuts/ground.py": "tests/planner/test_15_values.py",
    "planner/cuts/sweep.py": "tests/planner/test_64_face.py",
    "postproc/judging/form.py": "tests/postproc/test_52_forms.py",
    "postproc/judging/leftover.py": "tests/postproc/test_57_leftover.py",
    "postproc/judging/line.py": "tests/postproc/test_52_forms.py",
    "postproc/judging/measure.py": "tests/postproc/test_53_broken_edges.py",
    "postproc/judging/one_side.py": "tests/postproc/test_51_states.py",
}
"""Tests of a module's own, run first; the others come in the order above."""
ROOMS = {
    "judging": (
        "postproc/judging/*.py",
        "tests/postproc/test_5[0-8]*.py tests/postproc/test_6[0-8]*.py tests/postproc/test_70*.py",
    ),
    "limits": (
        "extractor/limits.py extractor/distance.py extractor/places.py extractor/side.py extractor/sizing/spacing.py",
        "tests/extractor/test_57_distances.py tests/extractor/test_6[0-9]_places.py "
        "tests/extractor/test_60_tol*.py tests/planner/test_15_values.py tests/test_89_printed_limits.py",
    ),
    "reading": (
        "postproc/reading/*.py",
        "tests/postproc/test_2[1-9]*.py tests/postproc/test_16*.py tests/postproc/test_38_unsaid*.py "
        "tests/postproc/test_67*.py tests/postproc/test_31*.py",
    ),
    "placing": (
        "extractor/placing.py extractor/laying.py extractor/together.py",
        "tests/extractor/test_46_views*.py tests/extractor/test_49*.py tests/extractor/test_56_front.py "
        "tests/extractor/test_36*.py tests/extractor/test_45*.py tests/extractor/test_54*.py "
        "tests/extractor/test_40*.py",
    ),
    "folder": (
        "rillwright/folder/placing.py rillwright/atomic.py rillwright/job.py",
        "tests/rillwright/test_10*.py tests/rillwright/test_63_watch*.py tests/rillwright/test_24*.py "
        "tests/rillwright/test_66_watch_faults_by*.py tests/rillwright/test_20*.py",
    ),
}
"""Modules and tests of each room."""
SWAPS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "+": "-", "-": "+", "*": "+", "/": "*", "and": "or", "or": "and"}
SWAPS |= {"==": "!=", "!=": "==", "is": "is not", "min": "max", "max": "min", "in": "not in"}


def changes(path: Path) -> Iterator[tuple[int, int, str, str]]:
    """Line, column, old text and new text of every change that a module offers."""
    text = path.read_text()
    lines = text.splitlines()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
            old = ast.get_source_segment(text, node) or ""
            yield node.lineno, node.col_offset, old, str(2 * node.value or 1)
        elif isinstance(node, ast.Name) and node.id in ("min", "max"):
            yield node.lineno, node.col_offset, node.id, SWAPS[node.id]
        elif isinstance(node, ast.BinOp | ast.Compare | ast.BoolOp):
            yield from _operators(node, lines)


def _operators(node: ast.BinOp | ast.Compare | ast.BoolOp, lines: list[str]) -> Iterator[tuple[int, int, str, str]]:
    """The operators between the operands of a node that stand on one line."""
    operands = [node.left, node.right] if isinstance(node, ast.BinOp) else None
    operands = operands or ([node.left, *node.comparators] if isinstance(node, ast.Compare) else list(node.values))
    for one, two in pairwise(operands):
        if one.end_lineno == two.lineno:
            between = lines[one.end_lineno - 1][one.end_col_offset : two.col_offset]
            old = between.strip(" ()")
            if old in SWAPS:
                yield one.end_lineno, one.end_col_offset + between.index(old), old, SWAPS[old]


def main() -> None:
    """Make the changes and print what came of each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=80)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--module", action="append")
    parser.add_argument("--line", type=int, action="append")
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--room", choices=ROOMS)
    parser.add_argument("--seconds", type=float, default=float("inf"))
    told = parser.parse_args()
    here, sets = Path.cwd(), (TESTS,) if told.quick else (TESTS, SLOW)
    if told.room:
        told.module, tests = (
            [str(path) for one in words.split() for path in Path().glob(one)] for words in ROOMS[told.room]
        )
        sets = (tests,)
    until = time.monotonic() + told.seconds
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "tree"
        shutil.copytree(here, copy, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", "*_cache"))
        found = [(name, *one) for name in told.module or MODULES for one in changes(copy / name)]
        if told.line:
            found = [one for one in found if one[1] in told.line]
        if any(_fails(copy, tests) for tests in sets):
            sys.exit("The tests fail before anything is changed.")
        picked = random.Random(told.seed).sample(found, len(found) if told.line else min(told.count, len(found)))
        tried = takewhile(lambda _: time.monotonic() < until, picked)
        noticed = {one: _noticed(copy, sets, *one) for one in tried}
    left, picked = [one for one, found in noticed.items() if not found], list(noticed)
    print(f"{len(picked)} changes of {len(found)}, {len(picked) - len(left)} noticed, {len(left)} not:")
    for name, line, _, old, new in left:
        print(f"  {name}:{line}: {old} -> {new}: {(here / name).read_text().splitlines()[line - 1].strip()}")


def _noticed(copy: Path, sets: Sequence[Sequence[str]], name: str, line: int, column: int, old: str, new: str) -> bool:
    """True if a test fails with one change made."""
    path = copy / name
    text = path.read_text()
    lines = text.splitlines(keepends=True)
    row = lines[line - 1]
    lines[line - 1] = row[:column] + new + row[column + len(old) :]
    path.write_text("".join(lines))
    try:
        nearest = NEAREST.get(name, name)
        rest = [[test for test in tests if test != nearest] for tests in sets]
        found = any(_fails(copy, tests) for tests in ([nearest, name], *rest))
    finally:
        path.write_text(text)
    print(f"  {'noticed' if found else 'NOT'}: {name}:{line}: {old} -> {new}", flush=True)
    return found


def _fails(copy: Path, tests: Sequence[str], longest: float = 900.0) -> bool:
    """True if some of the tests fail, or never end; the changed module's own doctests among them."""
    known = [test for test in dict.fromkeys(tests) if (copy / test).exists()]
    child = os.fork()
    if child == 0:
        _run(copy, known)
    ends = time.monotonic() + longest
    while time.monotonic() < ends:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            # 5: the module has no doctest and nothing else was asked for.
            return os.waitstatus_to_exitcode(status) not in (0, 5)
        time.sleep(0.2)
    os.kill(child, 9)
    os.waitpid(child, 0)
    return True


def _run(copy: Path, tests: Sequence[str]) -> None:
    """Run tests of the copy in this process, in silence, and end it."""
    silent = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silent, 1)
    os.dup2(silent, 2)
    os.chdir(copy)
    sys.dont_write_bytecode = True
    sys.path[:] = [str(copy), str(copy / "tests"), *(p for p in sys.path if p not in ("", str(Path(__file__).parent)))]
    code = 1
    try:
        # Of a library loaded before pytest begins it says that its asserts stay plain.
        quiet = ["-W", "ignore::pytest.PytestAssertRewriteWarning"]
        code = int(pytest.main(["-q", "-x", "-n", "0", "-p", "no:cacheprovider", *quiet, *tests]))
    finally:
        os._exit(code)


if __name__ == "__main__":
    main()
