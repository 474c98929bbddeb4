"""The sample drawings: read as they were drawn, and made in every dialect."""

import json
import subprocess
import sys

import pytest
from support.drawings import DRAWINGS, NUMBERS, SAMPLES
from support.forms import form

from extractor import read_drawing
from extractor.finding import stopped
from planner import group_grooves
from rillwright.records.recording import recorded_part

# Sizes of DIN 471 (d2, m) for shafts 20, 25 and 30, from a trade table; h11, h12 and H13 from ISO 286-1.
DIN_471 = [
    (19.0, 1.3, [-0.13, 0.0], [0.0, 0.14]),
    (23.9, 1.3, [-0.21, 0.0], [0.0, 0.14]),
    (28.6, 1.6, [-0.21, 0.0], [0.0, 0.14]),
]
WITHIN = 0.001


def read(path):
    reading = read_drawing(path)
    assert reading.part is not None, [f.message for f in reading.findings]
    return reading, form(recorded_part(reading, group_grooves(reading.part)))


@pytest.mark.parametrize("numbers", NUMBERS, ids=lambda one: one["file"])
def test_every_number_is_read_as_it_was_drawn(numbers):
    reading, part = read(DRAWINGS / numbers["file"])
    assert not stopped(reading.findings)
    assert part["units"] == numbers["units"]
    within = WITHIN if numbers["units"] == "mm" else WITHIN / 25.4
    assert part["outer_diameter"] == pytest.approx(numbers["outer_diameter"], abs=within)
    assert part["length"] == pytest.approx(numbers["length"], abs=within)
    assert len(part["grooves"]) == len(numbers["grooves"])
    for got, drawn in zip(part["grooves"], numbers["grooves"], strict=True):
        assert (got["where"], got["shape"]) == ("outside", "rectangular")
        for name in drawn.keys() - {"tolerances"}:
            assert got[name] == pytest.approx(drawn[name], abs=within), (drawn["id"], name)


@pytest.mark.parametrize("numbers", NUMBERS, ids=lambda one: one["file"])
def test_tolerances_are_read_at_the_grooves_that_are_dimensioned(numbers):
    _, part = read(DRAWINGS / numbers["file"])
    within = WITHIN if numbers["units"] == "mm" else WITHIN / 25.4
    sizes = {(name, g[name]) for g in numbers["grooves"] for name in g["tolerances"]}
    for name, size in sizes:
        of_size = [n for n, g in enumerate(numbers["grooves"]) if g[name] == size and name in g["tolerances"]]
        drawn = numbers["grooves"][of_size[0]]["tolerances"][name]
        got = [part["grooves"][n]["tolerances"].get(name) for n in of_size]
        assert any(one is not None for one in got), (name, size)
        for one in got:
            assert one is None or one == pytest.approx(drawn, abs=within)


def test_the_ring_shaft_carries_the_sizes_of_the_standard():
    _, part = read(DRAWINGS / "ring-shaft.dxf")
    for got, (floor, width, floor_limits, width_limits) in zip(part["grooves"], DIN_471, strict=True):
        assert (got["floor_diameter"], got["width"]) == pytest.approx((floor, width), abs=WITHIN)
        assert got["tolerances"]["floor_diameter"] == pytest.approx(floor_limits, abs=WITHIN)
        # The second groove of one width shares the dimension of the first.
        assert got["tolerances"].get("width", width_limits) == pytest.approx(width_limits, abs=WITHIN)
    assert all("width" in part["grooves"][n]["tolerances"] for n in (0, 2))


def test_the_knobs_rows_run_between_one_another():
    _, part = read(DRAWINGS / "grip-knob.dxf")
    rows = sorted(one["grooves"] for one in part["sets"])
    assert rows == [[1, 3, 5, 7, 9, 11], [2, 4, 6, 8, 10, 12]]
    assert [one["pitch"] for one in part["sets"]] == [7.0, 7.0]


def test_there_are_eight_of_every_style_and_age():
    assert len(SAMPLES) == 8
    ages = {path.read_text("cp1252", "replace").split("$ACADVER\n  1\n")[1].split("\n")[0] for path in SAMPLES}
    assert len(ages) >= 6


def test_the_script_draws_the_files_that_are_here(tmp_path):
    subprocess.run([sys.executable, DRAWINGS / "draw_samples.py", tmp_path], check=True, capture_output=True)
    assert json.loads((tmp_path / "samples.json").read_text()) == NUMBERS
    for path in SAMPLES:
        assert (tmp_path / path.name).read_bytes() == path.read_bytes(), f"draw {path.name} anew"
