"""No command writes over what somebody may still need: inputs, and files of another kind."""

import subprocess
import sys

import pytest
from support.door import run
from support.draw import full_outline, shaft, write_dxf

SHOP = 'units = "mm"\n'


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """A drawing, its results, a shop file and another drawing."""
    folder = tmp_path_factory.mktemp("desk")
    for name in ("ring", "other"):
        write_dxf(full_outline(shaft()), folder / f"{name}.dxf")
    (folder / "shop.toml").write_text(SHOP)
    assert run("make", folder / "ring.dxf", "--shop", folder / "shop.toml").exit_code == 0
    return folder


COMMANDS = {
    "read": ("read {d}/ring.dxf --overlay", ("ring.dxf", "other.dxf", "ring.nc", "ring.json", "shop.toml")),
    "compare": (
        "compare {d}/ring.dxf {d}/ring.nc --shop {d}/shop.toml --picture",
        ("ring.dxf", "ring.nc", "ring.json", "shop.toml", "ring.html"),
    ),
    "plan": (
        "plan {d}/ring.dxf --shop {d}/shop.toml --csv",
        ("ring.dxf", "other.dxf", "ring.nc", "ring.json", "shop.toml"),
    ),
    "sheet csv": ("sheet {d}/ring.json --csv", ("ring.dxf", "ring.nc", "ring.json", "shop.toml", "ring.html")),
    "sheet out": ("sheet {d}/ring.json --out", ("ring.dxf", "ring.nc", "ring.json", "shop.toml")),
    "convert": ("convert {d}/ring.nc --to plunge --out", ("ring.dxf", "ring.nc", "ring.json", "shop.toml")),
}


@pytest.mark.parametrize(("name", "target"), [(name, one) for name, (_, many) in COMMANDS.items() for one in many])
def test_nothing_that_may_be_needed_is_written_over(desk, name, target):
    before = {path: path.read_bytes() for path in desk.iterdir()}
    told = run(*COMMANDS[name][0].format(d=desk).split(), desk / target)
    assert told.exit_code == 2, told.output
    assert told.output.strip().endswith("another name.")
    assert {path: path.read_bytes() for path in desk.iterdir()} == before


KINDS = {"read": "dxf", "compare": "svg", "plan": "csv", "sheet csv": "csv", "sheet out": "html", "convert": "nc"}


@pytest.mark.parametrize("name", COMMANDS)
def test_an_earlier_one_of_its_kind_is_replaced(desk, tmp_path, name):
    target = f"new.{KINDS[name]}"
    for _ in range(2):
        told = run(*COMMANDS[name][0].format(d=desk).split(), tmp_path / target)
        assert told.exit_code == 0, told.output
    assert (tmp_path / target).stat().st_size


def test_a_sheet_and_its_table_need_two_names(desk, tmp_path):
    told = run("sheet", desk / "ring.json", "--out", tmp_path / "one.html", "--csv", tmp_path / "one.html")
    assert (told.exit_code, list(tmp_path.iterdir())) == (2, [])


@pytest.mark.parametrize("command", ["read", "make", "plan", "explain"])
def test_a_folder_is_answered_with_what_takes_one(desk, command):
    told = run(command, desk)
    assert told.exit_code == 2
    assert "is a folder: give the files in it, or have it watched with watch" in told.output


def test_the_package_runs_as_the_command_does():
    told = subprocess.run([sys.executable, "-m", "rillwright", "--version"], capture_output=True, text=True, check=True)
    assert told.stdout.startswith("rillwright ")
