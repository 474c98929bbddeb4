"""The front end as a sheet says it: words with a leader or standing at an end, lengths that begin there, the option.

The words are what shops and drawing offices write at an end (common practice, no source). The part is 60 long with
grooves 10, 18 and 26 from its right-hand end, so the reading tells by itself which end was taken for Z0.
"""

from dataclasses import replace
from functools import cache
from typing import NamedTuple

import pytest
from support.draw import rotated, shaft, sheet_of, side_view
from support.sheets import blank, read_back

from extractor.finding import Finding
from extractor.front import OPPOSITE, FrontEnd
from extractor.part import Part, ReadOptions
from extractor.placing.laying import _front
from extractor.placing.placing import Groundwork, WayToRead
from extractor.reading import read_sheet
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.viewing.roles import assign

FROM_RIGHT, FROM_LEFT = [-10.0, -18.0, -26.0], [-31.0, -39.0, -47.0]
ORDINATE = DimensionKind.ORDINATE
MM = ReadOptions(units="mm")
LEFT, RIGHT, MIDDLE = (-60.0, 8.0), (0.0, 8.0), (-30.0, 20.0)


def led(words, tip, text_at=(-30.0, 40.0)):
    """A note with its leader, as whole entities."""
    return Dimension(DimensionKind.LEADER, (tip, text_at), 0.0, 0.0, words)


def length(a, b, kind=DimensionKind.LINEAR):
    """A dimension along the axis."""
    return Dimension(kind, ((a, 20.0), (b, 20.0)), 0.0, abs(a - b), None)


def read(*dimensions, texts=(), ink=None, options=MM, move=lambda x, y: (x, y)):
    """The reading of the shaft with notes."""
    sheet = sheet_of(ink or side_view(shaft()), move, dimensions=dimensions, texts=tuple(texts))
    return read_sheet(sheet, options)


class Heard(NamedTuple):
    """What is heard of the ends by notes, and the part as it is read from the end that they name."""

    front: FrontEnd
    findings: tuple[Finding, ...]
    part: Part


@cache
def whole(turn, front):
    """The shaft alone: what its end is called, how it is laid, and how it is read."""
    sheet = sheet_of(side_view(shaft()), rotated(turn))
    return Groundwork(sheet, assign(sheet)).place(WayToRead(front=front)), read_sheet(sheet, replace(MM, front=front))


def hear(*dimensions, texts=(), turn=0, front=None):
    """What is heard of notes at the ends of the shaft, which is laid once for all of them."""
    laid, reading = whole(turn, front)
    sheet = sheet_of(side_view(shaft()), rotated(turn), dimensions=dimensions, texts=tuple(texts))
    told, taken = _front(sheet, laid.folded, laid.found, front), reading.front.end
    end = OPPOSITE[taken] if told.turn else taken
    return Heard(FrontEnd(end, told.by), told.findings, whole(turn, end)[1].part)


@pytest.mark.parametrize(
    ("dimensions", "texts"),
    [
        ((led("FRONT FACE", LEFT),), ()),
        ((led("Vorderseite", RIGHT),), ()),
        ((led("CLAMP HERE", (-4.0, 20.0)),), ()),
        ((led("FRONT VIEW", LEFT),), ()),
        ((led("FACE 1", LEFT),), ()),
        ((led("START HERE", LEFT), length(0.0, -10.0), length(0.0, -60.0)), ()),
        ((led("G54", LEFT), length(0.0, -10.0), length(0.0, -60.0)), ()),
        ((led("FINISHED FACE", LEFT),), ()),
        ((), (Text("Z0", (-61.0, 23.0), 2.5),)),
        ((), (Text("Z0 = LEFT FACE", (-300.0, -90.0), 3.5),)),
        ((), (Text("ALL LENGTHS FROM LEFT FACE", (-300.0, -90.0), 3.5),)),
        ((), (Text("CHUCK ON SMALL END", (-300.0, -90.0), 3.5),)),
        ((), (Text("DEBURR FRONT FACE", (-106.5, 10.0), 2.5),)),
        ((length(-60, -10), length(-18, -60)), ()),
    ],
)
def test_a_whole_sheet_says_of_its_ends_what_is_heard_of_its_notes(dimensions, texts):
    """One of each way that words take; the tests of words below hear them alone."""
    one, other = read(*dimensions, texts=texts), hear(*dimensions, texts=texts)
    assert (one.front, near(one), codes(one)) == (other.front, near(other), codes(other))
    assert [f for f in one.findings if f.code.startswith("front")] == list(other.findings)


def near(reading):
    """Where the grooves begin."""
    return [round(g.z_near, 6) for g in reading.part.grooves]


def codes(reading):
    """Codes that speak of the front."""
    return [f.code for f in reading.findings if f.code.startswith("front")]


