"""Which material a job is planned for: the shop file's and the drawing's compared, and what neither says.

A name that stands in the shop file is the shop's; else the drawing's is taken; else the built-in one, with a caution. A
name that is not known gets no figures: there the plan stops, unless the shop file gives speed and force itself.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from extractor.finding import Finding, Level
from extractor.part import MaterialNote, Part, Units
from extractor.printable import printable
from planner.codes import PlanCode
from planner.settings.material_known import is_name, known, says_hard, squeezed
from planner.settings.materials import DEFAULT, DEFAULT_NAME, surface_speed
from planner.shop import Material, Shop, Told, Tool

# What a material is called that the shop file gives figures for and no name.
NAMELESS = "material without a name"
FEED_STEPS: dict[Units, tuple[float, float]] = {"mm": (0.005, 0.01), "in": (0.0001, 0.0005)}
"""A feed that was worked out is a round figure: a multiple of the first, from twenty of them on of the second."""


Alone = Literal["soft", "hard"]
"""Of a sheet on which no word names the material: whether its notes speak of hard metal."""


def round_feed(feed: float, units: Units) -> float:
    """The round figure nearest to a feed.

    >>> round_feed(0.064, "mm"), round_feed(0.144, "mm"), round_feed(0.0024, "in"), round_feed(0.001, "mm")
    (0.065, 0.14, 0.0025, 0.005)
    """
    fine, coarse = FEED_STEPS[units]
    step = fine if feed < 20 * fine else coarse
    return round(step * max(1, round(feed / step)), 6)


def settled_for(part: Part, shop: Shop) -> tuple[Shop, tuple[Finding, ...]]:
    """`settled` by what a part's sheet calls the material, else by texts that are the name of one by themselves.

    A number alone is none on a sheet in inches, where sizes have as many decimals as the numbers of steels.
    """
    if part.materials:
        return settled(shop, part.materials)
    told = [note for note in part.lines if part.units == "mm" or any(map(str.isalpha, note.text))]
    hard = any(says_hard(note.text) for note in part.lines)
    return settled(shop, [note for note in told if is_name(note.text)], alone="hard" if hard else "soft")


def settled(
    shop: Shop, notes: Sequence[MaterialNote] = (), *, alone: Alone | None = None
) -> tuple[Shop, tuple[Finding, ...]]:
    """The shop with the material that a job is planned for, and the findings about it; once settled it stays so.

    `alone`: nothing on the sheet says of the notes that they name the material; whether it speaks of hard metal.
    """
    told = shop.told
    if told is None:
        return shop, ()
    findings = tuple(_findings(told, notes, shop.units, alone))
    name = told.name or (None if alone and not _taken_alone(notes, alone) else _one(notes))
    unsaid = shop.unsaid - {"material"} if name or told.enough else shop.unsaid
    tools = tuple(_fed(tool, name, shop) for tool in shop.tools)
    material = material_of(name, told, shop.units)
    return replace(shop, material=material, tools=tools, unsaid=unsaid, told=None), findings


def material_of(name: str | None, told: Told, units: Units) -> Material:
    """A material by its name, the shop file's own figures before those of the table."""
    found = known(name) if name else None
    family = found.family if found else DEFAULT
    # Of a material that nobody can tell only the shop's own figures count.
    told_apart = found is not None or not (name or told.enough)
    speed, force, exponent = told.cutting_speed, told.specific_cutting_force, told.force_exponent
    return Material(
        name or (NAMELESS if told.enough else DEFAULT_NAME),
        surface_speed(family.speed, units == "in") if speed is None else speed,
        family.kc11 if force is None else force,
        family.mc if exponent is None else exponent,
        family.group if told_apart else "",
        surface_speed(family.fast, units == "in") if told_apart else 0.0,
    )


def _fed(tool: Tool, name: str | None, shop: Shop) -> Tool:
    """A tool with the feed for a material, where the shop file gives it none."""
    found = known(name) if name else None
    if found is None or f"{tool.name} feed" not in shop.unsaid or found.family.feed == 1.0:
        return tool
    return replace(tool, feed=round_feed(tool.feed * found.family.feed, shop.units))


