"""One side of the part (outside, inside, face): the grooves drawn there against what was cut there."""

from collections.abc import Sequence
from dataclasses import replace

from extractor.finding import Finding, Level
from extractor.part import Groove, Part
from extractor.side import OUTSIDE, Side
from planner.cuts.ground import ground_of
from planner.cuts.upright import is_square
from planner.fit import greatest_corner
from planner.shop import Shop, Tool
from postproc.codes import ProgramCode
from postproc.cutting.corners import rounded_profile
from postproc.cutting.metal import FARTHEST, Metal
from postproc.cutting.stock import Bench, drawn_metal, part_pieces
from postproc.judging.edges import GrooveRemark, edge_remarks, joined, sharp_remarks
from postproc.judging.form import held_in_face, measure_corners, measure_form, squared, unheld
from postproc.judging.leftover import left_standing, turned_lands
from postproc.judging.line import DrawnLine
from postproc.judging.matching import find_recesses, pair
from postproc.judging.measure import MeasuredCut, measure
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Target, target_of
from postproc.motion import Motion
from postproc.verdict import CutGroove, Match, State

CORNERED = frozenset({"tapered", "vee"})
"""Shapes whose walls lean and meet the floor, or one another, in corners."""


class OneSide:
    """The matches and findings of one side, worked out from the metal that a bench has left."""

    def __init__(
        self, part: Part, bench: Bench, motions: Sequence[Motion], side: Side, shop: Shop, stock: float | None
    ) -> None:
        """Find the recesses, pair them with the drawing's grooves, measure each pair, look at what is left besides."""
        self.side, self.increments, self.shop, self.part = side, bench.increments, shop, part
        tolerance = shop.machine.tolerance
        self.drop = max(1, self.increments.count(tolerance))
        grooves = [groove for groove in part.grooves if groove.side == side]
        self.targets = [self._target(groove, tolerance) for groove in grooves]
        self.matches: list[Match] = []
        self.findings: list[Finding] = []
        if side.where not in bench.metal:
            self.matches = [_missing(groove) for groove in grooves]
            return
        land = Metal(part_pieces(part, self.increments, side)).profile()
        domain = (-FARTHEST, 0) if side == OUTSIDE else (int(land.u[1]), int(land.u[-2]))
        self.sharp = Overlay.of(land, bench.metal[side.where].profile(), *domain)
        self.rounded = Overlay.of(land, rounded_profile(motions, bench, part, side, stock), *domain)
        self.drawn = Overlay.of(land, drawn_metal(part, self.increments, side).profile(), *domain)
        self.back = self.increments.count(-part.length)
        self.through = self.increments.count(2 * part.bore[-1][1]) if part.bore else 0
        self.bench, self.last = bench, {motion.line: motion for motion in motions if bench.has(motion.station)}
        self._match()
        self.findings.extend(left_standing(part, side, self.targets, self.drawn, self.sharp, self.drop))
        self.findings.extend(turned_lands(part, side, self.targets, bench, motions, self.drop))

    def _match(self) -> None:
        """Fill in the matches and findings."""
        # Chamfers and slopes are cut with the insert's corner, whose radius belongs to them: a sharp corner would cut
        # away the land between two of them.
        contoured = any(target.chamfer or not target.upright for target in self.targets)
        found = find_recesses(self.rounded if contoured else self.sharp, self.targets, self.drop, self.drop)
        recesses = found.recesses
        self.findings.extend(self._shaved(stretch) for stretch in found.shaved)
        pairing = pair(self.targets, recesses, self.drop)
        edges: list[tuple[int, GrooveRemark]] = []
        for t, r in pairing.pairs:
            measured = self._measured(self.targets[t], recesses[r])
            self.findings.extend(measured.findings)
            edges.extend((self.targets[t].groove.id, remark) for remark in measured.remarks)
            if measured.state is State.MATCHES:
                edges.extend(
                    (self.targets[t].groove.id, remark) for remark in self._edges(self.targets[t], recesses[r])
                )
            self.matches.append(self._matched(self.targets[t], measured, recesses[r]))
        self.findings.extend(joined(edges))
        self.matches.extend(_missing(self.targets[t].groove) for t in pairing.missing)
        on_part = {line for r in recesses if not self._behind(r) for line in self.sharp.lines(r)}
        for recess in (recesses[r] for r in reversed(pairing.extra)):
            # A row that runs off the part has the lines of its grooves; a parting cut has its own.
            if self._behind(recess) and (self._through(recess) or on_part.isdisjoint(self.sharp.lines(recess))):
                self.findings.append(self._part_off(recess))
            else:
                self.matches.append(self._extra(recess))

    def _target(self, groove: Groove, tolerance: float) -> Target:
        """The target of a groove, held against the outline."""
        target = target_of(groove, self.increments, tolerance)
        return replace(target, square=is_square(groove, ground_of(self.part, groove), tolerance))

    def _measured(self, target: Target, recess: Stretch) -> MeasuredCut:
        """A recess measured as its groove is drawn.

        Round corners that are followed with the insert may be right between the walls as cut, or as drawn throughout.
        """
        axial = self.side.axial
        if axial and (not target.upright or any(tool.edge != "square" for tool in self._at_work(recess))):
            return self._by_line(target, recess)
        found = measure(target, self.sharp, self.rounded, recess, self.drop, self._corner(recess))
        if not (axial or held_in_face(target)):
            return unheld(target, found)
        followed = self._followed(target) or not target.upright
        if found.state is State.MATCHES and target.corner:
            insert = None if followed else max(self._radii(recess), default=0.0)
            found = measure_corners(target, self.rounded, found, self.drop, insert)
        if not (followed and axial):
            return found
        whole = found if found.state is State.MATCHES else self._by_line(target, recess)
        return whole if whole.state is State.MATCHES else found

    def _by_line(self, target: Target, recess: Stretch) -> MeasuredCut:
        """A recess held against its drawn line."""
        reach = self.shop.machine.clearance + target.groove.edge_chamfer
        line = DrawnLine.of(target.groove, ground_of(self.part, target.groove), self.increments, reach)
        stands = self._may_stand(target, recess)
        found = measure_form(target, self.rounded, self.drawn, line, recess, self.drop, stands)
        square = next((tool for tool in self._at_work(recess) if tool.edge == "square"), None)
        if found.state is State.MATCHES or square is None or target.upright or self.sharp.sloping(recess):
            return found
        return replace(found, findings=(squared(target, square),))

    def _followed(self, target: Target) -> bool:
        """True if round corners of an upright groove were cut with moves of their own."""
        wide, deep = target.corner, target.floor + target.rise
        corners = [(target.u0, target.u0 + wide), (target.u1 - wide, target.u1)]
        return bool(wide) and any(self.sharp.sloping(corner, deep) for corner in corners)

    def _may_stand(self, target: Target, recess: Stretch) -> float:
        """The radius in counts that the inserts at work may leave in corners drawn sharp."""
        radii = self._radii(recess)
        if target.groove.corner_radius > 0:
            radii = [min(radius, greatest_corner(target.groove, self.shop)) for radius in radii]
        return max([0.0, *radii]) * self.increments.per_length

    def _matched(self, target: Target, found: MeasuredCut, recess: Stretch) -> Match:
        """The match of a pair."""
        cut = self._cut(found.u0, found.u1, found.floor, recess)
        return Match(drawing=target.groove.id, program=cut, state=found.state, difference=found.difference)

    def _shaved(self, stretch: Stretch) -> Finding:
        """Land that the program takes down beside the grooves."""
        lines, length = self.sharp.lines(stretch), self.increments.length
        places = sorted((length(stretch[0]), length(stretch[1])), reverse=True)
        axis = self.side.axis
        message = f"The land between {axis}{places[0]:g} and {axis}{places[1]:g} is cut down below the drawing."
        return Finding(Level.STOP, ProgramCode.LAND_CUT, message, line=lines[0] if lines else None)

    def _corner(self, recess: Stretch) -> int:
        """How far the corners of the inserts at work reach along u at most, in increments."""
        largest = self.increments.count(max([0.0, *self._radii(recess)]))
        # A whole increment more, because width and radius are rounded apart and an arc ends between two counts.
        return self.side.along * (largest + 1) if largest else 0

    def _radii(self, window: Stretch) -> list[float]:
        """The corner radii of the square inserts that left what stands in a window."""
        return [tool.corner_radius for tool in self._at_work(window) if tool.edge == "square"]

    def _at_work(self, window: Stretch) -> list[Tool]:
        """The tools that left what stands in a window."""
        last = (self.last[line] for line in self.sharp.lines(window) if line in self.last)
        return [tool for motion in last if (tool := self.bench.tool(motion)) is not None]

    def _edges(self, target: Target, recess: Stretch) -> tuple[GrooveRemark, ...]:
        """Corners and mouth of a groove that matches."""
        tools = self._at_work((max(recess[0], target.u0), min(recess[1], target.u1)))
        if not target.upright:
            return sharp_remarks(target, tools, self.shop) if target.groove.shape in CORNERED else ()
        return edge_remarks(target, tools, (self.sharp, self.rounded), recess, self.shop, self.drop)

    def _behind(self, recess: Stretch) -> bool:
        """True if a recess lies wholly behind the drawn part."""
        return self.side == OUTSIDE and recess[1] <= self.back + self.drop

    def _through(self, recess: Stretch) -> bool:
        """True if a recess goes down to the bore or the centre."""
        return self.sharp.range(recess)[0] <= self.through

    def _part_off(self, recess: Stretch) -> Finding:
        """A note about parting off; a caution about a cut that is perhaps the beginning of it."""
        lines, length = self.sharp.lines(recess), self.increments.length
        line = lines[0] if lines else None
        if self._through(recess):
            message = f"The program parts off at Z{length(recess[1]):g}, behind the drawn part."
            return Finding(Level.NOTE, ProgramCode.PARTS_OFF, message, line=line)
        low, _ = self.sharp.range(recess)
        message = (
            f"The program cuts at Z{length(recess[1]):g} down to X{length(low):g}, behind the part's back face at "
            f"Z{length(self.back):g}, where nothing is drawn: see that it is meant, as for parting off."
        )
        return Finding(Level.CAUTION, ProgramCode.CUTS_BEHIND_PART, message, line=line)

    def _extra(self, recess: Stretch) -> Match:
        """The match of a recess that is in no drawing."""
        low, _ = self.sharp.range(recess)
        return Match(drawing=None, program=self._cut(*recess, low, recess), state=State.EXTRA, difference={})

    def _cut(self, u0: int, u1: int, floor: int, recess: Stretch) -> CutGroove:
        """A recess in drawing units."""
        length, lines, side = self.increments.length, self.sharp.lines(recess), self.side
        if not side.axial:
            return CutGroove(
                z_near=length(self.sharp.top(recess)),
                z_far=length(floor),
                floor_diameter=length(u0),
                lines=lines,
                mouth_diameter=length(u1),
                where=side.where,
            )
        return CutGroove(
            z_near=length(u1), z_far=length(u0), floor_diameter=side.sign * length(floor), lines=lines, where=side.where
        )


def _missing(groove: Groove) -> Match:
    """The match of a groove that the program doesn't cut."""
    return Match(drawing=groove.id, program=None, state=State.MISSING, difference={})
