"""What became of each text: those that nobody here reads are told, those about other things are not.

The texts are common practice, no source.
"""

from dataclasses import replace
from time import perf_counter

import pytest
from support.draw import Cut, Turned, full_outline, sheet_of
from support.ties import HERE, bar
from support.weighing import NO_SEGMENTS

from extractor import read_sheet
from extractor.sheet import Dimension, DimensionKind, Sheet, Text
from extractor.sizing.remaining.text_fates import Fate, fate_of, text_ledger

PART = bar((-15, -18, 32), (-30, -33, 32))
"""40 across, 60 long, two grooves 3 wide."""

DRAWN = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 34.0)))

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
    "100% INSPECTION OF GROOVE WIDTH", "GLANDS FOR SEAL RINGS 2.62", "GLANDS TO SUIT O-RINGS 5.33",
    "Dichtrille für O-Ring 2,62", "2 GROOVES ADDED", "GROOVE ADDED", "2ND GROOVE ADDED",
    "LENGTH CHANGED FROM 55 TO 60", "Maß 55 geändert in 60", "CUT LENGTH 65",
]  # fmt: skip


AWAY = (-400.0, 190.0)
"""A place of the sheet that no size of the part stands at."""


def ledger(*texts, told=(), part=PART, **more):
    """The ledger of texts, each with its place."""
    sheet = Sheet("x.dxf", "0" * 64, NO_SEGMENTS, texts=tuple(Text(w, at, 3.0) for w, at in texts), **more)
    return text_ledger(sheet, part, told)


def unread(words, told=()):
    """What is said of a text that stands away from the part."""
    return ledger((words, AWAY), told=told).findings


@pytest.mark.parametrize("words", TOLD)
def test_what_may_change_the_part_is_told_once(words):
    (finding,) = unread(words)
    assert finding.level == "caution"
    assert "is not understood, so it was not held against the drawing: read it yourself." in finding.message
    assert unread(words, (finding,)) == ()


@pytest.mark.parametrize("words", QUIET)
def test_what_is_about_other_things_or_is_as_drawn_is_not(words):
    assert unread(words) == ()


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


OVER = HERE.on_sheet(-30.0, 40.0)


def near(words, at=OVER):
    """Level and message of what is said of a text over the part."""
    return [(f.level.value, f.message) for f in ledger((words, at)).findings]


