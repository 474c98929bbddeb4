"""The usual ways to draw a turned part, each read back to the drawer's own numbers."""

from dataclasses import replace

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, section, sheet_of, side_view, write_dxf

from extractor import ReadOptions, read_drawing, read_sheet

PART = Turned(
    ((30.0, 40.0), (40.0, 50.0)),
    (Cut(-10, 3, 34, 0.4, 0.2), Cut(-20, 2, 36), Cut(-40, 4, 42, 0.2)),
    chamfer=1.0,
)
STYLES = [half_profile, full_outline, side_view, section]
MM = ReadOptions(units="mm")


def assert_same(part, turned):
    """The read grooves are the drawn ones, in order, within 1e-6."""
    assert part is not None
    assert len(part.grooves) == len(turned.cuts)
    for groove, cut in zip(part.grooves, sorted(turned.cuts, key=lambda c: -c.z), strict=True):
        assert groove.shape == "rectangular"
        assert (groove.z_near, groove.width) == pytest.approx((cut.z, cut.width), abs=1e-6)
        assert groove.floor_diameter == pytest.approx(cut.floor, abs=1e-6)
        assert groove.mouth_diameter == pytest.approx(turned.diameter_at(cut.z), abs=1e-6)
        assert groove.corner_radius == pytest.approx(cut.corner, abs=1e-6)
        assert groove.edge_chamfer == pytest.approx(cut.chamfer, abs=1e-6)


@pytest.mark.parametrize("style", STYLES)
def test_every_style_gives_the_drawn_numbers(style):
    turned = replace(PART, bore=12.0) if style is section else PART
    reading = read_sheet(sheet_of(style(turned)), MM)
    assert_same(reading.part, turned)
    assert reading.part.outer_diameter == pytest.approx(50.0)
    assert reading.part.length == pytest.approx(70.0)


@pytest.mark.parametrize("version", ["R2000", "R2007", "R2018"])
@pytest.mark.parametrize("style", STYLES[:3])
def test_through_a_file_anywhere_on_the_sheet(style, version, tmp_path):
    path = write_dxf(style(PART), tmp_path / "part.dxf", version, lambda x, y: (x + 1234.5, y - 77.25))
    reading = read_drawing(path)
    assert reading.units == "mm"
    assert_same(reading.part, PART)


def test_r12_carries_no_units(tmp_path):
    path = write_dxf(full_outline(PART), tmp_path / "part.dxf", "R12")
    assert [f.code for f in read_drawing(path).findings if f.stops] == ["units-unknown"]
    assert_same(read_drawing(path, MM).part, PART)


def test_lands_are_the_outline_with_grooves_filled():
    part = read_sheet(sheet_of(full_outline(PART)), MM).part
    assert max(r for _, r in part.lands) == 25.0
    assert {r for z, r in part.lands if -29.9 < z < -1} == {20.0}
