"""Figures in words: tables of the sheet and the inspection rows."""

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.forms import findings as values
from support.forms import form, typed
from support.parts import part_of, row
from support.records import made, refused
from support.worked_out import worked_out

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import ReadOptions
from planner import parse_shop
from planner.steps import Spindle
from rillwright.codes import REGISTER
from rillwright.jobsheet import figures, view
from rillwright.jobsheet.cautions import PROVE_OUT, answered_by, remedy
from rillwright.jobsheet.index import render_index
from rillwright.jobsheet.inspection import OVER_A_HEAD, checks_of, inspection_csv
from rillwright.jobsheet.scene import scene_of
from rillwright.jobsheet.sheet import render_sheet
from rillwright.jobsheet.text import hash_text, length_text, place_text, signed_text, time_text
from rillwright.records.recording import recorded_run
from rillwright.settings import Settings
from rillwright.spreadsheet import table_bytes


@pytest.fixture(scope="module")
def record():
    part = part_of(
        [
            *row(3, first=-10, pitch=5, width=3, floor=34),
            (-40, -42, 36, {"tolerances": {"width": [0.0, 0.1], "z_near": [-0.1, 0.05]}, "corner_radius": 0.4}),
        ]
    )
    return made(part, [(1, 2, 3), (4,)])[0]


def characteristic(record, groove, what):
    return next(c for c in checks_of(typed(record)) if c.groove == groove and c.what.startswith(what))


def test_every_groove_gets_width_floor_and_place(record):
    for groove in (1, 2, 3, 4):
        found = [c.what for c in checks_of(typed(record)) if c.groove == groove]
        assert found[:3] == ["width", "floor ⌀", "front wall, from Z0"]
    assert characteristic(record, 4, "corner radius").limits is None


def test_limits_of_the_drawing_come_before_those_of_the_shop(record):
    width = characteristic(record, 4, "width")
    assert (width.limits, width.source) == ((2.0, 2.1), "drawing")
    floor = characteristic(record, 4, "floor")
    assert (floor.limits, floor.source) == (pytest.approx((35.98, 36.02)), "shop")


def test_a_wall_may_move_as_far_as_the_groove_may_grow():
    """Width +0.2/0 and a shop tolerance of 0.02: the front wall may come 0.22 to the front and go 0.02 back."""
    record, _ = made(part_of([(-10, -13, 34, {"tolerances": {"width": [0.0, 0.2]}})]), [(1,)])
    near = characteristic(record, 1, "front wall")
    assert (near.limits, near.source) == (pytest.approx((9.78, 10.02)), "shop")


def test_a_wall_without_limits_hangs_on_the_other_one_and_the_width():
    limits = {"width": [0.0, 0.2], "z_far": [-0.1, 0.0]}
    record, _ = made(part_of([(-10, -13, 34, {"tolerances": limits})]), [(1,)])
    near = characteristic(record, 1, "front wall")
    assert (near.limits, near.source) == (pytest.approx((9.8, 10.1)), "drawing")


@given(
    st.sampled_from([(0.0, 0.1), (-0.05, 0.0), (0.02, 0.14), (0.1, 0.3)]),
    st.sampled_from([(-0.2, 0.0), (0.0, 0.1), (-0.05, 0.05)]),
)
@settings(max_examples=9, deadline=None)
def test_what_agrees_with_the_drawing_passes_its_own_inspection(width, floor):
    spots = row(3, first=-10, pitch=7, width=4, floor=34, tolerances={"width": width, "floor_diameter": floor})
    record, _ = worked_out(part_of(spots), "plunge")
    assert record["verification"]["agree"]
    for match in record["verification"]["grooves"]:
        cut = match["program"]
        sizes = {"width": cut["z_near"] - cut["z_far"], "floor": cut["floor_diameter"], "front wall": -cut["z_near"]}
        for what, size in sizes.items():
            low, high = characteristic(record, match["drawing"], what).limits
            assert low - 1e-6 <= size <= high + 1e-6, what
            assert characteristic(record, match["drawing"], what).aim == pytest.approx(size)


