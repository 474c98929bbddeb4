"""The questions of a refused drawing on its sheet: each choice is a file to be saved beside the drawing.

No server is needed: the link holds the whole answers file, and the browser saves it under the right name.
"""

import base64
from collections.abc import Iterator
from dataclasses import replace
from pathlib import PurePath
from string import ascii_uppercase
from typing import Any

from rillwright.answers import FOLDER_FILE, written
from rillwright.jobsheet.view import ChoiceRow, FindingRow, finding_rows, ranked
from rillwright.records.record import Record
from rillwright.records.record_part import RecordedChoice


def rows_with_choices(record: Record) -> list[FindingRow]:
    """The findings of a record; each choice has a letter on the picture where it lies on the sheet, and its file."""
    letters = iter(ascii_uppercase)
    return [
        replace(row, choices=tuple(_row(record, choice, letters) for choice in one.choices))
        for row, one in zip(finding_rows(record.findings), ranked(record.findings), strict=True)
    ]


def _row(record: Record, choice: RecordedChoice, letters: Iterator[str]) -> ChoiceRow:
    """One choice with the answers file that it makes."""
    text = _file(record, choice)
    return ChoiceRow(
        label=choice.label,
        reads=choice.reads,
        at=choice.at,
        spot=next(letters, "") if choice.at else "",
        text=text,
        name=f"{PurePath(record.part.drawing.file).stem}.answers.toml",
        href=f"data:application/toml;base64,{base64.b64encode(text.encode()).decode()}",
    )


def _file(record: Record, choice: RecordedChoice) -> str:
    """The answers file that a choice makes, with what was answered before for this drawing."""
    said: dict[str, Any] = {name: one.value for name, one in record.answers.items() if one.file.lower() != FOLDER_FILE}
    if choice.option == "accept":
        said["accept"] = [*said.get("accept", []), choice.value]
    else:
        said[choice.option] = choice.value
    return written(said, record.part.drawing.sha256)
