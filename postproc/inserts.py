"""Which inserts a program was written for: as a shop file, its own heading or the record beside it says, else unknown.

The built-in list stands for no turret, so a program is never judged by what happens to be in it at a station.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from extractor.finding import Finding, Level
from extractor.part import Units
from extractor.side import OUTSIDE
from extractor.values import dataclass
from planner.increment import Increments
from planner.settings.builtin import built_in_tools
from planner.shop import Shop, Tool
from postproc.codes import ProgramCode
from postproc.heading import SaidInsert, said_edge, said_inserts, units_remark
from postproc.reading.rescale import MM_PER_INCH
from postproc.reading.run import Run
from postproc.reading.words import ParsedProgram
from postproc.vocabulary.numbers import UNIT_NAMES, decimal

REMARK_TOOL = re.compile(r"\bT\s?0?(\d{1,2}?)(?:\d\d)?\b")
_NUMBER = r"(\d+(?:[.,]\d*)?|[.,]\d+)\s*(MM|IN|INCH)?"
REMARK_SIZES: Mapping[str, re.Pattern[str]] = {
    "width": re.compile(rf"{_NUMBER}\s*WIDE\b|\bWIDTH\s*[:=]?\s*{_NUMBER}\b"),
    "corner radius": re.compile(rf"\bR(?:E|ADIUS)?\s*[:=]?\s*{_NUMBER}\b"),
}
OF_PART = re.compile(r"\b(?:GROOVE|SLOT|LAND|BREAK|CHAMFER)\b")
"""A remark with such a word may give a size of the part, not the insert's."""
SENSE_WORDS: Mapping[bool, str] = {False: "clockwise", True: "counter-clockwise"}
SAME_WIDTH: Mapping[Units, float] = {"mm": 0.06, "in": 0.003}
"""Widths nearer to each other than this are one: remarks are rounded (common practice)."""
SAME_COUNTS, SAME_ANGLE = 1.5, 0.01
"""Sizes of a heading that are less than so many increments apart are one, and angles less than so many degrees."""


@dataclass(frozen=True)
class KnownInserts:
    """The inserts that a program is to be cut with, in the units asked for, and the findings about them.

    `reach_unsaid`: names of those whose reach nobody gave. `unknown`: a stop for each station that cuts with an insert
    of which nothing is known, if nothing is known of any.
    """

    tools: tuple[Tool, ...]
    reach_unsaid: frozenset[str] = frozenset()
    findings: tuple[Finding, ...] = ()
    unknown: tuple[Finding, ...] = ()


def shop_for(parsed: ParsedProgram, run: Run, shop: Shop, beside: Sequence[Tool] = ()) -> tuple[Shop, KnownInserts]:
    """The shop that a program is to be judged by.

    `beside`: inserts that something else than a shop file says, in the shop's units; they count where the program's
    heading says nothing, and give their reach where it says the same. With a shop file nothing changes, but a heading
    that contradicts it is a stop.
    """
    if "tools" not in shop.built_in:
        return shop, KnownInserts(shop.tools, findings=tuple(_contradictions(parsed, run, shop.tools, shop.units)))
    known = known_inserts(parsed, run, shop.units, (*beside, *shop.tools), beside)
    unsaid = frozenset(f"{name} max_depth" for name in known.reach_unsaid)
    told = {f"{tool.name} max_depth" for tool in known.tools} - unsaid
    kept = (shop.unsaid | unsaid) - told
    known = replace(known, findings=tuple(_against_program(parsed, run, {})))
    return replace(shop, tools=known.tools, built_in=shop.built_in - {"tools"}, unsaid=kept), known


def known_inserts(
    parsed: ParsedProgram, run: Run, units: Units, listed: Sequence[Tool] = (), beside: Sequence[Tool] = ()
) -> KnownInserts:
    """The inserts of a program that no shop file speaks of, in `units`.

    `listed` are tools whose other figures are taken where heading and tool say the same insert, the first that fits.
    """
    tools = {tool.name: tool for tool in beside}
    named = {tool.name for tool in beside}
    unsaid = set()
    for said in said_inserts(parsed):
        like = next((tool for tool in listed if tool.name == said.name and _same(said, tool, units)), None)
        tools[said.name] = like or _tool(said, units)
        if like is None or said.name not in named:
            unsaid.add(said.name)
    stations = {tool.station for tool in tools.values()}
    cutting = {m.station: m for m in reversed(run.motions) if m.kind == "feed" and m.station}
    if not cutting or stations & cutting.keys():
        return KnownInserts(tuple(tools.values()), frozenset(unsaid))
    unknown = [_unknown(m.station, m.offset, m.line) for m in sorted(cutting.values(), key=lambda m: m.line)]
    return KnownInserts((), unknown=tuple(unknown))


