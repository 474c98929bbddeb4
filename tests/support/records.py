"""Records as `make` writes them, built by hand from a part, so that a sheet can be tested with no other room at work.

    made(part, [(1, 2, 3, 4)])        -> (record, program text): one cycle block a set, insert as wide as its grooves
    refused(findings, segments)       -> record of a drawing that got no program

The program is spelt by the few lines here and the moves are those a control would make of it (common practice, no
source): out by the retract after each peck, to the start height between plunges.
"""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Part, Reading
from extractor.sheet import Segments, Sheet, Source
from planner.increment import Increments
from planner.plan import GrooveSet, Operation, Plan
from planner.shop import Shop
from planner.steps import Coolant, GrooveCycle, Rapid, Spindle, SpindleClamp, ToolCall
from postproc.motion import Motion
from rillwright.records.record_extra import drawn_lines, path_of, profile_of, recorded_operation, setup_of
from support.forms import form
from support.moves import shop, tool

STAMP = {
    "made_at": "2031-03-04T09:30:00+00:00",
    "tool_version": "0.1.0",
    "settings_sha256": hashlib.sha256(b"settings").hexdigest(),
}


@dataclass
class Script:
    """A program under way: its lines so far, its moves, and where the tool stands."""

    lines: list[str] = field(default_factory=list)
    moves: list[Motion] = field(default_factory=list)
    x: int = 0
    z: int = 0
    station: int = 1

    def say(self, line: str) -> int:
        """Add a line; its number."""
        self.lines.append(line)
        return len(self.lines)

    def go(self, x: int, z: int, line: int, feed: int | None = None) -> None:
        """Add a move to x, z."""
        kind = "rapid" if feed is None else "feed"
        self.moves.append(
            Motion(
                kind=kind,
                x0=self.x,
                z0=self.z,
                x1=x,
                z1=z,
                line=line,
                station=self.station,
                offset=self.station,
                feed=feed,
                speed=120,
                surface=True,
                clamp=3000,
            )
        )
        self.x, self.z = x, z


def shop_for(part: Part, sets: Sequence[Sequence[int]]) -> Shop:
    """A shop with one insert for each width among the sets, at stations 3, 5, 7."""
    widths = sorted({round(part.grooves[s[0] - 1].width, 4) for s in sets})
    inch = part.units == "in"
    k = 1 / 25 if inch else 1.0
    sizes = {"corner_radius": 0.2, "max_depth": 12, "feed": 0.08, "peck": 1.0, "retract": 0.5}
    tools = (
        tool(station=3 + 2 * i, offset=3 + 2 * i, width=width, **{name: size * k for name, size in sizes.items()})
        for i, width in enumerate(widths)
    )
    lengths = {"jaw_gap": 3, "clearance": 1, "tolerance": 0.02, "home_x": 150, "home_z": 100}
    machine = {name: length * k for name, length in lengths.items()}
    return shop(*tools, units=part.units, stick_out=part.length + 15 * k, coolant=True, **machine)


def made(
    part: Part, sets: Sequence[tuple[int, ...]], file: str = "ring.dxf", findings: Sequence[Finding] = ()
) -> tuple[dict[str, Any], str]:
    """A record of status made for the part, with its program text."""
    shop, inc, script = shop_for(part, sets), Increments.of(part.units), Script()
    script.x, script.z = inc.count(shop.machine.home_x), inc.count(shop.machine.home_z)
    script.say("%")
    script.say("O0001 (RING)")
    script.say("(PROVE OUT: SINGLE BLOCK, RAPID LOW, GUARDS SHUT)")
    script.say("G21 G40 G99" if part.units == "mm" else "G20 G40 G99")
    operations = tuple(_operation(script, part, shop, inc, s) for s in sets)
    script.say("M30")
    script.say("%")
    text = "\n".join(script.lines) + "\n"
    pitches = [_pitch(part, s) for s in sets]
    plan = Plan(
        inc,
        shop,
        tuple(GrooveSet(s, p) for s, p in zip(sets, pitches, strict=True)),
        (),
        operations,
        (),
        sum(o.seconds for o in operations) + 6,
    )
    reading = Reading(file, hashlib.sha256(file.encode()).hexdigest(), part.units, part, tuple(findings))
    return _record(reading, plan, text, script.moves), text


