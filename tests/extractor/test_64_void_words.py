"""Sheets that say they are out of force, and notes that ask for a groove more or less.

Source of the words: common practice, no source.
"""

import re
from dataclasses import replace
from functools import cache

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.sizing.sentences.void_words import EARLY, STAMP, out_of_force

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))


def drawn(*words, angle=0.0, part=PART):
    """The part with texts below it, far from one another."""
    texts = tuple(Text(w, (-60.0, -50.0 - 60.0 * k), 5.0, angle=angle) for k, w in enumerate(words))
    return sheet_of(full_outline(part), texts=texts)


def read(*words, accept=(), angle=0.0, part=PART):
    """All that is told of the part with texts below it."""
    found = read_sheet(drawn(*words, angle=angle, part=part), ReadOptions(units="mm", accept=accept)).findings
    codes = ("out-of-force", "note-unread")
    return [f for f in found if f.code in codes and "Words at the part" not in f.message]


@cache
def read_part(part):
    """The part without a text."""
    return read_sheet(drawn(part=part), ReadOptions(units="mm")).part


def heard(words, *, angle=0.0, part=PART):
    """What is told of one text by what it asks for, of a part that is read once for all of them."""
    return [*out_of_force(drawn(words, angle=angle, part=part), read_part(part))]


def said(words, **more):
    """What is said of a text, by code and level."""
    return by_level(heard(words, **more))


def by_level(findings):
    return [(f.code.value, f.level.value) for f in findings]


STOPS = [
    "VOID", "void!", "*** VOID ***", "CANCELLED", "Canceled 12.03.2021", "SUPERSEDED", "SUPERSEDED BY 4711-B",
    "THIS DRAWING IS OBSOLETE", "DRAWING WITHDRAWN", "NOT VALID", "DO NOT USE", "NOT FOR PRODUCTION", "STATUS: VOID",
    "图纸作废", "本图已作废", "廃図",
    "Ungültig", "UNGUELTIG", "Zeichnung ungültig", "Ersetzt durch 4711", "storniert", "ANNULÉ", "plan annulé",
    "Remplacé par 88", "PÉRIMÉ", "ANNULLATO", "sostituito da 12", "ANULADO", "SUBSTITUÍDO", "VERVALLEN", "MAKULERAD",
    "UTGÅTT", "UDGÅET", "Ugyldig", "KUMOTTU", "UNIEWAŻNIONY", "Rysunek unieważniony", "ANULOWANO", "ZRUŠENO",
    "NEPLATNÉ", "ÉRVÉNYTELEN", "İPTAL", "АННУЛИРОВАНО", "недействительный",
    "Questo disegno è annullato", "Questo disegno è stato annullato", "Ce dessin a été annulé",
    "Este plano ha sido anulado", "Este desenho foi cancelado", "Deze tekening is vervallen",
    "Denna ritning är ogiltig", "Denne tegning er ugyldig", "Ten rysunek jest unieważniony", "Tento výkres je neplatný",
    "SOSPESO", "NON UTILIZZARE", "ON HOLD", "Ne pas utiliser", "Nicht für Fertigung freigegeben", "NE PAS FABRIQUER",
    "Zeichnung ungültig ab 1.1.26", "NO VÁLIDO PARA FABRICACIÓN", "NIET VOOR PRODUCTIE", "EJ FÖR TILLVERKNING",
    "WYCOFANY", "Do not manufacture from this drawing", "NON PER PRODUZIONE", "NIE DO PRODUKCJI", "NOT TO BE USED",
]  # fmt: skip


@pytest.mark.parametrize("words", STOPS)
def test_a_stamp_stops_and_its_words_are_told(words):
    (stop,) = heard(words)
    assert (stop.code, stop.stops, f'"{words}"' in stop.message) == ("out-of-force", True, True)


def test_a_stamp_may_be_accepted():
    assert by_level(read("VOID", accept=("out-of-force",))) == [("out-of-force", "caution")]


def test_one_stop_is_told_of_several_stamps():
    assert said("VOID\nSUPERSEDED BY 4711\nVOID") == [("out-of-force", "stop")]