LISTED = [
    "SQUARE 28", "MILL FLAT", "DO NOT CUT", "SAME ON OTHER SIDE", "TURN ECCENTRIC", "HEX 36 A/F", "LADO OPUESTO IGUAL",
    "ALL TOLERANCES HALVED", "UNDERSIZE 0.2 ON ALL DIAMETERS", "DOUBLE DEPTH",
    "FILE OFF", "wie besprochen", "TO BE CONFIRMED",
]  # fmt: skip
OF_GROOVES = [
    "2ND GROOVE FROM FRONT IS TO BE LEFT OUT", "GROOVES CANCELLED", "ONE MORE GROOVE AT 36",
    "WIDEN GROOVE TO SUIT RING",
    "GROOVE DEPTH TO SUIT O-RING", "GROOVE ON ONE SIDE ONLY", "GROOVE MUST NOT BE CUT THROUGH", "OVAL GROOVE",
    "GROOVES ARE PART OF THREAD", "ROUGH GROOVES ONLY, FINISH AT ASSEMBLY", "PRE-TURN GROOVE 0.5 UNDERSIZE",
    "NUTEN ERST NACH DEM HÄRTEN STECHEN", "GORGE NON USINEE", "GOLE DA NON ESEGUIRE", "RANURAS SUPRIMIDAS",
    "NO MECANIZAR RANURAS", "ROWKI NIE WYKONYWAC", "КАНАВКИ НЕ ТОЧИТЬ", "槽不加工", "溝加工不要", "DRÁŽKA ZRUŠENA",
    "取消此槽", "GROOVE ALSO IN BORE", "GROOVE SIDES 5 DEG", "THREE ROWS OF TWO GROOVES", "NOTE: SKIP GROOVE",
    "GROOVE WIDTH WAS 2.5 NOW 3.2", "NICHT STECHEN", "NUT NICHT STECHEN", "NUT BEI AUSFÜHRUNG B OHNE",
    "DIE NUT VERSETZT", "Nut wird später gestochen", "Nut nicht einstechen",
    # A width or a depth about as large as a groove's, by a word for it: whatever noun stands before it.
    "WIDTH 3.2", "3.5 WIDE", "WIDTH 3.2 SEE MAIL", "DEPTH 5",
    "CHANNEL 4.5 WIDE", "ANNULUS 4.5 WIDE", "Dégagement largeur 4,5", "Cava larga 4,5",
    "Garganta ancho 4,5", "Innennuten 4,5 breit", "Nut A 4 breit",
    # The name of a groove bent, or joined to another word.
    "Spåret svarvas ej", "Rowka nie wykonywać", "Spåren 0,5 bredare än ritat", "Spårdjup 2,5", "Kanałek pominąć 1",
    "Правую канавку не выполнять", "Добавить канавку на 55", "Nutgrund 0,2 tiefer", "Dichtungsnut später",
    "Entlastungsrille erst beim Kunden", "Eindrehung 1 tiefer", "Проточка не требуется", "Zápichu se netýká 2",
    "Ranhura não executar", "Hornyot kihagyni",
    "Nutflanken parallel 0,1 versetzt", "Nutgrund riefenfrei und 0,5 tiefer",
    # By how much a size is to be another, of the part by whatever name.
    "WELLE 5 LÄNGER", "WELLE 0,5 DICKER", "BUSHING 0.5 SHORTER", "SHAFT 5 LONGER THAN SHOWN",
    "SHAFT TO BE MADE 5 LONGER", "FINISHED SIZE AFTER GRINDING 0.1 LARGER", "SHAFT LENGTH 5 LONGER",
    "INCREASE SHAFT DIA BY 0.5", "INCREASE WIDTHS BY 0.5, SEE REV B", "Buchse um 2 mm kürzen", "DIMINUER ARBRE DE 0,5",
]  # fmt: skip
ORDINARY = [
    *QUIET, "BREAK ALL SHARP EDGES", "REMOVE BURRS", "DEBURR AND CLEAN", "UNLESS OTHERWISE SPECIFIED",
    "IF IN DOUBT ASK",
    "INTERPRET DRAWING PER ASME Y14.5-2009", "DO NOT SCALE DRAWING", "MATERIAL: 1.4305", "25 OFF", "Stückzahl 25",
    "HEAT TREAT: HRC 28-32", "NITRIDE 0.3 DEEP", "BLACK OXIDE", "MARK PART NO. PER DWG", "PACK INDIVIDUALLY",
    "CERTIFICATE 3.1", "GEWICHT 0,45 kg", "WEIGHT: 1.2 LBS", "Ursprung CAD", "COPYRIGHT 2024 ALL RIGHTS RESERVED",
    "CONFIDENTIAL", "THIS DRAWING IS PROPERTY OF THE CUSTOMER", "DRAWN BY: JK  DATE: 2024-03-11", "FREIGEGEBEN",
    "Werkstückkanten ISO 13715", "Zentrierbohrung zulässig", "CENTRES PERMISSIBLE", "einsatzgehärtet Eht 0,8",
    "FIRST ANGLE PROJECTION", "SHEET 1 OF 2", "A3", "M 1:1", "ECN 10234", "USED ON: ASSY 1234-5", "FRONT VIEW",
    "O-RING 34x2.5 NBR 70", "CIRCLIP DIN 471", "GROOVE SURFACES Ra 1.6", "GROOVES MUST BE CONCENTRIC WITHIN 0.02",
    "Nuten gratfrei", "NUTFLANKEN Rz 6,3", "KEEP GROOVES CLEAN", "TITLE: SHAFT WITH GROOVES", "RILLENBOLZEN",
    "GROOVED PIN", "2 GROOVES", "ZWEI NUTEN", "TWO ROWS OF 1 GROOVE", "CRITICAL DIMENSION", "* = TEST DIMENSION",
    "Index b: Nut ergänzt 12.03.2021", "EDM NOT ALLOWED", "NO WELDING", "GROOVES TO BE CUT WITH 3 MM TOOL",
    "CONCENTRICITY 0.05 TIR", "Rundlauf 0,02", "TRAITEMENT: AUCUN", "ARETES VIVES CASSEES 0,2", "MACHINE ALL OVER",
    "CYLINDRICITY 0.01", "MATERIAL 1.4305 INSTEAD OF 1.4301", "SCREW M6 NOT INCLUDED", "MAKE FROM BAR DIA 45",
    "USE 3 MM INSERT", "VC 120 M/MIN F 0.08", "TORQUE 12 NM", "HOUSING BORE 40 H7", "WIPER 40", "ORDER 3 SETS",
    "LOT SIZE 250", "TRAVEL 12 MM", "HEAT TREATMENT 850 C", "LENGTH 60 AFTER FACING", "GROOVE WIDTH 3 CHECK WITH GAUGE",
    "PRICE 85 EUR", "TEL 0123 456789", "20 DEG C", "SURFACE 32 MICROINCH", "KEYWAY NOT SHOWN", "SLEEVE 4711", "HTP-010",
    "REV B: GROOVE WIDTH WAS 2.5", "GROOVE WIDTH WAS 2.5", "TOOL T3 WIDTH 3", "USE INSERT WIDTH 2.5",
    "WIDTH WAS 2 NOW 3",
    "LOCK NUT M30x1.5 NOT SUPPLIED", "HEX NUT M20", "PIECE: ARBRE RAINURE", "VALVE WITH GROOVE", "ROWKI BEZ ZADZIOROW",
    "PROTECT GROOVES IN TRANSIT", "КАНАВКИ БЕЗ ЗАУСЕНЦЕВ", "槽内无毛刺", "溝バリなきこと",
    "NUT M20", "NUT OHNE GRAT",
    "UNLESS NOTED: .XX +/-.01 .XXX +/-.005", "FRACTIONS +/-1/64", "SURFACES 125 MICROINCHES", "KNURL DIN 82",
    "SECTION A-A", "LENGTH", "B-B", "12.5",
    "LOCKNUT M30", "SEAL 4.5 WIDE", "CHANNEL 3 WIDE", "ENGRAVE 0.3 DEEP", "DRILL 4 DEEP", "Innennuten gratfrei",
    "SPARE PART 4711", "WIDTH ACROSS CORNERS 41.6", "键槽宽10", "キー溝幅10", "Clavette 10x8x40", "Wpust 10x8x40",
    # How true and how smooth a groove must be.
    "Nutgrund riefenfrei", "Nutflanken parallel 0,02", "Nutflanken parallel auf 0,09", "Battement des gorges 0,03",
    "Bicie rowków 0,03", "Házení drážek 0,03",
    # A limit, the piece before it is turned, and other things.
    "BURRS NOT LARGER THAN 0.05", "SHAFT RUNOUT 0.02 OR SMALLER", "ROHTEIL 5 LÄNGER", "BAR 5 LONGER THAN SHAFT",
    "DRAWING REDUCED BY 50%", "REDUCE BURRS TO 0.05", "BEARING NOT SHORTER", "KEYWAY 0.2 DEEPER",
    "Шпонка 10x8x40", "Kil 10x8x40", "Chiavetta 10x8x40",
]  # fmt: skip


