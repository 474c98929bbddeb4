"""How a practised hand puts blocks on paper: numbering, spaces, comments, lower case, what is said again and what not.

    pen = Pen.random(random.Random(1), 1_000, 10_000)
    pen.put("G1", X=34_000, F=800)          lengths in least increments, feeds in feed counts
    pen.raw("M30")                          a block as it stands, in this hand's writing
    pen.text()

Shares nothing with `support.hands.writing`. Habits: common practice, no source.
"""

import random
from dataclasses import dataclass, field

REMARKS = (
    "GROOVE", "check size", "X ON DIAMETER", "insert sharp?", "REV B 3.4", "op 20", "G1 see below", "N10 IS THE START",
    "Z0 FRONT FACE", "no coolant on cast iron", "feed 0.1", "50%",
)  # fmt: skip


@dataclass
class Pen:
    """One hand, drawn once; `lines` is what stands on paper."""

    rng: random.Random
    per_length: int
    per_feed: int
    lower: bool = False
    gap: str = " "
    number: int = 0
    numbered_every: int = 1
    places: int = 0
    leading_zero: bool = True
    two_digits: bool = False
    repeats_motion: bool = True
    remarks: float = 0.0
    semicolon: bool = False
    scattered: bool = False
    lines: list[str] = field(default_factory=list)
    motion: str = ""
    count: int = 0

    @staticmethod
    def random(rng: random.Random, per_length: int, per_feed: int) -> "Pen":
        """Some hand."""
        return Pen(
            rng,
            per_length,
            per_feed,
            lower=rng.random() < 0.2,
            gap=rng.choice([" ", " ", "", "   "]),
            number=rng.choice([0, 0, 1, 2, 10, 100]),
            numbered_every=rng.choice([1, 1, 3]),
            places=rng.choice([0, 1, 3, 4]),
            leading_zero=rng.random() < 0.5,
            two_digits=rng.random() < 0.5,
            repeats_motion=rng.random() < 0.6,
            remarks=rng.choice([0.0, 0.1, 0.4]),
            semicolon=rng.random() < 0.2,
            scattered=rng.random() < 0.2,
        )

    def put(self, code: str, **words: int | str | None) -> None:
        """A block: a G word and its words; lengths and feeds are counts, texts stand as they are."""
        said = [f"{letter}{self._number(letter, value)}" for letter, value in words.items() if value is not None]
        if not said and code in ("G0", "G1"):
            return
        moves = code in ("G0", "G1", "G2", "G3")
        if not (moves and code == self.motion and not self.repeats_motion):
            said.insert(0, self._code(code))
        if moves:
            self.motion = code
        self._line(said)

    def raw(self, *words: str) -> None:
        """A block of words as they stand."""
        self._line([self._code(word) if word[0] in "GM" and word[1:].isdigit() else word for word in words])

    def alone(self, line: str) -> None:
        """A line that is no block: a mark, a number, a remark."""
        self.lines.append(line)

    def forget(self) -> None:
        """The next move names its motion again, as after a cycle or a call."""
        self.motion = ""

    def text(self) -> str:
        return "\n".join(self.lines) + "\n"

    def _code(self, code: str) -> str:
        """G1 or G01."""
        return code[0] + code[1:].zfill(2) if self.two_digits else code

    def _number(self, letter: str, value: int | str) -> str:
        """A number as this hand writes it."""
        if isinstance(value, str):
            return value
        per = self.per_feed if letter == "F" else self.per_length
        whole, rest = divmod(abs(value), per)
        digits = f"{rest:0{len(str(per)) - 1}d}".rstrip("0")
        digits = digits.ljust(min(self.places, len(str(per)) - 1), "0")
        front = "" if not whole and digits and not self.leading_zero else str(whole)
        return f"{'-' if value < 0 else ''}{front}.{digits}"

    def _line(self, said: list[str]) -> None:
        """A block on paper, with its number and perhaps a remark."""
        if self.scattered and len(said) > 2:
            said[1:] = self.rng.sample(said[1:], len(said) - 1)
        if self.number and self.count % self.numbered_every == 0:
            said.insert(0, f"N{(self.count + 1) * self.number}")
        self.count += 1
        remark = self.rng.choice(REMARKS) if self.rng.random() < self.remarks else ""
        line = self.gap.join(said)
        if remark and self.semicolon:
            line += f" ; {remark}"
        elif remark:
            at = self.rng.choice(["end", "middle", "before"])
            shown = f"({remark})"
            if at == "before":
                self.lines.append(shown)
            elif at == "end" or len(said) < 2:
                line += shown
            else:
                line = self.gap.join([said[0], shown, *said[1:]])
        self.lines.append(line.lower() if self.lower else line)
