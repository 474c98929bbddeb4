"""The job: what lands on disk for a drawing that is made, refused, or made again."""

import json
import os
import re
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from support.drawings import draw_ring
from support.forms import make_drawing

from extractor.errors import InternalFault, SettingsError
from extractor.finding import Finding, Level
from postproc.codes import ProgramCode
from postproc.verdict import CutGroove, Match, State, Verdict
from rillwright import job, outcome
from rillwright.digest import file_digest
from rillwright.records.record import HeldProgram
from rillwright.settings import Settings

RECORD_KEYS = {"schema", "status", "part", "plan", "program", "verification", "findings"}
NOW = datetime(2031, 5, 6, 7, 8, tzinfo=UTC)


@pytest.fixture
def ring(tmp_path):
    return draw_ring(tmp_path / "ring.dxf")


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def record_of(folder, stem="ring"):
    return json.loads((folder / f"{stem}.json").read_text())


def test_a_made_drawing_gets_program_sheet_and_record(ring, tmp_path):
    out = tmp_path / "out"
    record = make_drawing(ring, out, Settings(), NOW)
    assert names(out) == ["ring.html", "ring.json", "ring.nc"]
    assert record_of(out) == json.loads(json.dumps(record))
    assert record.keys() >= RECORD_KEYS
    assert record["status"] == "made"
    assert record["program"]["sha256"] == file_digest(out / "ring.nc")
    assert record["program"]["file"] == "ring.nc"
    assert record["part"]["drawing"] == {"file": "ring.dxf", "sha256": file_digest(ring)}
    assert record["verification"]["agree"] is True
    operation = record["plan"]["operations"][0]
    assert operation.keys() >= {"grooves", "tool", "form", "start", "seconds"}
    assert record["made_at"] == "2031-05-06T07:08:00+00:00"


def test_the_same_drawing_gives_the_same_bytes(ring, tmp_path):
    for out in ("a", "b"):
        make_drawing(ring, tmp_path / out, Settings(), NOW)
    for name in ("ring.nc", "ring.html", "ring.json"):
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()


def refused(tmp_path, text=b"no drawing at all"):
    path = tmp_path / "ring.dxf"
    path.write_bytes(text)
    return make_drawing(path, tmp_path, Settings(), NOW)


def test_a_refused_drawing_gets_a_record_and_a_sheet_but_no_program(tmp_path):
    record = refused(tmp_path)
    assert names(tmp_path) == ["ring.dxf", "ring.html", "ring.json"]
    assert record["status"] == "refused"
    assert (record["plan"], record["program"], record["verification"]) == (None, None, None)
    assert [one["level"] for one in record["findings"]] == ["stop"]
    assert record["part"]["drawing"]["sha256"] == file_digest(tmp_path / "ring.dxf")


@pytest.mark.parametrize(("text", "code"), [(None, "units-unknown"), (b"no SECTION in it", "drawing-unreadable")])
def test_a_refused_drawing_is_read_once(tmp_path, monkeypatch, text, code):
    path, reads, read = tmp_path / "ring.dxf", [], outcome.load_sheet
    draw_ring(path, insunits=0) if text is None else path.write_bytes(text)
    for module in (job, outcome):
        monkeypatch.setattr(module, "load_sheet", lambda one: reads.append(one) or read(one))
    record = make_drawing(path, tmp_path / "out", Settings(), NOW)
    assert code in {finding["code"] for finding in record["findings"]}
    assert len(reads) == 1


def test_an_older_program_of_a_refused_drawing_is_set_aside(tmp_path):
    (tmp_path / "ring.nc").write_bytes(b"old program")
    refused(tmp_path)
    assert not (tmp_path / "ring.nc").exists()
    assert (tmp_path / "ring.nc.stale").read_bytes() == b"old program"


def test_a_program_made_again_replaces_its_own_which_is_set_aside(ring, tmp_path):
    make_drawing(ring, None, Settings(), NOW)
    first = (tmp_path / "ring.nc").read_bytes()
    draw_ring(ring, ((-12, -15, 34),))
    record = make_drawing(ring, None, Settings(), NOW)
    assert names(tmp_path) == ["ring.dxf", "ring.html", "ring.json", "ring.nc", "ring.nc.stale"]
    assert (tmp_path / "ring.nc.stale").read_bytes() == first
    assert record["program"]["sha256"] == file_digest(tmp_path / "ring.nc")


