"""The dwell that the shop file gives a tool: a program without it at a floor with a tolerance is worth a look.

So is one whose dwell is much shorter.

A floor that a pass goes along needs none (`cuts/strokes` of the planner writes none there either).
"""

from collections.abc import Mapping, Sequence

from extractor.limits import is_limited
from extractor.part import Part
from extractor.runs import spans
from extractor.side import SIDES
from planner.cutting import spindle_speed
from planner.shop import Tool
from planner.steps import Dwell
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.judging.unsafe_speeds import plain
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.reading.run import Run
from postproc.verdict import Match, State

MS_PER_MINUTE = 60_000
ENOUGH = 0.75
"""A dwell of this share of the shop's is long enough: a tenth of a second is rounded by so much (a choice)."""


def check_dwells(part: Part, run: Run, bench: Bench, matches: Sequence[Match], notebook: Notebook) -> None:
    """Note the grooves that match whose tool has a dwell in the shop file, and which the program cuts without."""
    lacking: dict[tuple[Tool, str], list[tuple[int, int]]] = {}
    limited = {groove.id for groove in part.grooves if is_limited(groove, groove.side.bottom)}
    waited = _waited(run, bench)
    for match in matches:
        if match.state is State.MATCHES and match.drawing in limited and match.program is not None:
            tool = _plunging(run, bench, match.program.lines)
            turns = max((waited.get(line, 0.0) for line in match.program.lines), default=0.0)
            if tool is not None and turns < ENOUGH * tool.dwell:
                has = f"the program's is {_turns(turns)}" if turns else "the program has none"
                lacking.setdefault((tool, has), []).append((match.drawing or 0, max(match.program.lines)))
    for (tool, has), places in lacking.items():
        numbers = [number for number, _ in places]
        which = f"{'s' if len(numbers) > 1 else ''} {spans(numbers)}"
        message = (
            f"Groove{which}: the floor has a tolerance, and the shop file gives {tool.name} a dwell of "
            f"{_turns(tool.dwell)} there; {has}."
        )
        notebook.caution(ProgramCode.DWELL_MISSING, places[0][1], message)


def _turns(turns: float) -> str:
    """So many turns in words."""
    said = plain(turns, 2)
    return f"{said} turn{'' if said == '1' else 's'}"


def _waited(run: Run, bench: Bench) -> Mapping[int, float]:
    """By the line of a move after which the program waits, how many turns the spindle makes meanwhile, at most."""
    waits: dict[int, int] = {}
    for number, step in run.marks:
        made = run.step_motions[number]
        if isinstance(step, Dwell) and made:
            waits[made - 1] = waits.get(made - 1, 0) + step.milliseconds
    turned: dict[int, float] = {}
    for made, milliseconds in waits.items():
        motion = run.motions[made]
        turns = milliseconds / MS_PER_MINUTE * _speed(motion, bench)
        turned[motion.line] = max(turns, turned.get(motion.line, 0.0))
    return turned


def _speed(motion: Motion, bench: Bench) -> float:
    """Rev/min at the end of a move."""
    if not motion.surface:
        return motion.speed
    across = bench.increments.length(abs(motion.x1))
    return spindle_speed(motion.speed, across, motion.clamp or None, bench.increments.units)


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
