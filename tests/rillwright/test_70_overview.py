"""The page over a watched folder's results: whole, up to date, never in the way of a drawing, never a burden."""

import os
import time
from dataclasses import replace
from html.parser import HTMLParser
from urllib.parse import unquote_to_bytes

import pytest
from support.drawings import draw_ring
from support.inboxes import watch_once

from rillwright.folder import overview
from rillwright.folder.ledger import Cause, Ledger, Result, Underneath
from rillwright.folder.log import WatchLog
from rillwright.folder.overview import BEAT, LEAST, MOST, REST, Overview
from rillwright.jobsheet.index import MARK
from rillwright.jobsheet.overview import local_time, zone
from rillwright.outputs import Outputs

CAUSE = Cause("d1", "s1", "0.1.0")
MADE = Result(b"ring.dxf", CAUSE, "made", 1, "ring.nc", "p1", "", 1, "t0", "2031-05-06T07:08:09+00:00")
ODD = ("two words", 'it\'s "odd"', "<script>boom()</script>", "línea ⌀", "a\nb", "حلقة", "環 Ring", "50% #1?")


class Page(HTMLParser):
    """Links and texts of a page, and the tags that are in it."""

    def __init__(self, text):
        super().__init__()
        self.links, self.tags, self.texts = [], set(), []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        self.links += [value for name, value in attrs if name == "href"]

    def handle_data(self, data):
        self.texts.append(data)


def page_of(folder):
    return Page((folder / "index.html").read_text("utf-8"))


class Hand:
    """A clock that is set by hand; each reading may take some time."""

    def __init__(self, now=0.0, takes=0.0):
        self.now, self.takes = now, takes

    def __call__(self):
        self.now += self.takes
        return self.now


class Said(WatchLog):
    """Keeps what is said."""

    def __init__(self):
        super().__init__(terminal=False)
        self.told = []

    def event(self, event, **fields):
        self.told.append((event, fields))


@pytest.fixture
def ledger(tmp_path):
    with Ledger(tmp_path) as opened:
        yield opened


def enter(ledger, name, **changes):
    drawing = os.fsencode(name)
    ledger.stem(drawing, [str(name).removesuffix(".dxf")])
    ledger.finish(replace(MADE, drawing=drawing, **changes))


def test_a_watch_leaves_a_page_whose_links_lead_to_every_sheet(tmp_path):
    inbox, out = tmp_path / "in", tmp_path / "out"
    for folder, names in ((inbox, ODD), (inbox / "sub folder", ODD[:2])):
        folder.mkdir()
        for name in names:
            draw_ring(folder / f"{name}.dxf".replace("/", "-"))
    draw_ring(inbox / "bare.dxf", insunits=0)
    assert watch_once(inbox, out).returncode == 1
    page = page_of(out)
    links = {out / os.fsdecode(unquote_to_bytes(link.partition("#")[0])) for link in page.links}
    sheets = {link for link in links if link.suffix == ".html"}
    assert sheets == {path for path in out.rglob("*.html") if path.name != "index.html"}
    assert links - sheets == set(out.rglob("*.nc"))
    assert len(sheets) == len(ODD) + 2 + 1
    assert [link for link in page.links if link.endswith("#reasons")] == ["bare.html#reasons"]
    assert "boom" not in (out / "index.html").read_text("utf-8").rpartition("<script>")[2]
    told = " ".join(page.texts)
    assert f"{len(ODD) + 3} drawings: {len(ODD) + 2} made, 1 refused" in told
    assert "Give --units mm or --units in." in told
    before = (out / "index.html").stat()
    assert watch_once(inbox, out).returncode == 1
    assert (out / "index.html").stat().st_mtime_ns == before.st_mtime_ns, "nothing new, and written again"


def test_a_program_held_against_its_drawing_is_on_it(tmp_path):
    inbox, out = tmp_path / "in", tmp_path / "out"
    inbox.mkdir()
    draw_ring(inbox / "ring.dxf")
    (inbox / "ring.tap").write_text("%\nO1\nG0 X42. Z-13.\nG1 X34. F0.1\nM30\n%\n")
    assert watch_once(inbox, out).returncode == 0
    texts = page_of(out).texts
    assert "ring.tap" in texts
    assert "Programs held against their drawings" in texts


