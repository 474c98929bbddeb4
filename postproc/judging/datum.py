"""Where a program's zero lies: if all cuts are in front of the front face, another zero was most likely meant."""

from collections.abc import Iterable

from extractor.side import OUTSIDE
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.motion import Motion
from postproc.reading.notebook import Notebook


def check_datum(motions: Iterable[Motion], bench: Bench, notebook: Notebook) -> None:
    """Note a program whose every cut with an outside insert stays in front of Z0, where there is no metal."""
    first: int | None = None
    for motion in motions:
        insert = bench.insert(motion)
        if insert is None or motion.kind == "rapid" or not motion.z0_known:
            continue
        if insert.side != OUTSIDE or min(motion.z0, motion.z1) + insert.left < 0:
            return
        first = first or motion.line
    if first is not None:
        notebook.stop(
            ProgramCode.BEFORE_THE_FACE,
            first,
            "Every cut lies in front of the front face (Z0), where there is no metal: Z lacks its minus sign, or Z0 "
            "was meant to be at the other end.",
        )
