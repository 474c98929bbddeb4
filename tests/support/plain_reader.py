"""What a program does, read plainly and by hand-written rules: the oracle for programs carried over to another dialect.

Shares no code with the tool: the words of each dialect are written down here once more. Every cut comes out with all
that rules it, every wait and every switch between. Counts are least increments, x on the diameter.
"""

import math
import re
from dataclasses import dataclass, field

WORD = re.compile(r"(#\d+|[A-Z]+)\s*(=?)\s*([-+]?\s*(?:\d+\.?\d*|\.\d+))")


class Lost(Exception):
    """Words that these rules don't cover."""


@dataclass(frozen=True)
class Rules:
    """One dialect. `cycle`: how its grooving cycle is said; `pointless`: what a length without a point counts."""

    cycle: str = ""
    iso: bool = False
    radius: bool = False
    pointless: str = "counts"
    own_offset: bool = False


RULES = {
    "two-block": Rules("two"),
    "one-block": Rules("one"),
    "plunge": Rules("", iso=True),
    "turned-tools": Rules("two", iso=True, own_offset=True),
    "half-widths": Rules("one", radius=True),
    "stored-groove": Rules("stored"),
    "numbered-values": Rules("numbered", pointless="units"),
    "two-points": Rules("points"),
}


@dataclass
class PlainReader:
    """Runs a program; `deeds` is what it does. `retract`: the parameter of a control whose cycle has no word for it."""

    rules: Rules
    unit: float
    retract: float
    deeds: list = field(default_factory=list)
    x: float | None = None
    z: float | None = None
    motion: int = -1
    feed: float = 0.0
    minute: bool = False
    surface: bool = False
    speeds: dict = field(default_factory=dict)
    clamp: float | None = None
    sense: str = ""
    tool: tuple = (0, 0)
    back: float | None = None
    incremental: bool = False
    values: dict = field(default_factory=dict)
    standing: tuple | None = None

    def length(self, text: str) -> float:
        number = float(text.replace(" ", ""))
        return number if "." in text or self.rules.pointless == "units" else number * self.unit

    def run(self, text: str) -> list:
        self.lines = [re.sub(r"\([^()]*\)|;.*", "", line).upper().strip() for line in text.splitlines()]
        at, stack, self.ended = self._main(), [], False
        while at < len(self.lines) and not self.ended:
            words = WORD.findall(self.lines[at].lstrip("/"))
            at += 1
            call = self.block([(w + e, v.replace(" ", "")) for w, e, v in words])
            if call == "return":
                first, times, home = stack.pop()
                if times > 1:
                    stack.append((first, times - 1, home))
                    at = first
                else:
                    at = home
            elif isinstance(call, tuple):
                number, times = call
                first = self._section(number)
                if times:
                    stack.append((first, times, at))
                    at = first
        return self.deeds

    def _main(self) -> int:
        calls = [line for line in self.lines if re.search(r"M\s*0*98(?!\d)", line)]
        called = {int(n) for line in calls for n in re.findall(r"P\s*0*(\d+)", line)}
        called |= {n % 10_000 for n in called}
        heads = [(i, int(m[1])) for i, line in enumerate(self.lines) if (m := re.match(r"[O:]\s*(\d+)", line))]
        return next((i for i, number in heads if number not in called), 0)

    def _section(self, number: int) -> int:
        for index, line in enumerate(self.lines):
            if (m := re.match(r"[O:]\s*(\d+)", line)) and int(m[1]) == number:
                return index + 1
        raise Lost(f"subprogram {number}")

    def block(self, words: list) -> object:
        given = {k: v for k, v in words if k not in "GMNO"}
        codes = [float(v) for k, v in words if k == "G"]
        modes = [int(v) for k, v in words if k == "M"]
        if self.rules.iso is False and self.rules.cycle == "stored":
            given = {{"FEED=": "F", "VCUT=": "S"}.get(k, k): v for k, v in given.items()}
            if "VMAX=" in given:
                self.clamp = float(given.pop("VMAX="))
                self.deeds.append(("clamp", self.clamp))
        self.settings(codes, given)
        self.switches(modes, given)
        if 98 in modes and given.get("P", "").lstrip("0") != "9075":
            number = int(given["P"])
            times = int(given.get("L", 1))
            return (number % 10_000, number // 10_000) if number > 9999 and "L" not in given else (number, times)
        self.moves(codes, modes, given)
        for mode, deed in ((9, "coolant off"), (0, "pause"), (1, "may pause"), (5, "spindle off")):
            if mode in modes:
                self.deeds.append((deed,))
        if 5 in modes:
            self.sense = ""
        if 99 in modes:
            return "return"
        self.ended = self.ended or bool({2, 30} & set(modes))
        return None

    def settings(self, codes: list, given: dict) -> None:
        """Everything that takes effect before the move."""
        for code in codes:
            if code in (98, 94) and not (code == 94 and "X" in given):
                self.minute, self.feed = True, self.feed if self.minute else 0.0
            elif code in (99, 95):
                self.minute, self.feed = False, 0.0 if self.minute else self.feed
            elif code in (96, 97):
                self.surface = code == 96
            elif code in (90, 91):
                self.incremental = code == 91
            elif 54 <= code <= 59:
                self.deeds.append(("offset", code))
        if {50, 92} & set(codes) and "S" not in given:
            self.x, self.z = self.target(given)
            self.deeds.append(("stands", self.count(self.x), self.count(self.z)))
        elif {50, 92} & set(codes):
            self.clamp = float(given.pop("S"))
            self.deeds.append(("clamp", self.clamp))
        if "S" in given and 4 not in codes:
            self.speeds[self.surface] = float(given["S"])
        if "F" in given and 4 not in codes:
            self.feed = float(given["F"])
        offset = given.get("D") if self.rules.own_offset else None
        if "T" in given or offset is not None:
            text = given.get("T", str(self.tool[0]))
            if self.rules.own_offset:
                self.tool = int(text), int(offset or 0)
            else:
                text = text.zfill(4) if len(text) > 2 else text.zfill(2) * 2
                self.tool = int(text[:2]) or self.tool[0], int(text[2:])
            self.deeds.append(("tool", *self.tool))

    def switches(self, modes: list, given: dict) -> None:
        for mode in modes:
            if mode in (3, 13):
                self.sense = "cw"
            elif mode in (4, 14):
                self.sense = "ccw"
            if mode in (7, 8, 13, 14):
                self.deeds.append(("coolant on",))
            if 40 <= mode <= 45:
                self.deeds.append(("gear", mode))

    def moves(self, codes: list, modes: list, given: dict) -> None:
        if 4 in codes:
            self.dwell(given)
        elif {28, 30} & set(codes):
            self.home(given)
        elif 50 in codes or 92 in codes or self.cycle(codes, modes, given):
            return
        else:
            for code in codes:
                if code in (0, 1, 2, 3):
                    self.motion, self.standing = int(code), None
                elif code in (80,):
                    self.standing = None
            if given.keys() & set("XZUW"):
                self.place(given)

    def dwell(self, given: dict) -> None:
        if "S" in given:
            raise Lost("a dwell in turns")
        text = next(given[k] for k in "PXUF" if k in given)
        self.deeds.append(("dwell", round(float(text) * (1000 if "." in text else 1))))

    def home(self, given: dict) -> None:
        x, z = self.target(given)
        self.rapid(x, z)
        if given.keys() & set("XU"):
            self.x = None
        if given.keys() & set("ZW"):
            self.z = None

    def target(self, given: dict) -> tuple:
        twice = 2 if self.rules.radius else 1
        x, z = self.x, self.z
        if "X" in given:
            x = self.length(given["X"]) * twice + ((self.x or 0) if self.incremental else 0)
        if "U" in given:
            x = (self.x or 0) + self.length(given["U"]) * twice
        if "Z" in given:
            z = self.length(given["Z"]) + ((self.z or 0) if self.incremental else 0)
        if "W" in given:
            z = (self.z or 0) + self.length(given["W"])
        return x, z

    def place(self, given: dict) -> None:
        x, z = self.target(given)
        if self.standing is not None:
            self.rapid(x, z)
            self.groove(*self.standing[:1], self.z, *self.standing[1:])
        elif self.motion == 0:
            self.rapid(x, z)
        elif self.motion == 1:
            self.cut(x, z)
        elif self.motion in (2, 3):
            self.arc(x, z, given)
        else:
            raise Lost("a place before any motion word")

    def count(self, value: float | None) -> int | None:
        return None if value is None else round(value / self.unit)

    def rapid(self, x: float | None, z: float | None) -> None:
        self.x, self.z = x, z

    def ruled(self) -> tuple:
        said = (self.feed, self.minute, self.speeds.get(self.surface), self.surface, self.clamp, self.sense)
        return (*said, self.tool)

    def cut(self, x: float | None, z: float | None) -> None:
        places = tuple(map(self.count, (self.x, self.z, x, z)))
        self.deeds.append(("cut", *places, *self.ruled()))
        self.x, self.z = x, z

    def arc(self, x: float, z: float, given: dict) -> None:
        if "CR" in given or "R" in given:
            radius = self.length(given["R"])
        elif "CENX=" in given:
            radius = math.hypot((self.length(given["CENX="]) - self.x) / 2, self.length(given["CENZ="]) - self.z)
        else:
            radius = math.hypot(self.length(given.get("I", "0.")), self.length(given.get("K", "0.")))
        places = tuple(map(self.count, (self.x, self.z, x, z)))
        self.deeds.append(("arc", self.motion, *places, round(radius / self.unit), *self.ruled()))
        self.x, self.z = x, z

    def cycle(self, codes: list, modes: list, given: dict) -> bool:
        """True if the block is one of the grooving cycle's, which is then run."""
        way = self.rules.cycle
        if 74 in codes:
            raise Lost("the cycle along Z")
        if way in ("two", "one") and 75 in codes:
            self.trade(given, whole=way == "two")
        elif way == "stored" and 98 in modes:
            floor, last = self.length(given["FLOOR="]), self.length(given.get("LAST=", "0."))
            last = last if "LAST=" in given else self.z
            step, back = self.length(given.get("STEP=", "0.")), self.length(given["BACK="]) / 2
            self.groove(floor, last, self.length(given["DEEP="]) / 2, step, back)
        elif way == "numbered" and any(k.startswith("#") for k in given):
            self.values |= {k: self.length(v) for k, v in given.items()}
        elif way == "numbered" and 87 in codes:
            values = self.values
            last = self.z + values["#103="] * values["#104="]
            floor = self.x + 2 * values["#101="]
            self.groove(floor, last, values["#102="], abs(values["#103="]), values["#105="])
            self.z = last
        elif way == "points" and 86 in codes:
            self.rapid(self.length(given["A"]), self.length(given["B"]))
            last = self.z - self.length(given["L"])
            how = (self.length(given["D"]), abs(self.length(given["E"])), self.length(given["R"]))
            self.groove(self.length(given["X"]), last, *how)
            self.standing = (self.length(given["X"]), *how)
        else:
            return False
        return True

    def trade(self, given: dict, *, whole: bool) -> None:
        if not given.keys() & set("XU"):
            self.back = self.length(given["R"])
            return
        x, z = self.target(given)
        peck, shift = given.get("P" if whole else "I"), given.get("Q" if whole else "K")
        relief = self.length(given["R"]) if whole and "R" in given else 0.0
        amounts = [0.0 if text is None else self.length(text) for text in (peck, shift)]
        back = (self.back or 0.0) if whole else self.retract
        self.groove(x, z, *amounts, back, relief)

    def groove(self, floor: float, last: float, peck: float, shift: float, back: float, relief: float = 0.0) -> None:
        """Peck every groove of a row, the last shift whatever remains, and come back to the start."""
        start, first = self.x, self.z
        span, eps = last - first, self.unit / 10
        number = math.floor(abs(span) / shift + 1e-6) if shift and abs(span) > eps else 0
        at = [first + math.copysign(n * shift, span) for n in range(number + 1)]
        at += [last] if abs(at[-1] - last) > eps else []
        aside = relief if last <= first else -relief
        inward = math.copysign(1.0, floor - start)
        for z in at:
            self.rapid(start, z)
            x = start
            while peck and inward * (floor - x) > 2 * peck + eps:
                x += inward * 2 * peck
                self.cut(x, z)
                self.rapid(x - inward * min(2 * back, abs(x - start)), z)
            self.cut(floor, z)
            if aside:
                self.cut(floor, z + aside)
            self.rapid(start, z)
        self.rapid(start, first)


def deeds(text: str, dialect: str, units: str, retract: float) -> list:
    """What a program does; `retract` in the program's units."""
    return PlainReader(RULES[dialect], 0.001 if units == "mm" else 0.0001, retract).run(text)