def test_a_drawing_called_index_does_not_take_its_place(tmp_path):
    inbox, out = tmp_path / "in", tmp_path / "out"
    inbox.mkdir()
    for name in ("INDEX.dxf", "index.dxf", "index.2.dxf"):
        draw_ring(inbox / name)
    assert watch_once(inbox, out).returncode == 0
    page = page_of(out)
    assert "Results of the watched folder" in page.texts
    sheets = {unquote_to_bytes(link).decode() for link in page.links if link.endswith(".html")}
    assert len(sheets) == 3
    assert not {"index.html", "index.2.html"} & {sheet.casefold() for sheet in sheets}
    assert all((out / sheet).is_file() for sheet in sheets)


def test_it_is_behind_for_a_small_share_of_the_time_and_no_longer(tmp_path, ledger, monkeypatch):
    clock, written = Hand(takes=0.5), []
    monkeypatch.setattr(overview, "write_atomic", lambda path, data: written.append(data))
    page = Overview(tmp_path, Said(), clock)
    enter(ledger, "ring.dxf")
    assert page.wait(clock()) == 0.0
    page.renew(ledger)
    assert len(written) == 1
    assert page.wait(clock()) is None
    page.due, began = True, clock.now
    page.renew(ledger)
    assert len(written) == 1
    assert page.wait(began) == pytest.approx(REST * 0.5, abs=1.0)
    clock.now = began + REST * 0.5 + 1
    page.renew(ledger)
    assert len(written) == 2


def test_quick_ones_are_not_renewed_more_often_than_anybody_looks(tmp_path, ledger):
    clock = Hand()
    page = Overview(tmp_path, Said(), clock)
    enter(ledger, "ring.dxf")
    page.renew(ledger)
    page.due = True
    assert page.wait(clock.now) == LEAST
    page.renew(ledger, at_once=True)
    assert page.wait(clock.now) is None


def test_of_thousands_each_page_shows_some_and_leads_to_the_others(tmp_path, ledger):
    for n in range(MOST + 7):
        enter(ledger, f"ring {n:04d}.dxf", state="made" if n % 2 else "refused")
    (tmp_path / "index.3.html").write_bytes(MARK)
    Overview(tmp_path, Said(), Hand()).renew(ledger)
    first, second = page_of(tmp_path), Page((tmp_path / "index.2.html").read_text("utf-8"))
    assert len(first.links) == MOST + 1
    assert first.links[0] == f"ring%20{MOST + 6:04d}.html"
    assert (first.links[-1], second.links[-1]) == ("index.2.html", "index.html")
    assert second.links[:-1] == [f"ring%20{n:04d}.html" for n in range(6, -1, -1)]
    assert f"{MOST + 7} drawings: {(MOST + 7) // 2} made, {(MOST + 8) // 2} refused" in " ".join(first.texts)
    assert not (tmp_path / "index.3.html").exists(), "a page that is needed no more"


def test_edited_orphaned_and_foreign_programs_are_on_it(tmp_path, ledger):
    for name, state in (
        ("right", "made"),
        ("wrong", "made"),
        ("away", "made"),
        ("old", "orphaned"),
        ("gone", "removed"),
    ):
        reason = "" if state == "made" else f"It is {state}."
        enter(ledger, f"{name}.dxf", state=state, cautions=3, reason=reason, program_file=f"{name}.nc")
        if state == "removed":
            ledger.release(f"{name}.dxf".encode())
    ledger.lies(b"right.dxf", Underneath("e1", "edited", True, "It still makes it."))
    ledger.lies(b"wrong.dxf", Underneath("e2", "edited", False, "It does not make it."))
    ledger.lies(b"away.dxf", Underneath("", "seen", None, "It was taken away."))
    for name in ("right", "wrong", "old", "foreign", "gone.edited-1"):
        (tmp_path / f"{name}.nc").write_text("%")
    Overview(tmp_path, Said(), Hand()).renew(ledger)
    page = page_of(tmp_path)
    told = " ".join(" ".join(page.texts).split())
    for words in (
        "right.nc ✓ agrees – It still makes it.",
        "wrong.nc ✗ differs – It does not make it.",
        "away.nc ! taken away – It was taken away.",
        "foreign.nc ! unknown – Nothing is known about it; not checked.",
        "gone.edited-1.nc ! edited – It was moved aside; not checked.",
        "old.dxf ! orphaned old.nc",
        "right.dxf ! edited right.nc",
        "wrong.dxf ✗ edited, wrong wrong.nc",
        "away.dxf ! taken away away.nc",
        "! 3 cautions on the sheet.",
    ):
        assert words in told, (words, told)
    assert {"old.nc", "right.nc", "wrong.nc", "foreign.nc", "gone.edited-1.nc"} <= set(page.links)
    assert "away.nc" not in page.links
    assert "gone.html" not in page.links


