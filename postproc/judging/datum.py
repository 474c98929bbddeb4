"""Where a program's zero lies: if all cuts are in front of the front face, another zero was most likely meant.

One plunge that goes in and out there among others that cut has most likely lost its sign.
"""

from collections.abc import Sequence
from itertools import pairwise

from extractor.finding import Finding, Level
from extractor.side import OUTSIDE
from planner.shop import Shop
from planner.steps import WorkOffset
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.reading.run import Run


def check_datum(motions: Sequence[Motion], bench: Bench, notebook: Notebook) -> None:
    """Note a program whose every cut with an outside insert stays in front of Z0, where there is no metal.

    Else note each plunge there that goes in below the outside and straight out again.
    """
    first: int | None = None
    for motion in motions:
        insert = bench.insert(motion)
        if insert is None or motion.kind == "rapid" or not motion.z0_known:
            continue
        if insert.side != OUTSIDE or min(motion.z0, motion.z1) + insert.left < 0:
            _plunges_in_air(motions, bench, notebook)
            return
        first = first or motion.line
    if first is not None:
        message = (
            "Every cut lies in front of the front face (Z0), where there is no metal: Z lacks its minus sign, or Z0 "
            "was meant to be at the other end."
        )
        notebook.stop(ProgramCode.BEFORE_THE_FACE, first, message)


def beyond_axis(motions: Sequence[Motion], bench: Bench) -> Finding | None:
    """The stop for a program that grooves the outside at negative X alone, as where tools stand beyond the axis."""
    cuts = [m for m in motions if m.kind == "feed" and (found := bench.insert(m)) and found.side == OUTSIDE]
    if not cuts or any(max(motion.x0, motion.x1) > 0 or not motion.x0_known for motion in cuts):
        return None
    message = (
        "Every cut lies at negative X, beyond the axis: take the minus signs of X away, or, where the lathe has its "
        "tools there, mirror the program to be judged here."
    )
    return Finding(Level.STOP, ProgramCode.PAST_AXIS, message, line=cuts[0].line)


def check_work_offset(run: Run, shop: Shop, notebook: Notebook) -> None:
    """Stop where a program works from another work offset than the shop file has it call.

    A program that calls none works from the first (common practice).
    """
    wanted = shop.machine.work_offset
    called = ((step.number, run.step_lines[k]) for k, step in run.marks if isinstance(step, WorkOffset))
    number, line = next(called, (1, None))
    if wanted and number != wanted:
        what = "the work offset of this block" if line is not None else "the first work offset, as it calls none,"
        notebook.stop(
            ProgramCode.WORK_OFFSET,
            line,
            f"The program works from {what} and the shop file has work_offset = {wanted}: all its cuts would lie off "
            "by the difference; correct one of the two.",
        )


def _plunges_in_air(motions: Sequence[Motion], bench: Bench, notebook: Notebook) -> None:
    """A caution for each plunge of an outside insert in front of the front face that is drawn straight out again."""
    across = bench.increments.count(bench.part.outer_diameter)
    least = min((-bench.insert_for(tool).left for tool in bench.tools_of(OUTSIDE.where)), default=0)
    for motion, after in [two for two in pairwise(motions) if two[0].z1 >= least]:
        if motion.kind == "rapid" or not motion.z0 == motion.z1 == after.z1 or not motion.x1 < motion.x0 <= after.x1:
            continue
        insert = bench.insert(motion) if motion.z0_known and motion.x1 < across else None
        if insert is not None and insert.side == OUTSIDE and motion.z1 + insert.left >= 0:
            where = notebook.length(motion.z1)
            message = (
                f"The plunge at Z{where} goes in and out in front of the front face (Z0), where there is no metal: "
                "see whether Z lacks its minus sign, or take the plunge out."
            )
            notebook.caution(ProgramCode.BEFORE_THE_FACE, motion.line, message)
