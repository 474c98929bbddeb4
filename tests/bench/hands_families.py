"""A dozen families of sheets as many offices draw them; each sheet is true, or has one printed value that is false.

A family draws a random piece and prints its values through a pencil, which changes the one that the lie names.
"""

import itertools
import random
from collections.abc import Callable

from hands_ink import Drawing, Space
from hands_pencil import BORES, H13, SHAFTS, Pencil, Sheet, begin, overall, some_grooves
from hands_pieces import Cut, Piece, View

Family = Callable[[random.Random, Pencil], Sheet]


def chain(pick: random.Random, say: Pencil) -> Sheet:
    """Lands and widths in one chain, the overall length under it."""
    piece = some_grooves(pick, pick.randrange(2, 5))
    drawing, view = begin(pick, piece)
    view.seen()
    view.centre()
    places = [0.0, *(z for cut in piece.cuts for z in (cut.z, cut.far)), piece.length]
    for ends in itertools.pairwise(places):
        view.along(ends, say(ends[1] - ends[0]))
        view.rows[1] -= 1
    for cut in piece.cuts:
        view.across((cut.z + cut.far) / 2, cut.floor, "%%c" + say(cut.floor))
    overall(view, say)
    return Sheet(drawing, piece)


def baseline(pick: random.Random, say: Pencil) -> Sheet:
    """Every place from the front face, here at the left, which is marked."""
    piece = some_grooves(pick, pick.randrange(2, 4))
    drawing, view = begin(pick, piece, left=True)
    view.seen()
    view.centre()
    face = view.at(0, piece.across / 3)
    drawing.model.leader(face, (face[0] - 15, face[1] + piece.across), "FRONT FACE")
    for cut in piece.cuts:
        view.along((0, cut.z), say(cut.z))
        view.along((cut.z, cut.far), say(cut.width), -1)
        view.across((cut.z + cut.far) / 2, cut.floor, "%%c" + say(cut.floor))
    overall(view, say)
    return Sheet(drawing, piece, left=True)


def half_section(pick: random.Random, say: Pencil) -> Sheet:
    """A bush in half section: a retaining-ring groove in the bore and a groove outside."""
    bore, floor, width, limits = pick.choice(BORES)
    across, z = bore + pick.choice((14, 18)), pick.randrange(8, 15) / 2
    ring = Cut(z, width, floor, inside=True, width_limits=H13, floor_limits=limits)
    piece = Piece(((pick.randrange(34, 50, 2), across),), (ring, Cut(16, 4, across - 5, 0.3)), bore)
    drawing, view = begin(pick, piece)
    side = pick.choice((1, -1))
    view.cut_open((side,))
    view.seen((-side,))
    view.centre()
    view.along((0, ring.z), say(ring.z), side, (piece.across / 2, bore / 2))
    view.along((ring.z, ring.far), f"{say(ring.width)} H13", side, (bore / 2, bore / 2))
    view.along((0, 16), say(16), -side)
    view.along((16, 20), say(4), -side)
    view.across(ring.far, floor, f"%%c{say(floor)} {say.limits(limits)}", 20)
    view.across(18, across - 5, "%%c" + say(across - 5))
    view.across(piece.length, bore, f"%%c{say(bore)} H7", -26)
    overall(view, say)
    return Sheet(drawing, piece)


def fits(pick: random.Random, say: Pencil) -> Sheet:
    """A stepped shaft with retaining-ring grooves, their limits as classes or figures."""
    rows = SHAFTS[pick.randrange(2) :]
    lands, cuts, z = [], [], 0.0
    for shaft, floor, width, limits in rows:
        cuts.append(Cut(z + pick.randrange(6, 13) / 2, width, floor, width_limits=H13, floor_limits=limits))
        z += pick.randrange(18, 27)
        lands.append((z, shaft))
    piece = Piece(tuple(lands), tuple(cuts))
    drawing, view = begin(pick, piece)
    view.seen()
    view.centre()
    here = 0.0
    for cut, (end, land) in zip(piece.cuts, piece.lands, strict=True):
        view.along((here, cut.z), say(cut.z - here))
        view.along((cut.z, cut.far), say(cut.width) + pick.choice((" H13", " " + say.limits(H13))))
        assert cut.floor_limits
        view.across((cut.z + cut.far) / 2, cut.floor, f"%%c{say(cut.floor)} {say.limits(cut.floor_limits)}")
        view.along((0, end), say(end), -1)
        view.across(end, land, f"%%c{say(land)} h6", 5)
        here = end
    return Sheet(drawing, piece)


