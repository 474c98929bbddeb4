"""The questions of a refused drawing on its sheet: each choice is a file to be saved beside the drawing.

No server is needed: the link holds the whole answers file, which the browser saves under the name that it must have.
"""

import base64
from collections.abc import Iterable, Mapping
from pathlib import PurePath
from string import ascii_uppercase
from typing import Any

from rillwright.answers import FOLDER_FILE, written

Json = dict[str, Any]


def with_choices(record: Mapping[str, Any], rows: Iterable[Json]) -> None:
    """Give each row of a finding its `choices`: what each is called and reads, its letter on the picture, its file."""
    drawing = (record.get("part") or {}).get("drawing") or {}
    letters = iter(ascii_uppercase)
    for row in rows:
        row["choices"] = [
            {
                "label": choice["label"],
                "reads": choice["reads"],
                "at": choice["value"] if choice["option"] == "at" else None,
                "spot": next(letters, "") if choice["option"] == "at" else "",
                "text": (text := _file(record, choice, str(drawing.get("sha256", "")))),
                "name": f"{PurePath(str(drawing.get('file', ''))).stem}.answers.toml",
                "href": f"data:application/toml;base64,{base64.b64encode(text.encode()).decode()}",
            }
            for choice in row["choices"]
        ]


def _file(record: Mapping[str, Any], choice: Json, sha256: str) -> str:
    """The answers file that a choice makes, with what was answered before for this drawing."""
    before = record.get("answers") or {}
    said = {name: one["value"] for name, one in before.items() if one["file"].lower() != FOLDER_FILE}
    if choice["option"] == "accept":
        said["accept"] = [*said.get("accept", []), choice["value"]]
    else:
        said[choice["option"]] = choice["value"]
    return written(said, sha256)


def spots_of(rows: Iterable[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """The choices that lie on the sheet, as spots of its picture."""
    return [
        {"at": one["at"], "spot": one["spot"], "message": f"{one['label']}: {one['reads']}", "level": "choice"}
        for row in rows
        for one in row["choices"]
        if one["at"]
    ]
