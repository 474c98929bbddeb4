"""Words led to a groove: harmless ones say nothing, any other may ask for what is not drawn and is told.

Common practice, no source.
"""

import pytest
from support.ties import HERE, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.notes.led_words import queried

PART = bar((-10, -13, 34), (-20, -23, 34), (-30, -33, 34))
"""Three grooves 3 wide and 3 deep, 10 apart."""
ROUND = bar((-10, -13, 34, {"shape": "round", "corner_radius": 1.5}))


def told(words, part=PART, tip=(-11.5, 17.0), others=()):
    """Levels and codes of what is said of words led to the first groove."""
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(*tip), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)
    texts = tuple(Text(other, HERE.on_sheet(10.0, -60.0), 3.5) for other in others)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=texts, dimensions=(leader,))
    return [(f.level.value, f.code.value) for f in tie_dimensions(sheet, part)[1]]


ASKED = [
    "DELETED", "ENTFÄLLT", "supprimée", "eliminata", "suprimida", "NOT ON THIS PART", "KEYWAY 3x2", "KEYWAY 3x3",
    "FLAT, ONE SIDE ONLY", "FULL RADIUS", "VOLLRADIUS", "only for type B", "nur Ausführung B", "SEE DETAIL X",
    "TO SUIT MATING PART", "thread M30x1.5", "Gewinde M30x1.5", "LATER", "vypustit", "kasowane", "BY OTHERS",
    "FOR O-RING, LATER", "MARK PART NO HERE", "GROOVES 0.2 DEEPER", "Nuten 0,2 tiefer", "GROOVE 0.2 WIDER",
    "SHIFT GROOVE BY 1", "GLAND DELETED", "GLAND NOT ON THIS PART",
    "TO SUIT SEAL", "SUIT 4711", "RECESS TO SUIT SEAL", "GROOVE TO SUIT MATING PART", "Nut passend zu Dichtring",
    "gorge ajustée au joint", "GROOVE TO SUIT CIRCLIP 4711", "O-RING GROOVE TO SUIT 35 x 2.5",
]  # fmt: skip
HARMLESS = [
    "THD RELIEF", "gorge de dégagement", "gola di scarico", "THREAD RELIEF",
    "O-RING GROOVE", "RETAINING RING GROOVE", "POLISHED", "Ra 0.8", "Rz 6.3", "DEBURR", "entgratet", "Kanten gebrochen",
    "TYP", "FOR O-RING 30x2", "SEE NOTE 3", "siehe Hinweis 2", "OIL GROOVE", "SCHMIERNUT", "ÖLNUT", "Dichtungsnut",
    "FOR SEAL", "FOR CIRCLIP", "NO BURRS", "GROUND", "HARDENED", "A", "DATUM A", "NUT", "NUT FÜR O-RING", "SHARP EDGES",
    "gorge pour joint torique", "gola per anello", "ranura para junta torica", "3 PLACES", "THREAD RELIEF",
    "GROOVE Ra 0.8", "GROOVE FLOOR Rz 6.3", "GROOVE SEE NOTE 3",
    "GLAND", "SEAL GLAND", "GLANDS FOR SEAL RINGS 2.62", "GLAND TO SUIT O-RING 2.62", "Fettnut", "rowki",
    "GEWINDEFREISTICH", "HRC 58", "ISO 13715", "ITEM 4", "Ø34 h11", "1x45°",
]  # fmt: skip


@pytest.mark.parametrize("words", ASKED)
def test_words_that_may_ask_for_what_is_not_drawn_are_told(words):
    assert ("caution", "note-unread") in told(words)
    assert ("caution", "note-unread") not in told(words, tip=(-45.0, 20.0))


@pytest.mark.parametrize(
    "words",
    [
        "145?",
        "3.15?",
        "16?",
        "4 x ?",
        "3 x ?",
        "Ø34 ?",
        "? DEEP 3",
        "3 ??",
        "R ? 0.5",
        "s/b 3.5",
        "S/B 4",
        "3 s/b 3,5",
        "S.B. 3.5",
        "3?",
    ],
)
def test_a_size_that_is_left_open_or_marked_up_is_told(words):
    """Marks of a red pen, common practice, no source."""
    assert ("caution", "note-unread") in told(words)


