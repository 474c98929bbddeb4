"""What end views, cross-sections and words say of the part read that no turned part has, or that its view has not."""

from collections.abc import Sequence

from extractor.doubts.combs import comb_or_plate
from extractor.doubts.ends_elsewhere import held_elsewhere
from extractor.finding import Finding
from extractor.recess.recognise import Found, slotted
from extractor.sheet import Sheet
from extractor.viewing.choice import Candidate, ChosenViews
from extractor.viewing.clusters import Ink
from extractor.viewing.cut_ends import cut_end
from extractor.viewing.end_views import circles_differ, odd_end
from extractor.viewing.flat_words import said_flat
from extractor.viewing.outline import Folded


def not_round(
    sheet: Sheet, ink: Ink, choice: ChosenViews, alike: Sequence[Candidate], read: tuple[Folded, Found]
) -> list[Finding]:
    """What they say, first of what stands in line with the view, then of what stands elsewhere.

    `alike` are the views of the part.
    """
    # What plainly is a turned part seen from the side is no end of this one: another part on the same sheet.
    sides = (*alike, *(c for c in choice.beside if c.evidence.plainly and not c.plain))
    known, (folded, whole) = frozenset(k for c in sides for k in c.view.members), read
    odd = odd_end(ink, sheet, folded.view, known)
    seen = choice.candidates[0].evidence
    if odd is None:
        odd = said_flat(sheet, folded.view, whole.outline, signed=seen.signed)
    if odd is None and not seen.signed:
        even, shown = slotted(whole.outside, folded.close), bool(seen.strong)
        odd = comb_or_plate(sheet, folded.view, whole.outline, shown=shown, slotted=even)
    elsewhere, sections = held_elsewhere(sheet, ink, read, known)
    if odd is None:
        rings = (r for face in whole.faces for r in (face.outer, face.inner))
        hollow = {*rings, *(r for _, r in whole.bore or ())}
        odd = circles_differ(sheet, folded.view, whole.outline, hollow, ink, sections)
        odd = odd or cut_end(ink, sheet, folded.view, known, whole.outline, hollow)
    return [*([] if odd is None else [odd]), *elsewhere]
