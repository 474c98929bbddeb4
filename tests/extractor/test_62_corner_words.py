"""Free notes that give the edges or the corners of grooves a size, in many languages: held, or told as not looked at.

Each is set beside a part whose corners or edges are drawn so, one where they are drawn otherwise, and one where they
are sharp. The ways of writing are common practice, no source.
"""

import pytest
from support.ties import HERE, bar
from support.weighing import NO_SEGMENTS

from extractor.grammar import normalised
from extractor.sheet import Sheet, Text
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.lettering.corner_words import corner_notes
from extractor.sizing.remaining.text_fates import text_ledger

AWAY = Text("", HERE.on_sheet(90.0, -70.0), 2.5)


def told(words, **fields):
    """Codes of what is said of a text away from a part with two grooves 3 wide and 3 deep, drawn so."""
    part = bar((-10, -13, 34, fields), (-30, -33, 34, fields))
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text(words, AWAY.at, 2.5),))
    part, findings = tie_dimensions(sheet, part)
    findings = (*findings, *text_ledger(sheet, part, findings).findings)
    assert all(f'"{normalised(words)}"' in f.message for f in findings), findings
    return [f.code for f in findings]


CORNERS = [
    "GROOVE ROOT RADIUS 0.8", "ROOT RADIUS 0.8 IN ALL GROOVES", "GROOVE CORNER RADIUS 0.8", "GROOVE BOTTOM RADIUS 0.8",
    "RADIUS AT BOTTOM OF GROOVES 0.8", "GROOVES WITH RADIUS 0.8 IN CORNERS", "2 GROOVES, CORNERS R0.8",
    "Nutgrundradius 0,8", "Radius im Nutgrund 0,8", "Alle Nuten R0,8 im Grund", "Eckenradius der Nuten 0,8",
    "Einstichradius 0,8", "Rayon fond de gorge 0,8", "Congé des gorges R0,8", "Raggio fondo gola 0,8",
    "Raggio di fondo delle gole R0,8", "Radio de fondo de ranura 0,8", "Radio en el fondo de las ranuras R0,8",
    "Promień dna rowka 0,8", "Promień w rowkach R0,8", "Poloměr dna drážky 0,8", "Rádius dna drážek R0,8",
    "Радиус дна канавок 0,8", "R0,8 в канавках", "槽底圆角R0.8", "槽底R0.8", "溝底R0.8", "溝底隅R0.8",
]  # fmt: skip
CHAMFERS = [
    "EDGES OF GROOVES CHAMFER 0.5", "CHAMFER GROOVE EDGES 0.5x45°", "GROOVE EDGES C0.5", "GROOVE MOUTH CHAMFER 0.5",
    "0.5 CHAMFER ON GROOVE EDGES", "GROOVES 45°x0.5", "Nutkanten 0,5x45°", "Einstichkanten mit Fase 0,5",
    "Arêtes des gorges chanfreinées 0,5", "Smussare i bordi delle gole 0,5", "Spigoli delle gole smussati 0,5",
    "Achaflanar aristas de ranuras 0,5", "Krawędzie rowków sfazować 0,5", "Hrany drážek srazit 0,5",
    "Фаски на кромках канавок 0,5", "槽口倒角0.5", "槽口倒角C0.5", "溝の角面取り0.5",
]  # fmt: skip
BROKEN = [
    "BREAK GROOVE EDGES 0.5", "BREAK EDGES OF GROOVES 0.5", "Nutkanten 0,5 gebrochen", "Kanten der Nuten 0,5 brechen",
    "Casser les arêtes des gorges 0,5", "Cantos de ranura 0,5", "Krawędzie rowków załamać 0,5",
    "Кромки канавок притупить 0,5", "槽边倒钝0.5", "BREAK GROOVE EDGES 0.4 - 0.6", "Nutkanten 0,4 bis 0,5",
    "GROOVE EDGES 0.4 MIN",
]  # fmt: skip
SHARP, STOP = ["corner-not-drawn"], ["note-contradicts"]


@pytest.mark.parametrize("words", CORNERS)
def test_a_radius_of_corners_is_held_against_those_drawn(words):
    drawn = [told(words, corner_radius=size) for size in (0.0, 0.2, 0.8)]
    assert drawn == [SHARP, STOP, []]


