"""How a tool followed as a point turns metal: its feed and speed, of which only what all bear is known, its offset."""

from extractor.part import Units
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.judging.unsafe_speeds import cutting_speed, each_turn, plain, widest
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.vocabulary.acts import Act

# The largest nose radius of a turning insert. Its half is the most that handbooks feed it each turn; at more than all
# of it the edge passes metal by that stays (common practice, no source).
LARGEST_NOSE: dict[Units, float] = {"mm": 2.4, "in": 0.094}
# No metal is turned slower than so many m/min or ft/min; threads and reamers, which are, are left out (common practice,
# no source).
SLOWEST: dict[Units, float] = {"mm": 5.0, "in": 16.0}


class TurnedFeeds:
    """Notes feeds and speeds that no turning tool has, and cuts with no offset, each once for a station."""

    def __init__(self, bench: Bench, notebook: Notebook) -> None:
        """Look at moves over a bench."""
        self.bench, self.notebook = bench, notebook
        self._seen: set[tuple[object, ...]] = set()
        self._bare: set[int] = set()
        self._widest: dict[tuple[object, ...], Motion] = {}

    def look(self, motion: Motion) -> None:
        """Check a move that turns metal; a thread's feed is its lead, and so is that of a tap."""
        self._offset(motion)
        state = motion.station, motion.feed, motion.per_minute, motion.surface
        led = motion.thread or motion.foreign == Act.DRILLING.value
        if not led and motion.speed > 0:
            turned = motion.station, motion.speed, motion.surface, motion.clamp
            self._widest[turned] = max(self._widest.get(turned, motion), motion, key=self._across)
        if led or not motion.feed or motion.speed <= 0 or state in self._seen:
            return
        self._seen.add(state)
        units = self.bench.increments.units
        feed, most = each_turn(motion, self.bench), LARGEST_NOSE[units]
        if feed <= most / 2:
            return
        word = plain(self.bench.increments.feed_length(motion.feed), 6)
        message = (
            f"F{word} is read per {'minute' if motion.per_minute else 'revolution'}: that is "
            f"{plain(feed, 3 if units == 'mm' else 5)} {units} each turn of the tool in station {motion.station}, and "
            f"turning tools bear {most / 2:g} at most; check the feed mode and the decimal point."
        )
        if feed > most:
            self.notebook.stop(ProgramCode.FEED_TOO_GREAT, motion.line, message)
        else:
            self.notebook.caution(ProgramCode.FEED_UNUSUAL, motion.line, message)

    def close(self) -> None:
        """Note speeds so small that nothing is cut by them, on the greatest diameter that a tool turns at each.

        What works nearer to the axis than a nose is large turns nothing; it is a drill.
        """
        units = self.bench.increments.units
        for motion in self._widest.values():
            speed, across = cutting_speed(motion, self.bench), self._across(motion)
            if across > LARGEST_NOSE[units] and speed < SLOWEST[units]:
                message = (
                    f"The tool in station {motion.station} cuts {across:g} across at {plain(speed, 1)} "
                    f"{'m' if units == 'mm' else 'ft'}/min: check the digits of S and its clamp."
                )
                self.notebook.caution(ProgramCode.SPEED_UNUSUAL, motion.line, message)

    def _across(self, motion: Motion) -> float:
        """The greatest diameter of a move, in drawing units."""
        return widest(motion, self.bench)

    def _offset(self, motion: Motion) -> None:
        """A cut with no offset in force; some controls take one by the station itself (common practice)."""
        if motion.offset or not motion.station or motion.station in self._bare:
            return
        self._bare.add(motion.station)
        message = (
            f"The tool in station {motion.station} cuts with no offset in force, so it may stand somewhere else; call "
            "it with its offset."
        )
        self.notebook.caution(ProgramCode.OFFSET, motion.line, message)