NOT_YET = [
    "PRELIMINARY", "Draft", "*** DRAFT 2 ***", "STATUS: PRELIMINARY", "THIS DRAWING IS PRELIMINARY", "ENTWURF",
    "FOR INFORMATION ONLY", "FOR QUOTATION ONLY", "FOR APPROVAL", "UNCONTROLLED COPY", "NOT RELEASED", "Vorläufig",
    "nur zur Information", "Zeichnung nicht freigegeben", "PRÉLIMINAIRE", "bozza", "BORRADOR", "voorlopig", "UTKAST",
    "FORELØBIG", "WSTĘPNY", "ПРЕДВАРИТЕЛЬНЫЙ",
]  # fmt: skip


@pytest.mark.parametrize("words", NOT_YET)
def test_a_sheet_that_is_not_yet_released_is_a_caution(words):
    (told,) = heard(words)
    assert (told.code, told.level) == ("out-of-force", "caution")
    assert f'"{words}" at X-60 Y-50 says that the drawing is not released' in told.message


@pytest.mark.parametrize("words", ["VOID", "Zeichnung ungültig ab 1.1.26", "DRAFT - DO NOT MANUFACTURE", "DRAFT"])
@pytest.mark.parametrize("angle", [0.0, 30.0])
def test_a_whole_sheet_says_of_a_stamp_what_is_heard_of_it(words, angle):
    """The tests of words hear them alone."""
    assert read(words, angle=angle) == heard(words, angle=angle) != []


def stacked(*lines, step=8.0, off=0.0, second=5.0, angle=0.0):
    """What is said of lines that are texts of their own, `step` apart, the lower ones `off` to the right."""
    first = Text("", (-60.0, -50.0), 5.0, angle=angle)
    texts = tuple(
        Text(words, first.place(k * off, -k * step), second if k else 5.0, angle=angle) for k, words in enumerate(lines)
    )
    told = out_of_force(sheet_of(full_outline(PART), texts=texts), read_part(PART))
    return [(f.level.value, f.message.split('"')[1]) for f in told if f.code == "out-of-force"]


@pytest.mark.parametrize(
    ("lines", "level"),
    [
        (("NOT FOR", "PRODUCTION"), "stop"),
        (("NICHT ZUR", "FERTIGUNG"), "stop"),
        (("DO NOT", "USE"), "stop"),
        (("NE PAS", "UTILISER"), "stop"),
        (("NON", "UTILIZZARE"), "stop"),
        (("NOT YET", "RELEASED"), "caution"),
    ],
)
@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
def test_a_stamp_may_stand_on_lines_that_are_texts_of_their_own(lines, level, angle):
    assert stacked(*lines, angle=angle) == [(level, " ".join(lines))]
    assert stacked(*lines[::-1], angle=angle) == []
    assert stacked(lines[0], "SHARP EDGES", lines[1], angle=angle) == []


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"step": 10.9}, True),
        ({"step": 11.1}, False),
        ({"off": 20.0}, True),
        ({"off": 40.0}, False),
        ({"second": 4.9}, False),
    ],
)
def test_its_lines_are_of_one_height_and_stand_one_under_the_other(more, told):
    """From line to line 2.2 letter heights at most; the first is 7 letters of 5 long."""
    assert bool(stacked("NOT FOR", "PRODUCTION", **more)) is told


def test_a_stamp_has_three_lines_at_most():
    assert stacked("NOT", "FOR", "PRODUCTION") == [("stop", "NOT FOR PRODUCTION")]
    assert stacked("NICHT", "FÜR", "DIE", "FERTIGUNG") == []


def test_a_sheet_out_of_force_is_told_alone():
    assert said("DRAFT\nVOID") == [("out-of-force", "stop")]
    assert said("DRAFT\nPRELIMINARY") == [("out-of-force", "caution")]


