"""Sheets from files, the index of a batch, pictures of refusals, and what a record keeps for them."""

import json
import math
from contextlib import suppress
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from support.forms import form, typed
from support.moves import tool as usual_tool
from support.parts import part_of, row
from support.records import made, refused

from extractor.codes import DrawingCode
from extractor.errors import SettingsError
from extractor.finding import Finding, Level
from extractor.sheet import Circle, Segments, Sheet, Source
from planner.increment import Increments
from postproc.motion import Motion
from rillwright.codes import JobCode
from rillwright.jobsheet.file import rebuild_sheet
from rillwright.jobsheet.index import render_index
from rillwright.jobsheet.refusal import close_picture, refusal_picture, small_picture
from rillwright.jobsheet.sheet import render_sheet
from rillwright.jobsheet.view import finding_rows
from rillwright.outcome import unreadable
from rillwright.records.record_extra import MOST_MOVES, _most_telling, drawn_lines, edge_points, path_of
from rillwright.records.record_file import record_in
from rillwright.records.recording import record_of, time_text
from rillwright.settings import Settings


@pytest.fixture
def ring(tmp_path):
    record, text = made(part_of(row(3, first=-10, pitch=5, width=3, floor=34)), [(1, 2, 3)])
    (tmp_path / "ring.json").write_text(json.dumps(record))
    (tmp_path / "ring.nc").write_text(text)
    return tmp_path


def test_a_sheet_is_rebuilt_beside_its_record(ring):
    assert rebuild_sheet(ring / "ring.json") == ring / "ring.html"
    page = (ring / "ring.html").read_text()
    assert 'id="stepping"' in page
    assert sorted(p.name for p in ring.iterdir()) == ["ring.html", "ring.json", "ring.nc"]


def test_inspection_rows_go_where_they_are_asked_for(ring):
    rebuild_sheet(ring / "ring.json", ring / "out.html", ring / "rows.csv")
    assert (ring / "rows.csv").read_bytes().count(b"\r\n") == 10
    assert (ring / "out.html").exists()


def test_a_program_edited_at_the_machine_is_called_so(ring):
    (ring / "ring.nc").write_text((ring / "ring.nc").read_text().replace("F0.08", "F0.20"))
    rebuild_sheet(ring / "ring.json")
    assert "edited after it was verified" in (ring / "ring.html").read_text()


def test_a_record_whose_program_is_gone_gets_its_sheet(ring):
    (ring / "ring.nc").unlink()
    rebuild_sheet(ring / "ring.json")
    assert 'id="listing"' not in (ring / "ring.html").read_text()


@pytest.mark.parametrize(
    "content",
    [
        "",
        "not JSON",
        "[]",
        "{}",
        '{"status": "made"}',
        '{"schema": 1, "status": "made", "part": {"grooves": [{"id": 1}]}}',
        "[" * 5000,
    ],
)
def test_what_is_no_record_is_refused_in_one_sentence_with_nothing_written(tmp_path, content):
    (tmp_path / "x.json").write_text(content)
    with pytest.raises(SettingsError, match=r"x\.json is (no|not a) .*record.*\.$"):
        rebuild_sheet(tmp_path / "x.json")
    assert [p.name for p in tmp_path.iterdir()] == ["x.json"]


def holes(value, path=()):
    """Every way to take one thing out of a record, or to put a word where it was."""
    keys = value.keys() if isinstance(value, dict) else range(min(len(value), 2)) if isinstance(value, list) else ()
    for key in keys:
        yield (*path, key)
        yield from holes(value[key], (*path, key))


def test_a_record_with_any_one_hole_gives_a_sheet_or_one_sentence():
    record, text = made(part_of(row(2, first=-10, pitch=5, width=3, floor=34)), [(1, 2)])
    record["path"]["moves"] = record["path"]["moves"][:3]
    refusal = refused()
    refusal["drawn"]["segments"] = refusal["drawn"]["segments"][:1]
    sheets = 0
    for whole, program in ((record, text), (refusal, None)):
        for path in list(holes(whole)):
            for instead in (None, "word"):
                broken = json.loads(json.dumps(whole))
                place = broken
                for key in path[:-1]:
                    place = place[key]
                place[path[-1]] = instead
                with suppress(SettingsError):
                    read = record_in(json.dumps(broken).encode(), "x.json")
                    assert "</html>" in render_sheet(read, program)
                    sheets += 1
    assert sheets > 50


