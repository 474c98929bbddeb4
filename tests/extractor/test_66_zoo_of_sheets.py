"""One shaft, one oddity at a time: read as what it is, or stopped with the code that says why."""

from itertools import pairwise

import pytest
from ezdxf.math import Matrix44
from support.shaft import GROOVE, PROFILE, Drawing, grooves, read, stops
from support.varied import each_in_turn

from extractor.part import ReadOptions


def in_block(drawing: Drawing, **insert):
    """The body as a block, placed once."""
    drawing.body(drawing.doc.blocks.new("SHAFT"))
    drawing.msp.add_blockref("SHAFT", insert.pop("at", (0, 0)), dxfattribs=insert)


def nested(drawing: Drawing):
    """The body two blocks deep, mirrored twice."""
    drawing.body(drawing.doc.blocks.new("INNER"))
    drawing.doc.blocks.new("OUTER").add_blockref("INNER", (0, 0), dxfattribs={"xscale": -1})
    drawing.msp.add_blockref("OUTER", (300, 0), dxfattribs={"xscale": -1})


def as_polylines(drawing: Drawing, closed: bool = True, width: float = 0.0):
    """The outline as one closed polyline."""
    loop = PROFILE + [(x, -y) for x, y in reversed(PROFILE) if y]
    drawing.msp.add_lwpolyline(loop, close=closed, dxfattribs={"const_width": width})
    drawing.msp.add_line((-5, 0), (65, 0), dxfattribs={"linetype": "CENTER"})


def as_splines(drawing: Drawing):
    """Every line written as a spline of degree three."""
    for side in (1, -1):
        points = [(x, side * y) for x, y in PROFILE]
        for (ax, ay), (bx, by) in pairwise(points):
            control = [(ax + (bx - ax) * t, ay + (by - ay) * t) for t in (0, 1 / 3, 2 / 3, 1)]
            drawing.msp.add_open_spline(control)
    drawing.msp.add_line((-5, 0), (65, 0), dxfattribs={"linetype": "CENTER"})


def on_paper(drawing: Drawing):
    """The body in a layout, model space empty."""
    drawing.body(drawing.doc.layout("Layout1"))


def hidden_layer(drawing: Drawing):
    """Junk on a frozen layer and on one that never plots."""
    drawing.doc.layers.add("OLD").freeze()
    for layer in ("OLD", "Defpoints"):
        drawing.msp.add_line((10, -30), (10, 30), dxfattribs={"layer": layer})


DRAWN_ANOTHER_WAY = {
    "in a block": in_block,
    "in a block moved far off": lambda d: in_block(d, at=(1e5, -2e5)),
    "in a block at scale 2 of a half-size body": lambda d: (setattr(d, "scale", 0.5), in_block(d, xscale=2, yscale=2)),
    "in a block with z scale 0": lambda d: in_block(d, zscale=0),
    "in a block mirrored about its axis": lambda d: in_block(d, yscale=-1),
    "two blocks deep": nested,
    "as one polyline": as_polylines,
    "as one wide polyline": lambda d: as_polylines(d, width=0.5),
    "as one polyline seen from behind, at its mirror image": lambda d: (
        as_polylines(d),
        d.turned(Matrix44.scale(-1, 1, 1)),
        d.turned(Matrix44.scale(-1, 1, 1)),
    ),
    "as straight splines": as_splines,
    "in paper space": on_paper,
}


@pytest.mark.parametrize("odd", DRAWN_ANOTHER_WAY.values(), ids=DRAWN_ANOTHER_WAY)
def test_drawn_another_way_it_is_the_same_part(odd):
    reading = read(odd, body=False)
    assert stops(reading) == []
    assert grooves(reading) == [GROOVE]


