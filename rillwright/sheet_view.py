"""A record as the sheet's templates want it: every number already a text, every choice of words already made.

Nothing here is markup: the templates escape it all.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from rillwright.sheet_labels import set_letter, span_words
from rillwright.sheet_picture import set_class
from rillwright.sheet_scene import lines_of_each, operations, set_of_each
from rillwright.sheet_text import hash_text, length_text, list_text, place_text, signed_text, time_text

Json = dict[str, Any]

LEVELS = {"stop": "Stop", "caution": "Caution", "note": "Note"}
FORMS = {"cycle": "grooving cycle", "plunges": "single plunges"}
STATES = {
    "matches": "matches",
    "position": "wrong place",
    "width": "wrong width",
    "depth": "wrong depth",
    "missing": "not cut",
    "extra": "not on the drawing",
}
MOST_TOOL_TILES = 3
EDGES = {"near": "front edge", "far": "chuck-side edge"}


def headline(record: Mapping[str, Any]) -> Json:
    """The stamp at the head of the sheet: whether there is a program, and whether it was found to cut the drawing."""
    verdict = record.get("verification") or {}
    if record.get("status") != "made":
        return {"kind": "bad", "title": "No program", "line": "The drawing was refused; the reasons are below."}
    if verdict.get("agree"):
        count = len(verdict.get("grooves") or [])
        return {
            "kind": "good",
            "title": "Cuts the drawing",
            "line": f"Read back and cut in simulation: {count} of {count} grooves match.",
        }
    return {"kind": "bad", "title": "Does not cut the drawing", "line": "Don't run it; see the verification below."}


def groove_rows(record: Mapping[str, Any]) -> list[Json]:
    """The table of grooves, front to back."""
    part = record.get("part") or {}
    units, sets, lines = part.get("units"), set_of_each(record), lines_of_each(record)
    planned = {n for o in operations(record) for n in o["grooves"]}
    return [
        {
            "id": g["id"],
            "set": sets.get(g["id"]),
            "letter": set_letter(sets[g["id"]]) if g["id"] in sets else "",
            "style": set_class(sets.get(g["id"])),
            "kind": " ".join(w for w in (g["where"], g["shape"]) if w not in ("outside", "rectangular")),
            "z_near": place_text(g["z_near"], units),
            "z_far": place_text(g["z_far"], units),
            "width": length_text(g["width"], units),
            "floor": length_text(g["floor_diameter"], units),
            "depth": length_text(g["depth"], units),
            "lines": span_words(lines.get(g["id"], ())),
            "planned": g["id"] in planned,
        }
        for g in part.get("grooves") or []
    ]


def set_rows(record: Mapping[str, Any]) -> list[Json]:
    """The legend: each set's letter, style, grooves and pitch."""
    part = record.get("part") or {}
    ordered = sorted(part.get("sets") or [], key=lambda s: min(s["grooves"]))
    return [
        {
            "index": index,
            "letter": set_letter(index),
            "style": set_class(index),
            "grooves": span_words(s["grooves"]),
            "count": s["count"],
            "pitch": length_text(s["pitch"], part.get("units")) if s["count"] > 1 else None,
        }
        for index, s in enumerate(ordered)
    ]


def tool_rows(record: Mapping[str, Any]) -> list[Json]:
    """The turret stations in use, each with its figures as pairs of name and value."""
    setup = record.get("setup") or {}
    return [
        {
            "name": t["name"],
            "station": t["station"],
            "offset": t["offset"],
            "width": length_text(t["width"], setup.get("units")),
            "edge": EDGES.get(t["reference"], t["reference"]),
            "ids": " ".join(map(str, t.get("grooves") or [])),
            "figures": _tool_figures(t, setup.get("units")),
        }
        for t in setup.get("tools") or []
    ]


