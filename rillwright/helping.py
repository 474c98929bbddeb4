"""Pages that ship with the tool, and the tables in them that are made from the code's own.

A page holds such a table between two marks, `<!-- NAME -->` and `<!-- end -->`. The tests hold the text there to what
`tables` makes, so that a page never names a key or a finding that does not exist, nor leaves one out.
"""

import re
from collections.abc import Iterable, Mapping
from pathlib import Path

from extractor.codes import DrawingCode
from extractor.finding import OPTIONS, Code
from planner.codes import PlanCode
from planner.settings.shopkeys import TABLES, ShopKey
from postproc.codes import ProgramCode
from postproc.dialects import BUILT_IN
from rillwright.codes import JobCode

PAGES = Path(__file__).parent / "help"

TOPICS: Mapping[str, str] = {
    "shop": "the shop file: machine, material and tools, every key",
    "folder": "the watched folder: what is taken, what is kept, running it unattended",
    "dialects": "the control dialects, and how to add one",
    "findings": "every finding, what to do about it, and how to answer for it",
    "decides": "how it decides: units, the front face, rows, inserts, order, verification",
}
"""The pages by name, and what each is about."""

MADE = re.compile(r"(<!-- ([\w-]+) -->\n).*?(<!-- end -->\n)", re.DOTALL)
MARK = re.compile(r"^<!-- .* -->\n", re.MULTILINE)


def page(topic: str) -> str:
    """The text of a page as it is read, without the marks; KeyError for a topic that is not there."""
    if topic not in TOPICS:
        raise KeyError(topic)
    return MARK.sub("", (PAGES / f"{topic}.md").read_text("utf-8"))


def renewed(text: str) -> str:
    """A page with its tables made afresh."""
    made = tables()
    return MADE.sub(lambda found: found.group(1) + made[found.group(2)] + found.group(3), text)


def tables() -> dict[str, str]:
    """Every table by its name."""
    found = {f"shop-{table}": _keys(table) for table in ("machine", "material", "tools")}
    rooms: dict[str, type[Code]] = {
        "drawing": DrawingCode,
        "plan": PlanCode,
        "program": ProgramCode,
        "job": JobCode,
    }
    found |= {f"findings-{name}": _codes(codes) for name, codes in rooms.items()}
    return found | {"dialects": _dialects()}


def _table(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A table in Markdown."""
    names = list(heads)
    lines = [names, ["---"] * len(names), *rows]
    return "".join(f"| {' | '.join(row)} |\n" for row in lines)


def _keys(table: str) -> str:
    """The keys of one table of the shop file."""
    rows = [(f"`{key.name}`", _default(key), key.means) for key in TABLES[table]]
    return _table(("key", "default", "means"), rows)


def _default(key: ShopKey) -> str:
    """What stands in for a key, in mm and inch where they differ."""
    if key.needed:
        return "none: must be given"
    both = [_value(key.default("mm")), _value(key.default("in"))]
    return " (mm), ".join(both) + " (in)" if both[0] != both[1] else both[0]


def _value(value: object) -> str:
    """A default as the file would have it."""
    if value is None:
        return "–"
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:g}" if isinstance(value, float) else f'"{value}"' if isinstance(value, str) else str(value)


def _codes(codes: type[Code]) -> str:
    """The findings of one room."""
    rows = []
    for code in codes:
        levels = ", ".join(sorted((str(level) for level in code.made), key=["stop", "caution", "note"].index))
        answers = ", ".join(f"`{OPTIONS.get(answer, '--accept').split()[0]}`" for answer in code.answers)
        rows.append((f"`{code}`", levels, code.remedy, answers or "–"))
    return _table(("code", "level", "what to do", "answered by"), rows)


def _dialects() -> str:
    """The dialects that ship with the tool."""
    rows = [(f"`{name}`", one.title, one.summary) for name, one in BUILT_IN.items()]
    return _table(("dialect", "control", "supports"), rows)
