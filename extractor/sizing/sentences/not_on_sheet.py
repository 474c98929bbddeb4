"""Words by which a sheet does not show all of a part: only half of its length, one end for both, or grooves elsewhere.

Another sheet or paper that is named beside grooves has something to say of them; national and international standards
are read where they matter, and are no such paper. Half of a part drawn on one side of its axis is the usual way.

Source of the words: common practice, no source.
"""

from extractor.late import late
from extractor.part import Part
from extractor.sheet import Sheet
from extractor.sizing.lettering.sheet_words import VIEW, any_of, folded, phrases
from extractor.sizing.measured.like import alike, same

ALIKE_ENDS = any_of(phrases("alike_ends"))
"""What says that one end is as the other, if no edge, wall or chamfer is named that has two sides of its own."""
OF_EDGES = any_of(
    r"ra?z? ?\d[\d.,]*|corners?|radi(?:us|i|o)", phrases("burrs", "deburred", "edges", "walls", "chamfers")
)
"""What is said of the two sides of one groove, or of one edge."""
OF_A_VIEW = any_of(VIEW)
HALF_LENGTH = any_of(phrases("half_length"))
"""What says that half of the length is missing."""
HALF = any_of(phrases("half"))
"""What says so of half of the part, which may be the half on one side of its axis."""

PAPER = (
    r"(?:(?:another |separate |other |anderes? |separates? |autre |altro |otr[ao] )?"
    rf"(?:{phrases('another_paper')}))"
)
POINTING = rf"(?:{phrases('pointing')})"
ELSEWHERE = any_of(
    rf"{POINTING} (?:the )?(?:{PAPER}(?: ?(?:no\.?|nr\.?|n°|:))? ?(?=[\w-]*\d)[\w./-]+"
    rf"|(?:another|separate|other|andere[ms]?|separate[ms]?|autre|altro|otr[ao]) {PAPER})",
    r"(?:see|acc(?:ording|\.)?(?: to)?|per|siehe|gemass|nach|laut|voir|selon|vedi|secondo|ver|segun|zie|volgens|enligt"
    r"|wg|podle) (?:[a-z]{1,4}[- ]?)?\d{3,}[\w.-]*",
)
"""What points to another sheet or paper, or to one by its number alone."""
STANDARD = any_of(
    r"(?:iso|din|en|ansi|asme|jis|bs|nf|uni|une|gost|pn|csn|nen|ss|ds|ns|sfs|as|is|gb|sae|astm|vdi|vsm|sn)"
    r"(?:[-/ ](?:en|iso|din|t|b))* ?-?\d[\w.-]*"
)
"""A standard that anybody can look up."""
OF_GROOVES = late(
    r"\b(?:(?:grooves?|grvs?|recess(?:es)?|undercuts?|nuten)(?!\w)|nut(?=mass|tief|breit|tol|form|detail)"
    r"|nut(?= (?:siehe|s\.|nach|gemass|laut|auf)\b)|einstich\w*|rillen?\w*|freistich\w*|gorges?|rainures?"
    r"|gol[ae]|scanalatur[ae]|ranuras?|gro(?:f|ven)(?!\w)|spar(?:en|et)?\b|row(?:ek|k\w+)|drazk\w+|zapich\w*"
    r"|канав\w+)"
)
"""What names grooves, in a folded line, or their sizes in one word."""
LEVEL = 1e-6
"""Share of it within which two ends are as far from the axis: copies, one on either side."""


def kept_elsewhere(words: str, part: Part, sheet: Sheet) -> str:
    """What a line says that the sheet does not show, "" for nothing."""
    if away := points_away(words):
        return f'what "{away}" says of grooves'
    line = folded(words)
    alike_ends = ALIKE_ENDS.search(line) and not (OF_EDGES.search(line) or OF_A_VIEW.search(line))
    half = HALF_LENGTH.search(line) or (HALF.search(line) and on_both_sides(sheet, part))
    if (alike_ends or half) and not turned_too(part):
        return "the same at both ends"
    return ""


def points_away(words: str) -> str:
    """What a line on grooves calls the paper that it points to, in small letters, "" for none."""
    line = folded(words)
    away = ELSEWHERE.search(STANDARD.sub(" ", line)) if OF_GROOVES.search(line) else None
    return away[0] if away else ""


def turned_too(part: Part) -> bool:
    """True for a part that has the same grooves seen from its other end."""
    turned = [(g, -part.length - g.z_far) for g in part.grooves]
    return all(any(alike(g, other) and same(at, other.z_near) for other in part.grooves) for g, at in turned)


def on_both_sides(sheet: Sheet, part: Part) -> bool:
    """True if a part is drawn on both sides of its axis."""
    if part.frame is None:
        return False
    reach = part.outer_diameter / 2
    ends = (part.frame.on_part((x, y)) for x, y in sheet.segments.ends.reshape(-1, 2).tolist())
    sides = {r > 0 for z, r in ends if abs(abs(r) - reach) <= LEVEL * reach and -part.length <= z <= 0}
    return len(sides) > 1
