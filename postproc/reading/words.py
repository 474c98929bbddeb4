r"""Words and blocks: the text of a program taken apart, with nothing skipped in silence.

What is a word, comment or skip mark is ISO 6983-1's and NIST IR 6556's; what people type besides (lower case, no
spaces or many, `;` comments, tape characters) is common practice. Whether a word means anything is the interpreter's
business; here only its shape counts. Anything without a shape is a stop with line and column.

    frame     %                      block    [/] [N] words and comments in any order
    word      letter number          number   [+-] digits [.] digits, at least one digit
    comment   ( text )  or  ; text   skip     / or /1 to /9 at the start, also after N
    program   O number  or  : number  or  O<name>  or  <name>  (names: common practice, no source)
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from typing import NamedTuple

from extractor.errors import ProgramError
from extractor.finding import Code, Finding, Level
from extractor.values import dataclass
from postproc.codes import ProgramCode
from postproc.reading.legible import check_legible, check_no_drawing
from postproc.reading.tokens import ALONE, BLANK, PLAIN, TOKEN, WORD, token_with

SKIP = re.compile(r"[ \t]*/[1-9]?")
REMARK = re.compile(r"\([^()]*\)|;.*")
"""Remarks inside a line with variables, as in any other."""
POINTED_G = re.compile(r"[Gg][ \t]{0,9}[0-9]{1,10}\.0*(?![0-9])")
"""A G number with a point and nothing behind it."""
NUMBERED = "GMNOPQTSLDH"
"""Addresses whose numbers are written with no point."""
MOST_FINDINGS = 50
"""After so many oddities a text is no program that a person could mend by the list."""


class Word(NamedTuple):
    """An address with its number as written: `X-.5` is ("X", "-.5"), `,C.5` is (",C", ".5").

    `column` counts from 1. A plain tuple, since a program has many.
    """

    address: str
    text: str
    column: int

    @property
    def pointed(self) -> bool:
        """True if the number has a decimal point."""
        return "." in self.text

    @property
    def value(self) -> float:
        """The number as written, with no thought of increments."""
        return float(self.text)

    @property
    def whole(self) -> int | None:
        """The number if it is a whole one without sign or point, else None."""
        return int(self.text) if self.text.isdigit() else None

    @property
    def begins(self) -> bool:
        """True for the word that begins a program: its number, or its name in angle brackets."""
        return self.address == "O" and (self.whole is not None or self.text.startswith("<"))

    def __str__(self) -> str:
        """The word as it stands in a block."""
        return self.address + self.text


class Block(NamedTuple):
    """One line: its words without N, the texts of its comments, and whether block skip takes it out.

    `number` is that of its N. There are no words where the line is a remark or a number alone, and where nothing in it
    could be taken for one. `macro` is the whole line without remarks where it has variables, formulas or jumps: what
    words it comes to is only known when it runs.
    """

    line: int
    words: tuple[Word, ...]
    comments: tuple[str, ...] = ()
    skip: bool = False
    number: int | None = None
    macro: str = ""


_Known = dict[int, dict[str, Word]]
"""The words met so far by their column and what is written there."""
_new = tuple.__new__
"""Builds a plain tuple's like in a third of the time that its own way takes, where a program has many."""


@dataclass(frozen=True)
class ParsedProgram:
    """The blocks that a control would read, and everything odd about the text."""

    blocks: tuple[Block, ...]
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]

    @cached_property
    def g_words(self) -> Mapping[str, Word]:
        """One G word of each text."""
        return {word.text: word for block in self.blocks for word in block.words if word.address == "G"}

    @cached_property
    def g_numbers(self) -> frozenset[int]:
        """The numbers of all G words."""
        return frozenset(w.whole for w in self.g_words.values() if w.whole is not None)

    def uses(self, address: str, among: Iterable[int]) -> frozenset[int]:
        """Which of some numbers stand after an address anywhere in the program."""
        wanted = frozenset(among)
        if address == "G":
            return wanted & self.g_numbers
        found = (w.whole for block in self.blocks for w in block.words if w.address == address)
        return frozenset(number for number in found if number in wanted)

    def first(self, among: Iterable[int]) -> tuple[int, int] | None:
        """The first of some G numbers, with its line; None if there is none."""
        wanted = self.g_numbers & frozenset(among)
        blocks = self.blocks if wanted else ()
        every = ((w.whole, block.line) for block in blocks for w in block.words if w.address == "G")
        return next(((number, line) for number, line in every if number is not None and number in wanted), None)


