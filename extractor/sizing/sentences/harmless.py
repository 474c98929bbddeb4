"""Words that ask for nothing that is not drawn, in the text of a groove's size and in a note led to it.

Rules: what the size is of or meant for, how often it occurs, that it is typical or for information, how the surface is
finished. In a note led to a groove also what is done to its edges and after it is turned, what is drilled across it,
and where more is said: beside a size such words may change it, as `3 AFTER PLATING` does.

Source of the words: common practice, no source.
"""

import re

from extractor.grammar import PLACES, chamfer
from extractor.late import late
from extractor.sizing.lettering.note_words import DEEP, GROOVE, SPACED, WIDE
from extractor.sizing.sentences.void_words import PROCESS

OF_THE_SIZE = (
    r"typ(?:ical)?|ref(?:erence)?|max(?:imum)?|min(?:imum)?|nom(?:inal)?|bsc|basic|theor(?:etical)?|info|hilfsmass|dia\w*"
    r"|durchm(?:esser)?|radial(?:ly)?|mm|inch(?:es)?|off|each|all[ae]?|every|both|kpl|equal(?:ly)?|gleich|limits?"
    r"|tol(?:erance)?|fit"
)
"""How a size is meant: typical, for information, a limit, how often."""
OF_THE_FEATURE = (
    r"(?:o|quad|x|v)?-?ring\w*|\w*ring(?:nut|e|s)?|circlips?|clips?|spiral(?= r\w+)|snap|retaining|piston|kolben\w*"
    r"|wipers?|abstreif\w*|seal\w*|oil\w*|greas\w*|lubri[cf]\w*|dicht\w*|\w*sicherung\w*|schmier\w*|ol\w*|fett\w*|joints?|toriqus?|etanch\w*"
    r"|graiss\w*|huil\w*|segment|arret|anell\w*|tenuta|guarniz\w*|elastic[oa]|junta|torica|anillo|aro"
    r"|o?pakking|tatning\w*|uszczeln\w*|tesnen\w*|bearings?|lager\w*|seats?|sitz|floors?|root|(?:nut|einstich)?grund"
    r"|thd|degagements?|scaric[oh]i?|auslauf|boden|fondo?|journals?|lands?|ribs?|stege?|shoulders?|bund|bore|bohrung|alesage|foro|corners?|rad(?:ius|ii?|ien)"
)
"""What the size is of, and what a groove is for."""
OF_THE_SURFACE = r"ground|turned|geschliff\w*|gedreht|polish\w*|polier\w*|r[azt]|rmax|n\d+|iso|din|en"
LITTLE = r"and|und|et|the|of|de[rsil]?|della|for|fur|pour|per|para"
COMMON = rf"{OF_THE_SIZE}|{OF_THE_FEATURE}|{OF_THE_SURFACE}|{LITTLE}|{PLACES}"

