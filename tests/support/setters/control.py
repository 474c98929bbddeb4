"""A lathe control, from ISO 6983 and common practice alone: text in, straight moves out.

Three kinds: "two-block" (G75 R / G75 X Z P Q F), "one-block" (G75 X Z I K F), "plunge" (ISO words, no cycle). What a
control would refuse or read otherwise than it was meant is in `alarms` as (line, what). X is a diameter.
"""

import math
import re
from dataclasses import dataclass

WORD = re.compile(r"([A-Z])\s*([+-]?(?:\d+\.?\d*|\.\d+))")
UNITS = {20: "in", 21: "mm", 70: "in", 71: "mm"}
FAR = {"mm": 300.0, "in": 12.0}


@dataclass(frozen=True)
class Move:
    """A straight move with what was in force; a place that was never said is None."""

    line: int
    rapid: bool
    x0: float | None
    z0: float | None
    x1: float | None
    z1: float | None
    tool: int
    feed: float
    per_rev: bool
    turning: int
    css: bool
    clamp: float
    speed: float


class Control:
    """Runs one program; `units` are the part's."""

    def __init__(self, kind, units):
        self.kind, self.units, self.scale = kind, units, 1.0
        self.least = 0.001 if units == "mm" else 0.0001
        self.moves, self.alarms, self.ended = [], [], False
        self.x = self.z = None
        self.mode = self.tool = self.turning = 0
        self.absolute, self.per_rev, self.css = True, True, False
        self.feed = self.clamp = self.speed = 0.0
        self.retract = 400 * self.least

    def run(self, text):
        self.lines = [self._words(n, line) for n, line in enumerate(text.splitlines(), 1)]
        self.subs = {int(float(s)): n for n, words in enumerate(self.lines) for a, s in words if a == "O"}
        self._execute(0, 0)
        if not self.ended:
            self.alarms.append((len(self.lines), "no end"))
        return self

    def _words(self, line, text):
        text = re.sub(r"\([^)]*\)", " ", text.upper()).split(";")[0].strip()
        text = "" if text.startswith("%") else text.removeprefix("/")
        if WORD.sub("", text).strip():
            self.alarms.append((line, "unreadable"))
        return WORD.findall(text)

    def _execute(self, index, depth):
        """Run from a line to the end, or to the return of a subprogram."""
        while index < len(self.lines) and not self.ended:
            words = dict(self.lines[index])
            switches = {int(float(s)) for a, s in self.lines[index] if a == "M"}
            if 99 in switches:
                self.ended = depth == 0
                if depth == 0:
                    self.alarms.append((index + 1, "endless"))
                return
            if 98 in switches and depth < 5:
                self._call(index, words, depth)
            else:
                self._block(index + 1, self.lines[index], switches)
            index += 1

    def _call(self, index, words, depth):
        p, count = words.get("P", "0"), int(words.get("L", "1").rstrip("."))
        if len(p) > 4:
            count, p = int(p[:-4]), p[-4:]
        start = self.subs.get(int(float(p)))
        if start is None:
            self.alarms.append((index + 1, "no such subprogram"))
            return
        for _ in range(count):
            self._execute(start, depth + 1)

    def _number(self, line, letter, digits):
        if letter in "XZUWIKRF" and "." not in digits and float(digits):
            self.alarms.append((line, f"no point in {letter}"))
            return float(digits) * self.least
        return float(digits) * self.scale

    def _block(self, line, found, switches):
        codes = {int(float(s)) for a, s in found if a == "G"}
        words = {a: s for a, s in found if a not in "GM"}
        self._settings(line, codes, words)
        if codes & {50, 92}:
            self.clamp = float(words.get("S", self.clamp))
            return
        if 4 in codes:
            return
        self.speed = float(words.get("S", self.speed))
        self.turning = next((m for m in (3, 4) if m in switches), self.turning)
        if "F" in words:
            self.feed = self._number(line, "F", words["F"])
        if codes & {28, 30, 53}:
            self._home(line, words, 53 in codes)
        elif 75 in codes:
            self._groove(line, words)
        elif words.keys() & set("XZUW"):
            self._motion(line, words)
        self.turning = 0 if 5 in switches else self.turning
        self.ended = self.ended or bool(switches & {2, 30})

    def _settings(self, line, codes, words):
        for code in sorted(codes):
            if code in UNITS and (code < 30 or self.kind == "plunge"):
                if UNITS[code] != self.units:
                    self.alarms.append((line, "units"))
                self.scale = {("mm", "in"): 1 / 25.4, ("in", "mm"): 25.4}.get((UNITS[code], self.units), 1.0)
            if code in (90, 91) and self.kind == "plunge":
                self.absolute = code == 90
            self.per_rev = {98: False, 94: False, 99: True, 95: True}.get(code, self.per_rev)
            self.css = {96: True, 97: False}.get(code, self.css)
            self.mode = code if code < 4 else self.mode
        if "T" in words:
            number = int(words["T"])
            self.tool = number // 100 if number >= 100 else number

    def _target(self, line, words):
        place = {"X": FAR[self.units] if self.x is None else self.x, "Z": FAR[self.units] if self.z is None else self.z}
        for axis, increment in ("XU", "ZW"):
            if axis in words:
                value = self._number(line, axis, words[axis])
                place[axis] = value if self.absolute else place[axis] + value
            if increment in words:
                place[axis] += self._number(line, increment, words[increment])
        return place["X"], place["Z"]

    def _go(self, line, rapid, x, z):
        state = (self.tool, self.feed, self.per_rev, self.turning, self.css, self.clamp, self.speed)
        self.moves.append(Move(line, rapid, self.x, self.z, x, z, *state))
        self.x, self.z = x, z

    def _home(self, line, words, machine):
        if not machine:
            self._go(line, True, *self._target(line, words))
        x = FAR[self.units] if words.keys() & set("XU") else self.x
        self._go(line, True, x, FAR[self.units] if words.keys() & set("ZW") else self.z)

    def _motion(self, line, words):
        x, z = self._target(line, words)
        if self.mode < 2:
            self._go(line, self.mode == 0, x, z)
        elif "R" in words:
            self._arc(line, x, z, self._number(line, "R", words["R"]))
        else:
            self.alarms.append((line, "arc without R"))
            self._go(line, False, x, z)

    def _arc(self, line, x, z, radius):
        """Chords of an arc of less than half a turn; G02 is clockwise with Z to the right and X up."""
        dz, dx = z - self.z, (x - self.x) / 2
        half = math.hypot(dz, dx) / 2
        if not 0 < half <= radius + 2 * self.least:
            self.alarms.append((line, "arc too short"))
            return self._go(line, False, x, z)
        side = -1 if self.mode == 2 else 1
        high = side * math.sqrt(max(0.0, radius**2 - half**2)) / (2 * half)
        cz, cx = self.z + dz / 2 - dx * high, self.x / 2 + dx / 2 + dz * high
        begin, end = math.atan2(self.x / 2 - cx, self.z - cz), math.atan2(x / 2 - cx, z - cz)
        sweep = (end - begin + math.pi) % (2 * math.pi) - math.pi
        for n in range(1, 33):
            angle = begin + sweep * n / 32
            self._go(line, False, 2 * (cx + radius * math.sin(angle)), cz + radius * math.cos(angle))
        self._go(line, False, x, z)

    def _groove(self, line, words):
        if self.kind == "plunge":
            self.alarms.append((line, "no cycle"))
        elif self.kind == "two-block" and "R" in words and not words.keys() & set("XU"):
            self.retract = self._number(line, "R", words["R"])
        else:
            peck, shift = (self._amount(line, a, words) for a in ("PQ" if self.kind == "two-block" else "IK"))
            self._plunges(line, *self._target(line, words), peck, shift)

    def _amount(self, line, letter, words):
        if letter not in words:
            return 0.0
        if letter in "IK":
            return abs(self._number(line, letter, words[letter]))
        if "." in words[letter]:
            self.alarms.append((line, f"point in {letter}"))
        return abs(float(words[letter])) * self.least * self.scale

    def _plunges(self, line, floor, last, peck, shift):
        """Every plunge of the cycle; the last peck and the last shift are what remains, and it ends where it began."""
        x, z = self.x, self.z
        if x is None or z is None:
            self.alarms.append((line, "from nowhere"))
            return
        span, down, whole = last - z, (2 if x > floor else -2), abs(x - floor) / 2
        steps = math.ceil(abs(span) / shift - 1e-6) if shift > 0 else 1
        if abs(span) > 1e-9 and shift <= 0:
            self.alarms.append((line, "no shift"))
        for n in range(steps + 1 if abs(span) > 1e-9 else 1):
            place = last if n == steps else z + math.copysign(n * shift, span)
            self._go(line, True, x, place)
            depth = 0.0
            while depth < whole - 1e-9:
                depth = whole if peck <= 0 else min(whole, depth + peck)
                self._go(line, False, x - down * depth, place)
                if depth < whole - 1e-9:
                    self._go(line, True, x - down * max(0.0, depth - self.retract), place)
            self._go(line, True, x, place)
        self._go(line, True, x, z)
