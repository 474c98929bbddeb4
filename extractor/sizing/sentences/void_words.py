"""Words by which a sheet is out of force, or asks for something that may not be drawn.

A stamp or a note says that the drawing is void, superseded or cancelled, with little more than a date or a successor
beside it; as part of a longer sentence such a word is about something else, and a heading that waits for its value
("superseded by") says nothing. A note that has grooves added or left out is read by nobody here.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.late import late
from extractor.part import Part
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.sheet_words import any_of, folded, phrases, plain
from extractor.sizing.sentences.broken_lines import broken_lines, right_under, spans_of
from extractor.sizing.sentences.not_on_sheet import OF_EDGES, kept_elsewhere, turned_too

OUT_OF_FORCE = rf"(?:{phrases('void')})"
"""What a sheet is that is not to be worked from."""

NOT_YET = rf"(?:{phrases('early')})"
"""What a sheet is that may be another when it is released."""

FOR_WORK = (
    r"(?:(?:for|fur|zur|pour|per|para|la|le|die|use in)\W+)+"
    r"(?:production|manufactur(?:e|ing)|fabrication|use|fertigung|produktion|produzione|produccion|producao"
    r"|fabricacion|fabricacao|productie|tillverkning|produkcji)"
)
"""What a sheet is not to be used for; `do not use for lifting` is said of the part."""
ABOUT = (
    r"(?:this|the|from|ab|since|seit|drawing|dwg|drg|sheet|print|document|revision|rev|issu|status|is|has been|diese?"
    r"|zeichnung|blatt|ist"
    r"|wurde|plan|dessin|ce|est|a ete|disegno|qusto|e|e stato|dibujo|plano|este|ha sido|desenho|esta|foi|deze"
    r"|tekening|den(?:na|ne)|ritning|ar|tegning|er|piirustus|ten|rysunek|jest|tento|vykres|je|rajz|desen|cizim|чертеж)"
)
"""What else such a stamp says: that it is about the sheet."""

BY = r"(?:by|durch|par|da|dal|por|door|av|af|przez|by drawing|mit|на)"
"""What comes before a successor."""

STAMP, EARLY = (
    late(
        rf"\W*(?:(?:{ABOUT}|[a-z]?\d+)\W+)*{words}(?:\W+(?:{FOR_WORK}|{ABOUT}"
        rf"|\d[\w./-]*))*(?P<by>\W+{BY}(?P<successor>\W+\w.*)?)?\W*"
    )
    for words in (OUT_OF_FORCE, NOT_YET)
)
"""A line that is such a stamp and nothing else."""
APART = late(r"\s+[-–—|/]+\s+|[,;:!.]\s+")
"""What stands between two stamps on a line."""
SUCCESSOR = late(r"\W*(?:see|siehe|voir|vedi)\W+\w.*")
"""Where else to look, behind a stamp."""

WORDS = late(r"(?=[^\d]*$)\W*\w.{0,39}")
"""What may be one line of a stamp: no figures, and no sentence."""
LINES = 3
"""Lines of a stamp, at most."""

PROCESS = (
    r"\w*(?:grind|finishing|machining|polish|lapp|honing|treatment|harden|nitrid|plating|plated|coat|anodi[sz]|ch?rom"
    r"|galvani|schleif|szlif|brous|slijp|hart|behandl|schicht|zink|zinc|eloxi|phosphat|rectif|rettif|trait|trattam"
    r"|tratam|revet|rivest|recubr"
    r"|tremp|tempra|temple)\w*"
)
"""What is done to a part after it was turned."""
MORE = any_of(
    phrases("more"),
    rf"(?:cut|turned|machined|made|plunged|gedreht|gestochen|einstechen) (?:after|nach) (?:dem )?{PROCESS}",
)
"""What asks for more, or for less, than is drawn, or for a groove at another time."""
OTHERWISE = any_of(phrases("otherwise"))
"""What says of a groove that no plain plunge makes it, or that it does not go round."""
FULL_RADIUS = any_of(phrases("full_radius"))
"""What says of a groove that its floor is one round from wall to wall."""
MIRRORED = any_of(phrases("mirrored"))
"""What says that the part is to be made the other way round."""

FOR_IT = r"(?:for|zum|fur|pour|per|para|voor|til|do|na|pro)(?: (?:the|das|la|le))?"
"""What comes before what is done."""
EVERY_SIZE = r"(?:sizes|dim(?:ension)?s|mass(?:e|angaben)|cotes|quote|cotas|medidas|maten|matt|wymiary|rozmery)"
"""All sizes, in a folded line."""
OTHER_SIZES = any_of(
    rf"{EVERY_SIZE}\W{{0,3}}(?:are )?(?:(?:to|must) be )?(?:[x\xd7*]|times|plus|minus|mal|fois|volte|veces) ?\.?\d.*",
    rf"(?:doubl\w+|halv\w+|multipl\w+|verdopp\w+|halbier\w+|raddoppi\w+) (?:all\w?|the|le|les|die) {EVERY_SIZE}",
    rf"(?:increas|reduc|scal|enlarg)\w+ (?:\w+ ){{0,2}}{EVERY_SIZE}.* ?\d.*",
    r"(?:diameters|widths|depths|sizes|dimensions) (?:\w+ ){0,2}[\d.,]+ ?(?:mm )?(?:over|under)size",
    rf"{EVERY_SIZE} (?:\w+ ){{0,3}}(?:doubled?|halved|half size|multipl\w+|verdopp\w+|halbier\w+)",
    rf"{PROCESS} (?:\w+ )?allowances?|allowances? (?:\w+ ){{0,3}}(?:{PROCESS}|[\d.])",
    rf"(?:grind|finish|machin|hon|lapp)(?:ing)? stock|(?:over|under)size (?:by [\d.,]+ )?for {PROCESS}",
    rf"(?<![\w.,] )(?<![\w.,])(?:\xf8 ?)?(?:\d*[.,]\d+|(?<=[+])\d+)(?: ?mm)?(?: \w+){{0,3}} {FOR_IT} {PROCESS}",
    rf"turn\w* (?:to|at) (?:\xf8 ?)?[\d.,]+ {FOR_IT} {PROCESS}",
    r"(?:(?:pre-?|rough[- ]?)turn|vor(?:ge)?dreh)\w*\W+(?:(?:to|at|auf)\W+)?(?:\xf8 ?)?\d*[.,]?\d+",
    rf"(?:allow|leave|add|prevoir|laisser|lasciare|dejar) [\d.,+]+ ?(?:\w+ ){{0,4}}"
    rf"(?:(?:for|pour|per|para) {PROCESS}|per side|on (?:all )?(?:dia\w*|surfaces|sides|faces))",
    rf"{PROCESS}\b.* (?:sizes|dim\w*|masse) (?:\w+ ){{0,3}}(?:finish\w*|final)",
    rf"(?:sizes|dim\w*|diameters|widths?|depths?) (?:\w+ ){{0,4}}(?:after|inclu\w+) (?:\w+ )?{PROCESS}",
    r"(?:schleif|bearbeitungs?|polier|hon|lapp)\w*(?:zugabe|aufmass)\w*|aufmass|slijptoslag|slipman|naddatek|pridavek",
    rf"\w*mass(?:e|angaben)? (?:\w+ ){{0,3}}nach (?:dem )?{PROCESS}",
    rf"surepaisseur|cotes (?:\w+ ){{0,3}}apres {PROCESS}|sovrametallo|quote (?:\w+ ){{0,3}}dopo (?:l[ao] )?{PROCESS}",
    rf"sobremedida|demasia|cotas (?:\w+ ){{0,3}}despus del? (?:la )?{PROCESS}",
)
"""What says that the sizes drawn are not those to be turned."""
BEFORE_THIS = late(
    r"\W*(?:(?:rough(?:ed)?|raw|blank|pre-?machined|casting|forging)(?: (?:machined|turned|part))? (?:drawing|dwg|drg)"
    r"|(?:roh|guss|schmied|vordreh|vorbearbeitung)\w*zeichnung|dessin (?:de |du )?(?:brut|ebauch)\w*"
    r"|disegno (?:del )?grezzo"
    r"|plano (?:de la pieza )?en bruto)\W*(?:,.*)?"
)
"""What heads a drawing of the piece before it is finished; with a number behind it, it names another one."""
OF_A_BLANK = any_of(phrases("before_it"))
"""What says so of the piece before it was turned, or denies it."""
AS_RADII = any_of(
    r"(?:dim\w*|sizes|valus|diameters|mass(?:e|angaben)|durchmesser|cotes|diametres|quote|diametri|cotas)"
    r"(?: (?:are|shown|given|sind|sont|sono|son|as|in|als|en|au|come|sul|al|el))+"
    r" (?:radi(?:i|us|al|en|o)|rayons?|raggi?o?)"
)
"""What says that a size is half of a diameter."""
TO_MIDDLES = any_of(
    r"(?:to|bis|jusqu.?a[ux]?|fino a[li]?|hasta el|auf) (?:the |zur |l |les? )?(?:groove )?"
    r"(?:cent(?:re|er)s?|middles?|mid-?points?|\w*mitten?|axe|milieu|centr[oi]|mezzeri[ae])"
)
"""What says that lengths end at the middles of grooves."""
WALLS = "near", "far"
"""Where a length that is dimensioned to a groove's wall ends."""
OTHER_END = any_of(phrases("other_end"))
"""What says that the part has at one end what is drawn at the other."""
AT_BOTH_ENDS = any_of(phrases("both_ends"))
"""The same, of a note that names a groove."""
AT_AN_END = 0.4
"""Share of a part's length from an end within which a groove stands at that end."""

