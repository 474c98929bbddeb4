"""A profile as the views of a drawing: x is z, y the radius, the front face at x 0, the axis on y 0."""

import math
from collections.abc import Sequence
from dataclasses import replace

from support.second_hand.lathe import Extra, Recess, TurnedPart
from support.second_hand.marks import (
    CENTRE,
    HATCH,
    HIDDEN,
    TANGENT,
    THIN,
    XY,
    Arc,
    Circle,
    Curve,
    Fill,
    Line,
    Mark,
    Path,
    Place,
    arc_points,
    box,
    pieces,
    placed,
    stretches,
)

FLIP = Place(turn=180.0, mirror=True)


def below(marks: Sequence[Mark]) -> list[Mark]:
    """The same marks under the axis."""
    return placed(marks, FLIP)


def rim(part: TurnedPart) -> Path:
    """The outside of the upper half, front to back, with its two faces; a face groove can't be seen from there."""
    from_face = _past_face_grooves(part)
    first = (0.0, part.outside[0][1])
    return Path((first, *part.outside[from_face:]), (0.0, *part.outside_bulges[from_face:]))


def _past_face_grooves(part: TurnedPart) -> int:
    """The first corner after the outermost face groove."""
    tops = [r.mouth / 2 for r in part.recesses if r.where == "face"]
    if not tops:
        return 1
    return next(k for k, (z, r) in enumerate(part.outside) if abs(z) < 1e-9 and abs(r - max(tops)) < 1e-9)


def hidden_face(part: TurnedPart) -> list[Mark]:
    """Face grooves behind the metal, dashed."""
    last = _past_face_grooves(part)
    if last == 1:
        return []
    line = Path(part.outside[1 : last + 1], part.outside_bulges[1 : last + 1], role=HIDDEN)
    floor = min(z for z, _ in line.points)
    radii = [r for z, r in line.points if abs(z - floor) < 1e-9]
    return [line, *below([line]), Line((floor, -max(radii)), (floor, max(radii)), HIDDEN)]


def tangent_at(points: Sequence[XY], bulges: Sequence[float], k: int) -> bool:
    """True where a corner runs on smoothly from one stretch into the next."""
    ends = []
    for i, late in ((k - 1, True), (k, False)):
        a, b = points[i], points[i + 1]
        bend = 2 * math.atan(bulges[i])
        ends.append(math.atan2(b[1] - a[1], b[0] - a[0]) + (bend if late else -bend))
    return abs(math.remainder(ends[0] - ends[1], 2 * math.pi)) < 0.02


def corners(points: Sequence[XY], bulges: Sequence[float]) -> list[tuple[XY, bool]]:
    """The corners between the two ends, each with whether it is smooth."""
    return [(points[k], tangent_at(points, bulges, k)) for k in range(1, len(points) - 1)]


def across(part: TurnedPart, merged: bool = True, low: float | None = None) -> list[Mark]:
    """The round edges seen from the side: a line over the full height at each corner (from `low` up if given)."""
    tall: dict[float, float] = {}
    smooth: dict[float, float] = {}
    made: list[Mark] = []
    seen = rim(part)
    for (z, r), is_smooth in corners(seen.points, seen.bulges):
        here = smooth if is_smooth else tall
        z = round(z, 9)
        if not merged and not is_smooth:
            made.append(Line((z, -r if low is None else low), (z, r)))
        here[z] = max(here.get(z, 0.0), r)
    if merged:
        made += [Line((z, -r if low is None else low), (z, r)) for z, r in tall.items()]
    return made + [Line((z, -r if low is None else low), (z, r), TANGENT) for z, r in smooth.items()]


def centre_line(part: TurnedPart) -> Line:
    """The axis, sticking out on both sides."""
    over = 0.06 * max(part.length, part.diameter)
    return Line((-part.length - over, 0.0), (over, 0.0), CENTRE)


