"""Oddities that real sheets show, one at a time, around one random part; each is named for what is odd.

Source of the oddities: a survey of turned parts in public hardware repositories (layers, sloppiness, traps); the
parts and figures here are invented.
"""

import random
from collections.abc import Callable
from dataclasses import replace

from support.independent import views
from support.independent.dress import Dresser
from support.independent.move import Move
from support.independent.offices import ENGLISH, PATTERNS, Case, unseen
from support.independent.parts import Corner, TrueGroove, TurnedPart
from support.independent.stock import Wishes, random_part
from support.independent.views import Looks
from support.ink import Block, Circle, Dim, Ink, Line, Look, Path, Text, strokes
from support.plain_dxf import Style, Writer

LOOKS = ENGLISH.looks
BODY, DIMS = LOOKS.outline, ENGLISH.dims
Drawn = tuple[list[Ink], TurnedPart, dict[str, object], str]


def plain_part(seed: int, **wishes: object) -> TurnedPart:
    """A part that surely has an outside groove."""
    for step in range(50):
        part = random_part(seed * 50 + step, Wishes(**wishes))  # type: ignore[arg-type]
        if any(g.where == "outside" for g in part.grooves):
            return part
    raise AssertionError("no groove in fifty parts")


def whole_view(part: TurnedPart, looks: Looks = LOOKS) -> list[Ink]:
    return views.side(part, looks) + views.centre_line(part, looks.centre)


def mouth_runs_on(seed: int) -> Drawn:
    """The land's line drawn on across each groove's mouth."""
    part = plain_part(seed)
    ink = whole_view(part)
    for g in part.grooves:
        reach = g.edge_chamfer + (0.5 if part.units == "mm" else 0.02)
        for sign in (1, -1):
            r = sign * g.mouth_diameter / 2
            ink.append(Line((g.z_near + reach, r), (g.z_far - reach, r), BODY))
    return ink, part, {}, "either"


def faces_on_dimension_layer(seed: int) -> Drawn:
    """Both end faces lie on the dimensions' layer."""
    part = plain_part(seed)
    ends = (0.0, -part.length)
    return [_on(i, DIMS) if _at(i, ends) else i for i in whole_view(part)], part, {}, "read"


def _at(item: Ink, places: tuple[float, ...]) -> bool:
    return isinstance(item, Line) and any(abs(item.a[0] - z) + abs(item.b[0] - z) < 1e-9 for z in places)


def _on(item: Ink, look: Look) -> Ink:
    return replace(item, role=look)


def half_outline_on_hatch_layer(seed: int) -> Drawn:
    """The lower outline lies on the hatch border's layer."""
    part = plain_part(seed)
    ink = [
        _on(i, Look("hatch_border")) if isinstance(i, Line) and i.a[1] < 0 and i.b[1] < 0 else i
        for i in whole_view(part)
    ]
    return ink, part, {}, "read"


def short_centre_line(seed: int) -> Drawn:
    """The centre line is drawn beyond one face only."""
    part = plain_part(seed)
    return [*views.side(part, LOOKS), Line((0.0, 0.0), (0.2 * part.length, 0.0), LOOKS.centre)], part, {}, "read"


def parallel_centre_lines(seed: int) -> Drawn:
    """Four parallel dash-dot lines, one of them the axis."""
    part = plain_part(seed)
    r = part.outer_diameter
    return (
        whole_view(part) + [Line((-part.length, y), (0.0, y), LOOKS.centre) for y in (r * 0.2, -r * 0.2, r * 0.9)],
        part,
        {},
        "read",
    )


def centre_line_through_views(seed: int) -> Drawn:
    """One centre line runs through an end view, the part and beyond."""
    part = plain_part(seed)
    far = part.length + part.outer_diameter * 2.5
    ink = [*views.side(part, LOOKS), Line((-far, 0.0), (far, 0.0), LOOKS.centre)]
    ink += [Circle((part.outer_diameter * 1.2, 0.0), c.r, BODY) for c in part.outside if c.r > 0]
    return ink, part, {}, "read"


