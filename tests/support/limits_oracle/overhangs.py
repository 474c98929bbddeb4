"""Recesses that a plain insert can't reach into: each must be a stop, and leave the others to be made once accepted."""

import math
from pathlib import Path

from support.door import Answer, compare, make
from support.ink import Vertex

from .byhand import Print, outside, saved, shaft, turned, wanted
from .law import faults
from .laying import Sheet
from .points import SHOP, point, program


def overhang(folder: Path, sheet: Sheet, plain_near: float) -> list[str]:
    """An overhang beside a plain groove 3 wide and 3 deep: a stop; accepted, the plain groove alone is made."""
    files = saved(folder, sheet, SHOP)
    first = make(*files, folder / "out")
    if first.status == 0:
        return ["made without a stop"]
    answer, stops = first, sorted(set(first.stops()))
    for _ in range(3):
        if answer.status == 0:
            break
        more = set(answer.stops()) - set(stops)
        if not stops or (answer is not first and not more):
            return [f"refused although {stops} were accepted: {answer.stops()}"]
        stops = sorted({*stops, *more})
        answer = make(*files, folder / "out", "--accept", ",".join(stops))
    if answer.status:
        return [f"refused although {stops} were accepted: {answer.stops()}"]
    piece = shaft(outside(plain_near, 3.0, 34.0), length=100.0)
    printed = Print(piece).put("width", 0, "3").put("near", 0, "").put("floor", 0, "")
    found = [str(f) for f in faults(piece, wanted(printed, SHOP), SHOP, program(folder))]
    return (
        found
        + cautioned(answer, stops)
        + cautioned(compare(files[0], folder / "out" / "piece.nc", files[1], "--accept", ",".join(stops)), stops)
    )


def cautioned(answer: Answer, codes: list[str]) -> list[str]:
    """Which of these codes a record or a comparison does not carry as a caution."""
    document = answer.document[0] if isinstance(answer.document, list) else answer.document
    told = {f["code"] for f in document["findings"] if f["level"] == "caution"}
    return [f"no caution {code}" for code in codes if code not in told]


def bar(middle: list[Vertex], length: float = 60.0) -> Sheet:
    """A bar of 40 with a plain groove at 40 to 43 from the front and something else before it."""
    plain = [(-40.0, 20.0, 0.0), (-40.0, 17.0, 0.0), (-43.0, 17.0, 0.0), (-43.0, 20.0, 0.0)]
    ends = ([(0.0, 0.0, 0.0), (0.0, 20.0, 0.0)], [(-length, 20.0, 0.0), (-length, 0.0, 0.0)])
    # No lines across at the mouth of the overhang: in a section they would run through cut metal.
    mouths = {-40.0: 40.0, -43.0: 40.0}
    return turned([*ends[0], *middle, *plain, *ends[1]], mouths)


@point("a dovetail is a stop that can be accepted")
def dovetail(folder: Path) -> list[str]:
    """6 wide at the mouth, 9 at the floor."""
    return overhang(folder, bar([(-12.0, 20.0, 0), (-10.5, 16.0, 0), (-19.5, 16.0, 0), (-18.0, 20.0, 0)]), 40.0)


@point("a half dovetail is a stop that can be accepted")
def half_dovetail(folder: Path) -> list[str]:
    """One wall upright, the other leaning under its land."""
    return overhang(folder, bar([(-12.0, 20.0, 0), (-12.0, 16.0, 0), (-19.5, 16.0, 0), (-18.0, 20.0, 0)]), 40.0)


@point("a T-slot is a stop that can be accepted")
def t_slot(folder: Path) -> list[str]:
    """4 wide down to half depth, 8 wide below."""
    upper, lower = [(-13.0, 20.0, 0), (-13.0, 17.5, 0)], [(-11.0, 17.5, 0), (-11.0, 15.0, 0)]
    other = [(-19.0, 15.0, 0), (-19.0, 17.5, 0), (-17.0, 17.5, 0), (-17.0, 20.0, 0)]
    return overhang(folder, bar([*upper, *lower, *other]), 40.0)


@point("a relief that reaches into the shoulder's face is a stop that can be accepted")
def relief_into_the_face(folder: Path) -> list[str]:
    """At a shoulder of 40 behind a journal of 30, reaching 0.3 into the shoulder's face, as form F of DIN 509."""
    lean = math.tan(math.radians(15))
    start = -20.0 + 1.0 + 0.5 / lean
    path = [(0.0, 0.0, 0), (0.0, 15.0, 0), (start, 15.0, 0), (-19.0, 14.5, 0), (-20.3, 14.5, 0), (-20.3, 16.0, 0)]
    path += [(-20.0, 16.6, 0), (-20.0, 20.0, 0)]
    plain = [(-40.0, 20.0, 0.0), (-40.0, 17.0, 0.0), (-43.0, 17.0, 0.0), (-43.0, 20.0, 0.0)]
    path += [*plain, (-100.0, 20.0, 0), (-100.0, 0.0, 0)]
    sheet = turned([(float(x), float(y), float(r)) for x, y, r in path], {-20.0: 40.0, -40.0: 40.0, -43.0: 40.0})
    return overhang(folder, sheet, 40.0)


@point("a pocket under one wall is a stop that can be accepted")
def overhang_in_the_floor(folder: Path) -> list[str]:
    """A groove with a pocket under one wall, low down."""
    run = [(-12.0, 20.0, 0), (-12.0, 15.0, 0), (-18.0, 15.0, 0), (-18.0, 15.8, 0), (-17.0, 15.8, 0), (-17.0, 20.0, 0)]
    return overhang(folder, bar([(float(x), float(y), float(r)) for x, y, r in run]), 40.0)
