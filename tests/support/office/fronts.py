"""Family a: which end is the front, said by words, by lengths, by nothing, or by two things that disagree."""

from support.ink import Line, Solid, Text
from support.office.desk import Desk, desk, finish
from support.office.place import OPPOSITE
from support.office.stock import Wish
from support.office.truth import Answer, Case, Truth, in_turn

FRONT_WORDS = ("FRONT FACE", "Z0", "Z=0", "Vorderseite", "Planseite", "VORDERSEITE", "FRONT")
CLAMP_WORDS = ("CLAMP HERE", "CLAMP THIS END", "HIER SPANNEN")
IDLE_WORDS = ("FRONT VIEW", "FRONT AXLE SPACER", "FACE GROOVES PER DETAIL", "CLAMP RING", "VORDERANSICHT")
DEFAULT = {"right": "right", "left": "right", "top": "top", "bottom": "top"}


def word_at(d: Desk, text: str, end: str) -> None:
    """A word with a leader to the face at one end of the drawn part, above the view."""
    part, place, h = d.part, d.place, d.paper.h
    s, sign = (0.0, -1) if end == place.front else (part.length, 1)
    edge = part.steps[0 if s == 0 else -1][1] / 2 - part.chamfers[0 if s == 0 else 1]
    tip = place.at(s, edge * d.rng.choice((0.3, 0.5, 0.7)))
    to = place.at(s + sign * 6 * h, d.paper.above + d.rng.choice((2, 4, 6)) * h)
    d.paper.lead(tip, text, to)


def _ends(d: Desk) -> tuple[str, str]:
    return d.place.front, OPPOSITE[d.place.front]


def _start(seed: int, upright: float = 0.3) -> Desk:
    fronts = ("top", "bottom") if seed % 10 < 10 * upright else ("right", "left")
    return desk("a", seed, Wish(), fronts)


def _facing(d: Desk, end: str) -> Answer:
    """The truth with `end` as the front; the part was drawn with its own front at `place.front`."""
    here = d.truth()
    return here if end == d.place.front else here.turned()


def said(seed: int) -> Case:
    """A word at the front face; lengths from there, or none."""
    d = _start(seed)
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)))
    word_at(d, d.rng.choice(FRONT_WORDS), d.place.front)
    return finish(d, "word at the front", Truth("read", d.truth(), ("words",)))


def clamped(seed: int) -> Case:
    """CLAMP HERE at the back."""
    d = _start(seed)
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)))
    word_at(d, d.rng.choice(CLAMP_WORDS), _ends(d)[1])
    return finish(d, "clamp at the back", Truth("read", d.truth(), ("words",)))


def zero(seed: int) -> Case:
    """A 0 with a leader to the front face."""
    d = _start(seed)
    d.main_view()
    d.paper.usual_sizes(d.rng.choice(("front", None)))
    word_at(d, "0", d.place.front)
    return finish(d, "0 at the front", Truth("read", d.truth(), ("words",)))


def running(seed: int) -> Case:
    """Ordinate sizes with their 0 at the front: the 0 marks the end, or is asked for."""
    d = _start(seed)
    d.main_view()
    walls = sorted({g.near for g in d.part.outside()} | {d.part.length})
    d.paper.ordinates(walls, "front")
    right = d.truth()
    if d.place.front == DEFAULT[d.place.front]:
        return finish(d, "ordinates from the end taken", Truth("read", right, ("words", "dimensions")))
    truth = Truth("read", right, ("words",), more=(right.turned(),), caution="front-assumed")
    return finish(d, "ordinates from the other end", truth)


def lengths(seed: int) -> Case:
    """Only lengths: they never turn a reading, but they tell."""
    d = _start(seed)
    d.main_view()
    zero_at = d.rng.choice(("front", "back"))
    for g in d.part.outside():
        d.paper.to_groove(g, zero_at, up=True)
    d.paper.overall()
    begin = d.place.front if zero_at == "front" else OPPOSITE[d.place.front]
    taken = DEFAULT[d.place.front]
    right = _facing(d, taken)
    if begin == taken:
        return finish(d, "lengths from the end taken", Truth("read", right, ("dimensions",)))
    return finish(d, "lengths from the other end", Truth("read", right, ("assumed",), caution="front-assumed"))


def idle(seed: int) -> Case:
    """A datum letter, or words that name no end, say nothing."""
    d = _start(seed)
    d.main_view()
    d.paper.usual_sizes(None)
    right = _facing(d, DEFAULT[d.place.front])
    if d.rng.random() < 0.5:
        datum(d)
        return finish(d, "datum letter", Truth("read", right, ("assumed",)))
    word = d.rng.choice(IDLE_WORDS)
    x, y = d.place.at(d.part.length * d.rng.choice((0.1, 0.5, 0.9)), d.paper.below - 3 * d.paper.h)
    d.paper.write((x if d.place.lying else x - len(word) * d.paper.h, y), word)
    return finish(d, "words that name no end", Truth("read", right, ("assumed",)))


def datum(d: Desk) -> None:
    """A datum triangle with its framed letter on an end face."""
    h, place = d.paper.h, d.place
    s, sign = d.rng.choice(((0.0, -1), (d.part.length, 1)))
    r = d.part.steps[0 if s == 0 else -1][1] / 4
    at = lambda a, b: place.at(s + sign * a * h, r + b * h)  # noqa: E731
    d.paper.add([Solid((at(0, 0.6), at(0, -0.6), at(1, 0)), "dim"), Line(at(1, 0), at(3, 0), "dim")])
    box = [at(3, 1), at(5, 1), at(5, -1), at(3, -1)]
    d.paper.add([Line(p, q, "dim") for p, q in zip(box, box[1:] + box[:1], strict=True)])
    d.paper.add([Text(at(4, 0), d.rng.choice("ABC"), h, middle=True, role="dim")])


def quarrel(seed: int) -> Case:
    """Two words that disagree."""
    d = _start(seed)
    d.main_view()
    one, other = _ends(d)
    first = d.rng.choice(FRONT_WORDS)
    if d.rng.random() < 0.5:
        second = d.rng.choice([w for w in FRONT_WORDS if w != first])
        word_at(d, first, one)
        word_at(d, second, other)
    else:
        second = d.rng.choice(CLAMP_WORDS)
        word_at(d, first, one)
        d.paper.above += 8 * d.paper.h
        word_at(d, second, one)
    return finish(
        d, "two words disagree", Truth("stop", facts=((first, second),), more=(d.truth(), d.truth().turned()))
    )


def against(seed: int) -> Case:
    """A word at one end, all lengths from the other."""
    d = _start(seed)
    d.main_view()
    for g in d.part.outside():
        d.paper.to_groove(g, "back", up=True)
    if d.rng.random() < 0.6:
        d.paper.overall()
    word = d.rng.choice(FRONT_WORDS)
    word_at(d, word, d.place.front)
    return finish(d, "word against lengths", Truth("stop", facts=((word,),), more=(d.truth(), d.truth().turned())))


sheet = in_turn(said, said, clamped, zero, running, lengths, lengths, idle, quarrel, against, step=7)