def contradictions(parsed: ParsedProgram, run: Run, tools: Iterable[Tool], units: Units) -> tuple[Finding, ...]:
    """A stop for each insert of which the heading, or a remark, says something other than the shop file."""
    return tuple(_contradictions(parsed, run, tools, units))


def _contradictions(parsed: ParsedProgram, run: Run, tools: Iterable[Tool], units: Units) -> Iterable[Finding]:
    by_name: Mapping[str, Tool] = {tool.name: tool for tool in tools}
    used = {motion.station for motion in run.motions}
    for said in said_inserts(parsed):
        tool = by_name.get(said.name)
        if tool is not None and said.station in used and not _same(said, tool, units):
            message = (
                f"The heading says that {said.name} is {_words(_tool(said, units), units)}, and the shop file that it "
                f"is {_words(tool, units)}; see which of them is in the turret."
            )
            yield Finding(Level.STOP, ProgramCode.INSERT_DIFFERS, message, line=said.line)
    turret = {tool.station: tool for tool in by_name.values() if tool.station in used}
    yield from _other_sizes(parsed, turret, units)
    yield from _other_edges(parsed, turret)
    yield from _against_program(parsed, run, turret)


def _against_program(parsed: ParsedProgram, run: Run, tools: Mapping[int, Tool]) -> Iterable[Finding]:
    """What the heading says against its own program: a spindle that turns the other way is a stop, units a caution.

    Where the shop file has the spindle turn as the heading says, it is the shop file that the program is held to.
    A width in the wrong units shows as another insert, so a remark about the units alone is worth a look.
    """
    cuts = {(m.station, m.reverse): m for m in reversed(run.motions) if m.kind == "feed" and m.turning}
    for said in said_inserts(parsed):
        against = cuts.get((said.station, said.spindle == "cw"))
        shop_says = tools[said.station].spindle if said.station in tools else None
        if against is not None and said.spindle not in (None, shop_says):
            message = (
                f"The heading says that the spindle turns {SENSE_WORDS[not against.reverse]} for {said.name}, and the "
                f"program cuts with it while the spindle turns {SENSE_WORDS[against.reverse]}; see how the insert is "
                "mounted."
            )
            yield Finding(Level.STOP, ProgramCode.SPINDLE_REVERSE, message, line=against.line)
    units = units_remark(parsed)
    if units is not None and units[0] != run.units:
        message = (
            f"The heading says that the program is in {UNIT_NAMES[units[0]]}, and it is read in "
            f"{UNIT_NAMES[run.units]}; correct the heading or the unit word."
        )
        yield Finding(Level.CAUTION, ProgramCode.UNITS_DIFFER, message, line=units[1])


def _other_edges(parsed: ParsedProgram, tools: Mapping[int, Tool]) -> Iterable[Finding]:
    """A stop for each remark that has the offset set to the other edge, of inserts that the heading gives not whole."""
    whole = {said.name for said in said_inserts(parsed)}
    for block in parsed.blocks:
        for name, (axis, edge) in filter(None, map(said_edge, block.comments)):
            tool = next((tool for tool in tools.values() if tool.name == name), None)
            if tool is not None and name not in whole and (axis, edge) != (tool.side.axis, tool.reference):
                message = (
                    f"A remark says that {name} has {axis} set to its {edge} edge, and the shop file has "
                    f"{tool.side.axis} set to its {tool.reference} edge; see how its offset was set."
                )
                yield Finding(Level.STOP, ProgramCode.INSERT_DIFFERS, message, line=block.line)


