"""Answers files: what they may say, whose they are, what comes first, and what comes of them."""

import base64
import json
import os
import re
import time
from dataclasses import replace

import ezdxf
import pytest
from support.door import run
from support.draw import Cut, Turned, full_outline, mixed, shaft, sheet_of, shifted, side_view, write_dxf
from support.forms import make_drawing
from support.inboxes import watch_once

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import ReadOptions
from extractor.reading import read_sheet
from planner.codes import PlanCode
from rillwright import job
from rillwright.allowance import Allowance
from rillwright.answers import MOST_BYTES, answered, beside, load, written
from rillwright.digest import file_digest
from rillwright.questions import Offer, Question, questions, with_choices
from rillwright.records.record_part import RecordedFinding
from rillwright.settings import AnswerFile, Settings

SHA = "0" * 64


def said(text, *, name="ring.answers.toml", sha=SHA, settings=None):
    """What one answers file comes to."""
    return answered(replace(settings or Settings(), answers=(AnswerFile(name, text),)), sha)


def codes(found, level="stop"):
    return [str(f.code) for f in found.findings if f.level == level]


@pytest.fixture
def unitless(tmp_path):
    """A drawing that doesn't say its units."""
    part = Turned(((60.0, 40.0),), tuple(Cut(-10.0 - 8 * k, 3.0, 34.0) for k in range(3)))
    path = write_dxf(side_view(part), tmp_path / "ring.dxf")
    doc = ezdxf.readfile(path)
    doc.header["$INSUNITS"] = 0
    doc.saveas(path)
    return path


def test_what_is_written_is_read():
    told = {"units": "in", "front": "left", "grooved": True, "at": (1.5, -2), "scale": 2, "accept": ["assembly"]}
    found = said(written(told, SHA))
    assert found.findings == ()
    wanted = ReadOptions("in", "left", (1.5, -2.0), 2.0, frozenset({"assembly"}), True, frozenset(told))
    assert found.settings.options == wanted
    assert found.told["front"] == ("left", "ring.answers.toml")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("unit = 'mm'\n", "unit is not a key, units is"),
        ("units = 'cm'\n", 'units must be "mm" or "in"'),
        ("front = 1\n", 'front must be "right", "left", "top" or "bottom"'),
        ("grooved = 1\n", "grooved must be true or false"),
        ("at = [1]\n", "at must be [X, Y] as on the sheet"),
        ("at = [1, inf]\n", "at must be [X, Y] as on the sheet"),
        ("at = [true, 2]\n", "at must be [X, Y] as on the sheet"),
        ("scale = 0\n", "scale must be a number from 0.0001 to 10000"),
        ("scale = 10001\n", "scale must be a number from 0.0001 to 10000"),
        ("accept = 'all'\n", "accept must be a list of codes"),
        ("drawing = 'x'\n", "drawing must be 64 digits of a SHA-256"),
        ("front = 'left'\n", "drawing is missing"),
        ("front =\n", "ring.answers.toml is not an answers file"),
    ],
)
def test_every_fault_is_named_and_stops(text, words):
    found = said(text if "drawing" in text or "missing" in words else f"{text}drawing = '{SHA}'\n")
    assert codes(found) == ["answers-fault"]
    assert words in found.findings[0].message


def test_all_faults_of_a_file_stand_in_one_sentence():
    (fault,) = said("units = 1\nscale = -1\n").findings
    assert fault.message.count(";") == 2


def test_answers_for_another_version_are_not_used():
    found = said(written({"front": "left"}, "1" * 64))
    assert codes(found, "caution") == ["answers-outdated"]
    assert found.settings.options == ReadOptions()
    assert found.told == {}


def test_a_folder_answers_for_all_drawings_but_not_for_one():
    found = said("units = 'in'\ngrooved = true\n", name="answers.toml")
    assert (found.settings.options.units, found.settings.options.grooved, found.findings) == ("in", True, ())
    (fault,) = said("at = [1, 2]\n", name="answers.toml").findings
    assert "at can only be answered for one drawing, not for a folder" in fault.message


