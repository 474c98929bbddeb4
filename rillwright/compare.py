"""What `compare` prints: one row a groove, to be read in five seconds, and one sentence at the end.

The words carry the answer; colour only helps the eye. On a long part neighbours that match share one row.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from rich.text import Text

from extractor.finding import Code
from extractor.limits import deviations
from extractor.part import Groove, Part
from extractor.printable import printable
from extractor.runs import spans
from extractor.side import OUTSIDE, Side
from extractor.values import dataclass
from postproc.codes import ProgramCode
from postproc.verdict import CutGroove, Followed, Match, State, Verdict
from rillwright.codes import JobCode
from rillwright.console import UNIT_WORDS, counted, finding_sentences, length
from rillwright.records.recording import recorded_findings
from rillwright.tables import Said, Sentence, add_row, print_said, table

COLOURS: Mapping[State, str] = {State.MATCHES: "green", State.EXTRA: "red", State.MISSING: "red"}
NAMES = {"z_near": "front wall", "z_far": "chuck wall", "floor_diameter": "floor", "mouth_diameter": "mouth"}
NOT_JUDGED: Mapping[Code, str] = {
    ProgramCode.INSERT_UNKNOWN: "Not judged: without its inserts nobody can say what this program cuts.",
    ProgramCode.MACRO_VARIABLE: "Not judged: where this program goes depends on a value that nothing in it gives.",
    ProgramCode.RUNAWAY: "Not judged: this program runs on without an end.",
}
"""Codes of stops after which nothing can be held against the drawing, and what is then said."""
ONE_SIDED = 0.1
"""A groove too wide by the same at either wall, to this share of it, is so at both; else the worse wall is named."""
UNSEEN = 0.5e-4
"""A difference that prints as 0 in the finest figures, of an inch."""
MOST_ROWS = 16
"""With more grooves than this, neighbours that match share one row, and so do extra cuts of one cause."""
MOST_ALIKE = 4
"""Findings of one code that are printed in full."""
MOST_LINES = 4
"""Program lines named in a row; the JSON has them all."""


@dataclass(frozen=True, kw_only=True)
class TableRow:
    """One row of the table, as text."""

    groove: str
    drawing: str
    program: str
    difference: str
    state: State
    lines: str


def print_verdict(part: Part, verdict: Verdict, drawing: str, program: str) -> None:
    """The table, the findings and the closing sentence on standard output; names are shown as given."""
    print_said(verdict_said(part, verdict, drawing, program))


def verdict_said(part: Part, verdict: Verdict, drawing: str, program: str) -> Iterator[Said]:
    """The same as sentences and a table."""
    head = f"{program} against {drawing} (lengths in {UNIT_WORDS[part.units]}, floors are diameters)"
    yield Sentence(Text(printable(head)))
    shown = table(">groove", "drawing", "program", "difference", "verdict", ">line")
    for row in verdict_rows(part, verdict):
        colour = COLOURS.get(row.state, "yellow")
        cells = (row.groove, row.drawing, row.program, row.difference, row.state.value, row.lines)
        add_row(shown, *(Text(cell, style=colour if i in (3, 4) else "") for i, cell in enumerate(cells)))
    if verdict.matches:
        yield shown
    yield from _findings(verdict)
    yield Sentence(Text(printable(closing_sentence(verdict)), style="bold green" if verdict.agree else "bold red"))


def _findings(verdict: Verdict) -> Iterator[Sentence]:
    """The findings, the weightiest first; of many alike the first few and how many more."""
    told, left = Counter[Code](), Counter[Code]()
    shown = []
    for finding in verdict.findings:
        told[finding.code] += 1
        if told[finding.code] <= MOST_ALIKE:
            shown.append(finding)
        else:
            left[finding.code] += 1
    yield from finding_sentences(recorded_findings(shown))
    for code, number in left.items():
        yield Sentence(Text(f"         {code}: {number} more like these"))


def verdict_rows(part: Part, verdict: Verdict) -> tuple[TableRow, ...]:
    """The rows of the table, the drawing's grooves first, what is in no drawing after them."""
    grooves = {groove.id: groove for groove in part.grooves}
    groups = _together(verdict.matches) if len(verdict.matches) > MOST_ROWS else [[m] for m in verdict.matches]
    return tuple(_row(group, grooves) for group in groups)


