"""What record and sheet tell of the material, of the jaws, and of how to go on after a stop."""

import pytest
from support.drawings import SAMPLES
from support.forms import draft, typed

from rillwright.jobsheet.figures import setup_rows
from rillwright.jobsheet.sheet import render_sheet
from rillwright.lying import Lying
from rillwright.outputs import outputs_for
from rillwright.settings import Settings

PISTON = next(path for path in SAMPLES if path.stem == "piston")
SHOP = 'units = "mm"\n[machine]\nstick_out = 40.0\nblock_numbers = "operation"\noptional_stops = true\nremarks = true\n'


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    outputs = outputs_for(PISTON, tmp_path_factory.mktemp("out"))
    record, text = draft(PISTON, outputs, Settings(shop_text=SHOP), Lying(outputs.program))
    assert text is not None, record["findings"]
    return record, text


def test_the_material_of_the_drawing(made):
    record, text = made
    (noted,) = record["part"]["materials"]
    assert noted["text"] == "EN-GJL-250"
    assert len(noted["at"]) == 2
    assert record["setup"]["material"]["name"] == "EN-GJL-250"
    assert "FOR EN-GJL-250.)" in text


def test_what_is_left_in_the_jaws(made):
    record, _ = made
    left = record["part"]["length"] - 40.0
    assert record["setup"]["in_jaws"] == {"length": pytest.approx(left), "diameter": 40.0}
    assert dict(setup_rows(typed(record)))["In the jaws"].endswith("on ⌀40.000")


def test_how_to_go_on_from_each_groove(made):
    record, text = made
    first, second = record["plan"]["operations"]
    assert [again["groove"] for again in first["restarts"]] == [1, 2, 3]
    for again in (*first["restarts"], *second["restarts"]):
        assert again["blocks"][0] == "G18 G40 G80"
        assert {"T1010", "M08"} <= set(again["blocks"])
        assert any(block.startswith("G50 S") for block in again["blocks"])
    page = render_sheet(typed(record), text)
    assert "To go on after a stop" in page
    assert "From groove 3:" in page
    assert "in the jaws" in page


def test_stops_remarks_and_numbers_by_choice(made):
    _, text = made
    assert text.count("M01") == 1
    assert "(1. GROOVES 1 TO 3, T1010)" in text
    assert [line.split()[0] for line in text.splitlines() if line.startswith("N")] == ["N10", "N20"]
