"""The ledger of a watched folder for the eye."""

from collections.abc import Sequence
from pathlib import Path

from extractor.errors import SettingsError
from rillwright.folder.ledger import Ledger, Result
from rillwright.outputs import show
from rillwright.records.jsonform import Json
from rillwright.tables import add_row, print_table, say, table


def entries(ledger: Ledger, name: str | None = None) -> list[Json]:
    """Every result, or those of the drawings of one name: its path, its file name, or that without the ending."""
    rows = [_entry(one) for one in ledger.history() if name is None or _is(one, name)]
    if name is not None and not rows:
        message = f"The ledger knows no drawing {show(Path(name))}: run history without a name to see those it knows."
        raise SettingsError(message)
    return rows


def _is(result: Result, name: str) -> bool:
    path = Path(result.name)
    return name in (result.name, path.name, path.stem)


def _entry(one: Result) -> Json:
    return {
        "drawing": one.name,
        "state": one.state,
        "revision": one.revision,
        "program": one.program_file,
        "drawing_sha256": one.cause.drawing_sha256,
        "settings_sha256": one.cause.settings_sha256,
        "program_sha256": one.program_sha256,
        "tool_version": one.cause.tool_version,
        "attempts": one.attempts,
        "started": one.started,
        "finished": one.finished,
        "reason": one.reason,
        "changes": list(one.changes),
    }


def print_history(rows: Sequence[Json]) -> None:
    """A line a result, and under it why there is no program and what changed."""
    shown = table("finished (UTC)", "drawing", "state", ">revision", "program", "drawing hash")
    for row in rows:
        hashed = row["drawing_sha256"][:8]
        add_row(
            shown, _time(row["finished"]), row["drawing"], row["state"], row["revision"], row["program"] or "-", hashed
        )
    print_table(shown)
    for row in rows:
        for sentence in [row["reason"], *row["changes"]]:
            if sentence:
                say(f"{row['drawing']} ({_time(row['finished'])}): {sentence}", indent=2)


def _time(iso: str) -> str:
    """A time of the ledger as people read it; it is UTC already.

    >>> _time("2031-05-06T07:08:09+00:00")
    '2031-05-06 07:08:09'
    """
    return iso.replace("T", " ").removesuffix("+00:00")
