"""More oddities of real sheets: how views are put together, and features beside the grooves."""

import itertools
import random
from collections.abc import Callable

from support.independent import views
from support.independent.move import Move
from support.independent.parts import Corner, TrueGroove, TurnedPart
from support.independent.traps import BODY, DIMS, LOOKS, Drawn, plain_part, whole_view
from support.ink import Arc, Block, Circle, Dim, Ink, Line, Path, Text, strokes


def _land(part: TurnedPart) -> tuple[float, float, float]:
    """The longest plain land: front, back, radius."""
    floors = {round(g.floor_diameter / 2, 6) for g in part.grooves}
    run = part.outside_run()
    level = [(a[0], b[0], a[1]) for a, b in itertools.pairwise(run) if a[1] == b[1] and a[0] > b[0]]
    return max((x for x in level if round(x[2], 6) not in floors), key=lambda x: x[0] - x[1])


def mirrored_block(seed: int) -> Drawn:
    """The upper half in a block, put in twice, once mirrored."""
    part = plain_part(seed)
    run = part.outside_run()
    half = strokes([(0.0, 0.0, 0.0), *run, (-part.length, 0.0, 0.0)], False, BODY)
    half += views.across(views.edges(run, part.length, False), BODY, 0.0, 1.0)
    both = [Block(tuple(half), (0.0, 0.0), name="HALF"), Block(tuple(half), (0.0, 0.0), size=(1.0, -1.0), name="HALF")]
    return both + views.centre_line(part, LOOKS.centre), part, {}, "read"


def dashes_by_hand(seed: int) -> Drawn:
    """The centre line drawn as many continuous long and short strokes on the outline's layer."""
    part = plain_part(seed)
    ink, x, end = views.side(part, LOOKS), -1.1 * part.length, 0.1 * part.length
    while x < end:
        for stroke in (0.05 * part.length, 0.01 * part.length):
            ink.append(Line((x, 0.0), (min(x + stroke, end), 0.0), BODY))
            x += stroke + 0.008 * part.length
    return ink, part, {}, "read"


def groove_at_a_step(seed: int) -> Drawn:
    """A groove between lands of different diameter: its mouth is the lower one's."""
    rng = random.Random(seed)
    low, high, floor, width = 10.0, 10.0 + rng.choice((1.0, 2.5)), 8.0, rng.choice((2.0, 3.0))
    corners = [
        Corner(0, low),
        Corner(-15, low),
        Corner(-15, floor),
        Corner(-15 - width, floor),
        Corner(-15 - width, high),
    ]
    corners.append(Corner(-40, high))
    groove = TrueGroove("outside", ("rectangular", "relief"), -15, -15 - width, 2 * low, 2 * floor)
    part = TurnedPart("mm", 40.0, tuple(corners), (), (groove,), 0.5)
    return whole_view(part), part, {}, "read"


def _cut(corners: list[Corner], floor: float) -> Drawn:
    """A section of a 30 mm shaft with one recess of these corners, its walls under the lands: no straight plunge."""
    outside = (Corner(0, 15), *corners, Corner(-30, 15))
    groove = TrueGroove("outside", ("other",), -10, -16, 30.0, 2 * floor)
    part = TurnedPart("mm", 30.0, outside, (), (groove,), 0.5)
    return views.outline(part, LOOKS) + views.centre_line(part, LOOKS.centre), part, {}, "undercut"


def dovetail(seed: int) -> Drawn:
    """A groove whose both walls lean under the lands."""
    lean = random.Random(seed).choice((0.5, 1.0))
    return _cut([Corner(-10, 15), Corner(-10 + lean, 12), Corner(-16 - lean, 12), Corner(-16, 15)], 12)


def tee_slot(seed: int) -> Drawn:
    """A groove with a wider chamber below its mouth."""
    out = random.Random(seed).choice((1.0, 2.0))
    near = [Corner(-10, 15), Corner(-10, 13), Corner(-10 + out, 13), Corner(-10 + out, 11)]
    return _cut([*near, Corner(-16 - out, 11), Corner(-16 - out, 13), Corner(-16, 13), Corner(-16, 15)], 11)


def knurl(seed: int) -> Drawn:
    """A land crossed by slanting lines both ways."""
    part = plain_part(seed)
    front, back, r = _land(part)
    ink, step, x = whole_view(part), (front - back) / 6, back
    while x + step <= front + 1e-9:
        ink += [Line((x, -r), (x + step, r), BODY), Line((x, r), (x + step, -r), BODY)]
        x += step
    return ink, part, {}, "read"


def keyway(seed: int) -> Drawn:
    """A keyway seen from above: two lines and two half circles within the body."""
    part = plain_part(seed)
    front, back, r = _land(part)
    w, a, b = min(r, front - back) * 0.2, front - (front - back) * 0.3, back + (front - back) * 0.3
    ink = [*whole_view(part), Line((a, w), (b, w), BODY), Line((a, -w), (b, -w), BODY)]
    return [*ink, Arc((a, 0), w, -90, 90, BODY), Arc((b, 0), w, 90, 270, BODY)], part, {}, "read"