BESIDE = {
    "the scale of a detail under its name": lambda d: (d.note("DETAIL A", (0, -50)), d.note("SCALE 5:1", (0, -55))),
    "a plotting scale and a true diameter": lambda d: (d.note("SCALE 2:1"), d.note("%%c40")),
    "a dimension that points elsewhere": lambda d: d.dim((0, 20), (60, 20), "SEE 4711"),
    "nothing": lambda d: None,
    "an overlay of ours": lambda d: d.msp.add_line((47, 17), (50, 20), dxfattribs={"layer": "RILLWRIGHT-OUTLINE"}),
    "junk on hidden layers": hidden_layer,
    "an invisible line": lambda d: d.msp.add_line((20, -30), (20, 30), dxfattribs={"invisible": 1}),
    "a construction line": lambda d: d.msp.add_xline((20, 0), (0, 1)),
    "a point": lambda d: d.msp.add_point((20, 5)),
    "an attribute definition": lambda d: d.msp.add_attdef("TAG", (0, 0), "x"),
    "a dimension": lambda d: d.dim((47, 20), (50, 20)),
    "a dimension with arrows across the groove": lambda d: d.dim((50, 17), (50, -17), "%%c<>"),
    "a body": lambda d: d.msp.add_3dface([(0, 0, 0), (4, 0, 0), (4, 2, 5)]),
    "a broken linetype": lambda d: d.msp.add_line((-5, 0), (65, 0), dxfattribs={"linetype": "NO SUCH"}),
}


@pytest.mark.parametrize("odd", BESIDE.values(), ids=BESIDE)
def test_what_stands_beside_it_changes_nothing(odd):
    reading = read(odd)
    assert stops(reading) == []
    assert grooves(reading) == [GROOVE]


@each_in_turn(
    linetype=["CENTER", "CENTER2", "CENTERX2", "DASHDOT", "DASHDOTX2", "ACAD_ISO04W100"],
    version=["R12", "R2000", "R2018"],
)
def test_centre_linetypes_in_old_and_new_files(linetype, version):
    options = ReadOptions(units="mm")
    reading = read(lambda d: d.body(linetype=linetype), body=False, version=version, options=options)
    assert grooves(reading) == [GROOVE]
    assert stops(reading) == []


UNITS = {
    "header mm": (4, None, "mm", []),
    "header inch on 40": (1, None, None, ["units-conflict"]),
    "no unit": (0, None, None, ["units-unknown"]),
    "metre alone": (6, None, None, ["units-unknown"]),
    "metre and a note": (6, "ALL DIMENSIONS IN MM", "mm", []),
    "no unit and a general tolerance": (0, "ISO 2768-mK", "mm", []),
    "mm and a note in inches": (4, "DIMENSIONS IN INCHES", None, ["units-conflict"]),
}


@pytest.mark.parametrize(("code", "note", "units", "codes"), UNITS.values(), ids=UNITS)
def test_units(code, note, units, codes):
    reading = read(lambda d: d.note(note) if note else None, units=code)
    assert (reading.units, stops(reading)) == (units, codes)


DIMENSIONED = {
    "width with a class": (lambda d: d.dim((47, 20), (50, 20), "3 H13"), {"width": (0, 0.14)}),
    "floor with a class": (lambda d: d.dim((50, 17), (50, -17), "%%c34 h11"), {"floor_diameter": (-0.16, 0)}),
    "floor in words around the measured size": (
        lambda d: d.dim((50, 17), (50, -17), "%%c<> -0.05/-0.15"),
        {"floor_diameter": (-0.15, -0.05)},
    ),
    "floor from the axis": (lambda d: d.dim((50, 17), (50, 0), "%%c34 h11"), {"floor_diameter": (-0.16, 0)}),
    "stacked": (
        lambda d: d.dim((47, 20), (50, 20), r"\A1;3{\H0.7x;\S+0.1^ 0;}"),
        {"width": (0, 0.1)},
    ),
    "by variables": (
        lambda d: d.dim((47, 20), (50, 20), dimtol=1, dimtp=0.12, dimtm=-0.02),
        {"width": (0.02, 0.12)},
    ),
    "place from the front": (lambda d: d.dim((60, 20), (50, 20), "10 %%p0.05"), {"z_near": (-0.05, 0.05)}),
    "depth": (lambda d: d.dim((47, 17), (47, 20), "3 +0.1/0"), {"depth": (0, 0.1)}),
    "a bare text": (lambda d: d.note("%%c34 h11"), {"floor_diameter": (-0.16, 0)}),
    "none": (lambda d: d.dim((47, 20), (50, 20)), {}),
}


