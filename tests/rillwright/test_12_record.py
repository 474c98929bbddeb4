"""The record as a value: it comes back from its file as it was made, and an incomplete one is one plain error."""

import copy
import hashlib
import json
import math

import pytest
from hypothesis import given, settings
from support.drawings import SAMPLES, draw_ring
from support.forms import form, typed
from support.jobs import odd_jobs
from support.parts import part_of, row
from support.records import made, refused
from support.worked_out import every_side, worked_out

from extractor.codes import DrawingCode
from extractor.errors import SettingsError
from extractor.finding import Finding, Level
from extractor.part import ReadOptions
from postproc import compare_program, find_dialect
from rillwright.job import make_drawing
from rillwright.jobsheet.sheet import render_sheet
from rillwright.planned import PlannedRecord, planned, planned_record
from rillwright.questions import read_and_ask
from rillwright.records.jsonform import FormError, from_json
from rillwright.records.record import Record, Verification
from rillwright.records.record_file import read_record, record_in
from rillwright.records.record_part import RecordedPart
from rillwright.records.recording import verification
from rillwright.settings import Settings

FROM_LEFT = Settings(ReadOptions(front="left", at=(-20.0, 5.0), accept=frozenset({"overhang", "jaws"})))


@pytest.fixture(scope="module")
def record():
    """A small record with everything in it that a program made can have."""
    found, text = worked_out(
        part_of([(-10, -13, 24, {"where": "inside"}), (-20, -23, 34)], bore=20), "two-block", every_side()
    )
    assert text is not None, found["findings"]
    found["path"]["moves"] = found["path"]["moves"][:2]
    return found


@pytest.mark.parametrize(("path", "told"), [*((path, Settings()) for path in SAMPLES[::2]), (SAMPLES[1], FROM_LEFT)])
def test_what_make_writes_is_read_back_as_it_was(path, told, tmp_path):
    answer = make_drawing(path, tmp_path, told)
    assert read_record(tmp_path / f"{path.stem}.json") == answer


def test_what_was_answered_and_what_is_asked_are_read_back(tmp_path):
    draw_ring(tmp_path / "ring.dxf", insunits=0)
    asking = make_drawing(tmp_path / "ring.dxf", None, Settings())
    assert any(one.choices for one in asking.findings)
    assert read_record(tmp_path / "ring.json") == asking
    digest = hashlib.sha256((tmp_path / "ring.dxf").read_bytes()).hexdigest()
    said = f'units = "mm"\nat = [-20, 5.0]\naccept = ["jaws"]\ndrawing = "{digest}"\n'
    (tmp_path / "ring.answers.toml").write_text(said)
    answered = make_drawing(tmp_path / "ring.dxf", None, Settings())
    assert {name: one.value for name, one in answered.answers.items()} == {
        "units": "mm", "at": (-20, 5.0), "accept": ("jaws",),
    }  # fmt: skip
    assert read_record(tmp_path / "ring.json") == answered


@given(odd_jobs())
@settings(max_examples=4, deadline=None)
def test_any_record_is_read_back_with_nothing_lost(job):
    found, _ = worked_out(job[0], "plunge", job[1])
    assert form(typed(found)) == found


def test_what_read_plan_and_compare_answer_is_read_back(tmp_path):
    draw_ring(tmp_path / "ring.dxf", grooves=((-10, -13, 34), (-15, -18, 34)))
    asked = read_and_ask(tmp_path / "ring.dxf", Settings())
    assert typed(form(asked.recorded), RecordedPart) == asked.recorded
    would = planned_record(planned(tmp_path / "ring.dxf", Settings()), Settings())
    assert typed(form(would), PlannedRecord) == would
    verdict = verification(
        compare_program(
            asked.reading.part, "%\nG21\nG0 X42. Z-13.\nM30\n%", Settings().shop("mm"), find_dialect("plunge")
        )
    )
    assert not verdict.agree
    assert typed(form(verdict), Verification) == verdict


def refusal_of(document):
    """The sentence by which a document is refused; None where it is read."""
    try:
        record_in(json.dumps(document).encode(), "x.json")
    except SettingsError as error:
        return str(error)
    return None


