"""What the part is to be made of, held against it: out of a bar or a blank that is smaller no such part is turned.

Rules: words that name the piece before it is turned, with its diameter and its length; with strong words, or where
nothing else is said, its diameter alone. A tube has a wall, and no length there. A larger piece says nothing, nor does
one as large.

Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import BY, NUMBER, normalised
from extractor.late import late
from extractor.part import INCH
from extractor.sheet import Sheet
from extractor.sizing.lettering.groove_notes import without_item
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import phrases, plain
from extractor.sizing.measured.features import Features

TUBE = late(
    r"\b(?:TUB[EO]S?|TUBING|PIPES?|ROHRE?|\w*ROHR|HULSE|BUIS|RURA|TRUBKA|ROR|BORE|BOHRUNG|ALESAGE|THREAD|GEWINDE)\b"
)
"""What has a wall, or an opening, and of which the second figure is that."""
OF_STOCK = late(
    rf"\b(?:(?P<raw>{phrases('raw')})|{phrases('bar', 'round', 'material')})\b"
    rf"[^Ø]*?(?:Ø|\b(?:DIA(?:METER)?|ROUND|RD|RUND)\b\.?)"
    rf"\s*(?P<across>{NUMBER})(?:\s*MM)?"
    rf"(?:\s*(?:{BY}|-)\s*(?P<long>{NUMBER})(?!\s*(?:{BY}|°))|(?!\s*(?:{BY}|[\d.])))",
    re.I,
)
"""A piece with its diameter, and its length."""

LEAST = 0.5
"""Share of a part's size that its stock has at least: what is smaller is a pin's or a wire's, or in the other unit."""


def stock_findings(sheet: Sheet, features: Features) -> Iterator[Finding]:
    """A caution for each line that names stock too small for the part."""
    part = features.part
    for text in sheet.everywhere:
        for line in text.text.split("\n"):
            words = without_item(plain(normalised(line)).upper())
            found = OF_STOCK.search(words)
            # A bar by its diameter alone may be another's where more is said of it.
            whole = found is not None and found[0] == words.strip()
            if found is None or TUBE.search(words) or not (found["raw"] or found["long"] or whole):
                continue
            sizes = [(Printed.of(found["across"]), part.outer_diameter, "across")]
            sizes += [(Printed.of(found["long"]), part.length, "long")] if found["long"] else []
            for printed, size, what in sizes:
                in_inches = size <= INCH * printed.value <= size / LEAST
                if LEAST * size <= printed.value < size and not in_inches and not features.fits(printed, size):
                    told = (
                        f'"{normalised(line)}" is stock of {printed.value:g} for a part that was read {size:.6g} '
                        f"{what}: see which of them is wrong."
                    )
                    yield Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, told, text.at)
                    break
