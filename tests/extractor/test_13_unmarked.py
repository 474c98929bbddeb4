"""Entities without subclass markers, as small programs write them, are given theirs; no number of theirs changes."""

import numpy as np
import pytest
from support.sheets import blank, bytes_of, codes, entities, line_tags, loaded, points, tags

from extractor.opening.unmarked import remarked

OLD, R2000 = "AC1009", "AC1015"
CORNERS = ((0.0, 0.0, 0.0), (30.0, 0.0, 0.5), (30.0, 10.0, 0.0), (0.0, 10.0, 0.0))
WAVE = ((0.0, 0.0), (5.0, 3.0), (10.0, 0.0), (15.0, -3.0))
ON_BODY = {"layer": "BODY", "color": 3}


def square(space, layer="BODY"):
    space.add_lwpolyline(CORNERS, format="xyb", close=True, dxfattribs={**ON_BODY, "layer": layer})


def wave(space):
    space.add_spline(WAVE, dxfattribs=ON_BODY).control_points = WAVE


def hatch(space):
    filled = space.add_hatch(dxfattribs={"layer": "HATCH"})
    filled.set_pattern_fill("ANSI31")
    filled.paths.add_polyline_path(CORNERS, is_closed=True)


def bare(version, markers, *draws):
    """A file of a header and what is drawn, with newer kinds in it even where its version is older than they are."""
    doc = blank("R2000")
    for draw in draws:
        draw(doc.modelspace())
    lines = [line.strip() for line in bytes_of(doc).decode().split("\n")]
    pairs = list(zip(map(int, lines[0:-1:2]), lines[1::2], strict=False))
    first = pairs.index((2, "ENTITIES")) + 1
    kept = [p for p in pairs[first : pairs.index((0, "ENDSEC"), first)] if markers or p[0] not in (100, 330)]
    return headed(version, *kept)


def headed(version, *pairs):
    header = ((0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, version), (9, "$INSUNITS"), (70, 4), (0, "ENDSEC"))
    return tags(*header) + entities(*pairs)


@pytest.mark.parametrize("version", [OLD, R2000])
@pytest.mark.parametrize("draw", [square, wave], ids=["LWPOLYLINE", "SPLINE"])
def test_an_entity_without_its_marker_is_read_like_one_with_it(version, draw):
    line = lambda space: space.add_line((0.0, 0.0), (1.0, 0.0))  # noqa: E731
    found, wanted = loaded(bare(version, False, draw, line)), loaded(bare(R2000, True, draw, line))
    assert np.allclose(points(found), points(wanted), atol=1e-9)
    assert {s.layer for s in found.segments.sources} == {"BODY", "0"}
    assert "file-repaired" in codes(found)
    assert "file-repaired" not in codes(wanted)


@pytest.mark.parametrize("version", [OLD, R2000])
def test_hatches_and_notes_without_markers_are_kept_too(version):
    note = lambda space: space.add_mtext("ALL SIZES IN MM", {"insert": (1.0, 2.0), "char_height": 3.0})  # noqa: E731
    found = loaded(bare(version, False, hatch, note, square))
    assert [(t.text, t.at) for t in found.texts] == [("ALL SIZES IN MM", (1.0, -1.0))]
    assert any(s.owner == "HATCH" or s.kind == "HATCH" for s in found.segments.sources)


def test_a_window_of_an_old_layout_without_its_own_data_does_no_harm():
    window = ((0, "VIEWPORT"), (67, 1), (8, "0"), (10, 5.0), (20, 5.0), (40, 10.0), (41, 10.0), (68, 2), (69, 2))
    found = loaded(headed(OLD, *line_tags(0, 0, 7, 0), *window))
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
