"""Each refusal, end to end: the drawing gets no program, and one sentence says what, where and what to do.

A row is a drawing, the settings it is made with, the code of the stop, and words that its sentence must have.
"""

import json
import re
from dataclasses import dataclass, field, replace

import ezdxf
import pytest
from support.drawings import draw_ring
from support.forms import make_drawing

from extractor.finding import Finding, Level, accept
from extractor.part import ReadOptions
from rillwright.codes import REGISTER
from rillwright.settings import Settings

ONE_TOOL = 'units = "mm"\n[[tools]]\nstation = 3\nwidth = {width}\ncorner_radius = {radius}\nmax_depth = {reach}\n'


def shop(width=3.0, radius=0.2, reach=12.0, machine=""):
    """Settings with a shop of one insert."""
    text = ONE_TOOL.format(width=width, radius=radius, reach=reach)
    return Settings(shop_text=text + f"[machine]\n{machine}\n")


def ring(*grooves, **more):
    """A drawing of a ring with these grooves."""
    return lambda path: draw_ring(path, grooves or ((-10, -13, 34),), **more)


def raw(data):
    """A file of these bytes."""
    return lambda path: path.write_bytes(data)


def of_entities(draw, insunits=4):
    """A drawing whose model space is filled by `draw`."""

    def make(path):
        doc = ezdxf.new("R2010", setup=True)
        doc.header["$INSUNITS"] = insunits
        draw(doc.modelspace())
        doc.saveas(path)

    return make


def rounded(radius):
    """A ring whose one groove has floor corners of a radius."""
    bulge = -(2**0.5 - 1)

    def draw(msp):
        r = radius
        floor = [(-10, 17 + r, bulge), (-10 - r, 17, 0), (-13 + r, 17, bulge), (-13, 17 + r, 0)]
        points = [(0, 0, 0), (0, 20, 0), (-10, 20, 0), *floor, (-13, 20, 0), (-60, 20, 0), (-60, 0, 0)]
        msp.add_lwpolyline(points, format="xyb")
        msp.add_line((5, 0), (-65, 0), dxfattribs={"linetype": "CENTER"})

    return draw


def open_outline(msp):
    """A half profile with a gap too wide to be sloppiness."""
    msp.add_lwpolyline([(0, 0), (0, 20), (-10, 20), (-10, 17), (-13, 17), (-13, 20), (-30, 20)])
    msp.add_lwpolyline([(-30.8, 20), (-60, 20), (-60, 0)])
    msp.add_line((5, 0), (-65, 0), dxfattribs={"linetype": "CENTER"})


def half(msp, x, y, floor):
    """A half profile with one groove at a place on the sheet."""
    points = [(0, 0), (0, 20), (-10, 20), (-10, floor), (-13, floor), (-13, 20), (-60, 20), (-60, 0)]
    msp.add_lwpolyline([(x + px, y + py) for px, py in points])
    msp.add_line((x + 5, y), (x - 65, y), dxfattribs={"linetype": "CENTER"})


def two_parts(msp):
    """Two different parts on one sheet."""
    half(msp, 0, 0, 17)
    half(msp, 0, 100, 15)


def contradiction(msp):
    """A ring whose length is dimensioned with another number than it has."""
    half(msp, 0, 0, 17)
    dim = msp.add_linear_dim(base=(-30, 40), p1=(0, 20), p2=(-60, 20), text="65", dimstyle="EZDXF")
    dim.render()


def at_odds(msp):
    """A ring whose groove lies 10.1 or more and ends 13.0 or less behind the face, and is wider than 2.9."""
    half(msp, 0, 0, 17)
    sizes = [(40, (0, 20), (-10, 20), "10 +0.2/+0.1"), (46, (0, 20), (-13, 20), "13 0/-0.1")]
    for base, p1, p2, text in (*sizes, (34, (-10, 20), (-13, 20), "3 +0.1/0")):
        msp.add_linear_dim(base=(-5, base), p1=p1, p2=p2, text=text, dimstyle="EZDXF").render()


def steps(msp):
    """A shaft of two steps with its centre line, and nothing to groove."""
    up = [(0, 10), (-20, 10), (-20, 15), (-60, 15)]
    msp.add_lwpolyline([*up, *((x, -y) for x, y in reversed(up))], close=True)
    msp.add_line((-20, 10), (-20, -10))
    msp.add_line((5, 0), (-65, 0), dxfattribs={"linetype": "CENTER"})


def plate(msp):
    """A plate with holes, drawn from above: nothing says that it is turned."""
    msp.add_lwpolyline([(0, 0), (80, 0), (80, 35), (55, 50), (0, 50)], close=True)
    for x, y in ((10, 10), (60, 12), (20, 37)):
        msp.add_circle((x, y), 4)


def solid(msp):
    """A mesh and nothing else."""
    mesh = msp.add_mesh()
    with mesh.edit_data() as data:
        data.vertices = [(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)]
        data.faces = [(0, 1, 2), (0, 1, 3)]


@dataclass
class Case:
    """One refusal."""

    name: str
    draw: object
    code: str
    words: str
    settings: Settings = field(default_factory=Settings)


