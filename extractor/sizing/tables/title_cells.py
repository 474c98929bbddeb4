"""Cells of a title block that say of the part what a note would: a label and its value, read as that note.

Rules: the value stands in the next cell of the label's row, or under the label in larger letters; what the value is
must suit the label. A row of several figures, or one with a number, is that of a list. A value that a block asks for by
name (the tag of an attribute) is labelled by that name where nothing printed labels it. A piece of which a heading over
it says that it is the stock is no part. Source of the words: common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from extractor.grammar import BY, NUMBER, normalised
from extractor.late import late
from extractor.sheet import Sheet, Text
from extractor.sizing.lettering.groove_notes import capitals
from extractor.sizing.lettering.note_words import GROOVE
from extractor.sizing.lettering.sheet_words import RATIO, phrases, plain
from extractor.sizing.tables.table_lines import lines_of

ONE_SIZE = rf"\W*Ø?\s*{NUMBER}(?:\s*(?:MM|IN\.?|\"))?\W*"
FORMS = {
    "size": (
        rf"{phrases('overall_length', 'some_length', 'outside_diameter', 'some_diameter')}",
        ONE_SIZE,
    ),
    "stock": (phrases("raw"), rf"(?=.*(?:Ø|{BY}|\bDIA|\bRD\b|\bROUND))\D{{0,20}}{NUMBER}.{{0,24}}"),
    "both": (phrases("part_size"), rf"\W*Ø?\s*{NUMBER}\s*{BY}\s*Ø?\s*{NUMBER}(?:\s*MM)?\W*"),
    "state": (phrases("state_of_part"), r"[^\d:]{3,30}"),
}
LABELS = {name: (late(label, re.I), late(value, re.I)) for name, (label, value) in FORMS.items()}
"""A label in plain text, and what its value is."""
ANY_LABEL = late("|".join(label for label, _ in FORMS.values()), re.I)
A_DIGIT = late(r"\d")
HOW_MANY = rf"(?:{phrases('count_column')}|NO|NR|N|NUMERO)\W*(?:(?:OF|OFF|DE|DI|D|DER|VON)\W+)?"
COUNT = late(
    rf"{HOW_MANY}(?P<groove>{GROOVE})|(?P<behind>{GROOVE})\W+(?:{phrases('count_column')})"
    rf"|(?P<several>{phrases('grooves_name')})"
)
"""A label that counts the grooves, in capitals."""
A_FIGURE = late(r"[\WØ]*\d")
ONE_COUNT = late(r"\d{1,3}")
TAG_SCALE = late(rf"(?:{phrases('scale')})", re.I), late(RATIO)
LONGEST = 40
"""Letters of a label at most."""
BESIDE = 24.0
"""Letter heights from the end of a label to its value in the same row, at most: the first cell is as wide as its
longest label."""
UNDER = 4.5
"""Letter heights of the value from a label to a value under it, at most (ISO 7200 has the label small, from memory)."""
LARGER = 1.15
"""A value under its label is so much larger at least; else it is the next label, or a column of a list."""
ROWS_OVER = 12.0
"""Letter heights over a label within which a heading says that it is about the stock."""


def with_title_cells(sheet: Sheet) -> Sheet:
    """The sheet with each such label as the note that it and its value are."""
    texts, around = _joined(sheet, sheet.texts), _joined(replace(sheet, texts=sheet.around), sheet.around)
    if texts == sheet.texts and around == sheet.around:
        return sheet
    return replace(sheet, texts=texts, around=around)


def _joined(sheet: Sheet, texts: Sequence[Text]) -> tuple[Text, ...]:
    """The texts of one paper with their labels joined to their values."""
    labels = {text for text in texts if len(text.text) <= LONGEST and _is_label(text.text)}
    notes = dict(_pairs(sheet, labels)) if labels else {}
    taken = {words.partition("\n")[2] for words in notes.values()}
    tagged = ((text, text.tag.replace("_", " ")) for text in texts if text.tag and text.text not in taken)
    notes |= {text: note for text, tag in tagged if (note := _note(tag, text.text) or _of_scale(tag, text.text))}
    return tuple(replace(text, text=" ".join(notes[text].split())) if text in notes else text for text in texts)


def _bare(words: str) -> str:
    """A label without its colon, in plain text."""
    return plain(normalised(words)).strip(" :=.")


def _is_label(words: str) -> bool:
    """True for words that may head such a cell."""
    if A_DIGIT.search(words):
        return False
    bare = _bare(words)
    return ANY_LABEL.fullmatch(bare) is not None or COUNT.fullmatch(capitals(bare)) is not None


def _note(label: str, value: str) -> str:
    """The note that a label and its value are, on two lines; "" for none."""
    bare, worth = _bare(label), plain(normalised(value)).strip()
    if any(form.fullmatch(bare) and of.fullmatch(worth) for form, of in LABELS.values()):
        return f"{label.strip(' :=')}\n{value.strip()}"
    found = COUNT.fullmatch(capitals(bare))
    return f"{worth}\n{next(filter(None, found.groups()))}" if found and ONE_COUNT.fullmatch(worth) else ""


def _of_scale(tag: str, value: str) -> str:
    """The note that a scale is by its tag; a printed label of it is known for one."""
    label, ratio = TAG_SCALE
    return f"{tag}\n{value}" if label.fullmatch(_bare(tag)) and ratio.fullmatch(value.strip()) else ""


def _pairs(sheet: Sheet, labels: set[Text]) -> Iterator[tuple[Text, str]]:
    """The labels that have a value, each with the note that both are."""
    for lines, stood in lines_of(sheet):
        rows = [sorted(line, key=lambda text: text.at[0]) for line in lines]
        for k, row in enumerate(rows):
            for n, text in enumerate(row):
                own = stood.get(text, text)
                if (
                    own not in labels
                    or _of_stock(text, rows[:k])
                    or (n and ONE_COUNT.fullmatch(row[n - 1].text.strip()))
                ):
                    continue
                value = _beside(text, row[n + 1 :]) or _under(text, rows[k + 1 :])
                if value is not None and (note := _note(own.text, value.text)):
                    yield own, note


def _beside(label: Text, row: Sequence[Text]) -> Text | None:
    """The text in the next cell of a label's row, if it is not the first of several figures."""
    if not row or row[0].at[0] - label.end[0] > BESIDE * max(label.height, row[0].height):
        return None
    several = len(row) > 1 and all(A_FIGURE.match(normalised(text.text)) for text in row[:2])
    return None if several else row[0]


def _under(label: Text, lines: Sequence[Sequence[Text]]) -> Text | None:
    """The text right under a label in larger letters."""
    for line in lines[:2]:
        for text in line:
            down, aside = label.at[1] - text.at[1], abs(text.at[0] - label.at[0])
            if text.height >= LARGER * label.height and down <= UNDER * text.height >= aside:
                return text
    return None


def _of_stock(label: Text, lines: Sequence[Sequence[Text]]) -> bool:
    """True for one under a heading, at its own margin, that names the piece before it is turned."""
    if LABELS["size"][0].fullmatch(_bare(label.text)) is None:
        return False
    near = (text for line in lines for text in line if text.at[1] - label.at[1] <= ROWS_OVER * label.height)
    return any(
        LABELS["stock"][0].fullmatch(_bare(text.text)) for text in near if abs(text.at[0] - label.at[0]) <= label.height
    )
