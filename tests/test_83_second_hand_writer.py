"""The writer of DXF text for tests, held against a library's reading: every spelling holds the same lines and arcs."""

import io
import itertools
import math

import ezdxf
import pytest
from support.second_hand.marks import Arc, Circle, Line, Mark, Path, Place, arc_of, placed
from support.second_hand.rawdxf import OLD, R2000, R2007, R2018, Document, Item, Spelling, write

ROUND = Path(((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)), (0.0, 0.5, 0.0, -0.3), closed=True)
MARKS: list[Mark] = [Line((1.0, 2.0), (30.0, 5.0)), Arc((9.0, 8.0), 4.0, 350.0, 80.0), Circle((3.0, -7.0), 2.5), ROUND]
SPELLINGS = {
    f"{version} {habit}": Spelling(version=version, **fields)
    for version, (habit, fields) in itertools.product(
        (OLD, R2000, R2007, R2018),
        {
            "plain": {},
            "flipped": {"flipped": True},
            "shuffled": {"shuffled": True},
            "old paths": {"old_paths": True},
            "ellipses": {"circles_as_ellipses": True},
            "bare": {"tables": False, "handles": False, "newline": "\n", "pad": False},
            "exact": {"digits": "repr", "comments": True},
        }.items(),
    )
}


def extents(spelling):
    """Bounding box and length of all curves as the library sees them."""
    text = write(Document(model=[Item(m) for m in MARKS]), spelling).decode("utf-8")
    doc = ezdxf.read(io.StringIO(text, newline=None))
    from ezdxf import bbox, path

    box = bbox.extents(doc.modelspace(), fast=False)
    length = sum(
        a.distance(b) for e in doc.modelspace() for a, b in itertools.pairwise(path.make_path(e).flattening(1e-5))
    )
    return [*box.extmin.vec2, *box.extmax.vec2, length]


@pytest.fixture(scope="module")
def plain():
    return extents(Spelling(version=R2000))


@pytest.mark.parametrize("name", SPELLINGS)
def test_every_spelling_holds_the_same_curves(name, plain):
    assert extents(SPELLINGS[name]) == pytest.approx(plain, abs=2e-3)


def test_the_curves_are_those_meant(plain):
    # The library makes cubic curves of arcs, a few thousandths longer.
    bulged = sum(
        4 * math.atan(abs(b)) * arc_of(*ends, b)[1]
        for ends, b in ((((40, 0), (40, 20)), 0.5), (((0, 20), (0, 0)), -0.3))
    )
    straight = math.dist((1, 2), (30, 5)) + 80.0
    assert plain[4] == pytest.approx(straight + math.pi / 2 * 4 + 2 * math.pi * 2.5 + bulged, abs=0.01)


@pytest.mark.parametrize("version", [OLD, R2000, R2018])
def test_the_binary_form_holds_the_same_tags(version):
    doc = Document(layers={"0": (7, ""), "AXES": (1, "CENTER")}, model=[Item(m, "AXES") for m in MARKS])
    from ezdxf.document import Drawing
    from ezdxf.lldxf.tagger import binary_tags_loader

    data = write(doc, Spelling(version=version, binary=True))
    found = Drawing.load(binary_tags_loader(data))
    assert [e.dxf.layer for e in found.modelspace()] == ["AXES"] * len(MARKS)


@pytest.mark.parametrize(
    "place", [Place((3.0, 4.0), 30.0, 2.0), Place(mirror=True), Place((1.0, 0.0), 180.0, 1.0, True)]
)
def test_a_place_moves_arcs_and_bulges_alike(place):
    centre, radius, first, last = arc_of((40.0, 0.0), (40.0, 20.0), 0.5)
    (arc,) = placed([Arc(centre, radius, first, last)], place)
    (path,) = placed([Path(((40.0, 0.0), (40.0, 20.0)), (0.5, 0.0))], place)
    other = arc_of(path.points[0], path.points[1], path.bulges[0])
    assert arc.centre == pytest.approx(other[0])
    assert arc.radius == pytest.approx(other[1])
    for mine, theirs in zip((arc.start, arc.end), other[2:], strict=True):
        assert math.remainder(mine - theirs, 360.0) == pytest.approx(0.0, abs=1e-6)
