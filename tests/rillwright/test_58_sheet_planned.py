"""Sheets of what the rooms really plan, write and verify: random parts in every dialect, outside and inside."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.forms import typed
from support.parts import part_of, row
from support.worked_out import every_side, worked_out

from planner import parse_shop
from rillwright.jobsheet import view
from rillwright.jobsheet.index import render_index
from rillwright.jobsheet.scene import scene_of
from rillwright.jobsheet.sheet import render_sheet
from rillwright.jobsheet.stage import stage_of
from rillwright.jobsheet.stops import stepping

DIALECTS = ["two-block", "one-block", "plunge"]


@st.composite
def parts(draw):
    """A stepped bar with a row of grooves, now and then with a bore and a groove in it."""
    count, width = draw(st.integers(1, 6)), draw(st.sampled_from([2.0, 3.0, 4.0, 5.5]))
    pitch = width + draw(st.sampled_from([1.5, 3.0, 6.25]))
    spots = row(count, first=-6, pitch=pitch, width=width, floor=draw(st.sampled_from([30.0, 34.0, 37.5])))
    bore = draw(st.sampled_from([None, 20.0]))
    if bore and draw(st.booleans()):
        spots.append((-7, -10, 24, {"where": "inside"}))
    length = 20 + count * pitch
    steps = [(0, 40), (-length + 8, draw(st.sampled_from([40, 46])))]
    return part_of(spots, length=length, steps=steps, bore=bore)


@settings(max_examples=10, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(parts(), st.sampled_from(DIALECTS))
def test_any_planned_part_gets_a_sheet_that_steps_through_all_its_moves(part, dialect):
    record, text = worked_out(part, dialect)
    page = render_sheet(typed(record), text)
    assert page.count('class="groove ') == len(part.grooves)
    assert "</html>" in render_index([("part", typed(record))])
    if text is None:
        assert "No program" in page
        return
    scene = scene_of(typed(record))
    data = stepping(typed(record), scene, stage_of(scene), text)
    assert all(data["tools"][m[1]] for m in data["moves"] if m[2])
    assert data["stops"][-1][1] == len(data["moves"]) == len(record["path"]["moves"])
    said = [line for line, _ in data["stops"]]
    assert said == sorted(said)
    assert {m[0] for m in data["moves"]} <= set(said)


@pytest.mark.parametrize("dialect", DIALECTS)
def test_lines_that_cut_a_groove_are_listed_with_it(dialect):
    record, text = worked_out(part_of(row(3, first=-10, pitch=8, width=3, floor=34)), dialect)
    scene = scene_of(typed(record))
    lines = text.splitlines()
    for recess in scene.recesses:
        assert recess.lines
        assert all(lines[n - 1].startswith(("G75", "G01", "X")) for n in recess.lines)


def test_a_close_up_says_start_clearance_width_and_floor():
    spots = [*row(2, first=-10, pitch=8, width=3, floor=34), (-10, -13, 26, {"where": "inside"})]
    record, text = worked_out(part_of(spots, bore=20), "two-block")
    page = render_sheet(typed(record), text)
    assert "number O0001, dialect two-block" in page
    for operation in record["plan"]["operations"]:
        assert f"start X{operation['start']['x']:.3f}" in page
    assert page.count('class="detail"') == len(record["plan"]["operations"]) == 2
    assert page.count("clear 1.000") == 2
    assert "floor ⌀34.000" in page
    assert "floor ⌀26.000" in page


def test_a_face_tool_is_set_by_its_inner_edge_along_x():
    face = {"where": "face", "mouth_diameter": 38.0}
    record, text = worked_out(part_of([(0, -4, 30, face), (-12, -15, 52)], diameter=60), "two-block", every_side())
    page = render_sheet(typed(record), text)
    assert "X set to the inner edge" in page
    assert "this edge, toward the axis" in page
    assert "outer ⌀38.000" in page
    assert "inner ⌀30.000" in page
    assert "depth 4.000" in page


FINISHING = 'units = "mm"\n[[tools]]\nstation = 2\nwidth = 3.0\ncorner_radius = 0.2\nmax_depth = 10.0\n'


@pytest.mark.parametrize(
    ("spot", "shop", "forms"),
    [
        ((-10, -13, 30), FINISHING, {"single plunges"}),
        ((-10, -18, 30), FINISHING, {"grooving cycle"}),
        ((-10, -18, 30), FINISHING + "finish = 0.2\n", {"grooving cycle and contour pass"}),
        ((-10, -18, 30, {"corner_radius": 1.5}), FINISHING, {"grooving cycle and contour pass"}),
    ],
)
def test_an_operation_says_whether_it_goes_along_the_line(spot, shop, forms):
    record, text = worked_out(part_of([spot]), "two-block", parse_shop(shop, "s", "mm"))
    assert text is not None, record["findings"]
    assert {row["form"] for row in view.operation_rows(typed(record))} == forms
    assert ("G02" in text or "G03" in text) == ("corner_radius" in str(spot))


def test_a_face_groove_is_finished_along_the_radius():
    shop = FINISHING + 'where = "face"\nface_min = 20\nface_max = 100\n'
    spot = (0, -4, 24, {"where": "face", "mouth_diameter": 36.0})
    for finish, forms in (("", {"single plunges"}), ("finish = 0.2\n", {"single plunges and contour pass"})):
        record, text = worked_out(part_of([spot]), "plunge", parse_shop(shop + finish, "s", "mm"))
        assert text is not None, record["findings"]
        assert {row["form"] for row in view.operation_rows(typed(record))} == forms