FRONT_WORDS = [
    "FRONT FACE", "Front End", "FINISHED FRONT FACE", "Z0", "Z = 0", "Z0.0", "Z 0,00", "X0 Z0", "Z0 (FRONT FACE)",
    "前端面", "前面",
    "FRONT", "Work zero", "PART ZERO", "Vorderseite", "VORDERFLÄCHE", "Planseite", "PLANFLAECHE", "Werkstücknullpunkt",
    "vorne", "face avant", "ORIGINE PROGRAMME", "faccia anteriore", "zero pezzo", "cara frontal", "CERO PIEZA",
    "FACCIA FRONTALE", "lato frontale",
    "0", "0,0", "Z+", "+X",
    "CZOŁO PRZEDNIE", "Przód", "VOORZIJDE", "Voorvlak", "Voorkant", "FRAMSIDA", "Främre plan", "PŘEDNÍ ČELO",
    "Přední strana", "Stirnseite vorn", "vorn",
    "vordere Stirnseite", "TAILSTOCK SIDE", "Reitstockseite", "voorvlak", "Framre plan", "Forside", "nollpunkt",
    "ETUPINTA", "elülső lap", "fața frontală", "Ön yüz", "передняя сторона", "Predné čelo",
    "POWIERZCHNIA PRZEDNIA", "Nulový bod", "face dianteira", "VORDERFLAECHE",
    "ZERO PEÇA", "SIFIR NOKTASI", "加工原点", "端面基準", "工件零点",
]  # fmt: skip
FIRST_WORDS = [
    "START HERE", "THIS END FIRST", "BEGIN AT THIS END", "THIS END TO TAILSTOCK", "DATUM FACE - ALL LENGTHS FROM HERE",
    "ALL DIMENSIONS FROM THIS FACE", "hier beginnen", "Diese Seite zuerst", "alle Maße ab hier", "zum Reitstock",
    "Commencer ici", "cotes d'ici", "toutes les longueurs à partir d'ici", "ce côté en premier", "Iniziare qui",
    "tutte le quote da qui", "questo lato per primo", "Empezar aquí", "cotas desde aquí", "este lado primero",
    "Começar aqui", "maten vanaf hier", "deze zijde eerst", "börja här", "alla mått härifrån", "start her",
    "mål herfra", "Zacząć tutaj", "wymiary stąd", "začít zde", "rozměry odtud",
]  # fmt: skip
REFERENCE_WORDS = [
    "REFERENCE FACE", "DATUM FACE", "Bezugsfläche", "Face de référence", "faccia di riferimento",
    "cara de referencia", "referentievlak", "referensyta", "powierzchnia odniesienia", "vztažná plocha",
]  # fmt: skip
CHUCK_WORDS = [
    "后端面", "卡盘侧", "夹紧端",
    "CLAMPED HERE", "HELD HERE",
    "JAWS HERE", "CHUCK JAWS", "BACKEN HIER", "mors ici", "CHUCKING END",
    "CLAMP HERE", "CLAMP THIS END", "CLAMP", "CHUCK SIDE", "Chuck", "GRIP HERE IN OP 10", "HOLD ON THIS Ø40",
    "CLAMPING AREA", "HOLD THIS END", "BACK FACE", "REAR END", "Spannstelle", "HIER SPANNEN", "Einspannung",
    "Futterseite", "Rückseite", "serrage", "côté mandrin", "SERRER ICI", "face arrière",
    "lato mandrino", "SERRARE QUI", "lado del plato",
    "SUJETAR AQUÍ", "zona de amarre",
    "Mocować tutaj", "Strona uchwytu", "hier inspannen", "Klauwzijde", "Spänn här", "Chucksida", "Upnout zde",
    "Strana sklíčidla", "Prise de mors", "Presa mandrino", "HEADSTOCK SIDE",
    "Presa mandrino", "achterkant", "Baksida", "Spænd her", "Bagside", "Zadní čelo", "spindelseite", "RUECKSEITE",
    "LADO DA PLACA", "UPNUTÍ", "AYNA TARAFI", "チャック側", "PARTING-OFF END", "ABSTICHSEITE", "COLLET END",
]  # fmt: skip
NO_WORDS = [
    "A", "FRONT VIEW", "VORDERANSICHT", "SECTION Z0", "Z0.5", "RZ 0", "M20 Z06", "SPANNSTIFT 5x20", "60",
    "Ra 0", "R0", "R 0", "NOTE 1", "ITEM 2", "HOLE 1", "FACE 12", "OP 1", "W01", "DEBURR", "GRIND FACE",
    "Zentrierbohrung", "KEY",
    "FRONT FACE TO BE GROUND AFTER HARDENING AND THEN LAPPED ALL OVER",
    "Widok przedni", "POHLED", "vooraanzicht",
]  # fmt: skip
STRANGE_WORDS = [
    "FACE 1", "SIDE 2", "W0", "P 0", "wp0",
    "DO NOT CLAMP HERE", "NICHT SPANNEN", "FACE OPPOSITE CHUCK", "CLAMP SCREW", "FRONT BUSH", "HOLD THIS TOLERANCE",
    "CHUCK FRONT FACE AND BACK FACE", "Etureuna", "Face de référence", "Čelo",
    "nie mocować tutaj", "Neupínat zde", "hier niet spannen", "spänn inte här",
]  # fmt: skip


@pytest.mark.parametrize("words", [*FRONT_WORDS, *FIRST_WORDS])
def test_a_front_word_with_a_leader_to_the_left_turns_the_reading_with_a_note(words):
    reading = hear(led(words, LEFT))
    assert (reading.front, near(reading)) == (FrontEnd("left", "words"), FROM_LEFT)
    (note,) = [f for f in reading.findings if f.code == "front-by-words"]
    assert note.level == "note"
    assert " ".join(words.split()) in note.message
    assert "left-hand end" in note.message


@pytest.mark.parametrize("words", [*FRONT_WORDS, *FIRST_WORDS])
def test_a_front_word_at_the_end_taken_bears_it_out(words):
    reading = hear(led(words, RIGHT))
    assert (reading.front, near(reading), codes(reading)) == (FrontEnd("right", "words"), FROM_RIGHT, [])


@pytest.mark.parametrize("words", CHUCK_WORDS)
def test_where_it_is_held_the_front_is_the_other_end(words):
    turned, kept = hear(led(words, (-4.0, 20.0))), hear(led(words, (-56.0, 20.0)))
    assert (turned.front, near(turned), codes(turned)) == (FrontEnd("left", "words"), FROM_LEFT, ["front-by-words"])
    assert (kept.front, near(kept), codes(kept)) == (FrontEnd("right", "words"), FROM_RIGHT, [])


@pytest.mark.parametrize("words", NO_WORDS)
def test_what_says_nothing_of_the_front_turns_nothing(words):
    for tip in (LEFT, RIGHT):
        reading = hear(led(words, tip))
        assert (reading.front, codes(reading)) == (FrontEnd("right", "assumed"), []), tip


def strange_ones(reading):
    return [
        f.message for f in reading.findings if "may mean the front face, Z0" in f.message and f.code == "front-assumed"
    ]


@pytest.mark.parametrize("words", STRANGE_WORDS)
@pytest.mark.parametrize("end", [LEFT, RIGHT])
def test_words_at_an_end_face_that_are_not_understood_are_told_and_turn_nothing(words, end):
    reading = hear(led(words, end))
    assert (near(reading), reading.front) == (FROM_RIGHT, FrontEnd("right", "assumed"))
    side = "left-hand" if end == LEFT else "right-hand"
    (told,) = strange_ones(reading)
    assert told.startswith(f'"{words}" is at the {side} end and may mean the front face, Z0;')
    assert "--front left turns it round" in told


