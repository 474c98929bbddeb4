"""The built-in shop as a file: every key with its meaning, and what it prints is what stands in."""

import re
import tomllib
from dataclasses import replace

import pytest
from support.door import run
from support.draw import Cut, Turned, full_outline, write_dxf

from planner import default_shop, parse_shop
from planner.settings.shopkeys import TABLES
from rillwright.shop_text import shop_text

UNITS = ["mm", "in"]
OPEN = {"stick_out", "form", "whole_numbers", "block_numbers", "numbers", "spindle", "dialects", "cutting_speed"}
OPEN |= {"holder_near", "holder_far"}
"""Keys that are left open by the built-in shop: their values in the file are examples."""


def test_every_key_has_its_meaning():
    assert all(key.means.strip() and key.means.isprintable() for keys in TABLES.values() for key in keys)


@pytest.mark.parametrize("units", UNITS)
def test_as_printed_it_sets_nothing_but_the_units(units):
    assert tomllib.loads(shop_text(units)) == {"units": units, "machine": {}, "material": {}}


@pytest.mark.parametrize("units", UNITS)
def test_with_all_its_keys_set_it_is_the_built_in_shop(units):
    lines = [re.sub(r"^# (?=(\w+ = |\[\[))", "", line) for line in shop_text(units).splitlines()]
    text = "\n".join(line for line in lines if line.partition(" ")[0] not in OPEN)
    made, wanted = parse_shop(text, "printed", units), default_shop(units)
    assert made.tools == wanted.tools
    assert made.machine == wanted.machine
    assert replace(made.material, name="") == replace(wanted.material, name="")


def test_the_command_prints_it_in_either_units():
    assert run("shop").stdout == shop_text("mm")
    assert run("shop", "--units", "in").stdout == shop_text("in")


@pytest.fixture
def drawing(tmp_path):
    """A shaft with a wide and a narrow groove."""
    part = Turned(((50.0, 40.0),), (Cut(-10.0, 5.0, 34.0), Cut(-25.0, 2.0, 36.0)))
    return write_dxf(full_outline(part), tmp_path / "two.dxf")


def test_each_tool_says_what_it_cuts_and_what_none_cuts_is_told(drawing, tmp_path):
    file = tmp_path / "shop.toml"
    file.write_text('units = "mm"\n[[tools]]\nstation = 3\nwidth = 3.0\nmax_depth = 8\n')
    told = run("shop", "--check", file, drawing)
    assert told.exit_code == 0
    assert "1 tool." in told.output
    assert "T0303, 3 wide: cuts groove 1\n" in told.output
    assert "Groove 2 " in told.output
    file.write_text(file.read_text() + "[[tools]]\nstation = 5\nwidth = 2.0\nmax_depth = 8\n")
    told = run("shop", "--check", file, drawing)
    assert (told.exit_code, "T0505, 2 wide: cuts grooves 1, 2" in told.output) == (0, True)
    assert "No groove" not in told.output
    file.write_text(file.read_text() + "[[tools]]\nstation = 7\nwidth = 9.0\nmax_depth = 8\n")
    assert "No groove is cut by T0707." in run("shop", "--check", file, drawing).output


def test_faults_are_named_and_end_with_2(tmp_path):
    file = tmp_path / "shop.toml"
    file.write_text('units = "mm"\n[machine]\npek = 1\nmax_rpm = -1\n')
    told = run("shop", "--check", file)
    assert told.exit_code == 2
    assert "pek" in told.output
    assert "max_rpm" in told.output