@pytest.mark.parametrize("words", LISTED)
def test_words_at_the_part_that_nobody_understands_are_listed_in_a_note(words):
    ((level, message),) = near(words)
    assert level == "note"
    assert message.startswith("Words at the part are not understood: ")
    assert unread(words) == ()


@pytest.mark.parametrize("words", OF_GROOVES)
def test_a_sentence_that_names_a_groove_is_a_caution_wherever_it_stands(words):
    for at in (OVER, AWAY):
        ((level, message),) = near(words, at)
        assert level == "caution"
        assert message.startswith("Words at the part are not understood: ")


@pytest.mark.parametrize("words", ORDINARY)
def test_what_ordinary_sheets_say_at_the_part_is_no_matter(words):
    assert near(words) == []


@pytest.mark.parametrize(("off", "told"), [(59.9, True), (60.1, False)])
@pytest.mark.parametrize("way", ["front", "back", "above"])
def test_a_text_is_at_the_part_within_its_greater_size(way, off, told):
    """Beyond the ends at 0 and -60 and beyond the land at 20, to the middle of the words."""
    at = {"front": (off, 0.0), "back": (-60.0 - off, 0.0), "above": (-30.0, 20.0 + off)}[way]
    box = Text("SQUARE 28", (0.0, 0.0), 3.0)
    x, y = HERE.on_sheet(*at)
    assert bool(near(box.text, (x - box.width / 2, y - box.height / 2))) is told


