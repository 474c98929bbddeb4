"""Texts that stand free, that nobody here reads and that may change what is turned: each is told, others are not.

The texts are common practice, no source.
"""

import pytest
from support.ties import bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Sheet, Text
from extractor.sizing.strange_texts import strange_texts

PART = bar((-15, -18, 32), (-30, -33, 32))
"""40 across, 60 long, two grooves 3 wide."""

TOLD = [
    "WIDTH CHANGED TO 3.2", "DIA 42 INSTEAD OF 40", "LENGTH 65 NOT 60", "Nutbreite jetzt 3,2", "statt 3 breit 3,5",
    "largeur 3,2 au lieu de 3", "MAKE 5 MM LONGER",
    "LENGTH CHANGED FROM 60 TO 65", "Maß 60 geändert in 65",
]  # fmt: skip
QUIET = [
    "BREAK EDGES 0.2", "DIMENSIONS IN MM", "ALL DIMENSIONS IN MILLIMETRES", "RADIUS 0.4 ALL CORNERS",
    "WIDTH ACROSS FLATS 32", "CASE DEPTH 0.8", "SURFACE ROUGHNESS IN GROOVES Ra 1.6", "GROOVES FREE OF BURRS",
    "NO BURRS IN GROOVES", "GROOVE TO SUIT CIRCLIP DIN 471 - 40x1.75", "WEIGHT 0.35 KG", "GROOVE SHAFT",
    "PACK EACH PART IN OILED PAPER", "LENGTH MEASURED AT 20 DEG C", "ALL DIAMETERS CONCENTRIC WITHIN 0.05 MM",
    "REMOVE BURRS AND BREAK SHARP EDGES 0.1 - 0.3 MM", "EDGES WITHOUT DIMENSION 0.5 MM", "WALL THICKNESS MIN 2 MM",
    "RAW LENGTH 62", "OVERALL LENGTH 60", "LENGTH OF BAR 120", "WIDTH", "GROOVE", "TOUTES LES GORGES", "SPINDLE",
    "SCALE 2:1", "MATERIAL C45", "REV B 2031-04-02", "HARDEN TO 45 HRC", "FINISHED DIA 40", "WIDTH CHECKED 3",
    "100% INSPECTION OF GROOVE WIDTH", "LENGTH CHANGED FROM 55 TO 60", "Maß 55 geändert in 60", "CUT LENGTH 65",
]  # fmt: skip


def unread(words, told=()):
    """What is said of a text that stands somewhere."""
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text(words, (40.0, 190.0), 3.0),))
    return list(strange_texts(sheet, PART, told))


@pytest.mark.parametrize("words", TOLD)
def test_what_may_change_the_part_is_told_once(words):
    (finding,) = unread(words)
    assert finding.level == "caution"
    assert "is not understood, so it was not held against the drawing: read it yourself." in finding.message
    assert unread(words, (finding,)) == []


@pytest.mark.parametrize("words", QUIET)
def test_what_is_about_other_things_or_is_as_drawn_is_not(words):
    assert unread(words) == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("WIDTH NOW 1.0", True), ("WIDTH NOW 0.99", False), ("WIDTH NOW 11.9", True), ("WIDTH NOW 12.1", False),
        ("LENGTH NOW 75", True), ("LENGTH NOW 75.1", False), ("DIA NOW 25.6", True), ("DIA NOW 25.5", False),
    ],
)  # fmt: skip
def test_a_figure_counts_that_may_be_meant_for_a_size(words, told):
    """From a third of a width or depth (3 and 4) to three times it; of the length and diameters by a quarter more."""
    assert bool(unread(words)) is told


def test_a_length_that_the_part_has_somewhere_is_no_diameter_for_that():
    """From 18 to 60 it is 42."""
    assert unread("DIA 42 INSTEAD OF 40")
    assert not unread("LENGTH 42 TO SHOULDER")