@pytest.mark.parametrize("broken", ["ring.html", "ring.json", "ring.nc"])
def test_a_disk_that_fills_up_on_the_way_never_leaves_a_program_of_another_sheet(ring, tmp_path, monkeypatch, broken):
    make_drawing(ring, None, Settings(), NOW)
    draw_ring(ring, ((-12, -15, 34),))
    real = os.replace

    def full(temporary, path):
        if path.name == broken:
            raise OSError(28, "No space left on device", str(path))
        real(temporary, path)

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(OSError, match="No space"):
        make_drawing(ring, None, Settings(), NOW)
    assert not (tmp_path / "ring.nc").exists()
    assert not [name for name in names(tmp_path) if name.endswith(".tmp")]


def verdict_of(ring, monkeypatch, tmp_path, verdict):
    monkeypatch.setattr(outcome, "compare_program", lambda *_, **__: verdict)
    return make_drawing(ring, tmp_path, Settings(), NOW)


def test_a_program_that_does_not_make_the_drawing_is_our_fault_and_not_written(ring, tmp_path, monkeypatch):
    cut = CutGroove(z_near=-10.1, z_far=-13.1, floor_diameter=34.0, lines=(9,))
    wrong = Verdict(
        (
            Match(
                drawing=1,
                program=cut,
                state=State.POSITION,
                difference={"z_near": -0.1, "z_far": -0.1, "floor_diameter": 0.0},
            ),
        )
    )
    record = verdict_of(ring, monkeypatch, tmp_path, wrong)
    assert record["status"] == "refused"
    assert record["verification"]["agree"] is False
    (stop,) = [one for one in record["findings"] if one["level"] == "stop"]
    assert stop["code"] == "verification-failed"
    assert "our fault" in stop["message"]
    assert "groove 1: position" in stop["message"]
    assert not (tmp_path / "ring.nc").exists()


def test_a_recess_that_nobody_read_is_the_drawings_own_stop(ring, tmp_path, monkeypatch):
    """Where nothing else is wrong; with a groove that doesn't match it may be our fault as well."""
    left = Finding(Level.STOP, ProgramCode.RECESS_LEFT, "The drawing goes down between Z-2 and Z-8.")
    cut = CutGroove(z_near=-10.0, z_far=-13.0, floor_diameter=34.0, lines=(9,))
    for state, code in ((State.MATCHES, "recess-left"), (State.POSITION, "verification-failed")):
        match = Match(
            drawing=1, program=cut, state=state, difference={"z_near": 0.0, "z_far": 0.0, "floor_diameter": 0.0}
        )
        record = verdict_of(ring, monkeypatch, tmp_path, Verdict((match,), (left,)))
        assert [one["code"] for one in record["findings"] if one["level"] == "stop"] == [code]
        assert not (tmp_path / "ring.nc").exists()


def test_a_program_that_fails_in_the_coarse_steps_of_a_control_says_so(ring, tmp_path, monkeypatch):
    coarse = 'base = "two-block"\n[numbers]\ndecimals = { mm = 2, in = 3 }\nleast = { mm = 0.01, in = 0.001 }\n'
    settings = Settings(dialect="coarse", tongues=(("coarse", coarse),))
    wrong = Match(drawing=1, program=None, state=State.MISSING, difference={})
    monkeypatch.setattr(outcome, "compare_program", lambda *_, **__: Verdict((wrong,)))
    record = make_drawing(ring, tmp_path, settings, NOW)
    (stop,) = [one for one in record["findings"] if one["level"] == "stop"]
    assert stop["code"] == "dialect-cannot-say"
    assert stop["message"].startswith(
        "In the control's steps of 0.01 mm the program does not make the drawing (groove 1"
    )


def test_an_unsafe_move_refuses_as_well_and_can_not_be_accepted(ring, tmp_path, monkeypatch):
    unsafe = Verdict((), (Finding(Level.STOP, ProgramCode.RAPID_INTO_MATERIAL, "Rapid into metal.", line=12),))
    monkeypatch.setattr(outcome, "compare_program", lambda *_, **__: unsafe)
    settings = Settings()
    options = settings.options.__class__(accept=frozenset({"verification-failed", "rapid-into-material"}))
    record = make_drawing(ring, tmp_path, Settings(options), NOW)
    assert record["status"] == "refused"
    assert "line 12: Rapid into metal." in " ".join(one["message"] for one in record["findings"])


