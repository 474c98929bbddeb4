"""Small drawings of the places of walls, centres and pitches, each with what must come of it."""

from dataclasses import replace
from pathlib import Path

from .byhand import Print, outside, row_of, shaft, shop_with
from .points import agreed, kept, point, shifted
from .values import Mark, measure


def placed(name: str, text: str, units: str = "mm", **variables: float) -> Print:
    """One groove 3 wide, 10 from the front and 60 from the back, with one place printed; inches are a tenth of it."""
    if units == "in":
        piece = shaft(outside(1.0, 0.3, 3.4, 4.0), across=4.0, length=7.3, units="in")
    else:
        piece = shaft(outside(10.0, 3.0, 34.0), length=73.0)
    printed = Print(piece).put(name, 0, text, **variables)
    return printed.put("width", 0, ".300 +.004/0" if units == "in" else "3 +0.1/0").put("floor", 0, "")


def both_ends(folder: Path, printed: Print, wall: str, ends: tuple[float, float], count: float = 0.001) -> list[str]:
    """The groove moved so that a place lies at each of its limits must agree, one count beyond differ."""
    found = kept(folder, printed)
    half = 0.05 * count / 0.001 if count == 0.001 else 0.002
    for by, right in ((ends[0], True), (ends[1], True), (ends[0] - count, False), (ends[1] + count, False)):
        moves = {"near0": by, "far0": by}
        moves["near0" if wall == "far" else "far0"] += -half if wall == "far" else half
        found += [f"moved {by:+g}: {f}" for f in agreed(folder, printed, shifted(printed.piece, **moves), right)]
    return found


@point("10 +0.2/0 from the front face to the near wall means 10.0 to 10.2")
def near_text(folder: Path) -> list[str]:
    return both_ends(folder, placed("near", "10 +0.2/0"), "near", (0.0, 0.2))


@point("10 -0.1/-0.2 to the near wall means 9.8 to 9.9")
def near_minus(folder: Path) -> list[str]:
    return both_ends(folder, placed("near", "10 -0.1/-0.2"), "near", (-0.2, -0.1))


@point("dimension variables on a near wall mean the same as text")
def near_variables(folder: Path) -> list[str]:
    return both_ends(folder, placed("near", "", dimtol=1, dimtp=0.2, dimtm=0.0), "near", (0.0, 0.2))


@point("limits by variables on a near wall")
def near_limits(folder: Path) -> list[str]:
    return both_ends(folder, placed("near", "", dimlim=1, dimtp=0.2, dimtm=-0.1), "near", (0.1, 0.2))


@point("13 +0.2/+0.1 to the far wall means 13.1 to 13.2")
def far_text(folder: Path) -> list[str]:
    return both_ends(folder, placed("far", "13 +0.2/+0.1"), "far", (0.1, 0.2))


@point("an inch place 1.000 +.008/.000 means 1.000 to 1.008")
def near_inch(folder: Path) -> list[str]:
    shop = shop_with(units="in", outside=(0.08, 0.004))
    printed = placed("near", "1.000 +.008/.000", "in")
    found = kept(folder, printed, shop)
    for by, right in ((0.0, True), (0.008, True), (-0.0001, False), (0.0081, False)):
        state = shifted(printed.piece, near0=by, far0=by + 0.002)
        found += [f"moved {by:+g}: {f}" for f in agreed(folder, printed, state, right, shop)]
    return found


@point("a centre 11.5 +0.2/+0.1 from the front face is kept")
def centre(folder: Path) -> list[str]:
    return kept(folder, placed("centre", "11.5 +0.2/+0.1"))


@point("63 +0.2/+0.1 from the back face to the near wall is kept")
def from_back(folder: Path) -> list[str]:
    return kept(folder, placed("near from back", "63 +0.2/+0.1"))


@point("a bare near wall does not move where the width has +0.3/+0.1")
def bare_near(folder: Path) -> list[str]:
    printed = Print(shaft(outside(10.0, 3.0, 34.0))).put("near", 0, "10").put("width", 0, "3 +0.3/+0.1")
    printed.put("floor", 0, "")
    found = kept(folder, printed)
    for near, far, right in ((0.0, 0.2, True), (0.02, 0.22, True), (-0.1, 0.1, False), (0.022, 0.22, False)):
        found += agreed(folder, printed, shifted(printed.piece, near0=near, far0=far), right)
    return found


@point("a bare far wall does not move where the width has +0.3/+0.1")
def bare_far(folder: Path) -> list[str]:
    printed = Print(shaft(outside(10.0, 3.0, 34.0))).put("far", 0, "13").put("width", 0, "3 +0.3/+0.1")
    printed.put("floor", 0, "")
    found = kept(folder, printed)
    for near, far, right in ((-0.2, 0.0, True), (-0.1, 0.1, False)):
        found += agreed(folder, printed, shifted(printed.piece, near0=near, far0=far), right)
    return found


@point("a pitch 3x 7 +0.2/+0.1 holds for each space and adds up along the row")
def pitch(folder: Path) -> list[str]:
    printed = Print(row_of(4)).put("near", 0, "8 %%p0.05").put("width", 0, "4x 3 +0.1/0", of=(0, 1, 2, 3))
    printed.put("floor", 0, "4x %%c34", of=(0, 1, 2, 3)).put("pitch", 0, "3x 7 +0.2/+0.1", j=1)
    for i in (1, 2):
        printed.marks[-1] = add_pitch(printed, i)
    found = kept(folder, printed)
    moves = {f"{wall}{i}": 0.15 * i + extra for i in range(4) for wall, extra in (("near", 0.0), ("far", 0.05))}
    found += agreed(folder, printed, shifted(printed.piece, **moves), True)
    return found + agreed(folder, printed, shifted(printed.piece, **moves, floor0=0.0) | {(3, "near"): 29.3}, False)


def add_pitch(printed: Print, i: int) -> Mark:
    """The last mark with the space behind recess i as well."""
    last = printed.marks[-1]
    return replace(last, measures=(*last.measures, measure(printed.piece, "pitch", i, i + 1)))


@point("a land 4 +0.2/+0.1 between two grooves is kept")
def land(folder: Path) -> list[str]:
    printed = Print(row_of(2)).put("near", 0, "8").put("land", 0, "4 +0.2/+0.1", j=1)
    for i in (0, 1):
        printed.put("width", i, "3").put("floor", i, "")
    return kept(folder, printed)
