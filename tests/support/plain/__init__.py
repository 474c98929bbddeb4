"""Five parts by a plain drawing script, seven whole programs of them written out by hand, and their faults, as data.

`sheets` draws with ezdxf alone; the programs (`NAME.nc`), what each shop has (`PART.toml`) and `faults.toml` were
written from the trade's habits (common practice, no source). Numbers are of our own invention.
"""

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).parent
PROGRAMS: Mapping[str, str] = {
    "nozzle": "nozzle",
    "nozzle-iso": "nozzle",
    "sleeve": "sleeve",
    "spindle": "spindle",
    "spindle-hand": "spindle",
    "ring": "ring",
    "flange": "flange",
}
"""The part that each program makes."""


class Fault(NamedTuple):
    """One fault: an edit of a program's text, and what is wrong with it where the name doesn't say it."""

    name: str
    program: str
    old: str
    new: str
    why: str = ""

    @property
    def text(self) -> str:
        """The spoilt program."""
        right = text_of(self.program)
        assert self.old in right, self.name
        return right.replace(self.old, self.new, 1)


def text_of(name: str) -> str:
    """A program or a shop file of this folder."""
    return (HERE / (name if "." in name else f"{name}.nc")).read_text("utf-8")


def faults() -> list[Fault]:
    """All of them."""
    return [Fault(**row) for row in tomllib.loads(text_of("faults.toml"))["fault"]]
