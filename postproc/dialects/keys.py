"""Which keys a dialect file knows and what each may hold; one row a key, with the sentence that explains it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from postproc.vocabulary.acts import Act, Switch

Kind = Literal["text", "texts", "choice", "choices", "whole", "flag", "by units", "addresses", "table"]


@dataclass(frozen=True)
class Key:
    """A key: its kind, what it may be, and a sentence about it.

    `low` and `high` hold for whole numbers, `usual` is what such a number is where no file gives it.
    """

    kind: Kind
    about: str
    choices: tuple[str, ...] = ()
    low: int = 0
    high: int = 0
    usual: int = 0


TOP: Mapping[str, Key] = {
    "base": Key("text", "the dialect that this one is laid over; trade where it isn't given"),
    "title": Key("text", "what the dialect is, in a few words"),
    "summary": Key("text", "what it supports, in a sentence"),
    "stands": Key("choices", "words that are written only where they change", ("motion", "feed", "retract")),
    "repeat": Key("choice", "how like grooves at odd places are said in fewer blocks", ("none", "subprogram", "modal")),
    "words": Key("table", "G words and what they ask for: the first of several is written, all are read"),
    "other_words": Key("table", "G words of the other common code system, read only where that is plain"),
    "switches": Key("table", "M words"),
    "numbers": Key("table", "forms of numbers, for all addresses; a table in it for one of its own"),
    "blocks": Key("table", "one pattern a block"),
    "cycle": Key("table", "the grooving cycle"),
    "program": Key("table", "what stands round the steps"),
}
NUMBERS: Mapping[str, Key] = {
    "point": Key("choice", "the decimal point of a length", ("needed", "optional", "never")),
    "zeros": Key("flag", "decimals are filled up with zeros"),
    "digits": Key("whole", "most digits of a number", low=1, high=15, usual=8),
    "decimals": Key("by units", "most decimals", low=0, high=6),
    "least": Key("by units", "the least count, 1 where numbers count whole units"),
}
ALL_NUMBERS: Mapping[str, Key] = {
    **NUMBERS,
    "x": Key("choice", "what X is", ("diameter", "radius")),
    "increments": Key("addresses", "addresses of incremental moves, with the axis of each"),
}
CYCLE: Mapping[str, Key] = {
    "blocks": Key("texts", "the blocks of the cycle: the last one calls it, those before only set values"),
    "leaves": Key("choice", "where the control leaves the tool", ("start", "last")),
    "ended_by": Key("text", "the word until which the cycle stands, where a place alone cuts one groove more"),
}
PROGRAM: Mapping[str, Key] = {
    "start": Key("texts", "the first lines"),
    "opening": Key("texts", "blocks after the heading, before anything moves"),
    "operation_start": Key("texts", "blocks before each operation"),
    "operation_end": Key("texts", "blocks after each operation"),
    "end": Key("texts", "the last blocks"),
    "subprogram": Key("texts", "the first line of a subprogram, and its last"),
    "comment": Key("text", "a comment with its {text}"),
    "comment_width": Key("whole", "longest text of a comment", low=8, high=200, usual=60),
    "comment_without": Key("text", "characters that a comment may not have"),
    "line_end": Key("choice", "what ends a line", ("lf", "crlf")),
    "block_numbers": Key("choice", "which blocks have an N word", ("none", "operation", "all")),
    "first_number": Key("whole", "the first N", low=0, high=9999, usual=10),
    "number_step": Key("whole", "from one N to the next", low=1, high=1000, usual=10),
}
WORDS: Mapping[str, Act] = {act.name.lower(): act for act in Act}
SWITCHES: Mapping[str, Switch] = {switch.name.lower(): switch for switch in Switch if switch is not Switch.OWN}

AMOUNTS = {"peck", "shift", "retract", "relief", "depth", "length", "radius", "i", "k"}
BLOCKS: Mapping[str, tuple[frozenset[str], frozenset[str]]] = {
    "tool": (frozenset({"station", "offset"}), frozenset()),
    "cancel": (frozenset(), frozenset({"station"})),
    "clamp": (frozenset({"rpm"}), frozenset({"g"})),
    "surface": (frozenset({"speed", "sense"}), frozenset({"g"})),
    "rpm": (frozenset({"speed", "sense"}), frozenset({"g"})),
    "spindle_off": (frozenset({"m"}), frozenset()),
    "gear": (frozenset({"m"}), frozenset()),
    "coolant": (frozenset({"m"}), frozenset()),
    "halt": (frozenset({"m"}), frozenset()),
    "work_offset": (frozenset({"g"}), frozenset()),
    "zero": (frozenset({"g"}), frozenset({"x", "z"})),
    "feed_mode": (frozenset({"g"}), frozenset()),
    "home": (frozenset({"g"}), frozenset({"home_x", "home_z"})),
    "rapid": (frozenset({"g", "x", "z"}), frozenset()),
    "cut": (frozenset({"g", "x", "z", "feed"}), frozenset()),
    "arc": (
        frozenset({"g", "x", "z", "feed"}),
        frozenset({"radius", "i", "k", "centre_x", "centre_z"}),
    ),
    "dwell": (frozenset(), frozenset({"g", "ms", "seconds"})),
    "call": (frozenset({"program"}), frozenset({"m", "times"})),
}
"""The patterns of a dialect: the fields that each must have, and those that it may have."""
CYCLE_FIELDS = frozenset(
    {
        *("g", "floor", "depth", "end", "count", "more", "length", "start_x", "start_z", "peck", "shift"),
        *("retract", "relief", "wait", "feed"),
    }
)
