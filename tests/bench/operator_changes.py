"""Changes one operator or constant at a time in the modules and tables of a room, and says which no test notices.

    PYTHONPATH=.:tests python tests/bench/operator_changes.py ROOM [--count 150] [--seed 1] [--module FILE ...]
                                              [--line N ...] [--again FILE] [--tests GLOB ...] [--no-figures]

A random sample of COUNT changes is taken (150 tell a rate of 5 % to within 4 %). Nothing is written into the tree. The
tests of the room are collected once and run once on the code as it stands, while `operator_sight` holds against each
value what each change would make of it. Then each change is made in the memory of a process of its own, which runs the
tests in which it makes a difference, all of them, the quickest first, until one
fails. A change that takes effect when its module is imported is made before that, and the room's tests are run anew;
so is one of a number in a table in TOML.
Behind one that is not noticed stands in how many of the tests it gives another value. `--line`: all changes on these
lines alone. `--again`: those alone that an earlier run, whose output is in FILE, did not notice. `--tests`: these tests
in place of the room's. `--no-figures`: without what `support.figures` holds. `operator_equivalents.py` holds those
that were looked at and change nothing that could be seen.
"""

import argparse
import ast
import builtins
import contextlib
import functools
import gc
import importlib
import importlib.util
import math
import os
import pickle
import random
import re
import resource
import sys
import time
import tomllib
from collections.abc import Callable, Sequence
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import pytest
from operator_equivalents import EQUIVALENT
from operator_rooms import ROOMS, found, module_of
from operator_sight import Looking, Sight, Spot, at_import, offered, outermost

HERE = Path.cwd()
OURS = ("extractor", "planner", "postproc", "rillwright")
PATIENCE, SLOWER = 10.0, 4.0
"""Seconds of the processor, and times what the tests took unchanged, after which a change is taken to go on for ever:
that is noticed."""
QUIET = ["-q", "-n", "0", "-p", "no:cacheprovider", "-s"]
Change = tuple[str, int, int, str, str]
"""File, line, column in bytes, old and new text."""
Touched = dict[str, tuple[float, frozenset[int]]]
"""Seconds that a test takes and the numbers of the changes that give another value in it, by its name."""


def _changed(change: Change) -> str:
    """The text of the module with the change made."""
    name, line, column, old, new = change
    lines = (HERE / name).read_bytes().splitlines(keepends=True)
    row = lines[line - 1]
    lines[line - 1] = row[:column] + new.encode() + row[column + len(old.encode()) :]
    return b"".join(lines).decode()


