"""Lines of a dialect's own shape as the reader has them: its program word, its head and its end, its comments.

What a dialect says there need not have the shape of words, so it is known by the very text of the dialect's table. A
line that gives a number becomes the trade's O word with the words beside it, a comment one behind a semicolon or in
parentheses; any other is left out.
"""

import re
from collections.abc import Iterator

from postproc.dialect import Dialect
from postproc.reading.tokens import PLAIN, TOKEN, token_with
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.forms import FRAME_GAP

_NO_SHAPE = frozenset({"broken", "macro", "unknown"})
_NUMBER = re.compile(r"^[Nn][0-9]+ +")
_USUAL = {("(", ")"), (";", "")}
"""Comments as every program may have them."""


def shaped(line: str, assigned: frozenset[str] = frozenset()) -> bool:
    """True if all of a line has the shape of words, comments or marks."""
    tokens = (token_with(assigned) if assigned else TOKEN).finditer(line)
    return bool(PLAIN.fullmatch(line)) or all(token.lastgroup not in _NO_SHAPE for token in tokens)


class OwnLines:
    """Rewrites the lines of a program in one dialect as the reader knows them.

    A comment in a form of the dialect's own counts only at the start of a line or after a blank: what begins it may be
    the sign of a formula elsewhere.
    """

    def __init__(self, dialect: Dialect) -> None:
        """Look at which lines of the dialect have a shape of their own."""
        self._lines = tuple(_own(dialect))
        before, behind = dialect.frame.remark
        self._comment = None
        if (before, behind) not in _USUAL:
            end = re.escape(behind) if behind else "$"
            self._comment = re.compile(f"(?:^|(?<=[ \\t])){re.escape(before)}(.*?){end}")
        self._as = "({})" if behind else ";{}"
        self.idle = not self._lines and self._comment is None

    def __call__(self, line: str) -> str:
        """A line as the reader knows it."""
        for known in self._lines:
            if found := known.fullmatch(_NUMBER.sub("", line.strip())):
                return " ".join((f"O{found['number']}", *_others(found))) if known.groups else ""
        return self._comment.sub(self._said, line, count=1) if self._comment else line

    def _said(self, found: re.Match[str]) -> str:
        """A comment with no parenthesis inside that would end it."""
        return self._as.format(found[1].translate({ord(one): " " for one in "()"}))


def _others(found: re.Match[str]) -> Iterator[str]:
    """The words beside the number of a line that gives one."""
    number = found.re.groupindex["number"]
    return (text for group, text in enumerate(found.groups(), 1) if group != number)


def _own(dialect: Dialect) -> Iterator[re.Pattern[str]]:
    """What the lines of a dialect's frame that have a shape of their own look like."""
    frame = dialect.frame
    for line in frame.names:
        if not line.startswith(("O{", ":{")):
            yield re.compile(_shape(line, dialect), re.IGNORECASE)
    for line in (*frame.start, *frame.subprogram, *frame.end):
        if line not in frame.names and not line.startswith("%") and not shaped(_filled(line), dialect.assigned):
            yield re.compile(re.escape(line), re.IGNORECASE)


def _filled(line: str) -> str:
    """A line with any word in each of its fields."""
    return FRAME_GAP.sub("M0", line)


def _shape(line: str, dialect: Dialect) -> str:
    """What a line that gives a number looks like, the number and the words of its fields as groups."""
    parts, at = [], 0
    for gap in FRAME_GAP.finditer(line):
        parts += [re.escape(line[at : gap.start()]), _field(gap[1], dialect)]
        at = gap.end()
    return "".join(parts) + re.escape(line[at:])


def _field(name: str, dialect: Dialect) -> str:
    """What may stand in a field."""
    if name in ("number", "program"):
        return "0*(?P<number>[0-9]{1,8})"
    if name == "units":
        return f"({dialect.unit_word('mm')}|{dialect.unit_word('in')})"
    return (
        f"({dialect.m(Switch[name.upper()]) if name.upper() in Switch.__members__ else dialect.g(Act[name.upper()])})"
    )