def test_one_finding_lists_all_of_them_with_their_places():
    places = [HERE.on_sheet(-30.0, 30.0 + 8 * k) for k in range(6)]
    five = ledger(*((f"CUT SO {'ABCDEF'[k]}", at) for k, at in enumerate(places[:5]))).findings
    six = ledger(*((f"CUT SO {'ABCDEF'[k]}", at) for k, at in enumerate(places))).findings
    assert [len(found) for found in (five, six)] == [1, 1]
    assert (five[0].at, five[0].spots) == (places[0], tuple(places[1:5]))
    assert '"CUT SO E"; see' in five[0].message
    assert '"CUT SO E" and 1 more; see' in six[0].message


def led(words, tip):
    """Levels of what is said of words led to a place of the part."""
    leader = Dimension(DimensionKind.LEADER, (HERE.on_sheet(*tip), HERE.on_sheet(5.0, 38.0)), 0.0, 0.0, words)
    return [f.level.value for f in ledger(dimensions=(leader,)).findings]


@pytest.mark.parametrize(
    ("words", "levels"),
    [
        ("SQUARE 28", ["caution"]), ("DELETED", ["caution"]), ("SKIM", ["caution"]), ("KNURL", []), ("FLAT 3 DEEP", []),
        ("BEARING SEAT", []), ("Ra 0.8", []), ("GROUND", []), ("A", []),
    ],
)  # fmt: skip
def test_words_led_to_the_part_are_a_caution_and_a_name_of_another_thing_is_none(words, levels):
    assert led(words, (-50.0, 20.0)) == levels
    assert led(words, (-50.0, 90.0)) == ["note" for _ in levels if words == "SQUARE 28"]


@pytest.mark.parametrize(
    ("words", "below", "told"),
    [("GUIDE PIN", 9.0, False), ("GUIDE PIN", 9.1, True), ("LONG GUIDE PIN", 9.0, True), ("OVAL GROOVE", 9.0, True)],
)
def test_two_words_next_to_a_line_about_the_sheet_are_a_title(words, below, told):
    """Within three letter heights of 3, at one left edge; three words are none, nor what names a groove."""
    x, y = HERE.on_sheet(-30.0, -40.0)
    assert bool(ledger((words, (x, y - below)), ("SCALE 1:1", (x, y))).findings) is told
    assert ledger((words, (x + 3.1, y - below)), ("SCALE 1:1", (x, y))).findings
    assert ledger((words, (x, y - below)), ("SQUARE 28", (x, y))).findings


def test_each_text_has_one_fate_the_worst_of_its_lines():
    words = [
        "BREAK EDGES\nSQUARE 28", "3 WIDE", "B-B", "SECTION B-B", "BREAK EDGES", "PLUNGER", "TYPICAL ALL",
        "LENGTH NOW 75",
    ]  # fmt: skip
    texts = [(line, HERE.on_sheet(-30.0, 30.0 + 8 * k)) for k, line in enumerate(words)]
    sized = Dimension(DimensionKind.LINEAR, (HERE.on_sheet(-15, 20), HERE.on_sheet(-18, 20)), 0.0, 3.0, None)
    fates = ("unread", "away", "note", "figure", "heading", "other", "name", "harmless", "told", "size")
    assert ledger(*texts, ("MILL FLAT", AWAY), dimensions=(sized,)).fates == dict.fromkeys(fates, 1)


