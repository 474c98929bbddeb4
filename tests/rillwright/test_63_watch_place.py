"""Where results go, and what becomes of the programs there: nothing is lost, overwritten or left to be run."""

import hashlib
from dataclasses import replace

import pytest

from rillwright.folder import placing
from rillwright.folder.ledger import Cause, Ledger
from rillwright.folder.placing import edited, outputs_of, place, put
from rillwright.folder.task import Draft
from rillwright.outputs import Outputs

RING = b"ring.dxf"


@pytest.fixture
def ledger(tmp_path):
    with Ledger(tmp_path) as opened:
        yield opened


def draft(where, program):
    """What a worker sends back: a program, or a refusal where there is none."""
    files = [(where.outputs.sheet, b"sheet"), (where.outputs.record, b"record")]
    if program is None:
        return Draft("refused", where.cause.drawing_sha256, tuple(files), "No groove.")
    files.append((where.outputs.program, program))
    return Draft("made", where.cause.drawing_sha256, tuple(files), "", hashlib.sha256(program).hexdigest())


def run(ledger, tmp_path, program, drawing_hash="d1"):
    """One whole run of ring.dxf; its place and its result."""
    where = place(ledger, RING, outputs_of(ledger, RING, tmp_path), Cause(drawing_hash, "s", "v"))
    return where, put(ledger, where, draft(where, program), "t0", "t1")


def programs(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir() if ".nc" in path.name}


def test_the_first_program(ledger, tmp_path):
    _, result = run(ledger, tmp_path, b"one")
    assert programs(tmp_path) == {"ring.nc": b"one"}
    assert (result.state, result.revision, result.program_file) == ("made", 1, "ring.nc")


def test_a_new_revision_sets_the_old_one_aside_with_its_number(ledger, tmp_path):
    for n, text in enumerate([b"one", b"two", b"three"], 1):
        _, result = run(ledger, tmp_path, text, f"d{n}")
    assert programs(tmp_path) == {"ring.nc": b"three", "ring.r1.nc.stale": b"one", "ring.r2.nc.stale": b"two"}
    assert result.revision == 3