def _pitch(part: Part, numbers: Sequence[int]) -> float:
    """Distance from groove to groove of a set, 0 for one."""
    if len(numbers) < 2:
        return 0.0
    first, second = (part.grooves[n - 1] for n in numbers[:2])
    return round(first.z_near - second.z_near, 6)


def _operation(script: Script, part: Part, shop: Shop, inc: Increments, numbers: tuple[int, ...]) -> Operation:
    """Write one set as a cycle and make its moves."""
    grooves = [part.grooves[n - 1] for n in numbers]
    tool = min(shop.tools, key=lambda t: abs(t.width - grooves[0].width))
    top = max(max(g.near_land_diameter, g.far_land_diameter) for g in grooves)
    start_x = inc.count(top + 2 * shop.machine.clearance)
    start_z, end_z = inc.count(grooves[0].z_far), inc.count(grooves[-1].z_far)
    floor, shift = inc.count(grooves[0].floor_diameter), inc.count(_pitch(part, numbers))
    peck, retract, feed = inc.count(tool.peck), inc.count(tool.retract), inc.feed_count(tool.feed)
    n = len(f"{inc.per_length}") - 1
    script.station = tool.station
    script.say(tool.name)
    script.say("G50 S3000")
    script.say("G96 S120 M03")
    script.go(script.x, start_z, script.say(f"G00 Z{start_z / inc.per_length:.{n}f} M08"))
    script.go(start_x, start_z, script.say(f"X{start_x / inc.per_length:.{n}f}"))
    script.say(f"G75 R{retract / inc.per_length:.{n}f}")
    line = script.say(
        f"G75 X{floor / inc.per_length:.{n}f} Z{end_z / inc.per_length:.{n}f} P{peck} Q{shift} F{inc.feed_length(feed)}"
    )
    for i in range(len(numbers)):
        _plunge(script, start_x, start_z - i * shift, floor, peck, retract, feed, line)
    script.go(start_x, start_z, line)
    home = script.say(f"G00 X{shop.machine.home_x:.{n}f} M09")
    script.go(inc.count(shop.machine.home_x), start_z, home)
    steps = (
        ToolCall(tool.station, tool.offset),
        SpindleClamp(3000),
        Spindle("surface", 120),
        Coolant(True),
        Rapid(z=start_z),
        Rapid(x=start_x),
        GrooveCycle(floor_x=floor, end_z=end_z, peck=peck, shift=shift, retract=retract, feed=feed),
        Coolant(False),
    )
    why = (
        f"Insert {tool.width:g} wide equals the grooves' width, so each takes one plunge.",
        "The last shift ends exactly on the last groove.",
    )
    return Operation(numbers, tool, "cycle", start_x, start_z, steps, 5.0 * len(numbers), why)


def _plunge(script: Script, top: int, z: int, floor: int, peck: int, retract: int, feed: int, line: int) -> None:
    """Peck down to the floor at one z and come out."""
    script.go(top, z, line)
    x = top
    while x > floor:
        x = max(floor, x - 2 * (peck or top))
        script.go(x, z, line, feed)
        if x > floor:
            script.go(min(top, x + 2 * retract), z, line)
    script.go(top, z, line)


def part_form(reading: Reading, sets: Sequence[GrooveSet]) -> dict[str, Any]:
    """The contract's form of a part, written out here so that it is not taken from the code under test."""
    part = reading.part
    assert part is not None
    return {
        "schema": 1,
        "drawing": {"file": reading.file, "sha256": reading.sha256},
        "units": part.units,
        "outer_diameter": part.outer_diameter,
        "length": part.length,
        "grooves": [
            {
                "id": g.id,
                "where": g.where,
                "shape": g.shape,
                "z_near": g.z_near,
                "z_far": g.z_far,
                "width": g.width,
                "mouth_diameter": g.mouth_diameter,
                "floor_diameter": g.floor_diameter,
                "depth": g.depth,
                "corner_radius": g.corner_radius,
                "edge_chamfer": g.edge_chamfer,
                "tolerances": {k: list(v) for k, v in g.tolerances.items()},
                "printed": sorted(g.printed),
            }
            for g in part.grooves
        ],
        "sets": [{"grooves": list(s.grooves), "count": s.count, "pitch": s.pitch} for s in sets],
        "findings": [finding_form(f) for f in reading.findings],
    }