@pytest.mark.parametrize("error", [ValueError("odd\nthing"), KeyError("z"), RecursionError(), MemoryError()])
def test_a_fault_of_our_own_refuses_the_drawing_in_a_sentence(ring, tmp_path, monkeypatch, error):
    def broken(*_, **__):
        raise error

    monkeypatch.setattr(outcome, "plan_part", broken)
    record = make_drawing(ring, tmp_path, Settings(), NOW)
    assert record["status"] == "refused"
    assert record["findings"][0]["code"] in ("internal-fault", "out-of-memory")
    assert "\n" not in record["findings"][0]["message"]


def test_no_more_than_200_characters_of_a_fault_of_our_own_are_told(ring, tmp_path, monkeypatch):
    def broken(*_, **__):
        raise ValueError("x" * 500)

    monkeypatch.setattr(outcome, "plan_part", broken)
    message = make_drawing(ring, tmp_path, Settings(), NOW)["findings"][0]["message"]
    assert message.count("x") == 200 - len("ValueError ")


def test_another_drawing_of_the_name_is_refused_at_the_time_that_it_is_told(ring, tmp_path):
    (tmp_path / "other").mkdir()
    make_drawing(ring, tmp_path / "out", Settings(), NOW)
    record = make_drawing(draw_ring(tmp_path / "other" / "ring.dxf"), tmp_path / "out", Settings(), NOW)
    assert (record["status"], record["findings"][0]["code"]) == ("refused", "other-drawing")
    assert record["made_at"] == "2031-05-06T07:08:00+00:00"


def test_a_refused_drawing_is_kept_with_what_would_answer_it(tmp_path):
    record = make_drawing(draw_ring(tmp_path / "ring.dxf", insunits=0), tmp_path, Settings(), NOW)
    (stop,) = [one for one in record["findings"] if one["level"] == "stop"]
    assert stop["code"] == "units-unknown"
    assert [choice["option"] for choice in stop["choices"]] == ["units", "units"]


@pytest.mark.parametrize(("agree", "right"), [(True, True), (False, False), (None, False)])
def test_a_drawing_is_right_where_the_program_that_stands_makes_it(ring, tmp_path, agree, right):
    record = job.make_drawing(ring, tmp_path, Settings(), NOW)
    assert job.is_right(record)
    assert job.is_right(replace(record, edited=HeldProgram(file="ring.nc", sha256="0", agree=agree))) is right
    assert not job.is_right(replace(record, status="refused"))


def test_our_own_checks_that_fail_are_told_as_they_are(ring, tmp_path, monkeypatch):
    def broken(*_, **__):
        raise InternalFault("The rows do not add up.")

    monkeypatch.setattr(outcome, "plan_part", broken)
    record = make_drawing(ring, tmp_path, Settings(), NOW)
    assert record["findings"][0]["message"] == "The rows do not add up."


def test_bad_settings_are_no_refusal_of_the_drawing(ring, tmp_path):
    with pytest.raises(SettingsError):
        make_drawing(ring, tmp_path, Settings(dialect="nothing"), NOW)
    assert names(tmp_path) == ["ring.dxf"]


ODD_NAMES = [
    "two\nlines.dxf",
    "a) G00 X0 (.dxf",
    'it\'s "so".dxf',
    "größe Ø.dxf",
    "x" * 251 + ".dxf",
    " .dxf",
    "-x.dxf",
]


@pytest.mark.parametrize("name", ODD_NAMES, ids=range(len(ODD_NAMES)))
def test_any_name_is_made_and_no_name_becomes_a_block(tmp_path, name):
    plain = make_drawing(draw_ring(tmp_path / "plain.dxf"), tmp_path / "plain", Settings(), NOW)
    record = make_drawing(draw_ring(tmp_path / name), tmp_path / "out", Settings(), NOW)
    assert record["status"] == "made"
    (program,) = (tmp_path / "out").glob("*.nc")
    text = program.read_text("ascii")
    spoken = [line for line in text.splitlines() if not line.startswith("(")]
    reference = (tmp_path / "plain" / "plain.nc").read_text().splitlines()
    assert spoken == [line for line in reference if not line.startswith("(")]
    assert plain["plan"] == record["plan"]


