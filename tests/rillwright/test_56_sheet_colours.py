"""Colours of the sheet: readable, and the sets told apart by people who see colours differently.

Contrast: Web Content Accessibility Guidelines 2.2, definition of contrast ratio (text 4.5 : 1, graphics 3 : 1).
Colour vision: Machado, Oliveira, Fernandes 2009, matrices of full deficiency on linear sRGB. Distance: OKLab, in
hundredths; common practice takes 2 as just noticeable, no source for the 12 asked of neighbouring patterns here.
"""

import re
from itertools import combinations

import numpy as np
import pytest

from rillwright.jobsheet.sheet import page_parts

STYLE = str(page_parts("")["style"])
LIGHT = STYLE.split("@media", 1)[0]
DARK = STYLE.split("prefers-color-scheme: dark", 1)[1].split("}", 1)[0]
SETS = [f"set-{n}" for n in range(1, 7)]

SEES = {
    "usual": np.eye(3),
    "no red": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "no green": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    "no blue": np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
}
TO_CONES = np.array(
    [
        [0.4122214708, 0.5363325363, 0.0514459929],
        [0.2119034982, 0.6806995451, 0.1073969566],
        [0.0883024619, 0.2817188376, 0.6299787005],
    ]
)
TO_LAB = np.array(
    [
        [0.2104542553, 0.7936177850, -0.0040720468],
        [1.9779984951, -2.4285922050, 0.4505937099],
        [0.0259040371, 0.7827717662, -0.8086757660],
    ]
)


def colours(block):
    return dict(re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6})", block))


PALETTES = {"light": colours(LIGHT), "dark": colours(LIGHT) | colours(DARK)}


def linear(code):
    values = np.array([int(code[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def contrast(one, other):
    light, dark = sorted((linear(c) @ [0.2126, 0.7152, 0.0722] for c in (one, other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def lab(code, sees):
    return TO_LAB @ np.cbrt(TO_CONES @ np.clip(SEES[sees] @ linear(code), 0, 1)) * 100


def test_the_contrast_of_black_on_white_is_the_known_one():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("mode", PALETTES)
@pytest.mark.parametrize(
    ("front", "behind"),
    [
        ("ink", "card"),
        ("ink", "page"),
        ("soft", "card"),
        ("soft", "faint"),
        ("soft", "page"),
        ("good", "good-bg"),
        ("bad", "bad-bg"),
        ("warn", "warn-bg"),
        ("note", "note-bg"),
        ("ink", "good-bg"),
        ("ink", "warn-bg"),
        ("lit-ink", "lit"),
        ("on-brand", "brand"),
        ("on-brand-soft", "brand"),
        ("card", "edge"),
    ],
)
def test_words_stand_out(mode, front, behind):
    palette = PALETTES[mode]
    assert contrast(palette[front], palette[behind]) >= 4.5


@pytest.mark.parametrize("mode", PALETTES)
def test_every_set_stands_out_from_the_paper(mode):
    palette = PALETTES[mode]
    assert min(contrast(palette[s], palette["card"]) for s in SETS) >= 3


@pytest.mark.parametrize("mode", PALETTES)
@pytest.mark.parametrize("sees", SEES)
def test_sets_are_told_apart_by_everyone(mode, sees):
    palette = PALETTES[mode]
    gaps = [np.linalg.norm(lab(palette[a], sees) - lab(palette[b], sees)) for a, b in combinations(SETS, 2)]
    assert min(gaps) >= 12


def test_each_colour_meets_each_pattern_in_the_style():
    assert all(f".set-{n}.pat-{m} .area" in STYLE for n in range(1, 7) for m in range(1, 7))