def _other_sizes(parsed: ParsedProgram, tools: Mapping[int, Tool], units: Units) -> Iterable[Finding]:
    """A stop for each remark in anybody's words, no whole heading, that gives a tool a size not the shop's.

    What is more than half the width is no radius of a corner.
    """
    whole = {said.line for said in said_inserts(parsed)}
    remarks = (
        (block.line, text.upper()) for block in parsed.blocks if block.line not in whole for text in block.comments
    )
    for line, remark in remarks:
        named = REMARK_TOOL.search(remark)
        tool = tools.get(int(named[1])) if named else None
        if tool is None or OF_PART.search(remark):
            continue
        for size in REMARK_SIZES:
            said, own = _said_size(remark, size, units), tool.width if size == "width" else tool.corner_radius
            if said is None or abs(said - own) <= SAME_WIDTH[units] or (size != "width" and 2 * said > tool.width):
                continue
            message = (
                f"A remark gives {tool.name} a {size} of {said:g}, and the shop file one of {own:g}; see which of them "
                "is in the turret."
            )
            yield Finding(Level.STOP, ProgramCode.INSERT_DIFFERS, message, line=line)


def _said_size(remark: str, size: str, units: Units) -> float | None:
    """The width or the corner radius, in `units`, that a remark names.

    >>> _said_size("T0303 = GROOVING 4.0 MM WIDE", "width", "mm"), _said_size("T0303 .5 IN WIDE", "width", "mm")
    (4.0, 12.7)
    >>> _said_size("T0303 GROOVING R0.8", "corner radius", "mm"), _said_size("T0303 R.H. TOOL", "corner radius", "mm")
    (0.8, None)
    """
    found = REMARK_SIZES[size].search(remark)
    if found is None:
        return None
    number, *unit = (group for group in found.groups() if group)
    told: Units = units if not unit else "mm" if unit == ["MM"] else "in"
    return float(number.replace(",", ".")) * _factor(told, units)


def _unknown(station: int, offset: int, line: int) -> Finding:
    """The stop about a station whose insert nobody names."""
    message = (
        f"Nothing says what insert T{station:02d}{offset:02d} is: give --shop FILE with its width, corner radius and "
        "reference edge."
    )
    return Finding(Level.STOP, ProgramCode.INSERT_UNKNOWN, message, line=line)


def _factor(told: Units, units: Units) -> float:
    """By what a length told in some units is multiplied to be in others."""
    return 1.0 if told == units else MM_PER_INCH if units == "mm" else 1 / MM_PER_INCH


def _tool(said: SaidInsert, units: Units) -> Tool:
    """A said insert as a tool; feed, peck and reach, which a heading doesn't say, are those of the nearest width."""
    factor = _factor(said.units, units)
    width, radius = said.width * factor, said.corner_radius * factor
    alike = [tool for tool in built_in_tools(units) if tool.where == said.where]
    nearest = min(alike, key=lambda tool: abs(tool.width - width))
    return replace(
        nearest,
        station=said.station,
        offset=said.offset,
        width=width,
        corner_radius=radius,
        reference=said.reference,
        where=said.where,
        edge=said.edge,
        angle=said.angle,
        max_depth=nearest.max_depth * max(1.0, width / nearest.width),
        min_bore=0.0,
    )


def _same(said: SaidInsert, tool: Tool, units: Units) -> bool:
    """True if a tool is the said insert, to one increment of the units that are said."""
    mine = _tool(said, units)
    fine = SAME_COUNTS / Increments.of(units).per_length
    forms = (mine.reference, mine.where, mine.edge) == (tool.reference, tool.where, tool.edge)
    near = abs(mine.width - tool.width) < fine and abs(mine.corner_radius - tool.corner_radius) < fine
    return forms and near and (tool.edge != "vee" or abs(mine.angle - (tool.angle or mine.angle)) < SAME_ANGLE)


def _words(tool: Tool, units: Units) -> str:
    """An insert in words."""
    increments = Increments.of(units)
    width, radius = (
        decimal(increments.count(length), increments.per_length).rstrip(".")
        for length in (tool.width, tool.corner_radius)
    )
    kind = "".join(f"{word} " for word in (tool.where, tool.edge) if word not in (OUTSIDE.where, "square"))
    angle = f", {tool.angle:g} degrees" if tool.edge == "vee" and tool.angle else ""
    edge = f"{tool.side.axis} set to its {tool.reference} edge"
    return f"{kind}{width} wide{angle} with corner radius {radius} and {edge}"
