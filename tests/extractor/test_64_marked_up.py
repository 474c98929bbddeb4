"""Words put over a groove by hand: it is to go, or is not settled. The words are common practice, no source."""

from dataclasses import replace

import pytest
from support.draw import Cut, Turned, section, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 4.0, 30.0)))
OVER = (-44.0, 28.0)


def told(*texts, part=PART, move=lambda x, y: (x, y), turn=0.0):
    texts = tuple(replace(t, at=move(*t.at), angle=t.angle + turn) for t in texts)
    ink = section(part) if part.bore else side_view(part)
    reading = read_sheet(sheet_of(ink, move=move, texts=texts), ReadOptions(units="mm"))
    return [(f.code.value, f.groove) for f in reading.findings if f.level != "note"]


def word(words, at=OVER, height=2.5):
    return Text(words, at, height)


@pytest.mark.parametrize(
    "words",
    [
        *("DELETE", "Deleted", "REMOVE", "OMIT", "N/A", "TBD", "?", "??", "CHECK"),
        *(
            "DELETED REV B",
            "ENTFÄLLT",
            "ENTFERNEN",
            "SUPPRIMÉ",
            "À SUPPRIMER",
            "ELIMINATA",
            "QUITAR",
            "VERVALT",
            "TAS BORT",
        ),
        *("USUNĄĆ", "ODSTRANIT", "KALDIRILDI", "УДАЛИТЬ", "削除", "取消", "ADD", "NOT REQUIRED", "THIS DELETED"),
    ],
)
def test_a_word_over_a_groove_by_which_it_is_to_go_or_not_settled_is_told(words):
    assert told(word(words)) == [("note-unread", 2)]


@pytest.mark.parametrize(
    ("texts", "more", "groove"),
    [
        ([word("DELETE", (-14.0, 24.0))], {}, 1),
        ([word("DELETE", (-44.0, -30.0))], {}, 2),
        ([word("OMIT", (-44.0, 11.0), 1.5)], {}, 2),
        ([word("DELETE", (-44.0, 20.0 + 5.9 * 2.5 - 1.25))], {}, 2),
        ([word("DELETE")], {"part": replace(PART, bore=16.0)}, 2),
        ([word("DELETE")], {"move": lambda x, y: (-y, x), "turn": 90.0}, 2),
        (
            [word("DELETE", (-38.0, 24.0), 4.0)],
            {"part": replace(PART, cuts=(Cut(-20.0, 4.0, 34.0), *PART.cuts[1:]))},
            None,
        ),
    ],
)
def test_it_is_told_wherever_it_stands_over_one(texts, more, groove):
    assert told(*texts, **more) == [("note-unread", groove)]


@pytest.mark.parametrize(
    "texts",
    [
        [word("DELETE", (-28.0, 28.0))],
        [word("DELETE", (-44.0, 20.0 + 6.1 * 2.5 - 1.25))],
        [word("CHECKED"), word("J. D.", (-30.0, 28.0)), word("DRAWN", (-62.0, 28.0))],
        [word("N/A"), word("FINISH", (-60.0, 28.5))],
        [word("UTGÅR")],
        [word("B")],
        [word("TYP")],
    ],
    ids=["over no groove", "far off", "cells", "a cell", "a stamp", "an index", "typical"],
)
def test_words_elsewhere_in_a_table_and_others_are_not(texts):
    assert "note-unread" not in dict(told(*texts))
