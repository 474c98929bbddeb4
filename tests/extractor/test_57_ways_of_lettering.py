"""Ways in which offices letter grooves: what is true says nothing, and no figure may be wrong in silence.

Common practice, no source. Two grooves 3 wide and 2 deep, 36 across their floors, in a bar 40 across and 60 long.
"""

import re

import pytest
from support.ties import HERE, across, along, bar
from support.weighing import NO_SEGMENTS

from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.dimensions import tie_dimensions

PART = bar((-10, -13, 36), (-25, -28, 36))
TRUE = {"w": "3", "d": "2", "f": "36", "n": "2", "z": "10"}
FALSE = {"w": "3.5", "d": "2.4", "f": "35", "n": "5", "z": "11"}
ALONG = (
    "{w}", "{w}.0", "{w},0", "{w} H13", "{w} +0,1 -0", "{w} TYP", "({w})", "{n}x {w}", "{w} ({n}x)", "{w} WIDE",
    "{w} GROOVE", "{w} RILLE", "{w} BOTH ENDS", "{w} EACH", "{w} REF", "REF {w}", "{w} x {d} DEEP", "{w} x {f} DIA",
    "{w} {n} PLACES", "TYP {w}", "[{w}]", "GROOVE {w}", "WIDTH {w}",
    "{n} GROOVES {w} WIDE", "larg. {w}", "b={w}", "NOM {w}",
)  # fmt: skip
OVER = (
    "Ø{f}",
    "Ø {f}",
    "{f} DIA",
    "DIA {f}",
    "ROOT Ø{f}",
    "Ø{f} GRUND",
    "{n}x Ø{f}",
    "Ø{f} BOTH GROOVES",
    "D={f}",
    "diam. {f}",
    "Ø{f} - {w}",
    "Ø{f} B{w}",
    "Ø{f} b {w}",
    "Ø{f} L{w}",
    "Ø{f} h11 - {w}",
)
LED = (
    "{w} WIDE x {d} DEEP", "GROOVE {w} x Ø{f}", "{w}x{d}", "RELIEF {w} x {d}", "GRV {w}W x {d}D",
    "{w} WIDE, {f} DIA ROOT",
    "ROOT Ø{f}", "W={w} D={f}", "b={w} t={d}", "l={w} p={d}", "L = {w}, P = {d}", "gorge {w} x {d}", "RADIAL DEPTH {d}",
    "{d} DEEP EACH SIDE", "THREAD RUNOUT {w} WIDE", "{n}x {w} x {d}", "{w} x {d} ({n}x)", "NECK {w} X {f}",
    "NECK {f} X {w}",
    "{w} GROOVE X {f} DIA", "DEPTH OF GROOVE {d}", "GROOVE DEPTH {d}", "{n} OFF {w} x {d}",
    "Ø{f} - {w}", "Ø{f} B{w}", "Ø{f} L{w}", "{f} x {w}", "{w} DEEP {d}", "{w} TIEF {d}", "GROOVE {w} DEEP {d}",
    "{n} RANHURAS LARGURA {w} PROFUNDIDADE {d}",
    "{n}处 槽宽{w} 深{d}", "{n}處 槽寬{w} 深{d}", "溝幅{w} 深さ{d} {n}ヶ所",
    "{n} caneluri lățime {w} adâncime {d}", "{n} žlijebovi širina {w} dubina {d}", "{n} utori širine {w} globine {d}",
    "{n} αυλάκια πλάτος {w} βάθος {d}", "b = {w} ; t = {d} ; n = {n}", "LARGHEZZA GOLA {w}", "DEPTH {d} FROM Ø40",
    "{d} DEEP FROM DIA 40", "{d} tief ab Ø40", "PROFONDEUR {d} DEPUIS Ø40", "{w} WIDE x {d} DEEP BELOW Ø40",
)  # fmt: skip
NOTED = (
    "ALL GROOVES {w} WIDE", "GROOVE DEPTH {d}", "GROOVE ROOT DIA {f}", "GROOVE ROOT DIAM. {f}", "GROOVE BOTTOM Ø{f}",
    "{n} GROOVES {w} x {d}", "profondeur des gorges {d}", "profondeur de la gorge {d}", "Profondità delle gole {d}",
    "FIRST GROOVE {z} FROM FRONT FACE", "2. FIRST GROOVE {z} FROM FRONT FACE", "Nutbreite {w}", "Nuttiefe {d}",
    "EINSTICHTIEFE {d}", "GROOVE {w} DEEP {d}", "NUT {w} TIEF {d}", "GORGE {w} PROF. {d}", "RANURA {w} PROF. {d}",
    "DRAZKA {w} HLOUBKA {d}", "CANAL {w} PROFUNDO {d}", "SPÅR {w} DJUP {d}", "NUT {w} BREIT {d} TIEF",
    "SLOT {w} x {d}",
)  # fmt: skip
WAYS = {"along": ALONG, "over": OVER, "led": LED, "noted": NOTED}