@pytest.mark.parametrize("words", ["DATUM FACE", "DATUM A", "Bezugsfläche", "BEZUG B"])
def test_a_datum_is_told_at_the_end_that_was_not_taken(words):
    (told,) = strange_ones(hear(led(words, LEFT)))
    assert told.startswith(f'"{words}" is at the left-hand end and may mean the front face, Z0;')
    assert strange_ones(hear(led(words, RIGHT))) == []


@pytest.mark.parametrize("words", FIRST_WORDS)
def test_where_work_begins_and_lengths_do_not_is_a_stop(words):
    lengths = length(0.0, -10.0), length(0.0, -60.0)
    assert codes(hear(led(words, LEFT), *lengths)) == ["front-conflict"]
    assert codes(hear(led(words, RIGHT), *lengths)) == []


@pytest.mark.parametrize("words", REFERENCE_WORDS)
def test_a_face_of_reference_is_told_where_all_lengths_begin_at_the_other(words):
    lengths = length(0.0, -10.0), length(0.0, -60.0)
    (told,) = strange_ones(hear(led(words, LEFT), *lengths))
    assert "was taken for it, as all lengths begin there; --front left turns it round" in told
    assert strange_ones(hear(led(words, RIGHT), *lengths)) == []


ORIGINS = [
    "ORIGIN",
    "ZERO",
    "W0",
    "NP",
    "OP10",
    "OP 20",
    "OP10 FACE",
    "1. Seite",
    "FIRST SIDE",
    "1st OP",
    "2. Seite",
    "1ST SETUP",
    "1. Aufspannung",
    "G54",
    "原点",
    "零点",
]


@pytest.mark.parametrize("words", [*ORIGINS, "零点", "Нулевая точка"])
def test_an_origin_or_an_operation_at_an_end_is_told_whatever_the_lengths_say(words):
    for lengths in ((), (length(0.0, -10.0), length(0.0, -60.0))):
        (told,) = strange_ones(hear(led(words, LEFT), *lengths))
        assert told.startswith(f'"{words}" is at the left-hand end and may mean the front face, Z0;')
    assert strange_ones(hear(led(words, RIGHT), length(0.0, -10.0), length(0.0, -60.0))) == []


@pytest.mark.parametrize("words", ["COLLET", "Spannzange", "PART OFF", "CUT OFF", "Abstechseite", "зажим", "夹持"])
def test_where_a_part_is_held_or_cut_off_is_its_back(words):
    assert hear(led(words, RIGHT)).part.frame.axis == hear(led("CHUCK", RIGHT)).part.frame.axis
    assert hear(led(words, LEFT)).part.frame.axis == hear(led("CHUCK", LEFT)).part.frame.axis


@pytest.mark.parametrize("words", ["TAILSTOCK", "Reitstock", "contropunta"])
def test_where_the_tailstock_stands_is_the_front(words):
    assert hear(led(words, LEFT)).part.frame.axis == hear(led("FRONT", LEFT)).part.frame.axis


@pytest.mark.parametrize(
    "words",
    [
        "LEFT END IS FRONT", "linke Seite zuerst bearbeiten", "cero a la izquierda", "левый торец = 0",
        "Zero on left side",
    ],
)  # fmt: skip
def test_an_end_by_its_side_is_the_front_wherever_that_is_said(words):
    reading = hear(texts=[Text(words, (20.0, 90.0), 3.0)])
    assert reading.part.frame.axis == hear(led("FRONT FACE", LEFT)).part.frame.axis


@pytest.mark.parametrize("words", ["DATUM A", "Etureuna", "DO NOT START HERE", "THIS END SQUARE", "REFERENCE 4711"])
def test_other_words_there_say_nothing(words):
    assert codes(hear(led(words, LEFT), length(0.0, -10.0), length(0.0, -60.0))) == []


@pytest.mark.parametrize(
    ("tip", "told"),
    [((-60.0, 8.0), True), ((-57.0, 8.0), True), ((-56.9, 8.0), False), ((-60.0, 20.9), True), ((-60.0, 21.1), False)],
)
def test_strange_words_must_be_led_to_the_face(tip, told):
    assert bool(strange_ones(hear(led("Etureuna", tip)))) is told


def test_strange_words_ask_nothing_where_something_else_says_which_end_it_is():
    word = led("Etureuna", LEFT)
    assert strange_ones(hear(texts=[Text("Etureuna", (-64.0, 8.0), 2.5)])) == []
    assert strange_ones(hear(word, led("Z0", RIGHT))) == []
    assert strange_ones(hear(word, length(0.0, -10.0), length(0.0, -60.0))) == []
    assert strange_ones(hear(word, front="right")) == []
    datum = led("DATUM FACE", LEFT)
    assert len(strange_ones(hear(datum))) == 1
    assert strange_ones(hear(datum, led("Z0", RIGHT))) == []
    assert strange_ones(hear(datum, front="right")) == []


@pytest.mark.parametrize(("z", "by"), [(-3.0, "words"), (-3.2, "assumed"), (-57.0, "words"), (-56.8, "assumed")])
def test_a_front_face_must_be_touched(z, by):
    """A twentieth of the length is the limit: an arrow head set off, not a shoulder farther in."""
    assert hear(led("FRONT FACE", (z, 20.0))).front.by == by


@pytest.mark.parametrize(("z", "by"), [(-23.9, "words"), (-24.1, "assumed"), (-36.1, "words"), (-35.9, "assumed")])
def test_a_part_is_held_at_an_end_and_not_in_the_middle(z, by):
    assert hear(led("CLAMP HERE", (z, 20.0))).front.by == by


@pytest.mark.parametrize(
    "words",
    ["SUB SPINDLE SIDE", "FINISHED FACE", "Finished end", "FACE ALREADY FINISHED", "FERTIGE SEITE", "face finie"],
)
def test_a_finished_face_at_the_other_end_asks_which_is_meant(words):
    """Z0 is put at a finished face, and a part is held by an end that is done: words alone don't part the two."""
    reading = hear(led(words, LEFT))
    (stop,) = [f for f in reading.findings if f.stops]
    assert (stop.code, near(reading)) == ("front-conflict", FROM_RIGHT)
    assert words in stop.message
    assert codes(hear(led(words, LEFT), front="left")) == []
    assert codes(hear(led(words, RIGHT))) == codes(hear(led(words, RIGHT), led(words, LEFT))) == []


