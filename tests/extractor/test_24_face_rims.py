"""Which rims of a face groove have the chamfer, as drawn in section with straight lines and arcs."""

import ezdxf
import pytest

from extractor import read_drawing
from extractor.part import ReadOptions


def face_groove(path, outer, inner, around=()):
    """A disc 60 across with a groove 34 to 44 across and 4 deep in its face; rims as points off the sharp edge.

    `around`: points of its outside, from the back to the front.
    """
    doc = ezdxf.new("R2010", setup=True)
    doc.units = 4
    upper = [(-40, 0), (-40, 30), *around, (0, 30), *outer, (-4, 22), (-4, 17), *inner, (0, 0)]
    lower = [(x, -y) for x, y in reversed(upper)]
    doc.modelspace().add_lwpolyline(upper + lower[1:-1], close=True)
    doc.modelspace().add_line((-45, 0), (5, 0), dxfattribs={"linetype": "CENTER"})
    doc.saveas(path)


SHARP = [(0, 22)], [(0, 17)]
BOTH = [(0, 22.5), (-0.5, 22)], [(-0.5, 17), (0, 16.5)]


@pytest.mark.parametrize(
    ("outer", "inner", "leg", "bevelled"),
    [
        (*SHARP, 0.0, (False, False)),
        (*BOTH, 0.5, (True, True)),
        (BOTH[0], SHARP[1], 0.5, (True, False)),
        (SHARP[0], BOTH[1], 0.5, (False, True)),
        ([(0, 22.5), (-0.5, 22)], [(-0.3, 17), (0, 16.7)], 0.5, (True, False)),
        ([(0, 22.9), (-0.5, 22)], [(-0.5, 17), (0, 16.5)], 0.9, (False, False)),
    ],
    ids=["sharp", "both", "outer", "inner", "unequal", "not at 45 degrees"],
)
def test_each_rim_is_told_as_drawn(tmp_path, outer, inner, leg, bevelled):
    face_groove(tmp_path / "f.dxf", outer, inner)
    part = read_drawing(tmp_path / "f.dxf", ReadOptions()).part
    (groove,) = part.grooves
    assert (groove.where, groove.bevelled) == ("face", bevelled)
    assert groove.edge_chamfer == pytest.approx(leg, abs=1e-6)


@pytest.mark.parametrize("behind", [3.0, 4.0, 5.0])
def test_a_groove_of_the_outside_as_deep_behind_the_face_as_a_face_groove_takes_nothing_from_it(tmp_path, behind):
    """The floor of the face groove lies 4 behind the face; the outside has a groove 2 wide from `behind` on."""
    far, near = -behind - 2, -behind
    around = [(far, 30), (far, 28), (near, 28), (near, 30)]
    face_groove(tmp_path / "f.dxf", *SHARP, around)
    reading = read_drawing(tmp_path / "f.dxf", ReadOptions())
    assert [f.code for f in reading.findings if f.stops] == []
    found = [(g.where, g.z_near, g.z_far, g.floor_diameter) for g in reading.part.grooves]
    assert found == [("face", 0, -4, 34), ("outside", near, far, 56)]
