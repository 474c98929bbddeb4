"""A recess that holds another: both are cut, or the outer one is left to turning and everyone is told so."""

import re
from pathlib import Path

from support.door import Answer, compare, make
from support.ink import Vertex
from support.second_opinion import run

from .byhand import Print, outside, saved, shaft, turned, wanted
from .law import Asked, faults
from .metal import Gauge, cut
from .points import SHOP, point, program
from .values import Piece


def step(outer: float, depth: float, inner: float, deeper: float) -> tuple[list[Vertex], Piece, Piece]:
    """The line of a bar of 40 with an outer recess from 12 on and a narrower one in the middle of its floor.

    With it the part as it is with only the outer, and with only the inner recess in a turned journal.
    """
    low, slot = 20.0 - depth, 20.0 - depth - deeper
    a, b = 12.0 + (outer - inner) / 2, 12.0 + (outer + inner) / 2
    points = [(0, 0), (0, 20), (-12, 20), (-12, low), (-a, low), (-a, slot), (-b, slot), (-b, low), (-12 - outer, low)]
    path = [(float(x), float(y), 0.0) for x, y in [*points, (-12 - outer, 20), (-60, 20), (-60, 0)]]
    wide = shaft(outside(12.0, outer, 2 * low))
    steps = ((12.0, 40.0), (12.0 + outer, 2 * low), (60.0, 40.0))
    return path, wide, Piece(units="mm", steps=steps, recesses=(outside(a, inner, 2 * slot, 2 * low),))


def stepped(folder: Path, outer: float, depth: float, inner: float, deeper: float) -> list[str]:
    """What is wrong with what is made, with and without `--grooved`."""
    path, wide, narrow = step(outer, depth, inner, deeper)
    a, b = narrow.recesses[0].near, narrow.recesses[0].far
    files = saved(
        folder, turned(path, {-12.0: 40.0, -12.0 - outer: 40.0, -a: 40 - 2 * depth, -b: 40 - 2 * depth}), SHOP
    )
    found = []
    for more in ((), ("--grooved",)):
        answer = make(*files, folder / "out", *more)
        if answer.status:
            found += [f"{more}: refused: {answer.stops()}"]
            continue
        text = program(folder)
        whole = both(wide, narrow, text)
        if not whole:
            continue
        if more:
            found += [f"--grooved does not cut both: {whole}"]
            continue
        found += told(answer, "make") + told(compare(files[0], folder / "out" / "piece.nc", files[1]), "compare")
        found += [f"turned first: {f}" for f in faults(narrow, bare(narrow), SHOP, text)]
        page = (folder / "out" / "piece.html").read_text(encoding="utf-8")
        found += (
            []
            if re.search(r"(?i)turn\w*\s+(it\s+)?(first|before)|first\b[^.]*turn", page)
            else ["the sheet does not say: turn it first"]
        )
    return found


def bare(piece: Piece) -> list[Asked]:
    printed = Print(piece).put("near", 0, "").put("width", 0, "").put("floor", 0, "")
    return wanted(printed, SHOP)


def both(wide: Piece, narrow: Piece, text: str) -> list[str]:
    """What is wrong if both recesses are meant to be cut from the full bar."""
    inner = narrow.recesses[0]
    whole = Piece(units="mm", steps=wide.steps, recesses=(inner,))
    found = [str(f) for f in faults(whole, bare(whole), SHOP, text)]
    # The outer recess: its walls, seen above its floor, where the inner one is not yet there.
    return [f for f in found if "elsewhere" not in f] + outer_walls(wide, text)


def outer_walls(wide: Piece, text: str) -> list[str]:
    metal = cut(wide, run(text, metal_alone=True), SHOP.inserts, 1e-4).metal
    walls = Gauge(metal, wide.recesses[0]).walls(0.5)
    if walls is None:
        return ["outer recess uncut"]
    off = max(abs(walls[0] + wide.recesses[0].near), abs(walls[1] + wide.recesses[0].far))
    return [f"outer walls off by {off:.3f}"] if off > SHOP.tolerance + 1e-6 else []


def told(answer: Answer, where: str) -> list[str]:
    """Whether a caution speaks of a land that is left to turning."""
    document = answer.document[0] if isinstance(answer.document, list) else answer.document
    cautions = [f for f in document["findings"] if f["level"] == "caution" and "turn" in f["message"].lower()]
    return [] if cautions else [f"no caution of a land left to turning in {where}"]


@point("a 6 wide slot in the floor of a 14 wide recess")
def fourteen(folder: Path) -> list[str]:
    return stepped(folder, 14.0, 3.0, 6.0, 3.0)


@point("a 3 wide slot in the floor of an 8 wide recess")
def eight(folder: Path) -> list[str]:
    return stepped(folder, 8.0, 2.0, 3.0, 2.0)


@point("a 6 wide slot in the floor of a 30 wide recess")
def thirty(folder: Path) -> list[str]:
    return stepped(folder, 30.0, 2.0, 6.0, 3.0)