def test_the_program_number_is_the_one_asked_for(ring, tmp_path):
    make_drawing(ring, None, Settings(number=42), NOW)
    assert "O0042" in (tmp_path / "ring.nc").read_text().splitlines()


def test_a_batch_gets_a_page_that_leads_to_every_sheet(ring, tmp_path):
    records = [(stem, job.make_drawing(ring, tmp_path / "out", Settings(), NOW)) for stem in ("ring", "a&b")]
    job.write_index(tmp_path / "out", records)
    page = (tmp_path / "out" / "index.html").read_text("utf-8")
    assert 'href="ring.html"' in page
    assert "a&b" not in page


def test_a_drawing_called_index_keeps_its_sheet(ring, tmp_path):
    job.write_index(tmp_path, [("Index", job.make_drawing(ring, tmp_path / "out", Settings(), NOW))])
    assert not (tmp_path / "index.html").exists()


def test_a_page_of_somebody_s_own_is_not_written_over(ring, tmp_path):
    records = [("ring", job.make_drawing(ring, tmp_path / "out", Settings(), NOW))]
    page = tmp_path / "out" / "index.html"
    assert job.write_index(page.parent, records)
    assert job.write_index(page.parent, records)
    page.write_text("<h1>Our shop</h1>")
    assert not job.write_index(page.parent, records)
    assert page.read_text() == "<h1>Our shop</h1>"
    page.unlink()
    page.mkdir()
    assert not job.write_index(page.parent, records)


def test_a_drawing_whose_grooves_are_all_left_out_has_nothing_to_cut(ring, tmp_path, monkeypatch):
    from dataclasses import replace

    real = outcome.plan_part
    monkeypatch.setattr(
        outcome, "plan_part", lambda *args, **more: replace(real(*args, **more), operations=(), findings=())
    )
    record = make_drawing(ring, tmp_path, Settings(), NOW)
    (stop,) = [one for one in record["findings"] if one["level"] == "stop"]
    assert (stop["code"], stop["message"]) == (
        "nothing-to-cut",
        "The drawing has no groove that this tool programs.",
    )


def test_what_a_dialect_can_not_say_is_refused_with_its_reason(ring, tmp_path, monkeypatch):
    from extractor.errors import ProgramError

    def mute(*_):
        raise ProgramError("The plan can't be written in two-block: it has no word for a dwell.")

    monkeypatch.setattr(outcome, "write_program", mute)
    record = make_drawing(ring, tmp_path, Settings(), NOW)
    (stop,) = [one for one in record["findings"] if one["level"] == "stop"]
    assert (stop["code"], "no word for a dwell" in stop["message"]) == ("dialect-cannot-say", True)
    assert not (tmp_path / "ring.nc").exists()


def test_a_batch_is_timed_in_the_record(ring, tmp_path):
    record = make_drawing(ring, tmp_path, Settings(changes=("machine.batch=250",)), NOW)
    (note,) = [one for one in record["findings"] if one["code"] == "batch-hours"]
    assert f"{250 * record['plan']['seconds'] / 3600:.1f}" in note["message"]
    assert record["plan"]["left_out"] == []


def test_of_what_is_wrong_with_a_program_of_ours_three_grooves_and_three_lines_are_told(ring, tmp_path, monkeypatch):
    wrong = tuple(Match(drawing=n, program=None, state=State.MISSING, difference={}) for n in range(1, 6))
    stops = tuple(Finding(Level.STOP, ProgramCode.RAPID_INTO_MATERIAL, "Rapid.", line=n) for n in range(11, 16))
    record = verdict_of(ring, monkeypatch, tmp_path, Verdict(wrong, stops))
    (stop,) = [one for one in record["findings"] if one["level"] == "stop"]
    found = re.findall(r"(?:groove|line) \d+", stop["message"])
    assert found == ["groove 1", "groove 2", "groove 3", "line 11", "line 12", "line 13"]


@pytest.mark.parametrize(("units", "sets"), [(0, 0), (4, 1)])
def test_grooves_of_no_known_units_make_no_set(tmp_path, units, sets):
    """Whether two are alike hangs on how long a unit is."""
    path = draw_ring(tmp_path / "ring.dxf", insunits=units)
    assert len(outcome.work_out(path, file_digest(path), Settings()).sets) == sets
