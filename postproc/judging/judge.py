"""A program held against its drawing: cut in simulation, matched groove by groove, every unsafe move named."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from extractor.finding import Finding, Level, accept
from extractor.part import Part
from extractor.side import OUTSIDE, SIDES, Side
from planner.increment import Increments
from planner.shop import Shop, Tool, WholeNumbers
from postproc.codes import ProgramCode
from postproc.cutting.metal import Metal
from postproc.cutting.stock import Bench, drawn_metal, part_pieces
from postproc.cutting.whole_run import cut_profile
from postproc.dialect import Dialect
from postproc.inserts import shop_for
from postproc.judging.datum import beyond_axis, check_datum, check_work_offset
from postproc.judging.dwells import check_dwells
from postproc.judging.guards import cuts, either_way
from postproc.judging.lands import unturned_finding
from postproc.judging.one_side import OneSide
from postproc.judging.overlay import Overlay
from postproc.judging.spacing import spaced
from postproc.judging.tongue import other_tongue, whole_numbers_said
from postproc.judging.unsafe_axis import check_axis
from postproc.judging.unsafe_cutting import check_calls, check_cutting, check_offsets, check_restarts
from postproc.judging.unsafe_cycles import check_span
from postproc.judging.watch import MotionWatch
from postproc.reading.guess import read_in
from postproc.reading.interpreter import interpret
from postproc.reading.notebook import Notebook
from postproc.reading.rescale import in_increments
from postproc.reading.run import CycleCall, Run
from postproc.verdict import Followed, Match, State, Verdict
from postproc.vocabulary.numbers import UNIT_NAMES


def judge(
    part: Part,
    run: Run,
    shop: Shop,
    stock: float | None = None,
    left_out: Collection[int] = (),
    accepted: Collection[str] = (),
) -> Verdict:
    """Hold what a program does against the drawing: cut it, match the grooves, name what is unsafe.

    `stock` is the diameter of the bar where the outside isn't turned yet. `left_out` are numbers of grooves that the
    user answers for: that they are not cut counts for nothing. `accepted` holds codes of stops that the user answers
    for. Deterministic; takes and gives values only.
    """
    if run.lost:
        # Whatever else could be said would only follow from the way that is lost.
        return Verdict((), run.findings, _followed(run))
    increments = Increments.of(part.units)
    run = in_increments(run, increments)
    bench = Bench(part, shop.tools, increments, stock)
    if beyond := beyond_axis(run.motions, bench):
        return Verdict((), _by_line((*run.findings, beyond)), _followed(run, shop.tools))
    notebook = Notebook(increments, run.spoken_words)
    watch = MotionWatch(bench, shop.machine, notebook, run.cycles, shop.unsaid, run.indexings, run.halts)
    cutting = watch.run(run.motions)
    if stock is not None:
        unturned_finding(part, bench.outside, increments, notebook)
    check_datum(run.motions, bench, notebook)
    check_work_offset(run, shop, notebook)
    check_cutting(run.motions, cutting, bench, shop, notebook)
    check_restarts(run, cutting, notebook)
    check_calls(run, shop, notebook)
    check_offsets(run, cutting, bench, notebook)
    check_axis(run.motions, bench, shop, notebook)
    sides = [OneSide(part, bench, run.motions, side, shop, stock) for side in SIDES.values()]
    found = sorted((m for side in sides for m in side.matches), key=lambda m: (m.drawing is None, m.drawing or 0))
    matches, apart = spaced(part, found, increments, shop.machine.tolerance)
    matches = [m for m in matches if m.state is not State.MISSING or m.drawing not in left_out]
    right = all(match.state is State.MATCHES for match in matches)
    _spans(run.cycles, bench, matches, notebook)
    check_dwells(part, run, bench, matches, notebook)
    _units(part, run, right, notebook)
    if run.units != part.units and not right and not any(match.state is State.MATCHES for match in matches):
        # All else is what comes of numbers read in the wrong units: it would only lead astray.
        told = [finding for finding in notebook.findings if finding.code == ProgramCode.UNITS_DIFFER]
        return Verdict((), (*run.findings, *told), _followed(run))
    findings = (*_findings(run, notebook, sides, matches), *apart)
    return Verdict(tuple(matches), accept(findings, accepted), _followed(run, shop.tools))


def _followed(run: Run, tools: Sequence[Tool] = ()) -> Followed:
    """How much of a run was followed, and how much of that as a point alone."""
    stations = {tool.station for tool in tools}
    alone = {motion.station for motion in run.motions} - stations - {0}
    points = sum(motion.followed and motion.station in alone for motion in run.motions) if tools and alone else 0
    return Followed([motion.followed for motion in run.motions].count(True), run.not_followed, points)


def compare_program(
    part: Part,
    text: str,
    shop: Shop,
    dialect: Dialect | None = None,
    stock: float | None = None,
    left_out: Collection[int] = (),
    beside: Sequence[Tool] = (),
    accepted: Collection[str] = (),
) -> Verdict:
    """Read a program, run it as the control would, and hold it against the drawing.

    Without a dialect the program's own words tell it, else the shop's machine. Blocks with / are run; where leaving
    them out cuts something else, a caution says so. `left_out` and `accepted` as in `judge`. Where no shop file gives
    the inserts, the program's heading does, then `beside` (in drawing units); where nothing does, it isn't judged.
    Raises ProgramError if the text can't be read at all.
    """
    parsed, spoken, told = read_in(text, dialect, shop.machine.dialect)
    whole = shop.machine.whole_numbers
    run = interpret(parsed, spoken, part.units, whole_numbers=whole, guard=False)
    shop, known = shop_for(parsed, run, shop, beside)
    if known.unknown:
        findings = _by_line((*run.findings, *known.unknown))
        return Verdict((), findings, _followed(run), spoken=spoken.name, told=told)

    def judged(
        skip: bool = False, whole: WholeNumbers | None = whole, equal: bool = False, guard: bool = False
    ) -> Verdict:
        """The program run in another way."""
        other = interpret(parsed, spoken, part.units, skip=skip, whole_numbers=whole, equal=equal, guard=guard)
        return replace(judge(part, other, shop, stock, left_out, accepted), run=other)

    verdict = replace(judge(part, run, shop, stock, left_out, accepted), run=run)
    if run.guard is not None:
        verdict = either_way(verdict, judged(guard=True), *run.guard)
        run = verdict.run or run
    doubt = () if dialect else other_tongue(parsed, run, spoken, part.units, whole)
    close = _rounding(verdict, judged(equal=True), run.close) if run.close else ()
    findings = (*whole_numbers_said(verdict, judged), *doubt, *close, *known.findings)
    verdict = replace(verdict, findings=_by_line(findings), run=run, shop=shop, spoken=spoken.name, told=told)
    marked = next((block.line for block in parsed.blocks if block.skip), None)
    if marked is None:
        return verdict
    starts = [block.line for block in parsed.blocks if block.words and block.words[0].address == "O"]
    other = judged(skip=True)
    return _skipped(_led_to(verdict, other, starts), _led_to(other, verdict, starts), marked)


def _led_to(verdict: Verdict, other: Verdict, starts: Sequence[int]) -> Verdict:
    """A verdict that says nothing of blocks to which only the `other` setting of block skip leads.

    `starts` are the lines at which the programs of the file begin: behind a block that isn't run none of its is.
    """
    idle = [one.line or 0 for one in other.findings if one.code == ProgramCode.NOT_RUN]

    def run(line: int) -> bool:
        """Whether the other setting runs the block of a line."""
        begin = max((start for start in starts if start <= line), default=0)
        return not any(begin <= at <= line for at in idle)

    kept = tuple(one for one in verdict.findings if one.code != ProgramCode.NOT_RUN or not run(one.line or 0))
    return replace(verdict, findings=kept)


def _rounding(verdict: Verdict, other: Verdict, line: int) -> Iterable[Finding]:
    """What is said where the `other` verdict, with all but equal values taken for equal, is another one."""
    if other.matches == verdict.matches and other.agree == verdict.agree:
        return
    what = "it agrees with the drawing" if other.agree else "it cuts something else"
    message = (
        "This compares values that differ only in what sums of decimals leave in the last digits; where the control "
        f"takes them for equal {what}, so leave half a step to spare."
    )
    yield Finding(Level.CAUTION, ProgramCode.MACRO_ROUNDING, message, line=line)


def _skipped(verdict: Verdict, other: Verdict, line: int) -> Verdict:
    """A verdict with what is said of the `other` one, that with the blocks marked / left out, the first in a line."""
    worse = [one for one in other.findings if one.level is not Level.NOTE and one not in verdict.findings]
    worse.sort(key=lambda one: not one.stops)
    what = "it no longer agrees with the drawing" if verdict.agree else "it cuts something else"
    alike = False
    if not (worse and worse[0].stops) and other.agree == verdict.agree and other.matches == verdict.matches:
        dry = _dry_lines(other) - _dry_lines(verdict)
        what = "more is to be looked at"
        if not (dry or worse):
            if cuts(other) == cuts(verdict):
                return verdict
            what, alike = "the same grooves are cut by other moves, feeds or speeds", True
        elif dry:
            worse, what = [], f"the cut of line {min(dry)} loses its coolant"
    first = next((one for one in worse if one.line is not None), None)
    told = "" if first is None else f". Line {first.line} then: {first.message.rstrip('.')}"
    message = f"With block skip on the blocks marked / are left out and {what}; set the switch as meant{told}."
    skip = Finding(Level.NOTE if alike else Level.CAUTION, ProgramCode.BLOCK_SKIP, message, line=line)
    return replace(verdict, findings=(*verdict.findings, skip))


def _dry_lines(verdict: Verdict) -> set[int]:
    """The lines that cut at feed without coolant."""
    motions = verdict.run.motions if verdict.run else ()
    return {motion.line for motion in motions if motion.kind == "feed" and not motion.wet}


def laid_over(
    part: Part, run: Run, shop: Shop, stock: float | None = None, side: Side = OUTSIDE, filled: bool = False
) -> Overlay:
    """One side that a run leaves, laid over the drawn one (as `land`), or over that with its grooves `filled`.

    u and heights are increments of the drawing's units in the frame of the side: z, and diameters, negative inside; on
    the face diameters, and z.
    """
    increments = Increments.of(part.units)
    run = in_increments(run, increments)
    whole = Metal(part_pieces(part, increments, side)).profile()
    cut = cut_profile(run.motions, shop.tools, part, increments, stock, side)
    if side != OUTSIDE and not any(tool.where == side.where for tool in shop.tools):
        cut = whole
    land = whole if filled else drawn_metal(part, increments, side).profile()
    along = (increments.count(-part.length), 0) if side.axial else (int(whole.u[1]), int(whole.u[-2]))
    return Overlay.of(land, cut, *along)


def _spans(cycles: Sequence[CycleCall], bench: Bench, matches: Sequence[Match], notebook: Notebook) -> None:
    """Spans that are no whole number of shifts; meant so where all that the call cuts is as drawn."""
    wrong = {line for m in matches if m.state is not State.MATCHES and m.program for line in m.program.lines}
    for call in cycles:
        tool = bench.tool_at(call.station, call.offset)
        if tool is not None and call.z_known:
            check_span(call, bench.insert_for(tool).width, call.line not in wrong, notebook)


def _units(part: Part, run: Run, right: bool, notebook: Notebook) -> None:
    """A unit word at odds with the drawing; a program that cuts the drawing all the same was converted on purpose."""
    if run.units == part.units:
        return
    message = f"The program is in {UNIT_NAMES[run.units]}, the drawing in {UNIT_NAMES[part.units]}"
    if right:
        notebook.caution(ProgramCode.UNITS_DIFFER, run.units_line, f"{message}; converted, the numbers agree.")
    else:
        notebook.stop(
            ProgramCode.UNITS_DIFFER, run.units_line, f"{message}; correct the unit word or convert the program."
        )


def _findings(run: Run, notebook: Notebook, sides: Sequence[OneSide], matches: Sequence[Match]) -> tuple[Finding, ...]:
    """The reader's, the interpreter's and our own findings, by line, those about a groove after them."""
    unsaid = {finding.line for finding in run.findings if finding.code == ProgramCode.PLACE_UNKNOWN}
    seen = [f for f in notebook.findings if f.code != ProgramCode.PLACE_UNKNOWN or f.line not in unsaid]
    found = [*run.findings, *seen, *(finding for side in sides for finding in side.findings)]
    if not run.motions and matches:
        found.append(
            Finding(Level.STOP, ProgramCode.NO_MOVES, "The program moves no tool at all; is it the right file?")
        )
    return _by_line(found)


def _by_line(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings once each, by line, those about a groove after them."""
    return tuple(sorted(dict.fromkeys(findings), key=lambda f: (f.line is None, f.line or 0)))
