"""On which line of a TOML text a key stands; the parser of the standard library doesn't say."""

import re
from collections.abc import Mapping

_TABLE = re.compile(r"\s*\[\[?\s*([^\]]+?)\s*\]")
_KEY = re.compile(r"""\s*((?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*')(?:\s*\.\s*(?:[A-Za-z0-9_-]+|"[^"]*"))*)\s*=(?!=)""")


def key_lines(text: str) -> Mapping[str, int]:
    r"""Lines by dotted key, tables too, counted from 1; the first line of a key that stands twice.

    >>> dict(key_lines('title = "x"\n[numbers.F]\ndecimals = 3'))
    {'title': 1, 'numbers.F': 2, 'numbers.F.decimals': 3}
    """
    found: dict[str, int] = {}
    table = ""
    for number, line in enumerate(text.splitlines(), 1):
        if head := _TABLE.match(line):
            table = _bare(head[1])
            found.setdefault(table, number)
        elif key := _KEY.match(line):
            found.setdefault(f"{table}.{_bare(key[1])}" if table else _bare(key[1]), number)
    return found


def _bare(key: str) -> str:
    """A dotted key without blanks and quotes."""
    return ".".join(part.strip().strip("\"'") for part in key.split("."))
