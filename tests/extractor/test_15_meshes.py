"""Meshes beside a part leave before they are noded; what crosses too often otherwise is refused before it is cut."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.draw import Ink, full_outline, shaft, write_dxf

from extractor.finding import Level
from extractor.geometry import noding
from extractor.geometry.crowds import TooDenseError, most_overlaps, overlapping
from extractor.geometry.network import Strokes
from extractor.geometry.noding import node
from extractor.opening import meshes
from extractor.opening.meshes import without_meshes
from extractor.reading import read_drawing
from extractor.sheet import Pen, Segments, Source


def mesh(up, across, at=100.0):
    """So many lines up and across, each across all of the other kind."""
    return [
        *((at + k, at, at + k, at + across, 0.0) for k in range(up)),
        *((at - 0.5, at + k + 0.5, at + up, at + k + 0.5, 0.0) for k in range(across)),
    ]


def segments(rows):
    """Rows of x0, y0, x1, y1, bulge as segments of one source."""
    table = np.array(rows)
    return Segments(table[:, :4], table[:, 4], np.zeros(len(table), dtype=np.int64), (Source("1", "LINE", "0"),))


LAND = (0.0, 15.0, -60.0, 15.0, 0.0)


@pytest.mark.parametrize(("up", "across", "left"), [(500, 500, 1001), (500, 501, 1), (100, 2501, 2602), (101, 2480, 1)])
def test_a_mesh_goes_where_it_is_too_much_to_be_noded_and_each_line_of_it_is_crossed_by_many(up, across, left):
    """250,000 crossings are noded, 250,500 are not; lines that a hundred others cross may be edges."""
    kept, said = without_meshes(segments([LAND, *mesh(up, across)]))
    assert len(kept) == left
    assert kept.ends[0].tolist() == list(LAND[:4])
    assert [(f.level, f.code) for f in said] == ([(Level.CAUTION, "left-out")] if left == 1 else [])


def test_the_caution_names_the_middle_of_the_mesh_and_its_lines():
    (said,) = without_meshes(segments([LAND, *mesh(520, 510)]))[1]
    assert said.at == (359.75, 355.0)
    assert "1,030 lines at X359.8 Y355" in said.message


@pytest.mark.parametrize("ends", [(99.9, 100.5, 100.3, 100.5), (100.2, 90.0, 100.2, 100.5)])
def test_a_mesh_that_another_line_meets_stays(ends):
    """An outline may hang on it. A line that only stands in one of its cells is none of it."""
    meets, within = (*ends, 0.0), (100.2, 100.6, 100.8, 101.4, 0.0)
    assert len(without_meshes(segments([meets, *mesh(520, 510)]))[0]) == 1031
    assert len(without_meshes(segments([within, *mesh(520, 510)]))[0]) == 1


def test_a_sheet_of_nothing_but_meshes_stays_for_the_noder_to_refuse():
    alone = segments(mesh(520, 510))
    assert without_meshes(alone) == (alone, ())


@pytest.mark.parametrize(("most", "left"), [(520 * 510, 1), (520 * 510 - 1, 1031)])
def test_no_more_pairs_than_so_many_are_looked_through(most, left, monkeypatch):
    monkeypatch.setattr(meshes, "MOST_COUNTED", most)
    assert len(without_meshes(segments([LAND, *mesh(520, 510)]))[0]) == left


def test_an_arc_counts_where_its_box_meets():
    """A heap of 800 rings side by side, each a little farther, beside a line."""
    rows = [(100 + k / 10, 100.0, 200 + k / 10, 100.0, bulge) for k in range(800) for bulge in (1.0, -1.0)]
    assert len(without_meshes(segments([LAND, *rows]))[0]) == 1


@pytest.mark.parametrize(("most", "refused"), [(100, False), (99, True)])
def test_crossings_are_counted_before_they_are_cut(most, refused, monkeypatch):
    monkeypatch.setattr(noding, "MOST_CROSSINGS", most)
    ends = np.array(mesh(10, 10))
    strokes = Strokes(ends[:, :4], ends[:, 4], np.arange(20))
    if refused:
        with pytest.raises(TooDenseError):
            node(strokes, 1e-6)
    else:
        assert len(node(strokes, 1e-6).nodes) == 140


corners = st.tuples(*[st.integers(0, 9)] * 4)


@given(st.lists(corners, min_size=1, max_size=12), st.integers(0, 40))
def test_pairs_of_boxes_are_bounded_and_counted(rows, most):
    table = np.array(rows, dtype=float)
    low, high = np.minimum(table[:, :2], table[:, 2:]), np.maximum(table[:, :2], table[:, 2:])
    every = {
        (i, j)
        for i in range(len(rows))
        for j in range(i + 1, len(rows))
        if all(low[i, k] <= high[j, k] and low[j, k] <= high[i, k] for k in (0, 1))
    }
    assert len(every) <= most_overlaps(low, high)
    if len(every) > most:
        with pytest.raises(TooDenseError):
            list(overlapping(low, high, most))
    else:
        assert {tuple(sorted(p)) for batch in overlapping(low, high, most) for p in batch.T.tolist()} == every


def test_boxes_beside_one_another_make_no_pairs():
    places = np.arange(0.0, 100.0, 2.0)
    low = np.column_stack([places, np.zeros_like(places)])
    assert (most_overlaps(low, low + 1.0), most_overlaps(low[:, ::-1], low[:, ::-1] + 1.0)) == (0, 0)


def test_a_part_beside_a_mesh_is_read_as_if_it_stood_alone(tmp_path):
    alone = full_outline(shaft())
    both = Ink([*alone.solid, *mesh(520, 510)], alone.centre)
    one, two = (read_drawing(write_dxf(ink, tmp_path / f"{k}.dxf")) for k, ink in enumerate((alone, both)))
    assert two.part == one.part is not None
    assert [f.code for f in two.findings if f not in one.findings] == ["left-out"]


def test_a_pen_is_kept_with_its_line():
    rows = segments([LAND, *mesh(520, 510), (0.0, 0.0, -60.0, 0.0, 0.0)])
    sources = (*rows.sources, Source("2", "LINE", "0", Pen.CENTRE))
    last = np.zeros(len(rows), dtype=np.int64)
    last[-1] = 1
    kept, _ = without_meshes(Segments(rows.ends, rows.bulge, last, sources))
    assert [kept.sources[k].pen for k in kept.source] == [Pen.SOLID, Pen.CENTRE]
