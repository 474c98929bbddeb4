"""Values -> the JSON forms that scripts rely on (`schema` 1).

Lengths are in the drawing's units, rounded to `DIGITS` decimals so that a number prints as it was meant.
Keys beyond those promised may be added, never taken away.
"""

import json
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from typing import Any

from extractor.distance import Distance
from extractor.finding import Finding
from extractor.ink import InkLedger
from extractor.limits import deviations
from extractor.part import Groove, Reading
from extractor.score import Weighed
from extractor.side import OUTSIDE
from planner.plan import GrooveSet, Plan
from postproc.verdict import CutGroove, Match, Verdict
from rillwright.record_extra import operation_extra

Json = dict[str, Any]

SCHEMA = 1
DIGITS = 6


def dump(document: Any) -> str:
    """One JSON document as text, ending in a line feed; anything odd in a name is escaped."""
    return json.dumps(document, indent=1, allow_nan=False) + "\n"


def number(value: float) -> float:
    """A length as printed, without a minus zero.

    >>> number(-0.00000001), number(12.3000000001)
    (0.0, 12.3)
    """
    return round(value, DIGITS) + 0.0


def findings_json(findings: Iterable[Finding]) -> list[Json]:
    """Each finding with its place; program line and groove only where it has them."""
    return [finding_json(one) for one in findings]


def finding_json(finding: Finding) -> Json:
    """One finding."""
    form: Json = {
        "level": str(finding.level),
        "code": str(finding.code),
        "message": finding.message,
        "at": None if finding.at is None else [number(v) for v in finding.at],
    }
    if finding.line is not None:
        form["line"] = finding.line
    if finding.groove is not None:
        form["groove"] = finding.groove
    if finding.spots:
        form["spots"] = [[number(v) for v in spot] for spot in finding.spots]
    return form


def ink_json(ink: InkLedger) -> Json:
    """How much of what is drawn was explained as what, in drawn lengths."""
    explained = {role: number(size) for role, size in sorted(ink.explained.items())}
    return {"outline": number(ink.outline), "explained": explained, "unexplained": number(ink.unexplained)}


def weighed_json(one: Weighed) -> Json:
    """One reading that was weighed, with the parts of its score."""
    return {
        "at": [number(v) for v in one.at],
        "axis": [number(v) for v in one.axis],
        "front": None if one.front is None else asdict(one.front),
        "scale": None if one.scale is None else number(one.scale),
        "set_aside": one.set_aside,
        "taken": one.taken,
        "score": {str(k): {"figure": number(m.figure), "reason": m.reason} for k, m in one.score.items()},
    }


def groove_json(groove: Groove) -> Json:
    """One groove of a part, of a face groove with the diameters of its walls by name as well.

    Which of its tolerances come from a general note is named only where some do.
    """
    walls = {
        "outer_wall_diameter": number(groove.mouth_diameter),
        "inner_wall_diameter": number(groove.floor_diameter),
    }
    form: Json = {
        "id": groove.id,
        "where": groove.where,
        "shape": groove.shape,
        "z_near": number(groove.z_near),
        "z_far": number(groove.z_far),
        "width": number(groove.width),
        "mouth_diameter": number(groove.mouth_diameter),
        "floor_diameter": number(groove.floor_diameter),
        "depth": number(groove.depth),
        "corner_radius": number(groove.corner_radius),
        "edge_chamfer": number(groove.edge_chamfer),
        "tolerances": {name: [number(v) for v in pair] for name, pair in sorted(deviations(groove).items())},
    }
    form |= {} if groove.side.axial else walls
    form |= {"printed": sorted(groove.printed)} if groove.printed else {}
    return form | ({"general_tolerances": sorted(groove.general)} if groove.general else {})


def distance_json(one: Distance) -> Json:
    """One printed distance between places of grooves and ends; groove 0 is the part itself."""
    return {
        "from": {"groove": one.start.groove, "spot": one.start.spot},
        "to": {"groove": one.end.groove, "spot": one.end.spot},
        "nominal": number(one.nominal),
        "deviations": None if one.deviations is None else [number(v) for v in one.deviations],
        "source": one.source,
    }


def part_json(reading: Reading, sets: Sequence[GrooveSet]) -> Json:
    """What was recognised; `null` and empty lists where there is no part."""
    part = reading.part
    more: Json = {"distances": [distance_json(one) for one in part.distances]} if part and part.distances else {}
    if part and part.materials:
        more["materials"] = [
            {"text": note.text, "at": None if note.at is None else [number(v) for v in note.at]}
            for note in part.materials
        ]
    return {
        "schema": SCHEMA,
        "drawing": {"file": reading.file, "sha256": reading.sha256},
        "units": reading.units,
        "front": None if reading.front is None else asdict(reading.front),
        "ink": None if reading.ink is None else ink_json(reading.ink),
        "weighed": [weighed_json(one) for one in reading.weighed],
        "outer_diameter": number(part.outer_diameter) if part else None,
        "length": number(part.length) if part else None,
        "grooves": [groove_json(groove) for groove in part.grooves] if part else [],
        "sets": [{"grooves": list(one.grooves), "count": one.count, "pitch": number(one.pitch)} for one in sets],
        "findings": findings_json(reading.findings),
    } | more


def plan_json(plan: Plan) -> Json:
    """The operations in order, with what was decided in each."""
    increments = plan.increments
    return {
        "operations": [
            {
                "grooves": list(operation.grooves),
                "tool": operation.tool.name,
                "form": operation.form,
                "start": {"x": increments.length(operation.start_x), "z": increments.length(operation.start_z)},
                "seconds": round(operation.seconds, 3),
            }
            | operation_extra(operation, increments)
            for operation in plan.operations
        ],
        "seconds": round(plan.seconds, 3),
        "left_out": list(plan.left_out),
    }


def verdict_json(verdict: Verdict) -> Json:
    """The answer of compare."""
    return {
        "schema": SCHEMA,
        "agree": verdict.agree,
        "grooves": [_match_json(match) for match in verdict.matches],
        "findings": [finding_json(one) | {"line": one.line} for one in verdict.findings],
        "followed": {
            "moves": verdict.followed.moves,
            "not_followed": verdict.followed.not_followed,
            "as_point": verdict.followed.as_point,
        },
    }


def _match_json(match: Match) -> Json:
    return {
        "drawing": match.drawing,
        "program": None if match.program is None else cut_json(match.program),
        "state": str(match.state),
        "difference": {name: number(value) for name, value in match.difference.items()},
    }


def cut_json(cut: CutGroove) -> Json:
    """A groove that a program leaves in the metal."""
    form: Json = {
        "z_near": number(cut.z_near),
        "z_far": number(cut.z_far),
        "floor_diameter": number(cut.floor_diameter),
        "lines": list(cut.lines),
    }
    if cut.side != OUTSIDE:
        form["where"] = cut.where
    if cut.mouth_diameter is not None:
        form["mouth_diameter"] = number(cut.mouth_diameter)
    return form
