"""How fast the tool is beside what it is built on: one table, each row of two works measured in turn on this machine.

`PYTHONPATH=.:tests python tests/bench/speed.py [--rounds N] [--only ROW,...] [--growth OUT.svg] [--inputs DIR]`

A row's figure is seconds of the processor (user and system) of the one work over those of the other; where two are
given the least and the greatest of all rounds follow. `memory` and `many` take minutes and are left
out unless they are asked for. Asserts nothing.
"""

import argparse
import json
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from speed_growth import SIZES, picture

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Row:
    """A row: the name to ask for it by, what it is called, our work and the one beside it with their sizes, bar, goal.

    `faster`: the figure is how many times as fast as the other ours is; else how many times as long it takes.
    `measure`: what is compared.
    """

    key: str
    name: str
    ours: tuple[str, int]
    other: tuple[str, int]
    bar: str
    goal: str
    faster: bool = False
    measure: str = "cpu"
    large: bool = False


ROWS = (
    Row("read", "read of 1,000 grooves / ezdxf.readfile", ("read", 1000), ("parse", 1000), "1.8", "1.0"),
    Row("make", "make of 1,000 grooves / ezdxf.readfile", ("make", 1000), ("parse", 1000), "2.2", "1.2"),
    Row("cold", "one small drawing, cold / its libraries", ("make_cold", 3), ("import_libraries", 3), "1.8", "1.3"),
    Row("batch", "make of 100 office sheets, warm / readfile", ("make_batch", 100), ("parse_batch", 100), "4", "2"),
    Row("words", "words of 100,000 blocks, as fast as a splitter",
        ("words", 100_000), ("peer_words", 100_000), "4", "10", True),
    Row("compare", "compare of 100,000 blocks, as fast as it",
        ("compare", 100_000), ("peer_words", 100_000), "1", "3", True),
    Row("cut", "cutting 10,000 plunges, as fast as a union", ("cut", 10_000), ("union", 10_000), "20", "100", True),
    Row("jobs", "1,000 by two processes, as fast as by one",
        ("batch_on_two", 1000), ("batch", 1000), "1.8", "1.95", True, "clock", True),
    Row("memory", "memory, a hundred drawings ten times / once",
        ("make_again", 1000), ("make_batch", 100), "1.1", "1.02", False, "peak", True),
)  # fmt: skip
ALONE = (("many", "10,000 grooves", ("make_bare", 10_000), "10 s, 1 GiB", "5 s"),)
ROW_NAMES = (*(row.key for row in ROWS), *(key for key, *_ in ALONE))


def measured(work: tuple[str, int], folder: Path) -> dict[str, float]:
    """The figures of one work, in a process of its own."""
    name, n = work
    call = [sys.executable, str(HERE / "speed_work.py"), name, str(folder), str(n)]
    done = subprocess.run(call, stdout=subprocess.PIPE, check=False)
    if done.returncode:
        return {"cpu": float("nan"), "clock": float("nan"), "peak": float("nan")}
    figures: dict[str, float] = json.loads(done.stdout.splitlines()[-1])
    return figures


def ratios(row: Row, folder: Path, rounds: int) -> Iterator[float]:
    """The figure of a row, once a round: both works one after the other."""
    for _ in range(rounds):
        ours, other = measured(row.ours, folder)[row.measure], measured(row.other, folder)[row.measure]
        yield other / ours if row.faster else ours / other


def middle(values: list[float]) -> float:
    """The middle one of some values."""
    return sorted(values)[len(values) // 2]


def table(folder: Path, rounds: int, only: set[str]) -> None:
    """Print the rows wanted, each as soon as it is measured."""
    print(f"{'what':48} {'today':>7} {'spread':>15} {'bar':>12} {'goal':>6}")
    for row in ROWS:
        if row.key in only or (not only and not row.large):
            found = list(ratios(row, folder, rounds))
            spread = f"{min(found):.2f} to {max(found):.2f}"
            print(f"{row.name:48} {middle(found):7.2f} {spread:>15} {row.bar:>12} {row.goal:>6}", flush=True)
    for key, name, work, bar, goal in ALONE:
        if key in only:
            found = measured(work, folder)
            told = f"{found['cpu']:.1f} s cpu, {found['peak']:.0f} MiB"
            print(f"{name:48} {told:>23} {bar:>12} {goal:>6}", flush=True)


def growth(folder: Path, out: Path) -> None:
    """Measure `make` and the parse at several sizes, print how the ratio grows, and draw both."""
    ours = [measured(("make", n), folder)["cpu"] for n in SIZES]
    parse = [measured(("parse", n), folder)["cpu"] for n in SIZES]
    for n, mine, plain in zip(SIZES, ours, parse, strict=True):
        print(f"{n:6} grooves: make {mine:6.2f} s, ezdxf.readfile {plain:6.2f} s, {mine / plain:5.2f} x")
    worse = (ours[-1] / parse[-1]) / (ours[0] / parse[0])
    print(
        f"growth of make beyond the parse's own, {SIZES[0]} to {SIZES[-1]} grooves: {worse:.2f} x (bar 1.3, goal 1.1)"
    )
    out.write_text(picture({"rillwright make": ours, "ezdxf.readfile": parse}), "utf-8")


def main() -> None:
    """The table, or the picture of growth."""
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("--rounds", type=int, default=3)
    ask.add_argument("--only", default="", help=f"some of {', '.join(ROW_NAMES)}")
    ask.add_argument("--growth", type=Path, metavar="OUT.svg")
    ask.add_argument("--inputs", type=Path, help="keep the drawings and programs here, for the next run")
    given = ask.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        inputs = given.inputs or Path(folder)
        inputs.mkdir(parents=True, exist_ok=True)
        if given.growth:
            growth(inputs, given.growth)
        else:
            table(inputs, given.rounds, set(filter(None, given.only.split(","))))


if __name__ == "__main__":
    main()
