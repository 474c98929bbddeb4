"""Fifty faults of whole programs, `faults.toml`, and the parts that they are made on."""

import re
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from support.wholes.houses import HOUSES
from support.wholes.pieces import Piece

PLUG = Piece("plug", 44.0, 52.0, ((0.0, 34.0), (-22.0, 40.0)), ((-6.0, -9.0, 30.0), (-30.0, -38.0, 36.0)))
BUSH = Piece("bush", 52.0, 40.0, ((0.0, 36.0), (-18.0, 48.0)), ((-24.0, -28.5, 44.0),), 20.0, ((-8.0, -10.0, 22.4),))
STUD = Piece("stud", 34.0, 56.0, ((0.0, 20.0), (-20.0, 30.0)), ((-17.0, -20.0, 16.0), (-28.0, -31.0, 26.0)), pitch=1.5)


@dataclass(frozen=True)
class Fault:
    """One fault: the house and the piece it is made in, its edits, and what is wrong with it."""

    name: str
    house: str
    piece: Piece
    why: str
    edits: Sequence[dict[str, Any]] = ()
    groove_first: bool = False
    metal: bool = True
    dialect: str = ""
    stock: bool = False

    @property
    def text(self) -> str:
        """The spoilt program."""
        right = spoilt = HOUSES[self.house](self.piece)
        for edit in self.edits:
            start = re.search(edit["after"], spoilt, re.M).end() if "after" in edit else 0
            count = 0 if edit.get("all") else 1
            spoilt = spoilt[:start] + re.sub(edit["old"], edit["new"], spoilt[start:], count=count, flags=re.M)
        spoilt = groove_first(spoilt) if self.groove_first else spoilt
        assert spoilt != right or self.dialect, self.name
        return spoilt


def groove_first(text: str) -> str:
    """The grooving tool's section put before the turning."""
    begin, end = text.index("(GROOVE"), text.index("(PART OFF)")
    turning = text.index("(ROUGH TURN)")
    return text[:turning] + text[begin:end] + text[turning:begin] + text[end:]


_PIECES = {piece.name: piece for piece in (PLUG, BUSH, STUD)}
_ROWS = tomllib.loads(Path(__file__).with_suffix(".toml").read_text("utf-8"))["fault"]
FAULTS = tuple(Fault(**row | {"piece": _PIECES[row["piece"]]}) for row in _ROWS)
