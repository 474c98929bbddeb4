"""Comments that are safe at any control: whatever the text, it stays inside its parentheses on its line.

Text from a file name, a layer or a shop file is not ours. A parenthesis in it would close the comment and turn
the rest into a block; a line break, a semicolon or a percent sign ends things too. Only characters that no control
gives a meaning to are let through, upper case, ASCII; the rest becomes a hyphen.
"""

import textwrap
import unicodedata

from postproc.vocabulary.forms import ProgramFrame

SPELT = {
    "Ä": "AE", "Ö": "OE", "Ü": "UE", "ß": "SS", "ẞ": "SS", "Æ": "AE", "Œ": "OE", "Ø": "O", "Å": "AA", "Ł": "L",
    "Đ": "D", "Þ": "TH", "Ð": "D", "⌀": "DIA ", "°": " DEG", "µ": "U", "×": "X", "–": "-", "—": "-", "−": "-",
    "²": "2", "³": "3", "½": "1/2", "¼": "1/4", "¾": "3/4", ":": ",", ";": ",", "&": "+",
}  # fmt: skip
KEPT = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 .,+-/=*_")


def safe_text(text: str) -> str:
    """Upper-case ASCII that can stand inside parentheses.

    >>> safe_text("a) G00 X0 (.dxf")
    'A- G00 X0 -.DXF'
    >>> safe_text("Kolben Ø40 für Größe")
    'KOLBEN O40 FUER GROESSE'
    """
    spelt = "".join(_plain(character) for character in unicodedata.normalize("NFC", text))
    return " ".join(spelt.split())


def _plain(character: str) -> str:
    """One character of any script as the letters that are kept, or a hyphen."""
    upper = SPELT.get(character) or SPELT.get(character.upper()) or character.upper()
    if character.isspace():
        return " "
    if unicodedata.category(character) in {"Mn", "Cf"}:
        return ""
    kept = "".join(c for c in unicodedata.normalize("NFKD", upper) if c in KEPT)
    return kept or "-"


def comment_texts(text: str, frame: ProgramFrame) -> tuple[str, ...]:
    """Safe text folded to the width of a comment; never empty, so that a remark is not lost in silence.

    >>> comment_texts("", ProgramFrame()), comment_texts("GROOVES 1*4", ProgramFrame(without="*"))
    (('-',), ('GROOVES 1-4',))
    """
    safe = safe_text(text).translate({ord(one): "-" for one in frame.without})
    return tuple(textwrap.wrap(safe, frame.width)) or ("-",)


def comment_lines(text: str, frame: ProgramFrame) -> tuple[str, ...]:
    """The comment blocks that say a text.

    >>> comment_lines("%, then G28)", ProgramFrame())
    ('(-, THEN G28-)',)
    """
    return tuple(frame.comment.replace("{text}", line) for line in comment_texts(text, frame))
