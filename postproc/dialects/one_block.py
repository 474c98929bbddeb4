"""The grooving cycle in one block, all decimals; how far it backs off after a peck is the control's own parameter."""

from collections.abc import Mapping
from typing import ClassVar

from postproc.dialect import Dialect
from postproc.vocabulary.acts import Act, CycleWords


class OneBlock(Dialect):
    """G75 X Z I K F with I the radial peck and K the shift, both with a decimal point.

    No word sets the retract, so a step's retract is not written at all: `lower` sets it to 0, which stands for "left
    to the control", and the program says so in a comment.
    """

    name: ClassVar[str] = "one-block"
    title: ClassVar[str] = "G75 in one block"
    summary: ClassVar[str] = (
        "G75 X Z I K F; I (radial peck) and K (shift) are decimals; the control sets the retract after a peck."
    )
    cycle: ClassVar[CycleWords | None] = CycleWords(peck="I", shift="K", whole=False, retract=None, relief=None)
    g_words: ClassVar[Mapping[int, Act]] = {**Dialect.g_words, 75: Act.GROOVE}