def test_a_depth_that_the_drawing_limits_has_its_row():
    record, _ = made(part_of([(-10, -13, 34, {"tolerances": {"depth": [0.0, 0.05]}})]), [(1,)])
    depth = characteristic(record, 1, "depth")
    assert (depth.nominal, depth.limits, depth.source) == (3, (3, 3.05), "drawing")
    floor = characteristic(record, 1, "floor")
    assert (floor.limits, floor.source) == (pytest.approx((33.9, 34)), "drawing")


def test_limits_of_a_general_note_are_called_so(record):
    groove = record["part"]["grooves"][3] | {"general_tolerances": ["width"]}
    noted = record | {"part": record["part"] | {"grooves": [*record["part"]["grooves"][:3], groove]}}
    assert [c.source for c in checks_of(typed(noted)) if c.groove == 4][:3] == ["general note", "shop", "drawing"]


def test_a_place_counts_away_from_the_front_face_and_its_deviations_turn_with_it(record):
    place = characteristic(record, 4, "front wall")
    assert place.nominal == 40
    assert (place.lower, place.upper) == (-0.05, 0.1)


def test_a_groove_narrower_than_a_blade_anvil_is_not_sent_to_one():
    record, _ = made(part_of([(-10, -10.7, 38), (-20, -23, 38)]), [(1,), (2,)])
    assert "projector" in characteristic(record, 1, "floor").gauge
    assert "micrometer" in characteristic(record, 2, "floor").gauge


def test_inside_and_face_grooves_are_measured_their_own_way():
    inside, _ = made(part_of([(-10, -13, 24, {"where": "inside"})], bore=20), [(1,)])
    assert "inside" in characteristic(inside, 1, "floor").gauge
    face, _ = made(part_of([(0, -4, 30, {"where": "face", "mouth_diameter": 38.0})]), [(1,)])
    assert [c.what for c in checks_of(typed(face))] == ["depth from the face", "inner wall ⌀", "outer wall ⌀"]
    printed = {"where": "face", "mouth_diameter": 38.0, "printed": frozenset({"width", "floor_diameter"})}
    face, _ = made(part_of([(0, -4, 30, printed | {"tolerances": {"width": [0.1, 0.2]}})]), [(1,)])
    rows = {c.what: c for c in checks_of(typed(face))}
    assert rows["width"].limits == pytest.approx((4.1, 4.2))
    assert rows["inner wall ⌀"].limits == pytest.approx((29.98, 30.02)), "a wall that is printed stands"


def test_the_csv_is_read_back_by_the_csv_library(record):
    """Source: Python's csv module in strict mode; line ends as RFC 4180 has them."""
    data = inspection_csv(typed(record))
    assert data.startswith(b"\xef\xbb\xbf"), "a spreadsheet takes a file without the mark for one of its own code page"
    text = data.decode("utf-8-sig")
    assert text.count("\r\n") == text.count("\n") == len(checks_of(typed(record))) + 1
    rows = list(csv.DictReader(io.StringIO(text), strict=True))
    four = next(r for r in rows if r["groove"] == "4" and r["characteristic"] == "width")
    assert (four["nominal"], four["lower limit"], four["upper limit"]) == ("2.000", "2.000", "2.100")
    assert four["measured"] == ""
    assert four["aim"] == "2.000"


@pytest.mark.parametrize(("head", "gauge"), [(20.4, "depth micrometer and gauge block"), (20.6, OVER_A_HEAD)])
def test_a_place_behind_a_head_is_not_sent_to_a_depth_micrometer(head, gauge):
    record, _ = made(part_of([(-40, -43, 34)]), [(1,)])
    record["picture"]["lands"] = [[0, head], [-20, head], [-20, 20], [-60, 20]]
    (place,) = [c for c in checks_of(typed(record)) if c.what == "front wall, from Z0"]
    assert place.gauge == gauge