def zigzag_thread(seed: int) -> Drawn:
    """A land carries a thread drawn as full teeth: eighteen teeth are not eighteen grooves."""
    part = plain_part(seed, plain=True, steps=1)
    r, z = part.outer_diameter / 2, -part.length
    teeth = [
        Corner(z - 1.5 * (i + 1) + 0.75 * (1 - k), r - (0.9 if k == 0 else 0.0)) for i in range(18) for k in (0, 1)
    ]
    outside = list(part.outside[:-1])
    body = [*outside, *teeth, Corner(z - 27.0, part.outside[-1].r)]
    whole = replace(part, outside=tuple(body), length=part.length + 27.0)
    return whole_view(whole), whole, {}, "thread"


def wide_neck(seed: int) -> Drawn:
    """A neck thirteen wide and shallow between two lands: a groove like any other."""
    rng = random.Random(seed)
    r, depth = rng.randint(8, 20), rng.choice((0.5, 1.0, 2.0))
    corners = [Corner(0, 0), Corner(0, r), Corner(-10, r), Corner(-10, r - depth), Corner(-23, r - depth)]
    corners += [Corner(-23, r), Corner(-40, r), Corner(-40, 0)]
    groove = TrueGroove("outside", ("rectangular",), -10, -23, 2 * r, 2 * (r - depth))
    part = TurnedPart("mm", 40.0, tuple(corners[1:-1]), (), (groove,), 0.5)
    return whole_view(part), part, {}, "read"


def collar(seed: int) -> Drawn:
    """Open steps on either side of a collar: no groove at all."""
    rng = random.Random(seed)
    a, b, c = rng.randint(6, 9), rng.randint(12, 16), rng.randint(7, 10)
    corners = [Corner(0, a), Corner(-12, a), Corner(-12, b), Corner(-18, b), Corner(-18, c), Corner(-35, c)]
    part = TurnedPart("mm", 35.0, tuple(corners), (), (), 0.5)
    return whole_view(part), part, {}, "read"


def relief_at_shoulder(seed: int) -> Drawn:
    """A groove right against a higher shoulder: its mouth is the lower land."""
    rng = random.Random(seed)
    low, high, floor = 10.0, 10.0 + rng.randint(2, 8), 10.0 - rng.choice((0.5, 1.0, 2.0))
    width = rng.choice((1.5, 2.0, 3.0))
    corners = [
        Corner(0, low),
        Corner(-20 + width, low),
        Corner(-20 + width, floor),
        Corner(-20, floor),
        Corner(-20, high),
    ]
    corners.append(Corner(-35, high))
    groove = TrueGroove("outside", ("rectangular", "relief"), -20 + width, -20, 2 * low, 2 * floor)
    part = TurnedPart("mm", 35.0, tuple(corners), (), (groove,), 0.5)
    return whole_view(part), part, {}, "read"


def axis_a_little_off(seed: int) -> Drawn:
    """The centre line lies a thousandth off the middle."""
    part = plain_part(seed)
    off = 0.001 if part.units == "mm" else 0.0005
    line = views.centre_line(part, LOOKS.centre)
    return views.side(part, LOOKS) + Move((0.0, off)).all(line), part, {}, "read"


def closed_rectangles(seed: int) -> Drawn:
    """Each groove a closed rectangle of its own on both sides of a body drawn without it."""
    part = plain_part(seed, plain=True, steps=1)
    r = part.outer_diameter / 2
    body = strokes([(0, -r, 0), (0, r, 0), (-part.length, r, 0), (-part.length, -r, 0)], True, BODY)
    for g in part.grooves:
        floor, mouth = g.floor_diameter / 2, g.mouth_diameter / 2
        for sign in (1, -1):
            box = [(g.z_near, sign * floor, 0.0), (g.z_near, sign * mouth, 0.0)]
            box += [(g.z_far, sign * mouth, 0.0), (g.z_far, sign * floor, 0.0)]
            body.append(Path(tuple(box), True, BODY))
    return body + views.centre_line(part, LOOKS.centre), part, {}, "either"


