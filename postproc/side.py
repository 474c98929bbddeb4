"""One side of the part (outside, inside, face): the grooves drawn there against what was cut there."""

from collections.abc import Sequence

from extractor.finding import Finding
from extractor.part import Groove, Part, Where
from postproc.corners import rounded_profile
from postproc.matching import find_recesses, pair
from postproc.measure import Measured, measure
from postproc.metal import Metal
from postproc.motion import Motion
from postproc.overlay import Overlay, Stretch
from postproc.stock import BEHIND, Bench, part_pieces
from postproc.target import Target, target_of
from postproc.verdict import CutGroove, Match, State


class Side:
    """The matches and findings of one side, worked out from the metal that a bench has left."""

    def __init__(
        self, part: Part, bench: Bench, motions: Sequence[Motion], where: Where, tolerance: float, stock: float | None
    ) -> None:
        """Find the recesses, pair them with the drawing's grooves, measure each pair."""
        self.where = where
        self.increments = bench.increments
        self.drop = max(1, self.increments.count(tolerance))
        grooves = [groove for groove in part.grooves if groove.where == where]
        self.targets = [target_of(groove, self.increments, tolerance) for groove in grooves]
        self.matches: list[Match] = []
        self.findings: list[Finding] = []
        if where not in bench.metal:
            self.matches = [_missing(groove) for groove in grooves]
            return
        land = Metal(part_pieces(part, self.increments, where)).profile()
        domain = (-BEHIND, 0) if where == "outside" else (int(land.u[1]), int(land.u[-2]))
        self.sharp = Overlay.of(land, bench.metal[where].profile(), *domain)
        self.rounded = Overlay.of(land, rounded_profile(motions, bench, part, where, stock), *domain)
        self.corner = _corner(bench, where)
        self._match()

    def _match(self) -> None:
        """Fill in the matches and findings."""
        recesses = find_recesses(self.sharp, self.targets, self.drop, self.drop)
        pairing = pair(self.targets, recesses, self.drop)
        for t, r in pairing.pairs:
            found = measure(self.targets[t], self.sharp, self.rounded, recesses[r], self.drop, self.corner)
            self.findings.extend(found.findings)
            self.matches.append(self._matched(self.targets[t], found, recesses[r]))
        self.matches.extend(_missing(self.targets[t].groove) for t in pairing.missing)
        self.matches.extend(self._extra(recesses[r]) for r in reversed(pairing.extra))

    def _matched(self, target: Target, found: Measured, recess: Stretch) -> Match:
        """The match of a pair."""
        cut = self._cut(found.u0, found.u1, found.floor, recess)
        return Match(target.groove.id, cut, found.state, found.difference)

    def _extra(self, recess: Stretch) -> Match:
        """The match of a recess that is in no drawing."""
        low, _ = self.sharp.range(recess)
        return Match(None, self._cut(*recess, low, recess), State.EXTRA, {})

    def _cut(self, u0: int, u1: int, floor: int, recess: Stretch) -> CutGroove:
        """A recess in drawing units."""
        length, lines = self.increments.length, self.sharp.lines(recess)
        if self.where == "face":
            top = self.sharp.top(recess)
            return CutGroove(length(top), length(floor), length(u0), lines, length(u1))
        sign = -1 if self.where == "inside" else 1
        return CutGroove(length(u1), length(u0), sign * length(floor), lines)


def _missing(groove: Groove) -> Match:
    """The match of a groove that the program doesn't cut."""
    return Match(groove.id, None, State.MISSING, {})


def _corner(bench: Bench, where: Where) -> int:
    """How far the corners of a side's inserts reach along u at most, in increments."""
    along = 2 if where == "face" else 1
    radii = [tool.corner_radius for tool in bench.tools_of(where) if tool.edge == "square"]
    largest = bench.increments.count(max(radii, default=0.0))
    # A whole increment more, because width and radius are rounded apart and an arc ends between two counts.
    return along * (largest + 1) if largest else 0