class _Bench:
    """Takes the place of pytest's loop over the tests."""

    def __init__(self, told: argparse.Namespace, modules: Sequence[str], files: Sequence[str]) -> None:
        self.told, self.modules, self.files = told, modules, files

    def _sample(self) -> tuple[list[Change], int]:
        """The changes to be made, and how many there are in all."""
        told = self.told
        found = [(name, *one) for name in sorted(self.modules) for one in offered(name, (HERE / name).read_text())]
        if told.line or told.again:
            before = Path(told.again).read_text() if told.again else ""
            chosen = [one for one in found if one[1] in (told.line or ()) or f"NOT: {_words(one)} (" in before]
        else:
            chosen = random.Random(told.seed).sample(found, min(told.count, len(found)))
        return chosen, len(found)

    def pytest_collection(self) -> None:
        """A failure is enough: no smaller example is looked for."""
        from hypothesis import Phase, settings  # not before pytest, which looks into it as it is imported

        if self.told.no_figures:
            for module in [one for one in sys.modules.values() if "LISTENED" in vars(one)]:
                vars(module)["LISTENED"] = re.compile("(?!)")
        quick = settings(settings.get_profile("check"), phases=[Phase.explicit, Phase.generate])
        settings.register_profile("bench", quick)
        settings.load_profile("bench")

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Make the changes and print what came of each."""
        sample, every = self._sample()
        sample_left = [one for one in sample if (one[0], _row(one), *one[3:]) not in EQUIVALENT]
        # Looked for once, not by each child; and no child goes through what it shares with this process.
        _caches(), _functions()
        gc.collect()
        gc.freeze()
        made = [_Change.of(change) for change in sample_left]
        touched = _in_child(lambda: _look(session, made))
        if not isinstance(touched, dict):
            raise pytest.UsageError(f"These fail before anything is changed: {touched}")
        if any(one.anew for one in made) and _in_child(lambda: _anew(None, self.files)):
            raise pytest.UsageError("The tests fail when they are run anew before anything is changed.")
        took = sum(seconds for seconds, _ in touched.values())
        print(f"{len(touched)} tests looked through, {took:.0f} s", flush=True)
        telling = [sum(number in seen for _, seen in touched.values()) for number in range(len(made))]
        left = 0
        for done, number in enumerate(sorted(range(len(made)), key=telling.__getitem__), 1):
            one, among = made[number], "anew" if made[number].anew else telling[number]
            if not self._noticed(session, touched, number, one):
                left += 1
                print(f"  NOT: {_words(one.change)} ({among} of {len(touched)})", flush=True)
            if not done % 25:
                print(f"  {done} made, {left} not noticed", flush=True)
        print(
            f"{self.told.room}: {len(sample)} changes of {every}; {len(sample) - len(made)} change nothing, "
            f"{left} not noticed: {100 * left / max(1, len(made)):.1f} %"
        )
        return True

    def _noticed(self, session: pytest.Session, touched: Touched, number: int, one: "_Change") -> bool:
        """True if a test fails with one change made, or goes on for ever."""
        if one.fails:
            return True
        if one.anew:
            longest = PATIENCE + SLOWER * sum(took for took, _ in touched.values())
            return bool(_in_child(lambda: _anew(one.change, self.files), longest))
        through = sorted((took, name) for name, (took, seen) in touched.items() if number in seen)
        items = {item.nodeid: item for item in session.items}
        chosen = [items[name] for _, name in through]

        def run() -> bool:
            """True if a test fails."""
            one.make()
            _forget()
            for item, following in zip(chosen, [*chosen[1:], None], strict=True):
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
                if session.testsfailed:
                    return True
            return False

        return bool(chosen) and bool(_in_child(run, PATIENCE + SLOWER * sum(took for took, _ in through)))


class _Change:
    """A change, and what comes of it when the modules have been imported already.

    `code`: the functions it changes; `values`: what it makes of names of the module; `anew`: true where it is neither,
    and the module must be imported with it; `fails`: true where it can't be.
    """

    def __init__(self, change: Change) -> None:
        self.change = change
        self.code: dict[CodeType, CodeType] = {}
        self.values: dict[str, Any] = {}
        self.anew, self.fails = change[0].endswith(".toml"), False

    @classmethod
    def of(cls, change: Change) -> "_Change":
        """What comes of a change."""
        one, path = cls(change), str(HERE / change[0])
        if one.anew:
            return one
        before = compile((HERE / change[0]).read_text(), path, "exec")
        try:
            after = compile(_changed(change), path, "exec")
            pairs = [*zip(outermost(before), outermost(after), strict=True)]
            one.code = {old: new for old, new in pairs if old != new}
            if not one.code:
                one.values = _values(change[0], after)
                names = {*one.values}
                one.anew = not names or any(_used_at_import(name, names) for name in _holders(change[0], names))
        except Exception:
            one.fails = True
        return one

    def make(self) -> None:
        """Make it in this process."""
        _put(self.change[0], self.code)
        for key, new in self.values.items():
            value = vars(sys.modules[module_of(self.change[0])])[key]
            for other in [one for one in sys.modules.values() if vars(one).get(key) is value]:
                setattr(other, key, new)


def _values(name: str, code: CodeType) -> dict[str, Any]:
    """The plain values of a module that the changed module has otherwise."""
    module = sys.modules[module_of(name)]
    made: dict[str, Any] = {"__name__": module.__name__, "__package__": module.__package__, "__file__": name}
    exec(code, made)
    plain = int | float | str | tuple | dict | frozenset
    old = {key: value for key, value in vars(module).items() if isinstance(value, plain) and not key.startswith("__")}
    return {key: made[key] for key, value in old.items() if made.get(key) != value}


def _holders(name: str, keys: set[str]) -> list[str]:
    """The files of the tree whose modules have one of some values of a module by its name."""
    own = vars(sys.modules[module_of(name)])
    files = {
        str(getattr(module, "__file__", ""))
        for module in [*sys.modules.values()]
        if any(key in vars(module) and vars(module)[key] is own[key] for key in keys)
    }
    return sorted(path[len(str(HERE)) + 1 :] for path in files if path.startswith(str(HERE)) and ".venv" not in path)


def _used_at_import(name: str, keys: set[str]) -> bool:
    """True if a module uses a name of some for a default, in a class or for another value when it is imported."""
    if name.startswith("tests"):
        return False
    nodes = at_import(ast.parse((HERE / name).read_text()))
    return any(isinstance(one, ast.Name) and isinstance(one.ctx, ast.Load) and one.id in keys for one in nodes)


def _look(session: pytest.Session, made: Sequence[_Change]) -> Touched | list[str]:
    """Run the tests once and note which changes give another value in each; the names of those that fail, if any do."""
    sight = Sight()
    builtins._sight = sight  # type: ignore[attr-defined]
    holding = _see(made, sight)
    found: Touched = {}
    failed: list[str] = []
    shared: dict[str, set[int]] = {}

    class Fixtures:
        """Notes what is seen on behalf of every test that shares a fixture."""

        @pytest.hookimpl(wrapper=True)
        def pytest_fixture_setup(self, fixturedef: Any) -> Any:
            before = set(sight.seen)
            sight.seen.clear()
            try:
                return (yield)
            finally:
                shared.setdefault(fixturedef.argname, set()).update(sight.seen)
                sight.seen.update(before)

    session.config.pluginmanager.register(Fixtures())
    for item, following in zip(session.items, [*session.items[1:], None], strict=True):
        sight.seen.clear()
        _forget()
        began = time.process_time()
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        seen = sight.seen.union(*(shared.get(name, ()) for name in getattr(item, "fixturenames", ())))
        seen |= holding.get(item.location[0], set())
        found[item.nodeid] = time.process_time() - began, frozenset(seen)
        if session.testsfailed > len(failed):
            failed.append(item.nodeid)
    return failed or found


def _see(made: Sequence[_Change], sight: Sight) -> dict[str, set[int]]:
    """Put the sight into the modules; the changes of values that modules of tests themselves hold, by their files."""
    spots: dict[str, dict[Spot, int]] = {}
    values: dict[str, dict[str, list[tuple[int, Any]]]] = {}
    holding: dict[str, set[int]] = {}
    for number, one in enumerate(made):
        if one.code:
            spots.setdefault(one.change[0], {})[one.change[1:]] = number
        elif one.values and not one.anew:
            for name in _holders(one.change[0], {*one.values}):
                if name.startswith("tests"):
                    holding.setdefault(name, set()).add(number)
                else:
                    for key, value in one.values.items():
                        values.setdefault(name, {}).setdefault(key, []).append((number, value))
    for name in {**spots, **values}:
        text, path = (HERE / name).read_text(), str(HERE / name)
        looking = Looking(text, spots.get(name, {}), values.get(name, {}), sight).looked()
        pairs = zip(outermost(compile(text, path, "exec")), outermost(compile(looking, path, "exec")), strict=True)
        _put(name, dict(pairs))
    return holding


def _anew(change: Change | None, files: Sequence[str]) -> bool:
    """True if a test fails where a module was changed before it was imported."""
    for name in [one for one in sys.modules if one.split(".")[0] in (*OURS, "support", "tests", "conftest")]:
        del sys.modules[name]

    class Changed(SourceFileLoader):
        def get_code(self, fullname: str) -> CodeType:
            return compile(_changed(change), self.path, "exec")  # type: ignore[arg-type]

    class Finder:
        def find_spec(self, fullname: str, path: object, target: object = None) -> object:
            if change is None or fullname != module_of(change[0]):
                return None
            where = str(HERE / change[0])
            return importlib.util.spec_from_file_location(fullname, where, loader=Changed(fullname, where))

    sys.meta_path.insert(0, Finder())  # type: ignore[arg-type]
    if change is not None and change[0].endswith(".toml"):
        loads, before, after = tomllib.loads, (HERE / change[0]).read_text(), _changed(change)
        tomllib.loads = lambda text, **how: loads(after if text == before else text, **how)
    try:
        for one in files:
            if not one.startswith("tests"):
                importlib.import_module(module_of(one))
    except Exception:
        return True
    return pytest.main([*QUIET, "-x", *files]) != 0


def _forget() -> None:
    """Empty the caches of the functions of the tree."""
    for one in _caches():
        one.cache_clear()


@functools.cache
def _caches() -> list[Any]:
    """All functions of the tree with a cache that are about."""
    kind, bench = type(_caches), str(HERE / "tests" / "bench")
    found = [one for one in gc.get_objects() if isinstance(one, kind) and isinstance(one.__wrapped__, FunctionType)]
    where = [(one.__wrapped__.__code__.co_filename, one) for one in found]
    return [one for path, one in where if path.startswith(str(HERE)) and not path.startswith(bench)]


def _put(name: str, new: dict[CodeType, CodeType]) -> None:
    """Give the functions of a module other code, wherever they hang."""
    for function in _functions().get(str(HERE / name), ()) if new else ():
        function.__code__ = new.get(function.__code__, function.__code__)


@functools.cache
def _functions() -> dict[str, list[FunctionType]]:
    """All functions that are about, by their files."""
    found: dict[str, list[FunctionType]] = {}
    for one in gc.get_objects():
        if isinstance(one, FunctionType):
            found.setdefault(one.__code__.co_filename, []).append(one)
    return found


def _in_child(work: Callable[[], Any], longest: float = float("inf")) -> Any:
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
    parser.add_argument("--count", type=int, default=150)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--module", action="append")
    parser.add_argument("--line", type=int, action="append")
    parser.add_argument("--again")
    parser.add_argument("--tests", action="append")
    parser.add_argument("--no-figures", action="store_true")
    told = parser.parse_args()
    offering, tests = (found(words.split()) for words in ROOMS[told.room])
    tests = found(told.tests) if told.tests else tests
    modules = [path for path in offering if path.endswith(".py")]
    # Loaded before their doctests are collected: a package that is met by way of one of its modules has that module
    # made twice, and values of the two are never equal.
    for path in modules:
        importlib.import_module(module_of(path))
    # Each change meets the same random examples; see tests/conftest.py.
    os.environ["CI"] = "true"
    files = [*modules, *tests]
    raise SystemExit(pytest.main([*QUIET, *files], plugins=[_Bench(told, told.module or offering, files)]))


if __name__ == "__main__":
    main()
