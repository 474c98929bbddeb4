"""The set-up as the sheet shows it: the figures at its head, the turret stations, machine and material.

Nothing here is markup: the templates escape it all.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from extractor.finding import Level
from extractor.front import BY_WORDS, END_WORDS
from extractor.side import FACE, INSIDE, OUTSIDE
from planner.shop import Tool
from planner.steps import Spindle
from rillwright.jobsheet.labels import span_words
from rillwright.jobsheet.text import length_text, list_text, place_text, time_text
from rillwright.records.record import Record, RecordedRun, RecordedSetup, RecordedTool

MOST_TOOL_TILES = 3
EDGES: Mapping[tuple[str, str], str] = {
    ("Z", "near"): "front edge",
    ("Z", "far"): "chuck-side edge",
    ("X", "near"): "outer edge",
    ("X", "far"): "inner edge",
}
"""The edge of the insert that an offset sets along an axis; on a face the width lies along the radius."""


CUTS = {OUTSIDE.where: "", INSIDE.where: "inside", FACE.where: "the face"}
"""What an insert cuts, where that is not the outside."""


def reference_edge(tool: Tool) -> tuple[str, str]:
    """Axis and edge by which a tool is set.

    >>> cuts = dict(width=3.0, corner_radius=0.2, max_depth=12.0, feed=0.08, peck=1.0, retract=0.5)
    >>> reference_edge(Tool(station=3, offset=3, reference="far", where="face", **cuts))
    ('X', 'inner edge')
    """
    axis = tool.side.axis
    return axis, EDGES[axis, tool.reference]


def tiles(record: Record) -> Sequence[tuple[str, str, str]]:
    """The few figures that must be right before the first start: name, figure, what it means."""
    part, setup = record.part, record.setup
    found: list[tuple[str, str, str]] = []
    if part.units:
        found.append(("Units", part.units, "X is the diameter, Z0 the front face"))
    if part.front:
        found.append(("Z0", END_WORDS[part.front.end], f"of the drawn part, {BY_WORDS[part.front.by]}"))
    if setup:
        figure, least = _stick_out(record, setup)
        meaning = "room to the jaws not checked" if figure == "not given" else "front face to jaws"
        found.append(("Stick-out", figure, "; ".join(words for words in (meaning, least) if words)))
        found += _tool_tiles(setup)
        clamps = sorted({tool.clamp for tool in setup.tools if tool.clamp})
        if clamps:
            found.append(("Spindle clamp", list_text(clamps), "highest rev/min"))
    if record.made:
        if setup and setup.material.name:
            found.append(("Material", setup.material.name, "speeds and feeds are for this"))
        found.append(("Program time", time_text(seconds_of(record)), "reckoned, not measured"))
    cautions = caution_count(record)
    if cautions:
        found.append(("Cautions", str(cautions), "read them under Findings first"))
    return found


def seconds_of(record: Record) -> float | None:
    """How long the plan takes, None without one."""
    return record.plan.seconds if record.plan else None


SECTIONS = {"Units": "part", "Z0": "part", "Program time": "operations", "Cautions": "findings"}
"""The section of the sheet that tells more about a tile, by the tile's name; of any other tile it is the set-up."""


def with_sections(told: Sequence[tuple[str, str, str]]) -> list[tuple[str, str, str, str]]:
    """The tiles, each with the section that it leads to.

    >>> with_sections([("Cautions", "2", "read them under Findings first")])[0][-1]
    'findings'
    """
    return [(*tile, SECTIONS.get(tile[0], "setup")) for tile in told]


def _stick_out(record: Record, setup: RecordedSetup) -> tuple[str, str]:
    """How far the part stands out of the jaws, and how far it has to, as far as either is known."""
    units, needed, given = record.part.units, stick_out_needed(record), setup.machine.stick_out
    least = "" if needed is None else f"at least {length_text(needed, units)} needed"
    return "not given" if given is None else length_text(given, units), least


def _held(setup: RecordedSetup) -> str:
    """Length and diameter that the jaws hold, nothing where that is not known."""
    held, units = setup.in_jaws, setup.units
    return f"{length_text(held.length, units)} on ⌀{length_text(held.diameter, units)}" if held else ""


def stick_out_needed(record: Record) -> float | None:
    """Least distance from front face to jaws at which every insert that cuts outside keeps its gap to them.

    Taken from the moves of the program as read back; None where they are not all known, or none is outside.
    """
    path, setup = record.path, record.setup
    if path is None or setup is None or path.left_out:
        return None
    reach = {
        (one.insert.station, one.insert.offset): min(u for u, _ in one.edge_points) - (one.insert.holder_far or 0.0)
        for one in setup.tools
        if one.edge_points and one.insert.side == OUTSIDE
    }
    by_index = {index: reach[turret] for index, turret in enumerate(path.tools) if turret in reach}
    # A move is line, tool, feed, then x and z of both its ends, in counts.
    lowest = [move[6] / path.per_length + by_index[move[1]] for move in path.moves if move[2] and move[1] in by_index]
    return setup.machine.jaw_gap - min(lowest) if lowest else None


