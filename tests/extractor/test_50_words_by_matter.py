"""The table of words by matter and language: each phrase can be met, each matter is asked for, in every language alike.

The words are common practice, no source.
"""

import re
from typing import get_args

import pytest
from support.source import FILES, text

from extractor.front import Front
from extractor.shipped import shipped
from extractor.sizing.ends.front_words import NO_END
from extractor.sizing.lettering.note_words import OTHER_THING
from extractor.sizing.lettering.sheet_words import about, folded, plain
from extractor.sizing.notes.dimension_notes import OTHERS
from extractor.sizing.notes.led_words import has_strange
from extractor.sizing.remaining.text_fates import Fate, fate_of
from extractor.sizing.sentences.could_size import strange
from extractor.sizing.sentences.not_on_sheet import OF_EDGES

TABLE = shipped("extractor.sizing.lettering", "words")
ROWS = [(matter, phrase) for matter, tongues in TABLE.items() for some in tongues.values() for phrase in some]
WRITTEN = re.compile(r"\\x\w\w|\\.|\[[^\]]*\]|\(\?[:=!<]+|\{[a-z_]+\}")
"""What of a pattern is no letter, or another matter."""


@pytest.mark.parametrize("matter", TABLE)
def test_a_phrase_is_folded_text(matter):
    for phrase in (phrase for some in TABLE[matter].values() for phrase in some):
        letters = WRITTEN.sub("", phrase)
        assert letters in (plain(letters).lower(), plain(letters).upper()), phrase
        assert re.compile(rf"\b(?:{phrase})\b").groups == 0, phrase


@pytest.mark.parametrize("matter", TABLE)
def test_a_matter_is_asked_for(matter):
    asked = re.compile(rf"[\"']{matter.removesuffix('_column')}[\"']")
    by_another = matter in get_args(Front) or any(f"{{{matter}}}" in phrase for _, phrase in ROWS)
    assert by_another or any("sheet_words import" in text(path) and asked.search(text(path)) for path in FILES)


def test_no_matter_has_a_phrase_twice():
    assert len(set(ROWS)) == len(ROWS)


def test_the_check_of_folded_text_can_fail():
    assert plain("aufmaß").lower() != "aufmaß"
    assert plain("fuer").lower() != "fuer"


def test_phrases_stand_as_words_of_their_own():
    assert about(folded("Marked by hand"), "marks")
    assert not about(folded("Remarks"), "marks")


# Lists that were kept apart knew some of these in one language and not in another.
@pytest.mark.parametrize("words", ["DRILL 3", "BOHREN 3", "PERCER 3", "FORO 3", "AGUJERO 3", "TALADRO 3", "REIBEN 3"])
def test_a_figure_of_a_hole_is_no_groove_s_in_any_language(words):
    assert OTHER_THING.search(words)
    assert OTHERS.search(words)
    assert not strange(words)


@pytest.mark.parametrize("words", ["RAW SIZE Ø45", "ROHMASS Ø45", "BRUT Ø45", "GREZZO Ø45", "EMNE Ø45"])
def test_a_diameter_of_stock_is_no_groove_s_in_any_language(words):
    assert OTHERS.search(plain(words))
    assert OTHER_THING.search(plain(words))


@pytest.mark.parametrize("words", ["ROND 3", "TONDO 3", "ROD 3", "PRET 3", "RUND 3"])
def test_what_may_only_say_that_something_is_round_may_be_a_groove_s(words):
    assert not OTHER_THING.search(words)
    assert strange(words)


@pytest.mark.parametrize("words", ["CHAMFERS", "FASEN", "CHANFREINS", "SMUSSI", "CHAFLANES"])
def test_chamfers_are_harmless_at_a_groove_and_edges_have_two_sides_of_their_own(words):
    assert not has_strange(words)
    assert about(folded(words), *OF_EDGES)
    assert NO_END.search(folded(words))


@pytest.mark.parametrize(("words", "none"), [("DRILL HOLE", True), ("WHOLE", False), ("LANDMARK", False)])
def test_part_of_a_word_says_nothing_of_an_end(words, none):
    assert (NO_END.search(folded(words)) is not None) is none


def test_words_are_met_whose_letters_look_like_an_umlaut_written_out():
    assert about(folded("lado esquerdo"), "left")
    assert about(folded("lado opuesto"), "denied")
    assert about(folded("longueurs"), "begin")
    assert not has_strange("TROU QUER")
    assert [fate_of(words) for words in ("ISSUED 4711", "TORQUE")] == [Fate.OTHER] * 2