def test_a_record_of_another_schema_is_not_read_as_if_it_were_ours(ring):
    record = json.loads((ring / "ring.json").read_text())
    (ring / "ring.json").write_text(json.dumps(record | {"schema": 2}))
    with pytest.raises(SettingsError, match="schema 2 and this version reads 1"):
        rebuild_sheet(ring / "ring.json")
    assert not (ring / "ring.html").exists()


def test_a_sheet_never_replaces_its_own_record(ring):
    with pytest.raises(SettingsError, match="overwritten"):
        rebuild_sheet(ring / "ring.json", ring / "ring.json")
    with pytest.raises(SettingsError, match="overwritten"):
        rebuild_sheet(ring / "ring.json", None, ring / "ring.json")


def test_an_index_has_a_card_for_each_part():
    good, _ = made(part_of(row(3, first=-10, pitch=5, width=3, floor=34)), [(1, 2, 3)])
    page = render_index([("ring", typed(good)), ("a & <b> #1", typed(refused()))], "Batch <7>")
    assert 'href="ring.html"' in page
    assert 'href="a%20%26%20%3Cb%3E%20%231.html"' in page
    assert "1 of 2 drawings" in page
    assert "Batch &lt;7&gt;" in page
    assert page.count('class="thumb"') == 2
    assert "The outline is open" in page
    assert "caution" not in page.split("<main")[1]


def test_an_index_counts_the_cautions_of_a_program():
    careful = [Finding(Level.CAUTION, code, "Look.") for code in (DrawingCode.LEFT_OUT, DrawingCode.MOUTH_LINE)]
    good, _ = made(part_of([(-10, -13, 34)]), [(1,)], findings=careful)
    assert "! 2 cautions on the sheet" in render_index([("ring", typed(good))])
    stopped = refused([*careful, Finding(Level.STOP, DrawingCode.NO_TURNED_PART, "No part.")])
    assert "on the sheet" not in render_index([("ring", typed(stopped))])


def test_names_that_are_no_text_or_no_address_are_linked_by_their_bytes():
    page = render_index([("r\udcffng", typed(refused())), ("50%?", typed(refused()))])
    assert 'href="r%FFng.html"' in page
    assert 'href="50%25%3F.html"' in page


def test_an_empty_batch_has_an_index_too():
    assert "0 of 0 drawings" in render_index([])


def test_every_place_of_a_refusal_is_ringed_where_it_is():
    spots = [(40, 17), (0, 0)]
    record = refused([Finding(Level.STOP, DrawingCode.OUTLINE_OPEN, f"Open at {s}.", s) for s in spots])
    root = ElementTree.fromstring(refusal_picture(typed(record).drawn, finding_rows(typed(record).findings)))
    rings = [c for c in root.iter() if c.get("class") == "ring"]
    (x1, y1), (x0, y0) = [(float(c.get("cx")), float(c.get("cy"))) for c in rings]
    # The drawing is 60 by 20, so both offsets must show one scale, x to the right and y upward.
    assert (x1 - x0) / 40 == pytest.approx((y0 - y1) / 17, rel=1e-3)
    assert x1 > x0


def test_a_spot_off_the_lines_is_in_the_picture():
    record = refused([Finding(Level.STOP, DrawingCode.OUTLINE_OPEN, "Far off.", (400, -90))])
    root = ElementTree.fromstring(refusal_picture(typed(record).drawn, finding_rows(typed(record).findings)))
    ring = next(c for c in root.iter() if c.get("class") == "ring")
    assert 0 < float(ring.get("cx")) < 1000
    assert 0 < float(ring.get("cy")) < float(root.get("viewBox").split()[3])


def test_without_lines_there_is_no_picture():
    bare = typed(refused(ends=[(0, 0, 1, 1)]) | {"drawn": None})
    rows = finding_rows(bare.findings)
    assert bare.drawn is None
    assert refusal_picture(None, rows) is close_picture(None, rows) is small_picture(None, 10, 10) is None


