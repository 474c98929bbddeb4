"""Which keys a dialect file knows and what each may hold; one row a key, with the sentence that explains it."""

from collections.abc import Mapping
from typing import Literal

from extractor.values import dataclass
from postproc.vocabulary.acts import Act, Switch

Kind = Literal["text", "texts", "choice", "choices", "whole", "flag", "by units", "addresses", "table"]


@dataclass(frozen=True)
class DialectKey:
    """A key: its kind, what it may be, and a sentence about it.

    `low` and `high` hold for whole numbers, `usual` is what such a number is where no file gives it.
    """

    kind: Kind
    about: str
    choices: tuple[str, ...] = ()
    low: int = 0
    high: int = 0
    usual: int = 0


TOP: Mapping[str, DialectKey] = {
    "base": DialectKey("text", "the dialect that this one is laid over; trade where it isn't given"),
    "title": DialectKey("text", "what the dialect is, in a few words"),
    "summary": DialectKey("text", "what it supports, in a sentence"),
    "stands": DialectKey("choices", "words that are written only where they change", ("motion", "feed", "retract")),
    "repeat": DialectKey(
        "choice", "how like grooves at odd places are said in fewer blocks", ("none", "subprogram", "modal")
    ),
    "words": DialectKey("table", "G words and what they ask for: the first of several is written, all are read"),
    "other_words": DialectKey("table", "G words of the other common code system, read only where that is plain"),
    "switches": DialectKey("table", "M words"),
    "own_switches": DialectKey("table", "M words of the machine's own, each with what it does, in words of yours"),
    "numbers": DialectKey("table", "forms of numbers, for all addresses; a table in it for one of its own"),
    "blocks": DialectKey("table", "one pattern a block"),
    "cycle": DialectKey("table", "the grooving cycle"),
    "program": DialectKey("table", "what stands round the steps"),
}
NUMBERS: Mapping[str, DialectKey] = {
    "point": DialectKey("choice", "the decimal point of a length", ("needed", "optional", "never")),
    "zeros": DialectKey("flag", "decimals are filled up with zeros"),
    "digits": DialectKey("whole", "most digits of a number", low=1, high=15, usual=8),
    "decimals": DialectKey("by units", "most decimals", low=0, high=6),
    "least": DialectKey("by units", "the least count, 1 where numbers count whole units"),
}
ALL_NUMBERS: Mapping[str, DialectKey] = {
    **NUMBERS,
    "x": DialectKey("choice", "what X is", ("diameter", "radius")),
    "increments": DialectKey("addresses", "addresses of incremental moves, with the axis of each"),
}
CYCLE: Mapping[str, DialectKey] = {
    "blocks": DialectKey("texts", "the blocks of the cycle: the last one calls it, those before only set values"),
    "leaves": DialectKey("choice", "where the control leaves the tool", ("start", "last")),
    "ended_by": DialectKey("text", "the word until which the cycle stands, where a place alone cuts one groove more"),
}
PROGRAM: Mapping[str, DialectKey] = {
    "start": DialectKey("texts", "the first lines"),
    "opening": DialectKey("texts", "blocks after the heading, before anything moves"),
    "operation_start": DialectKey("texts", "blocks before each operation"),
    "operation_end": DialectKey("texts", "blocks after each operation"),
    "end": DialectKey("texts", "the last blocks"),
    "subprogram": DialectKey("texts", "the first line of a subprogram, with its number as {program}, and its last"),
    "comment": DialectKey("text", "a comment with its {text}"),
    "comment_width": DialectKey("whole", "longest text of a comment", low=8, high=200, usual=60),
    "comment_without": DialectKey("text", "characters that a comment may not have"),
    "line_end": DialectKey("choice", "what ends a line", ("lf", "crlf")),
    "file_name": DialectKey("text", "the name of the program's file, by {name} of the drawing, {number} or both"),
    "file_ending": DialectKey("text", "the ending of the program's file; .nc where none is given"),
    "block_numbers": DialectKey("choice", "which blocks have an N word", ("none", "operation", "all")),
    "first_number": DialectKey("whole", "the first N", low=0, high=9999, usual=10),
    "number_step": DialectKey("whole", "from one N to the next", low=1, high=1000, usual=10),
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
