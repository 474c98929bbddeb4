"""Every command as it is typed: its arguments and options, and what its help page says.

Of a command `name` the function `run` in `commands/name_command.py` does the work; it is loaded when it is called, so
that `--help` answers at once.
"""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import click

from rillwright.loaded import loaded
from rillwright.options import (
    ALLOWANCE,
    AS_JSON,
    DECIMAL,
    DRAWING,
    JOBS,
    OUT_ANY,
    PIECES,
    PREFER,
    READING,
    SCHEDULER,
    SHOP,
    SHOP_FILE,
    flag,
    in_file,
    limit,
    options,
    out_file,
    out_folder,
    units_option,
)
from rillwright.signals import when_ending

INBOX = click.Path(exists=True, file_okay=False, path_type=Path)

LEAST_POLL, POLL = 0.1, 5.0
"""Seconds between looks, at least and where nothing else is asked for: to list a share of many drawings takes one."""


class Typed(NamedTuple):
    """A command: its line in the list of all, its page, and its arguments and options in the order of the page.

    `first` is done before what it needs is loaded.
    """

    summary: str
    page: str
    words: tuple[Any, ...]
    first: Callable[[], object] = tuple


COMMANDS = {
    "make": Typed(
        "Drawing -> program, job sheet and record.",
        """Make a program, a job sheet and a record of each drawing.

        Ends with 0 if every drawing was made, 1 if one or more were refused (the rest are made), or if a program that
        was edited since no longer makes its drawing.
        Prove out every program as the machine's manual, local rules and a qualified setter require.
        """,
        (
            click.argument("drawings", type=DRAWING, nargs=-1, required=True, metavar="DRAWING..."),
            out_folder("Where the results go; beside each drawing if not given."),
            click.option("--number", type=click.IntRange(1, 9999), help="Program number of the first, counted on."),
            flag("--explain", "Give the reasons for each operation."),
            *(JOBS, SCHEDULER, PIECES, PREFER, SHOP, READING, ALLOWANCE, AS_JSON),
        ),
    ),
    "read": Typed(
        "What is recognised in a drawing.",
        """Print the part, its grooves, the evenly pitched sets and every finding.

        Ends with 0 if it was read, 1 if a stop was found, 2 if the file can't be read.
        """,
        (
            click.argument("drawing", type=DRAWING),
            out_file("--overlay", "OUT.dxf", "Copy of the drawing with what was recognised on it."),
            *(READING, ALLOWANCE, AS_JSON),
        ),
    ),
    "ask": Typed(
        "What a drawing leaves open, asked and answered.",
        """Ask what DRAWING leaves open, and write the answers beside it for make, compare and watch.

        Each choice says what would be read with it. Ends with 0 if all is answered, 1 if something is still open.
        """,
        (click.argument("drawing", type=DRAWING), READING, ALLOWANCE),
    ),
    "plan": Typed(
        "What would be cut and how, without writing anything.",
        """Print the operations planned for a drawing, and why; nothing is written.

        Ends with 0 if a program could be made, 1 if it would be refused.
        """,
        (
            click.argument("drawing", type=DRAWING),
            in_file(
                "--against", "FILE", "A second shop file, to see which of the two needs fewer blocks and less time."
            ),
            out_file("--csv", "OUT.csv", "Every plunge as a row of a table.", "table"),
            *(DECIMAL, PIECES, PREFER, SHOP, READING, ALLOWANCE, AS_JSON),
        ),
    ),
    "compare": Typed(
        "Cut a program in simulation and hold it against a drawing.",
        """Read PROGRAM as the control would, cut it, and say groove by groove whether it makes DRAWING.

        Ends with 0 if they agree, 1 if they differ or a move is unsafe, 2 if one of them can't be read.
        """,
        (
            click.argument("drawing", type=DRAWING),
            click.argument("program", type=DRAWING),
            click.option(
                "--stock",
                type=click.FloatRange(0, min_open=True),
                metavar="D",
                help="Start from a plain bar of diameter D.",
            ),
            out_file("--picture", "OUT.svg", "Both profiles over each other, differences marked."),
            *(SHOP, READING, ALLOWANCE, AS_JSON),
        ),
    ),
    "explain": Typed(
        "A program block by block in words.",
        """Tell what each block of PROGRAM does, with the numbers worked out.

        Where the inserts are known the grooves get their walls: from --shop, the program's own heading or the record
        beside it. Ends with 0, or 2 if it can't be read.
        """,
        (
            click.argument("program", type=DRAWING),
            units_option("Units where the program has no unit word.", "asked"),
            *(SHOP, ALLOWANCE, AS_JSON),
        ),
    ),
    "watch": Typed(
        "Make a program of every drawing dropped into a folder.",
        """Make a program for every drawing dropped into INBOX, until stopped.

        A shop.toml in a folder rules that folder and those below. What became of each drawing stands in DIR/index.html;
        the command history tells it all. Ends with 0; with --once as make.
        """,
        (
            click.argument("inbox", type=INBOX),
            out_folder("Where the results go, in subfolders like those of INBOX.", required=True),
            flag("--keep-orphaned", "Keep and list programs whose drawings were taken out of INBOX."),
            flag("--once", "Handle what is there, then stop."),
            limit("--settle", "SECONDS", 0, 3600, 2.0, "How long a file must not change before it is taken."),
            limit(
                "--poll",
                "SECONDS",
                LEAST_POLL,
                3600,
                POLL,
                "Time between looks where the system reports no changes, as on a share.",
            ),
            limit(
                "--workers",
                "N",
                1,
                64,
                os.cpu_count() or 1,
                "Drawings worked out at a time; one for each core if not given.",
            ),
            *(ALLOWANCE, PREFER, SHOP, READING),
        ),
        # A stop that comes while the libraries are still being loaded ends it just as well.
        first=lambda: when_ending(lambda *_: sys.exit(0)),
    ),
    "history": Typed(
        "What became of the drawings of a watched folder.",
        "Print every result in the ledger of DIR, oldest first; with NAME, those of one drawing.",
        (
            click.argument("folder", metavar="DIR", type=INBOX),
            click.argument("name", required=False),
            AS_JSON,
        ),
    ),
    "sheet": Typed(
        "Rebuild the job sheet from a record.",
        "Rebuild the job sheet from RECORD, the .json that make wrote.",
        (
            click.argument("record", type=DRAWING),
            out_file("--out", "OUT.html", "Where the sheet goes; beside the record if not given."),
            out_file("--csv", "OUT.csv", "The inspection table as well, for a spreadsheet."),
            DECIMAL,
        ),
    ),
    "convert": Typed(
        "The same cuts spelled for another control, proven equal.",
        """Write PROGRAM in another dialect, and prove that it cuts the same.

        Of a --shop file cycle_retract, home_x and home_z are used. In a folder the dialect gives the file its name.
        What was left out or said in other words goes to standard error. Ends with 0; 1 if something can't be said
        there, and then nothing is written; 2 if PROGRAM can't be read. Prove out the new program as any other: the
        control's and the machine's manuals, local rules and a qualified setter come first.
        """,
        (
            click.argument("program", type=DRAWING),
            click.option(
                "--to", "to", required=True, metavar="DIALECT", help="The dialect to write: a name, or a dialect file."
            ),
            click.option(
                "--from", "source", metavar="DIALECT", help="The dialect of PROGRAM; otherwise told by its own words."
            ),
            click.option(
                "--out", type=OUT_ANY, metavar="OUT", help="File or folder of the program; else to standard output."
            ),
            *(SHOP_FILE, ALLOWANCE),
        ),
    ),
    "shop": Typed(
        "The built-in shop as a file; a shop file checked.",
        """Print the built-in shop as a file to be changed; or check one, and say what its tools can cut of DRAWING.

        Ends with 0, or 2 if the file has faults: each is named.
        """,
        (
            click.argument("drawing", type=DRAWING, required=False),
            in_file("--check", "FILE", "Check a file of yours: every fault is named."),
            *(READING, ALLOWANCE),
        ),
    ),
    "dialects": Typed(
        "The control dialects at hand.",
        """List the control dialects that programs can be written and read in.

        With --check every step is written by the file and read back: it ends with 0 if each that the dialect says comes
        back as it was written, 1 if one does not, 2 if the file is at fault.
        """,
        (
            click.option("--new", metavar="NAME", help="Print a commented dialect file to begin with."),
            in_file("--check", "FILE", "Check a file of yours: every fault is named."),
            AS_JSON,
        ),
    ),
    "help": Typed(
        "Pages about the shop file, the folder, findings and more.",
        "Print the page about TOPIC; without one, the list of pages.",
        (click.argument("topic", required=False),),
    ),
}


def command(name: str) -> click.Command:
    """A command as its library has it."""
    call = COMMANDS[name]

    @click.command(name, help=call.page, short_help=call.summary)
    @options(*call.words)
    def run(**given: Any) -> Any:
        """Load what does it, and answer its exit status."""
        call.first()
        return loaded(f"rillwright.commands.{name}_command:run")(**given)

    return run
