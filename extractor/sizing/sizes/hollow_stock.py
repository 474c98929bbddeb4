"""Stock that is hollow, held against the part: out of a tube no solid one is turned, nor a bore smaller than its own.

Rules: words for a tube or a hollow bar with its diameter and, by `x`, its wall, or by `/` what is inside. What it only
fits, or is cut for, says nothing; nor does a tube smaller than the part, or far larger, which is another's.

Source of the words: common practice, no source.
"""

from collections.abc import Iterator

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import BY, NUMBER, normalised
from extractor.late import late
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import phrases
from extractor.sizing.measured.features import Features

HOLLOW = late(
    rf"\b(?:{phrases('hollow_stock')})\b[^Ø\d]*Ø?\s*(?P<across>{NUMBER})(?:\s*MM)?\s*"
    rf"(?:{BY}\s*(?P<wall>{NUMBER})|/\s*Ø?\s*(?P<inside>{NUMBER}))"
)
"""A tube with its two sizes."""
FITS_IT = late(rf"\b(?:{phrases('fits_another')})\b")
"""What says that it is another thing, which the part fits."""
MOST = 1.5
"""A tube at most so many times as large across as the part is its stock: more would be turned away than is left."""


def hollow_stock(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each line that names hollow stock for a part that is solid there."""
    part = features.part
    bores = [2 * r for _, r in part.bore or () if r > 0]
    for text in sheet.everywhere:
        for line in text.text.split("\n"):
            found = HOLLOW.search(capitals(line))
            if found is None or FITS_IT.search(capitals(line)):
                continue
            across = Printed.of(found["across"])
            inside = float(found["inside"] or across.value - 2 * float(found["wall"] or 0))
            stock = part.outer_diameter <= across.value <= MOST * part.outer_diameter
            if not stock and not features.fits(across, part.outer_diameter):
                continue
            if inside > 0 and not (bores and inside <= min(bores)):
                drawn = f"with a bore of {min(bores):.6g}" if bores else "solid"
                told = (
                    f'"{normalised(line)}" is hollow stock, {inside:g} inside, for a part that was read {drawn}: see '
                    "which of them is wrong."
                )
                yield Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, told, text.at)
