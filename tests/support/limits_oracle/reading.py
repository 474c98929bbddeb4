"""Limits from what a dimension prints, as a person with the print in hand reads them.

ISO 14405-1 (from memory): a linear size with deviations lies from nominal + lower to nominal + upper deviation.
A distance has the same reading: it is positive, and a deviation of it is one of the distance, not of a coordinate.
"""

import re

from .standards import fit, general
from .values import Limits, Mark

NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
SIGNED = rf"(?:[+-]\s*{NUMBER}|0(?:\.0*)?|\.0+)"
COUNT = re.compile(r"^\s*\d+\s*[xX]\s+")
SIGNS = ("%%c", "%%C", "\u2300", "\u00d8", "R")


def shown(mark: Mark) -> str:
    """What stands on the paper: the override with the measured size in it, and what the variables add."""
    size = f"{mark.drawn:.{mark.decimals}f}"
    variables = mark.variables
    if variables.get("dimlim"):
        size = f"{mark.drawn + variables['dimtp']:.6f}/{mark.drawn - variables['dimtm']:.6f}"
    elif variables.get("dimtol"):
        size = f"{size} {variables['dimtp']:+.6f}/{-variables['dimtm']:+.6f}"
    return (mark.text or "<>").replace("<>", size)


def plain(text: str) -> str:
    """The words without the signs of formatted text."""
    text = re.sub(r"\\S([^;^]*)\^\s*([^;]*);", r" \1/\2", text)
    text = re.sub(r"\\[AHWC][^;]*;", "", text).replace("{", "").replace("}", "")
    text = text.replace("%%p", "\u00b1").replace("%%P", "\u00b1").replace(",", ".")
    text = COUNT.sub("", text)
    for sign in SIGNS:
        text = text.replace(sign, "")
    return text.strip()


def deviations(text: str, inch: bool) -> tuple[float, float, float, str] | None:
    """(nominal, lower, upper, source) that a text gives; None where it gives a bare size."""
    if found := re.fullmatch(rf"({NUMBER})\s*\u00b1\s*({NUMBER})", text):
        size, spread = map(float, found.groups())
        return size, -spread, spread, "deviation"
    if found := re.match(rf"({NUMBER})\s*(H|h|js|JS)(\d+)\b", text):
        size = float(found[1])
        assert not inch, "fits are drawn in mm only"
        return size, *fit(found[2], int(found[3]), size), "fit"
    if found := re.fullmatch(rf"({NUMBER})\s+({SIGNED})\s*[/ ]\s*({SIGNED})", text):
        size, one, other = (float(word.replace(" ", "")) for word in found.groups())
        return size, min(one, other), max(one, other), "deviation"
    if found := re.fullmatch(rf"({NUMBER})\s*/\s*({NUMBER})", text):
        one, other = sorted(map(float, found.groups()))
        return one, 0.0, other - one, "deviation"
    return None


def limits(mark: Mark, units: str, note: str, tolerance: float) -> Limits:
    """The limits of a dimension: its own, those of a general class on the sheet, or what the shop allows."""
    text = plain(shown(mark))
    if own := deviations(text, units == "in"):
        size, low, high, source = own
        return Limits(low=size + low, high=size + high, source=source, nominal=size)
    if found := re.fullmatch(rf"({NUMBER})\s*MAX", text):
        return Limits(low=0.0, high=float(found[1]), source="deviation", nominal=float(found[1]))
    size = float(text)
    spread = general(note, size, mark.radius) if note else None
    source = "class" if spread else "shop"
    if mark.radius and not spread:
        return Limits(low=0.0, high=1e9, source="none", nominal=size)
    spread = spread or tolerance
    return Limits(low=size - spread, high=size + spread, source=source, nominal=size)
