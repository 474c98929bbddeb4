"""DIMENSION and leader entities: measured between their points, printed as their variables say."""

import math

import pytest
from ezdxf.math import Matrix44, Vec2
from ezdxf.render import ConnectionSide
from support.sheets import blank, drawn, read_back

from extractor.opening.dimension_entities import printed_text

STANDARD = {"dimstyle": "Standard"}


def one(draw, version="R2010"):
    """The only dimension of a sheet."""
    (dimension,) = drawn(draw, version).dimensions
    return dimension


def linear(text="<>", angle=0.0, override=None, p2=(13, 4), version="R2010"):
    """A linear dimension from (0, 0)."""
    return one(
        lambda m: m.add_linear_dim(
            base=(0, 20), p1=(0, 0), p2=p2, angle=angle, text=text, override=override or {}, **STANDARD
        ).render(),
        version,
    )


@pytest.mark.parametrize(("angle", "measured"), [(0, 13), (90, 4), (180, 13), (45, 17 / math.sqrt(2))])
def test_a_linear_dimension_measures_along_its_direction(angle, measured):
    dimension = linear(angle=angle)
    assert (dimension.kind, dimension.measured) == ("linear", pytest.approx(measured))
    assert dimension.text is None


@pytest.mark.parametrize(("angle", "line"), [(0, ((0, 20), (13, 20))), (90, ((0, 0), (0, 4)))])
def test_a_linear_dimension_has_its_line_where_it_was_put(angle, line):
    found = linear(angle=angle).line
    assert [c for at in found for c in at] == pytest.approx([c for at in line for c in at])


def test_a_diameter_dimension_has_its_line_across():
    dimension = one(lambda m: m.add_diameter_dim(center=(5, 5), radius=4, angle=90, **STANDARD).render())
    assert sorted(y for _, y in dimension.line) == pytest.approx([1, 9])
    assert dimension.base is None


def test_an_aligned_dimension_measures_from_point_to_point():
    dimension = one(lambda m: m.add_aligned_dim(p1=(0, 0), p2=(3, 4), distance=2, **STANDARD).render())
    assert dimension.measured == pytest.approx(5)
    assert dimension.angle == pytest.approx(math.degrees(math.atan2(4, 3)))


def test_a_diameter_dimension_measures_across():
    dimension = one(lambda m: m.add_diameter_dim(center=(5, 5), radius=4, angle=30, **STANDARD).render())
    assert (dimension.kind, dimension.measured) == ("diameter", pytest.approx(8))


def test_a_radius_dimension_measures_from_the_centre():
    dimension = one(lambda m: m.add_radius_dim(center=(5, 5), radius=4, angle=30, **STANDARD).render())
    assert (dimension.kind, dimension.measured) == ("radius", pytest.approx(4))


@pytest.mark.parametrize(("kind", "measured"), [("x", 7), ("y", 3)])
def test_an_ordinate_dimension_measures_from_its_origin(kind, measured):
    def draw(m):
        add = getattr(m, f"add_ordinate_{kind}_dim")
        add(feature_location=(7, 3), offset=(2, 5), origin=(0, 0), **STANDARD).render()

    dimension = one(draw)
    assert (dimension.kind, dimension.measured) == ("ordinate", pytest.approx(measured))


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_dimensions_of_every_version(version):
    assert linear("%%c<> h11", version=version).text == "Ø<> h11"


def test_none_of_a_dimensions_own_lines_are_segments():
    sheet = drawn(lambda m: m.add_linear_dim(base=(0, 20), p1=(0, 0), p2=(13, 0), **STANDARD).render())
    assert len(sheet.segments) == 0
    assert sheet.texts == ()


# (typed text, DIMPOST, what it means): group 1 empty or "<>" prints the measured size; DIMPOST stands around it.
TEXTS = [
    ("", "", None),
    ("<>", "", None),
    (" ", "", ""),
    ("40 h11", "", "40 h11"),
    ("<> h11", "", "<> h11"),
    ("", "%%c<>", "Ø<>"),
    ("", " mm", "<>mm"),
    ("<> h11", "%%c<>", "Ø<> h11"),
    ("40", "%%c<>", "40"),
    (r"\A1;<>{\H0.7x;\S+0.1^-0.2;}", "", "<> +0.1^-0.2"),
]


@pytest.mark.parametrize(("typed", "postfix", "text"), TEXTS)
def test_what_is_printed(typed, postfix, text):
    assert printed_text(typed, postfix) == text


