"""Words beside the figure of a size that nobody read: `3 AT BOTTOM`, `26 AFTER PLATING`, `SEE TABLE`.

Rules: a dimension of a groove may hold its size, sign, count, unit and tolerance, and words that change none of these
(`harmless`). With any other word, or with no figure at all, somebody must see whether the size is as drawn.
"""

import re
from collections.abc import Iterable, Iterator, Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.grammar import COUNT, COUNT_BEHIND, FIT, NUMBER, SPACES_AT, fractions, normalised
from extractor.late import late
from extractor.remembered import remembered
from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.lettering.groove_notes import pitch_alone
from extractor.sizing.lettering.letters import by_letter
from extractor.sizing.lettering.printed import TYPICAL, parse
from extractor.sizing.lettering.sheet_words import about, folded, plain
from extractor.sizing.measured.ties import Tie, tie_of
from extractor.sizing.sentences.harmless import BESIDE
from extractor.sizing.sizes.said import SaidSoFar

UNREAD = late(r"[^\W\d_](?:[^\W\d_]|['/.-](?=[^\W\d_]))*|[?~#□]|\.\.+|…|\[\s*\]|(?<!\d)\s*\*|\*\s*$")
"""What is left of a text that was not read: words, and marks that withhold or weaken a figure."""
MARKED = late(r"[¹²³⁰⁴-⁹△Δ]|<\s*\w\s*>|(?<=\s)\d+\)|\([A-Z]\)\s*$")
"""The mark of a note elsewhere behind a size."""
BETWEEN = late(rf"(?<![\d.A-Z]){NUMBER}\s*-\s*{NUMBER}")
"""Two figures with a dash between them that are no limits of one size: from one to the other."""


@remembered
def unread_words(text: str) -> tuple[str, ...]:
    """What a dimension prints that is no figure, sign, count, unit, tolerance or harmless word.

    >>> unread_words("4x Ø36 h11 TYP."), unread_words("3 +0.1/0 WIDE"), unread_words("3 AT BOTTOM"), unread_words("3 ?")
    ((), (), ('AT', 'BOTTOM'), ('?',))
    """
    printed, line = parse(text), fractions(TYPICAL.sub(" ", SPACES_AT.sub(r"\1 x ", normalised(text))))[0]
    marks = MARKED.findall(line)
    between = [] if printed.limited or printed.limits else BETWEEN.findall(line)
    line = FIT.sub(" ", COUNT_BEHIND.sub("", COUNT.sub("", line)))
    line = re.sub(NUMBER, " 0 ", plain(line).upper().replace("<>", " ").replace("Ø", " "))
    return (*between, *marks, *(found.strip() for found in UNREAD.findall(BESIDE.sub(" ", line))))


def words_findings(dimensions: Iterable[Dimension], said: SaidSoFar, told: Sequence[Finding]) -> Iterator[Finding]:
    """A caution for each size of a groove beside which stands what was not read; it gets no general tolerance.

    None for what was `told` with its words.
    """
    for dimension in dimensions:
        text = dimension.text or ""
        if dimension.kind is DimensionKind.LEADER or not text.strip() or by_letter(text):
            continue
        printed = parse(text)
        words, thread = unread_words(text), printed.sign == "thread"
        figure = printed.measured or printed.size is not None
        tie = tie_of(dimension, said.features) if words or thread or not figure else None
        # It is of grooves, or a distance to a wall of one, or between two.
        if tie is None or tie.loose or not (tie.grooves or any(end.named for end in tie.ends or ())):
            continue
        if tie.ends is not None and pitch_alone(text) is not None:
            continue  # read whole, as the note that it is
        rounds = (said.features.part.grooves[number - 1].shape == "round" for number in tie.grooves)
        if about(folded(text), "full_radius") and all(rounds):
            continue
        said.withhold(tie.grooves, tie.field)
        if printed.unread or any(f'"{one}"' in f.message for one in (text, normalised(text)) for f in told):
            continue
        yield _asked(text, words, tie, dimension, figure=figure)


def _asked(text: str, words: tuple[str, ...], tie: Tie, dimension: Dimension, *, figure: bool) -> Finding:
    """The caution for one dimension."""
    number = next(iter(tie.grooves), None)
    field = "place" if tie.field.startswith("z_") else tie.field.replace("_", " ")
    size = f"the {field} of groove {number}" if number else "the place of a groove"
    why = f'"{" ".join(words)}" was not read' if words and figure else "no figure was read"
    sentence = (
        f'A dimension prints "{normalised(text)}" for {size}, which was taken as drawn, {tie.true:.6g}, and {why}: see '
        "whether it asks for another size."
    )
    return Finding(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, sentence, dimension.points[0], groove=number)