def test_plainer_words_settle_what_a_finished_face_leaves_open():
    reading = hear(led("FINISHED FACE", LEFT), led("CLAMP HERE", (-56.0, 20.0)))
    assert (reading.front, codes(reading)) == (FrontEnd("right", "words"), [])


STANDING = {
    "beside the left end": (Text("FRONT FACE", (-80.0, 10.0), 2.5), "left"),
    "above the left corner": (Text("Z0", (-61.0, 23.0), 2.5), "left"),
    "upright along the left face": (Text("FRONT FACE", (-62.0, -9.0), 2.5, angle=90.0), "left"),
    "held at the right": (Text("CHUCK SIDE", (3.0, 0.0), 2.5), "left"),
    "a nought above the left face": (Text("0", (-60.8, 24.0), 2.5), "left"),
}


@pytest.mark.parametrize(("text", "end"), STANDING.values(), ids=STANDING)
def test_a_word_that_stands_plainly_at_one_end_counts(text, end):
    assert hear(texts=[text]).front == FrontEnd(end, "words")


STANDING_OFF = {
    "under the middle": Text("FRONT", (-33.0, -30.0), 2.5),
    "far off": Text("FRONT FACE", (-110.0, 10.0), 2.5),
    "in a note on lengths": Text("LENGTHS FROM FRONT FACE", (-100.0, 10.0), 2.5),
    "the nought of heights on the axis": Text("0", (-64.0, -1.0), 2.5),
    "a nought inside the outline": Text("0", (-60.8, 10.0), 2.5),
}


@pytest.mark.parametrize("text", STANDING_OFF.values(), ids=STANDING_OFF)
def test_a_word_that_stands_at_no_end_does_not(text):
    assert hear(texts=[text]).front == FrontEnd("right", "assumed")


@pytest.mark.parametrize(("gap", "by"), [(14.9, "words"), (15.1, "assumed")])
def test_a_standing_word_is_six_letter_heights_from_its_end_at_most(gap, by):
    text = Text("Z0", (-60.0 - gap - 2 * 0.7 * 2.5, 0.0), 2.5)
    assert hear(texts=[text]).front.by == by


@pytest.mark.parametrize(
    "words",
    [
        "STIRNFLÄCHE", "CZOŁO", "ČELNÍ PLOCHA", "1ST SIDE", "1. SEITE", "ERSTE AUFSPANNUNG", "FIRST OPERATION THIS END",
        "W.P.Z.", "REFERENZFLÄCHE", "НУЛЕВАЯ ТОЧКА",
    ],
)  # fmt: skip
@pytest.mark.parametrize("placed", ["led", "standing"])
def test_words_for_an_origin_or_a_first_side_are_told_at_the_other_end(words, placed):
    """They may stand at either end; at the end taken, those without a leader change nothing."""
    high = 2.5
    texts = {z: Text(words, (z, 10.0), high) for z in (-60.0 - 8.0 - 0.7 * high * len(words), 8.0)}
    other, taken = (hear(texts=[text]) for text in texts.values())
    reading = hear(led(words, LEFT)) if placed == "led" else other
    told = [f.message for f in reading.findings if f.code == "front-assumed"]
    assert len(told) == 1
    assert words in told[0]
    assert reading.front == FrontEnd("right", "assumed")
    assert codes(taken) == []


@pytest.mark.parametrize(
    ("words", "tip", "end"),
    [
        ("SPINDLE SIDE", RIGHT, "left"),
        ("GRIP LENGTH 15", (-5.0, 20.0), "left"),
        ("CLAMPING LENGTH 15", (-56.0, 20.0), "right"),
    ],
)
def test_what_is_gripped_is_not_at_the_front(words, tip, end):
    assert hear(led(words, tip)).front == FrontEnd(end, "words")


@pytest.mark.parametrize(("gap", "asked"), [(7.6, True), (19.9, True), (20.1, False)])
@pytest.mark.parametrize("words", ["FRONT FACE", "VORDERSEITE"])
def test_a_word_in_line_farther_off_asks_which_end_is_meant(words, gap, asked):
    """Between six and sixteen letter heights, here of 1.25 mm, from the end at which nobody would look for Z0."""
    text = Text(words, (-60.0 - gap - len(words) * 0.7 * 1.25, 0.0), 1.25)
    reading = hear(texts=[text])
    stops = [f for f in reading.findings if f.stops]
    assert [f.code for f in stops] == ["front-conflict"] * asked
    assert all(f'{words}" stands beyond the left-hand end' in f.message for f in stops)
    assert reading.front == FrontEnd("right", "assumed")
    assert codes(hear(texts=[text], front="left")) == []


@pytest.mark.parametrize(
    ("words", "z", "asked"),
    [("CLAMP HERE", 15.0, True), ("FRONT FACE", 15.0, False), ("CHUCK", 15.0, False), ("JAW", 15.0, False)],
)
def test_what_it_says_of_an_end_is_asked_only_where_that_is_not_as_taken(words, z, asked):
    assert ("front-conflict" in codes(hear(texts=[Text(words, (z, 0.0), 1.25)]))) is asked


@pytest.mark.parametrize(
    ("words", "up", "gap", "asked"),
    [
        ("FRONT", -0.6, 15.0, True),
        ("Vorne", 1.8, 15.0, True),
        ("FRONT", 1.95, 15.0, False),
        ("FRONT", -0.6, 20.1, False),
        ("FRONT VIEW", -0.6, 15.0, False),
        ("CHUCK", -0.6, 15.0, False),
    ],
)
def test_a_single_word_farther_off_asks_on_the_line_of_the_axis(words, up, gap, asked):
    """Letters of 1.25: the middle of a word is at most 2.5 from the axis; one that stands off it may name a view."""
    text = Text(words, (-60.0 - gap - len(words) * 0.7 * 1.25, up), 1.25)
    assert ("front-conflict" in codes(read(texts=[text]))) is asked
    assert codes(read(texts=[replace(text, at=(gap, up))])) == []


