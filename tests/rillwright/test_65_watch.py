"""The watch as a process: what lands in an inbox becomes a program once, and what is changed becomes one anew."""

import json
import os
import shutil
import signal
import subprocess

import pytest
from support.drawings import draw_ring
from support.inboxes import (
    FAST,
    TOOL,
    heard,
    load,
    programs_of,
    results_of,
    wait_until,
    watch_once,
    watching,
)


@pytest.fixture
def inbox(tmp_path):
    folder = tmp_path / "inbox"
    folder.mkdir()
    return folder


@pytest.fixture
def out(tmp_path):
    return tmp_path / "out"


def events(text):
    return [json.loads(line) for line in text.splitlines()]


def told(process, *names):
    return [one for one in events(process.stdout) if one["event"] in names]


def test_a_whole_life(inbox, out):
    """Dropped, once more untouched, changed, edited, refused: one inbox through all of it."""
    draw_ring(inbox / "ring.dxf")
    (inbox / "sub").mkdir()
    draw_ring(inbox / "sub" / "it's ünïcode \n.dxf")
    first = watch_once(inbox, out)
    assert first.returncode == 0, first.stderr
    assert sorted(one["drawing"] for one in told(first, "made")) == ["ring.dxf", "sub/it's ünïcode \n.dxf"]
    findings = json.loads((out / "ring.json").read_text())["findings"]
    assert told(first, "made")[0]["cautions"] == sum(one["level"] == "caution" for one in findings) > 0

    again = watch_once(inbox, out)
    assert (again.returncode, told(again, "made", "refused", "failed")) == (0, [])

    draw_ring(inbox / "ring.dxf", ((-10, -13, 34), (-21, -24, 34), (-30, -33, 34)))
    (changed,) = told(watch_once(inbox, out), "made")
    assert changed["revision"] == 2
    assert changed["changes"] == ["Groove 2 moved by 1 toward the chuck.", "Groove 3 was added at Z-30, 3 wide."]
    assert (out / "ring.r1.nc.stale").exists()
    codes = [one["code"] for one in json.loads((out / "ring.json").read_text())["findings"]]
    assert codes.count("drawing-changed") == 2

    ours = (out / "ring.nc").read_bytes()
    (out / "ring.nc").write_bytes(ours.replace(b"X34.", b"X33."))
    (held,) = told(watch_once(inbox, out), "edited")
    assert held["agree"] is False
    assert "no longer makes the drawing (groove 1: depth" in held["reason"]
    assert "Edited, and wrong" in (out / "ring.html").read_text()
    assert told(watch_once(inbox, out), "edited", "made") == []
    (out / "ring.nc").write_bytes(ours.replace(b"F0.08", b"F0.06"))
    (held,) = told(watch_once(inbox, out), "edited")
    assert held["agree"] is True
    assert "Edited, still right" in (out / "ring.html").read_text()
    assert [one.state for one in results_of(out) if one.name == "ring.dxf"] == ["made"] * 2

    draw_ring(inbox / "ring.dxf", ((-10, -13, 34),))
    edited = watch_once(inbox, out)
    assert told(edited, "made")[0]["program"] == "ring.nc"
    assert "it is kept as ring.edited-1.nc" in told(edited, "edited")[0]["reason"]
    assert b"F0.06" in (out / "ring.edited-1.nc").read_bytes()

    (out / "ring.nc").unlink()
    (away,) = told(watch_once(inbox, out), "program-gone")
    assert away["reason"] == "Its program was taken away; drop the drawing again to have it made again."
    assert not (out / "ring.nc").exists()
    (inbox / "ring.dxf").write_bytes((inbox / "ring.dxf").read_bytes())
    assert len(told(watch_once(inbox, out), "made")) == 1
    assert (out / "ring.nc").exists()

    draw_ring(inbox / "ring.dxf", ())
    refused = watch_once(inbox, out)
    assert refused.returncode == 1
    assert told(refused, "refused")[0]["reason"]
    assert [str(path) for path in programs_of(out) if path.name.startswith("ring")] == ["ring.edited-1.nc"]
    assert [one.state for one in results_of(out) if one.name == "ring.dxf"] == ["made"] * 3 + ["refused"]


