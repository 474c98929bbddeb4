"""Rapids into metal, onto it, or past it on a way that may bend.

Metal thinner than the shop's tolerance counts as touched, not as hit.
"""

from collections.abc import Sequence
from math import copysign

from extractor.part import Units
from postproc.codes import ProgramCode
from postproc.cutting.insert import Insert, Piece
from postproc.cutting.metal import Metal
from postproc.cutting.stock import Bench, swept
from postproc.motion import Motion
from postproc.reading.notebook import Notebook

# Where a reference point is taken to lie where the program doesn't say: beyond every part, in increments.
AWAY = 1 << 31
# Many hands begin at half the clearance of the shop file; nearer than this share is worth a look (common practice).
CLOSE = 1 / 3
# What to do about a rapid of both axes; from beside the part, along Z first would meet the end face.
AXES_APART, INTO_BORE = "move one axis after the other", "move X in front of the face first, then Z"
# Nearer to metal than this no rapid should end where the shop file says nothing (common practice, no source).
LEAST_CLEARANCE: dict[Units, float] = {"mm": 0.2, "in": 0.008}


class Rapids:
    """Notes rapids that meet metal."""

    def __init__(self, bench: Bench, touch: int, clearance: float | None, notebook: Notebook) -> None:
        """Look at rapids over a bench whose metal is still uncut; `touch` in h counts is taken for nothing.

        `clearance` is the shop's own, None where no shop file gives it.
        """
        self.bench, self.touch, self.notebook = bench, touch, notebook
        count = bench.increments.count
        self._clear = count(LEAST_CLEARANCE[bench.increments.units] if clearance is None else CLOSE * clearance)

    def look(self, motion: Motion, insert: Insert, metal: Metal, after: Motion | None = None) -> Sequence[Piece]:
        """Check a rapid: it must stay clear of all metal, even if it bends on the way; returns what it ran through.

        `after` is the move that comes next.
        """
        whole = _whole(motion, insert)
        pieces, box = swept(whole, insert), around(motion, insert)
        near = metal.top + insert.side.up * self._clear
        if box[1] >= near:
            return ()
        over = max(metal.above(piece) for piece in pieces)
        if over > self.touch:
            self._hit(motion, insert, over)
            return pieces
        if whole.x0 != whole.x1 and whole.z0 != whole.z1 and metal.above(box) > self.touch:
            bent = [piece for part in bent_way(whole) for piece in swept(part, insert)] if whole is motion else []
            over = max((metal.above(piece) for piece in bent), default=0)
            deep = self.notebook.height(over, insert.side) if over > self.touch else None
            into_bore = insert.side.hollow and not motion.x0_known
            bends(self.notebook, motion, deep, INTO_BORE if into_bore else AXES_APART)
        elif over >= 0 and self._slides(whole, insert):
            message = f"The rapid to {self.notebook.end(motion)} slides along the metal; go higher over it."
            self.notebook.caution(ProgramCode.NO_CLEARANCE, motion.line, message)
        elif over >= -self.touch and self._lands(whole, insert, after):
            message = (
                f"The rapid to {self.notebook.end(motion)} ends on a floor that is cut, and no cut goes on from there; "
                "stop above it, and go on at feed."
            )
            self.notebook.caution(ProgramCode.NO_CLEARANCE, motion.line, message)
        elif (gap := self._gap(whole, insert)) is not None:
            if gap <= self.touch:
                what = "on the metal with no clearance; stay a little off it"
            elif gap < insert.side.up * self._clear:
                told = self.notebook.height(gap, insert.side)
                what = f"only {told} above metal that stands; stay as far off as the clearance"
            else:
                return ()
            message = f"The rapid to {self.notebook.end(motion)} ends {what}."
            self.notebook.caution(ProgramCode.NO_CLEARANCE, motion.line, message)
        return ()

    def ends_told(self, u: int, insert: Insert) -> tuple[int, int]:
        """Where a rapid straight in at u, clear of all metal, may be said to end too near: from h, and below h."""
        land = self._land(u, insert)
        return land - self.touch, land + max(self.touch + 1, insert.side.up * self._clear)

    def _hit(self, motion: Motion, insert: Insert, over: int) -> None:
        """Name a rapid that runs into metal: from a start below the land, or on its way."""
        if self.notebook.has(ProgramCode.START_BELOW_LAND, motion.line):
            return
        known = motion.x0_known and motion.z0_known
        start = f"from {self.notebook.place(motion.x0, motion.z0)} " if known else ""
        way = f"{start}to {self.notebook.end(motion)}"
        # A bar's way through the wall, home or from where nobody said, has one end unknown, so its depth is not known.
        no_end = insert.side.hollow and (not motion.x0_known or (motion.home and motion.x0 != motion.x1))
        deep = "" if no_end else f"{self.notebook.height(over, insert.side)} deep "
        message = f"The rapid {way} runs {deep}into metal; go round it, or cut there at feed."
        self.notebook.stop(ProgramCode.RAPID_INTO_MATERIAL, motion.line, message)

    def _slides(self, motion: Motion, insert: Insert) -> bool:
        """True if a rapid goes sideways on the highest land of its way."""
        u0, h0 = insert.place(motion.x0, motion.z0)
        u1, h1 = insert.place(motion.x1, motion.z1)
        land = self.bench.land[insert.where].highest(min(u0, u1) + insert.left, max(u0, u1) + insert.right)
        return u0 != u1 and h0 == h1 and abs(h0 - land) <= self.touch

    def _lands(self, motion: Motion, insert: Insert, after: Motion | None) -> bool:
        """True if a rapid goes down onto a floor below the land that no cut deepens next, as one does after a peck."""
        (u, h), (_, h0) = insert.place(motion.x1, motion.z1), insert.place(motion.x0, motion.z0)
        if motion.cycle is not None or not h < min(h0, self._land(u, insert) - self.touch):
            return False
        end = motion._replace(x0=motion.x1, z0=motion.z1)
        if abs(max(map(self.bench.metal[insert.where].above, swept(end, insert)))) > self.touch:
            return False
        return after is None or after.kind == "rapid" or insert.place(after.x1, after.z1)[1] >= h

    def _land(self, u: int, insert: Insert) -> int:
        """The highest land under an insert at u."""
        return self.bench.land[insert.where].highest(u + insert.left, u + insert.right)

    def _gap(self, motion: Motion, insert: Insert) -> int | None:
        """How far above land that nothing has cut a rapid toward it ends, in h counts; None for any other rapid."""
        u, h = insert.place(motion.x1, motion.z1)
        _, h0 = insert.place(motion.x0, motion.z0)
        land = self._land(u, insert)
        stands = self.bench.metal[insert.where].highest(u + insert.left, u + insert.right) >= land - self.touch
        return abs(h - land) if h0 > h >= land - self.touch and stands else None