def told(way, words):
    """Levels and codes of what is said of words on a sheet."""
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(-11.5, 18.0), HERE.on_sheet(0.0, 38.0)), 0.0, 0.0, words)
    rows = {"along": (along(-10, -13, words),), "over": (across(36, words, z=-11.5),), "led": (leader,)}
    texts = (Text(words, HERE.on_sheet(60.0, -70.0), 2.5),) if way == "noted" else ()
    dimensions = (*rows.get(way, ()), across(40, "Ø40", z=-35.0))
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=dimensions, texts=texts)
    return [(f.level, f.code) for f in tie_dimensions(sheet, PART)[1] if f.level != "note"]


@pytest.mark.parametrize(("way", "words"), [(way, words) for way, rows in WAYS.items() for words in rows])
def test_what_is_true_says_nothing_and_what_is_false_is_never_passed(way, words):
    assert told(way, words.format(**TRUE)) == []
    for name in re.findall(r"{(\w)}", words):
        assert told(way, words.format(**{**TRUE, name: FALSE[name]})), name


@pytest.mark.parametrize("words", ["3.5", "3.5 2", "3.5-2"])
def test_bare_figures_that_are_no_size_are_asked_about_at_a_leader(words):
    text, tip = Text(words, HERE.on_sheet(5.0, 38.0), 2.5), HERE.on_sheet(-11.5, 18.0)
    leader = Dimension(DimensionKind.LEADER, (tip, text.at), 0.0, 0.0, words)
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, dimensions=(leader,), texts=(text,))
    assert [f.code for f in tie_dimensions(sheet, PART)[1]] == ["dimension-unclear"]


@pytest.mark.parametrize(
    ("words", "part", "width"),
    [
        ("GROOVE WIDTH 3 ±0.1", PART, [(-0.1, 0.1)] * 2),
        ("GROOVE WIDTH 3 ±0.1", bar((-10, -13, 36), (-25, -29, 36)), [None, None]),
        ("GROOVE WIDTH 3 ±0.1, 1 OFF", PART, [None, None]),
    ],
)
def test_a_tolerance_of_a_groove_is_of_all_where_it_fits_them_all(words, part, width):
    text = Text(words, HERE.on_sheet(60.0, -70.0), 2.5)
    read, findings = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(text,)), part)
    assert [g.tolerances.get("width") for g in read.grooves] == width
    assert bool(findings) == (None in width)


UNLIKE = bar((-10, -13, 36), (-25, -29, 36))
"""Grooves 3 and 4 wide."""


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("GROOVE 2: 4 WIDE", None),
        ("GROOVE 2: 4.5 WIDE", "prints width 4.5 where the drawing measures 4 (groove 2): ask"),
        ("GROOVE NO. 1: 4.5 WIDE x 2 DEEP", "prints width 4.5 where the drawing measures 3 (groove 1): ask"),
        ("GROOVE 1: 4 WIDE", "does not fit groove 1 as counted from the front, but another"),
        ("GROOVE 3: 4 WIDE", "does not fit groove 3 as counted from the front, but another"),
        ("GROOVE 3: 4.5 WIDE", "prints width 4.5 where the drawing measures 3: ask"),
        ("GROOVE 1 - 3.5 WIDE, GROOVE 2 - 4 WIDE", "is not understood"),
    ],
)
def test_a_groove_named_by_its_number_is_the_one_so_counted_from_the_front(words, said):
    text = Text(words, HERE.on_sheet(60.0, -70.0), 2.5)
    found = tie_dimensions(Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=(text,)), UNLIKE)[1]
    assert [said is not None and said in f.message for f in found] == [True] * (said is not None)


@pytest.mark.parametrize(("words", "asked"), [("xy 3.5", True), ("x 3.5", False), ("xy 9.1", False), ("Ra 3.5", False)])
def test_a_word_that_nobody_knows_at_a_leader_may_size_its_groove(words, asked):
    assert told("led", words) == [("caution", "note-unread")] * asked
