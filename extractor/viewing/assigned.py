"""Which of the dimensions in pieces a text is of, where it stands by several and several texts stand by one.

The likeliest goes first: a text that begins with its size, a line as long as it prints, the nearest.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from extractor.sheet import Text
from extractor.viewing.in_line import amid
from extractor.viewing.loose import Loose, lead
from extractor.viewing.two_limits import are_limits

BEGINS = re.compile(r"\s*\(?\s*(?:\d+\s*[x×X]\s*)?(?:Ø|dia\b\.?|D\s*=|D(?=\d{2}|\d*[.,]\d))?\s*[.,]?\d", re.I)
"""How a dimension's text begins: with its size, a count or a diameter sign before it; a note begins with a word."""
Pieces = dict[int, list[Loose]]


def assigned(open_to: Pieces, texts: Sequence[Text]) -> tuple[Pieces, dict[int, Loose]]:
    """By number of a text every dimension that it may be of, and the one that it is of."""
    every = _at_home(open_to, texts)
    clear = {k: pieces for k, pieces in every.items() if lead(pieces, texts[k].height)}
    rows = [(k, piece) for k, pieces in clear.items() for piece in pieces]
    rows.sort(key=lambda row: (not BEGINS.match(texts[row[0]].text), not row[1].says, row[1].away))
    lines, whole = set[int](), dict[int, Loose]()
    for k, piece in rows:
        # One whose own line is another's does not fall to the next, which may be any, unless it prints its length.
        nearest = min(one.away for one in clear[k])
        if k not in whole and piece.line not in lines and (piece.says or piece.away <= nearest):
            lines.add(piece.line)
            whole[k] = piece
    for k in (k for k in every if k not in clear):
        # Where nobody could tell which of two lines a size is for, the other one may have its own by now.
        left = [piece for piece in every[k] if piece.line not in lines]
        if left and left[0].sure and lead(left, texts[k].height):
            lines.add(left[0].line)
            whole[k] = left[0]
    return every, whole


def with_other_limit(k: int, whole: dict[int, Loose], every: Pieces, texts: Sequence[Text]) -> Loose:
    """A dimension with both limits for its text, where the other one stands on the far side of its line, or at it."""
    piece = whole[k]
    for j, others in every.items():
        own = whole.get(j)
        over = piece.sure and j != k and any(one.line == piece.line for one in others)
        meant = own is not None and (own.sure or own.says)  # for its own line: a size of its own
        if over and not meant and are_limits(texts[k], texts[j], piece.ends, alone=own is None):
            return replace(piece, dimension=replace(piece.dimension, text=f"{texts[k].text}^{texts[j].text}"))
    return piece


def _at_home(every: Pieces, texts: Sequence[Text]) -> Pieces:
    """The same, of a text over the middle of a sure line that line alone: no value chooses another one.

    Unless the line is as long as a text says that stands over the middle of none: that has been moved aside.
    """
    homes = {k: [one for one in pieces if one.sure and amid(texts[k], one.ends)] for k, pieces in every.items()}
    aside = {pieces[0].line for k, pieces in every.items() if not homes[k] and pieces[0].says}
    return {k: [piece for piece in homes[k] if piece.line not in aside] or every[k] for k in every}
