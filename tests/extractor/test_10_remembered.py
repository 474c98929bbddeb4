"""What the texts of a sheet say is worked out once, kept while it is read in several ways, and let go with the next."""

from pathlib import Path

from extractor import ReadOptions, read_sheet
from extractor.dxf import load_sheet
from extractor.remembered import MOST, remembered
from extractor.sizing.lettering.printed import parse

DRAWINGS = Path(__file__).parents[2] / "drawings"


def test_it_is_kept_for_another_reading_of_one_sheet_and_let_go_with_the_next():
    piston, plunger = load_sheet(DRAWINGS / "piston.dxf"), load_sheet(DRAWINGS / "plunger.dxf")
    read_sheet(piston)
    said = parse("3 H13")
    read_sheet(piston, ReadOptions(units="mm", front="left"))
    assert parse("3 H13") is said
    read_sheet(plunger)
    assert parse("3 H13") is not said


def test_so_many_answers_are_kept_and_no_more():
    asked = []
    told = remembered(asked.append)
    for k in range(MOST):
        told(k)
    told(0)
    assert len(asked) == MOST
    told(MOST)
    told(1)
    assert len(asked) == MOST + 2