def test_the_rows_open_in_a_spreadsheet_that_writes_commas():
    """Cells as an office spreadsheet of such a locale takes them (common practice, no source)."""
    record, _ = made(part_of([(-10, -12, 34)]), [(1,)])
    text = inspection_csv(typed(record), "comma").decode("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text), delimiter=";"))
    width = dict(zip(rows[0], rows[1], strict=True))
    assert (width["nominal"], width["groove"]) == ("2,000", "1")
    assert table_bytes(["a"], [["=1+1"], ["@x"], ["1-2"], [-1.5], ["+3"]]).decode("utf-8-sig").split("\r\n") == [
        "a", "'=1+1", "'@x", "'1-2", "-1.5", "'+3", ""
    ]  # fmt: skip


def test_an_inch_part_has_four_decimals():
    record, _ = made(part_of([(-0.25, -0.375, 1.25)], diameter=1.5, length=2, units="in"), [(1,)])
    assert checks_of(typed(record))[0].texts["nominal"] == "0.1250"
    assert view.groove_rows(typed(record))[0]["z_near"] == "-0.2500"
    assert ("Cutting speed", "120 ft/min") in figures.tool_rows(typed(record).setup)[0]["figures"]


@given(st.floats(-1e4, 1e4))
def test_no_figure_is_a_minus_nothing(value):
    for text in (place_text(value, "mm"), signed_text(value, "in")):
        assert float(text) != 0 or not text.startswith("-")


@given(st.floats(0, 1e5))
def test_a_time_in_words_is_within_its_last_digit(seconds):
    words = time_text(seconds)
    units = {"h": 3600, "min": 60, "s": 1}
    parts = words.split()
    total = sum(float(n) * units[u] for n, u in zip(parts[::2], parts[1::2], strict=True))
    assert abs(total - seconds) <= (60 if "h" in units and " h" in words else 0.5) + 1e-6


def test_what_nobody_gave_is_a_dash():
    assert length_text(None, "mm") == time_text(None) == hash_text(None) == "–"


def test_the_stamp_says_no_unless_everything_agrees(record):
    assert view.headline(typed(record))["kind"] == "good"
    assert view.headline(typed(record | {"verification": record["verification"] | {"agree": False}}))["kind"] == "bad"
    assert view.headline(typed(record | {"verification": None}))["kind"] == "bad"
    assert view.headline(typed(refused()))["title"] == "No program"


def test_grooves_that_no_operation_cuts_are_named(record):
    lone = record | {"plan": {"operations": record["plan"]["operations"][:1], "seconds": 1.0}}
    assert [g["planned"] for g in view.groove_rows(typed(lone))] == [True, True, True, False]
    assert [s["planned"] for s in view.set_rows(typed(lone))] == [True, False]
    assert [r.set_index for r in scene_of(typed(lone)).recesses] == [0, 0, 0, None]
    assert "not programmed" in render_sheet(typed(lone))
    stamp = view.headline(typed(lone))
    assert stamp["kind"] == "part"
    assert stamp["line"].endswith("Not programmed: groove 4.")
    assert "! Cuts part of the drawing" in render_index([("x", typed(lone))])
    assert "not programmed" not in render_sheet(typed(record))


def test_the_gravest_finding_comes_first_and_spots_are_numbered():
    findings = [
        {"level": "note", "code": "a", "message": "A.", "at": [1, 2]},
        {"level": "stop", "code": "b", "message": "B.", "at": None, "line": 7, "groove": 2},
        {"level": "caution", "code": "c", "message": "C.", "at": [3.5, 4]},
    ]
    rows = view.finding_rows(values(findings))
    assert [(r.code, r.spot) for r in rows] == [("b", None), ("c", 1), ("a", 2)]
    assert [r.place for r in rows] == ["groove 2, program line 7", "drawing X 3.5, Y 4", "drawing X 1, Y 2"]


def test_a_difference_names_only_what_differs(record):
    match = record["verification"]["grooves"][0] | {
        "state": "depth",
        "difference": {"z_near": 0.0, "z_far": 0.0, "floor_diameter": -0.25},
    }
    changed = record | {"verification": {"agree": False, "grooves": [match], "findings": []}}
    row_ = view.verdict_rows(typed(changed))[0]
    assert (row_["state"], row_["difference"]) == ("wrong depth", "floor ⌀ -0.250")


def test_a_difference_that_the_drawing_allows_is_called_so(record):
    match = record["verification"]["grooves"][0] | {"difference": {"z_far": -0.05, "floor_diameter": 0.0}}
    changed = record | {"verification": {"agree": True, "grooves": [match], "findings": []}}
    assert view.verdict_rows(typed(changed))[0]["difference"] == "chuck wall -0.050, allowed"
    assert view.verdict_rows(typed(record))[0]["difference"] == "none"


def test_a_missing_groove_is_cut_as_nothing(record):
    match = {"drawing": 1, "program": None, "state": "missing", "difference": {}}
    changed = record | {"verification": {"agree": False, "grooves": [match], "findings": []}}
    assert view.verdict_rows(typed(changed))[0]["cut"] == "nothing"


def test_an_unknown_stick_out_is_said_and_not_passed_over(record):
    machine = record["setup"]["machine"] | {"stick_out": None}
    changed = record | {"setup": record["setup"] | {"machine": machine}}
    assert ("Stick-out", "not given", "room to the jaws not checked") in figures.tiles(typed(changed | {"path": None}))
    assert ("Stick-out, front face to jaws", "not given") in figures.setup_rows(typed(changed | {"path": None}))


@pytest.mark.parametrize("reference", ["near", "far"])
def test_the_stick_out_needed_is_where_the_chuck_side_of_the_insert_comes_to(reference):
    """As worked out by hand: the last groove ends at 22, the jaws keep their gap of 3."""
    turret = f'units="mm"\n[[tools]]\nstation=3\nwidth=2.0\nreference="{reference}"\n'
    record, _ = worked_out(part_of([(-10, -13, 34), (-19, -22, 34)]), "plunge", parse_shop(turret, "s", "mm"))
    assert figures.stick_out_needed(typed(record)) == pytest.approx(25.0)
    assert ("Stick-out", "not given", "room to the jaws not checked; at least 25.000 needed") in figures.tiles(
        typed(record)
    )
    record["path"]["left_out"] = 1
    assert figures.stick_out_needed(typed(record)) is None


def test_work_in_the_bore_asks_for_no_stick_out():
    shop = 'units="mm"\n[[tools]]\nstation=3\nwidth=2.0\nwhere="inside"\nmin_bore=10\n'
    record, _ = worked_out(
        part_of([(-10, -13, 24, {"where": "inside"})], bore=20), "plunge", parse_shop(shop, "s", "mm")
    )
    assert record["path"]["moves"]
    assert figures.stick_out_needed(typed(record)) is None


def test_the_material_is_at_the_head_since_speeds_and_feeds_hang_on_it(record):
    assert ("Material", record["setup"]["material"]["name"], "speeds and feeds are for this") in figures.tiles(
        typed(record)
    )


def test_cautions_are_counted_at_the_head(record):
    assert "Cautions" not in [name for name, _, _ in figures.tiles(typed(record))]
    findings = [{"level": level, "code": "x", "message": "X."} for level in ("caution", "note")]
    verdict = record["verification"] | {"findings": findings}
    assert ("Cautions", "2", "read them under Findings first") in figures.tiles(
        typed(record | {"findings": findings, "verification": verdict})
    )


def test_many_inserts_share_one_tile(record):
    few = [name for name, _, _ in figures.tiles(typed(record))]
    assert sum(name.startswith("Insert") for name in few) == 2
    tools = record["setup"]["tools"] * 2
    many = record | {"setup": record["setup"] | {"tools": tools}}
    assert ("Stations", "T0303 T0505 T0303 T0505", "inserts and edges: see Set-up") in figures.tiles(typed(many))


def test_what_the_spindle_is_told():
    assert figures.spindle_text(None, "mm") == "–"
    assert figures.spindle_text(Spindle("rpm", 900, clockwise=False), "mm") == "900 rev/min, counter-clockwise"


def test_an_edited_program_is_named_among_the_hashes(record):
    assert any("edited" in value for _, value in view.hash_rows(typed(record), "edited"))
    assert not any("edited" in value for _, value in view.hash_rows(typed(record), "same"))


@pytest.mark.parametrize("code", [*REGISTER, "anything-else"])
def test_every_refusal_says_what_to_do(code):
    assert remedy(code).endswith(".")


def test_only_a_drawing_stop_over_a_known_part_can_be_answered_for():
    stop = Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, "It prints 5 and measures 6.")
    known = refused([stop], part=part_of([(-10, -13, 34)]))
    assert answered_by(typed(known)) == {"dimension-contradicts": "dimension-contradicts"}
    assert answered_by(typed(refused([stop]))) == {}
    units = Finding(Level.STOP, DrawingCode.UNITS_UNKNOWN, "Neither mm nor inch is said.")
    assert answered_by(typed(refused([units], part=part_of([(-10, -13, 34)])))) == {}
    assert "--accept dimension-contradicts@1,2," in remedy("dimension-contradicts", "dimension-contradicts@1,2")
    assert "--accept" not in remedy("units-unknown")