@pytest.mark.parametrize(("up", "asked"), [(19.0, True), (21.0, False)])
def test_a_word_farther_off_counts_between_the_heights_of_the_outline(up, asked):
    """The outline is 20 high over its axis where it is highest."""
    text = Text("FRONT FACE", (-60.0 - 12.0 - 8.75, up - 0.6), 1.25)
    assert ("front-conflict" in codes(hear(texts=[text]))) is asked


@pytest.mark.parametrize(("gap", "by"), [(29.5, "words"), (30.5, "assumed")])
def test_the_other_end_is_three_times_as_far_at_least(gap, by):
    """Tall letters, so that only the share of both distances decides: 60 + gap against gap, beyond the left end."""
    text = Text("Z0", (-60.0 - gap - 2 * 0.7 * 6.0, 0.0), 6.0)
    assert hear(texts=[text]).front.by == by


def test_the_nought_of_a_row_of_figures_is_where_lengths_begin_and_turns_nothing():
    row = [Text(t, (z - 0.8, 24.0), 2.5) for t, z in (("0", -60.0), ("34", -26.0), ("50", -10.0))]
    assert hear(texts=row).front == FrontEnd("right", "assumed")


def row(*figures, at=24.0, angle=0.0):
    """Running dimensions as bare figures, each with its middle over its place."""
    half = [0.35 * 2.5 * len(t) for t, _ in figures]
    return [
        Text(t, (z - h, at) if not angle else (z, at), 2.5, angle=angle)
        for (t, z), h in zip(figures, half, strict=True)
    ]


ROWS = {
    "from the left": (row(("0", -60.0), ("34", -26.0), ("50", -10.0)), "assumed", ["front-assumed"]),
    "from the left, upright": (
        row(("0", -60.0), ("34", -26.0), ("50", -10.0), angle=90.0),
        "assumed",
        ["front-assumed"],
    ),
    "from the right": (row(("0", 0.0), ("21", -21.0), ("13", -13.0)), "dimensions", []),
    "of other figures": (row(("0", -60.0), ("12", -26.0), ("70", -10.0)), "assumed", []),
    "a letter height off": (row(("0", -60.0), ("34", -23.6), ("50", -7.6)), "assumed", ["front-assumed"]),
    "more than that off": (row(("0", -60.0), ("34", -23.4), ("50", -7.4)), "assumed", []),
}


@pytest.mark.parametrize(("figures", "by", "found"), ROWS.values(), ids=ROWS)
def test_running_dimensions_of_bare_figures_begin_at_their_nought(figures, by, found):
    reading = hear(texts=figures)
    assert (reading.front, codes(reading)) == (FrontEnd("right", by), found)


def test_a_length_that_is_there_twice_counts_once():
    assert codes(hear(length(-60, -45), length(-60, -45, DimensionKind.ALIGNED))) == []
    assert codes(hear(length(-60, -45), length(-60, -50, DimensionKind.ALIGNED))) == ["front-assumed"]


LOOSE = {
    "one stroke": [(-60.0, 8.0, -72.0, 16.0)],
    "leg and shelf": [(-60.0, 8.0, -70.0, 20.0), (-70.0, 20.0, -92.0, 20.0)],
    "with an arrow head": [(-60.0, 8.0, -72.0, 16.0), (-60.0, 8.0, -61.5, 9.8), (-60.0, 8.0, -62.0, 8.6)],
}


@pytest.mark.parametrize("strokes", LOOSE.values(), ids=LOOSE)
def test_a_leader_of_loose_lines_leads_as_well(strokes):
    ink = side_view(shaft())
    ink.solid += [(*s, 0.0) for s in strokes]
    at = (-91.0, 20.6) if len(strokes) == 2 else (-72.0 - 10 * 0.7 * 2.5, 16.0)
    assert read(texts=[Text("FRONT FACE", at, 2.5)], ink=ink).front == FrontEnd("left", "words")


def test_the_centre_line_beside_a_word_is_no_leader():
    """It begins beside the word at the right and ends at the left: taken for a leader it would name the wrong end."""
    ink = side_view(shaft(), centre=0.0)
    assert read(texts=[Text("FRONT FACE", (1.0, -1.2), 2.5)], ink=ink).front == FrontEnd("right", "words")


BEGINS = {
    "two lengths at the right": ([length(0, -10), length(0, -18)], "dimensions", []),
    "one groove at the right": ([length(-10, 0)], "dimensions", []),
    "two lengths at the left": ([length(-60, -10), length(-18, -60)], "assumed", ["front-assumed"]),
    "one groove at the left": ([length(-60, -13)], "assumed", ["front-assumed"]),
    "ordinates from the left": ([length(-60, z, ORDINATE) for z in (-60, -10, 0)], "assumed", ["front-assumed"]),
    "ordinates from the right": ([length(0, z, ORDINATE) for z in (0, -10, -60)], "dimensions", []),
    "both ends": ([length(0, -10), length(-60, -29)], "assumed", []),
    "the overall length": ([length(0, -60)], "assumed", []),
    "a width": ([length(-10, -13)], "assumed", []),
    "one length to no groove": ([length(-60, -45)], "assumed", []),
    "two lengths to no groove": ([length(-60, -45), length(-60, -50)], "assumed", ["front-assumed"]),
    "nothing": ([], "assumed", []),
}  # fmt: skip


@pytest.mark.parametrize(("lengths", "by", "found"), BEGINS.values(), ids=BEGINS)
def test_where_lengths_begin_says_whether_it_is_assumed_and_turns_nothing(lengths, by, found):
    reading = hear(*lengths)
    assert (reading.front, near(reading), codes(reading)) == (FrontEnd("right", by), FROM_RIGHT, found)
    assert all("--front left" in f.message and f.level == "caution" for f in reading.findings if f.code in found)


@pytest.mark.parametrize(("off", "by"), [(0.059, "dimensions"), (0.061, "assumed")])
def test_a_length_begins_on_the_face_itself(off, by):
    """A thousandth of the part's size, 0.06 here, is how well dimensions hit."""
    assert hear(length(-off, -10)).front.by == by


