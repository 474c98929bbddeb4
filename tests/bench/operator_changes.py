"""Changes one operator or constant at a time in the modules of a room, and says which no test notices.

    PYTHONPATH=.:tests python tests/bench/operator_changes.py ROOM [--count 80] [--seed 1] [--seconds S] [--map FILE]
                                                              [--past N] [--within S] [--module FILE ...] [--line N ...]

Nothing is written into the tree: the tests of the room are collected once, and each change is made in the memory of a
process of its own, which runs the tests that pass through the changed function, the quickest first, until one fails.
Which tests pass through which function is found by running them all once, each function with a mark at its head;
`--map` keeps that in a file for the next run, which goes on where the last one ended. `--seconds`: look through tests
for half of it, and begin no change after all of it; the figures are of the changes that were made, and `--past` goes on
behind the first N of them. `--within`: a change
counts as not noticed after so many seconds of tests, even if slower tests would see it. `--line`: changes on these
lines alone, all of them. EQUIVALENT holds those that were looked at and change nothing that could be seen.
"""

import argparse
import ast
import builtins
import contextlib
import functools
import gc
import importlib
import math
import os
import pickle
import random
import resource
import sys
import time
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import pytest
from operator_rooms import EQUIVALENT, ROOMS

HERE = Path.cwd()
SWAPS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "+": "-", "-": "+", "*": "+", "/": "*", "and": "or", "or": "and"}
SWAPS |= {"==": "!=", "!=": "==", "is": "is not", "min": "max", "max": "min", "in": "not in"}
PATIENCE, SLOWER = 10.0, 4.0
"""Seconds of the processor, and times what the tests took unchanged, after which a change is taken to go on for ever:
that is noticed."""

Change = tuple[str, int, int, str, str]
"""File, line, column, old and new text."""
Place = tuple[str, str]
"""File and name of the function, method or lambda that hangs in no other; no name: the module itself."""
Touched = dict[str, tuple[float, frozenset[Place]]]
"""Seconds that a test takes and the places that it passes through, by its name."""


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


def _changed(change: Change) -> str:
    """The text of the module with the change made."""
    name, line, column, old, new = change
    lines = (HERE / name).read_text().splitlines(keepends=True)
    row = lines[line - 1]
    lines[line - 1] = row[:column] + new + row[column + len(old) :]
    return "".join(lines)


def _outermost(code: CodeType) -> Iterator[CodeType]:
    """The functions, methods and lambdas of a module's code that hang in no other function."""
    for one in code.co_consts:
        if isinstance(one, CodeType):
            if one.co_flags & 0x2:  # CO_NEWLOCALS: a function; the body of a class has names of its own alone
                yield one
            else:
                yield from _outermost(one)


@functools.cache
def _spans(name: str) -> list[tuple[int, int, str]]:
    """First line, last line and name of what `_outermost` gives for a file, decorators with it."""
    code = compile((HERE / name).read_text(), name, "exec")
    return [
        (one.co_firstlineno, max(filter(None, (row for _, _, row in _all_lines(one)))), one.co_qualname)
        for one in _outermost(code)
    ]


def _all_lines(code: CodeType) -> Iterator[tuple[int, int, int | None]]:
    yield from code.co_lines()
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield from _all_lines(one)


def _place(name: str, line: int) -> Place:
    """The place that a line belongs to."""
    return name, max(((first, key) for first, last, key in _spans(name) if first <= line <= last), default=(0, ""))[1]


