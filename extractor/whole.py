"""One whole reading of a sheet: how it is read, the view as laid, the part at true size, and what speaks for it."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property

from extractor.codes import DrawingCode
from extractor.distance import Distance
from extractor.doubts.beside_view import array_at
from extractor.doubts.crossed_out import struck_out
from extractor.doubts.labelled import labels_at_grooves
from extractor.finding import Finding, Level, Point
from extractor.flags import with_flags
from extractor.ink import InkLedger
from extractor.part import Part, ReadOptions
from extractor.places import contradictions, with_distances
from extractor.placing.laying import LaidView, gap_findings
from extractor.placing.placing import Groundwork, WayToRead
from extractor.placing.twins import dimensions_at, heard_at_all
from extractor.recess.build import alone, build, left_findings, shape_findings
from extractor.recess.recognise import Found
from extractor.recess.sized import all_wanted, sized_as_grooves, with_rings
from extractor.score import Aspect, Merit, Score, Weighed
from extractor.sheet import Sheet
from extractor.sizing.details.details import without_rings
from extractor.sizing.dimensions import tie_dimensions
from extractor.sizing.lettering.lists import with_items
from extractor.sizing.measured.features import Features
from extractor.sizing.notes.threads import roots_of_threads
from extractor.sizing.remaining.text_fates import text_ledger
from extractor.sizing.scale.units import UnitsAnswer, weigh_units
from extractor.sizing.sentences.broken_lines import with_callouts
from extractor.sizing.sentences.marked_up import marked_up
from extractor.sizing.sentences.material_notes import lines_of, material_notes
from extractor.sizing.sentences.void_words import out_of_force
from extractor.sizing.sizes.chains import with_undrawn
from extractor.sizing.sizes.doubt import borne_out
from extractor.sizing.sizes.off_outline import sized_as_rings
from extractor.sizing.tables.groove_table import with_table
from extractor.values import dataclass
from extractor.viewing.choice import Candidate, pointer
from extractor.viewing.outline import Folded, open_ends
from extractor.viewing.roles import Roles
from extractor.viewing.variants import variants_of, with_legend
from extractor.viewing.views import View


@dataclass(frozen=True)
class Given:
    """What every reading of a sheet is made from."""

    groundwork: Groundwork
    options: ReadOptions

    @property
    def sheet(self) -> Sheet:
        """The sheet, with dimensions that lay in pieces put together."""
        return self.groundwork.sheet

    @property
    def roles(self) -> Roles:
        """What its strokes are likely to be."""
        return self.groundwork.roles

    @property
    def asked(self) -> WayToRead:
        """The way that the options ask for."""
        return WayToRead(at=self.options.at, front=self.options.front, scale=self.options.scale)

    def read(self, way: WayToRead) -> "Whole":
        """The sheet read one way. Raises TooDenseError."""
        return Whole(self, way, self.groundwork.place(way))


@dataclass(frozen=True)
class Whole:
    """A sheet read one way: its view as laid, and what follows from it once it is asked for."""

    given: Given
    way: WayToRead
    placed: LaidView

    def stopped(self, finding: Finding) -> "Whole":
        """The reading given up for a question."""
        return replace(self, placed=LaidView(None, None, (finding,)))

    def told(self, *more: Finding) -> "Whole":
        """The same reading with more findings."""
        return replace(self, placed=self.placed.with_findings(*more))

    @property
    def sizes(self) -> str:
        """The size of the part as an aside in a sentence, nothing where none was read."""
        part = self.made[0]
        return f", {part.outer_diameter:.5g} across and {part.length:.5g} long" if part is not None else ""

    @property
    def candidate(self) -> Candidate | None:
        """The view that was read."""
        return self.placed.choice.candidates[0] if self.placed.choice is not None else None

    @property
    def made(self) -> tuple[Part | None, UnitsAnswer, tuple[Finding, ...]]:
        """The part at true size, or None, its units and scale, and all findings of the reading."""
        return self._made[:3]

    @property
    def ink(self) -> InkLedger | None:
        """What became of all that is drawn and written, None where no part was read."""
        part, *_, texts = self._made
        return replace(self.placed.ink, texts=texts) if part is not None and self.placed.ink is not None else None

    @cached_property
    def _made(self) -> tuple[Part | None, UnitsAnswer, tuple[Finding, ...], Mapping[str, int]]:
        """What was made, and how many texts of the sheet had which fate."""
        findings = list(self.placed.findings)
        folded, found = self.placed.folded, self.placed.found
        if folded is None or found is None:
            return None, UnitsAnswer(None, 1.0), tuple(f.at_scale(1.0) for f in findings), {}
        options = replace(self.given.options, scale=self.way.scale)
        flagged = with_items(with_flags(with_callouts(self.given.sheet, folded.view.covers), folded.view.covers))
        sheet = heard_at_all(flagged, folded.axis, found.outline[0][0], self.placed.twins)
        part, answer = _part_of(sheet, options, folded, found, self.placed.headed, findings)
        findings = [f for f in findings if f.code != DrawingCode.INNER_LINES or not roots_of_threads(sheet, part, f)]
        findings = without_rings(sheet, Features.of(part), findings)
        findings += filter(None, [array_at(self.given.sheet, folded.view)])
        findings += out_of_force(flagged, part)
        findings += marked_up(self.given.sheet, part, tuple(findings))
        findings += struck_out(self.given.sheet, part)
        texts = text_ledger(flagged, part, tuple(findings))
        findings += texts.findings
        findings += gap_findings(self.placed.gaps, part.units, answer.scale, folded.pen)
        told = tuple(self._with_places(f.at_scale(answer.scale)) for f in findings)
        return part, answer, told, texts.fates

    def _with_places(self, finding: Finding) -> Finding:
        """A doubt about the outline with places on the other views that may be meant; any other finding as it is."""
        choice = self.placed.choice
        if finding.code != DrawingCode.OUTLINE_DOUBTFUL or choice is None:
            return finding
        views = [c.view for c in (*choice.candidates, *choice.beside)]
        return replace(finding, spots=tuple(pointer(c.view, views) for c in choice.beside if c.evidence.turned))

    @cached_property
    def score(self) -> Score:
        """What speaks for it, part by part."""
        (part, _, _), candidate, ink = self.made, self.candidate, self.placed.ink
        score: Mapping[Aspect, Merit] = {} if candidate is None else candidate.score
        fits = borne_out(self.given.sheet, part) if part is not None else Merit(0.0, "no part that a size could fit")
        score = {**score, Aspect.PRINTED: fits}
        if ink is not None and ink.outline + ink.unexplained > 0:
            share = ink.outline / (ink.outline + ink.unexplained)
            score = {**score, Aspect.INK: Merit(share, f"{ink.unexplained:.4g} of drawn length unexplained")}
        if self.placed.folded is not None:
            loose = len(open_ends(self.placed.folded))
            score = {**score, Aspect.ENDS: Merit(-float(loose), f"lines that end in the air: {loose}")}
        return score

    def rows(self, *, taken: bool) -> tuple[Weighed, ...]:
        """The reading as the record has it, and the other views in question, which are weighed as drawn."""
        choice, (part, answer, _) = self.placed.choice, self.made
        if choice is None:
            return ()
        scale = answer.scale if part is not None else None
        first, *others = [Weighed(*_place(c.view), self.way.set_aside, c.score) for c in choice.candidates]
        return replace(first, score=self.score, front=self.placed.front, scale=scale, taken=taken), *others


def _place(view: View) -> tuple[Point, Point]:
    """The middle of a view and the direction of its axis."""
    return view.middle, view.axis.direction


def _part_of(
    sheet: Sheet, options: ReadOptions, folded: Folded, found: Found, headed: float | None, findings: list[Finding]
) -> tuple[Part, UnitsAnswer]:
    """The part at true size, with units, tolerances and the findings on them."""
    answer = weigh_units(sheet, found.across, options, dimensions_at(sheet.dimensions, folded.view), headed)
    findings += answer.findings
    found, bare = with_rings(sheet, folded, found, answer.scale, options)
    findings += bare
    wanted = all_wanted if options.grooved else sized_as_grooves(sheet, folded)
    part, undrawn = with_undrawn(sheet, build(folded, found, answer.units or "mm", answer.scale, wanted))
    findings += undrawn
    findings += left_findings(folded, found, part.units, answer.scale, wanted)
    findings += shape_findings(part)
    sheet = with_legend(sheet)
    part, tied = tie_dimensions(sheet, part)
    rings = tuple(sized_as_rings(sheet, part, alone(found, answer.scale)))
    # A diameter that is that of a recess of one half says nothing of another outline.
    findings += [f for f in tied if not (rings and f.code == DrawingCode.OUTLINE_DOUBTFUL)]
    findings += rings
    told = variants_of(sheet, part)
    findings += [told] if told else []
    part, tabled = with_table(sheet, part, labels_at_grooves(sheet, folded, found))
    findings += tabled
    part = replace(with_distances(part, part.distances), materials=material_notes(sheet), lines=lines_of(sheet))
    findings += [_at_odds(one) for one in contradictions(part)]
    return part, answer


def _at_odds(one: Distance) -> Finding:
    """The stop for a printed distance that can't be kept together with the others."""
    low, high = (one.nominal + deviation for deviation in one.deviations or (0.0, 0.0))
    number = one.end.groove or one.start.groove
    limits = f"{low:g} to {high:g}" if low < high else f"{low:g}"
    words = (
        f"The distance of {limits} at groove {number} can't be kept together with the other places and widths that the "
        "drawing prints; correct the drawing."
    )
    return Finding(Level.STOP, DrawingCode.PLACES_CONTRADICT, words, groove=number)
