"""The grooving cycle in two blocks: the retract first, then floor, last groove, peck and shift."""

from collections.abc import Mapping
from typing import ClassVar

from postproc.dialect import Dialect
from postproc.vocabulary.acts import Act, CycleWords


class TwoBlock(Dialect):
    """G75 R, then G75 X Z P Q F with P and Q as whole numbers of the least increment, P radial."""

    name: ClassVar[str] = "two-block"
    title: ClassVar[str] = "G75 in two blocks"
    summary: ClassVar[str] = (
        "G75 R (retract), then G75 X Z P Q F; P (radial peck) and Q (shift) are whole numbers of the least increment."
    )
    cycle: ClassVar[CycleWords | None] = CycleWords(peck="P", shift="Q", whole=True, retract="R", relief="R")
    g_words: ClassVar[Mapping[int, Act]] = {**Dialect.g_words, 75: Act.GROOVE}
