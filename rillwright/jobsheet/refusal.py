"""The picture of a refused drawing: its own lines as drawn, each spot ringed and numbered like the findings' table.

Drawings run to any size, so the picture is scaled to its lines; a spot outside them is drawn in as well. Where a spot
is small beside the sheet, a second, enlarged picture of the worst one is given.
"""

import math
from collections.abc import Iterable, Sequence

from markupsafe import Markup

from extractor.finding import Point
from extractor.values import dataclass
from rillwright.jobsheet.view import FindingRow
from rillwright.records.record import DrawnLines
from rillwright.svg import Dot, PictureScale, group, label, outline, picture, tag

WIDTH, MOST_TALL, MARGIN = 1000.0, 640.0, 46.0
LOW = 0.6
"""How tall the enlarged window is for its width."""
RING, TAG, BASELINE = 26.0, 15.0, 6.5
"""Radii of the ring round a spot and of the one that holds its number; how far below its middle a number stands."""
LEAST_TALL = 160.0
NO_EXTENT = 1e-9
"""What stands for the width or height of a window that has none, so that nothing is divided by 0."""
MAGNIFIED = 6.0
"""How much nearer the enlarged picture looks."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class RingedSpot:
    """A place that is ringed: its number or letter, what is said there, and the kind of ring."""

    at: Point
    mark: str
    message: str
    kind: str


def arc_points(segment: Sequence[float], steps: int = 12) -> list[Dot]:
    """Points along a segment x0, y0, x1, y1, bulge; only the two ends where it is straight.

    >>> [(round(x, 6), round(y, 6)) for x, y in arc_points([1, 0, -1, 0, 1.0], steps=2)]
    [(1, 0), (0.0, 1.0), (-1, 0)]
    """
    x0, y0, x1, y1, bulge = segment
    if not bulge:
        return [(x0, y0), (x1, y1)]
    middle_x, middle_y = (x0 + x1) / 2, (y0 + y1) / 2
    lift = (1 / bulge - bulge) / 4
    centre = (middle_x - lift * (y1 - y0), middle_y + lift * (x1 - x0))
    start, turn = math.atan2(y0 - centre[1], x0 - centre[0]), 4 * math.atan(bulge)
    radius = math.dist(centre, (x0, y0))
    inner = [start + turn * i / steps for i in range(1, steps)]
    return [(x0, y0), *((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in inner), (x1, y1)]


def box_of(drawn: DrawnLines, spots: Iterable[Point]) -> Box | None:
    """Smallest and greatest x and y of everything shown."""
    points = [*spots, *(p for s in drawn.segments for p in ((s[0], s[1]), (s[2], s[3])))]
    for x, y, r in drawn.circles:
        points += [(x - r, y - r), (x + r, y + r)]
    if not points:
        return None
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


MOST_RINGS = 12
"""Places ringed for one finding: more would hide what is between them."""


def _rings_of(row: FindingRow) -> list[RingedSpot]:
    """The place of a finding, and the further places that it means."""
    places = [row.at, *row.spots[: MOST_RINGS - 1]] if row.at else []
    return [RingedSpot(at, str(row.spot), row.message, row.level) for at in places if at]


def refusal_picture(drawn: DrawnLines | None, rows: Sequence[FindingRow]) -> Markup | None:
    """The drawing with every numbered spot ringed; None where there is nothing to draw."""
    spots = [ring for row in rows for ring in _rings_of(row)]
    for one in (choice for row in rows for choice in row.choices):
        spots += [RingedSpot(one.at, one.spot, f"{one.label}: {one.reads}", "choice")] if one.at else []
    if drawn is None or not drawn.segments:
        return None
    box = box_of(drawn, [one.at for one in spots])
    return None if box is None else _framed(drawn, spots, box, "The drawing as drawn, with the places meant")


def close_picture(drawn: DrawnLines | None, rows: Sequence[FindingRow]) -> Markup | None:
    """The surroundings of the gravest spot, enlarged; None without a spot."""
    spots = [ring for row in rows for ring in _rings_of(row)[:1]]
    box = box_of(drawn, []) if drawn else None
    if drawn is None or box is None or not spots:
        return None
    x, y = spots[0].at
    reach = max(box[2] - box[0], box[3] - box[1]) / MAGNIFIED / 2
    if not reach:
        return None
    window = (x - reach, y - LOW * reach, x + reach, y + LOW * reach)
    return _framed(drawn, spots[:1], window, f"Around place {spots[0].mark}, enlarged")


def small_picture(drawn: DrawnLines | None, width: float, height: float) -> Markup | None:
    """The drawn lines alone, small; None where the record holds none."""
    box = box_of(drawn, []) if drawn else None
    if drawn is None or box is None or box[0] == box[2] or box[1] == box[3]:
        return None
    scale = min((width - 20) / (box[2] - box[0]), (height - 20) / (box[3] - box[1]))
    view = PictureScale(scale, width / 2 - (box[0] + box[2]) / 2 * scale, height / 2 + (box[1] + box[3]) / 2 * scale)
    return picture(width, height, "", _lines(drawn, view), aria_hidden="true", class_="thumb")


def _lines(drawn: DrawnLines, view: PictureScale) -> Markup:
    """Segments and circles as drawn."""
    segments = "".join(outline(view.dots(arc_points(s))) for s in drawn.segments)
    rounds = [tag("circle", cx=view.x(x), cy=view.y(y), r=r * view.scale, class_="drawn") for x, y, r in drawn.circles]
    return group(tag("path", d=segments, class_="drawn"), *rounds)


def _framed(drawn: DrawnLines, spots: Sequence[RingedSpot], box: Box, title: str) -> Markup:
    """Everything inside a window of the sheet."""
    wide, tall = max(box[2] - box[0], NO_EXTENT), max(box[3] - box[1], NO_EXTENT)
    scale = min((WIDTH - 2 * MARGIN) / wide, (MOST_TALL - 2 * MARGIN) / tall)
    height = max(LEAST_TALL, tall * scale + 2 * MARGIN)
    spare = WIDTH - wide * scale
    view = PictureScale(scale, spare / 2 - box[0] * scale, height - (height - tall * scale) / 2 + box[1] * scale)
    rings = [_ring(view.dot(*one.at), one) for one in spots]
    ground = tag("rect", x=1, y=1, width=WIDTH - 2, height=height - 2, rx=8, class_="ground")
    return picture(WIDTH, height, title, ground, _lines(drawn, view), *rings, class_="sheet")


def _ring(at: Dot, spot: RingedSpot) -> Markup:
    """A ring round a spot with its number."""
    x, y = at
    return group(
        tag("title", spot.message),
        tag("circle", cx=x, cy=y, r=RING, class_="ring-halo"),
        tag("circle", cx=x, cy=y, r=RING, class_="ring"),
        tag("circle", cx=x + RING, cy=y - RING, r=TAG, class_="ring-tag"),
        label((x + RING, y - RING + BASELINE), spot.mark, "t ring-text"),
        class_=f"spot {spot.kind}",
    )
