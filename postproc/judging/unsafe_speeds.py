"""Cutting speeds held against the shop and its material: too great, too small, meant in the other mode, clamped hard.

What is too great depends on the material: `Material.fastest` is the greatest speed at which such metal is grooved.
"""

from math import pi

from planner.cutting import METRE_PER_FOOT, PER_SPEED_UNIT, spindle_speed
from planner.shop import Shop
from postproc.codes import ProgramCode
from postproc.cutting.stock import Bench
from postproc.motion import Motion
from postproc.reading.notebook import Notebook
from postproc.vocabulary.acts import Act

# A feed or a speed so many times the shop's own is a slipped decimal point, so many times is worth a look.
SLIPPED, ODD = 8.0, 3.0
# Where the material's greatest speed is not known, so many times the shop's own (the table of materials: 1.4 to 2.5).
GREATEST = 2.0
# A shop that cuts faster than the table says has chosen its insert for that; so much over its own is no slip.
OWN = 1.25
# So many times the greatest speed no edge lasts a part: carbide lasts a fifth as long at half as much again (Taylor's
# exponent 0.25 of carbide, from memory: 1.5 ** -4).
BURNS = 1.5
# A cutting speed so many times below the shop's own only rubs, or S was meant in the other mode.
SLOW = 5.0
# An S in rev/min this near to the usual cutting speed, as a share of it, was meant as one.
MEANT = 0.3
# So many times below the usual speed, such an S is worth a look; nearer, a shop may well turn so (common practice).
WORTH_A_LOOK = 1.5


def check_speed(motion: Motion, begun: int, bench: Bench, shop: Shop, notebook: Notebook) -> None:
    """Note a speed far from the shop's own; where the material is only a built-in guess, it is never a stop.

    `begun`: the x from which the whole plunge comes down; what is slow there is too slow, and what is cut now too fast.
    """
    whole = motion._replace(x0=begun)
    tool, units = bench.tool(motion), bench.increments.units
    usual = max(shop.material.cutting_speed, 0.0 if tool is None else tool.cutting_speed)
    if not motion.turning or motion.speed <= 0 or not motion.placed:
        return
    asked, most, unit = _asked(motion, bench), _asked(whole, bench), "m/min" if units == "mm" else "ft/min"
    if "cutting_speed" in shop.unsaid:
        if _meant(whole, most, usual, ODD):
            message = f"The cutting speed is {most:.0f} {unit}: {_other_mode(motion, notebook)}."
            notebook.caution(ProgramCode.SPEED_MODE, motion.line, message)
        elif cutting_speed(motion, bench) * ODD < asked and _clamped_hard(motion, shop):
            message = (
                f"S asks for {asked:.0f} {unit}, but the clamp of {motion.clamp} rev/min holds it at "
                f"{cutting_speed(motion, bench):.0f}: check the digits of both."
            )
            notebook.caution(ProgramCode.SPEED_UNUSUAL, motion.line, message)
        elif asked > ODD * usual or most * SLIPPED < usual:
            odd = asked if asked > ODD * usual else most
            message = (
                f"The cutting speed is {odd:.0f} {unit}, and {usual:g} is usual for {shop.material.name}: check the "
                "digits of S, or give the cutting speed in the shop file."
            )
            notebook.caution(ProgramCode.SPEED_UNUSUAL, motion.line, message)
        return
    given = f"; the shop file gives {usual:g} for {shop.material.name}"
    greatest, turned = greatest_speed(usual, shop), _turned(motion, bench, shop)
    held = f" (the spindle's limit holds it at {turned:.0f})" if turned < asked else ""
    if asked > SLIPPED * usual or turned > BURNS * greatest:
        message = f"The cutting speed is {asked:.0f} {unit}{given}, and at most {greatest:.0f} is usual{held}: lower S."
        notebook.stop(ProgramCode.SPEED_TOO_GREAT, motion.line, message)
    elif _metric(motion, usual, bench):
        message = f"The cutting speed is {asked:.0f} {unit}{given}: S looks like m/min, and the program is in inches."
        notebook.caution(ProgramCode.SPEED_UNUSUAL, motion.line, message)
    elif asked > greatest:
        message = f"The cutting speed is {asked:.0f} {unit}{given}, and at most {greatest:.0f} is usual{held}: check S."
        notebook.caution(ProgramCode.SPEED_UNUSUAL, motion.line, message)
    else:
        _slow(whole, (most, cutting_speed(whole, bench)), usual, f"{unit}{given}", shop, notebook)


def greatest_speed(usual: float, shop: Shop) -> float:
    """The greatest usual cutting speed in the shop's material where its own for the insert is `usual`."""
    fastest = shop.material.fastest
    return max(fastest, OWN * usual) if fastest else GREATEST * usual