@pytest.mark.parametrize(("odd", "expected"), DIMENSIONED.values(), ids=DIMENSIONED)
def test_tolerances_from_real_dimension_entities(odd, expected):
    reading = read(odd)
    assert stops(reading) == []
    (groove,) = reading.part.grooves
    assert dict(groove.tolerances) == {name: pytest.approx(pair) for name, pair in expected.items()}


def test_a_leader_with_a_diameter_counts_as_a_dimension():
    def odd(d):
        d.msp.add_leader([(48.5, 17), (55, 32)])
        d.msp.add_mtext("%%c34 h11", dxfattribs={"insert": (56, 33), "char_height": 2.5})

    (groove,) = read(odd).part.grooves
    assert dict(groove.tolerances) == {"floor_diameter": (-0.16, 0)}


STOPPED = {
    "a width that contradicts": (lambda d: d.dim((47, 20), (50, 20), "2.65 H13"), "dimension-contradicts"),
    "a floor that contradicts": (lambda d: d.dim((50, 17), (50, -17), "%%c33"), "dimension-contradicts"),
    "a sheet scale in texts": (
        lambda d: (
            d.dim((47, 20), (50, 20), "1.5"),
            d.dim((0, 20), (60, 20), "30"),
            d.dim((60, 20), (60, -20), "%%c20"),
        ),
        "sheet-scale",
    ),
    "a display factor": (lambda d: d.dim((0, 20), (60, 20), dimlfac=2.0), "sheet-scale"),
    "a scale note alone": (lambda d: d.note("SCALE 2:1"), "sheet-scale"),
}


@pytest.mark.parametrize(("odd", "code"), STOPPED.values(), ids=STOPPED)
def test_what_stops(odd, code):
    assert stops(read(odd)) == [code]


@pytest.mark.parametrize("name", ["a width that contradicts", "a floor that contradicts"])
def test_the_user_may_answer_for_a_contradiction(name):
    odd, code = STOPPED[name]
    reading = read(odd, options=ReadOptions(accept=frozenset({code})))
    assert stops(reading) == []
    assert code in {f.code for f in reading.findings if f.level == "caution"}


@pytest.mark.parametrize("name", ["a sheet scale in texts", "a display factor", "a scale note alone"])
def test_a_scale_that_the_user_gives_is_taken(name):
    odd, _ = STOPPED[name]
    scale = 0.5 if name == "a display factor" else 2.0
    reading = read(odd, options=ReadOptions(scale=scale))
    assert stops(reading) == []
    assert grooves(reading) == [tuple(round(v / scale, 4) for v in GROOVE)]


@pytest.mark.parametrize("name", ["header inch on 40", "no unit", "metre alone", "mm and a note in inches"])
def test_units_that_the_user_gives_are_taken(name):
    code, note, *_ = UNITS[name]
    reading = read(lambda d: d.note(note) if note else None, units=code, options=ReadOptions(units="mm"))
    assert (reading.units, stops(reading)) == ("mm", [])


def test_unknown_units_cannot_be_waved_through():
    reading = read(lambda d: None, units=0, options=ReadOptions(accept=frozenset({"units-unknown"})))
    assert stops(reading) == ["units-unknown"]


@pytest.mark.parametrize(("at", "stopped"), [((200, 200), []), ((-500, -500), ["too-many-entities"])])
def test_runaway_blocks_stop_the_part_only_where_it_stands_among_them(at, stopped):
    def odd(d):
        d.doc.blocks.new("DOT").add_line((0, 0), (1, 0))
        rows = {"row_count": 1000, "column_count": 1000, "row_spacing": 1, "column_spacing": 1}
        d.msp.add_blockref("DOT", at, dxfattribs=rows)

    reading = read(odd)
    assert stops(reading) == stopped
    assert reading.part is not None
    assert "left-out" in {finding.code for finding in reading.findings}


def test_a_sheet_of_bodies_has_one_reason():
    reading = read(lambda d: d.msp.add_3dface([(0, 0, 0), (4, 0, 0), (4, 2, 5)]), body=False)
    assert stops(reading) == ["three-d-only"]


def test_a_wire_model_is_stopped():
    def odd(d):
        for k in range(20):
            d.msp.add_line((k, 0, 0), (k, 0, 20))

    assert "three-d-only" in stops(read(odd))
