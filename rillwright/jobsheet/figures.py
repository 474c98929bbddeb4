"""The set-up as the sheet tells it: the figures at its head, the turret stations, machine and material.

Nothing here is markup: the templates escape it all.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from extractor.front import BY_WORDS, END_WORDS
from extractor.side import FACE, INSIDE, OUTSIDE, SIDES
from rillwright.jobsheet.labels import span_words
from rillwright.jobsheet.text import length_text, list_text, place_text, time_text

Json = dict[str, Any]

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


def reference_edge(tool: Mapping[str, Any]) -> tuple[str, str]:
    """Axis and edge by which a tool is set.

    >>> reference_edge({"reference": "far", "where": "face"})
    ('X', 'inner edge')
    """
    axis, reference = SIDES[tool.get("where") or OUTSIDE.where].axis, str(tool["reference"])
    return axis, EDGES.get((axis, reference), reference)


def tiles(record: Mapping[str, Any]) -> Sequence[tuple[str, str, str]]:
    """The few figures that must be right before the first start: name, figure, what it means."""
    part, setup = record.get("part") or {}, record.get("setup") or {}
    machine, units = setup.get("machine") or {}, part.get("units")
    found = []
    if units:
        found.append(("Units", units, "X is the diameter, Z0 the front face"))
    if front := part.get("front"):
        found.append(("Z0", END_WORDS[front["end"]], f"of the drawn part, {BY_WORDS[front['by']]}"))
    if machine:
        figure, least = _stick_out(record)
        meaning = "room to the jaws not checked" if figure == "not given" else "front face to jaws"
        found.append(("Stick-out", figure, "; ".join(words for words in (meaning, least) if words)))
    found += _tool_tiles(tool_rows(record))
    clamps = sorted({t["clamp"] for t in setup.get("tools") or [] if t.get("clamp")})
    if clamps:
        found.append(("Spindle clamp", list_text(clamps), "highest rev/min"))
    if record.get("status") == "made":
        material = (setup.get("material") or {}).get("name")
        found += [("Material", str(material), "speeds and feeds are for this")] if material else []
        found.append(("Program time", time_text((record.get("plan") or {}).get("seconds")), "reckoned, not measured"))
    cautions = caution_count(record)
    if cautions:
        found.append(("Cautions", str(cautions), "read them under Findings first"))
    return found


SECTIONS = {"Units": "part", "Z0": "part", "Program time": "operations", "Cautions": "findings"}
"""The section of the sheet that tells more about a tile, by the tile's name; of any other tile it is the set-up."""


def with_sections(told: Sequence[tuple[str, str, str]]) -> list[tuple[str, str, str, str]]:
    """The tiles, each with the section that it leads to.

    >>> with_sections([("Cautions", "2", "read them under Findings first")])[0][-1]
    'findings'
    """
    return [(*tile, SECTIONS.get(tile[0], "setup")) for tile in told]


def _stick_out(record: Mapping[str, Any]) -> tuple[str, str]:
    """How far the part stands out of the jaws, and how far it has to, as far as either is known."""
    units, needed = (record.get("part") or {}).get("units"), stick_out_needed(record)
    given = record["setup"]["machine"].get("stick_out")
    least = "" if needed is None else f"at least {length_text(needed, units)} needed"
    return "not given" if given is None else length_text(given, units), least


def _held(setup: Mapping[str, Any]) -> str:
    """Length and diameter that the jaws hold, nothing where that is not known."""
    held, units = setup.get("in_jaws"), setup.get("units")
    return f"{length_text(held['length'], units)} on ⌀{length_text(held['diameter'], units)}" if held else ""


def stick_out_needed(record: Mapping[str, Any]) -> float | None:
    """Least distance from front face to jaws at which every insert that cuts outside keeps its gap to them.

    Taken from the moves of the program as read back; None where they are not all known, or none is outside.
    """
    path, setup = record.get("path") or {}, record.get("setup") or {}
    if path.get("left_out") or not path.get("moves"):
        return None
    reach = {
        (t["station"], t["offset"]): min(u for u, _ in t["edge_points"]) - (t.get("holder_far") or 0.0)
        for t in setup.get("tools") or []
        if t.get("edge_points") and (t.get("where") or OUTSIDE.where) == OUTSIDE.where
    }
    by_index = {
        n: reach[station, offset] for n, (station, offset) in enumerate(path["tools"]) if (station, offset) in reach
    }
    # A move is line, tool, feed, then x and z of both its ends, in counts.
    lowest = [
        move[6] / path["per_length"] + by_index[move[1]] for move in path["moves"] if move[2] and move[1] in by_index
    ]
    return setup["machine"]["jaw_gap"] - min(lowest) if lowest else None


