"""A small lathe control of its own: words in, straight legs out. X is a diameter, lengths are floats as written.

Follows what whole programs use: straight lines and arcs, G71, G72, G70 with P and Q, G90, G94, G92, G76, G32, G33,
G74, G75, G83, macro variables with WHILE and IF, M98. All of it common practice of the trade, from memory.
"""

import math
import re
from dataclasses import dataclass, field
from itertools import pairwise

WORD = re.compile(r"([A-Z])\s*([-+]?)\s*(\[[^A-Z]*\]|#\d+|\d*\.?\d*)")
PY = {" EQ ": "==", " NE ": "!=", " GT ": ">", " LT ": "<", " GE ": ">=", " LE ": "<=", "[": "(", "]": ")"}
AWAY = 20_000.0
"""Where the reference point is taken to be, on both axes."""


@dataclass(frozen=True)
class Leg:
    """One straight move: its kind ("rapid", "feed" or "thread"), both ends, the station at work, the line."""

    kind: str
    x0: float
    z0: float
    x1: float
    z1: float
    tool: int
    line: int

    @property
    def rapid(self) -> bool:
        return self.kind == "rapid"

    @property
    def a(self) -> tuple[float, float]:
        """Radius and z where it begins."""
        return self.x0 / 2, self.z0

    @property
    def b(self) -> tuple[float, float]:
        """Radius and z where it ends."""
        return self.x1 / 2, self.z1


