"""Small drawings of faces, like grooves, corners and noughts, each with what must come of it."""

from pathlib import Path

from support.door import judged, make

from .byhand import Print, drawn, face, outside, row_of, shaft, shop_with, wanted
from .law import faults
from .points import SHOP, agreed, kept, point, program, shifted
from .rival import rival
from .values import Piece


@point("a face groove's outer wall 40 +0.2/+0.1 is kept")
def face_wall(folder: Path) -> list[str]:
    printed = Print(shaft(face(40.0, 30.0, 3.0), across=60.0)).put("near", 0, "%%c40 +0.2/+0.1").put("far", 0, "%%c30")
    found = kept(folder, printed.put("floor", 0, "3"))
    for by, right in ((0.1, True), (0.2, True), (0.05, False), (0.0, False), (0.201, False)):
        found += [f"{by:+g}: {f}" for f in agreed(folder, printed, shifted(printed.piece, near0=by), right)]
    return found


@point("a face groove's wall printed 41 on a drawn 40 is reported")
def face_contradicts(folder: Path) -> list[str]:
    printed = Print(shaft(face(40.0, 30.0, 3.0), across=60.0)).put("near", 0, "%%c41").put("far", 0, "%%c30")
    answer = make(*drawn(folder, printed.put("floor", 0, "3"), SHOP), folder / "out")
    return [] if answer.status == 1 and answer.stops() else ["made"]


@point("a class holds a face groove's depth, width and diameters")
def face_class(folder: Path) -> list[str]:
    note = "ISO 2768-m"
    printed = Print(shaft(face(40.0, 30.0, 3.0), across=60.0)).put("near", 0, "%%c40").put("far", 0, "%%c30")
    printed.put("floor", 0, "3")
    found = kept(folder, printed, note=note)
    for by, right in ((0.1, True), (-0.1, True), (0.101, False), (-0.101, False)):
        found += [f"{by:+g}: {f}" for f in agreed(folder, printed, shifted(printed.piece, floor0=by), right, note=note)]
    for by, right in ((0.3, True), (0.302, False)):
        found += [f"{by:+g}: {f}" for f in agreed(folder, printed, shifted(printed.piece, near0=by), right, note=note)]
    return found


@point("five like grooves of which one carries the tolerances are all cut within them")
def like(folder: Path) -> list[str]:
    printed = Print(row_of(5)).put("near", 0, "8").put("width", 0, "3 +0.2/+0.1").put("floor", 0, "%%c34 -0.1/-0.3")
    told = Print(printed.piece)
    told.marks = list(printed.marks)
    for i in range(1, 5):
        told.put("width", i, "3 +0.2/+0.1").put("floor", i, "%%c34 -0.1/-0.3")
    files = drawn(folder, printed, SHOP)
    answer = make(*files, folder / "out")
    if answer.status:
        return [f"refused: {answer.stops()}"]
    found = [str(f) for f in faults(printed.piece, wanted(told, SHOP), SHOP, program(folder))]
    moves = {f"{wall}{i}": by for i in range(5) for wall, by in (("far", 0.15), ("floor", -0.2))}
    text = rival(printed.piece, wanted(told, SHOP), SHOP, shifted(printed.piece, **moves))
    verdict = judged(files, text or "").document
    return found + (
        [] if verdict["agree"] else [f"a right program accused: {[g['state'] for g in verdict['grooves']]}"]
    )


@point("like grooves with tolerances of their own are each cut within them")
def like_but_own(folder: Path) -> list[str]:
    printed = Print(row_of(3)).put("near", 0, "8").put("pitch", 0, "7", j=1).put("pitch", 1, "7", j=2)
    for i, text in enumerate(("3 +0.1/0", "3 +0.2/+0.05", "3 +0.08/-0.1")):
        printed.put("width", i, text).put("floor", i, "%%c34")
    return kept(folder, printed)


@point("like grooves whose tolerances do not overlap are each cut within their own")
def like_apart(folder: Path) -> list[str]:
    printed = Print(row_of(3)).put("near", 0, "8").put("pitch", 0, "7", j=1).put("pitch", 1, "7", j=2)
    for i, text in enumerate(("%%c34 0/-0.1", "%%c34 +0.3/+0.2", "%%c34 0/-0.1")):
        printed.put("width", i, "3 +0.1/0").put("floor", i, text)
    return kept(folder, printed)


def rounded(text: str) -> Print:
    printed = Print(shaft(outside(10.0, 4.0, 34.0, corner=0.5))).put("corner", 0, text)
    return printed.put("near", 0, "10").put("width", 0, "4 %%p0.05").put("floor", 0, "%%c34 %%p0.05")


@point("R0.5 +/-0.1 is kept, whatever the insert's corner")
def corner_kept(folder: Path) -> list[str]:
    found = []
    for corner in (0.05, 0.2, 0.5):
        shop = shop_with(outside=(2.0, corner))
        found += [f"RE {corner}: {f}" for f in kept(folder, rounded("R0.5 %%p0.1"), shop, must=False)]
    return found


@point("R0.5 +/-0.1 left by RE 0.4 or 0.6 agrees, by 0.05, 0.39 or 0.61 differs")
def corner_compared(folder: Path) -> list[str]:
    found = []
    for corner, right in ((0.4, True), (0.6, True), (0.05, False), (0.39, False), (0.61, False)):
        shop, printed = shop_with(outside=(2.0, corner)), rounded("R0.5 %%p0.1")
        files = drawn(folder, printed, shop)
        bare = Print(printed.piece)
        bare.marks = printed.marks[1:]
        own = wanted(bare, shop)
        loose = Piece(units="mm", steps=printed.piece.steps, recesses=(outside(10.0, 4.0, 34.0, corner=corner),))
        text = rival(loose, own, shop, printed.piece.state())
        if judged(files, text or "").document["agree"] != right:
            found.append(f"RE {corner} {'accused' if right else 'agreed'}")
    return found


@point("a bare nought in an inch diameter 1.360 .000/-.005 is a limit")
def nought(folder: Path) -> list[str]:
    shop = shop_with(units="in", outside=(0.08, 0.004), tolerance=0.0005)
    piece = shaft(outside(0.4, 0.125, 1.36, 1.6), across=1.6, length=2.0, units="in")
    printed = Print(piece).put("near", 0, ".400").put("width", 0, ".125").put("floor", 0, "%%c1.360 .000/-.005")
    found = kept(folder, printed, shop)
    for by, right in ((0.0, True), (-0.005, True), (0.0002, False), (-0.0052, False)):
        found += [f"{by:+g}: {f}" for f in agreed(folder, printed, shifted(piece, floor0=by), right, shop)]
    return found
