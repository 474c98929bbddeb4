"""What is measured, each in a process of its own: `python tests/bench/speed_work.py NAME FOLDER N` prints figures.

A work gives the function to be timed, after its imports and its input are made. Printed are seconds of the processor
(user and system), seconds of the clock, and the peak of memory in MiB.
"""

import json
import os
import resource
import subprocess
import sys
import time
import warnings
from collections.abc import Callable
from contextlib import nullcontext, redirect_stdout, suppress
from dataclasses import replace
from functools import partial
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

import speed_inputs as inputs

from rillwright.collector import seldom

if TYPE_CHECKING:
    from rillwright.settings import Settings

Work = Callable[[], object]
PEERS = frozenset({"parse", "parse_batch", "import_libraries", "peer_words", "union"})
"""Works of others; all the rest run as the tool does, which looks for garbage seldom."""
SHOP = """units = "mm"
[[tools]]
station = 3
width = 2.5
corner_radius = 0.0
max_depth = 12.0
reference = "far"
feed = 0.08
peck = 1.0
retract = 0.5
"""


def parse(folder: Path, n: int) -> Work:
    """The library's own loading of the row of grooves."""
    import ezdxf

    path = inputs.row_of_grooves(folder, n)
    return lambda: ezdxf.readfile(path)


def read(folder: Path, n: int) -> Work:
    """What `read` does with it."""
    from rillwright.questions import read_and_ask
    from rillwright.settings import Settings

    path = inputs.row_of_grooves(folder, n)
    return lambda: read_and_ask(path, Settings())


def make(folder: Path, n: int) -> Work:
    """What `make` does with it: reading, plan, program, proof, sheet and record."""
    from rillwright.settings import Settings

    settings = replace(Settings(), changes=("machine.stick_out=9999",))
    return _made(inputs.row_of_grooves(folder, n), folder, settings)


def make_bare(folder: Path, n: int) -> Work:
    """The same with as many grooves in outline alone, by the shop as shipped: no machine holds so long a bar."""
    from rillwright.settings import Settings

    return _made(inputs.bare_row(folder, n), folder, Settings())


def _made(path: Path, folder: Path, settings: "Settings") -> Work:
    """One drawing made; ValueError if it is refused, because how long a refusal takes is another figure."""
    from rillwright.job import make_drawing

    def work() -> None:
        if not make_drawing(path, folder / "made", settings).made:
            raise ValueError(f"{path.name} was refused")

    return work


def parse_batch(folder: Path, n: int) -> Work:
    """The library's own loading of n sheets of offices, warm; some are damaged, and end where it gives them up."""
    import ezdxf

    paths = inputs.offices(folder, n)

    def load(path: Path) -> None:
        with suppress(ezdxf.DXFError):
            ezdxf.readfile(path)

    load(paths[0])
    return lambda: [load(path) for path in paths]


def make_batch(folder: Path, n: int) -> Work:
    """`make` of n sheets of offices, warm."""
    from rillwright.many import Call, make_one
    from rillwright.settings import Settings

    calls = [Call(path, folder / "made", Settings()) for path in inputs.offices(folder, n)]
    make_one(calls[0])

    def made() -> None:
        # As the command does: what is said of a drawing is told and let go, or a thousand records count as memory.
        for call in calls:
            make_one(call)

    return made