@pytest.mark.parametrize(("apart", "cells", "told"), [(12.0, 3, False), (12.1, 3, True), (12.0, 2, True)])
def test_what_stands_in_a_row_of_three_is_a_cell_of_a_table(apart, cells, told):
    """From the end of one to the begin of the next, in letter heights of 3."""
    x, y = HERE.on_sheet(-30.0, 40.0)
    step = Text("SKIP ONE", (0, 0), 3.0).width + 3.0 * apart
    row = [("SKIP ONE", (x + step * k, y)) for k in range(cells)]
    assert bool(ledger(*row).findings) is told
    above = [(words, (at, y + 1.51 * (k == 1))) for k, (words, (at, y)) in enumerate(row)]
    assert ledger(*above).findings


def test_a_sentence_over_two_lines_is_one():
    here = OVER
    assert ledger(("GROOVES MUST BE\nCONCENTRIC TO BORE", here)).findings == ()
    assert ledger(("GROOVES MUST BE CHECKED.\nTHEY ARE OVAL", here)).findings != ()


def test_of_a_sentence_that_nobody_understands_the_lines_are_quoted_that_say_so():
    (found,) = ledger(("OVAL GROOVES ARE TO BE\nDEGREASED", OVER)).findings
    assert '"OVAL GROOVES ARE TO BE"; see' in found.message


def test_the_german_word_alone_is_a_nut_of_english_away_from_the_part():
    assert (near("POLE NUT", AWAY), [level for level, _ in near("POLE NUT")]) == ([], ["note"])


@pytest.mark.parametrize("words", ["LOCK NUT", "NUT NOT SUPPLIED", "DIE CAST NUT", "NUT IN PLACE OF PIN"])
def test_among_english_words_it_is_no_caution(words):
    assert "caution" not in [level for at in (OVER, AWAY) for level, _ in near(words, at)]


def test_a_part_without_a_place_has_no_ledger():
    assert ledger(("SQUARE 28", AWAY), part=replace(PART, frame=None)) == ({}, ())


def test_the_reading_carries_the_ledger():
    from_sheet = read_sheet(sheet_of(full_outline(DRAWN), texts=(Text("SPECIAL FORM HERE", (-30.0, 30.0), 2.5),)))
    assert from_sheet.ink.texts == {"unread": 1}
    assert [f.code for f in from_sheet.findings if "SPECIAL FORM HERE" in f.message] == ["note-unread"]


@pytest.mark.parametrize(
    "words",
    [
        "GROOVES DEEPER THAN DRAWN",
        "GROOVE RUNS HALF WAY ROUND SHAFT",
        "GROOVE ON ONE SIDE OF SHAFT ONLY",
        "GROOVES: LEFT SIDE ONLY",
        "GROOVE WITH TAPER",
    ],
)
def test_what_changes_a_groove_is_no_name_and_no_other_matter(words):
    assert fate_of(words) is Fate.UNREAD


def test_a_long_word_takes_no_time():
    """A name was tried in every way of cutting it to pieces, twice as many for each letter: 26 took ten minutes."""
    start = perf_counter()
    assert fate_of("x" * 60 + "{y}") is Fate.UNREAD
    assert fate_of("x" * 60) is Fate.NAME
    assert perf_counter() - start < 5.0


