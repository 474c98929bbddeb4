"""Plain text from what DXF writes: TEXT codes, MTEXT markup with stacked fractions, Unicode escapes, wrong encodings.

Rules: what leaves here is one printable string; a stacked fraction becomes `upper/lower` with `^` for tolerance stacks,
so that a reader of deviations can still tell them apart; a diameter sign is always U+00D8 in the form "Ø".
"""

import re

from ezdxf.tools.text import MTextParser, TokenType, plain_text

FULL_WIDTH = 0xFEE0
"""From a letter or sign to its wide form."""
UNICODE_ESCAPE = re.compile(r"\\U\+([0-9A-Fa-f]{4})")
MULTIBYTE_ESCAPE = re.compile(r"\\M\+[1-5]([0-9A-Fa-f]{4})")
SIGNS = str.maketrans(
    dict.fromkeys("\u00f8\u2205\u2300\u03c6\u03a6\u03d5\u0424\u0278\u20e0", "Ø")
    | dict.fromkeys("\u00a0\u1680\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B))), " ")
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63", "-")
    | dict.fromkeys("\u2044\u2215", "/")
    | dict.fromkeys("\u2715\u2716\u2a2f", "×")
    | {"\u2213": "±", "\u21a7": " DEEP "}
    | dict(zip("½¼¾⅛⅜⅝⅞", (f" {one}" for one in ("1/2", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8")), strict=True))
    | {chr(code + FULL_WIDTH): chr(code) for code in range(0x21, 0x7F)}
)
"""Letters and signs that mean the same on drawings, brought to one: those of a diameter, every kind of blank (one that
must not be broken joins no figures), dash and stroke, the sign of a depth, fractions in one sign, and the wide forms of
Chinese and Japanese keyboards (Unicode, FF01 to FF5E)."""
TIMES = re.compile(r"(?<=\d)(\s*)[\u0445\u0425](?=\s*[\dØRM])")
"""A Cyrillic letter that looks like an x, between a count and a size: it lies on the same key."""
DEPTH = re.compile(r"(?<=\d)\s*[\u25bc\u23f7]\s*(?=[.\d])")
"""The sign of a depth in other letters, between two figures: alone or twice it is a mark of roughness or of a level."""
MANGLED = frozenset("ÃÂâ")
"""What the first UTF-8 byte of an accented letter, or of a sign like Ø, ⌀, ± or °, is in Windows-1252."""
SPACED, WORDS_APART = re.compile(r"\S(?: {1,3}\S)*"), re.compile(r" {2,3}")
"""A line of single letters and figures, and what stands between its words."""
LETTERS = 4
"""Letters of such a line, at least: fewer may be those of datums."""
LONGEST = 4000
"""Characters of one text that are looked at; no note that matters is longer."""


def clean(text: str) -> str:
    r"""Printable text on one line: bytes that fit no encoding are read as Windows-1252, control characters dropped.

    >>> clean("a" + chr(0xDCB0) + "\nb")
    'a° b'
    """
    return _printable(text).replace("\n", " ")


def _printable(text: str) -> str:
    """The same, line ends kept."""
    if text.isprintable():
        return text[:LONGEST]
    raw = "".join(_rescued(c) for c in text[:LONGEST])
    return "".join(c for c in raw if c.isprintable() or c == "\n")


def _rescued(char: str) -> str:
    """A character kept from a byte that could not be decoded (surrogate escape), else the character itself."""
    if "\udc80" <= char <= "\udcff":
        return bytes([ord(char) - 0xDC00]).decode("cp1252", "replace")
    return "?" if "\ud800" <= char <= "\udfff" else char


def unescaped(text: str) -> str:
    r"""Text with `\U+00F8` and the like resolved.

    >>> unescaped(r"\U+00D820")
    'Ø20'
    """
    text = _unmangled(text)
    if "\\" not in text:
        return text
    text = MULTIBYTE_ESCAPE.sub("?", text)
    return UNICODE_ESCAPE.sub(lambda m: chr(int(m.group(1), 16)), text)


def _unmangled(text: str) -> str:
    """The text as it was meant, if it is UTF-8 that was read as Windows-1252: one program's notes in another's file.

    Without one of the MANGLED it stays: the bytes of `Ø±0.1` in Windows-1252 are sound UTF-8 for another letter.
    """
    if text.isascii() or not set(text) & MANGLED:
        return text
    try:
        return text.encode("cp1252").decode("utf-8")
    except UnicodeError:
        return text


def _one_spelling(text: str) -> str:
    """The text in the signs that all rules know.

    >>> _one_spelling("2\u0445\u03c632\u00a0\uff0b0/\u20100.1")
    '2xØ32 +0/-0.1'
    """
    return text if text.isascii() else DEPTH.sub(" DEEP ", TIMES.sub(r"\1x", text.translate(SIGNS)))


def _unspaced(line: str) -> str:
    """A line whose letters are spaced out by blanks, with two between words, as it is meant.

    >>> _unspaced("3  G R O O V E S  4 . 5  W I D E"), _unspaced("N U T  4 x 3"), _unspaced("A B C")
    ('3 GROOVES 4.5 WIDE', 'NUT 4x3', 'A B C')
    """
    if not SPACED.fullmatch(line) or sum(map(str.isalpha, line)) < LETTERS:
        return line
    return " ".join(word.replace(" ", "") for word in WORDS_APART.split(line))


def plain_line(text: str) -> str:
    """Plain text of a TEXT or ATTRIB entity."""
    text = unescaped(text[:LONGEST])
    return _unspaced(clean(_one_spelling(plain_text(text) if "%" in text or "^" in text else text)))


def plain_paragraphs(text: str) -> str:
    r"""Plain text of an MTEXT entity, line ends kept; what is struck out says nothing any more.

    >>> plain_paragraphs(r"\K<>\k 2.9")
    '2.9'
    >>> plain_paragraphs(r"{\fArial|b0;%%c36}\~{\H0.7x;\S-0.05^-0.15;}"), plain_paragraphs(r"{\Fgdt.shx;n}34")
    ('Ø36 -0.05^-0.15', 'Ø34')
    """
    if SPACED.fullmatch(text):
        return plain_line(text)
    if not MARKED_UP.search(text):
        return clean(_one_spelling(unescaped(text[:LONGEST]))).strip()
    prepared = STACK.sub(_spelt_stack, unescaped(text[:LONGEST]))
    words = "".join(
        _token_text(token.type, token.data, token.ctx.font_face.family)
        for token in MTextParser(prepared)
        if not token.ctx.strike_through
    )
    lines = re.sub(" +", " ", _printable(_one_spelling(words.replace(CARET, "^")))).strip()
    between = ROUND_IT.fullmatch(lines)
    return lines if between is None else f"{between[2]} {between[1]}^{between[3]}"


MARKED_UP = re.compile(r"[\\{}%^]|[^\S ]|  ")
"""Where none of these is, the text of an MTEXT is what it prints; the library's way to that takes long."""
STACK = re.compile(r"(?<!\\)\\S(?:((?:\\.|[^;\\])*);|([^;\\{}]*)(?=\}|$))")
"""Where the closing semicolon is missing, a stack ends with the text or with its braces."""
ROUND_IT = re.compile(r"([+-]\s*[\d.,]+|0)\n(Ø?\s*[\d.,]+)\n([+-]\s*[\d.,]+|0)")
"""A size in a line of its own between its two deviations."""
SYMBOLS = re.compile("gdt", re.I)
"""What fonts of tolerancing symbols are called, in which the letter n is a diameter sign (from memory)."""
CARET = "\ue000"
"""Stands for the bar of a tolerance stack while the markup is read; the parser would take `^-` for a control code."""


def _spelt_stack(match: re.Match[str]) -> str:
    """A stack as plain text with a space before it, so that 1 and 1/2 don't run together to 11/2."""
    upper, bar, lower = re.match(r"([^/#^]*)([/#^]?)(.*)", match[1] or match[2] or "", re.S).groups()  # type: ignore[union-attr]
    return f" {upper.strip()}{CARET if bar == '^' else '/' if bar else ''}{lower.strip()}"


def _token_text(kind: TokenType, data: object, font: str) -> str:
    """What one piece of MTEXT prints in a font."""
    if kind == TokenType.WORD:
        return str(data).replace("n", "Ø") if SYMBOLS.search(font) else str(data)
    if kind in (TokenType.SPACE, TokenType.NBSP, TokenType.TABULATOR, TokenType.WRAP_AT_DIMLINE):
        return " "
    return "\n" if kind in (TokenType.NEW_PARAGRAPH, TokenType.NEW_COLUMN) else ""