SPACINGS = r"pitch(?! dia| circ)|spacings?|spaced|teilung|abstand|passo|paso?|entraxe|interasse|apart|crs"
"""What a size is from one groove to the next; a pitch diameter is a thread's or of holes."""
BY_A_FIGURE = (
    r"in|od|id|ad|ea|sides?|ends?|(?:see\s+)?notes?\s+0|eq|sp|je|gd|gdt|e|y|or|oder|ou|o|x|s?r|n|l|b|w|d|t|c|h|p|a"
)
"""Small words and letters that stand before a figure or between two; each figure is a nought here."""
BESIDE = late(
    rf"\b(?:{COMMON}|{BY_A_FIGURE})\b\.?|\b(?:{GROOVE}|{WIDE}|{DEEP}|{SPACINGS})|{SPACED.pattern}|{chamfer().pattern}",
    re.I,
)
"""Harmless beside a size."""
OF_EDGES = (
    r"edges?|br(?:o|ea)k\w*|deburr\w*|burrs?|kant\w*|(?:ent)?grat\w*|gebrochen|scharf\w*|aretes?|vives?|e?bavur\w*|spigol\w*"
    r"|viv[io]|s?bav\w*|rebab\w*|arist\w*|smooth|clean|sauber|blank|surfaces?"
    r"|\w*zadzior\w*|otrep\w*|заусен\w*|\w*毛刺\w*|\w*[バハ]リ\w*"
)
"""What is done to its edges and its surface."""
TREATED = (
    rf"{OF_EDGES}|hrc|hv|hb|finish\w*|{PROCESS}|brunier\w*|oxid\w*|paint\w*|fre[ei]|sharp|walls?|flank\w*|bottom"
    r"|chamf\w*|fasen?|rayons?|raggi[o]?"
)
"""How a groove is finished, and its edges."""
ACROSS = (
    r"holes?|drill\w*|tap(?:ped)?|ream\w*|\w*bohr\w*|reib\w*|thru?|through|durch|trous?|perc\w*|fori|taladr\w*"
    r"|agujeros?|deep|tief|cross|quer"
)
"""What is drilled across it, and goes by its own rules."""
REFERRED = (
    r"see|siehe|voir|vedi|ver|notes?|hinweis|pos|items?|nr|no|datum|bezug|nach|alle|beide|zu[mr]?|di|l[ae]|las|les"
    r"|with|mit|in"
)
"""What it is called, where more is said of it."""
LED = late(rf"\b(?:{COMMON}|{TREATED}|{ACROSS}|{REFERRED})\b", re.I)
"""Harmless in a note led to a groove."""
OF_THE_PAPER = (
    r"draw(?:ings?|n)|dwg|drg|\w*zeichnun\w*|dessine?|disegn\w*|dibuj\w*|sheet|blatt|feuille|foglio|hoja|formato?|projection"
    r"|scal\w*|massst\w*|echelle|ecn|issued?|releas\w*|freigegeben|gepruft|approved|datum|date|name|cad|layer|copyright"
    r"|confidential|property|rights|schutz\w*|interpret|doubt|first|third|replaces|assy|assembly|items?|part|pos|standards?"
    r"|shown|supersed\w*|cancel\w*|ersatz|ersetzt|draft\w*|preliminary|un(?:specified|dimensioned)|not dimensioned"
    r"|non quotat\w"
)
"""What a sheet says of itself and of how it is read."""
OF_THE_ORDER = (
    r"shaft|title"
    r"|machine all over|free from chatter|cut length|material\w*|werkstoff|matiere|qty|quantity|lot|orders?"
    r"|stuckzahl|stk|pack\w*|certif\w*|zeugnis|price|tel|cast|vc|stock|bar|rohmass|sagelange|edm|weld\w*|allowed|permi\w+|zulassig"
    r"|compliant|case|raw|thickness|instead|mark(?:ing|ed)?|screw|bearings?|housing|mating|included|grooved|traitement|aucun|weight|gewicht|travel"
    r"|torque|pressure|h[ae]rt\w*|hard\w*|heat|nitrid\w*|\w*gehartet|zentrier\w*|centres?|centers?|angle"
)
"""What is said of the piece, how it is made, treated, packed and paid, and of its fellows."""
OF_ITS_FORM = (
    r"concentric\w*|cylindricity|run-?out|rundlauf\w*|tir|inspect\w*|checked|gauges?|measured|critical|test|insert|tool"
    r"|protect\w*|transit|transport|all a?round|rev(?:ision)?|ind(?:ex|ice)"
)
"""How true it must be, how that is checked, and what was changed."""
MATTERS_AT_GROOVES = late(rf"\b(?:{OF_THE_SURFACE}|{OF_EDGES}|{OF_ITS_FORM})\b", re.I)
"""One word of these says what a folded text is about that names a groove: no size and no shape."""
MATTERS = rf"{OF_THE_FEATURE}|{OF_THE_SURFACE}|{TREATED}|{OF_THE_PAPER}|{OF_THE_ORDER}|{OF_ITS_FORM}"
OTHER_MATTERS = late(rf"\b(?!bottom|walls?\b|sharp\b)(?:{MATTERS})\b", re.I)
"""The same of one that names none and stands free."""
OTHER_QUANTITY = late(
    r"(?<!\d)(?:\d{1,2}[./-]){2}\d{2,4}(?!\d)|\d{4}-\d{2}-\d{2}"
    r"|\d\s*(?:k?g|lbs?|n ?m|bar|psi|[kmg]?pa|k?n|eur|usd|°?\s?c|deg\w* ?c|m/min|rpm|%|hrc|h[vb]"
    r"|pcs|stk|off|sets|micro\w+)(?!\w)",
    re.I,
)
"""A figure of what is no length: a weight, a torque, a temperature, a number of pieces, a date."""
