"""Laws that hold for every sample in every dialect; a new sample or dialect is held to them by being there."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from support.drawings import SAMPLES
from support.forms import make_drawing
from support.programs import run_of

from extractor import read_drawing
from extractor.places import with_distances
from planner import default_shop, group_grooves, plan_part
from planner.steps import Cut, GrooveCycle, Rapid
from postproc import compare_program, dialects, guess_dialect, lower, parse_program, write_program
from postproc.program import Heading
from rillwright.settings import Settings

NOW = datetime(2031, 5, 6, tzinfo=UTC)

every_sample = pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
# One of each cycle form and one with other words; tests/postproc/test_14_conformance.py has every step in all of them.
DIALECTS = ("two-block", "one-block", "plunge", "two-block-iso")


def planned(part, name):
    """The plan of a part for a dialect, and the program's text."""
    shop = default_shop(part.units)
    shop = replace(shop, machine=replace(shop.machine, dialect=name))
    plan = plan_part(part, shop)
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    return plan, write_program(plan, dialects()[name], Heading("part.dxf", "00" * 32)).text


@every_sample
def test_a_program_has_its_steps_makes_the_drawing_and_tells_its_dialect(path):
    part = read_drawing(path).part
    for name in DIALECTS:
        plan, text = planned(part, name)
        dialect = dialects()[name]
        run = run_of(text, dialect, part.units)
        assert (run.steps, run.findings, run.ended) == (lower(plan.steps, dialect), (), True), name
        verdict = compare_program(part, text, plan.shop, dialect)
        assert verdict.agree, verdict
        guessed = guess_dialect(parse_program(text))
        assert guessed is None or run_of(text, guessed, part.units).steps == run.steps


@every_sample
def test_make_makes_it_twice_with_the_same_bytes(path, tmp_path):
    """Once in one dialect: tests/test_92_golden.py holds the programs of the others to the byte."""
    for out in ("a", "b"):
        record = make_drawing(path, tmp_path / out, Settings(dialect="two-block"), NOW)
        assert record["status"] == "made", record["findings"]
    for ending in ("nc", "html", "json"):
        file = f"{path.stem}.{ending}"
        assert (tmp_path / "a" / file).read_bytes() == (tmp_path / "b" / file).read_bytes()
    assert (tmp_path / "a" / f"{path.stem}.nc").read_bytes().isascii()


@every_sample
def test_the_record_holds_the_sets_that_read_shows(path, tmp_path):
    part = read_drawing(path).part
    expected = [{"grooves": list(s.grooves), "count": s.count, "pitch": s.pitch} for s in group_grooves(part)]
    assert make_drawing(path, tmp_path, Settings(), NOW)["part"]["sets"] == expected


def moved(part, by):
    """The part with everything from its first groove on moved toward the chuck, the land before it longer."""
    first = part.grooves[0]
    edge = first.z_near + first.edge_chamfer
    shift = [(z - by if z <= edge + 1e-9 else z, radius) for z, radius in part.outline]
    lands = [(z - by if z <= edge + 1e-9 else z, radius) for z, radius in part.lands]
    grooves = tuple(replace(g, z_near=g.z_near - by, z_far=g.z_far - by) for g in part.grooves)
    bore = part.bore and tuple((z - by if z < 0 else z, radius) for z, radius in part.bore)
    new = replace(part, length=part.length + by, outline=tuple(shift), lands=tuple(lands), grooves=grooves, bore=bore)
    # What is printed from the front face is printed longer; from the back, and from groove to groove, it stays.
    longer = [replace(d, nominal=d.nominal + by) if d.start.spot == "front" else d for d in part.distances]
    return with_distances(new, longer)


def axial(step):
    return getattr(step, "end_z", getattr(step, "z", None))


@every_sample
def test_moving_all_grooves_moves_every_z_alike_and_no_x(path):
    part = read_drawing(path).part
    plan, _ = planned(part, "two-block")
    by = 5.0 if part.units == "mm" else 0.2
    other = plan_part(moved(part, by), plan.shop)
    count = plan.increments.count(by)
    assert len(other.operations) == len(plan.operations)
    for was, now in zip(plan.operations, other.operations, strict=True):
        assert (now.tool, now.form, now.start_x) == (was.tool, was.form, was.start_x)
        assert now.start_z == was.start_z - count
        for before, after in zip(was.steps, now.steps, strict=True):
            if isinstance(before, Rapid | Cut | GrooveCycle) and axial(before) is not None and axial(before) < 0:
                place = "end_z" if isinstance(before, GrooveCycle) else "z"
                before = replace(before, **{place: axial(before) - count})
            assert after == before
