"""A diameter's line between heads across the floor of a groove, over hatching that slants across it as ticks would.

ISO 129-1 lets a dimension line cross hatching, ISO 128-3 draws that at 45 degrees (both from memory).
"""

import shapely
from support.draw import Cut, Ink, Turned, mixed, rotated, section, sheet_of
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

PART = Turned(((60.0, 60.0),), (Cut(-20.0, 4.0, 54.0), Cut(-40.0, 4.0, 54.0)), bore=36.0)


def hatching(part, step, first):
    """Lines at 45 degrees within both halves of a section."""
    upper = [(0.0, part.bore / 2), *((z, r) for z, r, _ in part.half()), (-part.length, part.bore / 2)]
    rows = []
    for s in (1, -1):
        metal = shapely.Polygon([(z, s * r) for z, r in upper])
        for k in range(int(2.5 * part.length / step)):
            x = -2.0 * part.length + first + k * step
            inside = metal.intersection(shapely.LineString([(x, -50.0), (x + 100.0, 50.0)]))
            for line in getattr(inside, "geoms", [inside]):
                if line.length > 0.5:
                    (a, b), (c, d) = line.coords
                    rows.append((a, b, c, d, 0.0))
    return rows


def headed(x, r):
    """An upright line from r to -r with a closed head at both ends."""
    rows = [(x, r, x, -r)]
    for s in (1, -1):
        rows += [(x, s * r, x + side, s * (r - 2.5)) for side in (0.4, -0.4)]
        rows += [(x - 0.4, s * (r - 2.5), x + 0.4, s * (r - 2.5))]
    return [(*row, 0.0) for row in rows]


def drawn(words, off, first, turn):
    """The second groove with its diameter's line `off` beside its middle."""
    x = -42.0 + off
    ink = mixed(section(PART), Ink(solid=hatching(PART, 2.0, first)))
    ink.solid += headed(x, 27.0)
    move = rotated(turn, 100.0, 80.0)
    text = Text(words, move(x - 0.6, -2.0), 3.0, 90.0 if turn == 0.0 else 0.0)
    reading = read_sheet(sheet_of(ink, move, texts=(text,)), ReadOptions(units="mm"))
    return [(f.code, f.message.split(" (")[0]) for f in reading.findings if f.stops]


@all_pairs(turn=[0.0, 270.0], first=[0.0, 0.4, 0.8, 1.2, 1.6], sign=["\u00d8", ""])
def test_hatching_is_no_tick_of_a_line_between_heads(sign, first, turn):
    for off in (0.0, 0.5):
        assert drawn(f"{sign}54", off, first, turn) == []
        words = "A dimension prints 55 where the drawing measures 54"
        assert drawn(f"{sign}55", off, first, turn) == [("dimension-contradicts", words)]