def cross_hole(seed: int) -> Drawn:
    """A hole through the axis seen as a circle, with its centre mark and a thread's three-quarter circle."""
    part = plain_part(seed)
    front, back, r = _land(part)
    x, size = (front + back) / 2, min(r, front - back) * 0.25
    ink = [*whole_view(part), Circle((x, 0), size, BODY), Arc((x, 0), size * 1.15, 100, 10, BODY)]
    return [*ink, Line((x, -2 * size), (x, 2 * size), LOOKS.centre)], part, {}, "read"


def flat_cross(seed: int) -> Drawn:
    """Thin diagonals that say that a face is flat, and the flat's edges."""
    part = plain_part(seed)
    front, back, r = _land(part)
    a, b, y = front - (front - back) * 0.2, back + (front - back) * 0.2, 0.6 * r
    box = strokes([(a, -y, 0), (a, y, 0), (b, y, 0), (b, -y, 0)], True, BODY)
    return [*whole_view(part), *box, Line((a, -y), (b, y), BODY), Line((a, y), (b, -y), BODY)], part, {}, "read"


def broken_shaft(seed: int) -> Drawn:
    """A long shaft drawn short with two break lines, its length in an overriding text."""
    part = plain_part(seed)
    front, back, r = _land(part)
    ink: list[Ink] = whole_view(part)
    for x in (back + (front - back) * 0.4, back + (front - back) * 0.6):
        run = [(x + 0.3 * (k % 2), -1.1 * r + 2.2 * r * k / 8, 0.0) for k in range(9)]
        ink.append(Path(tuple(run), False, BODY))
    r_max = part.outer_diameter / 2
    ink.append(Dim((0, r_max), (-part.length, r_max), (0, 2 * r_max), 0.0, f"{part.length * 3:g}", role=DIMS))
    return ink, part, {}, "refuse"


def diameters_in_words(seed: int) -> Drawn:
    """Sizes only in leader texts, with a comma for the point."""
    part = plain_part(seed)
    r = part.outer_diameter / 2
    text = f"\u00d8{2 * r:g}".replace(".", ",")
    wide = next(c for c in part.outside if c.r >= r - 1e-9)
    leader = Path(((wide.z - 0.2, r, 0.0), (wide.z - 5, r + 8, 0.0), (wide.z - 12, r + 8, 0.0)), False, DIMS)
    return [*views.side(part, LOOKS), leader, Text((wide.z - 12, r + 8.5), text, 2.5, role=DIMS)], part, {}, "either"


def comma_for_point(seed: int) -> Drawn:
    """A dimension whose overriding text has a comma for the point and a tolerance."""
    part = plain_part(seed)
    r = part.outer_diameter / 2
    wide = next(c for c in part.outside if c.r >= r - 1e-9)
    text = f"%%c{2 * r:g} 0/-0,1".replace(".", ",")
    dim = Dim((wide.z - 0.1, -r), (wide.z - 0.1, r), (10.0, 0.0), 90.0, text, role=DIMS)
    return [*whole_view(part), dim], part, {}, "read"


def two_rows_interleaved(seed: int) -> Drawn:
    """Narrow and wide grooves in turn, lands of half a millimetre."""
    corners, grooves, z = [Corner(0, 12.0)], [], -3.0
    for index in range(10):
        width, floor = ((1.5, 10.0), (2.5, 11.0))[index % 2]
        far = round(z - width, 6)
        corners += [Corner(z, 12), Corner(z, floor), Corner(far, floor), Corner(far, 12)]
        grooves.append(TrueGroove("outside", ("rectangular",), z, far, 24.0, 2 * floor))
        z = round(far - 0.5, 6)
    corners.append(Corner(z - 3, 12.0))
    part = TurnedPart("mm", 3 - z, tuple(corners), (), tuple(grooves), 0.1)
    return whole_view(part), part, {}, "read"


def upside_down_and_left(seed: int) -> Drawn:
    """The part drawn pointing left, mirrored, the user saying which end is the front."""
    part = plain_part(seed)
    return Move((100.0, 50.0), 180.0, 1.0, True).all(whole_view(part)), part, {"front": "left"}, "read"


def far_from_the_origin(seed: int) -> Drawn:
    """A view a kilometre from the origin, as survey software leaves it."""
    part = plain_part(seed)
    return Move((1_234_567.25, -7_654_321.5)).all(whole_view(part)), part, {}, "read"


def thin_disc(seed: int) -> Drawn:
    """A pulley wider across than long, its one groove deep."""
    r = 30.0 + seed
    corners = [Corner(0, r), Corner(-4, r), Corner(-4, r * 0.5), Corner(-8, r * 0.5), Corner(-8, r), Corner(-12, r)]
    groove = TrueGroove("outside", ("rectangular",), -4, -8, 2 * r, r)
    part = TurnedPart("mm", 12.0, tuple(corners), (), (groove,), 0.5)
    return whole_view(part), part, {}, "read"


_ALL: tuple[Callable[[int], Drawn], ...] = (
    mirrored_block,
    dashes_by_hand,
    groove_at_a_step,
    dovetail,
    tee_slot,
    knurl,
    keyway,
)
_ALL += (cross_hole, flat_cross, broken_shaft, diameters_in_words, comma_for_point, two_rows_interleaved)
_ALL += (upside_down_and_left, far_from_the_origin, thin_disc)
MORE: dict[str, Callable[[int], Drawn]] = {trap.__name__: trap for trap in _ALL}
