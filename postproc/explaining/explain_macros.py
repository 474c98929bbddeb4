"""One clause about a statement with variables: what it sets, what it asks, where the program goes on."""

from collections.abc import Sequence

from postproc.reading.formula import COMPARISONS, Broken, tokens

SAID = {
    "EQ": "is",
    "NE": "is not",
    "GT": "is greater than",
    "LT": "is less than",
    "GE": "is at least",
    "LE": "is at most",
}


def macro_sentence(text: str) -> str:
    """What a statement does, as one clause; a statement that can't be worked out is said to be one.

    >>> macro_sentence("IF [#110 LT 40.8] THEN #110=40.8")
    'if #110 is less than 40.8, variable #110 becomes 40.8'
    """
    try:
        found = tokens(text)
    except Broken:
        return "a formula that can't be worked out here"
    if found[:1] == ("N",):
        found = found[2:]
    return _statement(found) or "a block with a variable whose value nothing gives"


def _statement(found: Sequence[str]) -> str:
    """The clause of one statement, empty for a block of words."""
    first = found[0] if found else ""
    if first == "#" and "=" in found:
        at = found.index("=")
        return f"variable {''.join(found[:at])} becomes {''.join(found[at + 1 :])}"
    if first == "WHILE" and "DO" in found:
        at = found.index("DO")
        return f"as long as {_condition(found[1:at])}, the blocks to END{''.join(found[at + 1 :])} are run"
    if first == "END":
        return f"back to the start of loop {''.join(found[1:])}"
    if first == "GOTO":
        return f"on at block N{''.join(found[1:])}"
    for word in ("GOTO", "THEN"):
        if first == "IF" and word in found:
            at = found.index(word)
            then = f"on at block N{''.join(found[at + 1 :])}" if word == "GOTO" else _statement(found[at + 1 :])
            return f"if {_condition(found[1:at])}, {then}"
    return ""


def _condition(found: Sequence[str]) -> str:
    """A comparison without its outer brackets, in words."""
    inner = found[1:-1] if found[:1] == ("[",) else found
    return "".join(f" {SAID[token]} " if token in COMPARISONS else token for token in inner)