@pytest.mark.parametrize("words", [*CHAMFERS, *BROKEN])
def test_a_chamfer_or_a_break_is_held_against_the_edges_drawn(words):
    assert [told(words, edge_chamfer=size) for size in (0.0, 0.2, 0.5)] == [SHARP, STOP, []]


@pytest.mark.parametrize(("words", "drawn"), [*((one, STOP) for one in CHAMFERS), *((one, []) for one in BROKEN)])
def test_a_broken_edge_may_be_round_and_a_chamfer_is_not(words, drawn):
    assert told(words, edge_chamfer=0.5, rounded=True) == drawn


@pytest.mark.parametrize(
    ("words", "size", "codes"),
    [
        ("ALL GROOVE EDGES R0.2 MAX", 0.0, []),
        ("ALL GROOVE EDGES R0.2 MAX", 0.24, []),
        ("ALL GROOVE EDGES R0.2 MAX", 0.26, STOP),
        ("Nutkanten max. 0,2 gebrochen", 0.26, STOP),
        ("BREAK GROOVE EDGES 0.1 - 0.3", 0.06, []),
        ("BREAK GROOVE EDGES 0.1 - 0.3", 0.34, []),
        ("BREAK GROOVE EDGES 0.1 - 0.3", 0.04, STOP),
        ("BREAK GROOVE EDGES 0.1 - 0.3", 0.36, STOP),
        ("GROOVE EDGES 0.2 MIN", 0.14, STOP),
        ("GROOVE EDGES 0.2 MIN", 0.9, []),
    ],
)
def test_bounds_of_an_edge_take_in_what_lies_between_them(words, size, codes):
    """As printed, so that 0.2 is all from 0.15 to 0.25."""
    assert told(words, edge_chamfer=size, rounded=True) == codes


@pytest.mark.parametrize("words", ["GROOVE EDGES R0.2 MAX", "Nutkanten R0,2 max."])
def test_a_limit_of_edges_is_none_of_corners(words):
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(Text(words, AWAY.at, 2.5),))
    assert "corner_radius" not in tie_dimensions(sheet, bar())[0].grooves[0].tolerances


def test_each_size_of_a_note_has_the_words_before_it():
    both = corner_notes("GROOVE EDGES C0.3, ROOT R0.2 MAX")
    assert [(one.where, one.form, one.most) for one in both] == [
        ("edge", "chamfer", "0.3"),
        ("corner", "radius", "0.2"),
    ]


@pytest.mark.parametrize(
    "words",
    [
        "BREAK EDGES 0.2", "2 GROOVES 3 WIDE x 3 DEEP, BREAK EDGES 0.2 x 45°", "GROOVE 3 x 3, Ra 1.6",
        "3 GROOVE EDGES SHARP", "GROOVE FLANKS 15°", "GROOVE EDGES R0", "RADIUS 0.4", "KEYWAY CORNERS R0.2",
        "GROOVES FREE OF BURRS, MATERIAL C45", "HOLE EDGES 0.5x45°, GROOVE 3 WIDE",
    ],
)  # fmt: skip
def test_other_notes_say_nothing_of_the_edges_or_corners_of_grooves(words):
    assert corner_notes(words) == ()


@pytest.mark.parametrize(
    "words",
    [
        "GROOVE EDGES 0.3 AFTER GRINDING", "GROOVE ROOT R0.8 ON TYPE B", "GROOVE FLANKS 15°",
        "GROOVE EDGES 0.3 / 0.6 / 0.9", "Nutkanten 0,3 erst nach Muster", "GROOVE ROOTS 12",
    ],
)  # fmt: skip
def test_what_is_not_all_understood_is_told_whatever_is_drawn(words):
    for fields in ({"corner_radius": 0.8, "edge_chamfer": 0.3}, {}):
        assert told(words, **fields) != []


@pytest.mark.parametrize(
    "words",
    [
        "GROOVES FREE OF BURRS", "Nutkanten gratfrei", "GROOVE EDGES SHARP", "Krawędzie rowków bez zadziorów",
        "GROOVES Ra 0.8", "GROOVE SIDES PARALLEL 0.02", "2 GROOVES", "GROOVE SEE NOTE 3", "BREAK ALL SHARP EDGES 0.2",
        "RADII 0.4",
    ],
)  # fmt: skip
def test_what_asks_for_no_size_of_them_does_not_alarm(words):
    assert told(words) == []
