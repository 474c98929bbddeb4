"""How people type: one list of blocks, written in as many ways as there are hands.

A block is a list of (address, number) pairs; lengths are counts of the least increment, the rest plain whole numbers.
A `Hand` holds one person's habits and writes blocks as text. Nothing here uses the tool's own writer. What people do
is common practice, no source.
"""

import random
from dataclasses import dataclass, field

Pair = tuple[str, int | str]
LENGTHS = frozenset("XZUWIKR")
TALK = ("rough", "CHECK OFFSET", "groove no. 1", "X 40 h11", "Ø 34", "see sheet 2", "G75 below", "%", "M30?")


@dataclass
class Hand:
    """One person's habits, drawn at random once; `write` puts blocks on paper with them."""

    rng: random.Random
    per_length: int
    per_feed: int
    lower: bool = False
    between: str = " "
    after_address: str = ""
    two_digits: bool = True
    numbering: int = 0
    zeros: int = 0
    bare_fraction: bool = False
    plus: bool = False
    modal: bool = False
    line_end: str = "\n"
    talkative: float = 0.0
    semicolon: bool = False
    pauses: float = 0.0
    shuffled: bool = False
    frame: bool = True
    in_force: int | None = None
    lines: list[str] = field(default_factory=list)

    @staticmethod
    def random(rng: random.Random, per_length: int, per_feed: int) -> "Hand":
        """Someone met at the machine."""
        return Hand(
            rng,
            per_length,
            per_feed,
            lower=rng.random() < 0.25,
            between=rng.choice([" ", " ", "", "  ", "\t"]),
            after_address=rng.choice(["", "", "", " "]),
            two_digits=rng.random() < 0.6,
            numbering=rng.choice([0, 0, 1, 5, 10, 100]),
            zeros=rng.choice([0, 0, 1, 3]),
            bare_fraction=rng.random() < 0.4,
            plus=rng.random() < 0.1,
            modal=rng.random() < 0.5,
            line_end=rng.choice(["\n", "\n", "\r\n"]),
            talkative=rng.choice([0.0, 0.1, 0.3]),
            semicolon=rng.random() < 0.3,
            pauses=rng.choice([0.0, 0.05, 0.15]),
            shuffled=rng.random() < 0.3,
            frame=rng.random() < 0.8,
        )

    def decimal(self, count: int, per_unit: int) -> str:
        """A count as this hand writes a decimal."""
        whole, rest = divmod(abs(count), per_unit)
        places = len(str(per_unit)) - 1
        fraction = f"{rest:0{places}d}".rstrip("0").ljust(min(self.zeros, places), "0")
        head = "" if self.bare_fraction and whole == 0 and fraction else str(whole)
        sign = "-" if count < 0 else "+" if self.plus and count else ""
        return f"{sign}{head}.{fraction}"

    def word(self, address: str, number: int | str) -> str:
        """One word."""
        if isinstance(number, str):
            text = number
        elif address in LENGTHS:
            text = self.decimal(number, self.per_length)
        elif address == "F":
            text = self.decimal(number, self.per_feed)
        elif address in "GM" and self.two_digits:
            text = f"{number:02d}"
        else:
            text = str(number)
        return address + self.after_address + text

    def write(self, *pairs: Pair) -> None:
        """One block, with whatever this hand adds around it."""
        words = list(pairs)
        if self.modal and words[0] == ("G", self.in_force) and len(words) > 1 and self.in_force in (0, 1):
            words = words[1:]
        for address, number in pairs:
            if address == "G" and number in (0, 1, 2, 3, 75, 28):
                self.in_force = int(number)
        if self.shuffled:
            self.rng.shuffle(words)
        body = self.between.join(self.word(a, n) for a, n in words)
        self.line(body + self._talk())
        ends = pairs[0] in (("M", 30), ("M", 2), ("M", 99))
        if not ends and self.rng.random() < self.pauses:
            self.line(self.rng.choice(["M01", "/M01", "/ M1", "/M08", "", "(next)", "G40"]))

    def line(self, body: str, numbered: bool = True) -> None:
        """One line of text as it stands, with a block number where this hand gives one."""
        skip = body.startswith("/")
        if numbered and self.numbering and body and not body.startswith("("):
            number = f"N{self.numbering * (len(self.lines) + 1)}"
            body = f"/{number} {body[1:]}" if skip else f"{number}{self.between}{body}"
        self.lines.append(body.lower() if self.lower else body)

    def _talk(self) -> str:
        """A remark at the end of a block, now and then."""
        if self.rng.random() >= self.talkative:
            return ""
        text = self.rng.choice(TALK)
        return f" ; {text}" if self.semicolon else f" ({text})"

    def text(self) -> str:
        """The whole sheet."""
        lines = ["%", *self.lines, "%"] if self.frame else self.lines
        return self.line_end.join(lines) + self.line_end
