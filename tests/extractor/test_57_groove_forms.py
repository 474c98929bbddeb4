"""Notes that say of what form grooves are, held against the shape that was read.

Source of the words: common practice, no source.
"""

import pytest
from support.draw import Drawn, sheet_of, side_view

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.sizing.notes.groove_forms import form_said

SHAPES = {
    "rectangular": ((0.0, 20.0), (0.0, 17.0), (-6.0, 17.0), (-6.0, 20.0)),
    "tapered": ((0.0, 20.0), (-1.0, 17.0), (-5.0, 17.0), (-6.0, 20.0)),
    "round": ((0.0, 20.0, -1.0), (-6.0, 20.0)),
}  # fmt: skip
"""Half of a groove 6 wide and 3 deep in a bar 40 across."""


def told(words, shape="rectangular", *, led=False):
    """The cautions about a note below a part with two grooves of a shape, or led to the second."""
    line = [(start + z, *rest) for start in (-20.0, -40.0) for z, *rest in SHAPES[shape]]
    part = Drawn(((0.0, 20.0), *line, (-80.0, 20.0)))
    leader = Dimension(DimensionKind.LEADER, ((-43.0, 17.0), (-35.0, 40.0)), 0.0, 0.0, words)
    texts = () if led else (Text(words, (-80.0, -80.0), 3.5),)
    sheet = sheet_of(side_view(part), texts=texts, dimensions=(leader,) if led else ())
    reading = read_sheet(sheet, ReadOptions(units="mm"))
    assert {groove.shape for groove in reading.part.grooves} == {shape}
    return [f.message for f in reading.findings if words in f.message and f.level != "note"]


FORMS = {
    "round": [
        "GROOVES ROUND BOTTOM", "2 GROOVES ROUND BOTTOM", "Nutgrund rund", "FOND DE GORGE ARRONDI", "fondo gola tondo",
        "FONDO DE RANURA REDONDO", "FUNDO DO CANAL REDONDO", "ronde groefbodem", "dno rowka zaokrąglone",
        "dno drážky kulaté", "RUND SPÅRBOTTEN", "GROOVES SEMICIRCULAR",
    ],
    "slope": [
        "GROOVE WALLS 5° DRAFT EACH SIDE", "NUTFLANKEN 5° GENEIGT", "flancs de gorge inclinés 5°", "TAPERED GROOVES",
        "fianchi della gola inclinati 5°", "FLANCOS DE LA RANURA INCLINADOS 5°", "FLANCOS DO CANAL INCLINADOS 5°",
        "groefwanden 5° schuin", "ścianki rowka pochylone 5°", "stěny drážky sklon 5°", "SPÅRVÄGGAR LUTAR 5°",
    ],
    "under": [
        "T-SLOT", "GROOVES DOVETAIL", "GROOVE: DOVETAIL SHAPE", "SCHWALBENSCHWANZNUT", "gole a coda di rondine",
        "zwaluwstaartgroef",
    ],
}  # fmt: skip


@pytest.mark.parametrize(("form", "words"), [(form, words) for form, row in FORMS.items() for words in row])
def test_another_form_than_was_read_is_told(form, words):
    (message,) = told(words)
    assert " asks for " in message
    assert "the grooves are drawn otherwise: ask which is meant" in message
    assert form_said(words).name == form


def test_at_a_leader_the_groove_there_is_meant_and_need_not_be_named():
    assert ["groove 2 is drawn otherwise" in one for one in told("ROUND BOTTOM", led=True)] == [True]
    assert told("ROUND BASE") == told("SIDES PARALLEL", "tapered") == []


@pytest.mark.parametrize(
    ("words", "shape"),
    [
        ("GROOVE BOTTOM FLAT", "rectangular"), ("GROOVE WALLS PARALLEL", "rectangular"),
        ("GROOVES SQUARE", "rectangular"),
        ("NUTFLANKEN 90°", "rectangular"), ("BOTTOM FLAT", "rectangular"), ("GROOVES ROUND BOTTOM", "round"),
        ("TAPERED GROOVES", "tapered"), ("GROOVE WALLS 18.4° DRAFT", "tapered"),
        ("ROUND EDGES OF GROOVES", "rectangular"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("led", [False, True])
def test_the_form_that_was_read_is_no_matter(words, shape, led):
    """Walls that lean by 1 over a depth of 3 lean by 18.43 degrees."""
    assert told(words, shape, led=led) == []


@pytest.mark.parametrize(
    ("angle", "off"), [("18.4", False), ("18.3", True), ("18.5", False), ("18.6", True), ("36.9", False)]
)
def test_an_angle_is_held_to_half_its_last_place_and_the_pen(angle, off):
    """18.435 degrees of one wall, 36.870 between both."""
    assert bool(told(f"GROOVE WALLS {angle}° DRAFT", "tapered")) is off


@pytest.mark.parametrize(
    ("words", "told_here"),
    [("GROOVES SQUARE", "square walls"), ("GROOVE BOTTOM FLAT", ""), ("GROOVES TAPERED", "")],
)
def test_a_tapered_groove_has_no_square_walls(words, told_here):
    assert [told_here in one for one in told(words, "tapered")] == [True] * bool(told_here)


CALLED = [
    ("4 (4x)", "counts 4 where 3"), ("5 (3x)", "prints width 5"), ("4 (4 GROOVES)", "counts 4 where 3"),
    ("V 60°", "names a vee"),
    ("60° V", "names a vee"), ("M34x2", "names a thread"), ("TO SUIT PART 5", "not understood"),
    ("FIT TO RING", "not understood"),
    ("passend zu Teil 5", "not understood"), ("adaptado a pieza 5", "not understood"), ("?", "not understood"),
    ("4x 90°", "counts 4 where 3"), ("TYP 4 GROOVES", "counts 4 where 3"), ("Ø34 x 5 LG", "prints width 5"),
]  # fmt: skip
"""Call-outs that contradict one of three grooves 4 wide and 3 deep, or leave it open (common practice, no source)."""
TRUE = [
    "4 (3x)", "3 (3x)", "4 (3 GROOVES)", "TYP 3 GROOVES", "4x3 umlaufend", "4x3 ALL ROUND", "4x3 tout autour",
    "sleuf 4x3", "uritettu 4x3", "DO NOT BURR", "3x 90°", "6x 90°", "Ø34 x 4 LG", "4x3 TO SUIT RING",
]  # fmt: skip

NARROW = ((0.0, 20.0), (0.0, 17.0), (-4.0, 17.0), (-4.0, 20.0))


def led(words):
    """What is said at no lower level than a caution of words led to one of three grooves."""
    line = [(start + z, r) for start in (-20.0, -32.0, -44.0) for z, r in NARROW]
    leader = Dimension(DimensionKind.LEADER, ((-46.0, 17.0), (-35.0, 40.0)), 0.0, 0.0, words)
    sheet = sheet_of(side_view(Drawn(((0.0, 20.0), *line, (-80.0, 20.0)))), dimensions=(leader,))
    return [f.message for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.level != "note"]


@pytest.mark.parametrize(("words", "told_here"), CALLED)
def test_a_call_out_that_is_not_as_drawn_or_leaves_it_open_is_told(words, told_here):
    assert [told_here in one for one in led(words)] == [True]


@pytest.mark.parametrize("words", TRUE)
def test_a_call_out_as_drawn_is_no_matter(words):
    assert led(words) == []
