"""One half of a laid view: its outside, its bore and the recesses of both, with what hidden lines add to them."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from extractor.finding import Point
from extractor.geometry.profile import Profile, joined, points
from extractor.recess.crossings import bridged, centre_lines, covers, drilled, split_holes, stepped_at, straight_over
from extractor.recess.ghosts import Seen
from extractor.recess.lands import from_within
from extractor.recess.shapes import UPRIGHT, Measured
from extractor.recess.threads import Thread, split_threads
from extractor.recess.turnings import FaceRecess, TurnedProfile, face_recesses, inside, turnings
from extractor.sheet import Floats
from extractor.values import dataclass
from extractor.viewing.hatching import is_hatched
from extractor.viewing.outline import Folded, Half, half, with_hidden


@dataclass(frozen=True)
class HalfProfile:
    """One half with its profile and recesses; threads and cross holes are taken out of `grooves`.

    `bore` is the bore's line straight on over the `mouths` of cross holes. `drilled` are the stretches of holes across
    the axis that a section shows with both their walls, `bolted` the holes beside the axis, `veiled` the recesses that
    hidden lines alone show where nothing hides them, `shut` those in a hidden bore whose line runs on over them,
    `overrun` those whose own floor runs on past a wall, `faced` the profile that `faces` were read in.
    """

    sign: int
    half: Half
    turned: TurnedProfile
    grooves: tuple[Measured, ...]
    threads: tuple[Thread, ...]
    holes: tuple[Measured, ...]
    bore: Profile
    mouths: tuple[Measured, ...]
    inside: tuple[Measured, ...]
    faces: tuple[FaceRecess, ...]
    drilled: tuple[tuple[float, float], ...] = ()
    bolted: tuple[FaceRecess, ...] = ()
    veiled: tuple[Measured, ...] = ()
    shut: tuple[Measured, ...] = ()
    overrun: tuple[Measured, ...] = ()
    faced: Profile = ()

    @cached_property
    def seen(self) -> Seen:
        """What lines within the metal are held against."""
        turned = self.turned
        known = turned.profile, turned.outline, turned.measured
        return Seen(self.sign, self.half, *known, self.threads, self.holes, self.drilled)

    @property
    def overhangs(self) -> list[Point]:
        """Corners where the outside runs back toward the front though no recess says why."""
        spans = [(r.near.last, r.far.first) for r in self.turned.recesses]
        found = [p.start for p in self.half.bore if not self.inside and p.run > p.size * UPRIGHT]
        for k, piece in enumerate(self.turned.profile):
            if piece.run <= piece.size * UPRIGHT or any(a <= k < b for a, b in spans):
                continue
            if not any(f.spans(p) for f in (*self.faces, *self.bolted) for p in piece.ends):
                found.append(piece.start)
        return found

    @cached_property
    def reach(self) -> float:
        """Greatest radius."""
        return max(r for _, r in self.turned.line)


def read_side(folded: Folded, sign: int, *, as_drawn: bool = False) -> HalfProfile | None:
    """One half of a laid view."""
    outline = half(folded, sign, as_drawn=as_drawn)
    turned = turnings(outline.outer, folded.fine) if outline else None
    if outline is None or turned is None or not turned.profile:
        return None
    grooves, holes = split_holes(turned.measured, folded.fine)
    grooves, threads = split_threads(grooves, folded.fine)
    bore, mouths = bridged(outline.bore, folded.fine)
    hollow, faces = inside(bore, folded.fine) if bore else (), face_recesses(turned, folded.fine)
    return HalfProfile(
        sign, outline, turned, grooves, threads, holes, bore, mouths, hollow, faces, faced=turned.profile
    )


def pierced(folded: Folded, side: HalfProfile) -> HalfProfile:
    """A half in section with the holes across the axis that it shows."""
    bore = from_within(points(joined(side.half.bore, folded.close))) if side.half.bore else None
    return replace(side, drilled=drilled(folded, side.sign, side.seen.outline, bore))


def in_section(folded: Folded, side: HalfProfile) -> bool:
    """True for a half that shows a bore by full lines, or metal that is hatched."""
    return bool(side.half.bore) or any(is_hatched(f.polygon, folded.hatched) for f in side.half.material.faces)


def hidden_added(folded: Folded, sides: list[HalfProfile]) -> list[HalfProfile]:
    """The sides with what hidden lines show: what reaches under metal; bore and faces where no other line does."""
    dashed = with_hidden(folded)
    if dashed is None:
        return sides
    bored = any(s.half.bore for s in sides)
    found = []
    for side in sides:
        shown = half(dashed, side.sign)
        turned = turnings(shown.outer, folded.fine) if shown else None
        under = [m for m in turned.measured if m.overhang] if turned else []
        grooves = tuple(_reaching(m, under, folded.close) for m in side.grooves)
        bore, mouths = bridged(shown.bore if shown else (), folded.fine)
        hollow = inside(bore, folded.fine) if bore else ()
        shut = () if bored else _shut(dashed, side.sign, hollow)
        bore, overrun = _stepped(dashed, side.sign, straight_over(bore, shut, folded.close), () if bored else hollow)
        hollow = tuple(m for m in hollow if m not in (*shut, *overrun))
        veiled = _veiled(folded, side, (*(turned.measured if turned else ()), *(hollow if bored else ())))
        if bored:
            found.append(replace(side, grooves=grooves, veiled=veiled))
            continue
        faces = side.faces or (face_recesses(turned, folded.fine) if turned else ())
        crossed = side.half.material.crossed or (shown.material.crossed if shown else ())
        material = replace(side.half.material, crossed=crossed)
        outline = replace(side.half, bore=shown.bore if shown else (), material=material)
        found.append(
            replace(
                side,
                half=outline,
                grooves=grooves,
                bore=bore,
                mouths=mouths,
                inside=hollow,
                faces=faces,
                faced=turned.profile if turned and not side.faces else side.faced,
                veiled=veiled,
                shut=shut,
                overrun=overrun,
            )
        )
    return found


def _shut(dashed: Folded, sign: int, hollow: Sequence[Measured]) -> tuple[Measured, ...]:
    """The recesses in a bore of hidden lines over whose mouths its own line runs on: a flat behind it looks so."""
    network, near = dashed.network, dashed.close
    straight = [k for k, edge in enumerate(network.edges) if not edge.bulge]
    ends = np.array([network.ends(k) for k in straight]).reshape(-1, 4) * (1, sign, 1, sign)
    low, high = np.minimum(ends[:, 0], ends[:, 2]), np.maximum(ends[:, 0], ends[:, 2])
    found = []
    for m in hollow:
        level = np.abs(ends[:, [1, 3]] - m.mouth).max(axis=1) <= near
        over = (np.minimum(high, m.z_near) - np.maximum(low, m.z_far))[level]
        found += [m] if over[over > 0].sum() >= m.width - near else []
    return tuple(found)


def _stepped(
    dashed: Folded, sign: int, bore: Profile, hollow: Sequence[Measured]
) -> tuple[Profile, tuple[Measured, ...]]:
    """The bore with a step where the hidden floor of a recess runs on past a wall, and those recesses.

    So it does where a hole stands before the axis and its lines look like a bore. Between lands of one bore the floor
    of a relief may lie level with the root of a thread.
    """
    network, near = dashed.network, dashed.close
    ends = np.array([network.ends(k) for k in range(len(network.edges))]).reshape(-1, 4) * (1, sign, 1, sign)
    ends = np.vstack([ends, np.roll(ends, 2, axis=1)])
    found, line = list[Measured](), np.array(from_within(points(bore))) * (-1, 1) if bore else np.zeros((0, 2))
    for m in hollow:
        past = [
            (np.abs(ends[:, :2] - (z, m.floor)).max(axis=1) <= near)
            & (way * (ends[:, 2] - z) > near)
            & (ends[:, 3] >= m.floor - near)
            for z, way in ((m.z_near, 1), (m.z_far, -1))
        ]
        past = [bool(rows.any()) for rows in past]
        lands = np.interp([-m.z_near - 2 * near, -m.z_far + 2 * near], *line.T)
        if any(past) and not all(past) and abs(lands[0] - lands[1]) > near:
            bore = stepped_at(bore, m.z_near if past[0] else m.z_far, m.floor, front=past[0])
            found.append(m)
    return _run_on(bore, ends, near), tuple(found)


def _run_on(bore: Profile, ends: Floats, near: float) -> Profile:
    """The bore as wide to its end as a line of it that runs on there past a step: what stands before it is a hole.

    A step may lie where an edge of the outside crosses the hidden line of such a hole.
    """
    for front in (True, False):
        line = np.array(from_within(points(bore)) if bore else ()).reshape(-1, 2)[:: 1 if front else -1]
        rises = np.flatnonzero((np.diff(line[:, 1]) > near) & (np.abs(np.diff(line[:, 0])) <= near))
        if not len(rises) or (line[: rises[0] + 1, 1] - line[0, 1]).max() > near:
            continue
        (end, _), (wall, level) = line[0], line[rises[0] + 1]
        low, high = sorted((end, wall))
        at_level = np.abs(ends[:, [1, 3]] - level).max(axis=1) <= near
        spans = np.sort(ends[at_level][:, [0, 2]], axis=1)
        if covers(np.column_stack([np.full(len(spans), level), spans]), level, low, high, near):
            bore = stepped_at(bore, float(wall), float(level), front=front)
    return bore


def _veiled(folded: Folded, side: HalfProfile, dashed: Sequence[Measured]) -> tuple[Measured, ...]:
    """The recesses of one half that hidden lines alone show, but for holes with an axis of their own."""
    near, middles = folded.close, [z for *_, z in centre_lines(folded, 1)]
    known = [z for m in (*side.turned.measured, *side.inside) for z in (m.z_near, m.z_far)]
    fresh = [m for m in dashed if not any(abs(z - k) <= near for z in (m.z_near, m.z_far) for k in known)]
    return tuple(m for m in fresh if not any(abs(m.z_near + m.z_far - 2 * z) <= near for z in middles))


def _reaching(m: Measured, under: Sequence[Measured], close: float) -> Measured:
    """The recess that reaches under the metal beside the same mouth, else the recess itself."""
    return next((o for o in under if max(abs(o.z_near - m.z_near), abs(o.z_far - m.z_far)) <= close), m)