OTHER_THINGS = [
    "DRAFT:", "DRAFT ANGLE 3", "DRAFTED BY A. SMITH", "PRELIMINARY TURNING", "FOR INFORMATION SEE SHEET 2",
    "UNCONTROLLED WHEN PRINTED", "SUPERSEDED BY", "CANCELLED ON", "Ersetzt durch:", "ERSETZT DURCH: ---",
    "Ersatz für 4711", "Superseded:", "SUPERSEDES DRAWING 4711", "VOID CONTENT BELOW 2 %", "NO VOIDS PERMITTED",
    "ANY CHANGE VOIDS THE ORDER", "WORN SEALS TO BE REPLACED YEARLY", "DO NOT USE SHARP TOOLS FOR FITTING",
    "INVALIDITY", "AVOID SHARP EDGES", "GROOVE ADDED 12.03.2021", "GROOVE 2 MOVED 1.5 TO THE LEFT, REV B",
    "REMOVE BURRS FROM GROOVES", "ADD 5 TO ALL SIZES OF THE BOX", "DELETE BURRS FROM GROOVE", "LOESCHBLATT",
]  # fmt: skip


def test_headings_and_sentences_about_other_things_say_nothing():
    assert read(*OTHER_THINGS) == []


MORE_OR_LESS = [
    "ALSO CUT GROOVE 3 WIDE 2 DEEP AT 50 FROM FACE", "DELETE GROOVE AT LEFT", "Nut entfällt",
    "ADD SECOND GROOVE AS PER PHONE CALL", "zusätzlicher Einstich 3 breit", "supprimer la gorge", "gorge supprimée",
    "ranura anulada", "spår utgår", "drážku vynechat", "AGGIUNGERE GOLA", "usunąć rowek",
    "groef toevoegen: GROOVE 3 WIDE", "GROOVE TO BE OMITTED ON REV C", "MIDDLE GROOVE OMITTED",
    "GROOVE TO BE MOVED 1.5 TO THE LEFT", "SECOND GROOVE ONLY FOR TYPE B", "Nut nur für Ausführung B",
    "GROOVES FOR ORDER 4711 ONLY", "Nut nur für Auftrag 4711", "GROOVES BY OTHERS", "Einstich bauseits",
    "GROOVES TO BE CUT AFTER HARDENING", "Einstich gedreht nach dem Härten", "GROOVE NOT TO BE MADE",
    "NO GROOVE ON SAMPLES", "GROOVE ON VERSION B ONLY", "2 OFF, ONE WITHOUT GROOVE",
    "GROOVE TO BE CUT AFTER ASSEMBLY", "Einstich erst nach Montage", "GROOVE 180° ONLY", "GROOVE IN UPPER HALF ONLY",
    "DRAWING SHOWS HALF THE GROOVES", "GROOVES NOT SHOWN: 3", "pièce sans gorge",
]  # fmt: skip


def test_a_note_that_asks_for_a_groove_more_or_less_is_told():
    told = read(*MORE_OR_LESS)
    assert set(by_level(told)) == {("note-unread", "caution")}
    assert {f.message.split('"')[1] for f in told} == set(MORE_OR_LESS)


@pytest.mark.parametrize(
    "words",
    ["{}TH GROOVE ADDED", "{}. Nut hinzugefügt", "{}. Nut wurde ergänzt", "{}ème gorge ajoutée", "{}a gola aggiunta",
     "{}ª ranura añadida", "GROOVE {} ADDED", "GROOVE NO. {} ADDED", "{}e groef toegevoegd", "{}:e spår tillagt",
     "{}. drážka přidána", "{} GROOVES ADDED", "REV C: {} GROOVES WERE ADDED"],
)  # fmt: skip
def test_grooves_that_a_revision_added_must_be_there(words):
    """The part has one groove."""
    assert said(words.format(2)) == [("note-unread", "caution")]
    assert said(words.format(1)) == []


DRAWN = ["GROOVE ADDED", "HOLE 4 ADDED", "GROOVE 3 WIDE ADDED", "CHAMFER ADDED AT GROOVE"]


def test_others_are_drawn():
    assert read(*DRAWN) == []


OTHER_KINDS = [
    "HELICAL GROOVE", "SPIRAL GROOVE 2 START", "GROOVE FLOOR TAPERED 2°", "ECCENTRIC GROOVE", "Exzentrische Nut",
    "gorge hélicoïdale", "gorge interrompue", "gola eccentrica", "GROOVES NOT ALL ROUND",
    "GROOVES MILLED FROM ONE SIDE", "Nut gefräst", "gorge fraisée", "gole fresate", "ranuras fresadas",
]  # fmt: skip