def test_the_call_comes_first_then_the_drawing_then_the_folder():
    own = written({"front": "left", "accept": ["assembly"]}, SHA)
    files = (AnswerFile("answers.toml", "units = 'in'\nfront = 'top'\n"), AnswerFile("ring.answers.toml", own))
    asked = Settings(ReadOptions(accept=frozenset({"one-sided"})), answers=files)
    found = answered(asked, SHA).settings.options
    assert (found.units, found.front, found.accept) == ("in", "left", {"one-sided", "assembly"})
    told = answered(replace(asked, options=ReadOptions(front="right")), SHA)
    assert told.settings.options.front == "right"
    assert "front" not in told.told


def test_the_newest_of_several_files_counts_and_that_is_said(unitless):
    sha = file_digest(unitless)
    for age, (name, end) in enumerate((("ring.answers.toml", "left"), ("RING.answers (1).toml", "right"))):
        path = unitless.with_name(name)
        path.write_text(written({"front": end, "units": "mm"}, sha))
        os.utime(path, ns=(1_000_000_000 + age, 1_000_000_000 + age))
    found = answered(beside(unitless, Settings()), sha)
    assert found.settings.options.front == "right"
    assert codes(found, "note") == ["answers-newest"]


def test_answers_stand_in_record_and_program(unitless):
    unitless.with_name("answers.toml").write_text("units = 'mm'\n")
    unitless.with_name("ring.answers.toml").write_text(written({"front": "left"}, file_digest(unitless)))
    record = make_drawing(unitless, None, Settings())
    assert record["status"] == "made"
    assert record["answers"] == {
        "units": {"value": "mm", "file": "answers.toml"},
        "front": {"value": "left", "file": "ring.answers.toml"},
    }
    assert record["part"]["front"] == {"end": "left", "by": "answer"}
    assert "(Z0 IS THE LEFT-HAND END AS DRAWN, AS ANSWERED.)" in unitless.with_suffix(".nc").read_text("ascii")
    compared = run("compare", unitless, unitless.with_suffix(".nc"))
    assert compared.exit_code == 0, compared.output


def test_a_faulty_file_refuses_the_drawing_and_says_why(unitless):
    unitless.with_name("ring.answers.toml").write_text("unit = 'mm'\n")
    record = make_drawing(unitless, None, Settings())
    assert [f["code"] for f in record["findings"] if f["level"] == "stop"] == ["answers-fault"]
    for words in (["read", unitless], ["compare", unitless, unitless]):
        told = run(*words)
        assert (told.exit_code, told.output.count("\n")) == (2, 1)
        assert "unit is not a key, units is" in told.output


def test_each_choice_of_units_says_what_it_would_read(unitless):
    told = run("read", unitless, "--json")
    (stop,) = [f for f in json.loads(told.stdout)["findings"] if f["level"] == "stop"]
    assert [(c["option"], c["value"]) for c in stop["choices"]] == [("units", "mm"), ("units", "in")]
    assert stop["choices"][0]["reads"] == "40 across, 60 long, 3 grooves"
    record = make_drawing(unitless, None, Settings())
    assert [f["choices"] for f in record["findings"] if f["code"] == stop["code"]] == [stop["choices"]]


def two_parts(folder):
    """A sheet with two unlike shafts."""
    other = Turned(((40.0, 24.0),), (Cut(-8.0, 2.0, 20.0), Cut(-16.0, 2.0, 20.0)))
    second = full_outline(other)
    moved = second.map(shifted(0, 90))
    return write_dxf(mixed(full_outline(shaft()), moved), folder / "two.dxf")