def _turned(motion: Motion, bench: Bench, shop: Shop) -> float:
    """The cutting speed that comes of S: under surface speed no spindle turns faster than its clamp and its machine."""
    asked, limits = _asked(motion, bench), [motion.clamp] if motion.clamp else []
    if "max_rpm" not in shop.unsaid:
        limits.append(shop.machine.max_rpm)
    return min([asked, *(_per_turn(motion, bench) * limit for limit in limits if motion.surface)])


def _slow(motion: Motion, speeds: tuple[float, float], usual: float, told: str, shop: Shop, notebook: Notebook) -> None:
    """A speed that only rubs, and what most likely makes it so; `speeds`: what S asks for, and what a clamp leaves."""
    asked, speed = speeds
    message = f"The cutting speed is {speed:.0f} {told}"
    if speed * ODD < usual and _clamped_hard(motion, shop):
        why = f"the clamp of {motion.clamp} rev/min holds it; check its digits"
        notebook.stop(ProgramCode.SPEED_TOO_SMALL, motion.line, f"{message}: {why}.")
    elif _meant(motion, speed, usual, WORTH_A_LOOK):
        told = f"{message}: {_other_mode(motion, notebook)}."
        (notebook.stop if speed * ODD < usual else notebook.caution)(ProgramCode.SPEED_MODE, motion.line, told)
    elif asked * SLIPPED < usual:
        notebook.stop(ProgramCode.SPEED_TOO_SMALL, motion.line, f"{message}: check the digits of S.")
    elif asked * SLOW < usual:
        notebook.caution(ProgramCode.SPEED_UNUSUAL, motion.line, f"{message}.")


def _meant(motion: Motion, speed: float, usual: float, times: float) -> bool:
    """True if S in rev/min looks like a surface speed, and cuts so many times slower than one."""
    return not motion.surface and speed * times < usual and abs(motion.speed - usual) <= MEANT * usual


def _metric(motion: Motion, usual: float, bench: Bench) -> bool:
    """True if a surface speed of a program in inches looks like the usual one in m/min."""
    metric = usual * METRE_PER_FOOT
    return bench.increments.units == "in" and motion.surface and abs(motion.speed - metric) <= MEANT * metric


def _other_mode(motion: Motion, notebook: Notebook) -> str:
    """That S was most likely meant as a surface speed."""
    return (
        f"S{plain(motion.speed)} is read as rev/min ({notebook.word(Act.RPM)}) and looks like a surface speed; "
        f"say {notebook.word(Act.SURFACE)}"
    )


def _asked(motion: Motion, bench: Bench) -> float:
    """The cutting speed that S asks for, on the greatest diameter of a move."""
    return motion.speed if motion.surface else _per_turn(motion, bench) * motion.speed


def cutting_speed(motion: Motion, bench: Bench) -> float:
    """The same, as far as a clamp allows it."""
    asked = _asked(motion, bench)
    return min(asked, _per_turn(motion, bench) * motion.clamp) if motion.surface and motion.clamp else asked


def _per_turn(motion: Motion, bench: Bench) -> float:
    """Cutting speed for each turn a minute, on the greatest diameter of a move."""
    return pi * widest(motion, bench) / PER_SPEED_UNIT[bench.increments.units]


def widest(motion: Motion, bench: Bench) -> float:
    """The greatest diameter of a move, in drawing units; that of its end where the start was never said."""
    return bench.increments.length(max(abs(motion.x0) if motion.x0_known else 0, abs(motion.x1)))


def each_turn(motion: Motion, bench: Bench) -> float:
    """Feed for each turn, on the greatest diameter of a motion where its feed is per minute."""
    word, turns = bench.increments.feed_length(motion.feed or 0), motion.speed
    if motion.surface:
        turns = spindle_speed(motion.speed, widest(motion, bench), motion.clamp or None, bench.increments.units)
    return word / turns if motion.per_minute else word


def _clamped_hard(motion: Motion, shop: Shop) -> bool:
    """True if a clamp so far below what the machine turns is in force that a digit was left out of it."""
    return bool(motion.surface and motion.clamp and motion.clamp * SLIPPED < shop.machine.max_rpm)


def plain(value: float, digits: int = 3) -> str:
    """A number as a setter writes it: plain decimals, at most `digits` of them.

    >>> plain(0.000088), plain(0.001), plain(0.25), plain(300000.0), plain(0.0)
    ('less than 0.001', '0.001', '0.25', '300000', '0')
    """
    if 0 < value < 10**-digits:
        return f"less than {10**-digits:.{digits}f}"
    return f"{value:.{digits}f}".rstrip("0").rstrip(".")
