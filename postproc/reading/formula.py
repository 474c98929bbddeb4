"""Formulas of macro variables: `[#101-2.*#105]`, `ABS[#3]`, `#101 GT 40.8`, worked out with the values at hand.

Brackets first, then functions, then * / AND MOD, then + - OR XOR, then comparisons; angles are degrees (common
practice of the trade's macros). A variable of no value makes the whole formula unknown; #0 is always empty.
"""

import math
import operator
import re
from collections.abc import Callable, Mapping
from functools import lru_cache

TOKEN = re.compile(
    r"\s*(WHILE|GOTO|THEN|ROUND|SQRT|ASIN|ACOS|ATAN|ABS|SIN|COS|TAN|FIX|FUP|MOD|AND|XOR|END|EQ|NE|GT|LT|GE|LE|OR|IF|DO"
    r"|[A-Z]|\d+\.?\d*|\.\d+|[\[\]#=+\-*/])"
)
FUNCTIONS: Mapping[str, Callable[[float], float]] = {
    "ABS": abs,
    "SQRT": math.sqrt,
    "SIN": lambda angle: math.sin(math.radians(angle)),
    "COS": lambda angle: math.cos(math.radians(angle)),
    "TAN": lambda angle: math.tan(math.radians(angle)),
    "ASIN": lambda ratio: math.degrees(math.asin(ratio)),
    "ACOS": lambda ratio: math.degrees(math.acos(ratio)),
    "ATAN": lambda ratio: math.degrees(math.atan(ratio)),
    "ROUND": lambda value: math.copysign(math.floor(abs(value) + 0.5), value),
    "FIX": math.trunc,
    "FUP": lambda value: math.copysign(math.ceil(abs(value)), value),
}
COMPARISONS: Mapping[str, Callable[[float, float], bool]] = {
    "EQ": operator.eq,
    "NE": operator.ne,
    "GT": operator.gt,
    "LT": operator.lt,
    "GE": operator.ge,
    "LE": operator.le,
}
CLOSE = 1e-6
"""Values nearer than this and not equal differ by what sums of decimals leave (binary fractions; far below a count)."""
EMPTY = 0
"""The number of the variable that never has a value."""
MOST_DEEP = 20
"""Brackets inside one another; controls allow five or so (common practice)."""


class Unknown(Exception):
    """A formula that has no value; its message says why."""


class Unset(Unknown):
    """A formula without a value because nothing in the program gives one to a variable; the machine may."""


class Broken(Exception):
    """A text that is neither a formula nor a statement; its message says what was expected."""


def tokens(text: str) -> tuple[str, ...]:
    """The tokens of a statement; raises Broken if a character belongs to none.

    >>> tokens("WHILE[#110GT40.8]DO1")
    ('WHILE', '[', '#', '110', 'GT', '40.8', ']', 'DO', '1')
    """
    return _taken_apart(text)[0]


def places(text: str) -> tuple[int, ...]:
    """The columns, from 1, at which the tokens of a statement begin."""
    return _taken_apart(text)[1]


@lru_cache(maxsize=2048)
def _taken_apart(text: str) -> tuple[tuple[str, ...], tuple[int, ...]]:
    """The tokens of a statement and their columns."""
    found, columns, at = [], [], 0
    text = text.rstrip().upper()
    while at < len(text):
        match = TOKEN.match(text, at)
        if match is None:
            raise Broken(f"{text[at : at + 12].strip()} belongs to no formula")
        found.append(match[1])
        columns.append(match.start(1) + 1)
        at = match.end()
    return tuple(found), tuple(columns)


