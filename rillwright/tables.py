"""Tables on a terminal: as columns where every cell fits, else row by row with the names of the columns.

No cell is cut and no word is torn: on a terminal too narrow for the columns each row becomes a few lines of its own.
Where it isn't read on a terminal, a table is as wide as it needs to be.
"""

import sys
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field
from functools import lru_cache
from itertools import chain, islice, zip_longest

import click
from rich.cells import cell_len
from rich.console import Console
from rich.text import Text

from extractor.printable import printable
from extractor.values import dataclass

WIDEST = 1000


def console(widest: int = WIDEST) -> Console:
    """Standard output; where it isn't a terminal, as wide as its longest line up to `widest`."""
    plain = not sys.stdout.isatty()
    return Console(width=widest if plain else None, markup=False, highlight=False, emoji=False)


def say(sentence: str | Text, style: str = "", indent: int = 0) -> None:
    """Print one sentence: on a terminal wrapped between words, further lines indented; on one line anywhere else."""
    text = sentence if isinstance(sentence, Text) else Text(printable(sentence), style=style)
    out = console()
    if not out.is_terminal:
        out.print(text, soft_wrap=True)
        return
    lines = list(text.wrap(out, max(out.width - indent, MIN_FOLD)))
    for number, line in enumerate(lines):
        out.print(Text(" " * (indent if number else 0)).append_text(line), soft_wrap=True)


MIN_FOLD = 20
"""Columns to which a sentence is folded at the narrowest."""


@dataclass(frozen=True)
class TextTable:
    """A plain table: the names of its columns, which of them stand flush right, and its rows of cells."""

    names: tuple[str, ...]
    right: tuple[bool, ...]
    rows: list[tuple[Text, ...]] = field(default_factory=list)

    @property
    def width(self) -> int:
        """How many columns of a terminal it takes."""
        return sum(self._widths()) + len(GAP) * (len(self.names) - 1)

    def lines(self) -> Iterator[Text]:
        """Its lines, the column names first."""
        widths = self._widths()
        for row in (tuple(Text(name, style="bold") for name in self.names), *self.rows):
            line = Text()
            for place, (cell, width, right) in enumerate(zip(row, widths, self.right, strict=True)):
                room = " " * (width - cell.cell_len)
                line.append(GAP if place else "").append(room if right else "")
                line.append_text(cell).append("" if right else room)
            line.rstrip()
            yield line

    def _widths(self) -> list[int]:
        """The width of each column."""
        named = (cell_len(name) for name in self.names)
        return [max((own, *(row[place].cell_len for row in self.rows))) for place, own in enumerate(named)]


GAP = "  "
"""What stands between two columns."""


@dataclass(frozen=True)
class Sentence:
    """One sentence, and how many blanks indent its further lines where a terminal wraps it."""

    text: Text
    indent: int = 0


Said = Sentence | TextTable
"""What is told a person."""


def table(*columns: str) -> TextTable:
    """A plain table; > before a column's name: flush right, as numbers are."""
    return TextTable(tuple(name.lstrip(">") for name in columns), tuple(name.startswith(">") for name in columns))


def add_row(to: TextTable, *cells: object) -> None:
    """Add a row; each cell is what its value prints as."""
    to.rows.append(tuple(cell if isinstance(cell, Text) else Text(printable(str(cell))) for cell in cells))


def print_table(shown: TextTable) -> None:
    """A table with every cell whole."""
    out = console()
    if not out.is_terminal or shown.width <= out.width:
        for line in shown.lines():
            out.print(line, soft_wrap=True)
        return
    for row in shown.rows:
        told = _row(shown.names, row)
        for text in textwrap.wrap(told, max(out.width, MIN_FOLD), subsequent_indent="  ", break_on_hyphens=False):
            click.echo(text.replace(KEPT_TOGETHER, " "))


def print_said(said: Iterable[Said]) -> None:
    """Print sentences and tables in their order."""
    for one in said:
        if isinstance(one, TextTable):
            print_table(one)
        else:
            say(one.text, indent=one.indent)


def plain_text(said: Iterable[Said]) -> str:
    """The same as text for a file, each sentence and each row on a line of its own."""
    lines = (line for one in said for line in (one.lines() if isinstance(one, TextTable) else [one.text]))
    return "".join(f"{line.plain}\n" for line in lines)


KEPT_TOGETHER = "\N{NO-BREAK SPACE}"
"""Stands for a blank at which no line ends."""

KEPT = 24
"""Characters of a cell up to which it is kept on one line."""


def _row(names: Sequence[str], row: Sequence[Text]) -> str:
    """One row as a line: the first cell with its name, then the others, each kept together where it can be."""
    said = ""
    for place, (name, cell) in enumerate(zip(names, row, strict=True)):
        text = cell.plain
        if not text:
            continue
        joint = "" if not place else ": " if place == 1 else ", "
        whole = text.replace(" ", KEPT_TOGETHER) if len(text) <= KEPT else text
        said += f"{joint}{name.replace(' ', KEPT_TOGETHER)}{KEPT_TOGETHER}{whole}"
    return said


Row = tuple[str, str, str]
"""A number, a text and a sentence."""


def print_beside(rows: Iterable[Row], widest: int, names: Row, cells: Iterable[Row] | None = None) -> None:
    """Rows of a number, a text and a sentence: side by side where that leaves the sentence room, else under it.

    `cells`: the rows as far as their number and text, where the rows can be gone through only once.
    """
    out = console()
    width = out.width if out.is_terminal else widest
    first, second = len(names[0]), len(names[1])
    for number, text, _ in rows if cells is None else cells:
        first, second = max(first, len(number)), max(second, len(text))
    second = min(second, MOST_BESIDE)
    beside = width - first - second - 4
    told = ((row[0], printable(row[1]), printable(row[2])) for row in rows)
    if beside >= LEAST_BESIDE:
        lines = (line for row in chain([names], told) for line in _beside(row, first, second, beside))
    else:
        lines = (line for row in told for line in _under(row, first, width))
    while some := [line.rstrip() for line in islice(lines, AT_ONCE)]:
        click.echo("\n".join(some))


AT_ONCE = 100
"""Lines that are written together."""
MOST_BESIDE, LEAST_BESIDE = 60, 40
"""Columns that a text takes at most beside its sentence, and those that the sentence needs at least."""


def _beside(row: tuple[str, ...], first: int, second: int, third: int) -> Iterable[str]:
    """The lines of one row side by side."""
    columns = (row[0],), _folded(row[1], second), _folded(row[2], third)
    for number, text, sentence in zip_longest(*columns, fillvalue=""):
        yield f"{number.rjust(first)}  {text.ljust(second)}  {sentence}"


def _under(row: tuple[str, ...], first: int, width: int) -> Iterable[str]:
    """The lines of one row with the sentence under the text."""
    room = max(width - first - 2, MIN_FOLD)
    for at, line in enumerate(_folded(row[1], room)):
        yield f"{row[0] if not at else '':>{first}}  {line}"
    for line in _folded(row[2], max(room - 2, MIN_FOLD)):
        yield f"{'':>{first}}    {line}"


@lru_cache(maxsize=1024)  # programs say the same again and again
def _folded(text: str, width: int) -> tuple[str, ...]:
    """A text in lines of at most this width, parted between words; a longer word is parted."""
    return (text,) if len(text) <= width else tuple(textwrap.wrap(text, width, break_on_hyphens=False)) or ("",)
