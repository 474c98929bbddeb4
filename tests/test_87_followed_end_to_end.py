"""Recesses that must be followed, from the drawing's file to a program in either form, and back through `compare`."""

import json
import re

import pytest
from click.testing import CliRunner
from support import draw
from support.hollows import inked, placed
from support.independent.parts import Corner

from rillwright.cli import main

SHOP = """
units = "mm"
[machine]
stick_out = 120.0
[[tools]]
station = 3
width = 2.0
corner_radius = 0.2
max_depth = 12.0
[[tools]]
station = 5
width = 1.5
edge = "round"
max_depth = 12.0
reference = "near"
"""
RUNS = {
    "round corners": (
        Corner(0, 0, chamfer=0.3),
        Corner(0, -4, round=1.0),
        Corner(-8, -4, round=1.0),
        Corner(-8, 0, chamfer=0.3),
    ),
    "leaning": (Corner(0, 0), Corner(0, -3), Corner(-4, -3), Corner(-7, 0)),
    "tapered": (Corner(0, 0), Corner(-3, -3, round=0.8), Corner(-8, -3, round=0.8), Corner(-11, 0)),
    "arc": (Corner(0, 0, bulge=-0.5), Corner(-8, 0)),
    "vee": (Corner(0, 0), Corner(-3, -3, round=1.2), Corner(-6, 0)),
}
DIALECTS = {"two-block": tuple(RUNS), "plunge": ("round corners", "arc")}


def run(*words):
    result = CliRunner().invoke(main, [str(word) for word in words])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Every drawing made as cycle blocks, some as plunges."""
    folder = tmp_path_factory.mktemp("followed")
    (folder / "shop.toml").write_text(SHOP, encoding="utf-8")
    for name, shape in RUNS.items():
        draw.write_dxf(inked(placed([shape] * 2, 25.0), "mm", "outside"), folder / f"{name}.dxf")
    for dialect, names in DIALECTS.items():
        words = [
            "make",
            *(folder / f"{name}.dxf" for name in names),
            "--shop",
            folder / "shop.toml",
            "--dialect",
            dialect,
        ]
        result = run(*words, "--out", folder / dialect, "--json")
        assert result.exit_code == 0, result.output
    return folder


def compared(made, name, program, dialect):
    return run("compare", made / f"{name}.dxf", program, "--shop", made / "shop.toml", "--dialect", dialect, "--json")


@pytest.mark.parametrize(("dialect", "name"), [(dialect, name) for dialect, row in DIALECTS.items() for name in row])
def test_made_and_compared(made, name, dialect):
    record = json.loads((made / dialect / f"{name}.json").read_text(encoding="utf-8"))
    assert record["verification"]["agree"]
    assert [g["state"] for g in record["verification"]["grooves"]] == ["matches"] * 2
    text = (made / dialect / f"{name}.nc").read_text(encoding="ascii")
    assert ("G02" in text and "G03" in text) == (name != "leaning")
    assert compared(made, name, made / dialect / f"{name}.nc", dialect).exit_code == 0


@pytest.mark.parametrize(
    ("name", "what"),
    [
        ("round corners", "turned the other way"), ("round corners", "too deep"), ("round corners", "left out"),
        ("tapered", "left out"), ("arc", "too deep"), ("vee", "turned the other way"),
    ],
)  # fmt: skip
def test_a_slip_in_an_arc_is_found(made, name, what, tmp_path):
    text = (made / "two-block" / f"{name}.nc").read_text(encoding="ascii")
    arcs = [line for line in text.splitlines() if line.startswith(("G02", "G03"))]
    # Over a rim the insert rolls in the air beside the wall; the arc that ends lowest is the one in the corner.
    lowest = min(arcs, key=lambda line: float(re.search(r"X([0-9.]+)", line)[1]))
    slips = {
        "turned the other way": lowest.replace("G02", "G0X").replace("G03", "G02").replace("G0X", "G03"),
        "too deep": re.sub(r"X([0-9.]+)", lambda m: f"X{float(m[1]) - 0.2:g}", lowest),
        "left out": "",
    }
    program = tmp_path / "slip.nc"
    program.write_text(text.replace(lowest, slips[what], 1), encoding="ascii")
    assert compared(made, name, program, "two-block").exit_code == 1


def test_the_record_says_how(made):
    record = json.loads((made / "plunge" / "round corners.json").read_text(encoding="utf-8"))
    said = json.dumps(record)
    assert "No plain plunge leaves it as drawn" in said
    assert "follows the drawn line with 4 arcs, offset for its corner radius" in said