def test_a_note_that_asks_for_a_groove_of_another_kind_is_told():
    told = [f.message for f in read(*OTHER_KINDS)]
    assert sorted(message.split('"')[1] for message in told) == sorted(OTHER_KINDS)
    assert all(one.startswith("The note ") and " asks for another groove; " in one for one in told)


@pytest.mark.parametrize(
    "words", ["ALL GROOVES FULL RADIUS", "Einstiche mit Vollradius", "gorge plein rayon", "GOLE A RAGGIO PIENO"]
)
@pytest.mark.parametrize("radius", [0.0, 1.0, 1.5])
def test_floors_of_one_full_radius_are_asked_for_where_others_are_drawn(words, radius):
    """The groove is 3 wide."""
    found = heard(words, part=replace(PART, cuts=(Cut(-10.0, 3.0, 34.0, corner=radius),)))
    assert any(" asks for a floor of one full radius; " in f.message for f in found) is (radius < 1.5)


NO_GROOVE = [
    "GROOVE FOR SPIRAL RETAINING RING", "DEBURR GROOVE", "O-RING GROOVE", "NO BURRS IN GROOVE", "HELICAL SPRING",
    "GROOVE AFTER HARDENING Ra 0.8", "NOT SHOWN", "DEBURR GROOVE AFTER GRINDING",
    "GROOVES TURNED ALL ROUND", "SUPPLIED BY CUSTOMER: BAR",
]  # fmt: skip


def test_other_notes_on_grooves_ask_for_none():
    assert read(*NO_GROOVE) == []


@pytest.mark.parametrize(
    ("words", "level"),
    [
        ("PRELIMINARY - NOT FOR PRODUCTION", "stop"),
        ("PRELIMINARY: NOT FOR PRODUCTION", "stop"),
        ("NOT FOR\nPRODUCTION", "stop"),
        ("DRAFT - DO NOT MANUFACTURE", "stop"),
        ("Vorabzug - nicht zur Fertigung freigegeben", "stop"),
        ("DO NOT USE FOR MANUFACTURE", "stop"),
        ("NON VALIDO PER PRODUZIONE", "stop"),
        ("OBSOLETE - SEE 4711", "stop"),
        ("REV. P1 PRELIMINARY", "caution"),
        ("SAMPLE ONLY", "caution"),
        ("HOLD TO Ø34\nFOR PRODUCTION", ""),
        ("DO NOT USE FOR LIFTING", ""),
        ("DRAFT, FOR REFERENCE ONLY", "caution"),
        ("ENTWURF / nur zur Information", "caution"),
        ("SHAFT - VOID CONTENT 2 %", ""),
        ("FLANGE - DRAFT 3", ""),
    ],
)
def test_a_line_of_stamps_says_what_the_worst_of_them_says(words, level):
    assert said(words) == ([("out-of-force", level)] if level else [])


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("MIRROR IMAGE OF PART AS DRAWN", True),
        ("OPPOSITE HAND TO 4711", True),
        ("MAKE LEFT HAND AS SHOWN, RIGHT HAND OPPOSITE", True),
        ("spiegelbildlich zur Zeichnung", True),
        ("MIRROR FINISH Ra 0.05", False),
    ],
)
def test_a_part_to_be_made_the_other_way_round_is_told(words, told):
    assert said(words) == [("note-unread", "caution")] * told