def parse_program(text: str, assigned: frozenset[str] = frozenset()) -> ParsedProgram:
    """Take a program apart; `assigned` are the assignment words of its dialect, each with its "=".

    Raises ProgramError if there is not one word in it, or hardly anything that is one (a drawing, a
    letter); all else that is wrong is a finding.

    >>> [str(word) for word in parse_program("n10 g1x-.5 (in) F0.08").blocks[0].words]
    ['G1', 'X-.5', 'F0.08']
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    check_no_drawing(text)
    lines = tuple(text.split("\n"))
    findings: list[Finding] = []
    inside = _frame(lines, findings)
    known: _Known = defaultdict(dict)
    blocks = []
    for number, line in enumerate(lines[inside.start - 1 : inside.stop - 1], inside.start):
        if line and not line.isspace():
            words = _spaced(line, known)
            blocks.append(_worded(number, words) if words else _block(number, line, findings, assigned))
    if not any(block.words or block.macro for block in blocks):
        raise ProgramError("There is no word of a program in the text; give the file of a lathe program.")
    if any(finding.code == ProgramCode.UNKNOWN_CHARACTER for finding in findings):
        check_legible([lines[number - 1] for number in inside])
    return ParsedProgram(tuple(blocks), tuple(_bounded(findings)), lines)


def _frame(lines: tuple[str, ...], findings: list[Finding]) -> range:
    """Numbers of the lines that a control reads: between the first two % marks, where there are two."""
    marks = [n for n, line in enumerate(lines, 1) if "%" in line and line.lstrip(BLANK).startswith("%")]
    for n in marks:
        if lines[n - 1].strip(BLANK + "%;").lstrip("0123456789"):
            words = "The text after % is not read by every control; give it a line of its own."
            findings.append(_stop(ProgramCode.FRAME, n, words))
    if not marks:
        return range(1, len(lines) + 1)

    def worded(among: Iterable[int]) -> int:
        """The first line with words among some, 0 for none."""
        return next((n for n in among if n not in marks and _has_words(lines[n - 1])), 0)

    begun = worded(range(marks[0] + 1, len(lines) + 1)) or worded(range(1, marks[0]))
    first = max((n for n in marks if n < begun), default=0)
    last = next((n for n in marks if n > begun), len(lines) + 1)
    early, late = worded(range(1, first)), worded(range(last + 1, len(lines) + 1))
    if early:
        message = "There are words before the first %, which some controls run and others don't; take them out."
        findings.append(_stop(ProgramCode.FRAME, early, message))
    if late:
        message = "What follows the second % is not read by the control and was not checked; take it out."
        findings.append(Finding(Level.CAUTION, ProgramCode.FRAME, message, line=late))
    return range(first + 1, last)


def _has_words(line: str) -> bool:
    """True if a line has a word outside comments."""
    return any(m.lastgroup == "word" for m in TOKEN.finditer(line)) if line else False


def _spaced(line: str, known: _Known) -> list[Word]:
    """The words of a line that one blank parts from one another, as nearly all lines are; none for any other line.

    `known` keeps the words of the program: most come again and again, and at the same place of a line.
    """
    words: list[Word] = []
    column = 1
    for token in line.split(" "):
        here = known[column]
        word = here.get(token)
        if word is None:
            m = ALONE.fullmatch(token)
            if m is None or POINTED_G.fullmatch(token):
                return []
            word = here[token] = _new(Word, (m[1].upper(), m[2], column))
        words.append(word)
        column += len(token) + 1
    return words


def _worded(number: int, words: list[Word]) -> Block:
    """A block of words alone."""
    if words[0].address != "N":
        return _new(Block, (number, tuple(words), (), False, None, ""))
    return Block(number, tuple(_without_number(words)), number=words[0].whole)


def _block(number: int, line: str, findings: list[Finding], assigned: frozenset[str] = frozenset()) -> Block:
    """One line taken apart; what has no shape goes to the findings, once a line."""
    if PLAIN.fullmatch(line):
        words = [Word(m[1].upper(), m[2], m.start(1) + 1) for m in WORD.finditer(line)]
        return _worded(number, _whole_g(words) if POINTED_G.search(line) else words)
    words = []
    comments: list[str] = []
    skip, wrong, before = False, "", ""
    for m in (token_with(assigned) if assigned else TOKEN).finditer(line):
        kind = m.lastgroup
        if kind == "assign":
            name, _, digits = m.group().partition("=")
            words.append(Word("".join(name.split()).upper() + "=", "".join(digits.split()), m.start() + 1))
        elif kind == "word":
            address, digits = "".join(m["letter"].upper().split()), m["digits"].replace(" ", "").replace("\t", "")
            words.append(Word(address, digits.replace(",", "."), m.start() + 1))
            if "," in digits:
                findings.append(_comma(address + digits, words[-1], number))
        elif kind == "comment":
            comments.append(m.group().lstrip("(;").rstrip(")").strip())
            if m.group()[0] == ";" and PLAIN.fullmatch(m.group()[1:]):
                findings.append(_behind_semicolon(number, m.start() + 1))
        elif kind == "skip" and all(w.address == "N" for w in words):
            skip = True
        elif kind in ("label", "named") and not words:
            words.append(Word("O", m.group().lstrip(":Oo"), m.start() + 1))
        elif kind == "tape":
            findings.append(_tape(number))
        elif kind == "macro":
            return _macro(number, line, m, words, findings)
        elif kind != "space" and not wrong:
            wrong = kind or ""
            stray = before == "word" and not m.group().strip(".,")
            findings.append(_stray(words[-1], m.group(), number) if stray else _wrong(wrong, number, m))
        before = kind or ""
    words = _whole_g(words) if POINTED_G.search(line) else words
    return Block(number, tuple(_without_number(words)), tuple(comments), skip, _number(words))


def _whole_g(words: list[Word]) -> list[Word]:
    """The words with G1. and G1.0 as G1, which they equal (NIST IR 6556, from memory); G54.1 is another word."""
    whole = {word: word.text.rstrip("0") for word in words if word.address == "G" and word.pointed}
    return [w._replace(text=whole[w][:-1]) if whole.get(w, "").endswith(".") else w for w in words]


def _macro(number: int, line: str, m: re.Match[str], words: list[Word], findings: list[Finding]) -> Block:
    """A line with variables; one that begins with a bracket speaks to another program."""
    comments = tuple(c.lstrip("(;").rstrip(")").strip() for c in REMARK.findall(line))
    if m.group().startswith("[") and not words:
        findings.append(_directive(number, m.group()))
        return Block(number, (), comments)
    text = REMARK.sub(lambda remark: " " * len(remark.group()), line).rstrip(BLANK)
    mark = SKIP.match(text)
    if mark is not None:
        text = " " * mark.end() + text[mark.end() :]
    return Block(number, (), comments, mark is not None, _number(words), text)


def _directive(line: int, text: str) -> Finding:
    """The caution about a line that is none of the control's."""
    shown = text[:30].encode("ascii", "backslashreplace").decode()
    what = "a directive of another program, at which a control may stop with an alarm"
    message = f"{shown} is {what}; take it out before the program is run."
    return Finding(Level.CAUTION, ProgramCode.DIRECTIVE, message, line=line)