def test_one_lone_point_is_no_picture_to_divide_by():
    record = refused(ends=[(5, 5, 5, 5)])
    assert close_picture(typed(record).drawn, finding_rows(typed(record).findings)) is None
    assert small_picture(typed(record).drawn, 100, 50) is None


def sheet_of(count):
    ends = np.array([[i, 0.0, i + 1 + i / count, 0.0] for i in range(count)])
    segments = Segments(ends, np.zeros(count), np.zeros(count, dtype=np.int64), (Source("1", "LINE", "0"),))
    return Sheet("x.dxf", "0", segments, (Circle((1, 2), 3, Source("2", "CIRCLE", "0")),))


def test_few_lines_are_all_kept():
    drawn = drawn_lines(sheet_of(5))
    assert (len(drawn.segments), drawn.circles, drawn.left_out) == (5, ((1, 2, 3),), 0)


def test_of_many_lines_those_near_the_spot_and_the_longest_are_kept():
    drawn = drawn_lines(sheet_of(1000), [(100.0, 0.0)], most=20)
    starts = [s[0] for s in drawn.segments]
    assert len(starts) == 20
    assert drawn.left_out == 980
    assert {100.0, 99.0, 101.0} <= set(starts)
    assert 999.0 in starts


def test_a_long_path_is_bounded_and_says_so():
    motion = Motion(kind="feed", x0=0, z0=0, x1=1, z1=0, line=1, station=3, offset=3, feed=800)
    path = path_of([motion] * (MOST_MOVES + 7), "mm")
    assert (len(path.moves), path.left_out, path.tools) == (MOST_MOVES, 7, ((3, 3),))


def test_the_edge_of_an_insert_is_as_wide_as_it_is_and_round_at_its_corners():
    tool = usual_tool(corner_radius=0.4, reference="near")
    points = edge_points(tool, Increments.of("mm"))
    assert (points[0], points[-1]) == ((-3.0, 0.4), (0.0, 0.4))
    assert min(h for _, h in points) == 0
    corner = [(u, h) for u, h in points if u < -2.6 - 1e-9]
    for u, h in corner:
        assert np.hypot(u + 2.6, h - 0.4) == pytest.approx(0.4, abs=0.002)


def test_the_time_is_kept_in_universal_time_and_needs_a_zone():
    local = datetime(2031, 3, 4, 10, 30, tzinfo=timezone(timedelta(hours=1)))
    assert time_text(local) == "2031-03-04T09:30:00+00:00"
    assert local.astimezone(UTC).hour == 9
    with pytest.raises(ValueError, match="zone"):
        time_text(datetime(2031, 3, 4, 9, 30))


def test_nothing_read_leaves_only_who_and_when():
    outcome = unreadable(Path("x.dxf"), "0" * 64, JobCode.DRAWING_UNREADABLE, "It is none.")
    record = form(record_of(outcome, Settings(), "", datetime(2031, 3, 4, tzinfo=UTC)))
    assert record.keys().isdisjoint({"picture", "setup", "path", "drawn", "source", "edited", "changes"})
    assert record["made_at"] == "2031-03-04T00:00:00+00:00"


@pytest.mark.parametrize("seed", range(5))
def test_half_of_the_lines_kept_are_those_nearest_to_any_spot(seed):
    """Every line is held against every spot; the rest are the longest that are left."""
    rng = np.random.default_rng(seed)
    ends, spots = rng.uniform(-50, 50, (60, 4)), [tuple(p) for p in rng.uniform(-50, 50, (9, 2)).tolist()]
    gap = [min(math.dist(((a + c) / 2, (b + d) / 2), spot) for spot in spots) for a, b, c, d in ends.tolist()]
    near = sorted(range(60), key=lambda k: gap[k])[:10]
    rest = sorted(set(range(60)) - set(near), key=lambda k: -math.dist(ends[k][:2], ends[k][2:]))[:10]
    assert _most_telling(ends, spots, 20).tolist() == sorted([*near, *rest])