def test_each_view_is_a_choice_and_leads_to_what_it_says(tmp_path):
    drawing = two_parts(tmp_path)
    told = json.loads(run("read", drawing, "--units", "mm", "--json").stdout)
    (stop,) = [f for f in told["findings"] if f["code"] == "several-parts"]
    assert sorted(c["reads"].partition(" across")[0] for c in stop["choices"]) == ["24", "40"]
    for choice in stop["choices"]:
        at = ",".join(map(str, choice["value"]))
        again = run("read", drawing, "--units", "mm", "--at", at, "--json")
        assert f"{json.loads(again.stdout)['outer_diameter']:g} across" in choice["reads"]


def test_ask_asks_until_nothing_is_open_and_make_needs_no_option(tmp_path):
    drawing = two_parts(tmp_path)
    wanted = json.loads(run("read", drawing, "--units", "mm", "--json").stdout)
    (stop,) = [f for f in wanted["findings"] if f["level"] == "stop"]
    small = 1 + [c["reads"].startswith("24") for c in stop["choices"]].index(True)
    told = run("ask", drawing, typed=f"{small}\n1\n")
    assert told.exit_code == 0, told.output
    assert "Read: 24 across, 40 long, 2 grooves." in told.output
    assert make_drawing(drawing, None, Settings())["status"] == "made"
    again = run("ask", drawing)
    assert (again.exit_code, again.output) == (0, "Read: 24 across, 40 long, 2 grooves.\n")


@pytest.mark.parametrize("typed", ["0\n", ""])
def test_what_is_left_open_is_said_and_nothing_written(unitless, typed):
    told = run("ask", unitless, typed=typed)
    assert told.exit_code == 1
    assert "Still open:" in told.output
    assert not unitless.with_name("ring.answers.toml").exists()


def test_the_sheet_of_a_refused_drawing_is_the_form(tmp_path):
    drawing = two_parts(tmp_path)
    drawing.with_name("two.answers.toml").write_text(written({"units": "mm"}, file_digest(drawing)))
    make_drawing(drawing, None, Settings())
    page = drawing.with_suffix(".html").read_text("utf-8")
    links = re.findall(
        r'<a download="two\.answers\.toml" href="data:application/toml;base64,([^"]+)">([^<]+)</a>', page
    )
    assert len(links) == 2
    assert page.count('class="spot choice"') == 2
    for data, _ in links:
        drawing.with_name("two.answers.toml").write_bytes(base64.b64decode(data))
        record = make_drawing(drawing, None, Settings())
        assert record["status"] == "made"
        assert set(record["answers"]) == {"units", "at"}


def test_an_answer_dropped_beside_its_drawing_makes_it_and_one_for_another_version_does_not(tmp_path):
    inbox, out = tmp_path / "inbox", tmp_path / "out"
    inbox.mkdir()
    drawing = two_parts(inbox)
    assert watch_once(inbox, out).returncode == 1
    (refused,) = [f for f in json.loads((out / "two.json").read_text())["findings"] if f["level"] == "stop"]
    said = {"at": tuple(refused["choices"][0]["value"])}
    (inbox / "two.answers.toml").write_text(written(said, "1" * 64))
    assert watch_once(inbox, out).returncode == 1
    assert "answers-outdated" in (out / "two.json").read_text()
    (inbox / "two.answers (1).toml").write_text(written(said, file_digest(drawing)))
    assert watch_once(inbox, out).returncode == 0
    assert json.loads((out / "two.json").read_text())["answers"]["at"]["file"] == "two.answers (1).toml"
    (inbox / "two.answers (1).toml").unlink()
    assert watch_once(inbox, out).returncode == 1
    assert not (out / "two.nc").exists()