OTHERWISE_SIZED = {
    "other sizes to be turned than are drawn": [
        "GRINDING ALLOWANCE 0.3 ON ALL DIAMETERS", "Schleifzugabe 0,3 auf alle Durchmesser", "LEAVE 0.2 FOR GRINDING",
        "DIMENSIONS AFTER PLATING, ALLOW 0.02 PER SIDE", "ALLOWANCE 0.3 ON ALL DIAMETERS", "Schleifaufmaß 0,2",
        "ALL DIMENSIONS TO BE MET AFTER HEAT TREATMENT", "Maße gelten nach dem Beschichten", "COTES APRÈS TRAITEMENT",
        "Surépaisseur de rectification 0,3", "SOVRAMETALLO 0,3 PER RETTIFICA", "QUOTE DOPO LA CROMATURA",
        "COTAS DESPUÉS DEL TRATAMIENTO", "LEAVE 0.3 GRINDING STOCK", "TURN 0.3 OVERSIZE FOR GRINDING",
        "Maße nach Oberflächenbehandlung", "Fertigmaß nach Schleifen", "PRÉVOIR 0,3 POUR RECTIFICATION",
        "lasciare 0,3 per rettifica", "dejar 0,3 para rectificado", "+0.3 FOR GRINDING", "Ø40 +0.3 FOR GRINDING",
        "0.3 ON DIA FOR GRINDING", "0.3 STOCK FOR GRINDING", "+0,3 ZUM SCHLEIFEN", "+1 für Schleifen",
        "+0,3 pour rectification", "0,3 mm per la rettifica", "+0,3 para rectificado", "0,3 na szlifowanie",
        "+0,3 pro broušení", "0,3 voor slijpen", "TURN TO Ø40.3 FOR GRINDING", "PRE-TURN Ø40.3", "ROUGH TURN +0.3",
        "vordrehen auf Ø40,3", "ROUGH MACHINED DRAWING", "ROHTEILZEICHNUNG", "CASTING DRAWING",
        "ROUGH MACHINED DRAWING, ALLOW 0.5 ON ALL SURFACES", "GRIND STOCK 0.2 PER SIDE",
        "HARD CHROME 0.05 PER SIDE, SIZES SHOWN ARE FINISHED",
        "ALL SIZES x 2", "SIZES x2", "ALL DIMENSIONS TIMES 2", "DIMENSIONS ARE TO BE x .5", "ALL SIZES PLUS 0.2",
        "MULTIPLY ALL DIMENSIONS BY 2", "DOUBLE ALL SIZES", "SCALE ALL SIZES BY 1.02 FOR SHRINKAGE", "Alle Maße x 2",
        "Alle Maße verdoppeln", "DIMENSIONS ARE DOUBLED", "TOUTES COTES x 2", "tutte le quote x 2",
        "ALL DIAMETERS 0.4 UNDERSIZE", "ALL SIZES TWICE AS DRAWN", "ALLE MASSE DOPPELT WIE GEZEICHNET",
        "toutes les cotes doubles du dessin", "TUTTE LE QUOTE DOPPIE DEL DISEGNO", "ALL DIMENSIONS HALF OF THOSE SHOWN",
        "TODAS LAS MEDIDAS EL DOBLE DE LO DIBUJADO",
    ],
    "sizes to be taken for radii": [
        "DIMENSIONS ARE RADII", "ALL DIAMETERS SHOWN AS RADII", "Maße sind Radien", "COTES AU RAYON",
        "QUOTE SUL RAGGIO", "VALUES GIVEN AS RADII",
    ],
}  # fmt: skip
"""What says that sizes are others than those to be turned (common practice, no source)."""


@pytest.mark.parametrize("what", OTHERWISE_SIZED)
def test_a_note_that_says_the_sizes_drawn_are_not_those_to_be_turned_is_told(what):
    told = read(*OTHERWISE_SIZED[what])
    assert set(by_level(told)) == {("note-unread", "caution")}
    assert sorted(f.message.split('"')[1] for f in told) == sorted(OTHERWISE_SIZED[what])
    assert all(f" asks for {what}; the part was read as drawn" in f.message for f in told)


