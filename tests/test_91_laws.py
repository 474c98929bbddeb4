"""Laws that hold for every sample in every dialect; a new sample or dialect is held to them by being there."""

from dataclasses import replace
from datetime import UTC, datetime
from functools import cache

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
every_dialect = pytest.mark.parametrize("name", ["two-block", "one-block", "plunge", "two-block-iso"])


@cache
def planned(path, name):
    """Part and plan of a sample for a dialect, and the program's text."""
    part = read_drawing(path).part
    shop = default_shop(part.units)
    shop = replace(shop, machine=replace(shop.machine, dialect=name))
    plan = plan_part(part, shop)
    assert not plan.stopped, [f.message for f in plan.findings if f.stops]
    return part, plan, write_program(plan, dialects()[name], Heading(path.name, "00" * 32)).text


@every_sample
@every_dialect
def test_a_program_read_back_has_the_steps_that_were_written(path, name):
    part, plan, text = planned(path, name)
    dialect = dialects()[name]
    run = run_of(text, dialect, part.units)
    assert run.steps == lower(plan.steps, dialect)
    assert not run.findings
    assert run.ended


@every_sample
@every_dialect
def test_the_program_makes_the_drawing(path, name):
    part, plan, text = planned(path, name)
    verdict = compare_program(part, text, plan.shop, dialects()[name])
    assert verdict.agree, verdict


@every_sample
@every_dialect
def test_the_dialect_is_told_from_the_program_alone(path, name):
    part, plan, text = planned(path, name)
    guessed = guess_dialect(parse_program(text))
    if guessed is not None:
        assert run_of(text, guessed, part.units).steps == lower(plan.steps, dialects()[name])


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
    part, plan, _ = planned(path, "two-block")
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