def test_a_watch_shows_that_it_lives_what_waits_and_when_it_was_stopped(tmp_path, ledger):
    clock = Hand()
    page = Overview(tmp_path, Said(), clock, since="2031-05-06T07:08:09+00:00")
    page.show_line(["next.dxf"], ["The inbox can't be read."])
    page.renew(ledger)
    text = (tmp_path / "index.html").read_text("utf-8")
    assert f"The watch is at work since {local_time('2031-05-06T07:08:09+00:00')}." in text
    assert "In line: 1 drawing<" in text
    assert "next.dxf" in text
    assert "The inbox can&#39;t be read." in text
    assert page.wait(clock.now) == BEAT
    clock.now += BEAT
    (tmp_path / "index.html").unlink()
    page.renew(ledger)
    assert (tmp_path / "index.html").exists(), "no beat"
    page.end()
    page.renew(ledger, at_once=True)
    text = (tmp_path / "index.html").read_text("utf-8")
    assert "The watch was stopped since" in text
    assert "data-sign" not in text


def test_a_time_is_that_of_the_clock_on_the_wall(monkeypatch):
    monkeypatch.setenv("TZ", "XYZ-5:30")
    time.tzset()
    try:
        assert local_time("2031-05-06T20:08:09+00:00") == "2031-05-07 01:38:09"
        assert zone() == "+0530"
        assert local_time("t0") == "t0"
    finally:
        monkeypatch.undo()
        time.tzset()


def test_a_name_that_turns_the_writing_is_shown_without_its_turn(tmp_path, ledger):
    enter(ledger, "ring\u202efxd.dxf")
    Overview(tmp_path, Said(), Hand()).renew(ledger)
    assert "\u202e" not in (tmp_path / "index.html").read_text("utf-8")
    assert (tmp_path / os.fsdecode(unquote_to_bytes(page_of(tmp_path).links[0]))).name == "ring\u202efxd.html"


def test_that_it_can_not_be_written_is_told_once_and_tried_again(tmp_path, ledger, monkeypatch):
    said, clock = Said(), Hand()
    page = Overview(tmp_path, said, clock)
    enter(ledger, "ring.dxf")

    def full(*_):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(overview, "write_atomic", full)
        for _ in range(3):
            page.renew(ledger, at_once=True)
    assert said.told == [("cannot-write", {"drawing": "index.html", "reason": "No space left on device"})]
    page.renew(ledger, at_once=True)
    assert page_of(tmp_path).links == ["ring.html"]


def test_nothing_is_written_where_the_ledger_is_away(tmp_path):
    folder = tmp_path / "share"
    folder.mkdir()
    with Ledger(folder) as ledger:
        enter(ledger, "ring.dxf")
        folder.rename(tmp_path / "away")
        folder.mkdir()
        Overview(folder, Said(), Hand()).renew(ledger)
    assert list(folder.iterdir()) == []


def test_a_page_of_somebody_s_own_is_left_alone(tmp_path, ledger):
    enter(ledger, "ring.dxf")
    (tmp_path / "index.html").write_text("<h1>Our shop</h1>")
    said = Said()
    Overview(tmp_path, said, Hand()).renew(ledger)
    assert (tmp_path / "index.html").read_text() == "<h1>Our shop</h1>"
    assert said.told == []


def test_without_a_result_there_is_no_page(tmp_path, ledger):
    Overview(tmp_path, Said(), Hand()).renew(ledger)
    assert not (tmp_path / "index.html").exists()


def test_a_sheet_is_where_the_outputs_say(tmp_path, ledger):
    enter(ledger, "a/b c/ring.dxf")
    Overview(tmp_path, Said(), Hand()).renew(ledger)
    assert unquote_to_bytes(page_of(tmp_path).links[0]) == b"a/b c/ring.html"
    assert Outputs(tmp_path / "a/b c", "ring").sheet == tmp_path / "a/b c/ring.html"