def wrong_text(seed: int) -> Drawn:
    """A dimension's text gives another number than the drawing: it contradicts itself."""
    part = plain_part(seed)
    g = part.grooves[0]
    text = f"{(g.z_near - g.z_far) * 1.5:.3f}"
    mouth = g.mouth_diameter / 2
    dim = Dim((g.z_near, mouth), (g.z_far, mouth), (g.z_far, part.outer_diameter), 0.0, text, role=DIMS)
    return [*whole_view(part), dim], part, {}, "refuse"


def sheet_scale(seed: int) -> Drawn:
    """Drawn at 2.5:1 with true sizes in overriding texts; the ratio must be named, not read as it is drawn."""
    part = plain_part(seed)
    r, scale = part.outer_diameter / 2, 2.5
    dims: list[Ink] = [Dim((0, r), (-part.length, r), (0, r * 1.8), 0.0, f"{part.length:g}", role=DIMS)]
    wide = next(c for c in part.outside if c.r >= r - 1e-9)
    dims.append(Dim((wide.z, -r), (wide.z, r), (r, 0), 90.0, f"%%c{2 * r:g}", role=DIMS))
    return Move(size=scale).all([*whole_view(part), *dims]), part, {}, "refuse"


def sheet_scale_said(seed: int) -> Drawn:
    """The same, the user saying what the scale is."""
    ink, part, _, _ = sheet_scale(seed)
    return ink, part, {"scale": 2.5}, "read"


def flat_block(seed: int) -> Drawn:
    """The view in a block within a block, mirrored and turned upside down."""
    part = plain_part(seed)
    inner = Block(tuple(whole_view(part)), (0.0, 0.0), size=(1.0, -1.0), name="INNER")
    return [inner, Text((0, part.outer_diameter), "X", 2.0)], part, {}, "read"


def two_alike(seed: int) -> Drawn:
    """The same part drawn twice, the user pointing at one."""
    part = plain_part(seed)
    up = part.outer_diameter * 1.6
    ink = whole_view(part) + Move((7.0, up)).all(whole_view(part))
    return ink, part, {"at": (-part.length / 2, part.outer_diameter * 0.1)}, "read"


def two_different_pointed(seed: int) -> Drawn:
    """Two parts on a sheet, the user pointing at one."""
    part, other = plain_part(seed), plain_part(seed + 1000)
    up = (part.outer_diameter + other.outer_diameter) * 0.8
    ink = whole_view(part) + Move((5.0, up)).all(whole_view(other))
    return ink, part, {"at": (-part.length / 2, part.outer_diameter * 0.1)}, "read"


def view_and_section(seed: int) -> Drawn:
    """Side view and, in line with it, a full section of the same part."""
    part = plain_part(seed, bored=True)
    ink = whole_view(part) + Move((-part.length * 1.5, 0.0)).all(
        views.loops(part, LOOKS) + views.centre_line(part, LOOKS.centre)
    )
    return ink, part, {}, "either"