CONFLICTS = {
    "two words": ([led("FRONT FACE", LEFT), led("Z0", RIGHT)], ["front-conflict"]),
    "front and chuck at one end": ([led("FRONT FACE", LEFT), led("CLAMP HERE", (-55.0, 20.0))], ["front-conflict"]),
    "word against lengths": ([led("FRONT FACE", LEFT), length(0, -10), length(0, -18)], ["front-conflict"]),
    "word at the end taken, lengths from the other": ([led("Z0", RIGHT), length(-60, -10)], ["front-conflict"]),
    "two words that agree": ([led("FRONT FACE", LEFT), led("CLAMP HERE", (-5.0, 20.0))], ["front-by-words"]),
    "word and lengths that agree": ([led("FRONT FACE", LEFT), length(-60, -10)], ["front-by-words"]),
    "word with lengths at both": ([led("FRONT FACE", LEFT), length(-60, -10), length(0, -18)], ["front-by-words"]),
}


@pytest.mark.parametrize(("dimensions", "found"), CONFLICTS.values(), ids=CONFLICTS)
def test_words_that_contradict_stop_and_the_option_answers(dimensions, found):
    reading = read(*dimensions)
    assert codes(reading) == found
    stops = [f for f in reading.findings if f.stops]
    assert bool(stops) == (found == ["front-conflict"])
    for end, places in (("left", FROM_LEFT), ("right", FROM_RIGHT)):
        told = read(*dimensions, options=replace(MM, front=end))
        assert (told.front, near(told)) == (FrontEnd(end, "option"), places)
        assert not any(f.stops for f in told.findings)
        assert all(f"--front {end}" in stop.message for stop in stops)


def test_a_conflict_can_not_be_accepted_away():
    told = replace(MM, accept=frozenset({"front-conflict"}))
    assert any(f.stops for f in read(led("FRONT FACE", LEFT), led("Z0", RIGHT), options=told).findings)


def test_the_option_against_a_word_is_a_caution():
    reading = read(led("FRONT FACE", LEFT), options=replace(MM, front="right"))
    (caution,) = [f for f in reading.findings if f.code == "front-overridden"]
    assert caution.level == "caution"
    assert "FRONT FACE" in caution.message


@pytest.mark.parametrize(
    ("turn", "taken", "other"), [(90.0, "top", "bottom"), (-90.0, "bottom", "top"), (180.0, "left", "right")]
)
def test_parts_that_stand_upright_or_lie_the_other_way_have_words_at_their_ends_too(turn, taken, other):
    """The shaft's own right-hand end comes to lie at `taken`; the word is at its other one."""
    move = rotated(turn)
    reading = read(led("FRONT FACE", move(*LEFT), move(-30.0, 40.0)), move=move)
    assert (reading.front, near(reading)) == (FrontEnd(other, "words"), FROM_LEFT)
    kept = read(led("FRONT FACE", move(*RIGHT), move(-30.0, 40.0)), move=move)
    assert (kept.front, near(kept)) == (FrontEnd(taken, "words"), FROM_RIGHT)


def drawn(*draw):
    """The reading of a file with the shaft and more drawn by a library."""
    doc = blank()
    model = doc.modelspace()
    for x0, y0, x1, y1, _ in side_view(shaft()).solid:
        model.add_line((x0, y0), (x1, y1))
    model.add_line((-65, 0), (5, 0), dxfattribs={"linetype": "CENTER"})
    for one in draw:
        one(model, doc)
    return read_sheet(read_back(doc), MM)


def test_a_leader_and_its_text_in_a_file():
    def note(model, _):
        model.add_leader([(-60, 8), (-70, 24), (-74, 24)])
        model.add_text("VORDERSEITE", height=2.5).set_placement((-94, 23))

    assert drawn(note).front == FrontEnd("left", "words")


def test_a_leader_of_a_polyline_and_an_upright_text_in_a_file():
    def note(model, _):
        model.add_lwpolyline([(-60, -12), (-70, -24), (-70, -28)])
        model.add_mtext("CLAMP\\PHERE", dxfattribs={"char_height": 2.5, "insert": (-75, -29), "rotation": 0})

    reading = drawn(note)
    assert (reading.front, near(reading)) == (FrontEnd("right", "words"), FROM_RIGHT)


def test_ordinate_dimensions_in_a_file():
    def note(model, _):
        for z in (-50, -42, -34):
            dim = model.add_ordinate_x_dim(feature_location=(-60 - z, 0), offset=(0, 30), origin=(-60, 20))
            dim.render()

    assert codes(drawn(note)) == ["front-assumed"]


SIDED = [
    ("FRONT FACE IS ON THE LEFT", "left", "words"),
    ("Front face: left-hand end", "left", "words"),
    ("Z0 = LEFT FACE", "left", "words"),
    ("ZERO POINT ON LEFT END", "left", "words"),
    ("Nullpunkt linke Stirnfl\u00e4che", "left", "words"),
    ("NULLPUNKT LINKS", "left", "words"),
    ("Z\u00e9ro pi\u00e8ce face gauche", "left", "words"),
    ("CLAMP ON RIGHT", "left", "words"),
    ("Spannen: rechts", "left", "words"),
    ("Chuck on left side", "right", "words"),
    ("FRONT FACE RIGHT", "right", "words"),
    ("SPINDLE IS ON THE RIGHT", "left", "words"),
    ("TAILSTOCK CENTRE ON THE LEFT", "left", "words"),
    ("The chuck is at the left", "right", "words"),
    ("NOTES:\n1. DEBURR ALL EDGES.\n2. FRONT FACE = LEFT.\n3. ALL RADII 0.2", "left", "words"),
    # None of these says which of both ends is the front.
    ("FRONT FACE TO BE LEFT", "right", "assumed"),
    ("FRONT FACE LEFT AS FORGED", "right", "assumed"),
    ("FRONT FACE AT RIGHT ANGLES TO AXIS", "right", "assumed"),
    ("FRONT FACE NOT ON THE LEFT", "right", "assumed"),
    ("FRONT FACE LEFT SIDE, BACK RIGHT SIDE", "right", "assumed"),
    ("FRONT VIEW FROM LEFT SIDE", "right", "assumed"),
    ("LEFT", "right", "assumed"),
    ("M20 LEFT HAND", "right", "assumed"),
]


@pytest.mark.parametrize(("words", "end", "by"), SIDED)
def test_a_note_that_names_an_end_by_its_side_counts_wherever_it_stands(words, end, by):
    reading = hear(texts=(Text(words, (-300.0, -90.0), 3.5),))
    assert (reading.front.end, reading.front.by) == (end, by)
    assert codes(reading) == (["front-by-words"] if end == "left" else [])


