"""A record as the sheet's templates want it: every number already a text, every choice of words already made.

Nothing here is markup: the templates escape it all.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from extractor.side import OUTSIDE
from rillwright.jobsheet.labels import set_letter, span_words
from rillwright.jobsheet.picture import set_class
from rillwright.jobsheet.scene import left_out, lines_of_each, operations, set_of_each
from rillwright.jobsheet.text import hash_text, length_text, place_text, signed_text, time_text

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


AWAY = {
    "edited": ("Program was edited", "The program here is not the one verified: hold it against the drawing first."),
    "none": ("Program is not here", "What was verified is another program than any that may lie here."),
    "differs": (
        "Edited, and wrong",
        "The program here was edited and no longer makes the drawing; don't run it: {why}.",
    ),
    "agrees": ("Edited, still right", "The program here was edited; held against the drawing, it still makes it."),
}
"""What the stamp says where the verified program's bytes are not there: a verdict belongs to bytes."""


def headline(record: Mapping[str, Any], state: str = "same") -> Json:
    """The stamp at the head of the sheet: whether there is a program, and whether it was found to cut the drawing.

    `state` of the program's text: "same" as verified, "none", "edited"; of one that was judged "agrees" or "differs".
    """
    verdict = record.get("verification") or {}
    if record.get("status") != "made":
        return {"kind": "bad", "title": "No program", "line": "The drawing was refused; the reasons are below."}
    if state in AWAY:
        title, line = AWAY[state]
        why = (record.get("edited") or {}).get("why") or ""
        return {"kind": "part" if state == "agrees" else "bad", "title": title, "line": line.format(why=why)}
    if verdict.get("agree"):
        drawn, uncut = len((record.get("part") or {}).get("grooves") or []), left_out(record)
        matched = sum(m["state"] == "matches" for m in verdict.get("grooves") or [])
        line = f"Read back and cut in simulation: {matched} of {drawn} grooves match."
        if uncut:
            rest = f"{'groove' if len(uncut) == 1 else 'grooves'} {span_words(sorted(uncut))}"
            return {"kind": "part", "title": "Cuts part of the drawing", "line": f"{line} Not programmed: {rest}."}
        return {"kind": "good", "title": "Cuts the drawing", "line": line}
    return {"kind": "bad", "title": "Does not cut the drawing", "line": "Don't run it; see the verification below."}


def groove_rows(record: Mapping[str, Any]) -> list[Json]:
    """The table of grooves, front to back; of a face groove the width lies along the radius and the depth along Z."""
    part = record.get("part") or {}
    units, lines, uncut = part.get("units"), lines_of_each(record), left_out(record)
    sets = {number: index for number, index in set_of_each(record).items() if number not in uncut}
    return [
        {
            "id": g["id"],
            "set": sets.get(g["id"]),
            "letter": set_letter(sets[g["id"]]) if g["id"] in sets else "",
            "style": set_class(sets.get(g["id"])),
            "kind": " ".join(w for w in (g["where"], g["shape"]) if w not in (OUTSIDE.where, "rectangular")),
            "z_near": place_text(g["z_near"], units),
            "z_far": place_text(g["z_far"], units),
            "width": length_text(g["width"], units),
            "floor": length_text(g["floor_diameter"], units),
            "depth": length_text(g["depth"], units),
            "lines": span_words(lines.get(g["id"], ())),
            "planned": g["id"] not in uncut,
        }
        for g in part.get("grooves") or []
    ]


def set_rows(record: Mapping[str, Any]) -> list[Json]:
    """The legend: each set's letter, style, grooves and pitch."""
    part = record.get("part") or {}
    ordered = sorted(part.get("sets") or [], key=lambda s: min(s["grooves"]))
    uncut = left_out(record)
    return [
        {
            "index": index,
            "letter": set_letter(index),
            "style": set_class(None if uncut.issuperset(s["grooves"]) else index),
            "grooves": span_words(s["grooves"]),
            "count": s["count"],
            "planned": not uncut.issuperset(s["grooves"]),
            "pitch": length_text(s["pitch"], part.get("units")) if s["count"] > 1 else None,
        }
        for index, s in enumerate(ordered)
    ]


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
            "form": FORMS.get(o["form"], o["form"]) + (" and contour pass" if o.get("contour") else ""),
            "start": f"X{length_text(o['start']['x'], units)} Z{place_text(o['start']['z'], units)}",
            "seconds": time_text(o.get("seconds")),
            "why": o.get("why") or [],
            "restarts": [{"groove": r["groove"], "text": "\n".join(r["blocks"])} for r in o.get("restarts") or []],
            "next": f"operation {number + 1}" if number < len(operations(record)) else "the end of the program",
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
        choices = f.get("choices") or []
        # Where places can be chosen, those are marked, by letters.
        at = None if any(choice["option"] == "at" for choice in choices) else f.get("at")
        spots += bool(at)
        rows.append(
            {
                "level": f["level"],
                "word": LEVELS.get(f["level"], str(f["level"])),
                "code": f["code"],
                "message": f["message"],
                "place": _place(f),
                "spot": spots if at else None,
                "at": at,
                "spots": (f.get("spots") or []) if at else [],
                "groove": f.get("groove"),
                "line": f.get("line"),
                "choices": choices,
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
        cut, good = m.get("program"), m["state"] == "matches"
        difference = _difference_text(m.get("difference") or {}, units)
        rows.append(
            {
                "groove": m.get("drawing"),
                "state": STATES.get(m["state"], m["state"]),
                "good": good,
                "cut": _cut_text(cut, units),
                "lines": span_words((cut or {}).get("lines") or []),
                "difference": f"{difference}, allowed" if good and difference != "none" else difference,
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
    names = {
        "z_near": "front wall",
        "z_far": "chuck wall",
        "floor_diameter": "floor ⌀",
        "mouth_diameter": "outer wall ⌀",
    }
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
    if program_state in ("edited", "agrees", "differs"):
        found.append(("Program beside this sheet", "differs from the one verified: it was edited afterwards"))
    return [*found, ("Made", made_text(record))]


def made_text(record: Mapping[str, Any]) -> str:
    """When and by what version."""
    when = time_of(str(record.get("made_at") or ""))
    version = record.get("tool_version")
    return ", ".join(w for w in (when, f"rillwright {version}" if version else "") if w) or "–"


def time_of(iso: str) -> str:
    """A UTC time as people read it.

    >>> time_of("2031-05-06T07:08:09+00:00")
    '2031-05-06 07:08:09 UTC'
    """
    return iso.replace("T", " ").replace("+00:00", " UTC")