def closing_sentence(verdict: Verdict) -> str:
    """The verdict in one sentence."""
    drawn = [match for match in verdict.matches if match.drawing is not None]
    stops = [finding for finding in verdict.findings if finding.stops]
    if verdict.agree:
        cautions = sum(1 for f in verdict.findings if not f.stops and f.level.value == "caution")
        look = f"; {counted(cautions, 'caution')} to look at" if cautions else ""
        missing = sum(1 for f in verdict.findings if f.code == JobCode.GROOVE_LEFT_OUT)
        if missing:
            told = (
                f"{len(drawn)} of {counted(len(drawn) + missing, 'groove')} {'matches' if len(drawn) == 1 else 'match'}"
            )
            return f"Agree in part: {told} and {_safe(verdict.followed)}{look}."
        return f"Agree: {_all_match(len(drawn))} and {_safe(verdict.followed)}{look}."
    for code, message in NOT_JUDGED.items():
        if not verdict.matches and any(finding.code == code for finding in stops):
            return message
    wrong = [match for match in drawn if match.state is not State.MATCHES]
    extra = len(verdict.matches) - len(drawn)
    parts = []
    if wrong:
        numbers = spans(match.drawing for match in wrong if match.drawing is not None)
        parts.append(f"groove{'s' if len(wrong) > 1 else ''} {numbers} of {len(drawn)} not as drawn")
    if extra:
        parts.append(f"{counted(extra, 'cut')} in no drawing")
    if stops:
        lines = sorted({finding.line for finding in stops if finding.line})
        where = f" (line {_lines(lines)})" if lines else ""
        parts.append(f"{counted(len(stops), 'stop')}{where}")
    head = "Differ" if wrong or extra else "Unsafe"
    return f"{head}: {'; '.join(parts)}. Don't run this program as it is."


def _safe(followed: Followed) -> str:
    """That no move is unsafe, as far as they were followed."""
    if not followed.as_point and not followed.not_followed:
        return "no move is unsafe"
    parts = []
    if followed.as_point:
        parts.append(f"{followed.as_point} of the {followed.moves} as the point of a tool alone")
    if followed.not_followed:
        parts.append(f"{followed.not_followed} more {'was' if followed.not_followed == 1 else 'were'} not")
    return f"no move of those that were followed is unsafe ({', '.join(parts)})"


def _all_match(count: int) -> str:
    """All grooves, in words."""
    return (
        "the drawing has no groove"
        if not count
        else "the groove matches"
        if count == 1
        else f"{'both' if count == 2 else f'all {count}'} grooves match"
    )


def _together(matches: Sequence[Match]) -> list[list[Match]]:
    """On a long list neighbours that match in one group, and extra cuts of one cause; every other match on its own."""
    groups: list[list[Match]] = []
    for match in matches:
        if groups and _alike(groups[-1][-1], match):
            groups[-1].append(match)
        else:
            groups.append([match])
    return groups


def _alike(one: Match, other: Match) -> bool:
    """True if two neighbours share a row: both match, or both are extra, by the same lines and to the same floor."""
    if one.state is not other.state:
        return False
    if one.state is not State.EXTRA or one.program is None or other.program is None:
        return one.state is State.MATCHES
    a, b = one.program, other.program
    return (a.lines, a.where, a.floor_diameter) == (b.lines, b.where, b.floor_diameter)


def _extras(group: Sequence[Match], lines: str) -> TableRow:
    """The row of several cuts in no drawing with one cause."""
    cuts = [match.program for match in group if match.program is not None]
    near, far = max(cut.z_near for cut in cuts), min(cut.z_far for cut in cuts)
    cut = f"{len(group)} cuts, {_where(cuts[0].side)}{_size(near, far, cuts[0].floor_diameter)}"
    return TableRow(groove="-", drawing="-", program=cut, difference="not drawn", state=State.EXTRA, lines=lines or "-")


def _row(group: Sequence[Match], grooves: Mapping[int, Groove]) -> TableRow:
    """The row of one match, or of several that all match."""
    first = group[0]
    lines = _lines(sorted({line for match in group if match.program for line in match.program.lines}))
    if len(group) > 1 and first.state is State.EXTRA:
        return _extras(group, lines)
    if len(group) > 1:
        return TableRow(
            groove=spans(match.drawing for match in group if match.drawing is not None),
            drawing=f"{len(group)} grooves",
            program="cut",
            difference="none",
            state=State.MATCHES,
            lines=lines,
        )
    groove = None if first.drawing is None else grooves[first.drawing]
    return TableRow(
        groove="-" if groove is None else str(groove.id),
        drawing="-" if groove is None else _drawn(groove),
        program="-" if first.program is None else _cut(first.program),
        difference=difference_in_words(first, groove),
        state=first.state,
        lines=lines or "-",
    )