# DIMTOL switches deviations on; DIMTM holds the lower one with its sign turned (DXF reference, dimension variables).
VARIABLES = [
    ({}, None),
    ({"dimtp": 0.1, "dimtm": 0.2}, None),
    ({"dimtol": 1, "dimtp": 0.1, "dimtm": 0.2}, (-0.2, 0.1)),
    ({"dimtol": 1, "dimtp": 0.3, "dimtm": -0.1}, (0.1, 0.3)),
    ({"dimtol": 1, "dimtp": 0, "dimtm": 0.25}, (-0.25, 0.0)),
    ({"dimlim": 1, "dimtp": 0.05, "dimtm": 0.05}, (-0.05, 0.05)),
    ({"dimtol": 1, "dimtp": 0, "dimtm": 0}, None),
]


@pytest.mark.parametrize(("override", "deviations"), VARIABLES)
def test_deviations_from_dimension_variables(override, deviations):
    found = linear(override=override).deviations
    assert found == (deviations and pytest.approx(deviations))


def test_the_style_speaks_where_the_dimension_is_silent():
    doc = blank()
    style = doc.dimstyles.new(
        "TOL", dxfattribs={"dimtol": 1, "dimtp": 0.02, "dimtm": 0.01, "dimlfac": 2.5, "dimdec": 3}
    )
    doc.modelspace().add_linear_dim(base=(0, 9), p1=(0, 0), p2=(13, 0), dimstyle=style.dxf.name).render()
    (dimension,) = read_back(doc).dimensions
    assert dimension.deviations == pytest.approx((-0.01, 0.02))
    assert (dimension.factor, dimension.decimals) == (2.5, 3)


def test_a_dimension_in_a_block_follows_it():
    doc = blank()
    block = doc.blocks.new("B")
    block.add_linear_dim(base=(0, 9), p1=(0, 0), p2=(13, 0), **STANDARD).render()
    turn = {"rotation": 90, "xscale": 2, "yscale": 2, "zscale": 2}
    doc.modelspace().add_blockref("B", (5, 0), dxfattribs=turn)
    (dimension,) = read_back(doc).dimensions
    assert dimension.points[1] == pytest.approx((5, 26))
    assert dimension.measured == pytest.approx(26)
    assert math.cos(math.radians(dimension.angle)) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("turn", [30, 90, 200])
def test_turning_a_drawing_leaves_the_measured_size(turn):
    doc = blank()
    doc.modelspace().add_linear_dim(base=(0, 9), p1=(0, 0), p2=(13, 4), **STANDARD).render()
    for entity in doc.modelspace():
        entity.transform(Matrix44.z_rotate(math.radians(turn)))
    (dimension,) = read_back(doc).dimensions
    assert dimension.measured == pytest.approx(13)


def test_a_dimension_seen_from_behind_measures_the_same():
    doc = blank()
    doc.modelspace().add_linear_dim(base=(0, 9), p1=(0, 0), p2=(13, 4), angle=30, **STANDARD).render()
    (plain,) = read_back(doc).dimensions
    for entity in doc.modelspace():
        entity.transform(Matrix44.scale(-1, 1, 1))
    (mirrored,) = read_back(doc).dimensions
    assert mirrored.points[1] == pytest.approx((-13, 4))
    assert mirrored.measured == pytest.approx(plain.measured)


@pytest.mark.parametrize(("given", "factor"), [(2.5, 2.5), (-2.5, 1.0), (0.0, 1.0)])
def test_a_negative_display_factor_is_for_paper_space(given, factor):
    assert linear(override={"dimlfac": given}).factor == factor


def test_lines_of_a_dimension_kept_as_a_block_are_the_dimensions():
    doc = blank()
    doc.blocks.new("*D77").add_line((0, 0), (5, 0))
    doc.modelspace().add_blockref("*D77", (0, 0))
    (source,) = read_back(doc).segments.sources
    assert source.owner == "DIMENSION"


def test_a_leader_joins_its_tip_with_the_text_at_its_end():
    def draw(m):
        m.add_leader([(10, 17), (15, 25), (20, 25)])
        m.add_mtext("%%c34 h11", dxfattribs={"insert": (21, 26), "char_height": 2.5})
        m.add_mtext("far away", dxfattribs={"insert": (121, 26), "char_height": 2.5})

    dimension = one(draw)
    assert (dimension.kind, dimension.text, dimension.points[0]) == ("leader", "Ø34 h11", (10.0, 17.0))


def test_a_leader_with_no_text_near_is_none():
    sheet = drawn(lambda m: (m.add_leader([(0, 0), (5, 5)]), m.add_text("far", height=1).set_placement((50, 50))))
    assert sheet.dimensions == ()


def test_a_leader_left_of_a_long_text_reaches_its_far_end():
    def draw(m):
        m.add_leader([(60, 0), (55, 10)])
        m.add_text("GROOVE DIA 34", height=3).set_placement((25, 10))

    assert one(draw).text == "GROOVE DIA 34"


