"""What an inbox holds that is not taken is said, with what to do; a shop file that can't be read rules all the same."""

import json
import os
from dataclasses import replace
from pathlib import Path

import pytest
from support.drawings import draw_ring
from support.inboxes import programs_of, watch_once

from rillwright.folder.checks import Checks
from rillwright.folder.jobs import Folders
from rillwright.folder.log import WatchLog
from rillwright.folder.scan import UNREAD, InboxFile, Sight, look
from rillwright.folder.settle import Settling
from rillwright.folder.shops import Shops
from rillwright.folder.untaken import ALONE, ENDINGS, LINK, SEVERAL, UNANSWERED, Untaken
from rillwright.settings import Settings


def test_every_kind_that_is_not_read_has_its_reason():
    assert set(ENDINGS) == UNREAD


def test_each_file_is_told_once_and_a_lone_program_only_when_it_stays(tmp_path):
    (tmp_path / "lost.answers.toml").write_text("")
    for name in ("part.DWG", "print.pdf", "model.stp", "photo.jpg", "all.zip", "my-shop.toml", "old.nc", "notes.md"):
        (tmp_path / name).write_bytes(b"x")
    (tmp_path / "link.dxf").symlink_to("/dev/null")
    untaken = Untaken()
    first = {str(name): why for name, why in untaken.look(look(tmp_path)).items()}
    assert set(first) == {"part.DWG", "print.pdf", "model.stp", "photo.jpg", "all.zip", "my-shop.toml", "link.dxf"}
    assert first["link.dxf"] == LINK
    assert {str(n): w for n, w in untaken.look(look(tmp_path)).items()} == {
        "old.nc": ALONE,
        "lost.answers.toml": UNANSWERED,
    }
    assert untaken.look(look(tmp_path)) == {}
    draw_ring(tmp_path / "old.dxf")
    assert untaken.look(look(tmp_path)) == {}
    assert "old.nc" not in map(str, untaken.reasons)


def test_a_program_that_may_belong_to_several_drawings_is_held_against_none(tmp_path):
    for name in ("part.dxf", "PART.DXF", "one.dxf"):
        draw_ring(tmp_path / name)
    for name in ("part.mpf", "one.mpf"):
        (tmp_path / name).write_text("G0 X1.\nG1 X2.\n")
    untaken, sight = Untaken(), look(tmp_path)
    untaken.look(sight)
    assert untaken.look(sight) == {Path("part.mpf"): SEVERAL}
    shops = Shops(tmp_path, Settings(), Settling(0.0))
    checks = Checks(Folders(tmp_path, tmp_path / "out"), shops, shops.settling, WatchLog(terminal=False))
    due = [found.name for at in (0.0, 1.0) for found, _, _ in checks.due(sight, at)]
    assert due == [Path("one.mpf")]
    (tmp_path / "PART.DXF").unlink()
    assert Path("part.mpf") in [found.name for at in (2.0, 3.0) for found, _, _ in checks.due(look(tmp_path), at)]


@pytest.mark.parametrize("kind", ["link", "dead link", "pipe", "folder"])
def test_what_is_called_shop_toml_and_is_none_fails_the_drawings_below(tmp_path, kind):
    inbox, out = tmp_path / "inbox", tmp_path / "out"
    (inbox / "lathe").mkdir(parents=True)
    draw_ring(inbox / "lathe" / "ring.dxf")
    draw_ring(inbox / "free.dxf")
    shop = inbox / "lathe" / "shop.toml"
    (tmp_path / "real.toml").write_text('units = "mm"\n')
    make = {
        "link": lambda: shop.symlink_to(tmp_path / "real.toml"),
        "dead link": lambda: shop.symlink_to(tmp_path / "gone.toml"),
        "pipe": lambda: os.mkfifo(shop),
        "folder": shop.mkdir,
    }
    make[kind]()
    assert watch_once(inbox, out).returncode == 1
    assert set(map(str, programs_of(out))) == {"free.nc"}
    text = (out / "lathe" / "ring.json").read_text()
    assert "put the shop.toml itself there, or take it away" in text
    assert [one["code"] for one in json.loads(text)["findings"]] == ["shop-file"]


def test_a_shop_file_that_is_away_for_a_moment_changes_nothing_until_it_has_settled(tmp_path):
    (tmp_path / "shop.toml").write_text('units = "mm"\n[machine]\nmax_rpm = 900\n')
    draw_ring(tmp_path / "ring.dxf")
    shops = Shops(tmp_path, Settings(), Settling(2.0))
    (drawing,) = look(tmp_path).drawings
    there = look(tmp_path)
    away = replace(there, shops={})
    assert shops.ruling(drawing, there, 0.0) is None
    told = shops.ruling(drawing, there, 2.0)
    assert "900" in told.settings.shop_text
    assert shops.ruling(drawing, away, 3.9) is None
    assert shops.ruling(drawing, there, 3.9) == told
    assert shops.ruling(drawing, away, 5.8) is None
    assert shops.ruling(drawing, away, 5.9).settings.shop_text == ""


def test_a_page_is_there_for_what_is_not_taken_alone(tmp_path):
    inbox, out = tmp_path / "inbox", tmp_path / "out"
    inbox.mkdir()
    (inbox / "part.dwg").write_bytes(b"AC1032")
    done = watch_once(inbox, out)
    assert '"ignored"' in done.stdout
    assert "a DWG is not read; save the drawing as DXF" in (out / "index.html").read_text("utf-8")


def test_a_sight_knows_whose_answers_a_file_holds(tmp_path):
    for age, name in enumerate(("ring.answers.toml", "answers.toml", "Ring.answers (1).toml", "other.answers.toml")):
        (tmp_path / name).write_text("")
        os.utime(tmp_path / name, ns=(age + 1, age + 1))
    draw_ring(tmp_path / "ring.dxf")
    sight = look(tmp_path)
    (drawing,) = sight.drawings
    wanted = ["answers.toml", "ring.answers.toml", "Ring.answers (1).toml"]
    assert [str(one.name) for one in sight.answers_to(drawing)] == wanted
    assert isinstance(sight, Sight)
    assert all(isinstance(one, InboxFile) for one in sight.answers_to(drawing))