AS_DRAWN = [
    "ALLOWABLE RUNOUT 0.02", "GRINDING BURN NOT ALLOWED", "MACHINING ALLOWANCE ON CASTING 3", "DIMENSIONS IN MM",
    "HARDNESS 58 HRC AFTER GRINDING", "PLATED 5-8 µm", "NO GRINDING ALLOWANCE", "BLANK: ALLOWANCE 2 PER SIDE",
    "ALLOW TO COOL 20 MIN", "GRIND ALL OVER", "LEAVE CENTRES IN", "ALL RADII R0.5", "BAR STOCK Ø45",
    "LEAVE 5 LONG FOR CHUCKING", "MASS 3.2 KG", "PLATED BAR STOCK", "UNDERCUT 3 x 3.0 FOR GRINDING",
    "CENTRE 2.5 FOR GRINDING", "1. FOR COATING SEE NOTE 3", "2 FOR HARDENING", "DIN 509 - F 0.6 x 0.3 FOR GRINDING",
    "ROUGH TURNED SURFACES Ra 6.3", "RETURN TO STORES 2", "SEE CASTING DRAWING 4711", "ROHTEILZEICHNUNG: 4711",
    "HARD CHROME 0.02 THICK", "ALL DIMENSIONS FINISHED SIZES", "RADIAL RUNOUT 0.02", "CHECK RADII WITH GAUGE",
    "DIMENSIONS OF RADII SEE DETAIL", "ALLOWANCE", "DIMENSIONS X.X ±0.1", "ALL SIZES IN MM", "ALL DIMENSIONS ±0.1",
    "DUAL DIMENSIONS", "SIZES 2 TO 5", "DIMENSION X 20", "ALL SIZES DRAWN TWICE FULL SIZE",
    "CHECK ALL DIMENSIONS TWICE", "SIZES SHOWN ARE HALF SECTION",
]  # fmt: skip


def test_notes_that_leave_the_sizes_as_drawn_say_nothing():
    assert read(*AS_DRAWN) == []


UNFINISHED = [
    "BLANK ONLY", "ROUGH-TURNED STATE, +0.5 PER SIDE", "+0.5 PER SIDE", "SHRINKAGE 2% TO BE ADDED", "ADD 2% SHRINKAGE",
    "Nur Rohteil", "ROHTEIL", "Vorgedrehter Zustand", "Schwindung 1,5 % zugeben", "ÉTAT D'ÉBAUCHE",
    "RETRAIT 2% À AJOUTER", "PEZZO GREZZO", "RITIRO 2% DA AGGIUNGERE", "ESTADO EN BRUTO", "CONTRACCIÓN 2% A AÑADIR",
    "PEÇA EM BRUTO",
    "CONTRAÇÃO 2% A ADICIONAR", "RUWDEEL", "KRIMPTOESLAG 2% TOEVOEGEN", "STAN SUROWY", "SKURCZ 2% DODAĆ", "HRUBÝ STAV",
    "SMRŠTĚNÍ 2% PŘIČÍST", "ÄMNE", "KRYMPNING 2% TILLÄGGES", "ALL DIMENSIONS HALF SIZE SHOWN", "DISEGNO SEMILAVORATO",
    "SHRINK 2% APPLIED", "DIAMETER +0.1 PER SIDE",
]  # fmt: skip
MIRRORED = [
    "PIECE SYMETRIQUE OPPOSEE", "PEZZO SIMMETRICO OPPOSTO", "PIEZA SIMÉTRICA OPUESTA", "PEÇA ESPELHADA", "GESPIEGELD",
    "ODBICIE LUSTRZANE", "PEZZO SPECCHIATO",
]  # fmt: skip
"""What says that the piece is drawn before it is finished, or the other way round (common practice, no source)."""


@pytest.mark.parametrize(
    ("texts", "what"), [(UNFINISHED, "other sizes to be turned than are drawn"), (MIRRORED, "the mirror image")]
)
def test_a_drawing_of_another_piece_than_the_finished_one_is_told(texts, what):
    told = read(*texts)
    assert set(by_level(told)) == {("note-unread", "caution")}
    assert sorted(f.message.split('"')[1] for f in told) == sorted(texts)
    assert all(f" asks for {what}; " in f.message for f in told)


@pytest.mark.parametrize(
    "words", ["CONCEPT ONLY", "KONZEPT", "Konzeptzeichnung", "solo boceto", "avant-projet", "tylko szkic", "jen skica"]
)
def test_a_sketch_is_not_yet_released(words):
    assert said(words) == [("out-of-force", "caution")]


