"""Programs by the name and ending that their dialect gives: no two on one file, no older one left by another name."""

import json
import os
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.forms import make_drawing

from extractor.errors import SettingsError
from postproc.dialects import read_dialect
from rillwright import cli
from rillwright.folder.ledger import Cause, Ledger, Result
from rillwright.folder.numbering import numbered
from rillwright.folder.placing import last_outputs
from rillwright.outputs import Outputs, outputs_for_all, program_file
from rillwright.settings import Settings

DRAWING = Path(__file__).parents[2] / "drawings" / "piston.dxf"
OWN = 'base = "two-block"\n[program]\nfile_ending = ".cut"\n'
WITH = Settings(dialect="own", tongues=(("own", OWN),))


def made(folder, settings):
    drawing = folder / "ring.dxf"
    shutil.copy(DRAWING, drawing)
    record = make_drawing(drawing, None, settings)
    return record, sorted(path.name for path in folder.iterdir() if path.suffix not in (".html", ".json", ".dxf"))


def test_the_program_has_the_ending_of_its_dialect(tmp_path):
    record, files = made(tmp_path, WITH)
    assert record["program"]["file"] == "ring.cut"
    assert files == ["ring.cut"]
    assert json.loads((tmp_path / "ring.json").read_text())["program"]["file"] == "ring.cut"


def test_an_older_program_by_another_ending_is_set_aside(tmp_path):
    made(tmp_path, Settings())
    assert made(tmp_path, WITH)[1] == ["ring.cut", "ring.nc.stale"]


def test_an_older_one_that_was_edited_is_kept_and_told(tmp_path):
    made(tmp_path, Settings())
    (tmp_path / "ring.nc").write_text("(MINE)\nG00 X1.\n")
    record, files = made(tmp_path, WITH)
    assert files == ["ring.cut", "ring.edited-1.nc"]
    assert "program-set-aside" in [finding["code"] for finding in record["findings"]]


def test_a_record_that_names_a_file_elsewhere_moves_nothing(tmp_path):
    other = tmp_path / "other"
    other.mkdir()
    (other / "keep.nc").write_text("G00 X1.\n")
    made(tmp_path, Settings())
    record = json.loads((tmp_path / "ring.json").read_text())
    record["program"]["file"] = "other/keep.nc"
    (tmp_path / "ring.json").write_text(json.dumps(record))
    made(tmp_path, WITH)
    assert (other / "keep.nc").is_file()


def test_two_drawings_of_one_name_are_refused_by_the_name_that_both_would_write(tmp_path):
    drawings = [tmp_path / "a" / "ring.dxf", tmp_path / "b" / "ring.dxf"]
    for one in drawings:
        one.parent.mkdir()
        one.touch()
    with pytest.raises(SettingsError, match=r"ring\.cut"):
        outputs_for_all(drawings, tmp_path, WITH.form)
    assert Outputs(tmp_path, "ring").program.name == "ring.nc"


@pytest.mark.parametrize("ending", [".dxf", ".JSON", "nc", ".toolongending", ".a/b", "", ".", ".n c"])
def test_an_ending_that_would_do_harm_is_a_fault_of_the_file(ending):
    with pytest.raises(SettingsError, match=r"line 3: program\.file_ending is"):
        read_dialect(OWN.replace(".cut", ending), "own")


@pytest.mark.parametrize("ending", [".n", ".12345678"])
def test_the_shortest_and_the_longest_ending_are_taken(ending):
    assert read_dialect(OWN.replace(".cut", ending), "own").frame.ending == ending


def named(pattern, number=42, shop=""):
    text = f'base = "two-block"\n[program]\nfile_name = "{pattern}"\nfile_ending = ".cut"\n'
    return Settings(dialect="own", tongues=(("own", text),), number=number, shop_text=shop)


@pytest.mark.parametrize(
    ("pattern", "file"),
    [
        ("O{number}", "O42.cut"),
        ("O{number:04}", "O0042.cut"),
        ("{name}", "ring.cut"),
        ("{number:04}-{name}", "0042-ring.cut"),
        ("{name}_{number:04}", "ring_0042.cut"),
        ("abcdefghijklmnopqrstuvwx{number}", "abcdefghijklmnopqrstuvwx42.cut"),
    ],
)
def test_the_file_has_the_name_of_its_dialect(pattern, file):
    assert program_file(named(pattern).form, "ring") == file


@pytest.mark.parametrize(
    "pattern",
    ["", "program", "{nam}", "{name}{name}", "{number}-{name}", "{name}{number:05}", "a/{name}", "..{name}", "-{name}",
     "{name}.{number:04}", "{name} {number:04}", "{number:00}", "abcdefghijklmnopqrstuvwxy{number}", "{name:04}"],
)  # fmt: skip
def test_a_name_that_would_do_harm_is_a_fault_of_the_file(pattern):
    with pytest.raises(SettingsError, match=r"line 3: program\.file_name (is|has)"):
        read_dialect(f'base = "two-block"\n[program]\nfile_name = "{pattern}"\n', "own")


def test_no_two_numbers_and_names_give_one_file():
    # {number:04} is four digits for every number that a program may have, so its place in the name is known.
    form = named("{name}{number:04}").form
    files = [named("{name}{number:04}", n).form.format(name=s) for n in (1, 11, 111, 9999) for s in ("a", "a1", "a11")]
    assert len({*files}) == len(files)
    assert form == "{name}0042.cut"