def hidden_bore(part: TurnedPart) -> list[Mark]:
    """The bore behind the metal: dashed, with its corners across."""
    if not part.bore:
        return []
    line = Path(part.bore, part.bore_bulges, role=HIDDEN)
    inner = part.bore[1:-1]
    tall: dict[float, float] = {}
    for z, r in inner:
        tall[z] = max(tall.get(z, 0.0), r)
    return [line, *below([line]), *(Line((z, -r), (z, r), HIDDEN) for z, r in tall.items())]


def front_view(part: TurnedPart, merged: bool = True) -> list[Mark]:
    """The part from the side: both rims, edges across, dashed bore, axis, extras."""
    upper: list[Mark] = [rim(part)]
    return [
        *upper,
        *below(upper),
        *across(part, merged),
        *hidden_bore(part),
        *hidden_face(part),
        *(m for extra in part.extras for m in drawn(extra)),
        centre_line(part),
    ]


def half_view(part: TurnedPart, with_axis_edge: bool) -> list[Mark]:
    """Only what lies above the axis."""
    inside = [*hidden_bore(part)[:1], *hidden_face(part)[:1]]
    made: list[Mark] = [rim(part), *inside, *across(part, low=0.0), centre_line(part)]
    if with_axis_edge:
        made.append(Line((-part.length, 0.0), (0.0, 0.0)))
    return made


def cut_face(part: TurnedPart) -> Path:
    """The upper cut face of a full section, closed."""
    if part.bore:
        back = tuple(reversed(part.bore))
        bends = tuple(-b for b in reversed(part.bore_bulges[:-1]))
        return Path(part.outside + back, (*part.outside_bulges[:-1], 0.0, *bends, 0.0), closed=True)
    return Path(part.outside, part.outside_bulges, closed=True)


def section(part: TurnedPart) -> list[Mark]:
    """A full section: both cut faces hatched, the bore's edges behind across."""
    face = cut_face(part)
    upper: list[Mark] = [face, Fill(face)] if part.bore else [rim(part)]
    tall: dict[float, float] = {}
    for z, r in part.bore[1:-1]:
        tall[z] = max(tall.get(z, 0.0), r)
    made = [*upper, *below(upper), *(Line((z, -r), (z, r)) for z, r in tall.items()), centre_line(part)]
    if part.bore:
        ends = ((0.0, part.bore[0][1]), (-part.length, part.bore[-1][1]))
        made += [Line((z, -r), (z, r)) for z, r in ends]
    if not part.bore:
        solid = Path((*part.outside, *(((z, -r)) for z, r in reversed(part.outside))), closed=True)
        made.append(Fill(solid))
    return made


def half_section(part: TurnedPart) -> list[Mark]:
    """The upper half cut, the lower half from outside."""
    face = cut_face(part)
    made: list[Mark] = [face, Fill(face), *below([rim(part)])]
    made += [Line((m.a[0], 0.0), (m.a[0], m.a[1]), m.role) for m in across(part) if isinstance(m, Line)]
    tall: dict[float, float] = {}
    for z, r in part.bore[1:-1]:
        tall[z] = max(tall.get(z, 0.0), r)
    made += [Line((z, 0.0), (z, r)) for z, r in tall.items()]
    if part.bore:
        made += [Line((0.0, 0.0), (0.0, part.bore[0][1])), Line((-part.length, 0.0), (-part.length, part.bore[-1][1]))]
    return [*made, centre_line(part)]


def end_view(part: TurnedPart, from_front: bool = True) -> list[Mark]:
    """The part from one end: the circles that can be seen, and a centre cross."""
    seen: list[float] = []
    points = part.outside if from_front else part.outside[::-1]
    top = 0.0
    for _, r in points:
        if r > top + 1e-9:
            top = r
            seen.append(r)
    if part.bore:
        seen.append(part.bore[0 if from_front else -1][1])
    big = max(seen) * 1.1
    circles: list[Mark] = [Circle((0.0, 0.0), r) for r in dict.fromkeys(round(s, 6) for s in seen) if r > 1e-6]
    return [*circles, Line((-big, 0.0), (big, 0.0), CENTRE), Line((0.0, -big), (0.0, big), CENTRE)]


