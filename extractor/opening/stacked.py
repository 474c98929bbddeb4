"""Deviations that stand as texts of their own behind a size: that of a dimension, or what is left of one in pieces.

Rules: two small figures one above the other, one of them signed, or one signed figure, just behind a number on its line
are that number's deviations, and a tolerance class is its own. So are a fraction and a nought in smaller letters,
unsigned: nobody can tell what they allow, but they are no size, nor is a figure in letters smaller than the number's
right under or over its one signed deviation. The number takes them in as `+0.1^0`, and they are
texts no longer.
"""

import math
import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from operator import attrgetter

from extractor.sheet import LETTER, Text

SIGNED = re.compile(r"(?:[+-]|\u00b1|%%p)\s*\d*[.,]?\d+")
"""A deviation with its sign, which nothing else on a drawing is written like."""
CLASS = re.compile(r"\(?(?:[d-hD-HkKmMnNpP]|js|JS)(?:[5-9]|1[0-4])\)?")
"""A tolerance class of those that grooves have; it stands alone."""
SIZE = re.compile(rf"\(?(?:\d+\s*[x\u00d7X-]\s*)?(?:\u00d8|R)?\s*\d*[.,]?\d+\)?(?:\s*{CLASS.pattern})?")
"""A number that may have deviations behind it, with its class or without."""
ZERO = re.compile(r"0+(?:[.,]0*)?")
"""The other one of two, which needs no sign."""
UNSIGNED = re.compile(r"0?[.,]\d+")
"""What may be a deviation without its sign."""
PLAIN = re.compile(r"\d*[.,]?\d+")
"""What is no deviation, and in its place may be one misprinted."""
HALF = re.compile(r"[+-].*")
"""A deviation that has another one over or under it."""
APART = 2.2
"""Letter heights from one deviation down to the other, at most."""
IN_LINE = 0.5
"""Letter heights by which they may begin otherwise."""
BEHIND = 0.6, 1.8
"""Shares of a number's length, as its letters are counted, at which deviations may begin: letters differ in width."""
GAP = 1.5
"""Letter heights by which they may stand farther behind it."""
LEVEL = 1.2
"""Letter heights by which they may stand above or below its line."""


def with_deviations(texts: Sequence[Text], labels: Sequence[Text] = ()) -> tuple[list[Text], list[Text]]:
    """The texts of a sheet, and the labels of its dimensions, with loose deviations put behind their numbers."""
    forms = (SIGNED, CLASS, UNSIGNED)
    signed = [t for t in texts if any(form.fullmatch(t.text.strip()) for form in forms)]
    if not signed:
        return list(texts), list(labels)
    sizes = [t for t in (*texts, *labels) if t.height > 0 and SIZE.fullmatch(t.text.strip())]
    plain = sorted((t for t in texts if PLAIN.fullmatch(t.text.strip())), key=attrgetter("at"))
    whole: dict[int, Text] = {}
    gone: set[int] = set()
    for stack in _stacks(signed, texts):
        near = (t for t in sizes if _behind(stack, t))
        own = min(near, key=lambda t: sum(math.dist(t.at, one.at) for one in stack), default=None)
        if own is not None and id(own) not in whole and not gone & {id(t) for t in stack}:
            stack = _with_misprint(stack, own, plain)
            whole[id(own)] = replace(own, text=f"{own.text} {'^'.join(t.text.strip() for t in stack)}")
            gone |= {id(t) for t in stack}
    return [whole.get(id(t), t) for t in texts if id(t) not in gone], [whole.get(id(t), t) for t in labels]


def _stacks(signed: Sequence[Text], texts: Sequence[Text]) -> Iterator[tuple[Text, ...]]:
    """Each signed figure with the figure under or over it, the upper one first."""
    figures = [t for t in texts if SIGNED.fullmatch(t.text.strip()) or ZERO.fullmatch(t.text.strip())]
    for one in signed:
        alone = CLASS.fullmatch(one.text.strip()) is not None
        others = [t for t in figures if not alone and t is not one and t.angle == one.angle and _stacked(one, t)]
        other = min(others, key=lambda t: math.dist(t.at, one.at), default=None)
        pair = (one,) if other is None else (one, other)
        if UNSIGNED.fullmatch(one.text.strip()) and (other is None or not ZERO.fullmatch(other.text.strip())):
            continue
        yield _downwards(pair)


def _downwards(stack: tuple[Text, ...]) -> tuple[Text, ...]:
    """A stack with the upper one first."""
    return tuple(sorted(stack, key=lambda t: stack[0].seen(t.at)[1], reverse=True))


def _with_misprint(stack: tuple[Text, ...], size: Text, plain: Sequence[Text]) -> tuple[Text, ...]:
    """The stack behind a size, one deviation with the small figure under or over it; `plain` are sorted by place."""
    one = stack[0]
    if len(stack) > 1 or not HALF.fullmatch(one.text.strip()):
        return stack
    x, reach = one.at[0], (APART + IN_LINE) * one.height
    low = bisect_left(plain, x - reach, key=lambda t: t.at[0])
    near = plain[low : bisect_right(plain, x + reach, key=lambda t: t.at[0])]
    small = [t for t in near if t.height < size.height and t.angle == one.angle and _stacked(one, t)]
    other = min(small, key=lambda t: math.dist(t.at, one.at), default=None)
    return stack if other is None else _downwards((one, other))


def _stacked(one: Text, other: Text) -> bool:
    """True for two texts one above the other."""
    along, up = one.seen(other.at)
    return abs(along) <= IN_LINE * one.height and 0 < abs(up) <= APART * one.height


def _behind(stack: Sequence[Text], size: Text) -> bool:
    """True if deviations stand just behind a number."""
    unsigned = len(stack) > 1 and not any(SIGNED.fullmatch(t.text.strip()) for t in stack)
    tall = max(t.height for t in stack)
    if size in stack or size.angle != stack[0].angle or tall > size.height or (unsigned and tall == size.height):
        return False
    places = [size.seen(t.at) for t in stack]
    length = LETTER * size.height * len(size.text)
    low, high = BEHIND[0] * length, BEHIND[1] * length + GAP * size.height
    level = LEVEL * size.height
    return all(low <= along <= high and abs(up) <= level for along, up in places)