def _one(notes: Sequence[MaterialNote]) -> str | None:
    """The material that a drawing names, None for none and where its notes differ."""
    alike = all(same_material(notes[0].text, note.text) for note in notes)
    return notes[0].text if notes and alike else None


def same_material(one: str, other: str) -> bool:
    """True if two names may mean one material; names that are not known must be the same."""
    first, second = known(one), known(other)
    if first is None or second is None:
        return squeezed(one) == squeezed(other)
    return first.agrees(second)


def _findings(told: Told, notes: Sequence[MaterialNote], units: Units, alone: Alone | None) -> Iterator[Finding]:
    """What must be said of the material."""
    if told.name:
        yield from _of_the_shop(told, told.name, notes)
    elif notes and alone:
        yield from _of_names_alone(told, notes, units, alone)
    elif notes:
        yield from _of_the_drawing(told, notes)
    elif not told.enough:
        yield _assumed("Neither the drawing nor the shop file names a material", units)


def _taken_alone(notes: Sequence[MaterialNote], alone: Alone) -> bool:
    """True where one material alone may be meant, cut no faster than the one that is assumed else.

    What is cut faster may be that of a coating, a ring or a cap; where the sheet speaks of hard metal, it may be that.
    """
    name = _one(notes)
    found = known(name) if name else None
    return found is not None and alone == "soft" and found.family.speed <= DEFAULT.speed


def _of_names_alone(told: Told, notes: Sequence[MaterialNote], units: Units, alone: Alone) -> Iterator[Finding]:
    """That a text was taken for the material, or which may have been meant where none was."""
    if told.enough:
        return
    if not _taken_alone(notes, alone):
        names = list(dict.fromkeys(shown(note.text) for note in notes))
        what = f"{' and '.join(names)} on the drawing may {'each ' if len(names) > 1 else ''}be the material"
        hard = ", and a note there speaks of hard metal" if alone == "hard" else ""
        yield replace(_assumed(f"{what}, though nothing says so{hard}", units), at=notes[0].at)
        return
    message = (
        f"{shown(notes[0].text)} stands on the drawing by itself and was taken for the material, as nothing there "
        "names one."
    )
    yield Finding(Level.NOTE, PlanCode.MATERIAL_ALONE, message, at=notes[0].at)


def _assumed(why: str, units: Units) -> Finding:
    """The caution for a material that nobody named."""
    speed, unit = surface_speed(DEFAULT.speed, units == "in"), "m/min" if units == "mm" else "ft/min"
    message = (
        f"{why}: {DEFAULT_NAME} is assumed, at {speed:g} {unit}; give the material in the shop file before anything is "
        "cut."
    )
    return Finding(Level.CAUTION, PlanCode.MATERIAL_ASSUMED, message)


def _of_the_shop(told: Told, name: str, notes: Sequence[MaterialNote]) -> Iterator[Finding]:
    """What is wrong with a material that the shop file names, or with it beside the drawing's."""
    if known(name) is None and not told.enough:
        yield _unknown(f"The material {shown(name)} of the shop file is not known here")
    for note in notes:
        if not same_material(name, note.text):
            message = (
                f"The drawing names the material {shown(note.text)} and the shop file {shown(name)}: the plan is for "
                "that of the shop file; see which one is in the machine."
            )
            yield Finding(Level.CAUTION, PlanCode.MATERIALS_DIFFER, message, at=note.at)


def _of_the_drawing(told: Told, notes: Sequence[MaterialNote]) -> Iterator[Finding]:
    """What is wrong with a material that only the drawing names."""
    if told.enough:
        return
    if _one(notes) is None:
        names = " and ".join(dict.fromkeys(shown(note.text) for note in notes))
        yield replace(_unknown(f"The drawing names more than one material, {names}"), at=notes[0].at)
    elif known(notes[0].text) is None:
        yield replace(_unknown(f"The material {shown(notes[0].text)} of the drawing is not known here"), at=notes[0].at)


def _unknown(what: str) -> Finding:
    """The stop for a material that has no figures."""
    message = (
        f"{what}: give its cutting_speed and specific_cutting_force in the shop file's [material], or name one that is "
        "known."
    )
    return Finding(Level.STOP, PlanCode.MATERIAL_UNKNOWN, message)


def shown(name: str) -> str:
    """A name from outside, on one line and of bounded length."""
    return printable(name)[:60].strip()
