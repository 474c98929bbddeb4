"""What lies in an inbox, when it has arrived, and which is next."""

import os
from pathlib import Path

import pytest

from rillwright.folder.queue import BIG, TURN, Waiting
from rillwright.folder.scan import InboxFile, is_temporary, look, shop_file_of
from rillwright.folder.settle import PATIENCE, Settling


def drop(inbox, name, data=b"0\nEOF\n"):
    path = inbox / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    return path


def names(found):
    return sorted(map(str, found))


def test_drawings_shop_files_and_the_rest_are_told_apart(tmp_path):
    for name in ("a.dxf", "sub/B.DXF", "shop.toml", "sub/shop.toml", "a.nc", "a.tap", "note", "a.pdf", "x.dwg"):
        drop(tmp_path, name)
    sight = look(tmp_path)
    assert names(sight.drawings) == ["a.dxf", "sub/B.DXF"]
    assert names(sight.shops) == ["shop.toml", "sub/shop.toml"]
    assert names(sight.others) == ["a.nc", "a.tap", "note"]


@pytest.mark.parametrize(
    "name",
    ["~$ring.dxf", "ring.dxf.tmp", ".ring.dxf.swp", "ring.dxf~", "ring.dwl", "ring.dxf.crdownload", "#ring.dxf#",
     ".rillwright-0.tmp", "ring.DXF.PART"],
)  # fmt: skip
def test_temporary_names_are_left_out(tmp_path, name):
    assert is_temporary(name)
    drop(tmp_path, name)
    assert not look(tmp_path).drawings


def test_links_are_not_followed_and_odd_files_not_opened(tmp_path):
    outside = drop(tmp_path / "outside", "ring.dxf")
    inbox = tmp_path / "inbox"
    inbox.mkdir()
    (inbox / "link.dxf").symlink_to(outside)
    (inbox / "folder").symlink_to(outside.parent, target_is_directory=True)
    os.mkfifo(inbox / "pipe.dxf")
    sight = look(inbox)
    assert not sight.drawings
    assert names(sight.odd) == ["folder", "link.dxf", "pipe.dxf"]


def test_results_that_lie_in_the_inbox_are_left_out(tmp_path):
    drop(tmp_path, "out/ring.nc")
    drop(tmp_path, "ring.dxf")
    assert not look(tmp_path, tmp_path / "out").others


def test_a_folder_that_may_not_be_read_is_passed_over_and_an_inbox_that_is_gone_is_an_error(tmp_path, monkeypatch):
    drop(tmp_path, "ring.dxf")
    drop(tmp_path, "closed/ring.dxf")
    real = os.scandir

    def scandir(path):
        if Path(path).name == "closed":
            raise PermissionError(13, "Permission denied")
        return real(path)

    monkeypatch.setattr(os, "scandir", scandir)
    assert names(look(tmp_path).drawings) == ["ring.dxf"]
    with pytest.raises(OSError, match="No such"):
        look(tmp_path / "gone")


def test_the_nearest_shop_file_rules(tmp_path):
    for name in ("shop.toml", "a/b/shop.toml", "a/b/c/x.dxf", "a/x.dxf", "x.dxf"):
        drop(tmp_path, name)
    sight = look(tmp_path)
    ruled = {str(name): str(shop_file_of(name, sight.shops)) for name in sight.drawings}
    assert ruled == {"a/b/c/x.dxf": "a/b/shop.toml", "a/x.dxf": "shop.toml", "x.dxf": "shop.toml"}


def found(name="ring.dxf", size=10, changed=0):
    return InboxFile(Path(name), (size, changed, 1, changed))


def test_a_file_arrives_when_it_has_stopped_changing(tmp_path):
    drop(tmp_path, "ring.dxf")
    settling = Settling(2.0)
    assert not settling.arrived(tmp_path, found(size=5), 0.0)
    assert not settling.arrived(tmp_path, found(size=8), 1.9)
    assert not settling.arrived(tmp_path, found(size=8), 3.8)
    assert settling.arrived(tmp_path, found(size=8), 3.9)


def test_a_drawing_without_its_end_is_waited_for_longer_but_not_for_ever(tmp_path):
    drop(tmp_path, "ring.dxf", b"0\nSECTION\n")
    settling = Settling(2.0)
    settling.arrived(tmp_path, found(), 0.0)
    assert not settling.arrived(tmp_path, found(), 2.0 * PATIENCE - 0.1)
    assert settling.arrived(tmp_path, found(), 2.0 * PATIENCE)


@pytest.mark.parametrize(("now", "told"), [(1.9, False), (2.0, True)])
def test_why_it_is_waited_for_is_told_once_it_has_stopped_changing(tmp_path, now, told):
    drop(tmp_path, "ring.dxf", b"0\nSECTION\n")
    settling = Settling(2.0)
    settling.arrived(tmp_path, found(), 0.0)
    reason = settling.lacks_end(tmp_path, found(), now)
    assert ("(EOF) is missing" in reason and "after 20 s" in reason) is told
    assert settling.lacks_end(tmp_path, found(), now) == ""


def test_it_is_told_of_each_state_of_a_drawing_and_of_none_that_is_whole(tmp_path):
    drop(tmp_path, "ring.dxf", b"0\nSECTION\n")
    settling = Settling(2.0)
    for changed in (0, 1):
        settling.arrived(tmp_path, found(changed=changed), 10.0 * changed)
        assert settling.lacks_end(tmp_path, found(changed=changed), 10.0 * changed + 2.0)
    drop(tmp_path, "ring.dxf")
    settling.arrived(tmp_path, found(changed=2), 20.0)
    assert settling.lacks_end(tmp_path, found(changed=2), 22.0) == ""


def test_what_can_not_be_opened_has_not_arrived(tmp_path):
    settling = Settling(2.0)
    settling.arrived(tmp_path, found("missing.dxf"), 0.0)
    assert not settling.arrived(tmp_path, found("missing.dxf"), 3.0)


def test_the_next_look_is_when_the_first_may_have_arrived(tmp_path):
    settling = Settling(2.0)
    assert settling.next_look(0.0) is None
    settling.arrived(tmp_path, found(), 0.0)
    assert settling.next_look(0.5) == pytest.approx(1.5)
    assert settling.next_look(2.0 * PATIENCE + 1) is None
    settling.forget(set())
    assert settling.next_look(0.5) is None


def line_up(*all_found):
    queue = Waiting()
    for one in all_found:
        queue.push(one)
    return queue


def test_small_new_ones_go_first():
    queue = line_up(found("old", changed=1), found("new", changed=9), found("huge", size=BIG, changed=99))
    assert [queue.pop().name.name for _ in range(3)] == ["new", "old", "huge"]
    assert queue.pop() is None


def test_the_one_that_waited_longest_has_its_turn():
    queue = line_up(found("first", size=BIG), *(found(f"n{n}", changed=n) for n in range(20)))
    order = [queue.pop().name.name for _ in range(TURN)]
    assert order[-1] == "first"
    assert len(set(order)) == TURN


def test_the_last_worker_is_not_given_to_a_huge_one():
    queue = line_up(found("huge", size=BIG))
    assert [queue.pop(big_allowed=False) for _ in range(TURN * 2)] == [None] * (TURN * 2)
    assert queue.pop().name.name == "huge"


def test_one_drawing_waits_once_and_a_dropped_one_never_comes_up():
    queue = line_up(found("a"), found("a", size=11), found("b"))
    queue.drop(Path("b"))
    assert len(queue) == 1
    assert Path("a") in queue
    assert queue.pop().size == 11
    assert queue.pop() is None