@pytest.mark.parametrize("angle", [15, 20, 30, 45, 60, 75, 90, 120])
def test_behind_a_usual_angle_it_is_a_degree_sign_that_was_lost(angle):
    assert told(f"{angle}?") == []


@pytest.mark.parametrize("words", ["?34", "1x45?", "ÖLNUT", "?LNUT", "GR?SE GROOVE 3", "Ø34", "?"])
def test_what_an_export_lost_is_no_question(words):
    assert "?" not in words or not queried(words)


@pytest.mark.parametrize("words", HARMLESS)
def test_what_a_groove_is_for_and_how_it_is_finished_asks_for_nothing(words):
    assert ("caution", "note-unread") not in told(words)


@pytest.mark.parametrize(
    ("others", "asked"),
    [
        ((), True),
        (("DETAIL X",), False),
        (("X (5:1)",), False),
        (("X",), False),
        (("DETAIL Y",), True),
        (("XB",), True),
    ],
)
def test_a_detail_that_is_headed_on_the_sheet_is_no_question(others, asked):
    assert (("caution", "note-unread") in told("SEE DETAIL X", others=others)) is asked


def test_a_full_radius_may_be_drawn():
    assert told("FULL RADIUS", ROUND) == []
    assert told("VEE GROOVE 30°", ROUND) == [("stop", "note-contradicts")]


@pytest.mark.parametrize(
    ("words", "stops"),
    [
        ("FOR O-RING 26x3", False),
        ("FOR O-RING 26x3.1", True),
        ("O-RING 4 x 26", True),
        ("POUR JOINT TORIQUE 26x4", True),
        ("FÜR O-RING 26x2.5", False),
        ("GROOVE TO SUIT O-RING 35 x 2.5", False), ("GROOVE TO SUIT O-RING 35 x 3.5", True),
        ("Nut passend zu O-Ring 35 x 2,5", False), ("Nut für O-Ring 35 x 3,5", True),
        ("2 GROOVES TO SUIT O-RING 2.62", False), ("GLANDS TO SUIT O-RING 5.33", True),
        ("GROOVE TO SUIT O-RING 24 x 2.5", False), ("GROOVE TO SUIT O-RING 23.7 x 2.5", True),
        ("GROOVE TO SUIT O-RING 55.9 x 2.5", False), ("GROOVE TO SUIT O-RING 56.1 x 2.5", True),
        ("GROOVE TO SUIT CIRCLIP 40", True), ("GROOVE FOR CIRCLIP 999", True), ("GROOVE FOR CIRCLIP 1000", False),
        ("O-RING 5", False),
    ],
)  # fmt: skip
def test_a_cord_thicker_than_its_groove_is_wide_stops(words, stops):
    assert told(words) == [("stop", "note-contradicts")] * stops


@pytest.mark.parametrize("words", ["FOR O-RING 26x2.5 GROOVE 3.6 WIDE", "FOR SEAL, GROOVE 3.6 WIDE"])
def test_a_size_behind_what_a_groove_is_for_is_read(words):
    assert told(words) != []
    assert told(words.replace("3.6", "3.0")) == []


@pytest.mark.parametrize(
    ("words", "stops"),
    [
        ("3 EQ SP ON 20", False),
        ("2 EQ SP ON 20", False),
        ("3 GROOVES EQUALLY SPACED OVER 20", False),
        ("3 Nuten gleichmäßig verteilt auf 20", False),
        ("3 EQ SP ON 18", True),
        ("2 EQ SP ON 18", True),
        ("4 EQ SP ON 20", True),
        ("3 GROOVES EQUALLY SPACED OVER 30", True),
    ],
)
def test_a_spread_over_a_length_is_that_of_the_grooves_or_the_steps_between_them(words, stops):
    assert told(words) == [("stop", "note-contradicts")] * stops