@dataclass
class Lathe:
    """One program on one control. `iso`: G90, G94 and the like are settings, not cycles."""

    text: str
    iso: bool = False
    x: float = AWAY
    z: float = AWAY
    tool: int = 0
    mode: int = 0
    incremental: bool = False
    back: float = 0.5
    depth: float = 1.0
    least: float = 0.001
    legs: list[Leg] = field(default_factory=list)
    var: dict[int, float] = field(default_factory=dict)
    box: tuple[float, float, float] | None = None

    def run(self) -> "Lathe":
        """Follow the main program to its end."""
        self.lines = [re.sub(r"\([^)]*\)|;.*", "", line).upper().strip() for line in self.text.splitlines()]
        self.stack: list[tuple[int, int, int]] = []
        self.at = 0
        for _ in range(200_000):
            if self.at >= len(self.lines) or not self.step():
                return self
        raise RuntimeError("it never ends")

    def step(self) -> bool:
        """One line; False at the end."""
        line = self.lines[self.at].lstrip("/")
        self.at += 1
        if not line or line[0] in "%O:[":
            return True
        if "#" in line and self.macro(line):
            return True
        if re.match(r"(N\d+\s*)?(END\s*\d|GOTO)", line):
            self.jump(line)
            return True
        return self.block(self.words(line))

    def value(self, text: str) -> float:
        """An expression of variables and brackets."""
        for mark, python in PY.items():
            text = text.replace(mark, python)
        return float(eval(re.sub(r"#(\d+)", r"V[\1]", text), {"V": self.var}))

    def macro(self, line: str) -> bool:
        """Assignments, WHILE and IF; False where the line is an ordinary block with variables in it."""
        line = re.sub(r"^N\d+\s*", "", line)
        if found := re.fullmatch(r"#(\d+)\s*=\s*(.+)", line):
            self.var[int(found[1])] = self.value(found[2])
        elif found := re.fullmatch(r"WHILE\s*\[(.+)\]\s*DO\s*(\d)", line):
            if not self.value(found[1]):
                ends = [k for k in range(self.at, len(self.lines)) if re.fullmatch(rf"END\s*{found[2]}", self.lines[k])]
                self.at = ends[0] + 1
        elif found := re.fullmatch(r"IF\s*\[(.+)\]\s*GOTO\s*(\d+)", line):
            if self.value(found[1]):
                self.at = self.label(int(found[2]))
        elif found := re.fullmatch(r"IF\s*\[(.+)\]\s*THEN\s*#(\d+)\s*=\s*(.+)", line):
            if self.value(found[1]):
                self.var[int(found[2])] = self.value(found[3])
        else:
            return False
        return True

    def jump(self, line: str) -> None:
        """END n goes back to its WHILE, GOTO n to its number."""
        if found := re.search(r"GOTO\s*(\d+)", line):
            self.at = self.label(int(found[1]))
            return
        number = re.search(r"END\s*(\d)", line)[1]
        starts = [k for k in range(self.at) if re.search(rf"WHILE.*DO\s*{number}$", self.lines[k])]
        self.at = starts[-1]

    def label(self, number: int) -> int:
        """The line that bears a block number, looked for onward, then from the top."""
        order = [*range(self.at, len(self.lines)), *range(self.at)]
        return next(k for k in order if re.match(rf"N0*{number}(?!\d)", self.lines[k]))

    def words(self, line: str) -> dict[str, list[str]]:
        """Letters with their numbers as text, several for G and M."""
        found: dict[str, list[str]] = {}
        for letter, sign, number in WORD.findall(line):
            if number.startswith(("#", "[")):
                number = f"{self.value(number):.4f}"
                if letter in "GMPQSTLN" and float(number) == int(float(number)):
                    number = str(int(float(number)))
            found.setdefault(letter, []).append(sign.strip("+") + number)
        return found

    def go(self, kind: str, x: float, z: float) -> None:
        """A leg from here."""
        self.legs.append(Leg(kind, self.x, self.z, x, z, self.tool, self.at))
        self.x, self.z = x, z

    def number(self, text: str) -> float:
        """A length as it is written."""
        return float(text)

    def amount(self, words: dict[str, list[str]], *letters: str) -> float:
        """What the first of some letters gives, without a point in least counts; 0 where none is there."""
        text = next((words[letter][0] for letter in letters if letter in words), "0.")
        return float(text) * (1 if "." in text else self.least)

    def end(self, words: dict[str, list[str]]) -> tuple[float, float]:
        """Where the axis words lead."""
        x, z = self.x, self.z
        if "X" in words:
            x = self.number(words["X"][0]) + (self.x if self.incremental else 0)
        if "Z" in words:
            z = self.number(words["Z"][0]) + (self.z if self.incremental else 0)
        if "U" in words:
            x = self.x + self.number(words["U"][0])
        if "W" in words:
            z = self.z + self.number(words["W"][0])
        return x, z

    def block(self, words: dict[str, list[str]]) -> bool:
        """One block of words; False where the program ends."""
        codes = [int(float(g)) for g in words.get("G", [])]
        switches = [int(m) for m in words.get("M", [])]
        if "T" in words and int(words["T"][0]) // 100:
            self.tool = int(words["T"][0]) // 100
        self.settings(codes)
        if not {4, 50, 10} & set(codes) and not (92 in codes and (self.iso or "S" in words)):
            self.act(codes, words)
        if 98 in switches:
            self.call(words)
        if 99 in switches:
            back, first, left = self.stack.pop()
            if left > 1:
                self.stack.append((back, first, left - 1))
            self.at = first if left > 1 else back
        return not {2, 30} & set(switches)

    def settings(self, codes: list[int]) -> None:
        """Modes that stay."""
        if self.iso and 90 in codes:
            self.incremental = False
        if self.iso and 91 in codes:
            self.incremental = True
        for code in codes:
            if code in (0, 1, 2, 3, 32, 33) or (code in (90, 92, 94) and not self.iso):
                self.mode, self.box = code, None

    def call(self, words: dict[str, list[str]]) -> None:
        """M98 P L."""
        number, times = int(words["P"][0]), int(words.get("L", ["1"])[0])
        first = next(k for k, line in enumerate(self.lines) if re.match(rf"[O:]0*{number}(?!\d)", line)) + 1
        self.stack.append((self.at, first, times))
        self.at = first

    def act(self, codes: list[int], words: dict[str, list[str]]) -> None:
        """The move of a block."""
        axes = set("XZUW") & words.keys()
        if 28 in codes or 30 in codes:
            if axes:
                self.go("rapid", *self.end(words))
            if not axes or axes & set("XU"):
                self.go("rapid", AWAY, self.z)
            if not axes or axes & set("ZW"):
                self.go("rapid", self.x, AWAY)
        elif 53 in codes:
            self.go("rapid", AWAY if "X" in axes else self.x, AWAY if "Z" in axes else self.z)
        elif {70, 71, 72} & set(codes) and not (self.iso and "P" not in words):
            self.contours(next(c for c in codes if c in (70, 71, 72)), words)
        elif {74, 75, 76, 83} & set(codes):
            getattr(self, f"g{next(c for c in codes if c in (74, 75, 76, 83))}")(words)
        elif axes:
            self.move(words)

    def move(self, words: dict[str, list[str]]) -> None:
        """A line, an arc, or one round of a box, by the mode in force."""
        if self.mode in (90, 94, 92):
            self.round_box(words)
        elif self.mode in (2, 3):
            self.arc(words)
        else:
            self.go({0: "rapid", 32: "thread", 33: "thread"}.get(self.mode, "feed"), *self.end(words))

    def round_box(self, words: dict[str, list[str]]) -> None:
        """G90, G92, G94: round the box and back to its start."""
        x, z = self.end(words)
        taper = 2 * float(words["R"][0]) if "R" in words else (self.box[2] if self.box else 0.0)
        if self.box:
            x = x if {"X", "U"} & words.keys() else self.box[0]
            z = z if {"Z", "W"} & words.keys() else self.box[1]
        self.box = (x, z, taper)
        x0, z0 = self.x, self.z
        if self.mode == 94:
            self.go("rapid", x0, z)
            self.go("feed", x, z)
            self.go("feed", x, z0)
        else:
            self.go("rapid", x + taper, z0)
            self.go("thread" if self.mode == 92 else "feed", x, z)
            self.go("rapid" if self.mode == 92 else "feed", x0, z)
        self.go("rapid", x0, z0)

    def arc(self, words: dict[str, list[str]]) -> None:
        """The lesser arc by R, or the arc about I and K, in chords of a degree and a half."""
        x, z = self.end(words)
        r0, r1, side = self.x / 2, x / 2, 1 if self.mode == 2 else -1
        if "R" in words:
            dz, dr = z - self.z, r1 - r0
            rise = self.rise(math.hypot(dz, dr), self.number(words["R"][0])) * side
            zc, rc = (self.z + z) / 2 + dr * rise, (r0 + r1) / 2 - dz * rise
        else:
            zc, rc = self.z + self.number(words.get("K", ["0."])[0]), r0 + self.number(words.get("I", ["0."])[0])
        radius = math.hypot(self.z - zc, r0 - rc)
        begin = math.atan2(r0 - rc, self.z - zc)
        turn = side * (begin - math.atan2(r1 - rc, z - zc)) % math.tau
        parts = max(1, math.ceil(turn / math.radians(1.5)))
        for k in range(1, parts):
            angle = begin - side * turn * k / parts
            self.go("feed", 2 * (rc + radius * math.sin(angle)), zc + radius * math.cos(angle))
        self.go("feed", x, z)

    def rise(self, far: float, radius: float) -> float:
        """How far the centre of an arc stands off its chord, for each unit of that."""
        return math.sqrt(max(0.0, radius**2 - far**2 / 4)) / far

    def contours(self, code: int, words: dict[str, list[str]]) -> None:
        """G71, G72: their settings, or the roughing; G70: along the blocks once and back."""
        if code != 70 and "P" not in words:
            self.depth = float(words.get("U" if code == 71 else "W")[0])
            self.back = float(words.get("R", [str(self.back)])[0])
            return
        if "D" in words:
            self.depth = float(words["D"][0]) * (1 if "." in words["D"][0] else 0.001)
        start, after = (self.x, self.z), self.at
        first, last = self.label(int(words["P"][0])), self.label(int(words["Q"][0]))
        kept, self.legs = self.legs, []
        mode = self.mode
        self.at = first
        while self.at <= last:
            self.step()
        path, self.legs = self.legs, kept
        self.at, self.mode = after, mode
        self.x, self.z = start
        if code == 70:
            self.legs.extend(path)
            self.x, self.z = path[-1].x1, path[-1].z1
            self.go("rapid", *start)
            return
        allow = [float(words.get(a, ["0"])[0]) for a in "UW"]
        points = [(leg.x1 + allow[0], leg.z1 + allow[1]) for leg in path]
        (self.passes if code == 71 else self.faces)(points, start)
        if after <= first:
            self.at = last + 1

    def passes(self, points: list[tuple[float, float]], start: tuple[float, float]) -> None:
        """Roughing along Z, then once along the shape with its allowance."""
        side = 1 if start[0] >= points[0][0] else -1
        lowest = min(side * x for x, _ in points)
        level = side * start[0] - 2 * self.depth
        while level > lowest + 1e-9:
            z = crossing([(side * x, z) for x, z in points], level)
            self.go("rapid", side * level, start[1])
            self.go("feed", side * level, z)
            self.go("feed", side * level + side * 2 * self.back, z + self.back)
            self.go("rapid", self.x, start[1])
            level -= 2 * self.depth
        self.go("rapid", points[0][0], start[1])
        for x, z in points:
            self.go("feed", x, z)
        self.go("rapid", *start)

    def faces(self, points: list[tuple[float, float]], start: tuple[float, float]) -> None:
        """Roughing along X, then once along the shape; the shape runs from the chuck to the front."""
        lowest, level = min(z for _, z in points), start[1] - self.depth
        while level > lowest + 1e-9:
            x = crossing([(z, x) for x, z in points], level)
            self.go("rapid", start[0], level)
            self.go("feed", x, level)
            self.go("feed", x + 2 * self.back, level + self.back)
            self.go("rapid", start[0], self.z)
            level -= self.depth
        self.go("rapid", start[0], points[0][1])
        for x, z in points:
            self.go("feed", x, z)
        self.go("rapid", *start)

    def g75(self, words: dict[str, list[str]]) -> None:
        """The grooving cycle, in two blocks or in one."""
        if not {"X", "U"} & words.keys():
            self.back = self.number(words["R"][0])
            return
        x, z = self.end(words)
        back = self.number(words["R"][0]) if "P" not in words and "R" in words else self.back
        self.row(x, z, self.amount(words, "P", "I"), self.amount(words, "Q", "K"), back)

    def row(self, floor: float, last: float, peck: float, shift: float, back: float) -> None:
        """Peck every groove of a row, backing off after each peck, and come back to the start."""
        start, inward = (self.x, self.z), math.copysign(1.0, floor - self.x)
        for place in stops(start[1], last, shift):
            self.go("rapid", start[0], place)
            depth = start[0]
            while abs(depth - floor) > 1e-9:
                deeper = depth + inward * 2 * peck
                depth = deeper if peck and inward * (floor - deeper) > 1e-9 else floor
                self.go("feed", depth, place)
                if depth != floor:
                    self.go("rapid", depth - inward * min(2 * back, abs(depth - start[0])), place)
            self.go("rapid", start[0], place)
        self.go("rapid", *start)

    def g74(self, words: dict[str, list[str]]) -> None:
        """Pecking along Z."""
        if not {"Z", "W"} & words.keys():
            return
        self.g83(words)

    def g83(self, words: dict[str, list[str]]) -> None:
        """A hole, its pecks left out."""
        start = (self.x, self.z)
        self.go("feed", *self.end({k: v for k, v in words.items() if k in "XZUW"}))
        self.go("rapid", *start)

    def g76(self, words: dict[str, list[str]]) -> None:
        """A thread in many passes, the last of them at full depth."""
        if not {"X", "U"} & words.keys():
            return
        start = (self.x, self.z)
        x, z = self.end(words)
        high = self.amount(words, "P", "K")
        side = 1 if start[0] >= x else -1
        for share in (0.5, 0.8, 1.0):
            self.go("rapid", x + side * 2 * high * (1 - share), start[1])
            self.go("thread", self.x, z)
            self.go("rapid", start[0], z)
            self.go("rapid", *start)


def stops(first: float, last: float, shift: float) -> list[float]:
    """Where the cycle plunges: every shift from the first toward the last, and the last itself."""
    count = math.floor(abs(last - first) / shift + 1e-7) if shift else 0
    places = [first + math.copysign(shift * index, last - first) for index in range(count + 1)]
    return places if abs(places[-1] - last) < 1e-7 else [*places, last]


def crossing(points: list[tuple[float, float]], level: float) -> float:
    """Where a path that begins below a level first comes up to it: its other coordinate there."""
    for (a, za), (b, zb) in pairwise(points):
        if a <= level < b:
            return za + (zb - za) * (level - a) / (b - a)
    return points[-1][1]