def inch(pick: random.Random, say: Pencil) -> Sheet:
    """An adaptor in inches: decimals without a leading nought, two-sided limits."""
    across, width = pick.choice((1.0, 1.25, 1.5)), pick.choice((0.125, 0.1875))
    limits = (0.0, 0.005)
    cuts = tuple(Cut(z, width, across - 0.25, width_limits=limits) for z in (0.375, 1.0))
    piece = Piece(((pick.choice((1.75, 2.0)), across),), cuts, unit="in")
    drawing, view = begin(pick, piece, units=1)
    view.letter = 0.1
    view.seen()
    view.centre()
    for cut in cuts:
        view.along((0, cut.z), say(cut.z, 4).removeprefix("0"), -1)
        view.along((cut.z, cut.far), say(width, 4).removeprefix("0") + " +.005 -.000")
        view.across((cut.z + cut.far) / 2, cut.floor, "%%c" + say(cut.floor, 4).removeprefix("0"))
    view.along((0, piece.length), say(piece.length), -1)
    view.across(piece.length, across, "%%c" + say(across), -0.6)
    drawing.model.text((149, 77), "ALL DIMENSIONS IN INCHES", "DIM", 0.12)
    return Sheet(drawing, piece)


def second_view(pick: random.Random, say: Pencil) -> Sheet:
    """The outside above, the section under it in line; the bore's groove shows in the section alone."""
    across, bore, length = pick.randrange(40, 61, 2), pick.randrange(16, 23, 2), pick.randrange(34, 50, 2)
    within = Cut(pick.randrange(8, 15), 3, bore + 4, inside=True)
    piece = Piece(((length, across),), (Cut(9, 4, across - 6), within), bore)
    drawing, view = begin(pick, piece)
    view.seen()
    view.centre()
    below = View(drawing.model, piece, (150, 80 - across - 60), view.entity)
    below.cut_open(closed=pick.random() < 0.5)
    below.centre()
    drawing.model.text(
        (150 - length / 2, 80 - across / 2 - 44), pick.choice(("A-A", "SECTION A-A", "Schnitt A-A")), "DIM", 4
    )
    view.along((0, 9), say(9))
    view.along((9, 13), say(4))
    view.across(11, across - 6, "%%c" + say(across - 6))
    low = (bore / 2, within.floor / 2)
    below.along((0, within.z), say(within.z), -1, low)
    below.along((within.z, within.far), say(3), -1, low[1:] * 2)
    below.across((within.z + within.far) / 2, within.floor, "%%c" + say(within.floor))
    below.across(length, bore, "%%c" + say(bore), -14)
    view.along((0, length), say(length), 1)
    view.across(length, across, "%%c" + say(across), -14)
    return Sheet(drawing, piece)


def callouts(pick: random.Random, say: Pencil) -> Sheet:
    """Width by depth or by diameter at a leader, no words."""
    across, width, deep = pick.randrange(30, 51, 2), pick.choice((3, 4)), pick.choice((2, 2.5))
    piece = Piece(((60, across),), (Cut(9, width, across - 2 * deep), Cut(30, 5, across - 8)))
    drawing, view = begin(pick, piece)
    view.seen()
    view.centre()
    texts = (f"{say(width)}x{say(deep)}", f"{say(5)}x%%c{say(across - 8)}")
    for cut, words, side in zip(piece.cuts, texts, (1, -1), strict=True):
        tip = view.at((cut.z + cut.far) / 2, cut.floor / 2)
        drawing.model.leader(tip, (tip[0] + side * 8, view.place[1] + across / 2 + 12), words)
        view.along((0, cut.z), say(cut.z), -1)
    overall(view, say)
    return Sheet(drawing, piece)


def counted(pick: random.Random, say: Pencil) -> Sheet:
    """Like grooves sized once with their number, their spacing as `n x p (= sum)`."""
    number, pitch = pick.randrange(3, 6), pick.choice((7, 8, 10))
    across = pick.randrange(30, 51, 2)
    piece = Piece(((number * pitch + 20, across),), tuple(Cut(8 + k * pitch, 3, across - 5) for k in range(number)))
    drawing, view = begin(pick, piece)
    view.seen()
    view.centre()
    view.along((0, 8), say(8))
    view.along((8, 11), f"{round(say.value(number))}x {say(3)}")
    view.along((8, piece.cuts[-1].z), f"{number - 1}x{say(pitch)}(={say((number - 1) * pitch)})")
    view.across(9.5 + pitch, across - 5, f"{number}x %%c{say(across - 5)}")
    overall(view, say)
    return Sheet(drawing, piece)