HARMLESS = [
    "REMOVE ALL BURRS AND SHARP EDGES", "PARTS TO BE BURR-FREE", "GROOVES BURR-FREE", "BREAK ALL SHARP EDGES 0.2 - 0.4",
    "DEBURR ALL GROOVES", "ALL GROOVES TO BE FREE OF BURRS AND SWARF", "HEAT TREAT TO 58-62 HRC",
    "CASE HARDEN 0.5-0.8 DEEP, 60 HRC", "STRESS RELIEVE BEFORE FINISH MACHINING",
    "ZINC PLATE 8 MICRON, CLEAR PASSIVATE", "BLACKEN ALL OVER", "PHOSPHATE AND OIL", "PACK IN OILED PAPER",
    "PROTECT GROOVES DURING TRANSPORT", "MARK WITH PART NUMBER AND DATE", "LASER MARK 3 MM HIGH CHARACTERS",
    "100% INSPECTION OF GROOVE WIDTHS", "MEASURE GROOVES WITH GAUGE BLOCKS", "CHECK GROOVE WIDTH WITH GO/NO-GO GAUGE",
    "FIRST ARTICLE INSPECTION REQUIRED", "CERTIFICATE OF CONFORMITY REQUIRED", "STORE DRY", "ALL DIMENSIONS IN MM",
    "DO NOT SCALE THIS DRAWING", "GENERAL TOLERANCES TO ISO 2768-mK", "SURFACE FINISH Ra 3.2 UNLESS OTHERWISE STATED",
    "NO TOOL MARKS IN GROOVES", "GROOVES MUST BE CLEAN BEFORE PACKING", "SUPPLIER TO SUBMIT MATERIAL CERTIFICATE 3.1",
    "RAW MATERIAL SUPPLIED BY CUSTOMER", "COMPLIES WITH ROHS AND REACH", "EDGES TO ISO 13715", "HANDLE WITH CARE",
    "LUBRICATE GROOVES BEFORE ASSEMBLY", "FIT O-RINGS AFTER CLEANING", "GREASE O-RING GROOVES AT ASSEMBLY",
    "CENTRE HOLES PERMITTED", "NO CENTRE HOLES ALLOWED", "CHATTER MARKS NOT PERMITTED", "MAGNETIC PARTICLE INSPECTION",
    "DYE PENETRANT TEST", "Alle Kanten gratfrei", "Einstiche gratfrei und sauber",
    "Werkstück gratfrei und gereinigt liefern", "Kanten gebrochen 0,2", "Scharfe Kanten entfernen",
    "Härten und anlassen auf 58+2 HRC", "Einsatzgehärtet Eht 0,8+0,2", "Oberfläche brüniert", "Verzinkt 8 µm",
    "Einzeln verpackt in Ölpapier", "Teilenummer lasern", "Allgemeintoleranzen ISO 2768-mK", "Maße in mm",
    "Zentrierung zulässig", "Nuten mit Lehre prüfen", "100% Prüfung der Nutbreiten",
    "Erstmusterprüfbericht erforderlich", "Werkszeugnis 3.1 nach EN 10204", "Lieferant: siehe Bestellung",
    "Trocken lagern", "Einstiche vor Korrosion schützen", "Nuten vor Montage fetten",
    "O-Ringe nach Reinigung montieren", "Keine Beschädigungen zulässig", "Rattermarken unzulässig",
    "Ébavurer toutes les arêtes", "Gorges sans bavures", "Casser les angles vifs 0,2", "Pièce sans bavure ni choc",
    "Traitement thermique 58 HRC", "Zingage 8 µm", "Marquage laser", "Emballage individuel", "Cotes en mm",
    "Tolérances générales ISO 2768-mK", "Ne pas mesurer sur le plan", "Contrôle 100% des gorges",
    "Certificat matière 3.1", "Graisser les gorges au montage", "Protéger contre la corrosion", "Stocker au sec",
    "Sbavare tutti gli spigoli", "Gole senza bave", "Spigoli vivi smussati 0,2", "Trattamento termico 58 HRC",
    "Zincatura 8 µm", "Marcare codice", "Imballo singolo", "Quote in mm", "Tolleranze generali ISO 2768-mK",
    "Non misurare sul disegno", "Controllo 100% delle gole", "Certificato materiale 3.1",
    "Ingrassare le gole prima del montaggio", "Proteggere dalla corrosione", "Desbarbar todas las aristas",
    "Ranuras sin rebabas", "Matar aristas vivas 0,2", "Tratamiento térmico 58 HRC", "Cincado 8 µm", "Marcar con código",
    "Embalaje individual", "Cotas en mm", "Tolerancias generales ISO 2768-mK", "No medir sobre el plano",
    "Control 100% de las ranuras", "Certificado de material 3.1", "Engrasar las ranuras antes del montaje",
    "Proteger contra la corrosión", "Krawędzie stępić 0,2", "Rowki bez zadziorów", "Wszystkie krawędzie gratować",
    "Hartować 58 HRC", "Cynkować 8 µm", "Znakować numerem", "Pakować pojedynczo", "Wymiary w mm",
    "Tolerancje ogólne ISO 2768-mK", "Kontrola 100% rowków", "Chronić przed korozją", "Smarować rowki przed montażem",
    "Hrany sražené 0,2", "Drážky bez otřepů", "Kalit 58 HRC", "Zinkovat 8 µm", "Značit číslem dílu", "Balit jednotlivě",
    "Rozměry v mm", "Všeobecné tolerance ISO 2768-mK", "Kontrola 100% drážek", "Chránit proti korozi",
    "Острые кромки притупить", "Канавки без заусенцев", "Заусенцы удалить", "Закалить 58 HRC", "Цинкование 8 мкм",
    "Маркировать номер детали", "Упаковать в бумагу", "Размеры в мм", "Общие допуски ISO 2768-mK",
    "Контроль канавок 100%", "Консервация маслом", "去毛刺", "所有槽去毛刺", "未注倒角C0.5", "热处理 HRC58-62",
    "镀锌8μm", "表面发黑", "未注公差按GB/T1804-m", "锐边倒钝0.2", "槽内清洁", "包装防锈", "尺寸单位mm", "槽宽100%检验",
    "バリなきこと", "全溝バリ取り", "指示なき角C0.3", "焼入れ HRC58", "亜鉛メッキ8μm", "寸法はmm",
    "普通公差JIS B 0405-m", "溝内に切粉なきこと", "溝はグリース塗布", "個別包装", "Alla spår gradfria",
    "Gradas och rengöres", "Härdas till 58 HRC", "Skarpa kanter brytes 0,2", "Mått i mm", "Spår skyddas vid transport",
    "Groeven braamvrij", "Scherpe kanten breken 0,2", "Harden tot 58 HRC", "Maten in mm", "Ranhuras sem rebarbas",
    "Quebrar cantos vivos 0,2", "Têmpera 58 HRC", "Kaikki urat purseettomia", "Kanallar çapaksız olacak",
    "Hornyok sorjamentes", "Canale fara bavuri",
    "MEASURE GROOVES AFTER HARDENING", "NUTEN FETTFREI VERPACKEN", "GROOVES MUST BE SQUARE TO AXIS 0.02",
    "BORE AND GROOVES CONCENTRIC 0.03", "GROOVE WALLS SQUARE TO AXIS",
    "MASK GROOVES DURING PLATING", "GROOVE WIDTH CHECKED BY GAUGE 4.05 NOT GO", "Gorges dégraissées",
    "Nuten rechtwinklig zur Achse 0,02", "Mascherare le gole", "Desengrasar las ranuras", "Mascarar os canais",
    "Groeven ontvetten", "Rowki odtłuszczone", "Drážky odmastit", "Spår avfettas",
]  # fmt: skip
"""What shops write of burrs, treatment, packing, marking, inspection and storage, in the languages of the sheets."""


@pytest.mark.parametrize("words", HARMLESS)
def test_what_shops_say_of_the_whole_piece_is_no_matter(words):
    assert near(words) == near(words, AWAY) == []


CHANGES = [
    "GREASE GROOVE CANCELLED", "LUBRICATION GROOVE OVAL", "GREASE GROOVE 4.5", "Смазочная канавка отменена",
    "润滑槽取消", "グリース溝は不要", "Spår 15 grader", "GROOVE 0.5 DEEPER BEFORE STORAGE", "Fettnut 0,5 tiefer",
    "CLEAN UP GROOVE TO 4.5 WIDE",
]  # fmt: skip


@pytest.mark.parametrize("words", CHANGES)
def test_what_sounds_like_that_and_is_about_a_groove_is_a_caution(words):
    assert [level for level, _ in near(words, AWAY)] == ["caution"]
