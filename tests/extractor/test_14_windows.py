"""A part in model space with its dimensions and title block on a layout: both are weighed, through the windows."""

import math

import pytest
from support.sheets import blank, codes, read_back

from extractor import dxf
from extractor.geometry.crowds import TooDenseError
from extractor.opening import segments
from extractor.opening.expand import Walk
from extractor.reading import read_sheet

UPPER = ((0, 0), (0, 20), (10, 20), (10, 17), (13, 17), (13, 20), (60, 20), (60, 0))


def bar(units=4):
    """A document with a bar of 40 by 60, one groove 3 wide from x 10, in model space."""
    doc = blank(units=units)
    msp = doc.modelspace()
    for sign in (1, -1):
        msp.add_lwpolyline([(x, sign * y) for x, y in UPPER])
    msp.add_line((-5, 0), (65, 0), dxfattribs={"linetype": "CENTER"})
    return doc


def layout_with_window(doc, scale=0.5, twist=0.0):
    """The first layout with one window that shows the bar at a scale, its middle at 100, 100 on paper."""
    paper = doc.layout("Layout1")
    # The middle looked at is given as it lies after the twist.
    turn = math.radians(twist)
    window = paper.add_viewport((100, 100), (90, 90), (30 * math.cos(turn), 30 * math.sin(turn)), 90 / scale)
    window.dxf.view_twist_angle = twist
    return paper


def on_paper(x, y, scale=0.5):
    """Where the window shows a model point."""
    return 100 + (x - 30) * scale, 100 + y * scale


def dimensioned(text, scale=0.5, ends=((10, 20), (13, 20)), picture=None):
    """The bar with a dimension on the layout, its picture's text changed to another if one is given."""
    doc = bar()
    a, b = (on_paper(*end, scale) for end in ends)
    made = layout_with_window(doc, scale).add_linear_dim((a[0], a[1] + 8), a, b, text=text).render()
    for label in made.dimension.get_geometry_block().query("MTEXT") if picture is not None else ():
        label.text = picture
    return read_back(doc)


@pytest.mark.parametrize(
    ("scale", "picture", "told"),
    [
        (0.5, "3", []),  # tied to model space
        (0.5, "", []),  # no picture to go by
        (1.0, None, []),
        (1.25, "3", []),
        (0.5, None, ["dimension-contradicts"]),  # the picture shows the size on paper, and so does a print
        (1.25, None, ["dimension-contradicts"]),
        (0.5, "4.5", ["dimension-contradicts"]),
    ],
)
def test_a_dimension_on_a_layout_measures_the_model(scale, picture, told):
    sheet = dimensioned("<>", scale, picture=picture)
    (found,) = sheet.dimensions
    assert found.measured == pytest.approx(3.0)
    assert [c for p in found.points for c in p] == pytest.approx([10, 20, 13, 20])
    assert [f.code for f in read_sheet(sheet).findings if f.stops] == told


@pytest.mark.parametrize(("factor", "shown"), [(2.0, 1.0), (10.0, 5.0)])
def test_a_display_factor_counts_over_the_model(factor, shown):
    doc = bar()
    a, b = on_paper(0, 20), on_paper(60, 20)
    paper = layout_with_window(doc)
    paper.add_linear_dim((a[0], a[1] + 8), a, b, override={"dimlfac": factor}).render()
    sheet = read_back(doc)
    assert sheet.dimensions[0].factor == pytest.approx(shown)
    assert ("sheet-scale" in {f.code for f in read_sheet(sheet).findings}) is (shown != 1.0)


def test_its_tolerance_reaches_the_groove():
    (groove,) = read_sheet(dimensioned("3 +0.1 0")).part.grooves
    assert groove.tolerances["width"] == pytest.approx((0.0, 0.1))


def test_another_number_is_a_stop():
    reading = read_sheet(dimensioned("4"))
    assert "dimension-contradicts" in {f.code for f in reading.findings if f.stops}