A_GROOVE = late(rf"\b{GROOVE}|\b(?:NUT|EINSTICH|RILLEN)MITTEN?\b")
FROM_GROOVES = any_of(phrases("burrs"))
"""What is taken off, and not the groove itself."""


def out_of_force(sheet: Sheet, part: Part) -> Iterator[Finding]:
    """The stop for a sheet that says it is out of force, else the caution for one that is not yet in force.

    And a caution for each note that asks for another shape, or for other sizes, than was read.
    """
    texts = sheet.everywhere
    lines = [(line, text.at) for text in texts for line in text.text.split("\n")]
    whole = [(" ".join(text.text.split()), text.at) for text in texts if "\n" in text.text]
    whole += [one for space in (sheet.texts, sheet.around) for one in _stacked(space)]
    for form, told in ((STAMP, _void), (EARLY, _early)):
        stamp = next(((line, at) for line, at in (*lines, *whole) if _is_stamp(form, line) or _among(form, line)), None)
        if stamp is not None:
            yield told(*stamp)
            break
    broken = [
        (" ".join(run), text.at)
        for text, run in broken_lines(sheet)
        if not any(_asks(line, part, sheet) for line in run)
    ]
    for words, at in (*lines, *broken):
        if what := _asks(words, part, sheet):
            yield _asked(words, what, at)


