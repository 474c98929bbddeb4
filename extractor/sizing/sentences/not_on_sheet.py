"""Words by which a sheet does not show all of a part: only half of its length, one end for both, or grooves elsewhere.

Another sheet or paper that is named beside grooves has something to say of them; national and international standards
are read where they matter, and are no such paper. Half of a part drawn on one side of its axis is the usual way.

Source of the words: common practice, no source.
"""

from extractor.late import late
from extractor.part import Part
from extractor.sheet import Sheet
from extractor.sizing.lettering.sheet_words import about, folded, meant, phrases
from extractor.sizing.measured.like import alike, same

OF_EDGES = "size_of_edges", "burrs", "deburred", "edges", "walls", "chamfers"
"""What is said of the two sides of one groove, or of one edge."""
OF_GROOVES = late(rf"\b(?:{phrases('groove_in_line')})")
"""What names grooves, in a folded line, or their sizes in one word."""
LEVEL = 1e-6
"""Share of it within which two ends are as far from the axis: copies, one on either side."""


def kept_elsewhere(words: str, part: Part, sheet: Sheet) -> str:
    """What a line says that the sheet does not show, "" for nothing."""
    if away := points_away(words):
        return f'what "{away}" says of grooves'
    line = folded(words)
    alike_ends = about(line, "alike_ends") and not about(line, "view", *OF_EDGES)
    half = about(line, "half_length") or (about(line, "half") and on_both_sides(sheet, part))
    if (alike_ends or half) and not turned_too(part):
        return "the same at both ends"
    return ""


def points_away(words: str) -> str:
    """What a line on grooves calls the paper that it points to, in small letters, "" for none."""
    line = folded(words)
    away = meant("elsewhere").search(meant("standard").sub(" ", line)) if OF_GROOVES.search(line) else None
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