def test_a_multileader_carries_its_text():
    def draw(m):
        builder = m.add_multileader_mtext("Standard")
        builder.set_content("%%c34 h11")
        builder.add_leader_line(ConnectionSide.left, [(10, 17)])
        builder.build(insert=Vec2(20, 25))

    (dimension,) = drawn(draw).dimensions
    assert (dimension.kind, dimension.text) == ("leader", "Ø34 h11")
    assert dimension.points[0] == pytest.approx((10, 17))


@pytest.mark.parametrize(
    ("picture", "text"),
    [
        ("3.5", "3.5"),
        ("Ø3,5 h11", "Ø3,5 h11"),
        ("13", None),
        ("13.00 +0.1", None),
        ("12.99", "12.99"),
        ("", None),
        ("13 3/64", None),
        ("13 1/16", "13 1/16"),
        ('12 31/32"', None),
        ('12 15/16"', '12 15/16"'),
        ("{\\H0.7x;\\S1#4;}", "1/4"),
        ("33/64", None),
        ("1/8", "1/8"),
        ("1'-1/2\"", None),
    ],
)
def test_the_number_in_its_picture_is_what_everybody_reads(picture, text):
    """Where it is no rounding of the 13 measured: 33/64 inch are 13.1 mm; feet are left alone."""
    assert pictured(picture) == text


@pytest.mark.parametrize(("measured", "text"), [(13.049, None), (13.051, "13")])
def test_a_picture_may_round_by_half_a_tenth(measured, text):
    assert pictured("13", measured) == text


def pictured(picture, size=13):
    """The text of a linear dimension whose own block shows another."""

    def draw(m):
        dimension = m.add_linear_dim(base=(0, 20), p1=(0, 0), p2=(size, 0), **STANDARD).render().dimension
        for shown in dimension.get_geometry_block().query("MTEXT TEXT"):
            dimension.get_geometry_block().delete_entity(shown)
        dimension.get_geometry_block().add_mtext(picture, dxfattribs={"char_height": 2.5})

    return one(draw).text


def with_loose(words, text="<>", angle=0.0, off=(2.2, -0.4), height=1.8, **override):
    """A linear dimension of 13 with texts over one another behind its number, and the texts that are left."""

    def draw(m):
        override.update(dimlfac=1, dimtxt=2.5)
        dim = m.add_linear_dim(base=(0, 20), p1=(0, 0), p2=(13, 13), angle=angle, text=text, override=override)
        dim.render()
        (label,) = (e for e in dim.dimension.get_geometry_block() if e.dxftype() == "MTEXT")
        for k, word in enumerate(words):
            away = Vec2(off[0], off[1] - 2 * k + 1.2).rotate(math.radians(angle))
            place = Vec2(label.dxf.insert) + away
            m.add_text(word, height=height, dxfattribs={"rotation": angle}).set_placement(place)

    sheet = drawn(draw)
    return sheet.dimensions[0], [t.text for t in sheet.texts]


@pytest.mark.parametrize("angle", [0.0, 90.0])
@pytest.mark.parametrize(
    ("words", "text", "printed"),
    [
        (["+0.1", "0"], "<>", "<> +0.1^0"),
        (["-0,05", "-0,15"], "<>", "<> -0,05^-0,15"),
        (["+0.1", "0"], "13", "13 +0.1^0"),
        (["+0.1", "0"], "<> H13", "<> H13 +0.1^0"),
        (["P9"], "<>", "<> P9"),
        (["%%p0.1"], "<>", "<> \u00b10.1"),
    ],
)
def test_deviations_as_texts_behind_the_number_of_a_dimension_are_its_own(angle, words, text, printed):
    off = (6.5, -0.4) if "H13" in text else (2.2, -0.4)
    dimension, left = with_loose(words, text, angle, off)
    assert (dimension.text, left) == (printed, [])
    assert dimension.shown == printed.replace("<>", "13")


@pytest.mark.parametrize(
    ("words", "text", "more"),
    [
        (["0.1", "0.2"], "<>", {}),
        (["+0.1", "0"], "<> WIDE", {}),
        (["+0.1", "0"], "<>", {"off": (12.0, -0.4)}),
        (["+0.1", "0"], "<>", {"height": 3.0}),
        (["+0.1", "0"], "<>", {"dimtol": 1, "dimtp": 0.1, "dimtm": 0.2, "dimtfac": 0.5}),
    ],
    ids=["no sign", "words", "far off", "larger", "a tolerance of its own"],
)
def test_other_texts_beside_the_number_of_a_dimension_stay_where_they_are(words, text, more):
    dimension, left = with_loose(words, text, **more)
    assert (dimension.text, left) == (None if text == "<>" else text, words)