def test_no_file_has_the_name_of_a_device_or_one_too_long():
    # Names that Windows keeps: COM1 to COM9 and others, with any ending (its file naming rules, from memory).
    assert program_file(named("COM{number}", 7).form, "ring") == "COM7_.cut"
    assert program_file("C{name}.nc", "ON") == "CON_.nc"
    assert len(os.fsencode(program_file("O{name}.nc", "x" * 224))) <= 255


def test_an_older_program_of_another_number_is_set_aside(tmp_path):
    assert made(tmp_path, named("O{number:04}", 7))[1] == ["O0007.cut"]
    assert made(tmp_path, named("O{number:04}", 8))[1] == ["O0007.cut.stale", "O0008.cut"]
    (tmp_path / "O0008.cut").write_text("(MINE)\nG00 X1.\n")
    assert made(tmp_path, named("{name}"))[1] == ["O0007.cut.stale", "O0008.edited-1.cut", "ring.cut"]


def test_the_program_of_another_drawing_is_never_moved(tmp_path):
    shutil.copy(DRAWING, tmp_path / "other.dxf")
    make_drawing(tmp_path / "other.dxf", None, named("O{number:04}", 7))
    text = (tmp_path / "O0007.cut").read_text()
    refused, files = made(tmp_path, named("O{number:04}", 7))
    assert [one["code"] for one in refused["findings"]] == ["other-drawing"]
    assert "O0007.cut is the program of other" in refused["findings"][0]["message"]
    assert files == ["O0007.cut"]
    # One that had the file before it was the other's: what lies there now is the other's.
    record, _ = made(tmp_path, named("O{number:04}", 8))
    record["program"]["file"] = "O0007.cut"
    (tmp_path / "ring.json").write_text(json.dumps(record))
    assert made(tmp_path, named("O{number:04}", 9))[1] == ["O0007.cut", "O0008.cut", "O0009.cut"]
    assert (tmp_path / "O0007.cut").read_text() == text


def desk(folder, *names, shop=""):
    for name in names:
        shutil.copy(DRAWING, folder / name)
    (folder / "own.toml").write_text('base = "two-block"\n[program]\nfile_name = "O{number:04}"\n')
    (folder / "shop.toml").write_text(shop)
    return lambda *args: CliRunner().invoke(cli.main, [str(a) for a in args])


def test_drawings_of_one_call_that_would_have_one_file_are_a_wrong_call(tmp_path):
    run = desk(tmp_path, "a.dxf", "b.dxf")
    call = (
        "make",
        tmp_path / "a.dxf",
        tmp_path / "b.dxf",
        "--dialect",
        tmp_path / "own.toml",
        "--out",
        tmp_path / "out",
    )
    wrong = run(*call)
    assert (wrong.exit_code, (tmp_path / "out").exists()) == (2, False)
    assert "would both write" in wrong.stderr
    assert "O0001.nc" in wrong.stderr
    assert run(*call, "--number", "7").exit_code == 0
    assert sorted(path.name for path in (tmp_path / "out").glob("*.nc")) == ["O0007.nc", "O0008.nc"]


def made_of(drawing, file, state="made"):
    return Result(drawing, Cause("d", "s", "v"), state, 1, file, "0", "", 1, "t", "t")


@pytest.mark.parametrize(
    ("other", "taken"),
    [
        (made_of(b"a.dxf", "O0001.cut"), True),
        (made_of(b"a.dxf", "o0001.CUT"), True),  # a share may not tell the two
        (made_of(b"a.dxf", "O0001.cut", "orphaned"), True),
        (made_of(b"a.dxf", "O0001.cut", "removed"), False),
        (made_of(b"a.dxf", "O0002.cut"), False),
        (made_of(b"sub/a.dxf", "O0001.cut"), False),
        (made_of(b"b.dxf", "O0001.cut"), False),
    ],
)
def test_in_a_watched_folder_no_two_drawings_have_one_program_file(tmp_path, other, taken):
    fixed = named("O{number:04}", shop='units = "mm"\n[machine]\nnumbers = "fixed"\nnumber_first = 1\n')
    latest = {other.drawing: other}
    with Ledger(tmp_path) as ledger:
        told = numbered(ledger, b"b.dxf", fixed, latest)
        assert last_outputs(ledger, other, tmp_path).program.name == other.program_file
        assert numbered(ledger, b"b.dxf", replace(fixed, tongues=named("{name}").tongues), latest).number_fault == ""
    assert told.number_fault == ("a.dxf and b.dxf would share one program file, O0001.cut." if taken else "")
    assert told.form == ("{name}.cut" if taken else "O0001.cut")


def test_a_program_carried_over_into_a_folder_is_called_as_its_dialect_has_it(tmp_path):
    run = desk(tmp_path, "ring.dxf")
    assert run("make", tmp_path / "ring.dxf", "--number", "42").exit_code == 0
    call = ("convert", tmp_path / "ring.nc", "--to", tmp_path / "own.toml", "--out", tmp_path)
    assert run(*call).exit_code == 0
    assert "O0042" in (tmp_path / "O0042.nc").read_text()
    again = run(*call)
    assert again.exit_code == 2
    assert "O0042.nc is there already" in again.stderr
