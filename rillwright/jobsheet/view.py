"""A record as the sheet's templates want it: every number already a text, every choice of words already made.

Nothing here is markup: the templates escape it all.
"""

from collections.abc import Iterable, Mapping

from extractor.finding import Level, Point
from extractor.side import OUTSIDE
from extractor.values import dataclass
from postproc.verdict import CutGroove, State
from rillwright.jobsheet.labels import set_letter, span_words
from rillwright.jobsheet.picture import set_class
from rillwright.jobsheet.scene import left_out, lines_of_each, set_of_each
from rillwright.jobsheet.text import hash_text, length_text, place_text, signed_text, time_text
from rillwright.records.jsonform import Json
from rillwright.records.record import Record
from rillwright.records.record_part import RecordedFinding

FORMS = {"cycle": "grooving cycle", "plunges": "single plunges"}
STATES: Mapping[State, str] = {
    State.MATCHES: "matches",
    State.POSITION: "wrong place",
    State.WIDTH: "wrong width",
    State.DEPTH: "wrong depth",
    State.MISSING: "not cut",
    State.EXTRA: "not on the drawing",
}


AWAY = {
    "edited": ("Program was edited", "The program here is not the one verified: hold it against the drawing first."),
    "none": (
        "Program is not here",
        "The program that was verified is not beside this sheet; any other was not checked.",
    ),
    "differs": (
        "Edited, and wrong",
        "The program here was edited and no longer makes the drawing; don't run it: {why}.",
    ),
    "agrees": ("Edited, still right", "The program here was edited; held against the drawing, it still makes it."),
}
"""What the stamp says where the verified program's bytes are not there: a verdict belongs to bytes."""


def headline(record: Record, state: str = "same") -> Json:
    """The stamp at the head of the sheet: whether there is a program, and whether it was found to cut the drawing.

    `state` of the program's text: "same" as verified, "none", "edited"; of one that was judged "agrees" or "differs".
    """
    if not record.made:
        return {"kind": "bad", "title": "No program", "line": "The drawing was refused; the reasons are below."}
    if state in AWAY:
        title, line = AWAY[state]
        why = record.edited.why if record.edited else ""
        return {"kind": "part" if state == "agrees" else "bad", "title": title, "line": line.format(why=why)}
    if record.verification and record.verification.agree:
        uncut = left_out(record)
        matched = sum(one.state is State.MATCHES for one in record.matches)
        line = f"Read back and cut in simulation: {matched} of {len(record.part.grooves)} grooves match."
        if uncut:
            rest = f"{'groove' if len(uncut) == 1 else 'grooves'} {span_words(sorted(uncut))}"
            return {"kind": "part", "title": "Cuts part of the drawing", "line": f"{line} Not programmed: {rest}."}
        return {"kind": "good", "title": "Cuts the drawing", "line": line}
    return {"kind": "bad", "title": "Does not cut the drawing", "line": "Don't run it; see the verification below."}


def groove_rows(record: Record) -> list[Json]:
    """The table of grooves, front to back; of a face groove the width lies along the radius and the depth along Z."""
    units, lines, uncut = record.part.units, lines_of_each(record.matches), left_out(record)
    sets = {number: index for number, index in set_of_each(record.part).items() if number not in uncut}
    return [
        {
            "id": g.id,
            "set": sets.get(g.id),
            "letter": set_letter(sets[g.id]) if g.id in sets else "",
            "style": set_class(sets.get(g.id)),
            "kind": " ".join(w for w in (g.where, g.shape) if w not in (OUTSIDE.where, "rectangular")),
            "z_near": place_text(g.z_near, units),
            "z_far": place_text(g.z_far, units),
            "width": length_text(g.width, units),
            "floor": length_text(g.floor_diameter, units),
            "depth": length_text(g.depth, units),
            "lines": span_words(lines.get(g.id, ())),
            "planned": g.id not in uncut,
        }
        for g in record.part.grooves
    ]


def set_rows(record: Record) -> list[Json]:
    """The legend: each set's letter, style, grooves and pitch."""
    ordered, uncut = sorted(record.part.sets, key=lambda s: min(s.grooves)), left_out(record)
    return [
        {
            "index": index,
            "letter": set_letter(index),
            "style": set_class(None if uncut.issuperset(s.grooves) else index),
            "grooves": span_words(s.grooves),
            "count": s.count,
            "planned": not uncut.issuperset(s.grooves),
            "pitch": length_text(s.pitch, record.part.units) if s.count > 1 else None,
        }
        for index, s in enumerate(ordered)
    ]