class Formula:
    """Reads values from tokens one after another; `values` are those of the variables, no number for a vacant one."""

    def __init__(self, found: tuple[str, ...], values: Mapping[int, float], equal: bool = False) -> None:
        """Begin at the first token; `equal` takes values that are compared and all but equal for equal."""
        self.found, self.values, self.at, self._deep, self._equal = found, values, 0, 0, equal
        self.close = False
        """True once two values were compared that are all but equal."""
        self.bare = False
        """True where a variable without a value may stand: what comes of it has none either, and is no number."""

    @property
    def next(self) -> str:
        """The token to come, empty at the end."""
        return self.found[self.at] if self.at < len(self.found) else ""

    def take(self, *wanted: str) -> str:
        """The next token, which must be one of those wanted (any where none is named)."""
        token = self.next
        if not token or (wanted and token not in wanted):
            raise Broken(f"{' or '.join(wanted) or 'more'} is missing")
        self.at += 1
        return token

    def condition(self) -> bool:
        """A comparison in brackets, empty variables allowed on either side.

        A vacant one is not equal to 0 at some controls and is 0 at others (common practice, from memory).
        """
        self.take("[")
        left = self._side()
        sign = self.take(*COMPARISONS)
        right = self._side()
        self.take("]")
        empty = [side is None or math.isnan(side) for side in (left, right)]
        if left is None or right is None or any(empty):
            if sign not in ("EQ", "NE") or (0 in (left, right) and None not in (left, right)):
                raise Unset("nothing in the program gives a value to the variable that it compares")
            return all(empty) is (sign == "EQ")
        if left != right and abs(left - right) < CLOSE:
            self.close, left = True, right if self._equal else left
        return COMPARISONS[sign](left, right)

    def _side(self) -> float | None:
        """One side of a comparison, None for the empty variable and no number for a vacant one alone."""
        sign, name, after = (*self.found[self.at :], "", "", "")[:3]
        if (sign, name) == ("#", str(EMPTY)):
            self.at += 2
            return None
        if sign == "#" and name.isdigit() and (after == "]" or after in COMPARISONS):
            self.bare = int(name) in self.values
        value = self.sum()
        self.bare = False
        return value

    def sum(self) -> float:
        """Terms added, subtracted, or joined bit by bit."""
        value = self._product()
        while self.next in ("+", "-", "OR", "XOR"):
            sign, other = self.take(), self._product()
            value = value + other if sign == "+" else value - other if sign == "-" else _bits(sign, value, other)
        return value

    def _product(self) -> float:
        """Factors multiplied or divided."""
        value = self.factor()
        while self.next in ("*", "/", "MOD", "AND"):
            sign, other = self.take(), self.factor()
            if sign in ("/", "MOD") and not other:
                raise Unknown("a division by 0 has no value")
            if sign == "AND":
                value = _bits(sign, value, other)
            else:
                value = value * other if sign == "*" else value / other if sign == "/" else math.fmod(value, other)
        return value

    def factor(self) -> float:
        """A number, a variable, a bracket or a function, with or without a sign before it."""
        token = self.take()
        if token in "+-":
            return self.factor() if token == "+" else -self.factor()
        if token[0].isdigit() or token[0] == ".":
            return float(token)
        if token == "#":
            return self.variable()
        if token == "[":
            return self._inner()
        if token in FUNCTIONS:
            return self._function(token)
        raise Broken(f"{token} stands where a value is needed")

    def _inner(self) -> float:
        """What stands in a bracket that has been opened."""
        self._deep += 1
        if self._deep > MOST_DEEP:
            raise Broken("there are too many brackets inside one another")
        value = self.sum()
        self._deep -= 1
        self.take("]")
        return value

    def _function(self, name: str) -> float:
        """A function of a bracket; ATAN may have two, across and along."""
        self.take("[")
        value = self._inner()
        if name == "ATAN" and self.found[self.at : self.at + 2] == ("/", "["):
            self.at += 2
            return math.degrees(math.atan2(value, self._inner()))
        if math.isnan(value):
            return value
        try:
            return float(FUNCTIONS[name](value))
        except (ValueError, OverflowError) as error:
            raise Unknown(f"{name} of {value:g} has no value") from error

    def variable(self) -> float:
        """The value of the variable whose number comes next; the number may be a formula itself."""
        number = self.number()
        value = self.values.get(number, math.nan)
        if math.isnan(value) and not self.bare:
            raise Unset(f"nothing in the program gives #{number} a value here")
        return value

    def number(self) -> int:
        """The number of a variable, a block or a loop."""
        value = self.factor()
        if math.isnan(value):
            raise Unknown("nothing in the program gives a value to the variable that numbers another")
        if not math.isfinite(value) or value != int(value) or value < 0:
            raise Broken(f"{value:g} is not the number of a variable or a block")
        return int(value)


def _bits(sign: str, value: float, other: float) -> float:
    """Whole numbers joined bit by bit, no number where one is none."""
    if math.isnan(value) or math.isnan(other):
        return math.nan
    joined = {"OR": operator.or_, "XOR": operator.xor, "AND": operator.and_}[sign]
    return float(joined(round(value), round(other)))