def _asks(words: str, part: Part, sheet: Sheet) -> str:
    """What a line asks for that was not read, "" for nothing."""
    line = folded(words)
    what = _another(line, part)
    if what and A_GROOVE.search(plain(words).upper()) and not FROM_GROOVES.search(line):
        return what
    if MIRRORED.search(line):
        return "the mirror image"
    if BEFORE_THIS.fullmatch(line) or (OTHER_SIZES.search(line) and not OF_A_BLANK.search(line)):
        return "other sizes to be turned than are drawn"
    if AS_RADII.search(line):
        return "sizes to be taken for radii"
    return "the same at both ends" if _at_one_end(words, part) else kept_elsewhere(words, part, sheet)


def asks(words: str) -> bool:
    """True for words that are told for what they ask."""
    line = folded(words)
    forms = (MIRRORED, OTHER_SIZES, AS_RADII, OTHER_END, BEFORE_THIS)
    of_grooves = A_GROOVE.search(plain(words).upper()) and any(
        f.search(line) for f in (MORE, OTHERWISE, FULL_RADIUS, AT_BOTH_ENDS, TO_MIDDLES)
    )
    return bool(of_grooves) or any(form.search(line) for form in forms)


def _another(line: str, part: Part) -> str:
    """What a line asks for if it is about grooves: others than were read; "" for none."""
    if MORE.search(line):
        return "a groove more or less"
    if FULL_RADIUS.search(line) and any(groove.shape != "round" for groove in part.grooves):
        return "a floor of one full radius"
    if TO_MIDDLES.search(line) and any(
        spot in WALLS for one in part.distances for spot in (one.start.spot, one.end.spot)
    ):
        return "lengths to the middles of the grooves, and some are dimensioned to their walls"
    return "another groove" if OTHERWISE.search(line) else ""