def operation_rows(record: Record) -> list[Json]:
    """The operations in the order in which they are cut."""
    units, sets = record.part.units, set_of_each(record.part)
    return [
        {
            "number": number,
            "grooves": span_words(o.grooves),
            "ids": " ".join(map(str, o.grooves)),
            "letter": "".join(dict.fromkeys(set_letter(sets[g]) for g in o.grooves if g in sets)),
            "style": set_class(sets.get(o.grooves[0])) if o.grooves else "set-none",
            "tool": o.tool,
            "form": FORMS[o.form] + (" and contour pass" if o.contour else ""),
            "start": f"X{length_text(o.start.x, units)} Z{place_text(o.start.z, units)}",
            "seconds": time_text(o.seconds),
            "why": o.why,
            "restarts": [{"groove": r.groove, "text": "\n".join(r.blocks)} for r in o.restarts or ()],
            "next": f"operation {number + 1}" if number < len(record.operations) else "the end of the program",
        }
        for number, o in enumerate(record.operations, start=1)
    ]


@dataclass(frozen=True, kw_only=True)
class ChoiceRow:
    """One way to answer a stop, with the answers file that it makes, as text and as a link.

    `at` is where it lies on the sheet and `spot` its letter there, of a choice between places.
    """

    label: str
    reads: str
    at: Point | None
    spot: str
    text: str
    name: str
    href: str


@dataclass(frozen=True, kw_only=True)
class FindingRow:
    """A finding with its place in words; `at` and its number, `spot`, where it is marked on the sheet."""

    level: Level
    code: str
    message: str
    place: str
    at: Point | None
    spot: int | None
    spots: tuple[Point, ...]
    groove: int | None
    choices: tuple[ChoiceRow, ...] = ()

    @property
    def word(self) -> str:
        """Its weight as the sheet says it."""
        return self.level.capitalize()


def finding_rows(findings: Iterable[RecordedFinding]) -> list[FindingRow]:
    """Findings, the gravest first; those with a spot on the sheet are numbered."""
    rows, spots = [], 0
    for one in ranked(findings):
        # Where places can be chosen, those are marked, by letters.
        at = None if any(choice.option == "at" for choice in one.choices) else one.at
        spots += bool(at)
        rows.append(
            FindingRow(
                level=one.level,
                code=one.code,
                message=one.message,
                place=_place(one),
                at=at,
                spot=spots if at else None,
                spots=one.spots if at else (),
                groove=one.groove,
            )
        )
    return rows


def ranked(findings: Iterable[RecordedFinding]) -> list[RecordedFinding]:
    """Findings, the gravest first, else in their order."""
    return sorted(findings, key=lambda one: list(Level).index(one.level))


def _place(finding: RecordedFinding) -> str:
    """Where a finding is, in words."""
    words = []
    if finding.groove:
        words.append(f"groove {finding.groove}")
    if finding.line:
        words.append(f"program line {finding.line}")
    if finding.at:
        x, y = finding.at
        words.append(f"drawing X {x:g}, Y {y:g}")
    return ", ".join(words)


def verdict_rows(record: Record) -> list[Json]:
    """The verification groove by groove."""
    units, rows = record.part.units, []
    for match in record.matches:
        good = match.state is State.MATCHES
        difference = _difference_text(match.difference, units)
        rows.append(
            {
                "groove": match.drawing,
                "state": STATES[match.state],
                "good": good,
                "cut": "nothing" if match.program is None else _cut_text(match.program, units),
                "lines": span_words(match.program.lines if match.program else ()),
                "difference": f"{difference}, allowed" if good and difference != "none" else difference,
            }
        )
    return rows


def _cut_text(cut: CutGroove, units: str | None) -> str:
    """What the program cuts."""
    near, far = place_text(cut.z_near, units), place_text(cut.z_far, units)
    return f"Z{near} to Z{far}, ⌀{length_text(cut.floor_diameter, units)}"


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


def hash_rows(record: Record, program_state: str) -> list[tuple[str, str]]:
    """Hashes and the time, by which a sheet, a program and a drawing are known to belong together."""
    drawing, program = record.part.drawing, record.program
    found = [
        (f"Drawing {drawing.file or '–'}", hash_text(drawing.sha256)),
        (f"Program {program.file if program else 'none'}", hash_text(program.sha256 if program else None)),
        ("Settings", hash_text(record.settings_sha256)),
    ]
    if program_state in ("edited", "agrees", "differs"):
        found.append(("Program beside this sheet", "differs from the one verified: it was edited afterwards"))
    return [*found, ("Made", made_text(record))]


def made_text(record: Record) -> str:
    """When and by what version."""
    version = f"rillwright {record.tool_version}" if record.tool_version else ""
    return ", ".join(words for words in (time_of(record.made_at), version) if words) or "–"


def time_of(iso: str) -> str:
    """A UTC time as people read it.

    >>> time_of("2031-05-06T07:08:09+00:00")
    '2031-05-06 07:08:09 UTC'
    """
    return iso.replace("T", " ").replace("+00:00", " UTC")