def test_the_same_bytes_are_no_new_revision(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    _, result = run(ledger, tmp_path, b"one", "d2")
    assert result.revision == 1
    assert programs(tmp_path) == {"ring.nc": b"one"}


def test_back_to_an_older_drawing_is_a_new_revision_of_old_bytes(ledger, tmp_path):
    for n, text in enumerate([b"one", b"two", b"one"], 1):
        _, result = run(ledger, tmp_path, text, f"d{n}")
    assert result.revision == 3
    assert programs(tmp_path) == {"ring.nc": b"one", "ring.r1.nc.stale": b"one", "ring.r2.nc.stale": b"two"}


def test_an_edited_program_is_never_written_over_and_the_new_one_goes_beside_it(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    (tmp_path / "ring.nc").write_bytes(b"edited")
    where, result = run(ledger, tmp_path, b"two", "d2")
    assert programs(tmp_path) == {"ring.nc": b"edited", "ring.r2.nc": b"two"}
    assert result.program_file == "ring.r2.nc"
    (note,) = where.notes
    assert note.code == "program-edited"
    assert "ring.nc was edited" in note.message
    assert "ring.r2.nc" in note.message


def test_the_one_beside_it_is_ours_and_is_set_aside_in_its_turn(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    (tmp_path / "ring.nc").write_bytes(b"edited")
    run(ledger, tmp_path, b"two", "d2")
    run(ledger, tmp_path, b"three", "d3")
    assert programs(tmp_path) == {"ring.nc": b"edited", "ring.r3.nc": b"three", "ring.r2.nc.stale": b"two"}
    (tmp_path / "ring.r3.nc").write_bytes(b"edited too")
    run(ledger, tmp_path, b"four", "d4")
    assert programs(tmp_path)["ring.r3.nc"] == b"edited too"
    assert programs(tmp_path)["ring.r4.nc"] == b"four"


def test_a_program_from_elsewhere_counts_as_edited(ledger, tmp_path):
    (tmp_path / "ring.nc").write_bytes(b"foreign")
    run(ledger, tmp_path, b"one")
    assert programs(tmp_path) == {"ring.nc": b"foreign", "ring.r1.nc": b"one"}


def test_once_the_edited_one_is_gone_the_usual_name_is_used_again(ledger, tmp_path):
    (tmp_path / "ring.nc").write_bytes(b"foreign")
    run(ledger, tmp_path, b"one")
    (tmp_path / "ring.nc").unlink()
    run(ledger, tmp_path, b"two", "d2")
    assert programs(tmp_path) == {"ring.nc": b"two", "ring.r1.nc.stale": b"one"}


@pytest.mark.parametrize("edit", [False, True])
def test_a_refusal_leaves_nothing_to_be_run_by_mistake(ledger, tmp_path, edit):
    run(ledger, tmp_path, b"one")
    if edit:
        (tmp_path / "ring.nc").write_bytes(b"edited")
    _, result = run(ledger, tmp_path, None, "d2")
    assert programs(tmp_path) == {"ring.nc.stale": b"edited" if edit else b"one"}
    assert (result.state, result.program_file, result.reason) == ("refused", None, "No groove.")


def test_what_was_set_aside_before_is_kept(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    run(ledger, tmp_path, None, "d2")
    run(ledger, tmp_path, b"two", "d3")
    run(ledger, tmp_path, None, "d4")
    kept = programs(tmp_path)
    assert kept["ring.nc.stale"] == b"two"
    assert sorted(kept.values()) == [b"one", b"two"]


def test_all_programs_of_a_refused_drawing_go_the_one_beside_the_edited_too(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    (tmp_path / "ring.nc").write_bytes(b"edited")
    run(ledger, tmp_path, b"two", "d2")
    run(ledger, tmp_path, None, "d3")
    kept = programs(tmp_path)
    assert all(name.endswith(".stale") for name in kept)
    assert sorted(kept.values()) == [b"edited", b"two"]


class Cut(BaseException):
    """Stands for the process being killed."""


@pytest.mark.parametrize("at", range(8))
def test_a_run_cut_off_at_any_step_and_done_again_ends_as_if_it_had_not_been(ledger, tmp_path, monkeypatch, at):
    run(ledger, tmp_path, b"one")
    steps = iter(range(100))

    def cut_off(real):
        def step(*args, **kwargs):
            if next(steps) == at:
                raise Cut
            return real(*args, **kwargs)

        return step

    monkeypatch.setattr(placing.os, "replace", cut_off(placing.os.replace))
    monkeypatch.setattr(placing.os, "rename", cut_off(placing.os.rename))
    monkeypatch.setattr(Ledger, "will_write", cut_off(Ledger.will_write))
    monkeypatch.setattr(Ledger, "finish", cut_off(Ledger.finish))
    try:
        run(ledger, tmp_path, b"two", "d2")
    except Cut:
        monkeypatch.undo()
        run(ledger, tmp_path, b"two", "d2")
    assert programs(tmp_path) == {"ring.nc": b"two", "ring.r1.nc.stale": b"one"}
    assert [one.revision for one in ledger.history()] == [1, 2]


def test_links_put_where_a_program_is_to_go_are_not_written_through(ledger, tmp_path):
    other = tmp_path / "other"
    other.write_bytes(b"precious")
    (tmp_path / "ring.nc").symlink_to(other)
    assert edited(ledger, RING, tmp_path / "ring.nc")
    run(ledger, tmp_path, b"one")
    assert other.read_bytes() == b"precious"
    assert (tmp_path / "ring.r1.nc").read_bytes() == b"one"


def test_two_drawings_of_one_stem_have_files_of_their_own(ledger, tmp_path):
    one = outputs_of(ledger, b"sub/ring.dxf", tmp_path)
    other = outputs_of(ledger, b"sub/Ring.DXF", tmp_path)
    assert one == Outputs(tmp_path / "sub", "ring")
    assert other == Outputs(tmp_path / "sub", "Ring.DXF")
    assert outputs_of(ledger, b"ring.dxf", tmp_path) == Outputs(tmp_path, "ring")
    assert replace(one, program_stem="ring.r2").program.name == "ring.r2.nc"
