"""Tables for an office spreadsheet: text that it opens with every cell as meant.

UTF-8 with a byte order mark, which tells a spreadsheet the encoding; lines as in RFC 4180. Where numbers are
written with a comma, cells are separated by a semicolon, as spreadsheets in such a locale expect (common practice, no
source). A text that a spreadsheet would take for a formula or a date is led by an
apostrophe.
"""

import csv
import io
import re
from collections.abc import Iterable, Sequence
from typing import Literal

Decimal = Literal["point", "comma"]
"""The decimal sign of the spreadsheet's locale."""

FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""First characters by which a spreadsheet takes a text for a formula."""

DATE = re.compile(r"\d+[-/.:]\d")
"""How a text begins that a spreadsheet takes for a date, a time or a number."""

PARTED = {"point": ",", "comma": ";"}


def table_bytes(columns: Sequence[str], rows: Iterable[Sequence[object]], decimal: Decimal = "point") -> bytes:
    r"""The table as it goes into a file: numbers are given as numbers or with `figure`, anything else is text.

    >>> table_bytes(["z", "gauge"], [[figure(-1.5, 3), "=pin"]], "comma").decode("utf-8-sig")
    "z;gauge\r\n-1,500;'=pin\r\n"
    """
    text = io.StringIO()
    writer = csv.writer(text, delimiter=PARTED[decimal], lineterminator="\r\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow([_cell(one, decimal) for one in row])
    return text.getvalue().encode("utf-8-sig", "backslashreplace")


class ShownFigure(str):
    """A number as it is to be shown, with a decimal point."""

    __slots__ = ()


def figure(value: float | None, decimals: int) -> ShownFigure:
    """A number with this many decimals; an empty cell for None."""
    return ShownFigure("" if value is None else f"{value + 0.0:.{decimals}f}")


def _cell(value: object, decimal: Decimal) -> str:
    """One cell: a number with the sign of the locale, a text that stays one."""
    if isinstance(value, ShownFigure | int | float):
        text = str(value)
        return text.replace(".", ",") if decimal == "comma" else text
    text = str(value)
    return f"'{text}" if text.startswith(FORMULA) or DATE.match(text) else text
