"""Dialect files on the command line, the form that a shop asks for, conversions and the table of plunges."""

import csv
import json

import pytest
from support.door import run
from support.drawings import draw_ring

OWN = """
base = "two-block"
title = "of the tests"
[words]
groove = "G77"
[numbers]
x = "radius"
decimals = { mm = 4, in = 5 }
"""


@pytest.fixture
def desk(tmp_path):
    """A folder with a drawing, a dialect file, and a shop file that names the folder of such files."""
    draw_ring(tmp_path / "ring.dxf")
    (tmp_path / "own.toml").write_text(OWN)
    (tmp_path / "tongues").mkdir()
    (tmp_path / "tongues" / "halved.toml").write_text(OWN)
    (tmp_path / "shop.toml").write_text('units = "mm"\ndialects = "tongues"\n[machine]\ndialect = "halved"\n')
    return tmp_path


def made(desk, *more):
    """The text of the program that `make` writes, and its record."""
    out = desk / "out"
    result = run("make", desk / "ring.dxf", "--out", out, *more)
    assert result.exit_code == 0, result.output
    return (out / "ring.nc").read_text(), json.loads((out / "ring.json").read_text())


def test_a_program_is_made_and_judged_in_the_dialect_of_a_file(desk):
    text, record = made(desk, "--dialect", desk / "own.toml")
    assert "(X IS PROGRAMMED AS A RADIUS.)" in text
    assert "\nG77 X" in text
    assert record["program"]["dialect"] == "own"
    again = run("compare", desk / "ring.dxf", desk / "out" / "ring.nc", "--dialect", desk / "own.toml")
    assert again.exit_code == 0, again.output


def test_a_shop_file_names_the_folder_of_dialect_files(desk):
    text, record = made(desk, "--shop", desk / "shop.toml")
    assert "\nG77 X" in text
    assert record["program"]["dialect"] == "halved"


def test_a_folder_that_is_not_there_is_named(desk):
    (desk / "shop.toml").write_text('units = "mm"\ndialects = "nowhere"\n')
    result = run("make", desk / "ring.dxf", "--shop", desk / "shop.toml")
    assert result.exit_code == 2
    assert "nowhere" in result.stderr


def test_plunges_are_written_out_on_any_control_where_the_shop_says_so(desk):
    text, record = made(desk, "--set", "form=plunges")
    assert "G75" not in text
    assert "G01 X" in text
    assert record["program"]["dialect"] == "two-block"


@pytest.mark.parametrize("how", [("--dialect", "plunge"), ("--set", "machine.dialect=plunge")])
def test_a_cycle_asked_of_a_dialect_without_one_is_a_fault_of_the_settings(desk, how):
    result = run("make", desk / "ring.dxf", "--out", desk / "out", "--set", "form=cycle", *how)
    assert result.exit_code == 2
    assert 'form is "cycle", and the dialect plunge has no grooving cycle' in result.stderr


def test_a_dialect_file_is_checked_and_its_rows_come_as_json(desk):
    told = json.loads(run("dialects", "--check", desk / "own.toml", "--json").stdout)
    assert (told["dialect"], told["conforms"]) == ("own", True)
    row = next(one for one in told["rows"] if one["step"] == "single groove" and one["units"] == "mm")
    assert row["blocks"] == ["G77 R0.5", "G77 X17. P1500 F0.08"]
    assert "steps said, 0 not, 0 faults." in run("dialects", "--check", desk / "own.toml").stdout


def test_a_new_file_can_be_checked_at_once(desk):
    (desk / "fresh.toml").write_text(run("dialects", "--new", "fresh").stdout)
    assert run("dialects", "--check", desk / "fresh.toml").exit_code == 0


def test_a_program_is_converted_to_a_file_of_its_own(desk):
    made(desk)
    program = desk / "out" / "ring.nc"
    result = run("convert", program, "--to", desk / "own.toml", "--out", desk / "own.nc")
    assert result.exit_code == 0, result.stderr
    assert "Read as two-block" in result.stderr
    assert result.stdout == ""
    again = run("compare", desk / "ring.dxf", desk / "own.nc", "--dialect", desk / "own.toml", "--shop", shop(desk))
    assert again.exit_code in (0, 1), again.output
    assert "unknown-word" not in again.output


def shop(desk):
    """A plain shop file."""
    (desk / "plain.toml").write_text('units = "mm"\n')
    return desk / "plain.toml"


def test_a_conversion_that_cant_be_is_refused_and_writes_nothing(desk):
    (desk / "own.nc").write_text("O1\nG21 G99\nG00 X42. Z-13.\nM21\nM30\n")
    result = run("convert", desk / "own.nc", "--from", "two-block", "--to", "plunge", "--out", desk / "new.nc")
    assert result.exit_code == 1
    assert "line 4: M21 can't be carried over" in result.stderr
    assert not (desk / "new.nc").exists()


def test_a_conversion_never_overwrites_what_it_is_made_from(desk):
    (desk / "own.nc").write_text("O1\nG21 G99\nG00 X42. Z-13.\nM30\n")
    result = run("convert", desk / "own.nc", "--to", "plunge", "--out", desk / "own.nc")
    assert result.exit_code == 2
    assert (desk / "own.nc").read_text().startswith("O1\nG21 G99")


def test_every_plunge_is_a_row_of_the_table(desk):
    result = run("plan", desk / "ring.dxf", "--csv", desk / "plunges.csv", "--json")
    plan = json.loads(result.stdout)
    rows = list(csv.DictReader((desk / "plunges.csv").read_text("utf-8-sig").splitlines()))
    assert {int(row["operation"]) for row in rows} == set(range(1, len(plan["plan"]["operations"]) + 1))
    grooves = {groove["floor_diameter"] for groove in plan["part"]["grooves"]}
    assert {round(floor, 1) for floor in grooves} == {round(float(row["to_diameter"]), 1) for row in rows}
    assert all(float(row["from_diameter"]) > float(row["to_diameter"]) for row in rows)
