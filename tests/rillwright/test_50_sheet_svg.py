"""SVG by hand: escaped, well formed, and to scale."""

import math
from xml.etree import ElementTree

import ezdxf.math
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rillwright.jobsheet.refusal import arc_points
from rillwright.svg import PictureScale, arrow, dimension, joined, label, line, outline, picture, tag

ANY_TEXT = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"], exclude_characters="￾￿"))


@given(ANY_TEXT, ANY_TEXT)
def test_any_text_comes_back_as_it_was(text, name):
    element = ElementTree.fromstring(tag("text", text, data_name=name))
    assert (element.text or "", element.get("data-name")) == (text, name)


def test_markup_inside_stays_markup_and_text_does_not():
    inner = tag("b", "<i>")
    assert tag("a", inner, "<i>") == "<a><b>&lt;i&gt;</b>&lt;i&gt;</a>"


def test_an_attribute_without_value_is_left_out():
    assert tag("g", class_=None, data_grooves=3) == '<g data-grooves="3"/>'


@pytest.mark.parametrize(("value", "text"), [(1.0, "1"), (1.5, "1.5"), (0.004, "0"), (-2.25, "-2.25"), (7, "7")])
def test_numbers_are_short(value, text):
    assert tag("g", x=value) == f'<g x="{text}"/>'


def test_a_path_through_nothing_is_empty():
    assert outline([]) == ""


def test_a_path_has_no_noughts_at_the_end_of_its_decimals():
    corners = [(100.0, 0.0), (0.05, 10.5), (-0.001, 20), (1000.1, -70.25), (0.004, 0.996)]
    assert outline(corners) == "M100 0L0.05 10.5L-0 20L1000.1 -70.25L0 1"
    assert outline(corners[:2], closed=True) == "M100 0L0.05 10.5Z"


@given(st.lists(st.tuples(st.floats(-1e7, 1e7), st.floats(-1e7, 1e7)), min_size=1))
def test_a_path_has_the_numbers_that_attributes_have(corners):
    shown = [tag("g", x=x, y=y).split('"')[1::2] for x, y in corners]
    assert outline(corners) == "M" + "L".join(" ".join(pair) for pair in shown)


def test_a_picture_is_one_well_formed_element_with_a_name():
    made = picture(100, 50, 'a "part"', line((0, 0), (1, 1), "l"), label((1, 2), "<"), id="p")
    root = ElementTree.fromstring(made)
    assert root.get("viewBox") == "0 0 100 50"
    assert root.get("aria-label") == 'a "part"'
    assert [child.tag.split("}")[1] for child in root] == ["line", "text"]


@given(st.floats(-500, 0), st.floats(0, 300), st.floats(0.1, 50))
def test_both_axes_have_one_scale(z, radius, scale):
    view = PictureScale(scale, 10.0, 20.0)
    x, y = view.dot(z, radius)
    assert x - view.x(0) == pytest.approx(z * scale)
    assert view.y(0) - y == pytest.approx(radius * scale)


def test_a_view_turned_inside_out_is_refused():
    with pytest.raises(ValueError, match="positive"):
        PictureScale(0.0, 0.0, 0.0)


@pytest.mark.parametrize("length", [0.0, 5.0, 200.0])
def test_a_dimension_shows_its_text_and_two_heads_at_any_length(length):
    root = ElementTree.fromstring(dimension((0, 0), (length, 0), "7.5"))
    assert root.find("text").text == "7.5"
    assert len([p for p in root.iter("path") if p.get("class") == "dim-head"]) == 2


def test_an_arrow_touches_what_it_points_at():
    assert arrow((3, 4), (13, 4)).startswith('<path d="M3 4L')


def test_several_elements_in_a_row():
    assert joined([tag("a"), tag("b")]) == "<a/><b/>"


@given(st.floats(-4, 4).filter(lambda b: abs(b) > 0.01))
def test_arcs_agree_with_the_dxf_library(bulge):
    """Source: ezdxf.math.bulge_to_arc, a general DXF library."""
    centre, _, _, radius = ezdxf.math.bulge_to_arc((1, 2), (4, 6), bulge)
    points = arc_points([1, 2, 4, 6, bulge])
    assert points[0] == (1, 2)
    assert points[-1] == (4, 6)
    for x, y in points:
        assert math.dist((x, y), centre) == pytest.approx(radius, rel=1e-6)
    bow = math.dist(points[len(points) // 2], (2.5, 4))
    assert bow == pytest.approx(abs(bulge) * 2.5, rel=1e-6)


def test_a_straight_segment_is_its_ends():
    assert arc_points([1, 2, 4, 6, 0.0]) == [(1, 2), (4, 6)]