CONTRACT = ("grooves", "tool", "form", "start", "seconds")
"""What is written out here of an operation, so that it is not taken from the code under test."""


def finding_form(finding: Finding) -> dict[str, Any]:
    """The contract's form of a finding."""
    at = list(finding.at) if finding.at else None
    return {
        "level": str(finding.level),
        "code": finding.code,
        "message": finding.message,
        "at": at,
        "line": finding.line,
        "groove": finding.groove,
        "spots": [list(spot) for spot in finding.spots],
    }


def _record(reading: Reading, plan: Plan, text: str, moves: Sequence[Motion]) -> dict[str, Any]:
    """The whole record of a drawing that got its program."""
    part, inc = reading.part, plan.increments
    assert part is not None
    cycle = {
        n: i
        for o in plan.operations
        for n in o.grooves
        for i in sorted({m.line for m in moves if m.kind == "feed" and m.station == o.tool.station})
    }
    return {
        "schema": 1,
        "status": "made",
        "part": part_form(reading, plan.sets),
        "plan": {
            "operations": [
                {
                    "grooves": list(o.grooves),
                    "tool": o.tool.name,
                    "form": o.form,
                    "start": {"x": inc.length(o.start_x), "z": inc.length(o.start_z)},
                    "seconds": o.seconds,
                }
                | {n: v for n, v in form(recorded_operation(o, inc)).items() if n not in CONTRACT}
                for o in plan.operations
            ],
            "seconds": plan.seconds,
        },
        "program": {
            "file": reading.file.rsplit(".", 1)[0] + ".nc",
            "sha256": hashlib.sha256(text.encode()).hexdigest(),
            "dialect": "two-block",
        },
        "verification": {
            "schema": 1,
            "agree": True,
            "grooves": [
                {
                    "drawing": g.id,
                    "program": {
                        "z_near": g.z_near,
                        "z_far": g.z_far,
                        "floor_diameter": g.floor_diameter,
                        "lines": [cycle[g.id]] if g.id in cycle else [],
                    },
                    "state": "matches",
                    "difference": {"z_near": 0.0, "z_far": 0.0, "floor_diameter": 0.0},
                }
                for g in part.grooves
            ],
            "findings": [],
        },
        "findings": [finding_form(f) for f in reading.findings],
        "picture": form(profile_of(part)),
        "setup": form(setup_of(plan, part)),
        "path": form(path_of(moves, part.units)),
    } | STAMP


def refused(
    findings: Sequence[Finding] = (
        Finding(Level.STOP, DrawingCode.OUTLINE_OPEN, "The outline is open near (40, 17).", (40, 17)),
    ),
    ends: Sequence[tuple[float, float, float, float]] = (
        (0, 0, 60, 0),
        (60, 0, 60, 20),
        (60, 20, 40, 20),
        (38, 20, 0, 20),
    ),
    file: str = "bad.dxf",
    part: Part | None = None,
) -> dict[str, Any]:
    """A record of status refused, with the lines drawn on the sheet."""
    count = len(ends)
    segments = Segments(
        np.array(ends, dtype=float), np.zeros(count), np.zeros(count, dtype=np.int64), (Source("1", "LINE", "0"),)
    )
    digest = hashlib.sha256(file.encode()).hexdigest()
    reading = Reading(file, digest, part.units if part else None, part, tuple(findings))
    empty = {"schema": 1, "drawing": {"file": file, "sha256": digest}, "units": None, "grooves": [], "sets": []}
    told = part_form(reading, ()) if part else empty | {"findings": [finding_form(f) for f in findings]}
    return (
        {
            "schema": 1,
            "status": "refused",
            "part": told,
            "plan": None,
            "program": None,
            "verification": None,
            "findings": [finding_form(f) for f in findings],
            "drawn": form(drawn_lines(Sheet(file, digest, segments), [f.at for f in findings if f.at and f.stops])),
        }
        | ({"picture": form(profile_of(part))} if part else {})
        | STAMP
    )