def _stacked(texts: Sequence[Text]) -> Iterator[tuple[str, Point]]:
    """What stands on two lines or three, each a text of its own: words with those under them, of one height."""
    kinds: dict[tuple[float, float], list[Text]] = {}
    for text in texts:
        if text.height > 0 and WORDS.fullmatch(text.text):
            kinds.setdefault((round(text.height, 3), round(text.angle, 1)), []).append(text)
    for kin in (kin for kin in kinds.values() if len(kin) > 1):
        spans = spans_of(kin)
        for k, text in enumerate(kin):
            run = [k]
            while len(run) < LINES and (under := right_under(run[-1], spans, text.height)) is not None:
                run.append(under)
                yield " ".join(" ".join(kin[one].text.split()) for one in run), text.at


def _at_one_end(words: str, part: Part) -> bool:
    """True for words that want grooves at both ends of a part that has them at one, or others there."""
    line, middle = folded(words), -part.length / 2
    if OTHER_END.search(line):
        return not turned_too(part)
    named = A_GROOVE.search(plain(words).upper()) and AT_BOTH_ENDS.search(line) and not OF_EDGES.search(line)
    ends = {g.middle > middle for g in part.grooves if abs(g.middle - middle) >= (0.5 - AT_AN_END) * part.length}
    return bool(named and not FROM_GROOVES.search(line)) and bool(part.grooves) and ends != {True, False}


def _is_stamp(form: re.Pattern[str], words: str) -> bool:
    """True for a line that is a stamp of a form, and says by what if it names a successor."""
    found = form.fullmatch(folded(words))
    heading = words.rstrip().endswith(":") or (found is not None and found["by"] and not found["successor"])
    return found is not None and not heading


def _among(form: re.Pattern[str], words: str) -> bool:
    """True for a line of several stamps, one of which is of a form."""
    clauses = [clause for clause in APART.split(words) if not SUCCESSOR.fullmatch(folded(clause))]
    stamped = all(_is_stamp(STAMP, clause) or _is_stamp(EARLY, clause) for clause in clauses)
    return stamped and any(_is_stamp(form, clause) for clause in clauses)


def _void(words: str, at: Point) -> Finding:
    sentence = (
        f'"{" ".join(words.split())}" at {place_words(at)} says that the drawing is not to be worked from: get the one '
        "in force, or accept it if that is said of something else."
    )
    return Finding(Level.STOP, DrawingCode.OUT_OF_FORCE, sentence, at)


def _early(words: str, at: Point) -> Finding:
    sentence = (
        f'"{" ".join(words.split())}" at {place_words(at)} says that the drawing is not released for production: see '
        "whether there is a later one before the part is cut."
    )
    return Finding(Level.CAUTION, DrawingCode.OUT_OF_FORCE, sentence, at)


def _asked(words: str, what: str, at: Point) -> Finding:
    sentence = (
        f'The note "{" ".join(words.split())}" at {place_words(at)} asks for {what}; the part was read as drawn: see '
        "whether the drawing already shows what it asks."
    )
    return Finding(Level.CAUTION, DrawingCode.NOTE_UNREAD, sentence, at)
