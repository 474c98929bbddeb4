"""Doubles leave before anything is worked out; crowds are counted before they are paired."""

import ezdxf
import numpy as np
import pytest
from support.draw import Ink, full_outline, shaft, sheet_of, write_dxf

from extractor.codes import DrawingCode
from extractor.dxf import load_sheet
from extractor.geometry.crowds import MOST_PAIRS, TooDenseError, cells, refuse_crowds
from extractor.opening.collect import Collected
from extractor.opening.doubles import CROWD, SAME_LINE, without_doubles
from extractor.opening.patterns import MANY, OVER, THIN, fills
from extractor.opening.segments import diagonal, segments_of
from extractor.opening.strokes import Chain
from extractor.part import ReadOptions
from extractor.reading import read_drawing, read_sheet
from extractor.sheet import Pen, Segments, Source


def segments(*rows, pens=(Pen.SOLID,)):
    """Segments from rows of x0, y0, x1, y1, bulge, number of the source."""
    table = np.array(rows, dtype=float)
    sources = tuple(Source(f"{k:X}", "LINE", "0", pen) for k, pen in enumerate(pens))
    return Segments(table[:, :4], table[:, 4], table[:, 5].astype(np.int64), sources)


def test_the_first_of_doubles_stays_whichever_way_round_they_run():
    found = without_doubles(
        segments(
            (0, 0, 5, 5, 0, 0), (5, 5, 0, 0, 0, 1), (0, 0, 5, 5, 0.5, 0), (5, 5, 0, 0, -0.5, 0), (5, 5, 0, 0, 0.5, 0),
            (-0.0, 0, 5, 5, 0, 0), pens=(Pen.SOLID, Pen.SOLID),
        )
    )  # fmt: skip
    assert found.ends.tolist() == [[0, 0, 5, 5], [0, 0, 5, 5], [5, 5, 0, 0]]
    assert found.bulge.tolist() == [0, 0.5, 0.5]


def test_another_pen_over_a_line_is_no_double():
    found = without_doubles(segments((0, 0, 5, 5, 0, 0), (0, 0, 5, 5, 0, 1), pens=(Pen.SOLID, Pen.HIDDEN)))
    assert len(found) == 2


@pytest.mark.parametrize(("many", "left"), [(CROWD, CROWD), (CROWD + 1, 1)])
def test_lines_within_one_another_go_only_where_they_crowd(many, left):
    found = without_doubles(segments(*((0, 3, 10 - k * 0.01, 3, 0, 0) for k in range(many))))
    assert len(found) == left


@pytest.mark.parametrize(("aside", "left"), [(0.1, 1), (2.0, 2)])
def test_a_line_is_on_a_carrier_only_within_a_share_of_the_sheet(aside, left):
    # The sheet is 10 across, so the share is 1e-6; all other lines lie at 3.
    rows = [(0, 3, 10 - k * 0.01, 3, 0, 0) for k in range(CROWD + 5)]
    beside = (2, 3 + aside * SAME_LINE * 10, 4, 3 + aside * SAME_LINE * 10, 0, 0)
    assert len(without_doubles(segments(*rows, beside))) == left


def test_a_crowd_of_pieces_beside_one_another_stays():
    rows = [(k, 3 * k, k + 1, 3 * k + 3, 0, 0) for k in range(CROWD + 50)]
    assert len(without_doubles(segments(*rows, (0, 3, 1, 6, 0, 0)))) == len(rows) + 1


def test_pairs_are_counted_before_they_are_found():
    some = int(np.sqrt(2 * MOST_PAIRS))
    refuse_crowds(np.zeros((some, 2)), 1.0)
    with pytest.raises(TooDenseError):
        refuse_crowds(np.zeros((some + 1, 2)), 1.0)
    refuse_crowds(np.arange(2.0 * some + 2).reshape(-1, 2) * 3, 1.0)


def test_cells_of_points_far_apart_are_numbered_without_overflow():
    first, count, home = cells(np.array([[0.0, 0.0], [1e9, 0.0], [0.0, 1e9], [1e9, 1e-3]]), 1e-9)
    assert sorted(first.tolist()) == [0, 1, 2]
    assert home.tolist()[1] == home.tolist()[3]
    assert sorted(count.tolist()) == [1, 1, 2]


@pytest.mark.parametrize(("share", "home"), [(0.99, 1), (1.01, 0)])
def test_a_grid_is_as_fine_as_asked_for_up_to_so_many_cells(share, home):
    _, _, cell = cells(np.array([[0.0, 0.0], [1.005, 0.0], [share * 2**31, 0.0]]), 1.0)
    assert (cell[0] != cell[1]) == home