@pytest.mark.parametrize("keep", [False, True])
def test_a_drawing_that_is_taken_out_or_renamed_leaves_no_program_but_by_choice(inbox, out, keep):
    for name in ("gone", "old", "stays"):
        draw_ring(inbox / f"{name}.dxf", ((-10, -13, 34 - len(name) / 4),))
    more = ["--keep-orphaned"] if keep else []
    assert watch_once(inbox, out, *more).returncode == 0
    (inbox / "gone.dxf").unlink()
    (inbox / "old.dxf").rename(inbox / "new.dxf")
    done = watch_once(inbox, out, *more)
    assert done.returncode == 0
    reasons = {one["drawing"]: (one["event"], one["reason"]) for one in told(done, "removed", "orphaned")}
    assert reasons["old.dxf"] == ("removed", "The drawing is new.dxf now; its program was set aside.")
    assert reasons["gone.dxf"][0] == ("orphaned" if keep else "removed")
    assert set(map(str, programs_of(out))) == {"new.nc", "stays.nc"} | ({"gone.nc"} if keep else set())
    assert told(watch_once(inbox, out, *more), "removed", "orphaned", "made") == []
    # It comes back as it was: made again.
    draw_ring(inbox / "gone.dxf", ((-10, -13, 33),))
    assert watch_once(inbox, out, *more).returncode == 0
    assert set(map(str, programs_of(out))) == {"gone.nc", "new.nc", "stays.nc"}


def test_an_inbox_that_is_empty_for_being_another_folder_takes_nothing_away(inbox, out, tmp_path):
    """What a share that is not mounted looks like: the folder is there, and nothing in it."""
    draw_ring(inbox / "ring.dxf")
    assert watch_once(inbox, out).returncode == 0
    inbox.rename(tmp_path / "share")
    inbox.mkdir()
    assert told(watch_once(inbox, out), "removed") == []
    assert (out / "ring.nc").exists()
    inbox.rmdir()
    (tmp_path / "share").rename(inbox)
    (inbox / "ring.dxf").unlink()
    assert len(told(watch_once(inbox, out), "removed")) == 1
    assert programs_of(out) == {}


def test_a_shop_file_rules_its_folder_and_a_changed_one_makes_anew(inbox, out):
    (inbox / "lathe").mkdir()
    draw_ring(inbox / "ring.dxf")
    draw_ring(inbox / "lathe" / "ring.dxf")
    shop = inbox / "lathe" / "shop.toml"
    shop.write_text('[machine]\ndialect = "plunge"\n')
    assert watch_once(inbox, out).returncode == 0
    assert "G75" in (out / "ring.nc").read_text()
    assert "G75" not in (out / "lathe" / "ring.nc").read_text()

    shop.write_text('[machine]\ndialect = "one-block"\n')
    (again,) = told(watch_once(inbox, out), "made")
    assert (again["drawing"], again["revision"]) == ("lathe/ring.dxf", 2)

    # A program beside it can't be judged then, and holds up nothing.
    (inbox / "lathe" / "ring.txt").write_text((out / "lathe" / "ring.nc").read_text())
    shop.write_text("[machine]\nmax_rmp = 3\n")
    bad = watch_once(inbox, out)
    assert bad.returncode == 1
    (failed,) = told(bad, "failed")
    assert "max_rmp" in failed["reason"]
    assert not (out / "lathe" / "ring.nc").exists()
    assert (out / "ring.nc").exists()

    shop.write_text('[machine]\ndialect = "plunge"\n')
    good = watch_once(inbox, out)
    assert good.returncode == 0
    assert [one.state for one in results_of(out) if one.name == "lathe/ring.dxf"] == ["made", "made", "failed", "made"]


