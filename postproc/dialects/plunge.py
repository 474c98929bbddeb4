"""No cycle: every peck written out in words of ISO 6983-1."""

from collections.abc import Mapping
from typing import ClassVar

from postproc.acts import Act
from postproc.dialect import Dialect

_NOT_ISO = {20, 21, 28, 30, 50, 53, 98, 99}


class Plunge(Dialect):
    """G00 and G01 for each peck; units by G70/G71, feeds by G94/G95, clamp by G92 S, no U and W.

    G20 and G21 are read as well, since many controls that follow ISO 6983 otherwise use them (common practice).
    """

    name: ClassVar[str] = "plunge"
    title: ClassVar[str] = "no cycle, every peck written out"
    summary: ClassVar[str] = "No cycle: each peck, retract and return is a G00 or G01 block in ISO 6983 words."
    dwell_seconds: ClassVar[bool] = True
    increments: ClassVar[Mapping[str, str]] = {}
    g_words: ClassVar[Mapping[int, Act]] = {
        **{number: act for number, act in Dialect.g_words.items() if number not in _NOT_ISO},
        70: Act.INCH,
        71: Act.METRIC,
        90: Act.ABSOLUTE,
        91: Act.INCREMENTAL,
        92: Act.CLAMP_OR_ZERO,
        94: Act.PER_MINUTE,
        95: Act.PER_REV,
        20: Act.INCH,
        21: Act.METRIC,
        28: Act.HOME,
    }
    opening: ClassVar[tuple[Act, ...]] = (Act.ABSOLUTE, Act.PER_REV)