def mirrored(pick: random.Random, say: Pencil) -> Sheet:
    """One half is a block drawn at half size; it is inserted twice, once mirrored, inside another block."""
    piece = some_grooves(pick, 3)
    drawing = Drawing(old=pick.random() < 0.5)
    half, whole = Space(), Space()
    small = Piece(
        tuple((end / 2, d / 2) for end, d in piece.lands),
        tuple(Cut(c.z / 2, c.width / 2, c.floor / 2, c.radius / 2) for c in piece.cuts),
    )
    View(half, small, (0, 0)).seen((1,))
    for side in (2.0, -2.0):
        whole.insert("HALF", half, (0, 0), (2.0, side))
    drawing.model.insert("WHOLE", whole, (150, 80))
    view = View(drawing.model, piece, (150, 80), entity=not drawing.old)
    view.centre()
    for cut in piece.cuts:
        view.along((0, cut.z), say(cut.z))
        view.along((cut.z, cut.far), say(cut.width), -1)
        view.across((cut.z + cut.far) / 2, cut.floor, "%%c" + say(cut.floor))
    overall(view, say)
    return Sheet(drawing, piece)


def half_alone(pick: random.Random, say: Pencil) -> Sheet:
    """Only the upper half, with the two short strokes of symmetry at each end of the axis (ISO 128)."""
    piece = some_grooves(pick, 2)
    drawing, view = begin(pick, piece)
    view.seen((1,))
    view.centre()
    for z in (-3.0, -4.5, piece.length + 3, piece.length + 4.5):
        drawing.model.line(view.at(z, -2), view.at(z, 2), "DIM")
    for k, cut in enumerate(piece.cuts):
        view.along((0, cut.z), say(cut.z))
        view.along((cut.z, cut.far), say(cut.width))
        tip = view.at((cut.z + cut.far) / 2, cut.floor / 2)
        drawing.model.leader(tip, (tip[0] + 6, view.place[1] - 12 - 6 * k), "%%c" + say(cut.floor))
    view.along((0, piece.length), say(piece.length))
    tip = view.at(piece.length - 2, piece.across / 2)
    drawing.model.leader(tip, (tip[0] - 8, tip[1] + 12), "%%c" + say(piece.across))
    return Sheet(drawing, piece)


def hidden_bore(pick: random.Random, say: Pencil) -> Sheet:
    """Outside view, the bore and its groove dashed, sizes to the dashed lines."""
    across = pick.randrange(40, 57, 2)
    within = Cut(pick.randrange(26, 33), 3, 26, inside=True)
    piece = Piece(((50, across),), (Cut(12, 4, across - 8), within), 20)
    drawing, view = begin(pick, piece)
    view.seen()
    view.hidden()
    view.centre()
    view.along((0, 12), say(12))
    view.along((12, 16), say(4))
    view.along((0, within.z), say(within.z), -1, (10, 13))
    view.along((within.z, within.far), say(3), -1, (13, 13))
    view.across(14, across - 8, "%%c" + say(across - 8))
    view.across(within.z + 1.5, 26, "%%c" + say(26))
    view.across(50, 20, "%%c" + say(20), -26)
    overall(view, say)
    return Sheet(drawing, piece)


def class_and_figures(pick: random.Random, say: Pencil) -> Sheet:
    """A class and its limits printed together; a lie may stand in the limits."""
    shaft, floor, width, limits = pick.choice(SHAFTS[1:])
    cut = Cut(9, width, floor, width_limits=H13, floor_limits=limits)
    piece = Piece(((50, shaft),), (cut,))
    drawing, view = begin(pick, piece)
    view.seen()
    view.centre()
    view.along((0, 9), say(9), -1)
    view.along((9, cut.far), f"{say(width)} H13 ({say.limits(H13)})")
    upper, lower = floor + limits[1], floor + limits[0]
    view.across(9 + width / 2, floor, f"%%c{say(floor)} h12 ({say(upper)}/{say(lower)})")
    overall(view, say)
    return Sheet(drawing, piece)


FAMILIES: dict[str, Family] = {
    one.__name__: one
    for one in (
        *(chain, baseline, half_section, fits, inch, second_view),
        *(callouts, counted, mirrored, half_alone, hidden_bore, class_and_figures),
    )
}
