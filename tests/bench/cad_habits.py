"""What offices do to a laid-out page besides: tolerances, notes at leaders, pens, dimensions taken apart, a false size.

It changes the plain data of a page (see cad_layout.py); `cad_finish.py` puts that into a page that is drawn already.
"""

import random
from dataclasses import dataclass, field

from cad_desk import CadDesk
from cad_parts import CadRing

FALSE_BY = {"mm": 0.5, "in": 0.025}
"""By how much a false size differs: more than any tolerance printed here."""


@dataclass
class CadHabits:
    """What was done: how the export is finished, and the false size if there is one (its drawn and printed values)."""

    pens: str = "plain"
    exploded: bool = False
    strokes: bool = False
    false: tuple[float, float] | None = None
    about: list[str] = field(default_factory=list)


def take_up(desk: CadDesk, rng: random.Random, view: str) -> CadHabits:
    """Change the page at random. `view`: the name of the view that is dimensioned."""
    done = CadHabits(pens=rng.choice(("plain", "plain", "layers", "entities", "widths")))
    if desk.shape.units == "mm" and desk.factor == 1.0:
        _tolerances(desk, rng, view, done)
    if rng.random() < 0.5:
        _notes(desk, rng, view, done)
    if rng.random() < 0.12:
        _false_size(desk, rng, view, done)
    if desk.dimensions and rng.random() < 0.3:
        done.exploded = True
        done.strokes = rng.random() < 0.3
        done.about.append("strokes" if done.strokes else "exploded")
    done.about.append(done.pens)
    return done


def _tolerances(desk: CadDesk, rng: random.Random, view: str, done: CadHabits) -> None:
    """Symmetric ones that the program writes itself; deviations, limits and fits typed over its text."""
    for one in desk.dimensions:
        if one["view"] != view or rng.random() > 0.4:
            continue
        if not one["text"]:
            one["tolerance"] = rng.choice((0.02, 0.05, 0.1))  # the program writes it behind its own text
            done.about.append("own tolerance")
        elif one["text"][0] in "⌀Ø" and one["text"][1:].replace(".", "").isdigit():
            one["text"] = _toleranced(one["text"], rng)


def _toleranced(text: str, rng: random.Random) -> str:
    sign, d = text[0], float(text[1:])
    return rng.choice(
        (
            f"{text} h7",
            f"{text} f7",
            f"{text} +0.02/-0.01",
            f"{text} -0.02/-0.05",
            f"{text} ±0.02",
            f"{sign}{d + 0.02:.2f}/{d - 0.03:.2f}",
            f"{text}h6",
        )
    )


def _notes(desk: CadDesk, rng: random.Random, view: str, done: CadHabits) -> None:
    """Words below the view, each with a leader to what it says."""
    notes = [_groove_note(desk, r, rng) for r in desk.shape.of("outside") if r.form in ("square", "round")]
    rng.shuffle(notes)
    notes = notes[: rng.choice((0, 1, 1, 2))]
    if rng.random() < 0.3:
        at = desk.shape.steps[0][1] / 2 - desk.shape.chamfer
        notes.append((0.0, at * 0.9, rng.choice(("FRONT FACE", "Z0", "PLANSEITE"))))
        done.about.append("front said")
    if rng.random() < 0.4:
        end, d = desk.shape.steps[0]
        notes.append((_plain(desk, end), d / 2, rng.choice(("Ra 1.6", "GROUND", "HARDENED 58 HRC", "NO PAINT"))))
    done.about += ["notes"] * bool(notes)
    for number, (s, r, words) in enumerate(notes):
        _lead(desk, view, (s, -r), 10 + 9 * number, words, rng)


def _plain(desk: CadDesk, end: float) -> float:
    """A place on the first land where no groove is."""
    first = min([r.near for r in desk.shape.of("outside")] + [end])
    return (desk.shape.chamfer + first) / 2


def _groove_note(desk: CadDesk, ring: CadRing, rng: random.Random) -> tuple[float, float, str]:
    land = next(d for end, d in desk.shape.steps if ring.near < end)
    width, deep = desk.number(ring.far - ring.near), desk.number((land - ring.floor) / 2)
    words = rng.choice(
        (
            f"{width} x {deep}",
            f"{width} WIDE x {deep} DEEP",
            f"GROOVE {width} WIDE",
            f"{width} x ⌀{desk.number(ring.floor)}",
            f"RING GROOVE {width} x {deep} DEEP",
            "RING GROOVE",
            "NO BURRS",
        )
    )
    return (ring.near + ring.far) / 2, ring.floor / 2, words


def _lead(desk: CadDesk, view: str, tip: tuple[float, float], below: float, words: str, rng: random.Random) -> None:
    """A leader from a place of the part to words below the view, its shelf under them."""
    one = next(v for v in desk.views if v["name"] == view)
    along = -rng.uniform(3, 9) / desk.k
    elbow = (tip[0] - along, -(desk.across / 2 + below) / desk.k / desk.factor)
    shelf = max(8.0, 2.2 * len(words)) / desk.k
    a, b = desk.at(*tip), desk.at(elbow[0], elbow[1])
    c = [b[0] - shelf, b[1]]
    lines = [[a, b], [b, c]]
    if rng.random() < 0.6:  # an arrow head of two strokes
        long = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
        u = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
        size = 2.5 / desk.k
        for side in (0.3, -0.3):
            lines.append([a, [a[0] + size * (u[0] - side * u[1]), a[1] + size * (u[1] + side * u[0])]])
    one["leaders"] = [*one.get("leaders", []), *lines]
    desk.write(words, one["x"] + (b[0] - shelf / 2) * desk.k, one["y"] + b[1] * desk.k + 1.2, 3.5)


def _false_size(desk: CadDesk, rng: random.Random, view: str, done: CadHabits) -> None:
    """A size typed over that is not the drawn one."""
    sizes = [d for d in desk.dimensions if d["view"] == view and "tolerance" not in d]
    sizes = [d for d in sizes if not d["text"] or d["text"][0] not in "⌀Ø%"]
    if not sizes:
        return
    one = rng.choice(sizes)
    drawn = round(max(abs(one["a"][0] - one["b"][0]), abs(one["a"][1] - one["b"][1])) / desk.factor, 6)
    done.false = (drawn, round(drawn + FALSE_BY[desk.shape.units], 6))
    one["text"] = desk.number(done.false[1])
    done.about.append("false size")