def make_again(folder: Path, n: int) -> Work:
    """`make` of the same hundred sheets until n are made: a heavier one among others would be counted as growth."""
    once = make_batch(folder, HUNDRED)
    return lambda: [once() for _ in range(n // HUNDRED)]


HUNDRED = 100
"""The sheets that are made again and again."""


def import_libraries(folder: Path, n: int) -> Work:
    """A cold process with the libraries that no reading can do without."""
    return _cold(folder, ["-c", "import ezdxf, shapely, numpy"], n)


def make_cold(folder: Path, n: int) -> Work:
    """A cold process that makes one small drawing."""
    path, out = inputs.small(folder), folder / "made"
    code = "from rillwright.cli import main; main()"
    return _cold(folder, ["-c", code, "make", str(path), "--out", str(out)], n)


def _cold(folder: Path, arguments: list[str], n: int) -> Work:
    """New processes of Python, with compiled modules as an installed package has them, whatever this machine says."""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    env["PYTHONPYCACHEPREFIX"] = str(folder / "compiled")
    call = partial(subprocess.run, [sys.executable, *arguments], check=True, capture_output=True, env=env)
    call()
    return lambda: [call() for _ in range(n)]


def peer_words(folder: Path, n: int) -> Work:
    """The plain ISO word splitter over n blocks."""
    with warnings.catch_warnings():  # it imports modules that Python will drop
        warnings.simplefilter("ignore")
        from pygcode.words import text2words
    lines = inputs.blocks(folder, n).read_text("ascii").split("\n")[3:-2]
    return lambda: [list(text2words(line)) for line in lines]


def words(folder: Path, n: int) -> Work:
    """The same blocks taken apart here."""
    from postproc import parse_program

    text = inputs.blocks(folder, n).read_text("ascii")
    return lambda: parse_program(text)


def compare(folder: Path, n: int) -> Work:
    """A whole `compare` with them, table and all."""
    from rillwright.check import compare_files
    from rillwright.compare import print_verdict
    from rillwright.settings import Settings

    drawing, program = inputs.small(folder), inputs.blocks(folder, n)

    def work() -> None:
        with redirect_stdout(StringIO()):
            made = compare_files(drawing, program, Settings(shop_text=SHOP))
            print_verdict(made.part, made.verdict, drawing.name, program.name)

    return work


def union(folder: Path, n: int) -> Work:
    """Shapely's union of the rectangles that n plunges sweep."""
    import shapely

    boxes = [shapely.box(far, floor, near, 21.0) for far, near, floor in inputs.plunges(n)]
    return lambda: shapely.union_all(boxes)


def cut(folder: Path, n: int) -> Work:
    """The metal that they leave, in the cutting simulation."""
    from support.moves import Moves, tool
    from support.parts import part_of

    from planner.increment import Increments
    from postproc import cut_profile

    moves, given = Moves(42.0, 0.0), inputs.plunges(n)
    for far, _, floor in given:
        moves.rapid(42.0, far).feed(2 * floor)
    part, counts = part_of([], length=-given[-1][0] + 10), Increments.of("mm")
    return lambda: [cut_profile(moves.motions, [tool()], part, counts) for _ in range(10)]


def batch(folder: Path, n: int) -> Work:
    """The command `make` over n sheets of offices."""
    paths = inputs.offices(folder, n)
    return lambda: _called(folder, paths, ())


def batch_on_two(folder: Path, n: int) -> Work:
    """The same with --jobs 2."""
    paths = inputs.offices(folder, n)
    return lambda: _called(folder, paths, ("--jobs", "2"))


def _called(folder: Path, paths: list[Path], more: tuple[str, ...]) -> None:
    code = "from rillwright.cli import main; main()"
    call = [sys.executable, "-c", code, "make", "--out", str(folder / "made"), *more, *map(str, paths)]
    subprocess.run(call, capture_output=True, check=False)


REPEATS = {"cut": 10}
"""How often a work does the same in one go."""


def main() -> None:
    """Do one work and print its figures."""
    name, folder, n = sys.argv[1], Path(sys.argv[2]), int(sys.argv[3])
    done = globals()[name](folder, n)
    cpu, clock, children = time.process_time(), time.perf_counter(), _of_children()
    with nullcontext() if name in PEERS else seldom():
        done()
    times = REPEATS.get(name, 1)
    spent = (time.process_time() - cpu + _of_children() - children) / times
    peak = max(resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)) / 1024
    print(json.dumps({"cpu": spent, "clock": (time.perf_counter() - clock) / times, "peak": peak}))


def _of_children() -> float:
    """Processor seconds of the processes that this one waited for."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


if __name__ == "__main__":
    main()
