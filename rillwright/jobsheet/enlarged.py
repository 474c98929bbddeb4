"""Enlarged details, as on a drawing: what is too small in the picture of the part is ringed there and drawn larger.

One groove of each set that needs it has a thin ring with the letter of its set, and the same letter stands at the
detail beside the picture (ISO 128-3, views at a larger scale, from memory). A letter lies neither on a line nor on
hatching: it goes to the nearest clear place round its ring, with a leader where that is farther off.
"""

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

import shapely
from markupsafe import Markup

from extractor.values import dataclass
from rillwright.jobsheet.detail import metal_within
from rillwright.jobsheet.labels import set_letter
from rillwright.jobsheet.picture import mirrored, recess_points, stop_rings
from rillwright.jobsheet.scene import PicturedGroove, Scene
from rillwright.jobsheet.stage import WIDTH, Stage
from rillwright.jobsheet.text import length_text
from rillwright.svg import Dot, PictureScale, group, label, line, picture, tag

SIZE = 200.0
"""Picture units across a detail."""

ROUND_IT = 2.4
"""A detail is so many times as wide as its groove is wide or deep: the lands beside it are seen as well."""

MOST = 8
"""Details of one sheet."""

LEAST_RING = 9.0
"""Picture units: a smaller ring is a dot."""

LETTER_WIDE, LETTER_TALL, CLEAR = 17.0, 24.0, 3.0
"""Picture units: the box of a letter of a ring, and the air round it."""

NEAR, FAR, NEARER = 3.0, 200.0, 15.0
"""Picture units between a ring and its letter: without a leader, the farthest, and the steps between."""


@dataclass(frozen=True, kw_only=True)
class Enlarged:
    """One detail: its letter, the groove in its middle, and how much of the part it shows, across.

    `ring` is the middle of its ring in the picture of the part and `radius` its size; `at` is the middle of the
    letter, None where there is no room for one.
    """

    letter: str
    recess: PicturedGroove
    across: float
    ring: Dot
    radius: float
    at: Dot | None = None


def enlarged(scene: Scene, stage: Stage, stopped: Collection[int] = ()) -> tuple[Enlarged, ...]:
    """What is to be drawn larger, in the order of the sets; none lies on the ring of a groove that is `stopped`."""
    first: dict[int, PicturedGroove] = {}
    for recess in scene.recesses:
        if recess.set_index is not None and recess.drawn and stage.fine(recess):
            first.setdefault(recess.set_index, recess)
    found = [_ringed(stage, first[index], set_letter(index)) for index in sorted(first)[:MOST]]
    if not found:
        return ()
    taken = _taken(scene, stage, [r for r in scene.recesses if any(_beside(one, r, stage) for one in found)])
    taken += [shapely.Point(at).buffer(radius) for at, radius in stop_rings(scene, stage, stopped)]
    taken += [shapely.Point(one.ring).buffer(one.radius) for one in found]
    letters: list[shapely.Geometry] = []
    return tuple(_lettered(one, taken, letters) for one in found)


def _beside(one: Enlarged, recess: PicturedGroove, stage: Stage) -> bool:
    """True for a groove so near to a detail's ring that its letter could come to lie on it."""
    reach = one.radius + NEAR + FAR + LETTER_TALL + LETTER_WIDE * len(one.letter) + 2 * CLEAR
    near, far = stage.view.x(recess.z_near), stage.view.x(recess.z_far)
    return far - reach <= one.ring[0] <= near + reach


def _ringed(stage: Stage, recess: PicturedGroove, letter: str) -> Enlarged:
    """The detail of a groove, its ring below the axis where that half is drawn: no tool is in the way there."""
    across = float(f"{ROUND_IT * max(recess.width, recess.depth):.2g}")
    ring = stage.view.dot(recess.middle, recess.mid_radius * (1 if stage.half else -1))
    return Enlarged(
        letter=letter,
        recess=recess,
        across=across,
        ring=ring,
        radius=max(across / 2 * stage.view.scale, LEAST_RING),
    )


def _lettered(one: Enlarged, taken: list[shapely.Geometry], letters: list[shapely.Geometry]) -> Enlarged:
    """The detail with a place for its letter, which is taken from then on, as the way to it is."""
    for at in _around(one):
        box, way = _letter_box(at, one.letter), shapely.LineString([one.ring, at])
        if not shapely.intersects([*taken, *letters], box.buffer(CLEAR)).any() and not any(
            map(way.intersects, letters)
        ):
            letters.append(box)
            taken.append(way)
            return replace(one, at=at)
    return one


def _letter_box(at: Dot, letter: str) -> shapely.Polygon:
    """Where a letter stands."""
    wide = LETTER_WIDE * len(letter) / 2
    return shapely.box(at[0] - wide, at[1] - LETTER_TALL / 2, at[0] + wide, at[1] + LETTER_TALL / 2)