def test_a_program_beside_its_drawing_is_judged_whatever_its_ending(inbox, out):
    draw_ring(inbox / "ring.dxf")
    assert watch_once(inbox, out).returncode == 0
    right = (out / "ring.nc").read_text()
    (inbox / "ring.tap").write_text(right)
    (inbox / "ring.txt").write_text(right.replace("X34.", "X35."))
    (inbox / "ring.md").write_text(right)
    (inbox / "other.nc").write_text(right)
    (inbox / "ring.letter").write_text("Dear setter,\nplease make ten of these by Friday.\n")
    checks = told(watch_once(inbox, out), "check")
    assert sorted((one["program"], one["agree"]) for one in checks) == [("ring.tap", True), ("ring.txt", False)]
    assert json.loads((out / "ring.tap.verdict.json").read_text())["agree"] is True
    assert "Differ" in (out / "ring.txt.verdict.txt").read_text()
    assert told(watch_once(inbox, out), "check") == []

    draw_ring(inbox / "ring.dxf", ((-10, -13, 35), (-20, -23, 35)))
    checks = told(watch_once(inbox, out), "check")
    assert sorted((one["program"], one["agree"]) for one in checks) == [("ring.tap", False), ("ring.txt", True)]


def test_one_that_runs_takes_what_lands_and_ends_with_0_at_a_signal(inbox, out):
    with watching(inbox, out) as process:
        wait_until((out / "ledger.sqlite").exists)
        draw_ring(inbox / "ring.dxf")
        wait_until((out / "ring.nc").exists)
        (inbox / "deep").mkdir()
        draw_ring(inbox / "deep" / "late.dxf")
        wait_until((out / "deep" / "late.nc").exists)
        process.send_signal(signal.SIGTERM)
        stdout, stderr = process.communicate(timeout=300)
    assert (process.returncode, stderr) == (0, "")
    assert [one["event"] for one in events(stdout)] == ["start", "made", "made", "stop"]


