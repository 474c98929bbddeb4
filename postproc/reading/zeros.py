"""The zero that places count from: work offsets, and where an old program says that the tool stands (G50 X Z)."""

from collections.abc import Mapping, Sequence

from postproc.codes import ProgramCode
from postproc.motion import Motion
from postproc.reading.log import Log
from postproc.reading.meanings import act_of
from postproc.reading.run import ZeroSetting
from postproc.reading.words import ParsedProgram
from postproc.vocabulary.acts import Act
from postproc.vocabulary.numbers import decimal


def check_zeros(parsed: ParsedProgram, g_words: Mapping[int, Act], usual: str, log: Log) -> None:
    """Say which work offset is used if it isn't the usual one, and stop if there are two.

    `usual` is the word of the first, which is in force where a program names none (common practice).
    """
    found = _said_zeros(parsed, g_words)
    for name, line in [*found.items()][:1]:
        log.line = line
        if name != usual:
            message = (
                f"The program works from {name}, an offset set at the machine; see that it puts Z0 at the front face."
            )
            log.caution(ProgramCode.WORK_OFFSET, message)
    for name, line in [*found.items()][1:2]:
        log.line = line
        pair = f"{next(iter(found))} and from {name}"
        words = f"The program works from {pair}; how far they are apart is not said, so use one."
        log.stop(ProgramCode.ZERO_SHIFT, words)


def _said_zeros(parsed: ParsedProgram, g_words: Mapping[int, Act]) -> Mapping[str, int]:
    """The work offsets of a program, each with the first line that names it."""
    found: dict[str, int] = {}
    zeros = {text for text, word in parsed.g_words.items() if act_of(word, g_words) is Act.WORK_OFFSET}
    for block in parsed.blocks if zeros else ():
        for word in block.words:
            if word.address != "G" or word.text not in zeros:
                continue
            number = next((f" {other}" for other in block.words if other.address == "P"), "")
            if word.whole is not None:
                found.setdefault(f"G{word.whole}", block.line)
            elif number:
                found.setdefault(f"G{word.text}{number}", block.line)
    return found


def check_settings(log: Log, per_length: int) -> None:
    """Stop where a program says that the tool stands at a place, and always comes back to one that is a slip of it.

    Else a caution where it ends at another place. The tool is brought back to where it stood when its place was said
    (common practice). `per_length`: counts in a unit of length.
    """
    ends = [*(setting.motions for setting in log.zeros[1:]), len(log.motions)]
    for setting, end in zip(log.zeros, ends, strict=False):
        slip = _slip(setting, log.motions[setting.motions : end])
        if slip is not None:
            log.line = setting.line
            message = (
                "This block says where the tool stands, and the program comes back to another place that differs from "
                f"it by a slip of {slip} alone; correct one of the two."
            )
            log.stop(ProgramCode.ZERO_SLIP, message)
    told = (ProgramCode.ZERO_SHIFT, ProgramCode.ZERO_SLIP)
    if log.zeros and all(finding.code not in told for finding in log.findings):
        _ends_elsewhere(log, per_length)


def _ends_elsewhere(log: Log, per_length: int) -> None:
    """A caution where the last move ends off the place said; what comes to the reference point starts afresh."""
    end = log.motions[-1] if log.motions else None
    if end is None or end.home or any(motion.home for motion in log.motions[: log.zeros[-1].motions]):
        return
    axes = (
        ("X", next((one.x for one in log.zeros if one.x is not None), None), end.x1, end.x0_known or end.x0 != end.x1),
        ("Z", next((one.z for one in log.zeros if one.z is not None), None), end.z1, end.z0_known or end.z0 != end.z1),
    )
    off = [(axis, said, there) for axis, said, there, known in axes if known and said is not None and said != there]
    if off:
        log.line = log.zeros[0].line
        start = " ".join(axis + decimal(said, per_length) for axis, said, _ in off)
        stop = " ".join(axis + decimal(there, per_length) for axis, _, there in off)
        message = (
            f"This block says that the tool stands at {start}, and the program ends at {stop}: started again from "
            "there, all its cuts lie off by the difference; end where it begins."
        )
        log.caution(ProgramCode.ZERO_SLIP, message)


def _slip(setting: ZeroSetting, motions: Sequence[Motion]) -> str | None:
    """The axis in which the places that rapids come back to are a slip of a setting; None where there is no slip."""
    if setting.x is None or setting.z is None:
        return None
    places = {(motion.x1, motion.z1) for motion in motions if motion.kind == "rapid" and not motion.home}
    if (setting.x, setting.z) in places:
        return None
    for x, z in sorted(places):
        if z == setting.z and slipped(setting.x, x):
            return "X"
        if x == setting.x and slipped(setting.z, z):
            return "Z"
    return None


def slipped(one: int, other: int) -> bool:
    """True if two numbers differ by a shifted point, a sign or a single digit.

    >>> slipped(20_000, 200_000), slipped(120_000, -120_000), slipped(120_000, 150_000), slipped(120_000, 250_000)
    (True, True, True, False)
    """
    a, b = str(abs(one)), str(abs(other))
    if one == other:
        return False
    if a.rstrip("0") == b.rstrip("0"):
        return True
    return len(a) == len(b) and sum(p != q for p, q in zip(a, b, strict=True)) == 1 and one * other > 0
