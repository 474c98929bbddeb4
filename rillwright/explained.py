"""An explanation of a program, printed for people and as JSON."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from extractor.part import Units
from postproc import CutGroove, ExplainedBlock, Explanation, explain
from rillwright.console import UNIT_WORDS, length, print_findings
from rillwright.inserts import recorded_inserts, with_told_inserts
from rillwright.records.jsonform import Json, OneByOne
from rillwright.records.record_part import SCHEMA
from rillwright.records.recording import number, recorded_findings, rounded
from rillwright.settings import Settings
from rillwright.tables import add_row, print_beside, print_table, say, table

PAGE = 120
"""Columns to which sentences are folded where it isn't a terminal."""
REMARKS = ("(", ";")
"""How a line begins that is a remark."""
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
    """The whole explanation, its blocks as a list that makes them as it is gone through."""
    return {
        "schema": SCHEMA,
        "program": {"file": file, "dialect": made.dialect},
        "units": made.units,
        "blocks": OneByOne(map(_block_json, made.blocks)),
        "plunges": [
            {
                "z": number(plunge.z),
                "floor_diameter": number(plunge.floor_diameter),
                "station": plunge.station,
                "lines": list(plunge.lines),
            }
            for plunge in made.plunges
        ],
        "grooves": [rounded(cut) for cut in made.grooves],
        "changes": list(made.changes),
        "findings": recorded_findings(made.findings),
    }


def _block_json(block: ExplainedBlock) -> Json:
    words = [{"column": w.column, "word": w.text, "meaning": w.meaning} for w in block.words]
    return {"line": block.line, "text": block.text, "sentence": block.sentence, "words": words}


def print_explanation(made: Explanation) -> None:
    """Block by block, then the grooves, then what to change to have one more."""
    cells = _rows((line, text, "") for line, text in made.blocks.texts())
    rows = _rows((block.line, block.text, block.sentence) for block in made.blocks)
    print_beside(rows, PAGE, ("line", "block", "in words"), cells)
    say("")
    units = (
        f"lengths in {UNIT_WORDS[made.units]}" if made.units_known else "lengths as written: nothing says mm or inch"
    )
    say(f"read as {made.dialect}, {units}")
    _print_cuts(made)
    for change in made.changes:
        say(change)
    print_findings(recorded_findings(made.findings))


def _rows(blocks: Iterable[tuple[int, str, str]]) -> Iterator[tuple[str, str, str]]:
    """Line, block and sentence; several remarks in a row as one."""
    remarks: list[tuple[str, str, str]] = []
    count, last = 0, 0
    for line, text, sentence in blocks:
        if text[:1] in REMARKS:
            count, last = count + 1, line
            remarks += [(f"{line}", text, sentence)] if count <= FOLDED else []
            continue
        if remarks:
            yield from _folded(remarks, count, last)
            remarks, count = [], 0
        yield f"{line}", text, sentence
    yield from _folded(remarks, count, last)


def _folded(remarks: list[tuple[str, str, str]], count: int, last: int) -> Iterator[tuple[str, str, str]]:
    """Rows for remarks that stand together, the first of which are given; one row where they are some."""
    if count < FOLDED:
        yield from remarks
    else:
        line, text, _ = remarks[0]
        yield line, f"{text} ...", f"{count} remarks up to line {last}, not run."


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
