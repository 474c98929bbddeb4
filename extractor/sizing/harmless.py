"""Words that ask for nothing that is not drawn, in the text of a groove's size and in a note led to it.

Rules: what the size is of or meant for, how often it occurs, that it is typical or for information, how the surface is
finished. In a note led to a groove also what is done to its edges and after it is turned, what is drilled across it,
and where more is said: beside a size such words may change it, as `3 AFTER PLATING` does.

Source of the words: common practice, no source.
"""

import re

from extractor.grammar import PLACES, chamfer
from extractor.late import late
from extractor.sizing.note_words import DEEP, GROOVE, SPACED, WIDE
from extractor.sizing.void_words import PROCESS

OF_THE_SIZE = (
    r"typ(?:ical)?|ref(?:erence)?|max(?:imum)?|min(?:imum)?|nom(?:inal)?|bsc|basic|theor(?:etical)?|info|hilfsmass|dia\w*"
    r"|durchm(?:esser)?|radial(?:ly)?|mm|inch(?:es)?|off|each|all[ae]?|every|both|kpl|equal(?:ly)?|gleich|limits?"
    r"|tol(?:erance)?|fit"
)
"""How a size is meant: typical, for information, a limit, how often."""
OF_THE_FEATURE = (
    r"(?:o|quad|x|v)?-?ring\w*|\w*ring(?:nut|e|s)?|circlips?|clips?|snap|retaining|piston|kolben\w*|wipers?|abstreif\w*"
    r"|seal\w*|oil\w*|greas\w*|lubri[cf]\w*|dicht\w*|\w*sicherung\w*|schmier\w*|ol\w*|fett\w*|joints?|toriqus?|etanch\w*"
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
TREATED = (
    rf"hrc|hv|hb|finish\w*|surfaces?|{PROCESS}|smooth|blank|sauber|brunier\w*|oxid\w*|paint\w*|clean|fre[ei]|edges?|sharp"
    r"|br(?:o|ea)k\w*|deburr\w*|burrs?|walls?|flank\w*|bottom|kant\w*|(?:ent)?grat\w*|gebrochen|scharf\w*|aretes?"
    r"|vives?|e?bavur\w*|spigol\w*|viv[io]|s?bav\w*|rebab\w*|arist\w*|chamf\w*|fasen?|rayons?|raggi[o]?"
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