def _number(words: list[Word]) -> int | None:
    """The number of a block that begins with N."""
    return words[0].whole if words and words[0].address == "N" else None


def _without_number(words: list[Word]) -> list[Word]:
    """The words without the block number, which asks for nothing; an N further on stays and is asked about."""
    return words[1:] if words and words[0].address == "N" and words[0].whole is not None else words


ALIKE = {"O": "0", "o": "0", "l": "1", "I": "1"}
"""Letters that a hand types for figures, and the figures."""


def _wrong(kind: str, line: int, m: re.Match[str]) -> Finding:
    """The sentence about a token that has no shape."""
    column = m.start() + 1
    shown = m.group()[:20].encode("ascii", "backslashreplace").decode()
    if kind == "broken":
        inside = "has another inside it" if ")" in m.group() else "is not closed on its line"
        words = f"The comment at column {column} {inside}, which controls take differently; mend its parentheses."
        return _stop(ProgramCode.COMMENT, line, words)
    if kind == "skip":
        words = f"The / at column {column} stands inside the block; put it first."
        return _stop(ProgramCode.SKIP_INSIDE_BLOCK, line, words)
    message = f"Column {column} ({shown}) is not a word of a program; correct it or take it out."
    for at in (m.start(), m.end()):
        before, letter = m.string[max(0, at - 1) : at], m.string[at : at + 1]
        if letter in ALIKE and (before.isdigit() or (at == m.end() and before.isalpha())):
            message = f"The letter {letter} at column {at + 1} stands where a figure belongs; type {ALIKE[letter]}."
            break
    return _stop(ProgramCode.UNKNOWN_CHARACTER, line, message)