DAMAGE = [
    (("part", "grooves", 0, "width"), "wide", "part.grooves[0].width is not a number"),
    (("part", "grooves", 0, "width"), math.nan, "part.grooves[0].width is not a number"),
    (("part", "grooves", 0, "width"), True, "part.grooves[0].width is not a number"),
    (("part", "grooves", 0, "where"), "above", "part.grooves[0].where is none of ('outside', 'inside', 'face')"),
    (("part", "grooves", 0, "tolerances"), {"width": [0.1]}, "part.grooves[0].tolerances.width has 1 values for 2"),
    (("part", "grooves"), {}, "part.grooves is not a list"),
    (("part", "sets", 0, "grooves"), [], "part.sets[0] can't be: a set has a groove"),
    (("part", "sets", 0, "count"), 1.5, "part.sets[0].count is not a whole number"),
    (("plan",), [], "plan is not an object"),
    (("verification", "grooves", 0, "state"), "fine", "verification.grooves[0].state is none of ('missing', "),
    (("verification", "agree"), 1, "verification.agree is neither true nor false"),
    (("program",), None, "can't be: a program that was made has a name"),
    (("setup", "tools", 0, "width"), None, "setup.tools[0].width is not a number"),
    (("picture", "lands"), [[0, 1]], "picture can't be: a profile has two points or more"),
    (("path", "moves", 0, 1), 9, "path can't be: a move is of one of the tools"),
    (("made_at",), 7, "made_at is not text"),
]  # fmt: skip


def put(document, path, value):
    """A copy of a document with another value at a place."""
    changed = copy.deepcopy(document)
    place = changed
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    return changed


@pytest.mark.parametrize(("path", "value", "words"), DAMAGE, ids=lambda one: str(one)[:40])
def test_damage_is_told_by_its_place(record, path, value, words):
    assert refusal_of(record) is None
    told = refusal_of(put(record, path, value))
    assert told.startswith(f"x.json is not a complete record: {words}")
    assert told.endswith("; make the drawing again.")


def test_a_key_that_must_be_there_is_missed_by_its_place(record):
    short = copy.deepcopy(record)
    del short["plan"]["operations"][0]["start"]["x"]
    assert "plan.operations[0].start.x is missing" in refusal_of(short)


def places(value, path=()):
    """Every place of a document, of long lists the first two entries."""
    keys = value if isinstance(value, dict) else range(min(len(value), 2)) if isinstance(value, list) else ()
    for key in keys:
        yield (*path, key)
        yield from places(value[key], (*path, key))


@pytest.mark.parametrize("instead", [None, "word", 1e400, [], {}], ids=str)
def test_whatever_stands_anywhere_is_read_or_refused_in_one_sentence(record, instead):
    refused_, read_ = 0, 0
    for whole in (record, refused()):
        for path in list(places(whole)):
            told = refusal_of(put(whole, path, instead))
            refused_, read_ = refused_ + (told is not None), read_ + (told is None)
            assert told is None or (told.startswith("x.json is ") and "\n" not in told and told.endswith(".")), path
    assert refused_ > 50
    assert read_ > 5 or instead == math.inf


NEWER = {
    (): ("run", "answers", "made_at", "tool_version", "settings_sha256", "picture", "path"),
    ("part",): ("front", "ink"),
    ("plan",): ("left_out",),
    ("plan", "operations", 0): ("why", "reference", "insert_width", "feeds", "pecks", "contour", "restarts"),
    ("program",): ("number",),
    ("verification",): ("followed",),
    ("setup",): ("built_in",),
    ("setup", "machine"): ("grip_diameter", "grip_length", "numbers", "number_first", "number_last", "remarks"),
    ("setup", "tools", 0): ("edge_points", "blade_height", "overhang", "edge_life", "holder_near", "holder_far"),
}
"""Keys that earlier versions of the tool did not write, by where they stand."""


def test_an_older_record_is_read_with_what_it_has(record):
    older = copy.deepcopy(record)
    for path, keys in NEWER.items():
        place = older
        for key in path:
            place = place[key]
        for key in keys:
            del place[key]
    found = typed(older)
    assert (found.run, found.picture, found.verification.followed, found.program.number) == (None,) * 4
    assert (found.setup.machine.number_last, found.setup.tools[0].insert.edge_life) == (9999, 0.0)
    page = render_sheet(found)
    assert "Cuts the drawing" not in page
    assert 'id="grooves"' in page


def test_keys_that_nobody_knows_are_passed_over(record):
    later = put(put(record, ("brand_new",), {"a": [1]}), ("part", "grooves", 0, "polish"), "mirror")
    assert typed(later) == typed(record)


def test_the_inserts_own_sense_is_not_taken_from_the_spindles_step(record):
    tool = typed(record).setup.tools[0]
    assert (tool.insert.spindle, tool.spindle.mode) == (None, record["setup"]["tools"][0]["spindle"]["mode"])


def test_a_value_left_out_and_one_that_is_nothing_are_told_apart():
    """By the contract `at` is always there, `line` and `groove` only where the finding has them."""
    part, _ = made(
        part_of(row(1, -10, 5, 3, 34)), [(1,)], findings=[Finding(Level.NOTE, DrawingCode.GAPS_CLOSED, "It is.")]
    )
    (finding,) = form(from_json(Record, part))["findings"]
    assert finding == {"level": "note", "code": "gaps-closed", "message": "It is.", "at": None}


def test_a_form_error_names_its_place_alone():
    with pytest.raises(FormError, match=r"^is not an object$"):
        from_json(Record, [])