OF_BLANKS = [
    "SHRINKAGE CAVITIES NOT PERMITTED", "SHRINK FIT 0.02", "SHRINKAGE 2% INCLUDED", "Schrumpfsitz 0,03",
    "ROHTEIL: Ø45 x 85", "ROHTEIL 4711", "FINITURA SPECULARE", "CASTING TO EN 1561", "POLOTOVAR KR 45 - 85",
    "CONCEPT: A. B.", "SKETCH NO. 12", "NO SHRINKAGE ALLOWED", "CHAMFER 0.5 PER SIDE", "MASK THREADS BEFORE PLATING",
    "DEGREASE BEFORE COATING", "FINITURA SPECCHIATA", "SUPERFICIE SPECCHIATA", "ACABADO ESPEJADO",
    "ACABAMENTO ESPELHADO", "ALL DIMENSIONS IN MM HALF SECTION SHOWN", "DIMENSIONS IN MM HALF VIEW DRAWN",
    "SHRINK FIT COLLAR, APPLY ADHESIVE", "SHRINK RANGE 0.02 %", "SHRINK-FIT SLEEVE, ADD ADHESIVE", "SEMILAVORATO",
    "Semilavorato, tondo 42", "KONZEPTNUMMER 12", "Konzept-Nr. 12", "TOLERANCE +0.1 PER SIDE",
    "CHAMFER +0.2 EACH SIDE",
]  # fmt: skip


def test_other_words_of_blanks_and_of_what_is_done_later_are_not():
    assert read(*OF_BLANKS) == []


FORMS = [
    "KEYWAY 6 WIDE NOT SHOWN", "Passfedernut nicht dargestellt", "rainure de clavette non représentée",
    "chiavetta non rappresentata", "chavetero no dibujado", "sextavado não representado", "spiebaan niet getekend",
    "wpust nie pokazany", "šestihran nezakreslen", "kilspår ej ritat", "THREAD OMITTED FOR CLARITY",
]  # fmt: skip


def test_a_form_of_the_part_that_is_not_drawn_is_told():
    told = [f.message for f in read(*FORMS) if " asks for something that is not drawn; " in f.message]
    assert sorted(message.split('"')[1] for message in told) == sorted(FORMS)


EDGES = [
    "EDGES NOT SHOWN BROKEN 0.2", "CHAMFERS NOT SHOWN 0.5x45°", "DIMENSIONS NOT SHOWN", "GROOVE EDGES NOT DRAWN",
    "HOLES NOT SHOWN", "KEYWAY 6 P9",
]  # fmt: skip


def test_edges_sizes_and_holes_that_are_not_drawn_say_nothing():
    assert read(*EDGES) == []


BEFORE = [
    "DIMENSIONS BEFORE PLATING", "SIZES BEFORE GRINDING", "Maße vor dem Beschichten", "cotes avant traitement",
    "quote prima della cromatura", "medidas antes del tratamiento", "cotas antes do revestimento",
    "maten voor het slijpen", "wymiary przed cynkowaniem", "rozměry před pokovením", "mått före slipning",
]  # fmt: skip


def test_sizes_before_a_later_step_are_those_that_are_turned_which_is_noted():
    assert by_level(read(*BEFORE)) == [("note-unread", "note")] * len(BEFORE)


@pytest.mark.parametrize(("below", "told"), [(39.0, False), (41.0, True)])
def test_a_blank_is_named_by_a_word_alone_only_where_it_stands_free(below, told):
    """In a title block it heads a cell: 8 letter heights of 5 about it are free."""
    texts = Text("ROHTEIL", (-60.0, -50.0), 5.0), Text("4711", (-60.0, -50.0 - below), 5.0)
    reading = read_sheet(sheet_of(full_outline(PART), texts=texts), ReadOptions(units="mm"))
    assert any('"ROHTEIL"' in f.message for f in reading.findings) is told


IDENTICAL = [
    "OPPOSITE END IDENTICAL", "SAME BOTH ENDS", "REPEAT AT OTHER END", "OTHER END SAME", "SYMMETRICAL ABOUT CENTRE",
    "Symmetrisch zur Mitte", "Gegenseite identisch", "Beide Seiten gleich", "autre côté identique", "LATI UGUALI",
    "EXTREMOS IGUALES", "SYMMETRICAL", "SYMMETRISCH", "Teil symmetrisch", "PART IS SYMMETRICAL", "symétrique",
    "SIMMETRICO", "simétrica", "symetryczne", "symetrická", "SYMMETRISK", "SYMMETRICAL PART",
]  # fmt: skip
IN_BOTH = [
    "GROOVES BOTH ENDS", "GROOVE 3 WIDE AT EACH END", "GROOVE ALSO AT OPPOSITE END", "Nut beidseitig",
    "Einstich auf beiden Seiten", "gorge des deux côtés", "GOLA SU ENTRAMBI I LATI", "ranura en ambos extremos",
]  # fmt: skip
"""What asks for grooves at both ends: the same ones, or any (common practice, no source)."""