def drawn(extra: Extra) -> list[Mark]:
    """An extra in the side view."""
    near, far, size, r = extra.near, extra.far, extra.size, extra.radius
    if extra.kind == "thread":
        made: list[Mark] = [Line((near, s * size), (far, s * size), THIN) for s in (1, -1)]
        return [*made, Line((far, -r), (far, r))]
    if extra.kind == "keyway":
        h = size / 2
        points = ((near - h, h), (far + h, h), (far + h, -h), (near - h, -h))
        return [Path(points, (0.0, 1.0, 0.0, 1.0), closed=True)]
    if extra.kind == "cross hole":
        mid = (near + far) / 2
        return [Circle((mid, 0.0), size / 2), Line((mid, -1.2 * r), (mid, 1.2 * r), CENTRE)]
    if extra.kind == "flat":
        h = r * 0.6
        box_ = Path(((near, h), (far, h), (far, -h), (near, -h)), closed=True)
        return [box_, Line((near, h), (far, -h), THIN), Line((near, -h), (far, h), THIN)]
    return knurl(extra) if extra.kind == "knurl" else centre_hole(extra)


def centre_hole(extra: Extra) -> list[Mark]:
    """A centre hole behind the metal: a 60 degree cone and a short pilot, dashed."""
    way = 1.0 if extra.far > extra.near else -1.0
    cone = (extra.radius / 2 - extra.size / 2) / math.tan(math.radians(30)) * way
    deep, mid = extra.far - extra.near, extra.near + cone
    rows = ((extra.near, extra.radius / 2), (mid, extra.size / 2), (extra.near + deep, extra.size / 2))
    tip = (extra.near + deep + 0.3 * extra.size * way, 0.0)
    line = Path((*rows, tip), role=HIDDEN)
    return [line, *below([line])]


def knurl(extra: Extra) -> list[Mark]:
    """Crossing lines at 30 degrees over a land."""
    near, far, r = extra.near, extra.far, extra.radius
    slope, made = math.tan(math.radians(30)), []
    for sign in (1, -1):
        start = -r - slope * (near - far)
        while start < r:
            ends = []
            for z in (far, near):
                ends.append((z, start + slope * (z - far)))
            (z1, y1), (z2, y2) = ends
            if y1 < -r:
                z1, y1 = far + (-r - start) / slope, -r
            if y2 > r:
                z2, y2 = far + (r - start) / slope, r
            if z2 > z1:
                made.append(Line((z1, sign * y1), (z2, sign * y2), THIN))
            start += 1.5
    return list(made)


def detail(part: TurnedPart, recess: Recess, factor: float) -> list[Mark]:
    """The surroundings of one groove, enlarged, cut off by a circle; its middle comes to 0, 0."""
    middle = ((recess.near + recess.far) / 2, (recess.mouth + recess.floor) / 4)
    reach = 1.3 * max(recess.near - recess.far, abs(recess.mouth - recess.floor) / 2)
    line = Path(part.bore, part.bore_bulges) if recess.where == "inside" else rim(part)
    kept: list[Mark] = []
    for a, b, bulge in stretches(line):
        if bulge:
            arc = pieces(Path((a, b), (bulge, 0.0)))[0]
            if math.dist(a, middle) < reach and math.dist(b, middle) < reach:
                kept.append(arc)
            continue
        ends = clip(a, b, middle, reach)
        if ends:
            kept.append(Line(*ends))
    kept.append(Circle(middle, reach, THIN))
    return placed(placed(kept, Place((-middle[0], -middle[1]))), Place(scale=factor))