CASES = [
    Case("a letter", raw(b"Dear setter,\nplease make ten of these.\n"), "drawing-unreadable", "not a DXF|no DXF"),
    Case("an empty file", raw(b""), "drawing-unreadable", "empty"),
    Case("another format", raw(b"AC1027\0\0\0\0\0\0" * 50), "drawing-unreadable", "DWG|save"),
    Case("an empty sheet", of_entities(lambda msp: None), "no-outline", "no visible lines"),
    Case("a solid body", of_entities(solid), "three-d-only", "MESH.*2D view"),
    Case("a plate", of_entities(plate), "no-turned-part", "symmetric"),
    Case("no unit anywhere", ring(insunits=0), "units-unknown", "40 mm.*40 in.*--units"),
    Case("an open outline", of_entities(open_outline), "outline-open|no-turned-part", "open|gap|closed"),
    Case("two parts", of_entities(two_parts), "several-parts", "--at"),
    Case("a number that contradicts the lines", of_entities(contradiction), "dimension-contradicts", "65.*60|60.*65"),
    Case("a front that the view can't have", ring(), "front-impossible", "top", Settings(ReadOptions(front="top"))),
    Case("steps alone", of_entities(steps), "no-grooves", "no groove"),
    Case("no groove", lambda path: draw_ring(path, ()), "not-turned", "plain rectangle.*nothing is grooved in it"),
    Case("narrower than every insert", ring((-10, -10.3, 34)), "groove-too-narrow", r"0\.3.*insert.*needed"),
    Case("deeper than the insert reaches", ring(), "groove-too-deep", r"reach.*3\.000", shop(reach=2.0)),
    Case("sharper than the insert", of_entities(rounded(0.2)), "corner-too-sharp", r"0\.2.*0\.4", shop(radius=0.4)),
    Case("the jaws in the way", ring((-30, -33, 34)), "jaws", r"stick", shop(machine="stick_out = 32.0")),
    Case("places at odds", of_entities(at_odds), "places-contradict", "can't be kept together"),
]


def made(case, folder):
    """The record of a case."""
    path = folder / "ring.dxf"
    case.draw(path)
    return make_drawing(path, folder / "out", case.settings)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_each_refusal_says_why(case, tmp_path):
    record = made(case, tmp_path)
    assert record["status"] == "refused"
    assert not list((tmp_path / "out").glob("*.nc*"))
    stops = [one for one in record["findings"] if one["level"] == "stop"]
    codes = case.code.split("|")
    assert any(one["code"] in codes for one in stops), stops
    sentences = " ".join(one["message"] for one in stops if one["code"] in codes)
    assert re.search(case.words, sentences), sentences
    for one in stops:
        assert one["message"].isprintable()
        assert one["message"].endswith(".")
    sheet = (tmp_path / "out" / "ring.html").read_text("utf-8")
    assert json.loads((tmp_path / "out" / "ring.json").read_text())["status"] == "refused"
    assert "ring.dxf" in sheet


def test_the_same_ring_without_any_of_that_is_made(tmp_path):
    assert made(Case("right", ring(), "", "", shop()), tmp_path)["status"] == "made"


@pytest.mark.parametrize(
    ("draw", "options"),
    [
        (ring(insunits=0), ReadOptions(units="mm")),
        (of_entities(two_parts), ReadOptions(at=(-30.0, 110.0))),
        (of_entities(contradiction), ReadOptions(accept=frozenset({"dimension-contradicts"}))),
    ],
    ids=["units", "at", "accept"],
)
def test_what_the_user_answers_for_is_made(draw, options, tmp_path):
    record = made(Case("answered", draw, "", "", Settings(options)), tmp_path)
    assert record["status"] == "made", record["findings"]


NO_PART = [
    "an empty sheet",
    "a solid body",
    "a plate",
    "an open outline",
    "two parts",
    "a front that the view can't have",
]


@pytest.mark.parametrize("case", [case for case in CASES if case.name in NO_PART], ids=lambda case: case.name)
def test_a_stop_without_a_part_can_not_be_accepted_and_says_so(case, tmp_path):
    options = replace(case.settings.options, accept=frozenset(REGISTER))
    record = made(replace(case, settings=replace(case.settings, options=options)), tmp_path)
    assert record["status"] == "refused"
    stops = [one for one in record["findings"] if one["level"] == "stop"]
    assert stops
    assert all("It can't be accepted" in one["message"] for one in stops)
    assert "It can't be accepted" in (tmp_path / "out" / "ring.html").read_text("utf-8").replace("&#39;", "'")


def test_the_option_that_answers_is_named_where_accepting_does_not():
    answered = {"two parts": "--at X,Y", "a front that the view can't have": "--front", "no unit anywhere": "--units"}
    for name, option in answered.items():
        case = next(case for case in CASES if case.name == name)
        code = REGISTER[case.code]
        (told,) = accept([Finding(Level.STOP, code, "It stops.")], [case.code])
        assert told.message == f"It stops. It can't be accepted; answer it with {option}."


@pytest.mark.parametrize("code", ["jaws", "groove-too-narrow", "no-grooves"])
def test_a_stop_of_the_plan_that_can_not_be_accepted_says_so(code, tmp_path):
    case = next(case for case in CASES if case.code == code)
    options = replace(case.settings.options, accept=frozenset(REGISTER))
    record = made(replace(case, settings=replace(case.settings, options=options)), tmp_path)
    assert record["status"] == "refused"
    (stop,) = [one for one in record["findings"] if one["code"] == code]
    assert stop["level"] == "stop"
    assert stop["message"].endswith("It can't be accepted.") is (code != "no-grooves")


def test_what_was_accepted_stays_in_sight(tmp_path):
    options = ReadOptions(accept=frozenset({"dimension-contradicts"}))
    record = made(Case("accepted", of_entities(contradiction), "", "", Settings(options)), tmp_path)
    (caution,) = [one for one in record["findings"] if one["code"] == "dimension-contradicts"]
    assert caution["level"] == "caution"
    assert "Accepted by the user" in caution["message"]
    assert "Accepted by the user" in (tmp_path / "out" / "ring.html").read_text("utf-8")