@pytest.mark.parametrize(
    ("code", "label"),
    [
        (PlanCode.RECESS_NOT_PLANNED, "leave it to another tool"),
        (PlanCode.CORNER_SMALLER, "take the corners that the insert leaves"),
        (DrawingCode.OVERHANG, "leave it to another tool"),
        (DrawingCode.AXIS_NOT_DRAWN, "half of a part, turned about that line"),
        (DrawingCode.OUTLINE_UNCLEAR, "go on all the same"),
    ],
)
def test_to_answer_for_a_stop_is_offered_in_words_and_only_where_there_is_a_part(code, label):
    sheet, stop = sheet_of(full_outline(shaft())), Finding(Level.STOP, code, "It stops.")
    (question,) = questions(sheet, [stop], ReadOptions(units="mm"), part=True)
    assert [(c.option, c.value, c.label) for c in question.choices] == [("accept", str(code), label)]
    assert question.choices[0].reads == "40 across, 60 long, 3 grooves"
    assert questions(sheet, [stop], ReadOptions(units="mm"), part=False) == ()


def counted(monkeypatch):
    """The options of all readings that questions make from now on."""
    made = []

    def read(sheet, options):
        made.append(options)
        return read_sheet(sheet, options)

    monkeypatch.setattr("rillwright.questions.read_sheet", read)
    return made


def unclear(count):
    """So many stops of one code, each at its own place, with the sheet of a shaft that has none."""
    stops = [Finding(Level.STOP, DrawingCode.OUTLINE_UNCLEAR, f"It stops at {k}.", (k, 0.0)) for k in range(count)]
    return sheet_of(full_outline(shaft())), stops


def test_stops_answered_for_together_are_tried_by_one_reading_and_offered_each(monkeypatch):
    given = sheet_of(full_outline(shaft()))
    stops = [Finding(Level.STOP, PlanCode.CORNER_SMALLER, f"It stops at {k}.", groove=k) for k in range(1, 200)]
    made = counted(monkeypatch)
    asked = questions(given, stops, ReadOptions(units="mm"), part=True)
    assert [q.finding for q in asked] == stops
    assert {(c.value, c.reads) for q in asked for c in q.choices} == {
        ("corner-smaller", "40 across, 60 long, 3 grooves")
    }
    assert [options.accept for options in made] == [{"corner-smaller"}]


def test_stops_answered_for_alone_are_tried_each(monkeypatch):
    given, stops = unclear(3)
    made = counted(monkeypatch)
    asked = questions(given, stops, ReadOptions(units="mm"), part=True)
    keys = ["outline-unclear@0,0", "outline-unclear@1,0", "outline-unclear@2,0"]
    assert [c.value for q in asked for c in q.choices] == keys
    assert [options.accept for options in made] == [{key} for key in keys]


def test_two_stops_in_the_same_words_are_each_answered_for_where_they_are():
    stops = [
        RecordedFinding(level=Level.STOP, code="class-unknown", message="One sentence.", at=(x, 2.0))
        for x in (1.0, 3.0)
    ]
    own = [Offer("accept", f"class-unknown@{x},2", "go on", "40 across", None, ()) for x in (1, 3)]
    asked = [
        Question(Finding(Level.STOP, DrawingCode.CLASS_UNKNOWN, "One sentence.", stop.at), (offer,))
        for stop, offer in zip(stops, own, strict=True)
    ]
    told = with_choices(stops, asked)
    assert [one.choices[0].value for one in told] == ["class-unknown@1,2", "class-unknown@3,2"]


@pytest.mark.parametrize(("count", "asked_for"), [(50, 50), (51, 0)])
def test_more_stops_of_one_code_than_anybody_answers_for_are_not_asked_for(count, asked_for):
    given, stops = unclear(count)
    other = Finding(Level.STOP, DrawingCode.FACE_UNCLEAR, "It stops.")
    asked = questions(given, [*stops, other], ReadOptions(units="mm"), part=True)
    assert len(asked) == asked_for + 1
    assert (asked[-1].finding, asked[-1].choices[0].value) == (other, "face-unclear")


def two_false_widths(tmp_path):
    """Three grooves 3 wide, two of them printed as 4 and 2.5."""
    doc = ezdxf.readfile(write_dxf(side_view(shaft()), tmp_path / "false.dxf"))
    space = doc.modelspace()
    space.add_text("ALL DIMENSIONS IN MM", height=3).set_placement((-30, -60))
    for z, words, row in ((-10, "4", 32), (-18, "2.5", 40)):
        size = space.add_linear_dim(base=(z, row), p1=(z, 20), p2=(z - 3, 20), text=words)
        size.render()
    doc.saveas(tmp_path / "false.dxf")
    return tmp_path / "false.dxf"


