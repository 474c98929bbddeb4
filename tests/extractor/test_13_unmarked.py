"""Entities without subclass markers, as small programs write them, are given theirs; no number of theirs changes."""

import numpy as np
import pytest
from support.second_hand.marks import Curve, Fill, Line, Note, Path
from support.second_hand.rawdxf import OLD, R2000, Document, Item, Spelling, Window, Writer
from support.sheets import codes, entities, line_tags, loaded, points, tags

from extractor.opening.unmarked import remarked

SQUARE = Path(((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (0.0, 10.0)), (0.0, 0.5, 0.0, 0.0), closed=True)
WAVE = Curve(((0.0, 0.0), (5.0, 3.0), (10.0, 0.0), (15.0, -3.0)))


def bare(version: str, items: list[Item], markers: bool) -> bytes:
    """A file of these items, newer kinds in it even where the version is older than they are."""

    class Newer(Writer):
        modern = True

    spelling = Spelling(version=version, markers=markers, header=((9, "$INSUNITS"), (70, 4)))
    return tags(*Newer(spelling).file(Document(model=items)))


@pytest.mark.parametrize("version", [OLD, R2000])
@pytest.mark.parametrize("what", [SQUARE, WAVE], ids=["LWPOLYLINE", "SPLINE"])
def test_an_entity_without_its_marker_is_read_like_one_with_it(version, what):
    items = [Item(what, "BODY", "", 3), Item(Line((0.0, 0.0), (1.0, 0.0)))]
    found, wanted = loaded(bare(version, items, False)), loaded(bare(R2000, items, True))
    assert np.allclose(points(found), points(wanted), atol=1e-9)
    assert {s.layer for s in found.segments.sources} == {"BODY", "0"}
    assert "file-repaired" in codes(found)
    assert "file-repaired" not in codes(wanted)


@pytest.mark.parametrize("version", [OLD, R2000])
def test_hatches_and_notes_without_markers_are_kept_too(version):
    items = [Item(Fill(SQUARE), "HATCH"), Item(Note((1.0, 2.0), 3.0, "ALL SIZES IN MM", "mtext")), Item(SQUARE)]
    found = loaded(bare(version, items, False))
    assert [(t.text, t.at) for t in found.texts] == [("ALL SIZES IN MM", (1.0, 2.0))]
    assert any(s.owner == "HATCH" or s.kind == "HATCH" for s in found.segments.sources)


def test_a_window_of_an_old_layout_without_its_own_data_does_no_harm():
    window = Item(Window((5.0, 5.0), (10.0, 10.0), (0.0, 0.0), 10.0))
    doc = Document(model=[Item(Line((0.0, 0.0), (7.0, 0.0)))], paper=[window])
    found = loaded(tags(*Writer(Spelling(version=OLD)).file(doc)))
    assert len(found.segments) == 1
    assert "file-repaired" not in codes(found)


def test_a_sound_text_is_left_as_it_is():
    data = entities(*line_tags(0, 0, 5, 5))
    assert remarked(data) == (data, "")


def test_groups_stand_where_old_and_new_loaders_look_for_them():
    data, words = remarked(tags((0, "SPLINE"), (70, 8), (8, "BODY"), (40, 0.5), (5, "2F"), (0, "EOF")))
    lines = data.decode().split()
    assert words == "SPLINE without its subclass marker"
    assert lines[2:10] == ["70", "8", "8", "BODY", "40", "0.5", "5", "2F"]
    assert lines[10:] == ["100", "AcDbEntity", "8", "BODY", "100", "AcDbSpline", "70", "8", "40", "0.5", "0", "EOF"]


def test_several_are_counted():
    assert remarked(tags((0, "MTEXT"), (1, "A"), (0, "MTEXT"), (1, "B")))[1].startswith("2 entities, the first a MTEXT")