@pytest.mark.parametrize("many", [1, 3_000])
def test_a_part_under_many_doubles_is_read_as_if_it_were_drawn_once(many, tmp_path):
    ink = full_outline(shaft())
    doubled = Ink([*ink.solid, *[ink.solid[3]] * many], ink.centre)
    once, often = (write_dxf(one, tmp_path / f"{k}.dxf") for k, one in enumerate((ink, doubled)))
    assert read_drawing(often).part == read_drawing(once).part


def test_a_text_drawn_again_at_its_place_counts_once_and_is_the_first(tmp_path):
    doc = ezdxf.new("R2010")
    looks = [
        ("4 WIDE", (0.0, 0.0), 2.0, 0.0, "0"),
        ("4 WIDE", (1.0, 0.0), 2.0, 0.0, "0"),
        ("4 WIDE", (0.0, 0.0), 3.0, 0.0, "0"),
        ("4 WIDE", (0.0, 0.0), 2.0, 90.0, "0"),
        ("4 WIDE", (0.0, 0.0), 2.0, 0.0, "NOTES"),
        ("5 WIDE", (0.0, 0.0), 2.0, 0.0, "0"),
    ]
    drawn = [
        doc.modelspace().add_text(words, dxfattribs={"insert": at, "height": high, "rotation": turn, "layer": layer})
        for words, at, high, turn, layer in looks * 2
    ]
    doc.saveas(tmp_path / "sheet.dxf")
    found = load_sheet(tmp_path / "sheet.dxf").texts
    assert [(t.text, t.at, t.height, t.angle, t.layer) for t in found] == looks
    assert [t.handle for t in found] == [one.dxf.handle for one in drawn[:6]]


def test_a_star_of_thousands_of_lines_is_refused_by_name():
    angles = np.linspace(0, 6.28, 2_500)
    star = [(0.0, 0.0, 30 * np.cos(a), 30 * np.sin(a), 0.0) for a in angles]
    reading = read_sheet(sheet_of(Ink(star, [])), ReadOptions(units="mm"))
    assert [f.code for f in reading.findings if f.stops] == ["too-dense"]


@pytest.mark.parametrize(("more", "stopped"), [(0, False), (1, True)])
def test_a_sheet_of_more_pieces_than_are_read_is_refused_before_they_are_looked_at(more, stopped, monkeypatch):
    size = 100
    monkeypatch.setattr("extractor.opening.segments.MOST_PIECES", 20 * size)
    chains = [Chain(tuple((float(x), float(k)) for x in range(size + 1)), (0.0,) * size) for k in range(20)]
    chains += [Chain(((0.0, -9.0), (1.0, -9.0)), (0.0,))] * more
    found, _, said = segments_of(Collected([(chain, Source("1", "LWPOLYLINE", "0")) for chain in chains]))
    assert (len(found), [f.code for f in said]) == (
        (0, [DrawingCode.TOO_MANY_ENTITIES]) if stopped else (20 * size, [])
    )


def zigzag(count, wide, tall=20.0, at=(0.0, 60.0)):
    """A line of so many points up and down beside the part."""
    points = tuple((at[0] + wide * k / count, at[1] + tall * (k % 2)) for k in range(count))
    return Chain(points, (0.0,) * (count - 1))


@pytest.mark.parametrize(("share", "filled"), [(0.95, True), (1.05, False)])
def test_a_line_that_draws_a_surface_full_three_times_over_is_no_outline(share, filled):
    # So many strokes 20 high with a pen of 0.01 are as broad as 100 strokes a unit.
    wide = 10_000 * 0.01 / 3 * share
    assert fills(zigzag(10_000, wide), 0.01) is filled


def test_a_line_over_itself_is_no_surface_until_it_is_drawn_four_times():
    for times, filled in ((1, False), (3, False), (4, True)):
        points = tuple((60.0 * (k % 2), 0.0) for k in range(times + 1))
        assert fills(Chain(points, (0.0,) * times), 0.01) is filled


@pytest.mark.parametrize(("more", "left_out"), [(0, True), (-1, False)])
def test_a_long_line_that_fills_a_surface_is_left_out_and_said(more, left_out):
    outline = Chain(((0.0, 0.0), (0.0, 15.0), (-60.0, 15.0), (-60.0, 0.0)), (0.0,) * 3)
    filling = zigzag(MANY + more, 2.0)
    assert fills(filling, THIN * diagonal([outline, filling])), OVER
    strokes = [(one, Source(str(k), "LWPOLYLINE", "0")) for k, one in enumerate((outline, filling))]
    segments, _, said = segments_of(Collected(strokes))
    assert len(segments) == (3 if left_out else 3 + len(filling.bulges))
    assert [f.code for f in said] == ([DrawingCode.LEFT_OUT] if left_out else [])
