"""The words of notes at grooves as patterns of plain lines in capitals (`sheet_words.plain`).

In English, German, French, Italian and Spanish; and in the other languages of `sheet_words` what names a groove, its
width and its depth.

Source of the words: common practice, no source.
"""

import re

from extractor.grammar import NUMBER, PLACES, TIMES
from extractor.late import late
from extractor.sizing.lettering.sheet_words import meant, phrases

WIDE, DEEP, GROOVE, RING_NAME = (f"(?:{phrases(name)})" for name in ("wide", "deep", "groove", "ring_name"))
"""A width, a depth and a groove by their names; a ring by its own, with its diameter and its thickness."""
ROMANCE = meant("groove_romance")
"""Grooves in languages that write L and P for width and depth."""
BY_LETTERS = late(rf"\W*L\s*=\s*{NUMBER}\W+P\s*=\s*{NUMBER}\W*")
"""A width and a depth by these letters, and nothing else."""
NUMBERED = late(r"^([^A-Z]*?(?:\b(?:H|JS)\d+\s*)?)\s*\bN[°.]\s*(\d+)\s*$")
"""A count behind bare figures as `5 ±0.05 n°4` has it."""
JOINED = r"\b(?:NUT(?:EN)?|EINSTICH|RILLEN|GROF|SPAR)(?:BREIT|TIEF|BREED|DIEP|BREDD|DJUP|ABSTAND|TEILUNG|STEEK|DELNING)"
"""A size of a groove with its name in one word."""
EVERY = meant("every_one")
"""Of a note that names grooves: it is about every one."""
LETTERS = late(r"\b[BTWD]\s*=?\s*(?=\d)|(?<=\d)\s*\(?[WD](?!\w)")
"""Width and depth by their letters, `b=3 t=2`, `b3 x t2` or `3W x 2D`: of a note that names a groove or gives both;
`t=4` is a plate's."""
ACROSS = late(r"\bD\s*=?\s*(?=\d)")
"""What may be a diameter as well as a depth."""
OF_THE = r"\s+(?:OF|DER|DES|DELL[AE']|DE[IL]|DE|DI|D[AO]S|VAN|ENTRE|MELLAN)\s+(?:(?:ALL|THE|LAS?|LES|DE)\s+)?"
"""What stands between a size and the groove that it is of."""
LAST = rf"\s*[=:]?\s*{NUMBER}\s*$"
"""The figure that ends a note: it is that of the word before it, as in `3 DEEP 2` and `3 PROF 2`."""
TOKEN = (
    rf"(?P<land>\b(?:ON|IN|AUF|IM|SUR|SU|EN|FROM|BELOW|AB|VON|UNTER|DEPUIS|DAL?|DESDE)\s+(?:THE\s+)?(?:Ø|DIA(?:METER)?\.?)\s*(?P<l>{NUMBER}))"
    rf"|(?P<diameter>(?:(?:\bD\s*[=:]\s*)?Ø|DIA(?:METER|M|METR[EO])?\.?|DURCHM(?:ESSER)?\.?)\s*[=:]?\s*(?P<d>{NUMBER})|(?P<d2>{NUMBER})\s*DIA(?:METER|M)?\b\.?(?!{LAST}))"
    rf"|(?P<wide>(?P<w>{NUMBER})\s*(?:DE\s+)?\(?(?:{WIDE}|W(?!\w))\)?"
    rf"|(?:\b{WIDE}(?:(?:{OF_THE}|\s+){GROOVE})?|\b[WB](?![A-Z]))\s*[=:]?\s*(?P<w2>{NUMBER}))"
    rf"|(?P<deep>(?P<t>{NUMBER})\s*(?!{DEEP}{LAST})(?:DE\s+)?\(?(?:{DEEP}|D(?!\w))\)?"
    rf"|(?:\b{DEEP}(?:(?:{OF_THE}|\s+){GROOVE})?|\b[DT](?![A-Z]))\s*[=:]?\s*(?P<t2>{NUMBER}))"
    rf"|(?P<groove>\b{GROOVE})|(?P<number>(?P<n>{NUMBER}))|(?P<by>\s?(?:X|×|\*|BY)(?=[\s\d.ØBTWD(])|\s*/(?=\s*Ø))"
    r"|(?P<gap>(?:[\s,;:&/()-]|\.(?!\d))+|\bMM\b|\bTYP(?:ICAL)?\b\.?|\b(?:RADIAL(?:LY)?|EACH|BOTH|BEIDE|AMBOS|ENTRAMB[EI]|SIDES?|ENDS?|THE|TO|OF|DE|DI|DA|LES|LE|LAS|MIT|VON|AND|UND|ET)\b)"
    r"|(?P<word>[A-Z\u0370-\u04ff\u3040-\u9fff][A-Z\u0370-\u04ff\u3040-\u9fff.'/-]*(?![\w=]))"
)
"""What a note at a groove is made of; compiled when first used: it takes as long as all else here."""
SPACED = late(phrases("equally_spaced"))
ALIKE = meant("like_another")
UNSIZED = late(
    rf"(?:{GROOVE}|{SPACED.pattern}|\b(?:{phrases('like_another', 'every_one', 'little_between')})\b|[\s,.:()&-])+"
)
"""Words that say of grooves, without a figure, how they are spaced or that they are like one another."""
SPREAD = late(
    rf"^\s*([1-9]\d*)\s*(?:[X×]\s*)?(?:{GROOVE}\s*)?(?:{SPACED.pattern})\s*(?:ON|OVER|IN|WITHIN|AUF|UBER|SUR|SU|EN)\s*({NUMBER})\s*$"
)
"""How many grooves, or steps between them, are spread evenly over a length."""
_KIND = rf"(?:(?:{phrases('groove_kind')})\s+{GROOVE}|{GROOVE}\s+(?:{phrases('groove_kind')})(?=\W*Ø))"
TWO_KINDS = late(rf"\b{_KIND}.*\b{_KIND}")
"""Wide grooves and narrow ones in one note: which figure is whose, no reading of one groove tells."""
TURNED = meant("groove_round")
"""One groove that goes round: with a width or a depth it is one of the part's too. Other words may be a keyway's."""
WIDTH_OF_ONE = late(rf"\s*({NUMBER})\s+(?={TURNED.pattern})")
"""What may be the width of one groove, as in `3 GROOVE`."""
PITCH = late(
    rf"(?:[,\s]*\b(?:AT\s+)?(?:A\s+)?(?:{phrases('pitch_name')})|(?:{SPACED.pattern})(?<!SPACES)\s*(?:AT|@|A|À|MIT|ZU))(?:(?:{OF_THE}|\s+){GROOVE})?\s*(?:OF|AT|=|:)?\s*({NUMBER})"
    rf"|[,\s]*\bP\s*=\s*({NUMBER})"
    rf"|[,\s]*\b(?:AT\s+)?({NUMBER})\s*(?:PITCH|SPACING|APART|TEILUNG|CENTRES|CENTERS|CRS|C/C|O\.?C\b\.?)(?!\w)"
    rf"(?!\s*(?:OF|=|:)?\s*{NUMBER})"
)
COUNT_LAST = late(r"\W*(?:[X×]|(?:QTY|QUANTITY|ANZAHL|STUCKZAHL)\b)\W*\d+\W*")
"""A count alone behind its sign or its name."""
IN_BRACKETS = late(r"\s*\(\s*(?:[2-9]|1\d)\s*\)\s*")
"""A figure in brackets that may be a count, or the number of something."""
FLOORS = late(rf"(?=.*Ø\s*{NUMBER})(?=.*\bTYP)(?:Ø\s*{NUMBER}|\bTYP(?:ICAL)?\b|\b(?:FLOORS?|NUTGRUND)\b|[\s.,()=:-])+")
"""The diameter that the floors of grooves have, said to be typical."""
KIND = r"(?:EQUAL|IDENTICAL|ANNULAR|CIRCUMFERENTIAL)"
"""What may stand between a count and what it counts."""
COUNTED = late(
    rf"^\s*(?:(?:TURN|CUT|PLUNGE|MACHINE|GRIND|TYP(?:ICAL)?\.?)\s+)?(\d+)\s*(?:[X×-]|OFF|NO\b\.?|PCS\.?|STK\.?|EA\b\.?|ADET|PLACES|{KIND})?\s*(?={GROOVE})"
    rf"|^\s*N[.°º]\s*(\d+)\s*(?=(?:{phrases('grooves_name')})\b)"
    rf"|\(\s*(\d+)\s*(?:[X×]|{GROOVE})\s*\)|^\s*\(\s*(\d+)\s*\)"
    rf"|^\s*(?:TYP(?:ICAL)?\.?\s*)?(\d+)\s*(?:{PLACES}|OFF|EA\.?)[:\s]+(?=[\d.Ø])|(?<=[,;]\s)(\d+)\s*(?={GROOVE}\s*$)"
)
TOTAL = late(
    rf"\b(?:TOTAL\s+)?(?:NUMBER|NO\.?|QTY\.?|QUANTITY|COUNT|ANZAHL|NOMBRE|NUMERO)\s*(?:OF|DE|DI|DER)?\s*({GROOVE})\W*(\d+)(?![\d.])"
    rf"|^\s*TOTAL\s+({GROOVE})\W*(\d+)(?![\d.])"
    rf"|^\s*({GROOVE})\W*(?:(?:TOTAL|QTY\.?|ANZAHL|GESAMT)\W*(\d+)(?![\d.])|(\d+)\s*(?:OFF\b|TOTAL\b|{PLACES}))"
)
"""How many grooves there are, said behind their name: `NUMBER OF GROOVES: 5`, `GROOVES 3 OFF`."""
CLAUSE = late(r"((?<=[^\W\d]{3})\.\s+|(?<=\d)\.\s+(?=[^\W\d])|;\s*|,\s+(?=[^\W\d]))")
"""Where one part of a note ends and another begins."""
FIGURES_OF_COUNT = 2
"""Figures of a count behind `N=` at most: more of them are the turns of a spindle, and no part has so many grooves."""
BEHIND = late(
    rf"[,\s(:-]*{TIMES}|\bTYP\.?\s*(\d+)\s*$|(?:(?<=GROOVES)|(?<=GROOVE))\s*[X×]\s*(\d+)\s*$"
    rf"|\s\(\s*(\d+)\s*\)\s*$|[;,\s]\s*N\s*=\s*(\d{{1,{FIGURES_OF_COUNT}}})\s*$"
)
COUNTS = (
    r"TWO|ZWEI|DEUX|DU(?=\s+(?:GOLE|SCANAL))|(?<!PASSO )DOS(?!\s+CANAIS)", "THREE|DREI|TROIS|TRES?",
    "FOUR|VIER|QUATRE|QUATTRO|CUATRO",
    "FIVE|FUNF|CINQU?|CINCO", "SIX|SECHS|SEIS?", "SEVEN|SIEBEN|SEPT|SETTE|SIETE", "EIGHT|ACHT|HUIT|OTTO|OCHO",
    "NINE|NEUN|NEUF|NOVE|NUVE", "TEN|ZEHN|DIX|DIECI|DIEZ", "ELEVEN|ELF|ONZE|UNDICI|ONCE",
    "TWELVE|ZWOLF|DOUZE|DODICI|DOCE",
)  # fmt: skip
"""The numbers from two on that notes spell out, as plain texts have them."""
SPELT = "|".join(rf"(?P<n{n}>\b(?:{words})\b(?:\s*\({n}\))?)" for n, words in enumerate(COUNTS, 2))
NUMERALS = late(rf"(?:{SPELT})(?=\s+(?:{KIND}\s+)?(?:{GROOVE}|{PLACES}))")
"""Such a number before what it counts, with its figure in brackets or without."""
ITEM = late(rf"^\s*(?:\d{{1,2}}[.):]\s+|({GROOVE}\s)\s*(?:NO\.?\s*)?[A-Z\d]\s*:)")
"""The number of a note in a list, or the name of the groove that it is about."""
WHICH = late(rf"\W*{GROOVE}\s*(?:NO\.?\s*|#\s*)?(\d{{1,2}})\s*[:=]")
"""The number of the groove that a note is about."""
LETTERED = late(rf"(\b[BW]\s*=?\s*{NUMBER})\s+(?=[DT]\s*\d)")
"""A width by its letter, with that of the depth behind it."""
BRACKETS = late(r"^\s*[(\[<\"']([^()\[\]<>\"']*)[)\]>\"']\s*$")
EDGES = late(
    rf"[,\s]*(?<![A-WYZ])(?:R|RAD(?:IUS)?\.?)\s*{NUMBER}(?:\s*MAX\.?)?|[,\s]*\bBREAK\s+(?:ALL\s+)?(?:SHARP\s+)?EDGES\s*{NUMBER}"
)
"""Radii and broken edges, which are for dimensions to read."""
ELSEWHERE = late(
    rf"\s*\b(?:FOR|FUR|TO\s+SUIT|POUR|PER|PARA)\b(?:(?!\b{GROOVE}\W{{0,3}}[\d.]).)*|\bR[AZ]\s*{NUMBER}"
    rf"|\b(?:ISO|DIN|EN|ANSI|ASME|TABLE|SHEET|NOTE|HINWEIS|ITEM)\s*[\d-]+"
    rf"|\b(?:{phrases('all_around')})\b"
    rf"|(?<=GROOVE)(?<!OF GROOVE)\s+(?:NO\.?\s*)?\d+\s*$|(?<=[A-Z]{{2}})[ -]\d{{4,}}(?![\d.])",
    re.S,
)
"""What a note says of other things: what a groove is for, finish, standards, the number of a groove."""
UNDERCUT = late(
    rf"(?:(?P<standard>\bDIN\s*509\s*-?)|\b)\s*(?P<form>[A-H])\s*(?P<radius>{NUMBER})\s*[X×]\s*(?P<deep>{NUMBER})"
    r"(?(standard)|[\s,-]*DIN\s*509)",
    re.I,
)
ABOUT_ONE = late(
    rf"\b(?:{GROOVE}|{WIDE}|{DEEP})|\b[WB]\s*=|\b(?:PITCH|SPACING)\b|\d\s*[A-Z]?\s*[X×]\s*[A-Z]?\s*\.?\d|\d\s*/\s*Ø"
)
"""What a note at a groove says besides figures: its name, a word for its size, or one figure by another."""
ANGLED = late(rf"(?:[X×*]\s*)?{NUMBER}\s*°(?:\s*[X×*])?", re.I)
"""An angle, and the sign that may part it from a leg."""
NO_GROOVE = late(
    r"°|\bM\s*\d|\b(?:HOLES?|BOHR|UNC|UNF|KEYWAY|KEYSEAT|PASSFEDER|CLAVETTE|CHIAVETT|CHAVET|WPUST|ШПОН|(?:PERO|KIL)\s+\d|CHAMFER|FASE|KNURL|RANDEL|R(?:AA|BL|BR|GE|GV|KE|KV)\s*\d)"
    r"|(?<!关)[键鍵]|キー|\b(?:THREAD|GEWINDE)(?![- ]?(?:GROOVE|UNDERCUT|RELIEF|RUN-?OUT|NUT|RILLE|FREISTICH))",
    re.I,
)
"""Chamfers, threads, holes and keyways, which have such figures too."""
AN_END = f"(?:{phrases('from_an_end')})"
LISTED = rf"{NUMBER}(?:\s*MM\b)?(?:\s*(?:[,;/&]|\b(?:AND|UND|ET|EN|OCH|[EYIA])\b)\s*{NUMBER}(?:\s*MM\b)?)*"
"""A figure, or several."""
WHICH_PLACE = rf"(?:(?P<first>{phrases('first_of_several')})|(?P<last>{phrases('last_of_several')}))\s+"
PLACE = late(
    rf"\W*(?:(?:{WHICH_PLACE})?(?:{GROOVE}(?:\s+(?P<place>{phrases('place_name')}))?|(?P<joined>NUT(?:EN)?(?:LAGEN?|POSITION(?:EN)?)))"
    rf"\s*(?:(?P<begins>{phrases('place_begins')})|(?P<ends>{phrases('place_ends')}))?\s*(?P<at>\b(?:{phrases('place_at')})\b)?"
    rf"\s*[:=]?\s*(?P<behind>{LISTED})\s*(?P<end>{AN_END})?(?(end)|(?(at)|(?(place)|(?(joined)|(?!)))))"
    rf"|(?P<before>{NUMBER})\s*(?:MM\s*)?(?:{AN_END}\s+)?TO\s+(?:THE\s+)?(?:FIRST|1ST)\s+{GROOVE}(?:\s+{AN_END})?)\W*",
    re.I,
)
"""The distance of the first groove, the last, of one or of several from an end of the part."""
PLACE_LED = late(
    rf"\W*(?:(?!POS\b[.:\s]*\d+\W*$)(?:{phrases('place_name')})\s*[:=]?\s*(?P<placed>{NUMBER})(?:\s*MM\b)?(?:\s*{AN_END})?|Z\s*=?\s*-\s*(?P<z>{NUMBER})"
    rf"|(?P<off>{NUMBER})(?:\s*MM\b)?\s*{AN_END}|(?P<middle>{NUMBER})(?:\s*MM\b)?\s*(?:{phrases('to_middle')}))\W*",
    re.I,
)
"""The same of the groove that such a note is led to; `POS 3` is the number of an item in a list."""
CHANGED = late(
    rf".*?(?:\b(?:WAS|WAR|WERE)\s*Ø?\s*(?P<old>{NUMBER})\s*(?:MM)?\W+(?:(?:IS\s+)?NOW|JETZT|NEU|IS|IST)\s*Ø?\s*(?P<new>{NUMBER})"
    rf"|(?<![\d.])(?P<from>{NUMBER})\s*(?:MM\s*)?(?:-+>|=>|→)\s*Ø?\s*(?P<to>{NUMBER})"
    rf"|(?<![\d.])(?P<now>{NUMBER})\s*(?:MM\s*)?[A-Z]*\W+(?:WAS|WAR)\s*Ø?\s*(?P<was>{NUMBER}))\D*",
    re.I,
)
"""A size that was changed for another."""
BEFORE = r"\b(?:WAS|WERE|WAR(?:EN)?|ETAIT|ANCIEN|ERA|PREVIOUSLY|FORMERLY|FRUHER|BISHER)\b"
VERB = r"(?:WAS|WERE|IS|ARE|HAS|HAVE|BEEN|WURDEN?|IST|SIND|A|ETE|EST|STAT[AO]|ES)"
ADDED = late(
    rf"\W*(?:(?:REV\W*)?[A-Z]\W+)?(?:(?P<before>\d{{1,2}})(?:ST|ND|RD|TH|ER?|I?EM?E|[AO]|:[AE])?\W+(?:[^\W\d]+\W+)?)?{GROOVE}\W+"
    rf"(?:(?:NO|NR|N)\b\.?\W*)?(?P<behind>\d{{1,2}})?\W*(?:{VERB}\W+){{0,2}}(?:{phrases('added')})\b\D*",
    re.I,
)
"""So many grooves, or one by its number, that a revision brought."""
LAND_SIZED = late(
    rf"\W*(?:{phrases('land_name')})\b\.?\s*(?:Ø|DIA(?:METER)?\b\.?)\s*{NUMBER}\s*[X×]\s*{NUMBER}(?:\s*MM\b)?(?:\s*(?:{phrases('long_behind')})\b\.?)?\W*"
)
"""A land by its name with its diameter and its length."""
HELD_ALONE = (PLACE, PLACE_LED, CHANGED, ADDED, LAND_SIZED, late(rf"\D*{BEFORE}\W*Ø?\s*{NUMBER}\D*"))
"""Lines that are no notes at grooves: a place, a change, what was added, a land, one that says only what a size was."""
FOR_OTHERS = (
    *("hardness", "hardness_figure", "marks", "joined", "paint", "holes", "raw", "bar", "material", "tools", "fellows"),
    *("through_hole", "fitted", "flats"),
)
OTHER_THING = late(
    rf"{NO_GROOVE.pattern}|\b(?:{phrases(*FOR_OTHERS)})\b"
    r"|\b(?:SCALE|MASSSTAB|SECTION|SCHNITT|DETAIL|VIEW|REV|DRAWN|SHEET|BLATT|QTY|BOHR)",
    re.I,
)
"""What figures at a groove are for where the words name no groove: what is made there besides, or fits into it."""
OF_A_GROOVE = late(rf"\b(?:{GROOVE}|{WIDE}|{DEEP}|{PLACES})|\bPITCH\b|\bSPACED\b")
"""What a part of a note is about that says something of grooves."""
TOLERANCE_ALONE = late(
    rf"±\s*{NUMBER}|\+\s*{NUMBER}|(?<![\w).])-\s*\d*\.\d|(?:WIDTHS?|BREITEN?|TOLERANCE|FLOORS?|DIA(?:METERS?)?|DURCHMESSER)\W+[A-K]S?\d{{1,2}}\s*$"
)
"""A tolerance in a note that prints no size beside it."""