def _around(one: Enlarged) -> Iterator[Dot]:
    """Places for a letter round a ring, the nearest first and of those the lowest."""
    for step in range(int((FAR - NEAR) / NEARER) + 1):
        off = one.radius + NEAR + CLEAR + LETTER_TALL / 2 + step * NEARER
        for turn in (0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150, 180):
            angle = math.radians(90 + turn)
            yield one.ring[0] + off * math.cos(angle), one.ring[1] + off * math.sin(angle)


def _taken(scene: Scene, stage: Stage, recesses: Sequence[PicturedGroove]) -> list[shapely.Geometry]:
    """What is drawn where a letter may come, `recesses` of it, and the parts of the picture where none may."""
    view, front, back = stage.view, stage.view.x(0), stage.view.x(-scene.length)
    bore = scene.bore or ((0.0, 0.0), (-scene.length, 0.0))
    flip = list if stage.half else mirrored
    outside, inside = view.dots(flip(scene.outline)), view.dots(flip(bore))
    found: list[shapely.Geometry] = [shapely.LineString(outside), shapely.LineString(inside)]
    found += [shapely.Polygon(view.dots(flip(recess_points(scene, r)))) for r in recesses]
    # What stands at the chuck, the dimensions below, and the tools above: where the lower half isn't drawn, only the
    # metal itself is free of them.
    chuck = back if stage.jaw_z is None else max(back, view.x(stage.jaw_z))
    found += [shapely.box(0, 0, chuck, stage.height), shapely.box(0, stage.foot, WIDTH, stage.height)]
    found += [shapely.LineString([(front, 0), (front, stage.height)])]
    sheet = shapely.box(0, 0, WIDTH, stage.height)
    found += [sheet.buffer(WIDTH).difference(sheet)]
    leaders = (view.dot(r.middle, r.mouth_diameter / 2) for r in recesses)
    found += [shapely.LineString([(x, 0), (x, y)]) for x, y in leaders]
    if stage.half:
        air = [*outside, (outside[-1][0], 0), (outside[0][0], 0)]
        found += [
            shapely.Polygon(air),
            shapely.box(front, 0, WIDTH, stage.height),
            shapely.box(0, stage.view.y_axis, WIDTH, stage.height),
        ]
        found += [shapely.Polygon([*inside, (back, view.y_axis), (front, view.y_axis)])] if scene.bore else []
    else:
        tailstock = view.y(-scene.tailstock / 2)
        found += [shapely.box(0, 0, WIDTH, view.y_axis), shapely.box(front, 0, WIDTH, tailstock)]
    return found


def rings(details: Sequence[Enlarged]) -> Markup:
    """The rings of the details with their letters, for the picture of the part."""
    return group(*(_ring(one) for one in details if one.at), class_="enlarged-rings", aria_hidden="true")


def _ring(one: Enlarged) -> Markup:
    """A ring, its letter, and a leader where that stands apart."""
    assert one.at is not None
    ring = tag("circle", cx=one.ring[0], cy=one.ring[1], r=one.radius, class_="detail-ring")
    gap = math.dist(one.ring, one.at)
    ends = [one.radius / gap, 1 - (LETTER_TALL / 2 + CLEAR) / gap]
    a, b = (tuple(p + (q - p) * share for p, q in zip(one.ring, one.at, strict=True)) for share in ends)
    leader = line((a[0], a[1]), (b[0], b[1]), "detail-leader") if gap - one.radius > LETTER_TALL + NEAR else Markup("")
    return group(ring, leader, label((one.at[0], one.at[1] + LETTER_TALL / 3), one.letter, "t strong"))


def enlarged_rows(scene: Scene, details: Sequence[Enlarged]) -> list[dict[str, object]]:
    """The details with their words, as the sheet shows them beside the picture."""
    units = scene.units
    return [
        {
            "letter": one.letter,
            "picture": _drawn(scene, one),
            "groove": one.recess.id,
            "across": f"{one.across:g}",
            "figures": _figures(one.recess, units),
        }
        for one in details
    ]


def _figures(recess: PicturedGroove, units: str) -> str:
    """The sizes of a groove."""
    floor, mouth = (length_text(d, units) for d in (recess.floor_diameter, recess.mouth_diameter))
    if not recess.side.axial:
        return f"inner wall ⌀{floor}, outer wall ⌀{mouth}, depth {length_text(recess.z_near - recess.z_far, units)}"
    return f"width {length_text(recess.width, units)}, floor ⌀{floor}"


def _drawn(scene: Scene, one: Enlarged) -> Markup:
    """A detail in its circle."""
    recess, scale = one.recess, SIZE / one.across
    view = PictureScale(scale, SIZE / 2 - recess.middle * scale, SIZE / 2 + recess.mid_radius * scale)
    clip = tag("clipPath", tag("circle", cx=SIZE / 2, cy=SIZE / 2, r=SIZE / 2 - 2), id=f"enlarged-{one.letter}")
    return picture(
        SIZE,
        SIZE,
        f"Detail {one.letter}: groove {recess.id}, enlarged",
        tag("defs", clip),
        group(metal_within(scene, view, SIZE), clip_path=f"url(#enlarged-{one.letter})"),
        tag("circle", cx=SIZE / 2, cy=SIZE / 2, r=SIZE / 2 - 2, class_="detail-ring"),
    )