def bent_way(motion: Motion) -> list[Motion]:
    """The way of a rapid whose axes both go at one speed, each till it is there (common practice, no source)."""
    across, along = motion.x1 - motion.x0, motion.z1 - motion.z0
    far = min(abs(across), 2 * abs(along))
    x, z = motion.x0 + round(copysign(far, across)), motion.z0 + round(copysign(far / 2, along))
    return [motion._replace(x1=x, z1=z), motion._replace(x0=x, z0=z)]


def bends(notebook: Notebook, motion: Motion, deep: str | None, cure: str = AXES_APART) -> None:
    """Note a rapid of both axes past metal, which it meets so `deep` where it bends as most controls have it.

    Where one end is a place that nobody has said, no way past the metal is a safe one.
    """
    words = f"The rapid to {notebook.end(motion)} moves both axes past metal, and such rapids seldom run straight"
    if deep is not None:
        words += f": with both axes at one speed it runs {deep} into metal"
    elif motion.home or not (motion.x0_known and motion.z0_known):
        words += f": no block says where {'that is' if motion.home else 'it starts'}, so it may run into the metal"
    else:
        notebook.caution(ProgramCode.RAPID_BENDS, motion.line, f"{words}; {cure}.")
        return
    notebook.stop(ProgramCode.RAPID_BENDS, motion.line, f"{words}; {cure}.")


def _whole(motion: Motion, insert: Insert) -> Motion:
    """A motion whose start the program never said, begun where a reference point is: before the part and far out."""
    if motion.x0_known and motion.z0_known:
        return motion
    # A bar moved along one axis is taken to stand before the bore, one moved along both beside the part.
    alone = motion.x0 == motion.x1 or motion.z0 == motion.z1
    far_x = motion.x1 if insert.side.hollow and alone else AWAY
    return motion._replace(
        x0=motion.x0 if motion.x0_known else far_x,
        z0=motion.z0 if motion.z0_known else AWAY,
    )


def around(motion: Motion, insert: Insert) -> Piece:
    """The underside of all that a move may sweep, whichever way it goes between its ends."""
    motion = _whole(motion, insert)
    u0, h0 = insert.place(motion.x0, motion.z0)
    u1, h1 = insert.place(motion.x1, motion.z1)
    low = min(h0, h1)
    return min(u0, u1) + insert.left, low, max(u0, u1) + insert.right, low