BEGUN = [
    "ALL DIMENSIONS FROM LEFT FACE",
    "DATUM FOR DIMENSIONS: LEFT HAND END",
    "ORIGEN DE COTAS: CARA IZQUIERDA",
    "Alle Ma\u00dfe von linker Stirnseite",
    "Bezugskante links",
    "Origine des cotes : face gauche",
    "QUOTE DALLA FACCIA SINISTRA",
    "M\u00e5tt fr\u00e5n v\u00e4nster",
    "Wymiary: lewa strona",
    "ALL LENGTHS FROM LEFT FACE",
    "Alle L\u00e4ngen von linker Seite",
    "Longueurs depuis la face gauche",
    "LUNGHEZZE DAL LATO SINISTRO",
    "Longitudes desde el lado izquierdo",
    "GROOVES TO BE MACHINED FROM LEFT END",
    "Nuten von linker Seite stechen",
]


@pytest.mark.parametrize("words", BEGUN)
def test_where_sizes_begin_by_a_note_is_told_and_turns_nothing(words):
    reading = hear(texts=(Text(words, (-300.0, -90.0), 3.5),))
    (told,) = strange_ones(reading)
    assert told.startswith(f'"{words}" names the left-hand end and may mean the front face, Z0;')
    assert "--front left turns it round" in told
    assert (reading.front.end, reading.front.by) == ("right", "assumed")


@pytest.mark.parametrize("words", ["ALL LENGTHS FROM LEFT FACE", "DATUM: LEFT FACE"])
def test_so_it_is_where_all_sizes_that_are_drawn_begin_at_the_other_end(words):
    reading = hear(length(0.0, -10.0), length(0.0, -18.0), texts=(Text(words, (-300.0, -90.0), 3.5),))
    (told,) = strange_ones(reading)
    assert told.startswith(f'"{words}" names the left-hand end')
    assert (reading.front.end, reading.front.by) == ("right", "dimensions")


def test_a_datum_s_letter_says_nothing_against_the_sizes():
    """Words at an end that are not understood count where nothing else tells."""
    assert codes(hear(length(0.0, -10.0), length(0.0, -18.0), led("Etureuna", LEFT))) == []


@pytest.mark.parametrize(
    "words",
    [
        "ALL DIMENSIONS FROM RIGHT FACE",
        "ALL LENGTHS FROM RIGHT FACE",
        "LENGTH 5 AT LEFT FACE KNURLED",
        "ALL DIMENSIONS IN MM",
        "SURFACE TREATMENT LEFT FACE",
        "DIMENSIONS " * 6 + "LEFT",
        "GROOVES TO BE MACHINED FROM RIGHT END",
        "HARDEN 20 MM FROM LEFT END",
        "MACHINE FROM LEFT SIDE VIEW",
    ],
)
def test_other_notes_tell_nothing_of_where_sizes_begin(words):
    assert strange_ones(hear(texts=(Text(words, (-300.0, -90.0), 3.5),))) == []


def test_a_side_that_is_no_end_of_an_upright_part_says_nothing():
    texts = (Text("FRONT FACE = LEFT", (-300.0, -90.0), 3.5), Text("ALL DIMENSIONS FROM LEFT", (-300.0, -99.0), 3.5))
    reading = hear(texts=texts, turn=90)
    assert (reading.front.end, reading.front.by, codes(reading)) == ("top", "assumed", [])


UPRIGHT = [
    # A note, and the end that it names: each is a plain way to say it in its language (common practice, no source).
    ("FRONT FACE = BOTTOM END", "bottom"),
    ("Z0 = LOWER FACE", "bottom"),
    ("Z0 AT BOTTOM", "bottom"),
    ("NULLPUNKT: UNTERE PLANFLÄCHE", "bottom"),
    ("Nullpunkt unten", "bottom"),
    ("Vorderseite = Unterseite", "bottom"),
    ("Zéro pièce : face inférieure", "bottom"),
    ("Origine pièce en bas", "bottom"),
    ("ZERO PEZZO FACCIA INFERIORE", "bottom"),
    ("CERO PIEZA CARA INFERIOR", "bottom"),
    ("Nulpunt onderzijde", "bottom"),
    ("Nollpunkt nedre ytan", "bottom"),
    ("PUNKT ZEROWY: DOLNA POWIERZCHNIA", "bottom"),
    ("NULOVÝ BOD: SPODNÍ PLOCHA", "bottom"),
    ("CLAMP ON TOP END", "bottom"),
    ("SPANNEN OBEN", "bottom"),
    ("Z0 = TOP FACE", "top"),
    ("FRONT FACE UPPER END", "top"),
    ("Nullpunkt Oberseite", "top"),
    ("Zéro pièce : face supérieure", "top"),
    ("ZERO PEZZO IN ALTO", "top"),
    ("CERO PIEZA ARRIBA", "top"),
    ("Nulpunt bovenzijde", "top"),
    ("Nollpunkt övre ytan", "top"),
    ("PUNKT ZEROWY: GÓRNA POWIERZCHNIA", "top"),
    ("NULOVÝ BOD: HORNÍ PLOCHA", "top"),
]


@pytest.mark.parametrize(("words", "end"), UPRIGHT)
def test_a_note_names_the_ends_of_an_upright_part_too(words, end):
    notes = (Text(words, (-300.0, -90.0), 3.5),)
    reading = hear(texts=notes, turn=90)
    assert (reading.front.end, reading.front.by) == (end, "words")
    assert codes(reading) == (["front-by-words"] if end == "bottom" else [])


@pytest.mark.parametrize(
    "words",
    ["FRONT FACE TO BE BOTTOM", "Z0 NOT AT BOTTOM", "TOP FACE AND BOTTOM FACE Z0", "FRONT FACE = LEFT", "BOTTOM"],
)
def test_other_notes_of_an_upright_part_name_none_of_its_ends(words):
    reading = hear(texts=(Text(words, (-300.0, -90.0), 3.5),), turn=90)
    assert (reading.front.end, reading.front.by) == ("top", "assumed")


def test_the_upper_and_the_lower_side_of_a_part_that_lies_are_none_of_its_ends():
    reading = hear(texts=(Text("Z0 = BOTTOM FACE", (-300.0, -90.0), 3.5),))
    assert (reading.front.end, reading.front.by) == ("right", "assumed")


