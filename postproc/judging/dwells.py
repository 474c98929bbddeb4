"""The dwell that the shop file gives a tool: a program that leaves it out at a floor with a tolerance is worth a look.

A floor that a pass goes along needs none (`cuts/strokes` of the planner writes none there either).
"""

from collections.abc import Iterator, Sequence

from extractor.limits import is_limited
from extractor.part import Part
from extractor.side import SIDES
from planner.shop import Tool
from planner.steps import Dwell
from planner.words import spans
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.reading.notebook import Notebook
from postproc.reading.run import Run
from postproc.verdict import Match, State


def check_dwells(part: Part, run: Run, bench: Bench, matches: Sequence[Match], notebook: Notebook) -> None:
    """Note the grooves that match whose tool has a dwell in the shop file, and which the program cuts without it."""
    lacking: dict[Tool, list[tuple[int, int]]] = {}
    limited = {groove.id for groove in part.grooves if is_limited(groove, groove.side.bottom)}
    waited = set(_waited(run))
    for match in matches:
        if match.state is State.MATCHES and match.drawing in limited and match.program is not None:
            tool = _plunging(run, bench, match.program.lines)
            if tool is not None and tool.dwell and not waited & set(match.program.lines):
                lacking.setdefault(tool, []).append((match.drawing or 0, max(match.program.lines)))
    for tool, places in lacking.items():
        numbers = [number for number, _ in places]
        which = f"{'s' if len(numbers) > 1 else ''} {spans(numbers)}"
        notebook.caution(
            ProgramCode.DWELL_MISSING,
            places[0][1],
            f"Groove{which}: the floor has a tolerance, and the shop file gives {tool.name} a dwell of {tool.dwell:g} "
            f"turn{'' if tool.dwell == 1 else 's'} there; the program has none.",
        )


def _waited(run: Run) -> Iterator[int]:
    """The lines of the moves after which the program waits."""
    for step, made in zip(run.steps, run.step_motions, strict=True):
        if isinstance(step, Dwell) and made:
            yield run.motions[made - 1].line


def _plunging(run: Run, bench: Bench, lines: Sequence[int]) -> Tool | None:
    """The tool whose cuts at these lines go straight in; None where one of them, or the move after it, goes along."""
    tools = []
    cutting = False
    for motion in run.motions:
        after, cutting = cutting, motion.line in lines
        tool = bench.tool(motion)
        if motion.kind == "rapid" or tool is None or not (cutting or after):
            continue
        if (motion.z0 != motion.z1) if SIDES[tool.where].axial else (motion.x0 != motion.x1):
            return None
        if cutting:
            tools.append(tool)
    return tools[-1] if tools else None
