"""How a practised hand puts blocks on paper besides what any hand does: remarks anywhere, numbers now and then.

    pen = Pen.random(random.Random(1), 1_000, 10_000)
    pen.put("G1", X=34_000, F=800)          lengths in least increments, feeds in feed counts
    pen.raw("M30")                          a block as it stands, in this hand's writing
    pen.text()

Habits: common practice, no source.
"""

import random
from dataclasses import dataclass

from support.hands.writing import Hand

REMARKS = (
    "GROOVE", "check size", "X ON DIAMETER", "insert sharp?", "REV B 3.4", "op 20", "G1 see below", "N10 IS THE START",
    "Z0 FRONT FACE", "no coolant on cast iron", "feed 0.1", "50%",
)  # fmt: skip
MOVES = ("G0", "G1", "G2", "G3")


@dataclass
class Pen(Hand):
    """One hand, drawn once; `motion` is the move in force."""

    numbered_every: int = 1
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
            between=rng.choice([" ", " ", "", "   "]),
            numbering=rng.choice([0, 0, 1, 2, 10, 100]),
            numbered_every=rng.choice([1, 1, 3]),
            zeros=rng.choice([0, 1, 3, 4]),
            bare_fraction=rng.random() >= 0.5,
            two_digits=rng.random() < 0.5,
            modal=rng.random() >= 0.6,
            talkative=rng.choice([0.0, 0.1, 0.4]),
            semicolon=rng.random() < 0.2,
            shuffled=rng.random() < 0.2,
            frame=False,
        )

    def put(self, code: str, **words: int | str | None) -> None:
        """A block: a G word and its words; lengths and feeds are counts, texts stand as they are."""
        said = [self.word(letter, value) for letter, value in words.items() if value is not None]
        if not said and code in ("G0", "G1"):
            return
        if not (code in MOVES and code == self.motion and self.modal):
            said.insert(0, self.code(code))
        self.motion = code if code in MOVES else self.motion
        self.block(said)

    def raw(self, *words: str) -> None:
        """A block of words as they stand."""
        self.block([self.code(word) if word[0] in "GM" and word[1:].isdigit() else word for word in words])

    def code(self, code: str) -> str:
        """G1 or G01."""
        return self.word(code[0], int(code[1:]))

    def forget(self) -> None:
        """The next move names its motion again, as after a cycle or a call."""
        self.motion = ""

    def block(self, said: list[str]) -> None:
        """A block on paper, with its number and perhaps a remark."""
        if self.shuffled and len(said) > 2:
            said[1:] = self.rng.sample(said[1:], len(said) - 1)
        if self.numbering and self.count % self.numbered_every == 0:
            said.insert(0, f"N{(self.count + 1) * self.numbering}")
        self.count += 1
        remark = self.rng.choice(REMARKS) if self.rng.random() < self.talkative else ""
        line = self.between.join(said)
        if remark and self.semicolon:
            line += f" ; {remark}"
        elif remark:
            at = self.rng.choice(["end", "middle", "before"])
            if at == "before":
                self.lines.append(f"({remark})")
            elif at == "end" or len(said) < 2:
                line += f"({remark})"
            else:
                line = self.between.join([said[0], f"({remark})", *said[1:]])
        self.line(line, numbered=False)