def _stray(word: Word, marks: str, line: int) -> Finding:
    """The stop about points or commas right behind a word, of which one may be meant for its point."""
    meant = f"{word}" if word.pointed or word.address in NUMBERED else f"{word}. or {word}"
    message = f"{word}{marks} at column {word.column} has {marks} behind its number; type {meant} instead."
    return _stop(ProgramCode.UNKNOWN_CHARACTER, line, message)


def _comma(typed: str, meant: Word, line: int) -> Finding:
    """The stop about a word whose number has a comma for its point; it is read as meant."""
    message = f"{typed} at column {meant.column} has a comma in place of its decimal point; type {meant} instead."
    return _stop(ProgramCode.UNKNOWN_CHARACTER, line, message)


def _tape(line: int) -> Finding:
    """The note about characters that steer a tape reader or a cable, which controls leave out."""
    message = "Characters that only steer a transfer were left out."
    return Finding(Level.NOTE, ProgramCode.TAPE_CHARACTER, message, line=line)


def _behind_semicolon(line: int, column: int) -> Finding:
    """The caution about words that are a remark here and a block of their own at some controls."""
    message = f"What follows the ; at column {column} was taken as a remark, but it looks like a block; check it."
    return Finding(Level.CAUTION, ProgramCode.WORDS_IN_REMARK, message, line=line)


def _stop(code: Code, line: int, message: str) -> Finding:
    """A stop at a line of the program; nobody can answer for a text that controls take differently."""
    return Finding(Level.STOP, code, message, line=line)


def _bounded(findings: list[Finding]) -> Iterator[Finding]:
    """The findings by line, but no more of them than a person reads; notes are said once."""
    notes = [f for f in findings if f.level is Level.NOTE][:1]
    rest = sorted((f for f in findings if f.level is not Level.NOTE), key=lambda f: f.line or 0)
    yield from notes
    yield from rest[:MOST_FINDINGS]
    if len(rest) > MOST_FINDINGS:
        message = f"There are {len(rest) - MOST_FINDINGS} more places like these from here on."
        yield _stop(rest[MOST_FINDINGS].code, rest[MOST_FINDINGS].line or 0, message)