def test_a_copy_in_progress_is_waited_for(inbox, out, tmp_path):
    whole = draw_ring(tmp_path / "whole.dxf").read_bytes()
    # A file without its end is taken after ten times this: longer than a busy machine pauses between two writes.
    with watching(inbox, out, "--settle", "2") as process:
        wait_until((out / "ledger.sqlite").exists)
        with (inbox / "ring.dxf").open("wb") as copy:
            for start in range(0, len(whole), len(whole) // 6 + 1):
                copy.write(whole[start : start + len(whole) // 6 + 1])
                copy.flush()
                os.fsync(copy.fileno())
                assert not (out / "ring.json").exists()
                subprocess.run(["sleep", "0.2"], check=True)
        wait_until((out / "ring.nc").exists)
        process.terminate()
        stdout, _ = process.communicate(timeout=300)
    assert [one["event"] for one in events(stdout)] == ["start", "made", "stop"]


def test_the_inbox_may_go_away_and_come_back(inbox, out, tmp_path):
    with watching(inbox, out) as process:
        draw_ring(inbox / "ring.dxf")
        wait_until((out / "ring.nc").exists)
        inbox.rename(tmp_path / "away")
        heard(process, "inbox-gone")
        draw_ring(tmp_path / "away" / "late.dxf")
        (tmp_path / "away").rename(inbox)
        heard(process, "inbox-back")
        wait_until((out / "late.nc").exists)
        process.terminate()
        heard(process, "stop")


def test_the_results_folder_may_go_away_and_come_back(inbox, out, tmp_path):
    with watching(inbox, out) as process:
        draw_ring(inbox / "ring.dxf")
        wait_until((out / "ring.nc").exists)
        out.rename(tmp_path / "away")
        draw_ring(inbox / "late.dxf")
        heard(process, "cannot-write", drawing="late.dxf")
        # Nothing may be put where the share is mounted when it is back.
        assert not out.exists()
        (tmp_path / "away").rename(out)
        wait_until((out / "late.nc").exists)
        process.terminate()
        heard(process, "stop")
    assert [one.state for one in results_of(out)] == ["made", "made"]


def test_a_second_watch_on_the_folder_ends_with_a_sentence(inbox, out, tmp_path):
    with watching(inbox, out):
        wait_until((out / "ledger.sqlite").exists)
        for second in (watch_once(inbox, out), watch_once(inbox, tmp_path / "other")):
            assert second.returncode == 2
            assert "Another watch is at work" in second.stderr
            assert len(second.stderr.splitlines()) == 1
    assert watch_once(inbox, out).returncode == 0


def test_links_out_of_the_inbox_are_not_followed(inbox, out, tmp_path):
    draw_ring(tmp_path / "secret.dxf")
    (inbox / "link.dxf").symlink_to(tmp_path / "secret.dxf")
    done = watch_once(inbox, out)
    assert done.returncode == 0
    assert told(done, "ignored")[0]["drawing"] == "link.dxf"
    assert programs_of(out) == {}


def test_a_drawing_that_takes_too_long_fails(inbox, out):
    draw_ring(inbox / "slow.dxf", tuple((-10 - 6 * n, -13 - 6 * n, 34) for n in range(3000)), length=20_000)
    done = watch_once(inbox, out, "--time-limit", "1", "--workers", "1")
    assert done.returncode == 1
    (failed,) = told(done, "failed")
    assert (failed["drawing"], "more than 1 s" in failed["reason"]) == ("slow.dxf", True)
    assert json.loads((out / "slow.json").read_text())["status"] == "refused"
    assert "more than 1 s" in (out / "slow.html").read_text()


def test_results_inside_of_the_inbox_are_not_taken_for_drops(inbox):
    draw_ring(inbox / "ring.dxf")
    assert watch_once(inbox, inbox / "out").returncode == 0
    again = watch_once(inbox, inbox / "out")
    assert (again.returncode, told(again, "made", "check", "refused")) == (0, [])


def test_a_file_that_lost_its_permission_is_tried_again_when_it_has_it_back(inbox, out):
    draw_ring(inbox / "ring.dxf")
    (inbox / "ring.dxf").chmod(0)
    if os.access(inbox / "ring.dxf", os.R_OK):
        # The superuser may open anything: nothing to be seen here.
        shutil.rmtree(out, ignore_errors=True)
        return
    assert watch_once(inbox, out).returncode == 1
    (inbox / "ring.dxf").chmod(0o644)
    assert watch_once(inbox, out).returncode == 0


def test_on_a_terminal_there_is_a_line_and_no_json(inbox, out):
    load(inbox, 2)
    call = " ".join(f"'{word}'" for word in [*TOOL, "watch", str(inbox), "--out", str(out), "--once", *FAST])
    done = subprocess.run(["script", "-qec", call, "/dev/null"], capture_output=True, text=True, timeout=600)
    assert "2 made, 0 refused, 0 failed, 0 waiting" in done.stdout
    assert '"event"' not in done.stdout


ODD_NAMES = [
    b"two\nlines",
    b'say "so"',
    b"it's",
    "größe Ø".encode(),
    b"\xff\xfe",
    b"x" * 251,
    b" ",
    b"-rf",
    b"a;b$(c)`d`",
]


def test_any_name_ends_in_a_result_of_its_own(inbox, out, tmp_path):
    plain = draw_ring(tmp_path / "plain.dxf").read_bytes()
    for name in ODD_NAMES:
        (inbox / os.fsdecode(name + b".dxf")).write_bytes(plain)
    done = watch_once(inbox, out)
    assert (done.returncode, done.stderr) == (0, "")
    assert {one.drawing: one.state for one in results_of(out)} == {name + b".dxf": "made" for name in ODD_NAMES}
    assert len(programs_of(out)) == len(ODD_NAMES)


def test_a_log_that_can_not_be_written_stops_nothing(inbox, out):
    load(inbox, 2)
    call = [*TOOL, "watch", str(inbox), "--out", str(out), "--once", *FAST]
    with open("/dev/full", "w") as full:
        assert subprocess.run(call, stdout=full, timeout=600).returncode == 0
    assert len(programs_of(out)) == 2


def test_a_reader_of_the_history_needs_no_right_to_write(inbox, out, tmp_path):
    draw_ring(inbox / "ring.dxf")
    watch_once(inbox, out)
    (out / "ledger.sqlite").chmod(0o444)
    told = subprocess.run([*TOOL, "history", str(out)], capture_output=True, text=True, timeout=600)
    assert (told.returncode, told.stderr) == (0, "")
    assert "ring.dxf  made" in told.stdout


def test_a_drawing_that_lacks_its_end_is_told_before_it_is_taken(inbox, out):
    draw_ring(inbox / "ring.dxf")
    path = inbox / "ring.dxf"
    path.write_bytes(path.read_bytes().rstrip()[: -len("EOF")])
    order = told(watch_once(inbox, out), "waiting", "made", "refused", "failed")
    assert [one["drawing"] for one in order] == ["ring.dxf"] * 2
    assert order[0]["event"] == "waiting"
