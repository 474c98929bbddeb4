"""Headings of a groove drawn larger that name it: no notes of how many grooves there are, or how wide.

The words are common practice, no source.
"""

import pytest

from extractor.sizing.lettering.enlarged_words import heads_a_groove, without_heading
from extractor.sizing.lettering.groove_notes import groove_note
from extractor.sizing.remaining.text_fates import Fate, fate_of


@pytest.mark.parametrize(
    "words",
    [
        *("DETAIL OF GROOVE 5X", "GROOVE ENLARGED 5:1", "TYPICAL GROOVE SCALE 5:1", "GROOVE DETAIL 5:1", "GROOVE 10:1"),
        *("RILLE VERGRÖSSERT", "NUT 5:1", "EINZELHEIT NUT M 5:1", "GORGE AGRANDIE 5:1", "DÉTAIL DE LA GORGE 5:1"),
        *("GOLA INGRANDITA 5:1", "RANURA AMPLIADA 4:1", "GROEF VERGROOT 5:1", "SPÅR FÖRSTORAT 5:1"),
        *("ENLARGED VIEW OF GROOVE", "GROOVE, 5 TIMES FULL SIZE, ENLARGED", "VIEW OF GROOVE 2.5:1"),
    ],
)
def test_the_heading_of_a_groove_drawn_larger_is_no_note(words):
    assert heads_a_groove(words)
    assert groove_note(words) is None
    assert fate_of(words) is Fate.HEADING


@pytest.mark.parametrize(
    "words",
    [
        *("GROOVE 5X", "5X GROOVE", "3 GROOVES", "GROOVE 4 x 3", "GROOVE DETAIL 5 WIDE", "GROOVE 5 WIDE ENLARGED 5:1"),
        *("SEE DETAIL X 3X", "GROOVE 4 TYP", "DETAIL X 5:1", "GROOVE DEPTH ENLARGED", "GROOVE ENLARGED BY 0.5"),
    ],
)
def test_a_note_that_counts_or_sizes_is_no_heading(words):
    assert not heads_a_groove(words)


@pytest.mark.parametrize(
    ("words", "rest"),
    [
        ("X 5:1 GROOVE TYP 3 PL", "GROOVE TYP 3 PL"),
        ("DETAIL X (5:1) 3 GROOVES 4 WIDE", "3 GROOVES 4 WIDE"),
        ("X 5:1", "X 5:1"),
        ("R 4 GROOVE", "R 4 GROOVE"),
        ("M 5:1", "M 5:1"),
    ],
)
def test_letter_and_scale_before_a_note_are_none_of_it(words, rest):
    assert without_heading(words) == rest


def test_what_stands_behind_them_is_the_note():
    note = groove_note("X 5:1 GROOVE TYP 3 PL")
    assert note is not None
    assert {m.count for m in note.meanings} == {3}
    assert not any(m.sizes for m in note.meanings)