def _tool_tiles(tools: Sequence[Json]) -> list[tuple[str, str, str]]:
    """A tile for each insert, or one for all of them where there are many."""
    if len(tools) > MOST_TOOL_TILES:
        return [("Stations", " ".join(t["name"] for t in tools), "inserts and edges: see Set-up")]
    return [(f"Insert in {t['name']}", t["width"], t["edge"]) for t in tools]


def caution_count(record: Mapping[str, Any]) -> int:
    """How many cautions stand in the record and its verification."""
    findings = [*(record.get("findings") or []), *((record.get("verification") or {}).get("findings") or [])]
    return sum(f["level"] == "caution" for f in findings)


def tool_rows(record: Mapping[str, Any]) -> list[Json]:
    """The turret stations in use, each with its figures as pairs of name and value."""
    setup = record.get("setup") or {}
    return [
        {
            "name": t["name"],
            "station": t["station"],
            "offset": t["offset"],
            "width": length_text(t["width"], setup.get("units")),
            "edge": " set to the ".join(reference_edge(t)),
            "ids": " ".join(map(str, t.get("grooves") or [])),
            "figures": _tool_figures(t, setup.get("units")),
        }
        for t in setup.get("tools") or []
    ]


def _tool_figures(tool: Mapping[str, Any], units: str | None) -> list[tuple[str, str]]:
    """What is to be set and checked at one station."""
    axis, edge = reference_edge(tool)
    form = {"vee": f"vee, {tool.get('angle') or 0:g}°", "round": "round"}.get(tool.get("edge") or "", "")
    found = [
        ("Insert width", length_text(tool["width"], units)),
        ("Cutting edge", form),
        ("Cuts", CUTS[tool.get("where") or OUTSIDE.where]),
        ("Corner radius", length_text(tool["corner_radius"], units)),
        ("Reach", length_text(tool["max_depth"], units)),
        (f"{axis} is set to the", edge),
        ("Cutting speed", spindle_text(tool.get("spindle"), units)),
        ("Spindle clamp", f"{tool['clamp']} rev/min" if tool.get("clamp") else "–"),
        ("Feed per rev", list_text(tool.get("feeds") or [])),
        ("Peck", length_text(tool["peck"], units) if tool.get("peck") else "straight in"),
        ("Retract", length_text(tool["retract"], units)),
        ("Left for finishing", length_text(tool["finish"], units) if tool.get("finish") else ""),
        ("Grooves", span_words(tool.get("grooves") or [])),
    ]
    return [(name, value) for name, value in found if value]


def spindle_text(spindle: Mapping[str, Any] | None, units: str | None) -> str:
    """What the spindle is told."""
    if not spindle:
        return "–"
    way = "" if spindle.get("clockwise", True) else ", counter-clockwise"
    if spindle["mode"] == "surface":
        return f"{spindle['speed']} {'ft/min' if units == 'in' else 'm/min'}{way}"
    return f"{spindle['speed']} rev/min{way}"


def run_rows(record: Mapping[str, Any]) -> list[tuple[str, str]]:
    """What the run was told beside the drawing, as pairs of name and value."""
    run = record.get("run") or {}
    told = [f"--{name}{_option_value(value)}" for name, value in (run.get("reading") or {}).items()]
    found = [
        ("Shop file", str(run.get("shop") or "")),
        ("Changed in it for this run", ", ".join(run.get("changes") or [])),
        ("Told about the drawing", " ".join(told)),
    ]
    return [(name, value) for name, value in found if value]


def _option_value(value: Any) -> str:
    """An option's value as it is typed, nothing for a plain flag."""
    if value is True:
        return ""
    return " " + (",".join(f"{one}" for one in value) if isinstance(value, list) else f"{value}")


def setup_rows(record: Mapping[str, Any]) -> list[tuple[str, str]]:
    """The machine's side of the set-up, as pairs of name and value."""
    setup = record.get("setup") or {}
    machine, material, units = setup.get("machine") or {}, setup.get("material") or {}, setup.get("units")
    if not machine:
        return run_rows(record)
    found = [
        *run_rows(record),
        ("Stick-out, front face to jaws", ", ".join(words for words in _stick_out(record) if words)),
        ("In the jaws", _held(setup)),
        ("Least gap between tool and jaws", length_text(machine["jaw_gap"], units)),
        ("Start height above the land", f"{length_text(machine['clearance'], units)} a side"),
        ("Tool change at", f"X{length_text(machine['home_x'], units)} Z{place_text(machine['home_z'], units)}"),
        ("Highest spindle speed", f"{machine['max_rpm']} rev/min"),
        ("Coolant", "on" if machine.get("coolant") else "off"),
        (
            "Centre in the front face",
            f"⌀{length_text(machine['tailstock'], units)}" if machine.get("tailstock") else "",
        ),
        ("Material", str(material.get("name") or "–")),
        ("Tolerance where the drawing gives none", f"± {length_text(machine['tolerance'], units)}"),
    ]
    return [(name, value) for name, value in found if value]
