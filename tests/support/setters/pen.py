"""Words and blocks in a setter's habits; where the tool stands, and what is in force."""

import math
from dataclasses import dataclass, replace


@dataclass
class Block:
    """One block before it is spelt: (letter, digits) words, what it is for, and the slots that it serves."""

    words: list
    comment: str = ""
    tag: str = ""
    slots: tuple = ()
    skip: bool = False

    def copy(self):
        return replace(self, words=list(self.words))


class Pen:
    """Writes blocks and knows where they leave the tool."""

    def __init__(self, shaft, habits, rng):
        self.shaft, self.habits, self.rng = shaft, habits, rng
        self.mm, self.plain = shaft.units == "mm", shaft.control == "plunge"
        self.k = 1.0 if self.mm else 0.04
        self.blocks, self.subs = [], []
        self.into = self.blocks
        self.mode = self.feed = self.x = self.z = None
        self.slots = ()
        self.relative = False

    def number(self, value):
        """A length as digits."""
        places, points = (3 if self.mm else 4), self.habits.points
        text = f"{round(value, places) + 0.0:.{places}f}"
        if points == "three":
            return text
        text = text.rstrip("0")
        if points == "zero":
            return text + "0" if text.endswith(".") else text
        if points == "short" and len(text.lstrip("-0.")) > 0:
            return text.replace("-0.", "-.") if text.startswith("-") else text.removeprefix("0")
        return text

    def code(self, number):
        return f"{number:02d}" if self.habits.gzero else f"{number}"

    def word(self, letter, value):
        return letter, self.number(value)

    def block(self, *words, tag="", comment="", skip=False):
        self.into.append(Block([word for word in words if word], comment, tag, self.slots, skip))

    def move(self, mode, x=None, z=None, feed=None, tag="", uw=False):
        """A move, with no more words than the habit asks for; none at all if it leads nowhere."""
        places = self._place("X", "U", x, self.x, uw) + self._place("Z", "W", z, self.z, uw)
        if not places:
            return
        words = [] if self.habits.modal and self.mode == mode else [("G", self.code(mode))]
        words += places
        if mode and feed is not None and not (self.habits.modal and feed == self.feed):
            words.append(self.word("F", feed))
            self.feed = feed
        self.mode = mode
        self.x, self.z = self.x if x is None else x, self.z if z is None else z
        self.block(*words, tag=tag)

    def _place(self, absolute, increment, value, at, uw):
        if value is None or (at is not None and math.isclose(value, at, abs_tol=1e-9)):
            return []
        if at is not None and (self.relative or uw):
            return [self.word(absolute if self.relative else increment, value - at)]
        return [self.word(absolute, value)]

    def head(self):
        habits = self.habits
        self.block(("O", self.rng.choice(["0001", "0123", "1", "4711"])), tag="o")
        if habits.comments == "many":
            self.block(comment="GROOVES ONLY. OD IS TURNED BEFORE.")
        iso = self.plain and self.rng.random() < 0.8
        unit = ("G", ("71" if self.mm else "70") if iso else ("21" if self.mm else "20"))
        self.clamp = "92" if iso else "50"
        rev, absolute = ("G", "95" if self.plain else "99"), ("G", "90") if self.plain else None
        if habits.header in ("safety", "minimal"):
            safe = ("G", "40") if habits.header == "safety" else None
            self.block(unit, safe, absolute, rev, tag="head")
            return
        self.block(unit, tag="unit")
        self.block(rev, absolute, tag="rev")
        if habits.header == "offset":
            self.block(("G", "54"), tag="offset")

    def away(self, first=False):
        """To where the turret may turn."""
        self.mode, home = None, self.habits.home
        if home == "place" or self.plain:
            far = (200.0, 100.0) if self.mm else (8.0, 4.0)
            if first or self.habits.approach == "both":
                self.move(0, *far, tag="home")
            else:
                self.move(0, x=far[0], tag="home x")
                self.move(0, z=far[1], tag="home z")
        else:
            self._reference(home)
            self.x = self.z = None
        self.mode = None

    def _reference(self, home):
        if home == "g28":
            self.block(("G", "28"), self.word("U", 0), self.word("W", 0), tag="home")
            return
        for axis, increment in ("XU", "ZW"):
            if home == "g53":
                self.block(("G", "53"), ("G", self.code(0)), self.word(axis, 0), tag="home")
            else:
                self.block(("G", "28"), self.word(increment, 0), tag="home")

    def tool(self, insert):
        habits, station = self.habits, insert.station
        note = f"GROOVE {self.number(insert.width)} WIDE" if habits.comments in ("some", "many") else ""
        digits = f"{station:02d}{station:02d}" if habits.tcode == "four" else f"{station}{station:02d}"
        self.block(("T", digits), comment=note, tag="tool")
        if habits.speed == "css":
            self.block(("G", self.clamp), ("S", self.rng.choice(["1500", "2000", "3000"])), tag="clamp")
            self.block(("G", "96"), ("S", "120" if self.mm else "400"), ("M", self.code(3)), tag="speed")
        else:
            turns = (120000 if self.mm else 4800) / (math.pi * self.shaft.largest)
            self.block(("G", "97"), ("S", str(min(2800, int(turns)))), ("M", self.code(3)), tag="speed")
        if habits.coolant:
            self.block(("M", habits.coolant[1:]), tag="coolant")
        self.mode = self.feed = None

    def dry(self):
        if self.habits.coolant:
            self.block(("M", "09"), tag="coolant off")

    def dwell(self):
        kind = self.habits.dwell
        if kind == "P" and not self.plain:
            self.block(("G", self.code(4)), ("P", "300"), tag="dwell")
        elif kind != "none":
            self.block(("G", self.code(4)), ("X" if self.plain else kind, self.number(0.3)), tag="dwell")
            self.mode = None


def spell(blocks, habits):
    """The text of blocks, and the line of each."""
    lines, at, count = ["%"] if habits.percent else [], [], 0
    gap = " " if habits.spaces else ""
    for block in blocks:
        text = gap.join(letter + digits for letter, digits in block.words)
        if block.words and block.words[0][0] != "O":
            count += 1
            text = gap.join(filter(None, (_numbered(block, count, habits.number), text)))
        if block.skip:
            text = "/" + text
        if block.comment:
            said = f"; {block.comment.lower()}" if habits.comments == "semi" else f"({block.comment})"
            text = gap.join(filter(None, (text, said)))
        lines.append(text.lower() if habits.lower else text)
        at.append(len(lines))
    lines += ["%"] if habits.percent else []
    return habits.eol.join(lines) + habits.eol, at


def _numbered(block, count, habit):
    """The N word of a block, "" for none."""
    if habit == "tool":
        return f"N{block.words[0][1][:2]}" if block.words[0][0] == "T" else ""
    widths = {"ten": (10, 0), "five": (5, 3), "four": (10, 4), "one": (1, 0)}
    step, digits = widths.get(habit, (0, 0))
    return f"N{count * step:0{digits}d}" if step else ""
