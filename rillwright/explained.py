"""An explanation of a program, printed for people and as JSON."""

from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from typing import Any

from extractor.part import Units
from postproc import CutGroove, Explanation, explain
from rillwright.console import UNIT_WORDS, length, print_findings
from rillwright.inserts import recorded_inserts, with_told_inserts
from rillwright.jsonform import as_json
from rillwright.record_part import SCHEMA
from rillwright.recording import number, recorded_cut, recorded_findings
from rillwright.settings import Settings
from rillwright.tables import add_row, print_beside, print_table, say, table

Json = dict[str, Any]

PAGE = 120
"""Columns to which sentences are folded where it isn't a terminal."""
FOLDED = 3
"""Remarks in a row that are told as one line; they stand in the program."""


def explained(text: str, settings: Settings, units: Units | None = None, program: Path | None = None) -> Explanation:
    """Explain a program's text; with a shop file its inserts give the grooves their walls.

    Without one the program's own heading does, or the record beside the file `program`. A control that --dialect or the
    shop file names is the one it is read for; where nobody names one, the program's own words tell.
    """
    usual = settings.shop("mm")
    whole = usual.machine.whole_numbers
    dialect = settings.named(usual)
    first = explain(text, dialect, units, whole_numbers=whole)
    shop = with_told_inserts(settings.shop(first.units), settings.changes)
    if "tools" not in shop.built_in:
        return explain(text, dialect, units, shop.tools, whole_numbers=whole)
    beside = recorded_inserts(program, first.units) if program else ()
    return explain(text, dialect, units, beside=beside, whole_numbers=whole) if beside else first


def explanation_json(made: Explanation, file: str) -> Json:
    """The whole explanation."""
    return {
        "schema": SCHEMA,
        "program": {"file": file, "dialect": made.dialect},
        "units": made.units,
        "blocks": [
            {
                "line": block.line,
                "text": block.text,
                "sentence": block.sentence,
                "words": [{"column": w.column, "word": w.text, "meaning": w.meaning} for w in block.words],
            }
            for block in made.blocks
        ],
        "plunges": [
            {
                "z": number(plunge.z),
                "floor_diameter": number(plunge.floor_diameter),
                "station": plunge.station,
                "lines": list(plunge.lines),
            }
            for plunge in made.plunges
        ],
        "grooves": [as_json(recorded_cut(cut)) for cut in made.grooves],
        "changes": list(made.changes),
        "findings": [as_json(one) for one in recorded_findings(made.findings)],
    }


def print_explanation(made: Explanation) -> None:
    """Block by block, then the grooves, then what to change to have one more."""
    print_beside(_block_rows(made), PAGE, ("line", "block", "in words"))
    say("")
    units = (
        f"lengths in {UNIT_WORDS[made.units]}" if made.units_known else "lengths as written: nothing says mm or inch"
    )
    say(f"read as {made.dialect}, {units}")
    _print_cuts(made)
    for change in made.changes:
        say(change)
    print_findings(recorded_findings(made.findings))


def _block_rows(made: Explanation) -> Iterator[tuple[str, str, str]]:
    """Line, block and sentence; several remarks in a row as one."""
    for remark, run in groupby(made.blocks, key=lambda block: block.text.lstrip().startswith(("(", ";"))):
        blocks = list(run)
        if remark and len(blocks) >= FOLDED:
            words = f"{len(blocks)} remarks up to line {blocks[-1].line}, not run."
            yield f"{blocks[0].line}", f"{blocks[0].text} ...", words
        else:
            yield from ((f"{block.line}", block.text, block.sentence) for block in blocks)


def _print_cuts(made: Explanation) -> None:
    if made.grooves:
        shown = table(">groove", "where", ">Z near", ">Z far", ">width", ">floor", ">line")
        for count, cut in enumerate(made.grooves, 1):
            add_row(shown, count, cut.where, *_sizes(cut), ", ".join(map(str, cut.lines)))
    elif made.plunges:
        shown = table(">plunge", ">Z", ">floor", "tool", ">line")
        for count, plunge in enumerate(made.plunges, 1):
            row = (length(plunge.z), length(plunge.floor_diameter), f"T{plunge.station:02d}")
            add_row(shown, count, *row, ", ".join(map(str, plunge.lines)))
    else:
        return
    print_table(shown)


def _sizes(cut: CutGroove) -> tuple[str, ...]:
    """Both Z, width and floor of a groove; one in the face has its floor at the far Z, between two diameters."""
    z_near, z_far = length(cut.z_near), length(cut.z_far)
    if cut.mouth_diameter is None:
        return z_near, z_far, length(cut.z_near - cut.z_far), length(cut.floor_diameter)
    between = f"X{length(cut.floor_diameter)} to X{length(cut.mouth_diameter)}"
    return z_near, z_far, length((cut.mouth_diameter - cut.floor_diameter) / 2), between
