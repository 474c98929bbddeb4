"""Spelling: one step becomes the blocks of a dialect, by its patterns; what no pattern can say is refused.

A `Speller` keeps track, since some words depend on what came before: a depth counts from the start, a word that
stays in force until changed is not repeated. Values are exact fractions of the unit until a `Figure` writes them.
"""

import math
from dataclasses import dataclass
from fractions import Fraction

from extractor.part import Units
from planner import steps
from planner.arcs import half_turn_radius, off_circle
from planner.increment import Increments
from postproc.dialect import Dialect
from postproc.vocabulary.acts import Act, Switch
from postproc.vocabulary.cycle import places
from postproc.vocabulary.pattern import DIAMETERS, RADII, Gap, Pattern
from postproc.writing.comments import comment_lines

ON_CIRCLE = 2
"""Counts by which an arc's end may lie beside the circle about a centre in whole counts: controls take as much."""

Values = dict[str, Fraction | int | str]


class Unsayable(Exception):
    """A step that the dialect can't say; the message says which part of it, `lacks` what it has no word for."""

    def __init__(self, message: str, lacks: Act | Switch | None = None) -> None:
        """Say what can't be said."""
        super().__init__(message)
        self.lacks = lacks


@dataclass
class Speller:
    """Spells steps one after another. `x` and `z` are where the tool is, None where nothing has said it yet."""

    dialect: Dialect
    increments: Increments
    x: int | None = None
    z: int | None = None
    _motion: Act | None = None
    _feed: int | None = None
    _set: tuple[str, ...] = ()

    @property
    def units(self) -> Units:
        """The units that the program is in."""
        return self.increments.units

    def forget(self) -> None:
        """Say everything again in the next block, whatever is in force: blocks are entered here from elsewhere."""
        self._motion = self._feed = None
        self._set = ()

    def spell(self, step: steps.Step) -> tuple[str, ...]:
        """The blocks that say one step, without line ends. Raises Unsayable."""
        own = self.dialect.spell(step, self.increments)
        blocks = self._by_tables(step) if own is None else own
        if not isinstance(step, steps.Rapid | steps.Cut | steps.Arc | steps.Remark):
            self._motion = None
        if isinstance(step, steps.ToolCall | steps.FeedMode | steps.Home | steps.GrooveCycle):
            self._feed = step.feed if isinstance(step, steps.GrooveCycle) and "feed" in self.dialect.stands else None
        if isinstance(step, steps.ToolCall):
            self._set = ()
        self._go(step)
        return blocks

    def skip(self, step: steps.Step) -> None:
        """Follow a step that can't be said, so that those after it are spelled from the right place."""
        self._go(step)

    def again(self, z: int) -> str:
        """The block that names only a place, where a cycle in force cuts once more."""
        self.z = z
        gap = self.dialect.blocks["rapid"].gaps["z"]
        return gap.address + self._text(gap, self._length(z))

    def _go(self, step: steps.Step) -> None:
        """Where the tool is after a step."""
        if isinstance(step, steps.Rapid | steps.Cut | steps.Arc | steps.Standing):
            self.x = self.x if step.x is None else step.x
            self.z = self.z if step.z is None else step.z
        elif isinstance(step, steps.Home):
            self.x, self.z = None if step.x else self.x, None if step.z else self.z
        elif isinstance(step, steps.GrooveCycle) and self.dialect.cycle and self.dialect.cycle.leaves == "last":
            self.z = step.end_z

    def _by_tables(self, step: steps.Step) -> tuple[str, ...]:
        """The blocks of a step by the patterns."""
        match step:
            case steps.Rapid() | steps.Cut() | steps.Arc():
                return (self._move(step),)
            case steps.GrooveCycle():
                return self._cycle(step)
            case steps.Remark(text):
                return comment_lines(text, self.dialect.frame)
            case steps.Spindle(mode, speed, clockwise):
                sense = self._m(Switch.CLOCKWISE if clockwise else Switch.COUNTER)
                values: Values = {"speed": speed, "sense": sense}
                return (self._block(mode, Act.SURFACE if mode == "surface" else Act.RPM, values),)
            case steps.SpindleClamp(rpm):
                return (self._block("clamp", Act.CLAMP_OR_ZERO, {"rpm": rpm}),)
            case steps.ToolCall(station, offset):
                key = "cancel" if not offset and "cancel" in self.dialect.blocks else "tool"
                return (self._block(key, None, {"station": station, "offset": offset}),)
            case steps.Dwell(milliseconds):
                return (self._block("dwell", Act.DWELL, {"ms": milliseconds, "seconds": Fraction(milliseconds, 1000)}),)
            case _:
                return (self._setting(step),)

    def _setting(self, step: steps.Step) -> str:
        """The block of a step that is a word or two."""
        match step:
            case steps.Coolant(on):
                return self._block("coolant", None, {"m": self._m(Switch.COOLANT_ON if on else Switch.COOLANT_OFF)})
            case steps.SpindleStop():
                return self._block("spindle_off", None, {"m": self._m(Switch.SPINDLE_OFF)})
            case steps.Gear(number):
                return self._block("gear", None, {"m": self._m(Switch.GEAR, number)})
            case steps.OwnSwitch(does):
                return self._own(does)
            case steps.Halt(optional):
                switch = Switch.OPTIONAL_PAUSE if optional else Switch.PAUSE
                return self._block("halt", None, {"m": self._m(switch)})
            case steps.WorkOffset(number):
                return self._block("work_offset", None, {"g": self._g(Act.WORK_OFFSET, number)})
            case steps.Standing(x, z):
                place: Values = {} if x is None else {"x": self._length(x, diameter=True)}
                place |= {} if z is None else {"z": self._length(z)}
                return self._block("zero", Act.CLAMP_OR_ZERO, place)
            case steps.FeedMode(per_minute):
                act = Act.PER_MINUTE if per_minute else Act.PER_REV
                return self._block("feed_mode", act, {})
            case steps.Home(x, z):
                way: Values = {"home_x": Fraction(0)} if x else {}
                return self._block("home", Act.HOME, {**way, **({"home_z": Fraction(0)} if z else {})})
        raise TypeError(step)

    def _g(self, act: Act, nth: int = 1) -> str:
        """A G word."""
        try:
            return self.dialect.g(act, nth)
        except KeyError:
            raise Unsayable(f"no word for {act}{f' {nth}' if nth > 1 else ''}", act) from None

    def _m(self, switch: Switch, nth: int = 1) -> str:
        """An M word."""
        try:
            return self.dialect.m(switch, nth)
        except KeyError:
            raise Unsayable(f"no word for {switch}{f' {nth}' if nth > 1 else ''}", switch) from None

    def _own(self, does: str) -> str:
        """An M word of the machine's own."""
        try:
            return self.dialect.own(does)
        except KeyError:
            raise Unsayable(f"no word in own_switches for {does!r}", Switch.OWN) from None

    def _block(self, key: str, act: Act | None, values: Values) -> str:
        """One block by its pattern."""
        pattern = self.dialect.blocks.get(key)
        if pattern is None:
            raise Unsayable(f"no block for {act or key.replace('_', ' ')}", act)
        if act is not None and "g" in pattern.gaps:
            values = {"g": self._g(act), **values}
        if key == "home" and (missing := {"home_x", "home_z"} & values.keys() - pattern.gaps.keys()):
            raise Unsayable(f"no word for {act} along {missing.pop()[-1].upper()}", act)
        return self.filled(pattern, values)

    def _move(self, step: steps.Rapid | steps.Cut | steps.Arc) -> str:
        """A move: its places, its feed where that is new, its word where another was in force."""
        stands = self.dialect.stands
        values: Values = {} if step.x is None else {"x": self._length(step.x, diameter=True)}
        values |= {} if step.z is None else {"z": self._length(step.z)}
        key, act = "rapid", Act.RAPID
        if isinstance(step, steps.Cut | steps.Arc):
            key, act = "cut", Act.FEED
            values["feed"] = Fraction(step.feed, self.increments.per_feed)
        if isinstance(step, steps.Arc):
            key, act = "arc", Act.ARC_CLOCKWISE if step.clockwise else Act.ARC_COUNTER
            values |= self._centre(step)
        pattern = self.dialect.blocks.get(key)
        if pattern is None:
            raise Unsayable(f"no block for {act}", act)
        left_out = {"g"} if "motion" in stands and act is self._motion else set()
        if isinstance(step, steps.Cut | steps.Arc):
            left_out |= {"feed"} if "feed" in stands and step.feed == self._feed else set()
            self._feed = step.feed
        self._motion = act
        return self.filled(pattern, {"g": self._g(act), **values}, frozenset(left_out))

    def _length(self, count: int, *, diameter: bool = False) -> Fraction:
        """A count as a fraction of the unit; of a diameter its radius, from which each gap takes what it measures."""
        return Fraction(count, self.increments.per_length * (2 if diameter else 1))

    def _centre(self, step: steps.Arc) -> Values:
        """The radius of an arc, and its centre in whole counts where the dialect wants one and the arc comes out."""
        values: Values = {"radius": self._length(step.radius)}
        arc = self.dialect.blocks.get("arc")
        if arc is None or "radius" in arc.gaps:
            return values
        if self.x is None or self.z is None:
            raise Unsayable("the centre of an arc before any block has said where it starts")
        start, end = (self.x, self.z), (step.x, step.z)
        out, along = _offset(start, end, step.radius, step.clockwise)
        again = half_turn_radius(start, end, (out, along), step.clockwise)
        if again != step.radius or off_circle(start, end, (out, along)) > ON_CIRCLE:
            raise Unsayable(f"an arc of radius {step.radius} whose centre is at no whole increment")
        values |= {"i": self._length(out), "k": self._length(along)}
        return {
            **values,
            "centre_x": self._length(start[0] + 2 * out, diameter=True),
            "centre_z": self._length(start[1] + along),
        }

    def _cycle(self, step: steps.GrooveCycle) -> tuple[str, ...]:
        """The blocks of the grooving cycle."""
        form = self.dialect.cycle
        if form is None:
            raise Unsayable(f"no word for {Act.GROOVE}", Act.GROOVE)
        if self.x is None or self.z is None:
            raise Unsayable("a grooving cycle before any block has said where it starts")
        values = self._cycle_values(step, self.x, self.z)
        if any("g" in block.gaps for block in form.blocks):
            values["g"] = self._g(Act.GROOVE)
        stands = self.dialect.stands
        left_out = frozenset({"feed"} if "feed" in stands and step.feed == self._feed else set[str]())
        *setting, call = form.blocks
        values_set = tuple(self.filled(block, values) for block in setting)
        said = () if "retract" in stands and values_set == self._set else values_set
        self._set = values_set
        return (*said, self.filled(call, values, left_out & set(call.gaps)))

    def _cycle_values(self, step: steps.GrooveCycle, x: int, z: int) -> Values:
        """All that a cycle can say; the row is left out of a single groove where the pattern lets it."""
        span, several = step.end_z - z, step.shift != 0
        number = len(places(z, step.end_z, step.shift))
        depth = self._length(step.floor_x - x, diameter=True)
        values: Values = {
            "floor": self._length(step.floor_x, diameter=True),
            "depth": self._signed("depth", depth, inward=depth < 0),
            "start_x": self._length(x, diameter=True),
            "start_z": self._length(z),
            "peck": self._length(step.peck),
            "retract": self._length(step.retract),
            "feed": Fraction(step.feed, self.increments.per_feed),
        }
        row: Values = {
            "end": self._length(step.end_z),
            "length": self._signed("length", self._length(span), inward=span <= 0),
            "shift": self._signed("shift", self._length(step.shift if span > 0 else -step.shift), inward=span <= 0),
            "count": number,
            "more": number - 1,
        }
        if (form := self.dialect.cycle) is None:
            return values
        directed = {"end", "length"} & set(form.gaps) or form.gaps["shift"].sign == "signed"
        if span > 0 and not directed:
            raise Unsayable("a row toward the front face, since its shift has no sign")
        optional = set(form.gaps) - {name for block in form.blocks for name in block.always}
        row = row if several else {name: value for name, value in row.items() if name not in optional}
        idle: Values = {name: Fraction(0) for name in ("relief", "wait") if name in set(form.gaps) - optional}
        values |= idle
        return {**values, **row}

    def _signed(self, name: str, value: Fraction, *, inward: bool) -> Fraction:
        """A depth, a length or a shift with the sign that its gap asks for: none, or that of its direction."""
        form = self.dialect.cycle
        gap = form.gaps.get(name) if form else None
        if gap is None or gap.sign == "signed" or (name == "length" and gap.sign == ""):
            return value
        if name == "length" and gap.sign == "minus":
            return value
        if not inward and value and name in ("depth", "length"):
            way = "outward" if name == "depth" else "toward the front face"
            raise Unsayable(f"a {name} {way}, since it has no sign")
        return abs(value)

    def filled(self, pattern: Pattern, values: Values, without: frozenset[str] = frozenset()) -> str:
        """A pattern with its values written as their figures have it."""
        texts = {name: self._text(gap, values[name]) for name, gap in pattern.gaps.items() if name in values}
        lacking = pattern.always - texts.keys() - without
        if lacking:
            raise Unsayable(f"a block without {' and '.join(sorted(lacking))}")
        return pattern.fill(texts, without)

    def _text(self, gap: Gap, value: Fraction | int | str) -> str:
        if isinstance(value, str):
            return value
        if isinstance(value, int):
            if gap.width and len(str(value)) > gap.width:
                raise Unsayable(f"{gap.field} {value}, which has more than {gap.width} digits")
            return f"{value:0{gap.width}d}"
        value *= 2 if self._on_diameter(gap) else 1
        value = -value if gap.sign == "minus" else value
        text = self.dialect.figure(gap.address).write(value, self.units, gap.whole)
        if text is None and gap.field in DIAMETERS and (value * self.increments.per_length).denominator == 2:
            finer = f"if the control takes a finer X, give it more decimals in numbers.{gap.address}"
            raise Unsayable(f"an X of half an increment on the radius ({float(2 * value):g} across); {finer}")
        if text is None:
            shown = f"{gap.field} {float(value):g}"
            raise Unsayable(f"{shown}, which {gap.address or 'its word'} can't hold with the digits that it has")
        return text

    def _on_diameter(self, gap: Gap) -> bool:
        """True if a gap wants the diameter of a radius."""
        if gap.field in DIAMETERS:
            return gap.measure == "diameter" or (not gap.measure and self.dialect.diameter_x)
        return gap.field in RADII and gap.measure == "diameter"


def _offset(start: tuple[int, int], end: tuple[int, int], radius: int, clockwise: bool) -> tuple[int, int]:
    """From the start of an arc to its centre in whole counts: radial, axial."""
    along, out = end[1] - start[1], (end[0] - start[0]) / 2
    chord = math.hypot(along, out)
    height = math.sqrt(max(0.0, radius**2 - chord**2 / 4)) / chord if chord else 0.0
    side = 1 if clockwise else -1
    return round(out / 2 - side * along * height), round(along / 2 + side * out * height)