def stroked_letters(seed: int) -> Drawn:
    """Notes taken apart into hundreds of short strokes."""
    part, rng = plain_part(seed), random.Random(seed)
    ink = whole_view(part)
    for letter in range(400):
        x, y = (letter % 50) * 2.0 - part.length, -part.outer_diameter - 4.0 * (letter // 50)
        for _ in range(4):
            a, b = ((x + rng.random(), y + 1.5 * rng.random()) for _ in range(2))
            ink.append(Line(a, b, Look("TEXT")))
    return ink, part, {}, "read"


def outline_over_axis(seed: int) -> Drawn:
    """A half view whose edge lines stop at the axis, with the profile mirrored as hidden lines."""
    part = plain_part(seed)
    run = part.outside_run()
    ink = strokes(run, False, BODY) + strokes(views.upside(run), False, BODY)
    ink += views.across(views.edges(run, part.length, False), BODY, 0.0, 1.0)
    ink += views.across(views.edges(run, part.length, False), BODY, -1.0, 0.0)
    return ink + views.centre_line(part, LOOKS.centre), part, {}, "read"


def long_shaft(seed: int) -> Drawn:
    """Two hundred narrow grooves."""
    corners, grooves = [Corner(0, 12.0)], []
    for index in range(200):
        z = round(-2.0 - index * 2.5, 6)
        corners += [Corner(z, 12), Corner(z, 11.2), Corner(round(z - 1.1, 6), 11.2), Corner(round(z - 1.1, 6), 12)]
        grooves.append(TrueGroove("outside", ("rectangular",), z, round(z - 1.1, 6), 24.0, 22.4))
    corners.append(Corner(-505.0, 12.0))
    part = TurnedPart("mm", 505.0, tuple(corners), (), tuple(grooves), 0.1)
    return whole_view(part), part, {}, "read"


def dressed_twice(seed: int) -> Drawn:
    """Cutting-plane marks, datum boxes and a parts list table beside the view."""
    part = plain_part(seed)
    dresser = Dresser(part, ENGLISH.words, DIMS, ENGLISH.sheet, LOOKS.centre, BODY, random.Random(seed))
    s, r = dresser.size, part.outer_diameter / 2
    ink = whole_view(part) + dresser.title() + dresser.border()
    for row in range(5):
        ink += strokes([(-2 * s, r + s + row * s / 20, 0), (-s, r + s + row * s / 20, 0)], False, ENGLISH.sheet)
    box = [
        (-0.3 * s, -r - 0.2 * s, 0.0),
        (-0.2 * s, -r - 0.2 * s, 0.0),
        (-0.2 * s, -r - 0.3 * s, 0.0),
        (-0.3 * s, -r - 0.3 * s, 0.0),
    ]
    ink += [
        *strokes(box, True, DIMS),
        Line((-0.25 * s, -r - 0.2 * s), (-0.25 * s, -r), DIMS),
        Text((-0.27 * s, -r - 0.28 * s), "A"),
    ]
    return ink, part, {}, "read"


_ALL: tuple[Callable[[int], Drawn], ...] = (mouth_runs_on, faces_on_dimension_layer, half_outline_on_hatch_layer)
_ALL += (short_centre_line, parallel_centre_lines, centre_line_through_views, zigzag_thread, wide_neck, collar)
_ALL += (
    relief_at_shoulder,
    axis_a_little_off,
    closed_rectangles,
    wrong_text,
    sheet_scale,
    sheet_scale_said,
    flat_block,
)
_ALL += (
    two_alike,
    two_different_pointed,
    view_and_section,
    stroked_letters,
    outline_over_axis,
    long_shaft,
    dressed_twice,
)
TRAPS: dict[str, Callable[[int], Drawn]] = {trap.__name__: trap for trap in _ALL}


def trapped(trap: Callable[[int], Drawn], seed: int, old: bool = False) -> Case:
    """The sheet of one trap, in mm, saying so."""
    ink, part, options, expect = trap(seed)
    shown = replace(part, grooves=tuple(g for g in part.grooves if g.where == "outside"))
    note = Text((0.0, -4 * part.outer_diameter - 40), "ALL DIMENSIONS IN MM", 3.0)
    style = Style(old=old, header=(("$INSUNITS", 70, "4"),), patterns=PATTERNS)
    text = Writer(style, ENGLISH.layers).text([*ink, note])
    return Case(text, "cp1252", shown, options, expect, unseen(part, shown))
