"""Tokens: the shapes of which the text of a program is made; see `postproc.reading.words` for what they are."""

import re
from functools import cache

_NUMBER = r"(?:[0-9]{1,10}(?:\.[0-9]{0,10})?|\.[0-9]{1,10})"
"""A number as controls keep it, with room to spare: no longer one can be meant."""
_COMMA = r"(?:[0-9]{1,10},(?:[0-9]{1,10}|(?=[ \t]|$))|,[0-9]{1,10})"
"""A number with a comma for its point, as many write it by hand."""

TOKEN = re.compile(
    rf"(?P<word>(?P<letter>[A-Za-z]|,[ \t]{{0,9}}[ACRacr])[ \t]{{0,9}}"
    rf"(?P<digits>[+-]?[ \t]{{0,9}}(?:{_COMMA}|{_NUMBER})))"
    r"|(?P<space>[ \t]+)"
    r"|(?P<comment>\([^()]*\)|;.*)"
    r"|(?P<skip>/[1-9]?(?![0-9]))"
    r"|(?P<tape>[\x00\x11-\x14\x1a\x7f\ufeff]+)"
    r"|(?P<label>:[0-9]{1,10}(?![0-9]))"
    r"|(?P<named>[Oo]?<[A-Z0-9_+.-]{1,32}>)"
    r"|(?P<broken>\(.*)"
    r"|(?P<macro>(?:[A-Za-z]{0,6}[ \t]{0,9}[+-]?[ \t]{0,9}[#\[\]=]|(?i:GOTO|WHILE|DO|END)[ \t]{0,9}[0-9]).*)"
    r"|(?P<unknown>[^A-Za-z(;/:#\[\] \t]+|.)"
)
"""One token of a line; the kinds are tried in this order. A, C and R behind a comma are words of their own."""

_WORD = rf"[ \t]*([A-Za-z])[ \t]{{0,9}}([+-]?{_NUMBER})"
WORD = re.compile(_WORD)
ALONE = re.compile(rf"([A-Za-z])([+-]?{_NUMBER})")
"""A word with no blank in or about it."""
PLAIN = re.compile(f"(?:{_WORD})+[ \t]*")
"""A line of words alone, as nearly all are; taken apart without asking for each token what it is."""

BLANK = " \t\x00\x11\x12\x13\x14\x1a\x7f\ufeff"
"""Blanks and characters that steer a tape reader, a cable or an editor."""


@cache
def token_with(assigned: frozenset[str]) -> re.Pattern[str]:
    """The tokens of a dialect that has assignment words, each given with its "="; capitals don't count."""
    names = "|".join(re.escape(name.rstrip("=")) for name in sorted(assigned, key=len, reverse=True))
    number = rf"[+-]?[ \t]{{0,9}}{_NUMBER}"
    assign = rf"(?P<assign>(?<![A-Za-z0-9_#])(?i:{names})[ \t]{{0,9}}=[ \t]{{0,9}}{number})"
    return re.compile(assign + "|" + TOKEN.pattern)
