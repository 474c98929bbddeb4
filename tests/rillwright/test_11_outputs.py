"""Where the files of a drawing go."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extractor.errors import SettingsError
from rillwright.outputs import LONGEST_NAME, output_stem, outputs_for, outputs_for_all, show


def drawing(folder, name):
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / name
    path.write_text("")
    return path


def test_beside_the_drawing_or_in_out(tmp_path):
    ring = drawing(tmp_path, "ring.dxf")
    assert [p.name for p in outputs_for(ring, None).all] == ["ring.nc", "ring.html", "ring.json"]
    assert outputs_for(ring, tmp_path / "out").program == tmp_path / "out" / "ring.nc"


@pytest.mark.parametrize("name", ["ring.nc", "ring.html", "ring.json"])
def test_results_never_overwrite_what_they_are_made_of(tmp_path, name):
    path = drawing(tmp_path, name)
    with pytest.raises(SettingsError, match="overwritten by its own results"):
        outputs_for(path, None)


@given(st.text(st.characters(blacklist_characters="/\0", blacklist_categories=["Cs"]), min_size=1, max_size=300))
def test_every_result_of_any_name_fits_the_file_system(name):
    stem = output_stem(f"{name}.dxf"[-255:])
    for ending in (".nc", ".html", ".json", ".nc.stale", ".r9999.nc.stale", ".edited-9999.nc"):
        assert len(os.fsencode(stem + ending)) <= LONGEST_NAME


def test_long_names_that_differ_at_the_end_stay_apart():
    one, other = ("x" * 245 + end for end in ("a.dxf", "b.dxf"))
    assert output_stem(one) != output_stem(other)


def test_one_stem_twice_is_refused_before_anything_is_written(tmp_path):
    one, other = drawing(tmp_path / "a", "ring.dxf"), drawing(tmp_path / "b", "Ring.DXF")
    with pytest.raises(SettingsError, match=r"(?i)would both write .*ring\.nc"):
        outputs_for_all([one, other], tmp_path / "out")
    assert len(outputs_for_all([one, other], None)) == 2


def test_one_drawing_given_twice_is_made_once(tmp_path):
    ring = drawing(tmp_path, "ring.dxf")
    (tmp_path / "again.dxf").hardlink_to(ring)
    again = tmp_path / "." / "ring.dxf"
    assert list(outputs_for_all([ring, again], None)) == [ring]


@pytest.mark.parametrize("name", ["two\nlines", "bell\x07", os.fsdecode(b"\xff\xfe")])
def test_a_path_is_shown_on_one_line(name):
    assert show(Path(name)).isprintable()
