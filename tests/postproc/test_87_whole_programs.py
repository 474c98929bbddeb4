"""Whole turning programs in other hands, held against their pieces: right ones agree, spoilt ones don't.

The pieces, the five houses, the fifty faults and the lathe that holds them right are `support.wholes`, written from the
trade's habits (common practice, no source) and sharing nothing with the reader.
"""

import numpy as np
import pytest
from support.programs import run_of
from support.wholes.bar import Bar
from support.wholes.faults import FAULTS
from support.wholes.houses import CONTROLS, HOUSES, ISO, SHOPS
from support.wholes.lathe import Lathe, Leg
from support.wholes.pieces import random_piece

from planner import parse_shop
from postproc import compare_program, explain, find_dialect


def compared(piece, text, house, dialect="", stock=None):
    shop = parse_shop(piece.shop(dialect, SHOPS.get(house, "")), "shop.toml", "mm")
    return compare_program(piece.part(), text, shop, find_dialect(dialect) if dialect else None, stock)


@pytest.mark.parametrize("house", HOUSES)
@pytest.mark.parametrize("named", [False, True])
def test_right_programs_agree(house, named):
    control = CONTROLS[house] if named else ""
    pieces = [random_piece(seed) for seed in range(4 * named, 4 * named + 4)]
    found = [compared(p, HOUSES[house](p), house, control, p.stock if n % 2 else None) for n, p in enumerate(pieces)]
    stops = [[f for f in verdict.findings if f.stops] for verdict in found]
    assert all(verdict.agree for verdict in found), [stop for stop in stops if stop]
    assert all(verdict.followed.not_followed == 0 < verdict.followed.as_point for verdict in found)


@pytest.mark.parametrize("house", HOUSES)
def test_what_is_spoilt_below_agrees_as_it_was(house):
    pieces = {fault.piece for fault in FAULTS if fault.house == house}
    assert all(compared(piece, HOUSES[house](piece), house).agree for piece in sorted(pieces, key=lambda p: p.name))


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)
def test_no_fault_agrees(fault):
    piece = fault.piece
    assert not compared(piece, fault.text, fault.house, fault.dialect, piece.stock if fault.stock else None).agree


@pytest.mark.parametrize("house", HOUSES)
@pytest.mark.parametrize("seed", range(40, 43))
def test_the_reader_takes_the_metal_that_the_lathe_of_their_own_takes(house, seed):
    piece = random_piece(seed)
    text = HOUSES[house](piece)
    run = run_of(text, CONTROLS[house], whole_numbers="units" if SHOPS.get(house) else None)
    legs = [
        Leg("thread" if m.thread else m.kind, *(v / 1000 for v in (m.x0, m.z0, m.x1, m.z1)), m.station, m.line)
        for m in run.motions
    ]
    ours = Bar(piece.stock, piece.length, piece.cutters).cut(legs)
    theirs = Bar(piece.stock, piece.length, piece.cutters).cut(Lathe(text, house in ISO).run().legs)
    assert np.abs(ours.outer - theirs.outer).max() < 0.01
    assert np.abs(ours.inner - theirs.inner).max() < 0.01


@pytest.mark.parametrize("house", HOUSES)
def test_every_block_of_a_whole_program_is_explained(house):
    """Twenty programs in all, none with a stop, none with a word or a block that is not understood."""
    whole = "units" if SHOPS.get(house) else None
    for seed in range(200, 204):
        made = explain(HOUSES[house](random_piece(seed)), whole_numbers=whole)
        assert [f for f in made.findings if f.stops] == []
        lines = HOUSES[house](random_piece(seed)).split("\n")
        assert [b.text for b in made.blocks] == [line for line in lines if line not in ("", "%")]
        for block in made.blocks:
            assert "understood" not in block.sentence
            assert "nothing gives" not in block.sentence
            assert all(word.meaning != "not known" for word in block.words), block
