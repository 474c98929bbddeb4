"""Notes that nobody here understands: whether a figure of theirs may count or size a groove of the part.

Rules: words in a known language name what they size, and a figure near that of a groove may be meant for it. Words in
no known language may name anything: only figures that are no size of the groove, and a product as large as a width by a
depth, are asked about.
"""

from extractor.grammar import BY, NUMBER, fractions
from extractor.late import late
from extractor.part import Groove
from extractor.sizing.lettering.groove_notes import LONGEST, capitals, like_a_note
from extractor.sizing.lettering.note_meanings import Meaning
from extractor.sizing.lettering.note_words import DEEP, ELSEWHERE, GROOVE, OTHER_THING, WIDE
from extractor.sizing.lettering.printed import Printed
from extractor.sizing.lettering.sheet_words import folded, meant
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import like, sizes_drawn, steps

ANY_FIGURE = late(rf"(?<![\d.+±]){NUMBER}")
FIGURES = late(rf"(?<![\w.:+±]){NUMBER}(?!\w*[:°])")
"""The figures of a note that nobody here understands: none of a name, a scale or an angle."""
NTH = late(r"\b(?:NO|NR|NUMBER|NUMMER|POS|ITEM)\b\W*\d")
"""A figure that is the number of something."""
WORD = late(r"[^\W\d_]{2,}|[^\W\d_\u0000-\u04ff]")
"""A word, as against signs and letters beside figures; in scripts of syllables and words each letter is one."""
COULD = 1 / 3, 3.0
"""Shares of a groove's width or depth between which a figure may be meant for it."""
ACROSS = 0.8, 1.25
"""The same of its diameters."""
PRODUCT = late(rf"(?:(?P<before>\d+)\D+?)?(?<![\d.])(?P<one>{NUMBER})\s*{BY}\s*Ø?\s*(?P<other>{NUMBER})(?![\d.°])")
"""One figure by another, with what may be a count before them."""
COUNTED_GROOVES = late(rf"\d\s*(?:[^\W\d]+\W+)?{GROOVE}|\b{GROOVE}\W*(?:[^\W\d]+\W+){{0,2}}[\d.]")
"""A groove's name with a figure beside it."""
TRUE_WITHIN = late(
    r"\b(?:CONCENTRIC\w*|COAXIAL\w*|KONZENTRISCH\w*|KOAXIAL\w*|RUN-?OUT|RUNDLAUF|PLANLAUF|T\.?I\.?R|SQUARE|PARALLEL\w*"
    r"|PERPENDICULAR\w*)\b(?:\W+[^\W\d]+){0,3}\W+0?\.\d+"
)
"""How true something must be, with its figure, which is no size."""
GROOVES = meant("grooves_name")
"""Several grooves: a note that names them is about those of the part wherever it stands."""
ABOUT_GROOVE, ABOUT_WIDTH, ABOUT_DEPTH = (late(rf"(?<![^\W\d_]){word}") for word in (GROOVE, WIDE, DEEP))
"""What a note names: a groove, a width, a depth."""


def strange(words: str) -> bool:
    """True for words with figures that nothing here knows, in any language, and that may size a groove."""
    line = capitals(words)
    return len(line) <= LONGEST and bool(FIGURES.search(line) and WORD.search(line)) and not OTHER_THING.search(line)


def may_size(words: str, groove: Groove, features: Features) -> bool:
    """True if a figure of words that nobody here understands may be meant for a size of a groove.

    Where the words are in no language known here, so that nothing says what they size, it is none that is drawn there.
    """
    line = ELSEWHERE.sub("", fractions(capitals(words))[0])
    if OTHER_THING.search(line) and not ABOUT_GROOVE.search(line):
        return False
    small, across = (groove.width, groove.depth), (groove.floor_diameter, *groove.beside, groove.mouth_diameter)
    figures = [Printed.of(n) for n in (ANY_FIGURE if like_a_note(words) else FIGURES).findall(line)]
    if not like_a_note(words):
        if figures and figures[0].value in like(groove, [], features) | like(groove, ["width"], features):
            figures = figures[1:]
        own = (
            *small,
            *across,
            groove.corner_radius,
            *sizes_drawn("depth", groove, features),
            *steps(groove, features),
        )
        figures = [f for f in figures if not features.fits(f, *own)]
    shown = [size * k for size in small for k in (1.0, features.part.unit)]
    return any(could_be(f.value, *shown) or could_be(f.value, *across, shares=ACROSS) for f in figures)


def sizes_some(words: str, features: Features) -> bool:
    """True for words that stand at no groove, are not understood, and may count or size grooves of the part.

    Those that name grooves beside a figure do, but for what these are checked with; others, in no language known
    here, that print one figure by another as
    large as a groove's width and depth, unless a groove is so and there are as many as the figure before them says.
    """
    if meant("gauged").search(folded(words)):
        return False
    line = TRUE_WITHIN.sub(" ", ELSEWHERE.sub("", fractions(capitals(words))[0]))
    if GROOVES.search(line) and COUNTED_GROOVES.search(line):
        return True
    sized = ABOUT_WIDTH.search(line) or ABOUT_DEPTH.search(line)
    if sized and ABOUT_GROOVE.search(line) and like_a_note(words):
        return any(may_size(words, groove, features) for groove in features.part.grooves)
    found = PRODUCT.search(line)
    if found is None or not WORD.search(line) or OTHER_THING.search(line):
        return False
    one, other = Printed.of(found["one"]), Printed.of(found["other"])
    about = False
    for groove in features.part.grooves:
        seconds = (*sizes_drawn("depth", groove, features), groove.floor_diameter)
        near = [could_be(one.value, groove.width), any(_about(other.value, s, groove) for s in seconds)]
        about = about or all(near)
        fits = features.fits(one, groove.width) and features.fits(other, *seconds)
        if fits and (found["before"] is None or int(found["before"]) in like(groove, ["width"], features)):
            return False
    return about


def _about(figure: float, size: float, groove: Groove) -> bool:
    """True if a figure may be meant for a depth or a diameter of a groove."""
    return could_be(figure, size, shares=ACROSS if size == groove.floor_diameter else COULD)


def could_be(figure: float, *sizes: float, shares: tuple[float, float] = COULD) -> bool:
    """True if a figure is near enough to a size to be meant for it: a width or a depth, or with `ACROSS` a diameter."""
    return any(size > 0 and shares[0] <= figure / size <= shares[1] for size in sizes)


def may_count(meaning: Meaning, groove: Groove, features: Features) -> bool:
    """True for a count and a size that may be meant for grooves: as wide as may be, or apart."""
    figure, steps_so = meaning.sizes[0][1], steps(groove, features)
    spaced = [step for step in steps_so if features.fits(figure, step)]
    as_wide = meaning.count in like(groove, ["width"], features) and could_be(figure.value, groove.width)
    return as_wide or (bool(spaced) and meaning.count != len(spaced))


def may_space(meaning: Meaning, groove: Groove, features: Features) -> bool:
    """True for a pitch that may be meant for that of a groove."""
    pitch = dict(meaning.sizes).get("pitch")
    return pitch is not None and could_be(pitch.value, *steps(groove, features))
