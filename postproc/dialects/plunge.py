"""No cycle: every peck written out in words of ISO 6983-1."""

from collections.abc import Mapping
from typing import ClassVar

from postproc.dialect import Dialect
from postproc.vocabulary.acts import Act


class Plunge(Dialect):
    """G00 and G01 for each peck; units by G70/G71, feeds by G94/G95, clamp by G92 S, absolute places by G90.

    What ISO leaves free (G20, G21, G28, G50, G98, G99, U, W) is read as the trade uses it, and never written.
    """

    name: ClassVar[str] = "plunge"
    title: ClassVar[str] = "no cycle, every peck written out"
    summary: ClassVar[str] = "No cycle: each peck, retract and return is a G00 or G01 block in ISO 6983 words."
    dwell_seconds: ClassVar[bool] = True
    g_words: ClassVar[Mapping[int, Act]] = {
        70: Act.INCH,
        71: Act.METRIC,
        90: Act.ABSOLUTE,
        91: Act.INCREMENTAL,
        92: Act.CLAMP_OR_ZERO,
        94: Act.PER_MINUTE,
        95: Act.PER_REV,
        **Dialect.g_words,
    }
    other_system: ClassVar[Mapping[int, Act]] = {}
    opening: ClassVar[tuple[Act, ...]] = (Act.ABSOLUTE, Act.PER_REV)