class _Bench:
    """Takes the place of pytest's loop over the tests."""

    def __init__(self, told: argparse.Namespace, modules: Sequence[str]) -> None:
        self.told, self.modules = told, frozenset(modules)
        self.items: dict[str, Any] = {}

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Make the changes and print what came of each."""
        self.items = {item.nodeid: item for item in session.items}
        told, began = self.told, time.monotonic()
        touched = self._kept()
        new = _in_child(lambda: self._look(session, [one for one in session.items if one.nodeid not in touched]))
        if not isinstance(new, dict):
            raise pytest.UsageError("These fail before anything is changed:\n" + "\n".join(new))
        touched |= new
        if told.map:
            Path(told.map).write_bytes(pickle.dumps(touched))
        print(f"{len(touched)} of {len(session.items)} tests looked through", flush=True)
        # Looked for once, not by each child; and no child goes through what it shares with this process.
        _caches(), _functions()
        gc.collect()
        gc.freeze()
        found = [(name, *one) for name in sorted(self.modules) for one in changes(HERE / name)]
        found = [one for one in found if not told.line or one[1] in told.line]
        count = len(found) if told.line else min(told.count, len(found))
        left, same, made = [], 0, 0
        for change in random.Random(told.seed).sample(found, count)[told.past :]:
            if time.monotonic() - began > told.seconds:
                break
            made += 1
            if (change[0], _row(change), *change[3:]) in EQUIVALENT:
                same += 1
            elif not self._noticed(session, touched, change):
                left.append(change)
                print(f"  NOT: {_words(change)}", flush=True)
            if not made % 10:
                print(f"  {made} made", flush=True)
        print(f"{self.told.room}: {made} changes of {len(found)}; {same} change nothing, {len(left)} not noticed")
        return True

    def _kept(self) -> Touched:
        """What was found out before, where it was kept."""
        path = Path(self.told.map) if self.told.map else None
        return pickle.loads(path.read_bytes()) if path is not None and path.exists() else {}

    def _look(self, session: pytest.Session, items: Sequence[Any]) -> Touched | list[str]:
        """Run tests once and note what they pass through; the names of those that fail, where any do."""
        until = time.monotonic() + self.told.seconds / 2
        found: Touched = {}
        failed: list[str] = []
        passed: set[Place] = set()
        shared: dict[str, set[Place]] = {}
        for name in self.modules:
            _mark(name, passed)

        class Fixtures:
            """Notes what is passed through on behalf of every test that shares a fixture."""

            @pytest.hookimpl(wrapper=True)
            def pytest_fixture_setup(self, fixturedef: Any) -> Any:
                before = set(passed)
                passed.clear()
                try:
                    return (yield)
                finally:
                    shared.setdefault(fixturedef.argname, set()).update(passed)
                    passed.update(before)

        session.config.pluginmanager.register(Fixtures())
        for item, following in zip(items, [*items[1:], None], strict=True):
            if time.monotonic() > until:
                break
            passed.clear()
            _forget(self.modules)
            began = time.process_time()
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            places = passed.union(*(shared.get(name, ()) for name in getattr(item, "fixturenames", ())))
            found[item.nodeid] = time.process_time() - began, frozenset(places)
            if session.testsfailed > len(failed):
                failed.append(item.nodeid)
        return failed or found

    def _noticed(self, session: pytest.Session, touched: Touched, change: Change) -> bool:
        """True if a test fails with one change made, or goes on for ever."""
        place = _place(*change[:2])
        through = [
            (took, name)
            for name, (took, places) in touched.items()
            if name in self.items and (place in places or (not place[1] and any(p[0] == place[0] for p in places)))
        ]
        through.sort()
        spent = [*accumulate(took for took, _ in through)]
        through = [one for one, so_far in zip(through, spent, strict=True) if so_far <= self.told.within]
        items = [self.items[name] for _, name in through]

        def run() -> bool:
            """True if a test fails."""
            if not _patch(change):
                return True
            _forget(self.modules)
            for item, following in zip(items, [*items[1:], None], strict=True):
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
                if session.testsfailed:
                    return True
            return False

        return bool(_in_child(run, PATIENCE + SLOWER * sum(took for took, _ in through)))


def _module(name: str) -> str:
    """The module that a file holds."""
    return name.removesuffix(".py").replace("/", ".").removesuffix(".__init__")


def _within(code: CodeType) -> tuple[str, int]:
    """File in the tree and first line of some code."""
    path = code.co_filename
    return (path[len(str(HERE)) + 1 :] if path.startswith(str(HERE)) else "", code.co_firstlineno)


def _forget(modules: frozenset[str]) -> None:
    """Empty the caches of functions of some modules."""
    for one in _caches():
        if _within(one.__wrapped__.__code__)[0] in modules:
            one.cache_clear()


@functools.cache
def _caches() -> list[Any]:
    """All functions with a cache that are about."""
    kind = type(_caches)
    return [one for one in gc.get_objects() if isinstance(one, kind) and isinstance(one.__wrapped__, FunctionType)]


def _mark(name: str, passed: set[Place]) -> None:
    """Have every function of a module note its place when it is entered.

    A trace of all calls would do too, but it makes tests so slow that random ones are refused for that alone.
    """
    tree = ast.parse((HERE / name).read_text())
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.Lambda):
            note = ast.parse(f"_passed(({name!r}, {_place(name, node.lineno)[1]!r}))", mode="eval").body
            if isinstance(node, ast.FunctionDef):
                node.body.insert(0, ast.Expr(note))
            else:
                node.body = ast.Subscript(ast.Tuple([note, node.body], ast.Load()), ast.Constant(1), ast.Load())
            for one in ast.walk(note):
                ast.copy_location(one, node)
    builtins._passed = passed.add  # type: ignore[attr-defined]
    _put(name, {_key(c): c for c in _outermost(compile(ast.fix_missing_locations(tree), str(HERE / name), "exec"))})


def _key(code: CodeType) -> tuple[str, int]:
    """What tells the functions of a module apart."""
    return code.co_qualname, code.co_firstlineno


def _put(name: str, new: dict[tuple[str, int], CodeType]) -> None:
    """Give the functions of a module other code, wherever they hang."""
    for function in _functions().get(str(HERE / name), ()):
        if _key(function.__code__) in new:
            function.__code__ = new[_key(function.__code__)]


@functools.cache
def _functions() -> dict[str, list[FunctionType]]:
    """All functions that are about, by their files."""
    found: dict[str, list[FunctionType]] = {}
    for one in gc.get_objects():
        if isinstance(one, FunctionType):
            found.setdefault(one.__code__.co_filename, []).append(one)
    return found


def _patch(change: Change) -> bool:
    """Make a change in the memory of this process; False if the changed module can't even be loaded."""
    name = change[0]
    before = compile((HERE / name).read_text(), str(HERE / name), "exec")
    try:
        after = compile(_changed(change), str(HERE / name), "exec")
    except SyntaxError:
        return False
    new = {_key(c): c for c in _outermost(after)}
    differ = {_key(c): new[_key(c)] for c in _outermost(before) if new[_key(c)] != c}
    _put(name, differ)
    return bool(differ) or _values(name, after)