def _drawn(groove: Groove) -> str:
    """A groove of the drawing."""
    if not groove.side.axial:
        return _face(groove.z_near, groove.z_far, groove.mouth_diameter, groove.floor_diameter)
    return _where(groove.side) + _size(groove.z_near, groove.z_far, groove.floor_diameter)


def _cut(cut: CutGroove) -> str:
    """A groove that the program cuts."""
    if cut.mouth_diameter is not None:
        return _face(cut.z_near, cut.z_far, cut.mouth_diameter, cut.floor_diameter)
    return _where(cut.side) + _size(cut.z_near, cut.z_far, cut.floor_diameter)


def _where(side: Side) -> str:
    """The side, where it isn't the usual one."""
    return "" if side == OUTSIDE else f"{side.where} "


def _size(z_near: float, z_far: float, floor: float) -> str:
    """Walls and floor."""
    return f"Z{length(z_near)} to Z{length(z_far)}, floor {length(floor)}"


def _face(z_near: float, z_far: float, outer: float, inner: float) -> str:
    """Walls and floor of a face groove."""
    return f"face {length(outer)} to {length(inner)}, Z{length(z_near)} to Z{length(z_far)}"


def difference_in_words(match: Match, groove: Groove | None) -> str:
    """What is off, and which way."""
    if match.state in (State.MISSING, State.EXTRA, State.MATCHES) or groove is None:
        words = {State.MISSING: "not cut", State.EXTRA: "not drawn"}
        return words.get(match.state, _largest(match.difference))
    if not groove.side.axial:
        return _face_difference(match.difference, groove)
    near, far = match.difference["z_near"], match.difference["z_far"]
    floor = match.difference["floor_diameter"]
    if match.state is State.POSITION:
        shift = min(near, far, key=abs) if near * far > 0 else max(near, far, key=abs)
        return f"{length(abs(shift))} too far to the {'front' if shift > 0 else 'chuck'}"
    if match.state is State.WIDTH:
        wall = "at both walls" if abs(abs(near) - abs(far)) < ONE_SIDED * abs(near - far) else ""
        wall = wall or f"at the {'front' if abs(near) > abs(far) else 'chuck'} wall"
        wide = _outward(near - far, groove, "width")
        return f"{length(abs(wide))} too {'wide' if wide > 0 else 'narrow'} {wall}"
    floor = _outward(floor, groove, "floor_diameter")
    shallow = (floor > 0) is (not groove.side.hollow)
    return (
        f"{length(abs(floor))} too {'shallow' if shallow else 'deep'} on the diameter"
        if floor
        else "floor not as drawn"
    )


def _outward(off: float, groove: Groove, name: str) -> float:
    """A difference from the drawn size; where both limits lie beyond the cut on one side, that from the nearer limit.

    Of a floor drawn 26 and allowed to be 25.99 to 25.995 one of 25.996 is too shallow, though it is less than 26.
    """
    low, high = deviations(groove).get(name, (0.0, 0.0))
    beyond = off - high if off > high else off - low if off < low else off
    return off if off * beyond > 0 else beyond


def _face_difference(difference: Mapping[str, float], groove: Groove) -> str:
    """What is off in a face groove: its walls are diameters, its floor lies along z."""
    words = []
    for name, wall in (("mouth_diameter", "outer"), ("floor_diameter", "inner")):
        value = difference.get(name, 0.0)
        if value:
            value = _outward(value, groove, name)
            words.append(f"{wall} wall {length(abs(value))} too {'large' if value > 0 else 'small'} on the diameter")
    floor = difference.get("z_far", 0.0)
    if floor:
        words.append(f"{length(abs(floor))} too {'shallow' if floor > 0 else 'deep'}")
    return ", ".join(words) or "not as drawn"


def _largest(difference: Mapping[str, float]) -> str:
    """The greatest difference that tolerance allows, with the measure that it is of."""
    name, value = max(difference.items(), key=lambda item: abs(item[1]), default=("", 0.0))
    sign = "-" if value < 0 else "+"
    return f"{NAMES[name]} {sign}{length(abs(value))}, allowed" if abs(value) >= UNSEEN else "none"


def _lines(lines: Sequence[int]) -> str:
    """Program lines, the first few of many."""
    shown = ", ".join(str(line) for line in lines[:MOST_LINES])
    return f"{shown} ..." if len(lines) > MOST_LINES else shown
