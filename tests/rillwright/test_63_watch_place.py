"""Where results go, and what becomes of the programs there: nothing is lost, overwritten or left to be run."""

import hashlib
from dataclasses import replace
from itertools import product

import pytest

from extractor.errors import SettingsError
from rillwright.folder import placing
from rillwright.folder.ledger import Cause, Ledger
from rillwright.folder.placing import clear, outputs_of, place, put
from rillwright.folder.task import Draft
from rillwright.outputs import Outputs
from rillwright.records.record import HeldProgram

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


def test_an_edited_program_makes_room_for_a_revision_and_is_kept_by_its_own_name(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    (tmp_path / "ring.nc").write_bytes(b"edited")
    _, result = run(ledger, tmp_path, b"two", "d2")
    assert programs(tmp_path) == {"ring.nc": b"two", "ring.edited-1.nc": b"edited"}
    assert result.program_file == "ring.nc"
    (tmp_path / "ring.nc").write_bytes(b"edited again")
    run(ledger, tmp_path, b"three", "d3")
    kept = {"ring.edited-1.nc": b"edited", "ring.edited-2.nc": b"edited again"}
    assert programs(tmp_path) == {"ring.nc": b"three", **kept}


def test_while_the_same_would_be_written_an_edited_one_stays(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    (tmp_path / "ring.nc").write_bytes(b"edited")
    where = place(ledger, RING, outputs_of(ledger, RING, tmp_path), Cause("d1", "s", "v"))
    assert where.before.stands(hashlib.sha256(b"one").hexdigest())
    held = HeldProgram(file="ring.nc", sha256="", agree=False, message="It differs.")
    whole = draft(where, b"one")
    put(ledger, where, replace(whole, files=whole.files[:2], edited=held), "t2", "t3")
    assert programs(tmp_path) == {"ring.nc": b"edited"}
    found = ledger.underneath()[RING]
    assert (found.state, found.agree, found.words) == ("edited", False, "It differs.")
    assert len(list(ledger.history())) == 1


def test_a_program_from_elsewhere_counts_as_edited(ledger, tmp_path):
    (tmp_path / "ring.nc").write_bytes(b"foreign")
    run(ledger, tmp_path, b"one")
    assert programs(tmp_path) == {"ring.nc": b"one", "ring.edited-1.nc": b"foreign"}


def test_an_older_revision_put_back_is_ours_and_is_set_aside_by_its_own_number(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    run(ledger, tmp_path, b"two", "d2")
    (tmp_path / "ring.r1.nc.stale").rename(tmp_path / "ring.nc")
    run(ledger, tmp_path, b"two", "d2")
    assert programs(tmp_path) == {"ring.nc": b"two", "ring.r1.nc.stale": b"one"}


@pytest.mark.parametrize("edit", [False, True])
def test_a_refusal_leaves_nothing_to_be_run_by_mistake(ledger, tmp_path, edit):
    run(ledger, tmp_path, b"one")
    if edit:
        (tmp_path / "ring.nc").write_bytes(b"edited")
    _, result = run(ledger, tmp_path, None, "d2")
    assert programs(tmp_path) == ({"ring.edited-1.nc": b"edited"} if edit else {"ring.nc.stale": b"one"})
    assert (result.state, result.program_file, result.reason) == ("refused", None, "No groove.")


def test_what_was_set_aside_before_is_kept(ledger, tmp_path):
    run(ledger, tmp_path, b"one")
    run(ledger, tmp_path, None, "d2")
    run(ledger, tmp_path, b"two", "d3")
    run(ledger, tmp_path, None, "d4")
    kept = programs(tmp_path)
    assert kept["ring.nc.stale"] == b"two"
    assert sorted(kept.values()) == [b"one", b"two"]


@pytest.mark.parametrize("keep", [False, True])
@pytest.mark.parametrize("edit", [False, True])
def test_a_drawing_that_is_gone_leaves_nothing_under_its_name_unless_it_is_kept_by_choice(ledger, tmp_path, edit, keep):
    _, last = run(ledger, tmp_path, b"one")
    if edit:
        (tmp_path / "ring.nc").write_bytes(b"edited")
    result = clear(ledger, last, tmp_path, "orphaned" if keep else "removed", "It is gone", "t2")
    if edit:
        assert programs(tmp_path) == {"ring.edited-1.nc": b"edited"}
    else:
        assert programs(tmp_path) == {"ring.nc" if keep else "ring.r1.nc.stale": b"one"}
    assert result.state == ("orphaned" if keep and not edit else "removed")
    assert (tmp_path / "ring.html").exists() == (keep and not edit)
    assert ledger.latest(RING) == result


def test_the_name_of_a_drawing_that_is_gone_is_free_for_another_spelling(ledger, tmp_path):
    _, last = run(ledger, tmp_path, b"one")
    clear(ledger, last, tmp_path, "removed", "It is gone", "t2")
    assert outputs_of(ledger, b"Ring.dxf", tmp_path) == Outputs(tmp_path, "Ring")


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
    run(ledger, tmp_path, b"one")
    assert other.read_bytes() == b"precious"
    assert (tmp_path / "ring.edited-1.nc").is_symlink()
    assert (tmp_path / "ring.nc").read_bytes() == b"one"


def test_two_drawings_of_one_stem_have_files_of_their_own(ledger, tmp_path):
    one = outputs_of(ledger, b"sub/ring.dxf", tmp_path)
    other = outputs_of(ledger, b"sub/Ring.DXF", tmp_path)
    assert one == Outputs(tmp_path / "sub", "ring")
    assert other == Outputs(tmp_path / "sub", "Ring.DXF")
    assert outputs_of(ledger, b"ring.dxf", tmp_path) == Outputs(tmp_path, "ring")
    assert outputs_of(ledger, b"index.dxf", tmp_path) == Outputs(tmp_path, "index.dxf")
    assert outputs_of(ledger, b"sub/index.dxf", tmp_path) == Outputs(tmp_path / "sub", "index")
    more = [outputs_of(ledger, f"sub/{name}".encode(), tmp_path).stem for name in ("RING.dxf", "RING.Dxf", "rinG.dXf")]
    assert more == ["RING.dxf-2", "RING.Dxf-3", "rinG.dXf-4"]


def test_a_result_is_of_one_attempt(ledger, tmp_path):
    _, result = run(ledger, tmp_path, b"one")
    assert (result.attempts, result.started, result.finished) == (1, "t0", "t1")
    assert ledger.latest(RING).attempts == 1


def test_of_two_like_programs_one_is_set_aside_and_another_under_a_name_of_its_own(ledger, tmp_path):
    """What lies under the revision's name already is written over by its own bytes alone."""
    for lies, kept in ((b"one", {"ring.r1.nc.stale"}), (b"odd", {"ring.r1.nc.stale", "ring.r1-2.nc.stale"})):
        folder = tmp_path / lies.decode()
        folder.mkdir()
        with Ledger(folder) as anew:
            run(anew, folder, b"one")
            (folder / "ring.r1.nc.stale").write_bytes(lies)
            run(anew, folder, b"two", "d2")
        assert programs(folder).keys() - {"ring.nc"} == kept
        assert programs(folder)["ring.r1.nc.stale"] == lies
        assert sorted(programs(folder).values()) == sorted({b"one", b"two", lies})


def test_the_entry_of_a_drawing_that_is_gone_says_nothing_of_its_cautions(ledger, tmp_path):
    _, last = run(ledger, tmp_path, b"one")
    last = replace(last, attempts=3, cautions=2, questions=4)
    gone = clear(ledger, last, tmp_path, "removed", "It is gone", "t2")
    assert (gone.attempts, gone.started, gone.finished, gone.cautions, gone.questions) == (1, "t2", "t2", 0, 0)


def test_a_program_of_a_run_that_was_cut_off_before_its_first_entry_is_set_aside_as_none_of_a_revision(
    ledger, tmp_path, monkeypatch
):
    def cut_off(*args):
        raise Cut

    with monkeypatch.context() as patched:
        patched.setattr(Ledger, "finish", cut_off)
        with pytest.raises(Cut):
            run(ledger, tmp_path, b"one")
    _, result = run(ledger, tmp_path, b"two", "d2")
    assert programs(tmp_path) == {"ring.nc": b"two", "ring.r0.nc.stale": b"one"}
    assert result.revision == 1


def test_a_hundred_spellings_of_one_name_have_results_and_the_next_is_told(ledger, tmp_path):
    """Each letter small or large: 128 spellings of seven letters, which a share may take for one."""
    letters = [(one, one.upper()) for one in "ringdxf"]
    names = ["".join(row) for row in product(*letters)]
    drawings = [f"{name[:4]}.{name[4:]}".encode() for name in names]
    stems = [outputs_of(ledger, one, tmp_path).stem for one in drawings[:100]]
    assert len({stem.casefold() for stem in stems}) == 100
    assert stems[-1].endswith("-99")
    with pytest.raises(SettingsError, match="has no name left"):
        outputs_of(ledger, drawings[100], tmp_path)
    assert outputs_of(ledger, drawings[99], tmp_path).stem == stems[-1]