@pytest.mark.parametrize(
    ("other", "unlike", "none"),
    [(None, True, True), (Cut(-47.0, 3.0, 34.0), False, False), (Cut(-46.9, 3.0, 34.0), True, False),
     (Cut(-47.0, 3.0, 33.0), True, False), (Cut(-20.0, 3.0, 34.0), True, True)],
)  # fmt: skip
def test_grooves_that_a_note_wants_at_both_ends_and_are_drawn_at_one_are_told(other, unlike, none):
    """The part is 60 long, with a groove from 10 to 13; its mirror image begins at 47."""
    part = replace(PART, cuts=(*PART.cuts, *([other] if other else [])))
    for words, asked in [*((w, unlike) for w in IDENTICAL), *((w, none) for w in IN_BOTH)]:
        found = [f.message for f in heard(words, part=part)]
        assert [" asks for the same at both ends; " in one for one in found] == [True] * asked, words


TO_MIDDLES = [
    "LENGTHS ARE TO CENTRE OF GROOVES", "Längenmaße bis Einstichmitte", "ALL DIMENSIONS TO GROOVE CENTRES",
    "COTES JUSQU'AU MILIEU DES GORGES", "quote fino al centro delle gole",
]  # fmt: skip


@pytest.mark.parametrize(("to", "told"), [(-10.0, True), (-13.0, True), (-11.5, False)])
def test_lengths_to_the_middles_of_grooves_are_asked_for_where_one_ends_at_a_wall(to, told):
    """The groove is 3 wide, from 10 on."""
    ends = ((0.0, 20.0), (to, 17.0))
    size = Dimension(DimensionKind.LINEAR, ends, 0.0, -to, "<>")
    texts = tuple(Text(w, (-60.0, -50.0 - 60.0 * k), 5.0) for k, w in enumerate(TO_MIDDLES))
    sheet = sheet_of(full_outline(PART), texts=texts, dimensions=(size,))
    found = [f.message for f in read_sheet(sheet, ReadOptions(units="mm")).findings if f.code == "note-unread"]
    assert [" asks for lengths to the middles " in one for one in found] == [True] * told * len(TO_MIDDLES)


@pytest.mark.parametrize(("near", "told"), [(-33.0, False), (-32.9, True)])
def test_a_groove_is_at_an_end_within_two_fifths_of_the_part(near, told):
    """The part is 60 long: a groove 6 wide whose middle is at 36 is at its rear end."""
    part = replace(PART, cuts=(*PART.cuts, Cut(near, 6.0, 34.0)))
    for words in ("GROOVES ON BOTH ENDS", "SAME GROOVES ON OTHER END", "Einstiche auch auf Gegenseite"):
        found = heard(words, part=part)
        assert any(" asks for the same at both ends; " in f.message for f in found) is told


NOT_GROOVES = [
    "CHAMFER BOTH ENDS", "M16 BOTH ENDS", "CENTRE DRILL BOTH ENDS", "SYMMETRICAL ABOUT CENTRE LINE",
    "IDENTICAL PARTS: 20 OFF", "Zentrierung beidseitig", "Fase beidseitig 1x45°", "Nut beidseitig entgratet",
    "GROOVE WALLS BOTH SIDES Ra 1.6", "GROOVE CORNERS R0.2 BOTH ENDS", "GORGE Ra 1.6 DES DEUX CÔTÉS",
]  # fmt: skip


def test_other_things_at_both_ends_or_sides_ask_for_no_groove():
    assert [f for f in read(*NOT_GROOVES) if " at both ends; " in f.message] == []


def test_every_word_is_one_as_texts_are_compared():
    """The pattern is held against folded text, in which no letter has an accent and no `ae` stands for one letter."""
    for pattern in (form.pattern for form in (STAMP, EARLY)):
        assert not re.search("[aou]e", pattern)
        assert all(c.isascii() or "а" <= c <= "я" or "\u3040" <= c <= "\u9fff" for c in pattern)