def test_a_twisted_window_is_looked_through():
    doc = bar()
    paper = layout_with_window(doc, 1.0, twist=90.0)
    window = next(e for e in paper if e.dxftype() == "VIEWPORT" and e.dxf.get("id", 2) != 1)
    a, b = (window.get_transformation_matrix().transform((x, 20, 0)) for x in (10, 13))
    paper.add_linear_dim((a.x - 8, a.y), a, b, angle=90, text="3 +0.2 0").render()
    (found,) = read_back(doc).dimensions
    assert [c for p in found.points for c in p] == pytest.approx([10, 20, 13, 20], abs=1e-9)
    assert math.isclose(found.measured, 3.0)
    assert min(found.angle, 180 - found.angle) == pytest.approx(0, abs=1e-6)


def test_the_title_block_on_a_layout_names_the_units():
    doc = bar(units=0)
    assert read_sheet(read_back(doc)).units is None
    layout_with_window(doc).add_text("ALL DIMENSIONS IN MM", height=3).set_placement((10, 10))
    assert read_sheet(read_back(doc)).units == "mm"


def test_its_scale_is_the_plotting_scale():
    doc = bar()
    layout_with_window(doc).add_text("SCALE 1:2", height=3).set_placement((10, 10))
    reading = read_sheet(read_back(doc))
    assert not any(f.stops for f in reading.findings)
    assert reading.part.length == pytest.approx(60)


def test_its_general_tolerances_hold():
    doc = bar()
    layout_with_window(doc).add_mtext("ISO 2768-m", dxfattribs={"char_height": 3, "insert": (10, 10)})
    (groove,) = read_sheet(read_back(doc)).part.grooves
    assert groove.tolerances["width"] == pytest.approx((-0.1, 0.1))


def test_a_dimension_in_pieces_is_looked_through_too():
    doc = bar()
    paper = layout_with_window(doc)
    (ax, y), (bx, _) = on_paper(10, 20), on_paper(13, 20)
    for start, end in (((ax, y + 8), (bx, y + 8)), ((ax, y), (ax, y + 9)), ((bx, y), (bx, y + 9))):
        paper.add_line(start, end, dxfattribs={"layer": "BEMASSUNG"})
    paper.add_text("3 +0.1 0", height=2).set_placement((ax, y + 8.5))
    (groove,) = read_sheet(read_back(doc)).part.grooves
    assert groove.tolerances["width"] == pytest.approx((0.0, 0.1))


def test_a_dimension_outside_every_window_is_a_caution():
    doc = bar()
    layout_with_window(doc).add_linear_dim((300, 320), (300, 300), (310, 300)).render()
    sheet = read_back(doc)
    assert sheet.dimensions == ()
    assert "layout-dimensions" in codes(sheet)


@pytest.mark.parametrize("why", ["dense", "many"])
def test_a_layout_too_dense_to_find_dimensions_on_is_named(why, monkeypatch):
    def crowded(_):
        raise TooDenseError

    def many(collected):
        monkeypatch.setattr(segments, "MOST_PIECES", 0 if len(collected.strokes) == 1 else 99)
        return segments.segments_of(collected)

    if why == "dense":
        monkeypatch.setattr(dxf, "with_loose", crowded)
    else:
        monkeypatch.setattr(dxf, "segments_of", many)
    doc = bar()
    layout_with_window(doc).add_line((300, 0), (300, 50))
    (caution,) = [f for f in read_back(doc).findings if f.code == "layout-dimensions"]
    assert "on the layout Layout1" in caution.message


def test_layouts_without_anything_say_nothing():
    doc = bar()
    layout_with_window(doc)
    assert read_back(doc).findings == read_back(bar()).findings


def test_a_layout_whose_record_a_damaged_file_lost_is_passed_over():
    doc = bar()
    layout_with_window(doc).block_record.destroy()
    found, layout, _ = dxf._layouts(doc, Walk(doc))
    assert (len(found.strokes), layout.is_modelspace) == (3, True)