def _values(name: str, code: CodeType) -> bool:
    """Give the values of a module, wherever they were imported, what the changed module makes of them."""
    module = sys.modules[_module(name)]
    made: dict[str, Any] = {"__name__": module.__name__, "__package__": module.__package__, "__file__": name}
    try:
        exec(code, made)
    except Exception:
        return False
    for key, value in list(vars(module).items()):
        if isinstance(value, int | float | tuple | dict | frozenset) and made.get(key) != value:
            for other in [one for one in sys.modules.values() if vars(one).get(key) is value]:
                setattr(other, key, made[key])
    return True


def _in_child(work: Any, longest: float = float("inf")) -> Any:
    """What some work gives in a process of its own, in silence; True where it fails or takes longer than that."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        code = 1
        with contextlib.suppress(BaseException):
            if math.isfinite(longest):
                ends = math.ceil(time.process_time() + longest)
                resource.setrlimit(resource.RLIMIT_CPU, (ends, ends))
            silent = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silent, 1)
            os.dup2(silent, 2)
            with os.fdopen(writing, "wb") as out:
                out.write(pickle.dumps(work()))
            code = 0
        os._exit(code)
    os.close(writing)
    with os.fdopen(reading, "rb") as said:
        told = said.read()
    return pickle.loads(told) if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0 else True


def _row(change: Change) -> str:
    """The line that a change is made on."""
    return (HERE / change[0]).read_text().splitlines()[change[1] - 1].strip()


def _words(change: Change) -> str:
    name, line, column, old, new = change
    return f"{name}:{line}:{column}: {old} -> {new}: {_row(change)}"


def main() -> None:
    """Collect the tests of a room and hand them to the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room", choices=ROOMS)
    parser.add_argument("--count", type=int, default=80)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--module", action="append")
    parser.add_argument("--line", type=int, action="append")
    parser.add_argument("--past", type=int, default=0)
    parser.add_argument("--seconds", type=float, default=float("inf"))
    parser.add_argument("--within", type=float, default=60.0)
    parser.add_argument("--map")
    told = parser.parse_args()
    modules, tests = (
        sorted(str(path) for one in words.split() for path in Path().glob(one)) for words in ROOMS[told.room]
    )
    # Loaded before their doctests are collected: a package that is met by way of one of its modules has that module
    # made twice, and values of the two are never equal.
    for path in modules:
        importlib.import_module(_module(path))
    # Each change meets the same random examples; see tests/conftest.py.
    os.environ["CI"] = "true"
    quiet = ["-q", "-n", "0", "-p", "no:cacheprovider", "-s"]
    raise SystemExit(pytest.main([*quiet, *modules, *tests], plugins=[_Bench(told, told.module or modules)]))


if __name__ == "__main__":
    main()
