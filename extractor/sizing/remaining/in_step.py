"""Words that space several grooves, held against each step of theirs: `12 TYP`, `PITCH 12`, `4 GROOVES EQUALLY SPACED`.

Rules: a row is like grooves on one land with nothing between them; a step far larger or smaller than the others parts
two rows, unless the words count all. Even spacing holds for the whole row. So does a pitch without a count that one
step of it has, but for steps that are dimensioned by themselves; and a typical dimension but for those between grooves
that other dimensions place.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise
from statistics import median_low

import networkx as nx

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import normalised
from extractor.part import Groove
from extractor.sheet import Dimension, DimensionKind, Sheet
from extractor.side import INSIDE
from extractor.sizing.lettering.groove_notes import GrooveNote, capitals, groove_note
from extractor.sizing.lettering.note_words import SPACED
from extractor.sizing.lettering.pointers import PointedNote, said_anywhere
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import alike, same
from extractor.sizing.measured.ties import middle, tie_of
from extractor.sizing.notes.note_faults import hold
from extractor.sizing.notes.note_findings import note_stop
from extractor.sizing.notes.note_places import tied_to
from extractor.sizing.sentences.broken_lines import with_sentences
from extractor.sizing.sizes.said import SaidSoFar
from extractor.sizing.tolerances.tolerance import FILE_ROUNDING

EVEN = 2e-3
"""Share of the pitch by which evenly spaced grooves may be out of step."""
PARTS = 1.5
"""A step so many times as large as the others, or as much smaller, parts two rows."""
Row = Sequence[Groove]
Step = tuple[Groove, Groove]


def step_findings(sheet: Sheet, said: SaidSoFar, told: Sequence[Finding]) -> Iterator[Finding]:
    """A stop for each spacing that one groove of a row is out of; none for what was `told`."""
    features = said.features
    if len(features.part.grooves) < 3:
        return
    stops = [finding.message for finding in told if finding.stops]
    for note in said_anywhere(with_sentences(sheet, _spaces), _spaces):
        words = normalised(note.words)
        fault = None if any(f'"{words}"' in one for one in stops) else _of_note(note, said)
        if fault is not None:
            yield note_stop(words, fault[:1], fault[1], note.tip or note.at)
    for dimension in sheet.dimensions:
        whole = replace(PointedNote.standing(dimension.text or "", middle(dimension)), on_paper=True)
        if dimension.kind is not DimensionKind.LEADER and _spaces(whole.words) and (fault := _of_note(whole, said)):
            yield note_stop(normalised(whole.words), fault[:1], fault[1], whole.at)
            continue
        odd = _of_dimension(dimension, said)
        if odd is not None:
            message = (
                f'A dimension prints "{normalised(dimension.text or "")}" for a row of grooves, and the step at groove '
                f"{odd[1].id} measures {odd[0]:.6g}: ask which is meant."
            )
            yield Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, message, middle(dimension), groove=odd[1].id)


def _spaces(words: str) -> bool:
    """True for words that space grooves evenly, or by a pitch that counts none."""
    note = groove_note(words)
    return note is not None and (note.spaced or _pitch(note) is not None)


def _pitch(note: GrooveNote) -> Printed | None:
    """The pitch of a note that counts no grooves."""
    first = note.meanings[0]
    return dict(first.sizes).get("pitch") if first.count is None else None


def _of_note(note: PointedNote, said: SaidSoFar) -> tuple[str, Groove] | None:
    """What a note says of spacing that is not so, and the groove that is out of step."""
    sizes, features = groove_note(note.words), said.features
    if sizes is None:
        return None
    tied = tied_to(note, features, sure=True)
    about = [g for g in tied or features.part.grooves if g.side.axial and not hold(sizes, g, features)]
    kinds = [kin for kin in _kinds(features) if any(g in kin for g in about)]
    for kin in kinds:
        fault = _uneven(kin, sizes, features) if sizes.spaced else _off_pitch(kin, sizes, said)
        if fault is not None:
            return fault
    return None


def _uneven(kin: Row, sizes: GrooveNote, features: Features) -> tuple[str, Groove] | None:
    """What is uneven about like grooves."""
    count = sizes.meanings[0].count
    rows = [kin] if count == len(kin) else [row for row in _rows(kin, features) if count in (None, len(row))]
    for row in rows:
        apart = [a.z_near - b.z_near for a, b in pairwise(row)]
        if apart and max(apart) - min(apart) > _slack(apart):
            told = f"says evenly spaced, but the pitch of these grooves is {min(apart):.6g} to {max(apart):.6g}"
            return told, _odd(row, partial(_as_usual, median_low(apart), _slack(apart))) or row[-1]
    return None


def _slack(apart: Sequence[float]) -> float:
    """By how much even steps may differ."""
    return EVEN * max(apart) + FILE_ROUNDING


def _as_usual(usual: float, slack: float, step: Step) -> bool:
    """True for a step that is as the others are."""
    return abs(step[0].z_near - step[1].z_near - usual) <= slack


def _off_pitch(kin: Row, sizes: GrooveNote, said: SaidSoFar) -> tuple[str, Groove] | None:
    """The step between like grooves that is not the pitch of the others in its row."""
    pitch, between = _pitch(sizes) or Printed(), {frozenset((d.start.groove, d.end.groove)) for d in said.distances}
    for row in _rows(kin, said.features, pitch.value) if pitch.sizes else ():
        own = [step for step in pairwise(row) if frozenset(g.id for g in step) in between]
        off = _out(row, lambda step: said.features.fits(pitch, step[0].z_near - step[1].z_near), own)
        if off is not None:
            (one, two), odd = off
            return f"prints pitch {pitch.value:g} where the drawing measures {one.z_near - two.z_near:.6g}", odd
    return None


def _of_dimension(dimension: Dimension, said: SaidSoFar) -> tuple[float, Groove] | None:
    """The step that a typical dimension from groove to groove, or one of even spaces, does not fit, and the groove."""
    words, features = normalised(dimension.text or ""), said.features
    printed = parse(dimension.text)
    if dimension.kind is DimensionKind.LEADER or printed.count > 1:
        return None
    if not (printed.typical or SPACED.search(capitals(words)) or _spaces(words)):
        return None
    tie = tie_of(dimension, features)
    front, back = sorted(tie.ends, key=lambda mark: -mark.at) if tie is not None and tie.ends else (None, None)
    if front is None or back is None or not front.along or not (front.named and back.named):
        return None
    near, far = (features.part.grooves[mark.groove - 1] for mark in (front, back))
    row = next((row for kin in _kinds(features) for row in _rows(kin, features) if (near, far) in pairwise(row)), ())

    def drawn(step: Step) -> float:
        """The distance of the places of this dimension at two other grooves."""
        return abs(_place(step[0], front.at - near.z_near, near) - _place(step[1], back.at - far.z_near, far))

    figure = Printed.of(f"{drawn((near, far)):.2f}") if printed.measured else printed
    off = _out(row, lambda step: features.fits(figure, drawn(step)), [s for s in pairwise(row) if _placed(s, said)])
    return None if off is None else (drawn(off[0]), off[1])


def _place(groove: Groove, behind: float, like: Groove) -> float:
    """Where that place of a groove lies which lies so far behind the near wall of one like it."""
    return groove.z_near + behind * (groove.width / like.width)


def _placed(step: Step, said: SaidSoFar) -> bool:
    """True if dimensions place two grooves to one another, by whatever way; the ends of the part are one place."""
    ties = nx.Graph((d.start.groove, d.end.groove) for d in said.distances)
    return all(g.id in ties for g in step) and nx.has_path(ties, step[0].id, step[1].id)


def _kinds(features: Features) -> list[Row]:
    """All grooves outside and inside in sets of like ones, each from the front on."""
    left, found = sorted((g for g in features.part.grooves if g.side.axial), key=lambda g: -g.z_near), list[Row]()
    while left:
        found.append([g for g in left if alike(left[0], g)])
        left = [g for g in left if not alike(left[0], g)]
    return found


def _rows(kin: Row, features: Features, pitch: float = 0.0) -> list[Row]:
    """Like grooves parted where something stands between two, or their step is another than the pitch by far."""
    apart = [a.z_near - b.z_near for a, b in pairwise(kin)]
    usual = pitch or median_low(apart or [0.0])
    rows: list[list[Groove]] = [[kin[0]]]
    for (a, b), step in zip(pairwise(kin), apart, strict=True):
        if usual / PARTS < step < usual * PARTS and _open_between(a, b, features):
            rows[-1].append(b)
        else:
            rows.append([b])
    return [*rows]


def _open_between(near: Groove, far: Groove, features: Features) -> bool:
    """True for two grooves with one level land between them and no other groove."""
    part = features.part
    line = (part.bore if near.side == INSIDE else part.outline) or ()
    land, slack = near.far_land_diameter, features.snap
    level = all(same(2 * r, land) for z, r in line if far.z_near + slack < z < near.z_far - slack)
    others = (g for g in part.grooves if g.where == near.where and g.id not in (near.id, far.id))
    return level and same(land, far.near_land_diameter) and not any(far.z_near < g.middle < near.z_far for g in others)


def _out(row: Row, fits: Callable[[Step], bool], own: Sequence[Step]) -> tuple[Step, Groove] | None:
    """The first step of a row that does not fit, where others do and it is none of its `own`, and the groove there."""
    off = [step for step in pairwise(row) if not fits(step)]
    if not off or len(off) == len(row) - 1:
        return None
    step = next((step for step in off if step not in own), None)
    return None if step is None else (step, _odd(row, fits) or step[1])


def _odd(row: Row, fits: Callable[[Step], bool]) -> Groove | None:
    """The groove that is out of step in a row: the first of all, or that behind the first step which is off."""
    off = [step for step in pairwise(row) if not fits(step)]
    if not off:
        return None
    return row[0] if off == [(row[0], row[1])] and len(row) > 2 else off[0][1]
