"""Words that a sheet does not show all: grooves on another paper, half of a part, one end for both.

Source of the words: common practice, no source.
"""

from dataclasses import replace

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, sheet_of

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text

ONE_END = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
BOTH_ENDS = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-47.0, 3.0, 34.0)))


def told(*words, part=ONE_END, outline=full_outline, on_paper=False):
    """What is said of notes that are not read, in texts below a part, by what each of them is."""
    texts = tuple(Text(w, (-60.0, -50.0 - 60.0 * k), 5.0) for k, w in enumerate(words))
    sheet = sheet_of(outline(part), texts=() if on_paper else texts)
    sheet = replace(sheet, around=texts) if on_paper else sheet
    findings = read_sheet(sheet, ReadOptions(units="mm")).findings
    messages = [f.message for f in findings if f.code == "note-unread" and f.level == "caution"]
    assert all(sum(f'"{w}"' in message for message in messages) <= 1 for w in words)
    return {w: message for w in words for message in messages if f'"{w}"' in message}


ELSEWHERE = [
    "FOR GROOVE DETAILS SEE SHEET 2", "GROOVES SEE SHEET 2", "GROOVE DETAILS ON SHEET 2", "GROOVES TO DRAWING 4711",
    "SEE DWG. NO. 4711-2 FOR GROOVES", "GROOVES SEE SEPARATE SHEET", "GROOVE TOLERANCES ACC. TO 4712",
    "GROOVES AS PER SPEC A-12", "Einstichmaße siehe Blatt 2", "Einstiche siehe Zeichnung 4711",
    "Nuten nach Werknorm 17", "Nut siehe Blatt 2", "Nutmaße laut 4712", "Einstiche siehe anderes Blatt",
    "Einstichtoleranzen gemäß WN 4712",
    "GORGES VOIR FEUILLE 2", "gorges selon plan 4711", "GOLE VEDI FOGLIO 2", "gole secondo disegno 4711",
    "RANURAS VER HOJA 2", "ranuras según plano 4711", "GROEVEN ZIE BLAD 2", "SPÅR ENLIGT RITNING 4711",
    "ROWKI WG RYSUNKU 4711", "DRÁŽKY VIZ LIST 2",
]  # fmt: skip


@pytest.mark.parametrize("on_paper", [False, True])
def test_what_another_paper_says_of_grooves_is_told(on_paper):
    found = told(*ELSEWHERE, on_paper=on_paper)
    assert [words for words in ELSEWHERE if "says of grooves" not in found.get(words, "")] == []


NO_PAPER = [
    "SHEET 1 OF 2", "GROOVED SHAFT, SHEET 1 OF 2", "GROOVES TO DIN 471", "GROOVE ACC. TO DIN 3771-1",
    "GROOVE TOLERANCES ISO 2768-m", "Einstiche nach DIN EN ISO 5261", "UNDERCUT ACC. TO DIN 509-F",
    "THREAD SEE SHEET 2", "NUT SEE SHEET 2", "SEE SHEET 2", "DEBURR GROOVES", "Nut nach DIN 6885", "GROOVES Ra 1.6",
    "HARDENING ACC. TO 4712", "GROOVES ALL ROUND",
]  # fmt: skip


def test_a_standard_and_another_thing_are_no_such_words():
    assert told(*NO_PAPER) == {}


ALIKE = [
    "beidseitig gleich", "beiderseits gleich", "links und rechts gleich", "SYM. ABOUT CL", "SYM ABOUT C/L",
    "BOTH SIDES IDENTICAL", "identique des deux côtés", "ambo i lati uguali", "igual en ambos lados",
    "beide zijden gelijk", "lika på båda sidor", "ens på begge sider", "obustronnie tak samo", "obě strany stejné",
]  # fmt: skip
HALF = [
    "ONLY HALF OF PART SHOWN", "HALF SHOWN", "ONE HALF OF THE SHAFT IS DRAWN", "nur Hälfte gezeichnet",
    "halbes Teil gezeichnet", "pièce symétrique, moitié représentée", "metà disegnata", "mitad representada",
    "helft getekend", "hälften ritad", "połowa narysowana", "polovina zobrazena",
]  # fmt: skip
LENGTH = [
    "SYMMETRICAL ABOUT CENTRE LINE - HALF LENGTH SHOWN", "HALF OF LENGTH SHOWN", "halbe Länge gezeichnet",
    "demi-longueur représentée", "mezza lunghezza disegnata", "media longitud dibujada",
]  # fmt: skip


def test_what_is_to_be_at_both_ends_is_told_where_it_is_drawn_at_one():
    both = [*ALIKE, *HALF, *LENGTH]
    found = told(*both)
    assert [words for words in both if "asks for the same at both ends" not in found.get(words, "")] == []
    assert told(*both, part=BOTH_ENDS) == {}


def test_half_of_a_part_may_be_the_half_on_one_side_of_its_axis_and_half_of_its_length_is_not():
    assert told(*HALF, *LENGTH, outline=half_profile).keys() == set(LENGTH)


TWO_SIDED = [
    "CHAMFER BOTH SIDES IDENTICAL", "Fase 1x45 beidseitig gleich", "Kanten beidseitig gleich", "HALF SECTION SHOWN",
    "UPPER HALF SHOWN IN SECTION", "SYMMETRICAL ABOUT CENTRE LINE", "Ra 1.6 beidseitig gleich", "beidseitig",
    "chanfreins identiques des deux côtés",
]  # fmt: skip


def test_what_has_two_sides_of_its_own_is_no_such_thing():
    assert told(*TWO_SIDED) == {}


MIRRORED = [
    "PART AS SHOWN REVERSED", "AS DRAWN, REVERSED", "OPPOSITE TO DRAWING", "seitenverkehrt zur Zeichnung",
    "inverse du dessin", "invertito rispetto al disegno", "spiegelverkehrt",
]  # fmt: skip


def test_the_mirror_image_is_told():
    found = told(*MIRRORED)
    assert [words for words in MIRRORED if "asks for the mirror image" not in found.get(words, "")] == []