def test_of_two_stops_of_one_code_one_is_answered_for_and_then_the_other(tmp_path):
    drawing = two_false_widths(tmp_path)
    first = run("ask", drawing, typed="1\n0\n")
    assert first.exit_code == 1
    assert "Still open: A dimension prints 2.5 where" in first.output
    assert "Still open: A dimension prints 4 where" not in first.output
    assert 'accept = ["dimension-contradicts@-11.5,20"]' in (tmp_path / "false.answers.toml").read_text()
    both = run("ask", drawing, typed="1\n")
    assert both.exit_code == 0
    assert run("read", drawing).exit_code == 0


def test_the_code_alone_leaves_two_stops_open_and_says_how_each_is_answered_for(tmp_path):
    drawing = str(two_false_widths(tmp_path))
    told = run("read", drawing, "--accept", "dimension-contradicts", "--json")
    assert told.exit_code == 1
    stops = [f for f in json.loads(told.stdout)["findings"] if f["level"] == "stop"]
    keys = [re.search(r"--accept (\S+)\.$", f["message"])[1] for f in stops]
    assert keys == ["dimension-contradicts@-11.5,20", "dimension-contradicts@-19.5,20"]
    assert [[c["value"] for c in f["choices"]] for f in stops] == [[key] for key in keys]
    assert run("read", drawing, "--accept", ",".join(keys)).exit_code == 0


@pytest.mark.parametrize(
    ("size", "words"), [(MOST_BYTES, "is not an answers file"), (MOST_BYTES + 1, "it is longer than")]
)
def test_a_file_too_long_to_be_one_is_told(unitless, size, words):
    unitless.with_name("ring.answers.toml").write_text("x" * size)
    (fault,) = [f for f in make_drawing(unitless, None, Settings())["findings"] if f["level"] == "stop"]
    assert words in fault["message"]


def test_a_file_that_cannot_be_opened_is_told_with_the_reason(tmp_path):
    (fault,) = answered(replace(Settings(), answers=(load(tmp_path / "gone.answers.toml"),)), SHA).findings
    assert fault.message == "gone.answers.toml can't be read: no such file or directory."


def test_where_the_time_runs_out_over_the_questions_the_reason_stands(unitless, monkeypatch):
    monkeypatch.setattr(job, "questions", lambda *_, **__: time.sleep(30))
    record = make_drawing(unitless, None, Settings(allowance=Allowance(3.0, 4096)))
    stops = [f for f in record["findings"] if f["level"] == "stop"]
    assert stops
    assert all("choices" not in f and f["code"] != "worker-timeout" for f in stops)


def test_the_scale_that_a_sheet_shows_is_offered_and_true_size_too(tmp_path):
    """A note says 2:1 and nothing bears it out: either may be meant."""
    path = write_dxf(full_outline(shaft()), tmp_path / "ring.dxf")
    document = ezdxf.readfile(path)
    document.modelspace().add_text("SCALE 2:1", height=2).set_placement((0, -60))
    document.saveas(path)
    (stop,) = [f for f in make_drawing(path, None, Settings())["findings"] if f["level"] == "stop"]
    offers = {(one["option"], one["value"]): one["reads"] for one in stop["choices"] if one["option"] == "scale"}
    assert offers == {
        ("scale", 2.0): "20 across, 30 long, 3 grooves",
        ("scale", 1.0): "40 across, 60 long, 3 grooves",
    }
    path.with_name("ring.answers.toml").write_text(written({"scale": 2.0}, file_digest(path)))
    assert make_drawing(path, None, Settings())["part"]["outer_diameter"] == pytest.approx(20.0)
