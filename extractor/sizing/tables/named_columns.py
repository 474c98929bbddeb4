"""Cells of two sizes in a column that the name of a groove heads, each as the note that it is: `GROOVE 4 x 3`.

How such tables are headed: common practice, no source.
"""

from collections.abc import Iterator, Set
from dataclasses import replace

from extractor.grammar import BY, NUMBER
from extractor.late import late
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.tables.named_rows import OF_A_GROOVE
from extractor.sizing.tables.table_lines import APART, in_columns, lines_of

HEAD = late(rf"\W*(?:{OF_A_GROOVE})\W*(?:(?:SIZES?|MASSE?)\W*)?")
"""What heads a column of grooves, in plain capitals."""
TWO_SIZES = late(rf"\W*Ø?\s*{NUMBER}[^A-Z]*?{BY}\s*Ø?\s*{NUMBER}[^A-Z]*")


def with_named_columns(sheet: Sheet, cells: Set[Text]) -> Sheet:
    """The sheet with such cells as those notes; `cells` belong to other tables."""
    sized = {t for t in sheet.texts if t not in cells and TWO_SIZES.fullmatch(t.text)}
    heads = {t for t in sheet.texts if HEAD.fullmatch(capitals(t.text))} if sized else set[Text]()
    whole = dict(_columns(sheet, heads, sized)) if heads else {}
    return replace(sheet, texts=tuple(whole.get(text, text) for text in sheet.texts)) if whole else sheet


def _columns(sheet: Sheet, heads: Set[Text], sized: Set[Text]) -> Iterator[tuple[Text, Text]]:
    """The sized cells under the name of a groove, each with the note that it is."""
    for lines, stood in lines_of(sheet):
        for k, line in enumerate(lines):
            for head in (text for text in line if len(line) > 1 and stood.get(text, text) in heads):
                last = head
                for row in lines[k + 1 :]:
                    found = [text for text, n, fit in in_columns(row, line) if fit and line[n] is head]
                    if not found or last.at[1] - found[0].at[1] > APART * last.height:
                        break
                    last, own = found[0], stood.get(found[0], found[0])
                    if own in sized:
                        yield own, replace(own, text=f"{stood.get(head, head).text.strip(' :')} {own.text}")