def _tool_figures(tool: Mapping[str, Any], units: str | None) -> list[tuple[str, str]]:
    """What is to be set and checked at one station."""
    form = {"vee": f"vee, {tool.get('angle') or 0:g}°", "round": "round"}.get(tool.get("edge") or "", "")
    found = [
        ("Insert width", length_text(tool["width"], units)),
        ("Cutting edge", form),
        ("Corner radius", length_text(tool["corner_radius"], units)),
        ("Reach", length_text(tool["max_depth"], units)),
        ("Z is set to the", EDGES.get(tool["reference"], tool["reference"])),
        ("Cutting speed", spindle_text(tool.get("spindle"), units)),
        ("Spindle clamp", f"{tool['clamp']} rev/min" if tool.get("clamp") else "–"),
        ("Feed per rev", list_text(tool.get("feeds") or [])),
        ("Peck", length_text(tool["peck"], units) if tool.get("peck") else "straight in"),
        ("Retract", length_text(tool["retract"], units)),
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


def setup_rows(record: Mapping[str, Any]) -> list[tuple[str, str]]:
    """The machine's side of the set-up, as pairs of name and value."""
    setup = record.get("setup") or {}
    machine, material, units = setup.get("machine") or {}, setup.get("material") or {}, setup.get("units")
    if not machine:
        return []
    found = [
        ("Stick-out, front face to jaws", length_text(machine.get("stick_out"), units)),
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


def operation_rows(record: Mapping[str, Any]) -> list[Json]:
    """The operations in the order in which they are cut."""
    units, sets = (record.get("part") or {}).get("units"), set_of_each(record)
    return [
        {
            "number": number,
            "grooves": span_words(o["grooves"]),
            "ids": " ".join(map(str, o["grooves"])),
            "letter": "".join(dict.fromkeys(set_letter(sets[g]) for g in o["grooves"] if g in sets)),
            "style": set_class(sets.get(o["grooves"][0])) if o["grooves"] else "set-none",
            "tool": o["tool"],
            "form": FORMS.get(o["form"], o["form"]),
            "start": f"X{length_text(o['start']['x'], units)} Z{place_text(o['start']['z'], units)}",
            "seconds": time_text(o.get("seconds")),
            "why": o.get("why") or [],
        }
        for number, o in enumerate(operations(record), start=1)
    ]


def finding_rows(findings: Iterable[Mapping[str, Any]]) -> list[Json]:
    """Findings with their place in words, the gravest first; those with a spot on the sheet are numbered."""
    order = list(LEVELS)
    ranked = sorted(findings, key=lambda f: order.index(f["level"]) if f["level"] in order else 0)
    spots = 0
    rows = []
    for f in ranked:
        spots += bool(f.get("at"))
        rows.append(
            {
                "level": f["level"],
                "word": LEVELS.get(f["level"], str(f["level"])),
                "code": f["code"],
                "message": f["message"],
                "place": _place(f),
                "spot": spots if f.get("at") else None,
                "at": f.get("at"),
                "groove": f.get("groove"),
                "line": f.get("line"),
            }
        )
    return rows


def _place(finding: Mapping[str, Any]) -> str:
    """Where a finding is, in words."""
    words = []
    if finding.get("groove"):
        words.append(f"groove {finding['groove']}")
    if finding.get("line"):
        words.append(f"program line {finding['line']}")
    if finding.get("at"):
        x, y = finding["at"]
        words.append(f"drawing X {x:g}, Y {y:g}")
    return ", ".join(words)


def verdict_rows(record: Mapping[str, Any]) -> list[Json]:
    """The verification groove by groove."""
    units = (record.get("part") or {}).get("units")
    rows = []
    for m in (record.get("verification") or {}).get("grooves") or []:
        cut = m.get("program")
        rows.append(
            {
                "groove": m.get("drawing"),
                "state": STATES.get(m["state"], m["state"]),
                "good": m["state"] == "matches",
                "cut": _cut_text(cut, units),
                "lines": span_words((cut or {}).get("lines") or []),
                "difference": _difference_text(m.get("difference") or {}, units),
            }
        )
    return rows


def _cut_text(cut: Mapping[str, Any] | None, units: str | None) -> str:
    """What the program cuts."""
    if not cut:
        return "nothing"
    near, far = place_text(cut["z_near"], units), place_text(cut["z_far"], units)
    return f"Z{near} to Z{far}, ⌀{length_text(cut['floor_diameter'], units)}"


def _difference_text(difference: Mapping[str, float], units: str | None) -> str:
    """Program minus drawing, only what differs."""
    names = {"z_near": "near wall", "z_far": "far wall", "floor_diameter": "floor ⌀"}
    texts = [(names.get(k, k), signed_text(v, units)) for k, v in difference.items()]
    return ", ".join(f"{name} {text}" for name, text in texts if text != "0") or "none"


def hash_rows(record: Mapping[str, Any], program_state: str) -> list[tuple[str, str]]:
    """Hashes and the time, by which a sheet, a program and a drawing are known to belong together."""
    program = record.get("program") or {}
    drawing = (record.get("part") or {}).get("drawing") or {}
    rows = [
        ("Drawing", str(drawing.get("file") or "–"), hash_text(drawing.get("sha256"))),
        ("Program", str(program.get("file") or "none"), hash_text(program.get("sha256"))),
        ("Settings", "", hash_text(record.get("settings_sha256"))),
    ]
    found = [(f"{name} {file}".strip(), digest) for name, file, digest in rows]
    if program_state == "edited":
        found.append(("Program beside this sheet", "differs from the one verified: it was edited afterwards"))
    return [*found, ("Made", made_text(record))]


def made_text(record: Mapping[str, Any]) -> str:
    """When and by what version."""
    when = str(record.get("made_at") or "").replace("T", " ").replace("+00:00", " UTC")
    version = record.get("tool_version")
    return ", ".join(w for w in (when, f"rillwright {version}" if version else "") if w) or "–"


def tiles(record: Mapping[str, Any]) -> Sequence[tuple[str, str, str]]:
    """The few figures that must be right before the first start: name, figure, what it means."""
    part, setup = record.get("part") or {}, record.get("setup") or {}
    machine, units = setup.get("machine") or {}, part.get("units")
    found = []
    if units:
        found.append(("Units", units, "X is the diameter, Z0 the front face"))
    if machine.get("stick_out") is not None:
        found.append(("Stick-out", length_text(machine["stick_out"], units), "front face to jaws"))
    elif machine:
        found.append(("Stick-out", "not given", "room to the jaws not checked"))
    found += _tool_tiles(tool_rows(record))
    clamps = sorted({t["clamp"] for t in setup.get("tools") or [] if t.get("clamp")})
    if clamps:
        found.append(("Spindle clamp", list_text(clamps), "highest rev/min"))
    if record.get("status") == "made":
        found.append(("Program time", time_text((record.get("plan") or {}).get("seconds")), "reckoned, not measured"))
    cautions = caution_count(record)
    if cautions:
        found.append(("Cautions", str(cautions), "read them under Findings first"))
    return found


def caution_count(record: Mapping[str, Any]) -> int:
    """How many cautions stand in the record and its verification."""
    findings = [*(record.get("findings") or []), *((record.get("verification") or {}).get("findings") or [])]
    return sum(f["level"] == "caution" for f in findings)


def _tool_tiles(tools: Sequence[Json]) -> list[tuple[str, str, str]]:
    """A tile for each insert, or one for all of them where there are many."""
    if len(tools) > MOST_TOOL_TILES:
        return [("Stations", " ".join(t["name"] for t in tools), "inserts and edges: see Set-up")]
    return [(f"Insert in {t['name']}", t["width"], f"Z set to the {t['edge']}") for t in tools]
