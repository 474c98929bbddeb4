"""Programs by the ending that their dialect gives: named so everywhere, and no older one left by another name."""

import json
import shutil
from pathlib import Path

import pytest

from extractor.errors import SettingsError
from postproc.dialects import read_dialect
from rillwright.job import make_drawing
from rillwright.outputs import Outputs, outputs_for_all
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
        outputs_for_all(drawings, tmp_path, WITH.ending)
    assert Outputs(tmp_path, "ring").program.name == "ring.nc"


@pytest.mark.parametrize("ending", [".dxf", ".JSON", "nc", ".toolongending", ".a/b", "", ".", ".n c"])
def test_an_ending_that_would_do_harm_is_a_fault_of_the_file(ending):
    with pytest.raises(SettingsError, match=r"line 3: program\.file_ending is"):
        read_dialect(OWN.replace(".cut", ending), "own")


@pytest.mark.parametrize("ending", [".n", ".12345678"])
def test_the_shortest_and_the_longest_ending_are_taken(ending):
    assert read_dialect(OWN.replace(".cut", ending), "own").frame.ending == ending
