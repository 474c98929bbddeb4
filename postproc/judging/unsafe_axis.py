"""What goes wrong at the axis: feeding far past it, an unlimited spindle on the way there, a part that is already off.

Common practice, no source: the cutting speed is nothing at the axis, so under constant surface speed the spindle runs
up to its clamp; beyond the axis the work runs against the back of the edge; what is parted off lies in the tray.
"""

from collections.abc import Sequence

from extractor.part import Units
from planner.cutting import spindle_speed
from planner.shop import Shop
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.judging.parting import parted_after
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.vocabulary.acts import Act

# A facing or parting tool goes past the axis by twice its nose radius, which is 2.4 at most (common practice).
PAST_AXIS: dict[Units, float] = {"mm": 5.0, "in": 0.2}


def check_axis(motions: Sequence[Motion], bench: Bench, shop: Shop, notebook: Notebook) -> None:
    """Look at every move; each kind of fault is reported once, where it comes first."""
    axis = _AtAxis(bench, shop, notebook)
    feeds = [motion for motion in motions if motion.kind == "feed"]
    far = -bench.increments.count(PAST_AXIS[bench.increments.units])
    for motion in [motion for motion in motions if motion.x1 < far]:
        axis.past(motion)
    for motion in [motion for motion in feeds if motion.surface and motion.turning and not bench.has(motion.station)]:
        axis.spindle(motion)
    off = parted_after(motions, bench)
    if off < len(motions):
        ran = {motion.line for motion in motions[:off]}
        for motion in motions[off:]:
            if motion.kind == "feed" and motion.turning and motion.line not in ran:
                axis.parted(motion, motions[off - 1])


class _AtAxis:
    """Says what goes wrong, each kind of fault once."""

    def __init__(self, bench: Bench, shop: Shop, notebook: Notebook) -> None:
        """Nothing is said yet."""
        self.bench, self.shop, self.notebook = bench, shop, notebook
        self._told: set[ProgramCode] = set()

    def parted(self, motion: Motion, parted: Motion) -> None:
        """Note a cut of the part after the move that parted it off."""
        if self._cuts(motion, parted):
            message = (
                f"The part is parted off at {self.notebook.end(parted)} in line {parted.line}, and is cut again here; "
                "part it last."
            )
            self._tell(ProgramCode.CUT_AFTER_PARTING, motion, message)

    def _cuts(self, motion: Motion, parted: Motion) -> bool:
        """True for a move on the part, before where it was parted off and below its greatest diameter."""
        return (
            max(motion.z0, motion.z1) > parted.z1
            and min(motion.z0, motion.z1) <= 0
            and motion.x1 < self.bench.increments.count(self.bench.part.outer_diameter)
        )

    def past(self, motion: Motion) -> None:
        """Note a move far past the axis that comes from outside, the axis or a place that nobody said."""
        if motion.x0 >= 0 or not motion.x0_known:
            message = (
                f"The tool goes on to {self.notebook.end(motion)}, far past the axis, where the work runs against the "
                "back of its edge; end the move just past X0, or check the sign of X."
            )
            self._tell(ProgramCode.PAST_AXIS, motion, message)

    def spindle(self, motion: Motion) -> None:
        """A tool at the axis under constant surface speed."""
        if motion.x0 == motion.x1 == 0 and motion.z1 < 0:
            message = (
                f"A tool goes in along the axis under constant surface speed ({self.notebook.word(Act.SURFACE)}), so "
                f"the spindle runs at its highest; say {self.notebook.word(Act.RPM)}."
            )
            self._tell(ProgramCode.DRILL_SPEED, motion, message)
        # On the axis itself no speed is enough: one count stands for it.
        across = self.bench.increments.length(max(1, min(motion.x0, motion.x1), -max(motion.x0, motion.x1)))
        turns = spindle_speed(motion.speed, across, None, self.bench.increments.units)
        surface = self.notebook.word(Act.SURFACE)
        if not motion.clamp and turns > self.shop.machine.max_rpm:
            message = (
                f"Constant surface speed ({surface}) is in force with no spindle clamp on a way toward the axis, which "
                f"needs more than {self.shop.machine.max_rpm} rev/min; give the highest speed before {surface}."
            )
            self._tell(ProgramCode.NO_CLAMP, motion, message)

    def _tell(self, code: ProgramCode, motion: Motion, message: str) -> None:
        """A stop, once of its code."""
        if code not in self._told:
            self._told.add(code)
            self.notebook.stop(code, motion.line, message)
