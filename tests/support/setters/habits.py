"""How setters write: twenty of them with their habits, and habits mixed at random (common practice, no source)."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Habits:
    """One setter's ways.

    number: N words ("none", "ten", "five", "four", "tool", "one"). points: "point" 3., "zero" 3.0, "three" 3.000,
    "short" .5. tcode: T0303 or T303. modal: leaves out what is in force. uw: increments. sub: a subprogram for each
    row ("L" count, "packed" count, "once" per groove). speed: "css" with a clamp, or "rpm". home: "place", "g28",
    "g28split", "g53". wide: order of the plunges of a wide groove. form: "row" one cycle for all, "each" a cycle a
    groove, "hand" peck by peck, "nopeck". approach: Z before X, X before Z, or both at once.
    """

    number: str = "none"
    spaces: bool = True
    points: str = "point"
    gzero: bool = True
    tcode: str = "four"
    lower: bool = False
    modal: bool = False
    uw: bool = False
    g91: bool = False
    sub: str = "none"
    speed: str = "css"
    home: str = "place"
    coolant: str = "M08"
    comments: str = "some"
    skip: bool = False
    dwell: str = "none"
    wide: str = "far"
    form: str = "row"
    finish: bool = False
    approach: str = "zx"
    header: str = "plain"
    end: str = "M30"
    percent: bool = True
    eol: str = "\n"


TWENTY = {
    "old hand": Habits(number="ten", points="zero"),
    "tape saver": Habits(
        spaces=False, gzero=False, points="short", modal=True, comments="none", form="each", coolant="M8"
    ),
    "apprentice": Habits(number="five", points="three", comments="many", form="hand", approach="xz", dwell="P"),
    "incremental": Habits(uw=True, form="each", modal=True, home="g28", wide="near"),
    "sub L": Habits(sub="L", form="hand", number="tool", header="safety", home="g28split", comments="many"),
    "sub packed": Habits(sub="packed", form="hand", gzero=False, modal=True, spaces=False, points="short"),
    "sub once": Habits(sub="once", form="hand", uw=True, dwell="U", number="one", comments="none"),
    "half widths": Habits(wide="halves", form="each", number="four", speed="rpm", dwell="X"),
    "ribs": Habits(wide="centre", form="hand", modal=True, number="ten", speed="rpm"),
    "finisher": Habits(finish=True, form="hand", wide="centre", approach="xz", dwell="U", header="safety"),
    "plain fast": Habits(
        form="nopeck", modal=True, gzero=False, speed="rpm", header="minimal", coolant="", comments="none"
    ),
    "lower case": Habits(lower=True, comments="semi", points="zero", percent=False, end="M2"),
    "offset user": Habits(header="offset", home="g53", approach="both", number="tool", skip=True),
    "diagonal": Habits(approach="both", form="each", wide="near", points="short", modal=True),
    "reference point": Habits(home="g28", header="safety", tcode="three", skip=True, end="M02"),
    "other line ends": Habits(eol="\r\n", number="ten", points="three"),
    "finisher 2": Habits(finish=True, modal=True, uw=True, comments="many", home="g28split"),
    "G91": Habits(g91=True, form="hand", number="ten", points="zero", dwell="X"),
    "terse": Habits(
        spaces=False, gzero=False, modal=True, comments="none", percent=False, header="minimal", end="M2", speed="rpm"
    ),
    "wordy": Habits(
        comments="many", points="three", number="four", form="hand", approach="xz", wide="halves", dwell="X", skip=True
    ),
}
CHOICES = {
    "number": ["none", "ten", "five", "four", "tool", "one"],
    "spaces": [True, True, False],
    "points": ["point", "zero", "three", "short"],
    "gzero": [True, False],
    "tcode": ["four", "four", "three"],
    "lower": [False] * 9 + [True],
    "modal": [True, False],
    "uw": [False, False, True],
    "g91": [False] * 4 + [True],
    "sub": ["none", "none", "L", "packed", "once"],
    "speed": ["css", "css", "rpm"],
    "home": ["place", "place", "g28", "g28split", "g53"],
    "coolant": ["M08", "M8", ""],
    "comments": ["none", "some", "many", "semi"],
    "skip": [False] * 4 + [True],
    "dwell": ["none", "none", "P", "X", "U"],
    "wide": ["far", "near", "centre", "halves"],
    "form": ["row", "row", "each", "hand", "nopeck"],
    "finish": [False] * 3 + [True],
    "approach": ["zx", "xz", "both"],
    "header": ["plain", "safety", "minimal", "offset"],
    "end": ["M30", "M02", "M2"],
    "percent": [True, True, False],
    "eol": ["\n", "\n", "\r\n"],
}


def mixed(rng):
    """Habits mixed at random."""
    return Habits(**{name: rng.choice(values) for name, values in CHOICES.items()})