def test_each_of_several_stops_of_a_code_has_its_own_answer_on_the_sheet_unless_all_say_one_thing():
    places = ((10.0, 20.0), (12.5, 20.0))
    codes = DrawingCode.DIMENSION_CONTRADICTS, DrawingCode.OVERHANG
    stops = [Finding(Level.STOP, code, f"It stops at {at}.", at) for code in codes for at in places]
    told = answered_by(typed(refused(stops, part=part_of([(-10, -13, 34)]))))
    assert told == {
        "dimension-contradicts": "dimension-contradicts@10,20,dimension-contradicts@12.5,20",
        "overhang": "overhang",
    }


def test_the_usual_cautions_are_there():
    """Common practice, no source."""
    text = " ".join(PROVE_OUT).lower()
    for word in ("graphics", "dry run", "single block", "rapid override low", "feed hold", "guards", "first piece"):
        assert word in text


def test_findings_of_a_refusal_reach_its_table():
    rows = view.finding_rows(values(refused([Finding(Level.STOP, DrawingCode.NO_TURNED_PART, "No part.")])["findings"]))
    assert rows[0].word == "Stop"


def test_what_the_run_was_told_stands_in_the_set_up(record):
    reading = ReadOptions("mm", "left", (1.5, -2.0), 2.0, frozenset({"b", "a"}), True)
    run = form(recorded_run(Settings(reading, "", "lathe 2/shop.toml", None, ("peck=0.5", "feed=0.1"))))
    rows = dict(figures.setup_rows(typed(record | {"run": run})))
    assert rows["Shop file"] == "lathe 2/shop.toml"
    assert rows["Changed in it for this run"] == "peck=0.5, feed=0.1"
    assert rows["Told about the drawing"] == "--units mm --front left --at 1.5,-2.0 --scale 2.0 --accept a,b --grooved"


def test_nothing_told_is_no_row():
    least = {"schema": 1, "status": "refused", "part": {}}
    run = form(recorded_run(Settings()))
    assert run == {"shop": "built-in shop", "changes": [], "reading": {}}
    assert figures.setup_rows(typed(least | {"run": run})) == [("Shop file", "built-in shop")]
    assert figures.setup_rows(typed(least)) == []


def test_what_is_left_for_finishing_is_a_figure_of_its_station(record):
    tools = [t | {"finish": 0.2} for t in record["setup"]["tools"]]
    told = figures.tool_rows(typed(record | {"setup": record["setup"] | {"tools": tools}}).setup)[0]["figures"]
    assert ("Left for finishing", "0.200") in told
    assert "Left for finishing" not in dict(figures.tool_rows(typed(record).setup)[0]["figures"])