HOLDS = [
    "CHUCK ON SMALL END",
    "CLAMP ON %%c36",
    "Futter auf kleinem Ende",
    "Serrer sur le petit bout",
    "FLIP PART AFTER OP 1",
]


@pytest.mark.parametrize(
    "words", ["SPINDLE, STEEL EN 10083", "COLLET SLEEVE AT STATION 4", "SPINDEL FETT AUF LAGERSITZ"]
)
def test_a_title_with_such_words_apart_tells_of_no_hold(words):
    assert strange_ones(hear(texts=(Text(words, (-300.0, -90.0), 3.5),))) == []


@pytest.mark.parametrize("words", HOLDS)
def test_how_a_part_is_held_is_told_where_it_names_no_end_that_is_known(words):
    """By its end, its size or the order of its set-ups: who holds it there has meant one end to be the front."""
    (told,) = strange_ones(hear(texts=(Text(words, (-300.0, -90.0), 3.5),)))
    assert told.startswith(f'"{words}" tells how the part is held and may mean the front face, Z0;')
    assert strange_ones(hear(led("FRONT FACE", LEFT), texts=(Text(words, (-300.0, -90.0), 3.5),))) == []


@pytest.mark.parametrize(
    "words",
    [
        "CLAMP RING",
        "SPINDLE FOR LATHE",
        "CENTRE HOLES FOR TAILSTOCK ON BOTH ENDS",
        "CLAMPING MARKS ON FACE NOT ALLOWED",
        "NO CHUCK MARKS AT FACE",
        "VIEW ON CHUCK",
        "CHUCK ON A STEP " * 4,
    ],
)
def test_other_texts_with_such_words_tell_nothing(words):
    assert strange_ones(hear(texts=(Text(words, (-300.0, -90.0), 3.5),))) == []


@pytest.mark.parametrize(("words", "end"), [("PART OFF HERE", "left"), ("TAILSTOCK CENTRE HERE", "right")])
def test_a_place_that_is_led_to_is_the_end_there(words, end):
    assert hear(led(words, RIGHT)).front.end == end
    assert hear(led(words, LEFT)).front.end == {"left": "right", "right": "left"}[end]


REFERS = [
    "SQUARE TO FRONT FACE", "PARALLEL TO FRONT FACE 0.02", "RUNOUT TO REAR FACE 0.02", "SAME AS FRONT FACE",
    "60 TO FRONT FACE", "52 FROM REAR FACE", "20 FROM CHUCK SIDE", "20 von Rückseite", "parallel zur Vorderseite",
    "rechtwinklig zur Planseite 0,02", "10 depuis la face avant", "parallèle à la face avant",
    "perpendicolare alla faccia anteriore", "paralelo a la cara frontal", "10 desde la cara frontal",
    "paralelo à face dianteira", "evenwijdig met voorvlak", "parallell mot framsidan",
    "równoległe do powierzchni przedniej", "kolmo k přední ploše",
]  # fmt: skip


@pytest.mark.parametrize("words", REFERS)
def test_words_that_refer_to_an_end_from_elsewhere_say_nothing_of_which_it_is(words):
    """At a groove near an end, on the end face that was not taken, and beside it without a leader."""
    told = (
        hear(led(words, (-10.0, 17.0), (-4.0, 40.0))),
        hear(led(words, LEFT)),
        hear(texts=(Text(words, (-64.0 - 2.5 * len(words), 10.0), 2.5),)),
    )
    for reading in told:
        assert (near(reading), reading.front, codes(reading)) == (FROM_RIGHT, FrontEnd("right", "assumed"), [])


NAMES = [
    "DATUM A: FRONT FACE", "SET Z0 TO FRONT FACE", "START WITH FRONT FACE", "Z0 AN DER VORDERSEITE",
    "ORIGINE SUR LA FACE AVANT", "ZERO PEZZO ALLA FACCIA ANTERIORE", "CERO A LA CARA FRONTAL", "Z0 OP DE VOORZIJDE",
    "Z0 = A = FRONT FACE", "FRONT FACE OF SHAFT", "Vorderseite der Welle", "FACE AVANT DU PISTON",
    "FRONT FACE - SETUP 1", "VORDERSEITE PLANDREHEN", "LENGTHS TO FRONT FACE",
]  # fmt: skip


@pytest.mark.parametrize("words", NAMES)
def test_a_small_word_before_an_end_does_not_make_it_another(words):
    standing = Text(words, (-63.0 - 1.75 * len(words), 10.0), 2.5)
    for reading in (hear(led(words, LEFT)), hear(texts=(standing,))):
        assert (near(reading), codes(reading)) == (FROM_LEFT, ["front-by-words"])


def test_so_it_is_where_one_is_asked_to_hold_the_part():
    for words in ("CLAMP WITH JAWS HERE", "HOLD WITH CHUCK HERE", "SERRAGE AVEC MORS ICI"):
        assert near(hear(led(words, RIGHT))) == FROM_LEFT


MORE = ["DEBURR FRONT FACE", "STAMP FRONT FACE", "Vorderseite beschriften", "FRONT FACE GROUND", "poncer face avant"]


@pytest.mark.parametrize("words", MORE)
def test_words_that_say_more_of_an_end_than_its_name_ask_where_no_leader_touches_it(words):
    left, right = (Text(words, (x, 10.0), 2.5) for x in (-64.0 - 2.5 * len(words), 4.0))
    for text, found in ((left, ["front-conflict"]), (right, [])):
        reading = hear(texts=(text,))
        assert (near(reading), reading.front.by, codes(reading)) == (FROM_RIGHT, "assumed", found)
    assert near(hear(led(words, LEFT))) == FROM_LEFT


def test_what_is_held_somewhere_for_another_reason_asks():
    """On a land near the front: no end face is touched."""
    reading = hear(led("CLAMPING SURFACE FOR ASSEMBLY", (-4.0, 20.0)))
    assert (near(reading), codes(reading)) == (FROM_RIGHT, ["front-conflict"])
    for words in ("CLAMPING SURFACE", "CLAMP HERE WITH SOFT PADS"):
        assert near(hear(led(words, (-4.0, 20.0)))) == FROM_LEFT
