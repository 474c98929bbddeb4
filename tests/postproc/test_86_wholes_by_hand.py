"""The outside judges of whole programs judged themselves: their own lathe and bar, right programs, spoilt ones."""

import pytest
from support.wholes.bar import Bar
from support.wholes.faults import FAULTS
from support.wholes.houses import HOUSES, ISO
from support.wholes.lathe import Lathe
from support.wholes.pieces import Piece, random_piece


def harm(piece: Piece, text: str, house: str) -> list[str]:
    """Where the metal is off, and every rapid that meets metal."""
    bar = Bar(piece.stock, piece.length, piece.cutters).cut(Lathe(text, house in ISO).run().legs)
    return piece.off(bar) + bar.dangers


@pytest.mark.parametrize("house", HOUSES)
@pytest.mark.parametrize("seed", range(8))
def test_a_right_program_makes_its_piece(house, seed):
    piece = random_piece(seed)
    assert harm(piece, HOUSES[house](piece), house) == []


@pytest.mark.parametrize("fault", [f for f in FAULTS if f.metal], ids=lambda f: f.name)
def test_the_harm_of_a_fault_shows_in_the_metal(fault):
    assert harm(fault.piece, HOUSES[fault.house](fault.piece), fault.house) == []
    assert harm(fault.piece, fault.text, fault.house)


def test_there_are_fifty_faults_each_of_its_own_kind():
    assert len({fault.name for fault in FAULTS}) == len(FAULTS) == 50