def _tool_tiles(setup: RecordedSetup) -> list[tuple[str, str, str]]:
    """A tile for each insert, or one for all of them where there are many."""
    if len(setup.tools) > MOST_TOOL_TILES:
        return [("Stations", " ".join(one.name for one in setup.tools), "inserts and edges: see Set-up")]
    return [(f"Insert in {one['name']}", one["width"], one["edge"]) for one in tool_rows(setup)]


def caution_count(record: Record) -> int:
    """How many cautions stand in the record and its verification."""
    verdict = record.verification
    findings = (*record.findings, *(verdict.findings if verdict else ()))
    return sum(one.level is Level.CAUTION for one in findings)


def tool_rows(setup: RecordedSetup | None) -> list[dict[str, Any]]:
    """The turret stations in use, each with its figures as pairs of name and value."""
    if setup is None:
        return []
    return [
        {
            "name": one.name,
            "station": one.insert.station,
            "offset": one.insert.offset,
            "width": length_text(one.insert.width, setup.units),
            "edge": " set to the ".join(reference_edge(one.insert)),
            "ids": " ".join(map(str, one.grooves)),
            "figures": _told(_tool_figures(one, setup.units)),
        }
        for one in setup.tools
    ]


def _told(pairs: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    """The pairs that have a value."""
    return [(name, value) for name, value in pairs if value]


def _tool_figures(one: RecordedTool, units: str) -> list[tuple[str, str]]:
    """What is to be set and checked at one station."""
    tool = one.insert
    axis, edge = reference_edge(tool)
    form = {"vee": f"vee, {tool.angle:g}°", "round": "round"}.get(tool.edge, "")
    return [
        ("Insert width", length_text(tool.width, units)),
        ("Cutting edge", form),
        ("Cuts", CUTS[tool.where]),
        ("Corner radius", length_text(tool.corner_radius, units)),
        ("Reach", length_text(tool.max_depth, units)),
        (f"{axis} is set to the", edge),
        ("Cutting speed", spindle_text(one.spindle, units)),
        ("Spindle clamp", f"{one.clamp} rev/min" if one.clamp else "–"),
        ("Feed per rev", list_text(one.feeds)),
        ("Peck", length_text(tool.peck, units) if tool.peck else "straight in"),
        ("Retract", length_text(tool.retract, units)),
        ("Left for finishing", length_text(tool.finish, units) if tool.finish else ""),
        ("Grooves", span_words(one.grooves)),
    ]


def spindle_text(spindle: Spindle | None, units: str | None) -> str:
    """What the spindle is told."""
    if spindle is None:
        return "–"
    way = "" if spindle.clockwise else ", counter-clockwise"
    if spindle.mode == "surface":
        return f"{spindle.speed} {'ft/min' if units == 'in' else 'm/min'}{way}"
    return f"{spindle.speed} rev/min{way}"


def run_rows(run: RecordedRun) -> list[tuple[str, str]]:
    """What the run was told beside the drawing, as pairs of name and value."""
    told = [f"--{name}{_option_value(value)}" for name, value in run.reading.items()]
    return [
        ("Shop file", run.shop),
        ("Changed in it for this run", ", ".join(run.changes)),
        ("Told about the drawing", " ".join(told)),
    ]


def _option_value(value: Any) -> str:
    """An option's value as it is typed, nothing for a plain flag."""
    if value is True:
        return ""
    return " " + (",".join(f"{one}" for one in value) if isinstance(value, list | tuple) else f"{value}")


def setup_rows(record: Record) -> list[tuple[str, str]]:
    """The machine's side of the set-up, as pairs of name and value."""
    run, setup = run_rows(record.run) if record.run else [], record.setup
    if setup is None:
        return _told(run)
    machine, units = setup.machine, setup.units
    centre = f"⌀{length_text(machine.tailstock, units)}" if machine.tailstock else ""
    return _told(
        [
            *run,
            ("Stick-out, front face to jaws", ", ".join(words for words in _stick_out(record, setup) if words)),
            ("In the jaws", _held(setup)),
            ("Least gap between tool and jaws", length_text(machine.jaw_gap, units)),
            ("Start height above the land", f"{length_text(machine.clearance, units)} a side"),
            ("Tool change at", f"X{length_text(machine.home_x, units)} Z{place_text(machine.home_z, units)}"),
            ("Highest spindle speed", f"{machine.max_rpm} rev/min"),
            ("Coolant", "on" if machine.coolant else "off"),
            ("Centre in the front face", centre),
            ("Material", setup.material.name or "–"),
            ("Tolerance where the drawing gives none", f"± {length_text(machine.tolerance, units)}"),
        ]
    )
