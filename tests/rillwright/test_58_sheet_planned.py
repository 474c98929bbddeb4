"""Sheets of what the rooms really plan, write and verify: random parts in every dialect, outside and inside."""

import json
from datetime import UTC, datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.parts import part_of, row

from extractor.part import Reading
from planner import default_shop, plan_part
from postproc import compare_program, find_dialect, interpret, parse_program, write_program
from postproc.program import Heading
from rillwright.outcome import Outcome
from rillwright.record import record_json
from rillwright.settings import Settings
from rillwright.sheet import render_sheet
from rillwright.sheet_index import render_index
from rillwright.sheet_scene import scene_of
from rillwright.sheet_stage import stage_of
from rillwright.sheet_stops import stepping

DIALECTS = ["two-block", "one-block", "plunge"]


def worked_out(part, name):
    """The record of a part as `make` would write it, by way of JSON, and the program's text."""
    shop, dialect = default_shop(part.units), find_dialect(name)
    plan = plan_part(part, shop)
    reading = Reading("part.dxf", "0" * 64, part.units, part)
    if plan.stopped:
        outcome, text = Outcome(reading, plan.sets, plan, findings=plan.findings), None
    else:
        program = write_program(plan, dialect, Heading("part.dxf", "0" * 64))
        verdict = compare_program(part, program.text, shop, dialect)
        motions = interpret(parse_program(program.text), dialect, part.units).motions
        outcome, text = Outcome(reading, plan.sets, plan, program, verdict, motions, plan.findings), program.text
    record = record_json(outcome, Settings(), "part.nc", datetime(2031, 3, 4, tzinfo=UTC))
    return json.loads(json.dumps(record)), text


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


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(parts(), st.sampled_from(DIALECTS))
def test_any_planned_part_gets_a_sheet_that_steps_through_all_its_moves(part, dialect):
    record, text = worked_out(part, dialect)
    page = render_sheet(record, text)
    assert page.count('class="groove ') == len(part.grooves)
    assert "</html>" in render_index([("part", record)])
    if text is None:
        assert "No program" in page
        return
    scene = scene_of(record)
    data = stepping(record, scene, stage_of(scene), text)
    assert all(data["tools"][m[1]] for m in data["moves"] if m[2])
    assert data["stops"][-1][1] == len(data["moves"]) == len(record["path"]["moves"])
    said = [line for line, _ in data["stops"]]
    assert said == sorted(said)
    assert {m[0] for m in data["moves"]} <= set(said)


@pytest.mark.parametrize("dialect", DIALECTS)
def test_lines_that_cut_a_groove_are_listed_with_it(dialect):
    record, text = worked_out(part_of(row(3, first=-10, pitch=8, width=3, floor=34)), dialect)
    scene = scene_of(record)
    lines = text.splitlines()
    for recess in scene.recesses:
        assert recess.lines
        assert all(lines[n - 1].startswith(("G75", "G01", "X")) for n in recess.lines)


def test_a_close_up_says_start_clearance_width_and_floor():
    spots = [*row(2, first=-10, pitch=8, width=3, floor=34), (-10, -13, 26, {"where": "inside"})]
    record, text = worked_out(part_of(spots, bore=20), "two-block")
    page = render_sheet(record, text)
    for operation in record["plan"]["operations"]:
        assert f"start X{operation['start']['x']:.3f}" in page
    assert page.count('class="detail"') == len(record["plan"]["operations"]) == 2
    assert page.count("clear 1.000") == 2
    assert "floor ⌀34.000" in page
    assert "floor ⌀26.000" in page