def clip(a: XY, b: XY, centre: XY, radius: float) -> tuple[XY, XY] | None:
    """The part of a stretch inside a circle."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    fx, fy = a[0] - centre[0], a[1] - centre[1]
    p, q, r = dx * dx + dy * dy, 2 * (fx * dx + fy * dy), fx * fx + fy * fy - radius * radius
    root = q * q - 4 * p * r
    if p < 1e-18 or root <= 0:
        return None
    low, high = (-q - math.sqrt(root)) / (2 * p), (-q + math.sqrt(root)) / (2 * p)
    low, high = max(0.0, low), min(1.0, high)
    if high - low < 1e-9:
        return None
    return (a[0] + low * dx, a[1] + low * dy), (a[0] + high * dx, a[1] + high * dy)


def broken(part: TurnedPart, cut: float, how: str) -> list[Mark] | None:
    """The front view with `cut` of its longest land taken out, or None where that is short.

    `how`: "wavy" or "zigzag" ends with a gap between them, "line" for one zigzag where the two pieces meet.
    """
    lands = [(a, b) for a, b in zip(part.outside, part.outside[1:], strict=False) if abs(a[1] - b[1]) < 1e-9]
    (z1, r), (z2, _) = max(lands, key=lambda ab: ab[0][0] - ab[1][0])
    gone, sway = (z1 - z2) * cut, (z1 - z2) / 40
    if z1 - z2 < r:
        return None
    left, right = (z1 + z2) / 2 - gone / 2, (z1 + z2) / 2 + gone / 2
    gap = 0.0 if how == "line" else sway
    made: list[Mark] = []
    for mark in pieces_of(front_view(replace(part, extras=()), True)):
        made += parted(mark, (left - gap, right + gap), gone)
    for at in {right - gap, right + gap}:
        if how == "wavy":
            wave = [(at + 0.4 * sway * math.sin(6 * math.pi * k / 24), r * (1 - k / 12)) for k in range(25)]
            made.append(Curve(tuple(wave), THIN))
            continue
        over = 1.0 if gap else 1.1
        zigzag = (
            (at, over * r),
            (at, 0.1 * r),
            (at - sway, 0.05 * r),
            (at + sway, -0.05 * r),
            (at, -0.1 * r),
            (at, -over * r),
        )
        made.append(Path(zigzag, role=THIN))
    return made


def parted(mark: Mark, ends: tuple[float, float], gone: float) -> list[Mark]:
    """A mark of a view whose stretch between the ends is taken out; what lies left moves right by `gone`."""
    left, right = ends
    move = Place((gone, 0.0))
    x0, _, x1, _ = box([mark])
    if x1 <= left + 1e-9:
        return [move(mark)]
    if x0 >= right - 1e-9:
        return [mark]
    if isinstance(mark, Line):
        if mark.role == CENTRE:
            return [Line((x0 + gone, 0.0), (x1, 0.0), CENTRE)]
        y = mark.a[1]
        return [move(Line((x0, y), (left, y), mark.role)), Line((right, y), (x1, y), mark.role)]
    return [mark]


def pieces_of(marks: Sequence[Mark]) -> list[Mark]:
    """Paths taken to pieces, the rest as it is."""
    return [p for m in marks for p in (pieces(m) if isinstance(m, Path) else [m])]


def hatch_lines(fill: Fill, gap: float) -> list[Mark]:
    """The area's hatching as single lines at 45 degrees."""
    import shapely

    points: list[XY] = []
    for a, b, bulge in stretches(fill.rim):
        points.append(a)
        if bulge:
            arc = pieces(Path((a, b), (bulge, 0.0)))[0]
            assert isinstance(arc, Arc)
            row = arc_points(arc, 10)
            points += row[1:-1] if math.dist(row[0], a) < 1e-6 else row[-2:0:-1]
    area = shapely.Polygon(points).buffer(0)
    x0, y0, x1, y1 = area.bounds
    tall, made = y1 - y0, []
    steps = int((x1 - x0 + tall) / gap)
    for k in range(1, steps):
        x = x0 - tall + k * gap
        hit = shapely.LineString([(x, y0), (x + tall, y1)]).intersection(area)
        for part in getattr(hit, "geoms", [hit]):
            if part.geom_type == "LineString" and part.length > 1e-6:
                made.append(Line(*part.coords, HATCH))
    return list(made)
