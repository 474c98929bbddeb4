"""Turned parts as other systems export them, which the reader was not made for: read right, or refused; never wrong.

The drawings: `support.second_hand`, true solids and exact profiles by other hands and in other spellings of DXF.
"""

import pytest
from support.second_hand.cases import SHEETS, make
from support.second_hand.grading import CRASH, REFUSED_RIGHTLY, RIGHT, WRONG, grade, pairs

SOME = 0.8
"""Least share of a kind of sheet read right or rightly refused: a needless refusal is a fault, but no danger."""


@pytest.mark.parametrize("sheet", SHEETS)
def test_no_drawing_is_read_wrongly_without_a_word(sheet, tmp_path):
    # Every third family of parts on each kind of sheet; tests/bench/reading_rates.py has them all.
    families = [f for f, kind in pairs() if kind == sheet][[*SHEETS].index(sheet) % 3 :: 3]
    grades = {f: grade(make(f, sheet, 0), tmp_path, slow=600.0) for f in families}
    wrong = {f: g.why for f, g in grades.items() if g.word in (WRONG, CRASH)}
    assert not wrong
    good = [g for g in grades.values() if g.word in (RIGHT, REFUSED_RIGHTLY)]
    negative = sheet == "flat"  # a symmetric plate may be read with the caution that nothing but symmetry speaks for it
    assert negative or len(good) >= SOME * len(grades), {f: g for f, g in grades.items() if g not in good}


@pytest.mark.parametrize("sheet", ["front_end", "kernel_views", "sheet_scale"])
def test_the_same_number_draws_the_same_bytes(sheet):
    assert make("ring_shaft", sheet, 3).data == make("ring_shaft", sheet, 3).data
