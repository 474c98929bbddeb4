"""The sentences about what a view shows, each with its code and its place on the sheet."""

from collections.abc import Sequence

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level, Point, place_words
from extractor.geometry.stretches import Stretch
from extractor.recess.pairing import STRAIGHT
from extractor.recess.shapes import Measured
from extractor.recess.threads import Thread
from extractor.recess.turnings import FaceRecess
from extractor.viewing.outline import Folded

# What is said of a place alone: level and sentence by code, with what it is told of.
OF_A_PLACE: dict[DrawingCode, tuple[Level, str]] = {
    # A recess whose walls leave no mouth, or an outline that runs back on itself.
    DrawingCode.OUTLINE_UNCLEAR: (
        Level.STOP,
        "The outline at {place} folds back on itself; draw it again there, or draw what only touches the part, such as "
        "jaws, as phantom lines.",
    ),
    # Lines of an outline beyond the one that closes.
    DrawingCode.OUTLINE_OPEN: (
        Level.STOP,
        "Lines at {place} look like outline but enclose nothing together with the rest; close the outline there.",
    ),
    # Closed lines on the part's axis that don't hang together with the rest.
    DrawingCode.IN_PIECES: (
        Level.STOP,
        "What is drawn at {place} lies on the part's axis but isn't connected to the rest of it: "
        "two parts on one axis, or an outline left open between them; draw one part alone, or close it.",
    ),
    # Closed lines that one half alone shows, or that hang loose beside the outline.
    DrawingCode.LEFT_OUT: (
        Level.CAUTION,
        "Closed lines at {place} belong to no turned outline and were left out; check that place.",
    ),
    # A groove whose mouth is closed by a line.
    DrawingCode.MOUTH_LINE: (
        Level.CAUTION,
        "The land's line runs on across the recess at {place}; it was read as a groove all the same.",
    ),
    # A long shallow recess under a line, or one half as deep as the part is thick: groove, thread or hexagon. In a bore
    # one under a line where others are open.
    DrawingCode.GROOVE_OR_THREAD: (
        Level.STOP,
        "The closed strip at {place} may be a groove with its land's line running on, one left from an older drawing, "
        "a thread's second line, or the faces of a hexagon; take away the lines that are not meant, or accept it as a "
        "groove.",
    ),
    # A row of cells under the outline.
    DrawingCode.KNURL: (
        Level.CAUTION,
        "The row of closed cells at {place} was read as knurling, not as grooves.",
    ),
    # Cells behind an end face that share walls.
    DrawingCode.FACE_UNCLEAR: (
        Level.STOP,
        "The lines at {place} run from an end face into the metal on both sides of the axis, as walls of grooves in "
        "that face do, but another line runs across them all: draw the part in section, or accept it if nothing is "
        "to be grooved there.",
    ),
    # A line within the metal that nothing explains.
    DrawingCode.LINES_UNEXPLAINED: (
        Level.STOP,
        "The line at {place} lies in the metal of the part and is not an edge of it: another outline may lie under "
        "the one read, or another part in it; take away what does not belong to the part, or draw it as phantom lines.",
    ),
    # A bore in a view from outside.
    DrawingCode.OUTLINE_DOUBTFUL: (
        Level.STOP,
        "Visible lines show a bore at {place} in a view that is seen from outside, where nothing is hatched: another "
        "outline may lie round the true one; take away the lines that are not meant, or accept it if it is a bore.",
    ),
    # Metal in section round metal that is not, or beside metal hatched another way.
    DrawingCode.ASSEMBLY: (
        Level.STOP,
        "The hatched metal at {place} lies on metal hatched another way, or not at all: one part put on another; "
        "send the drawing of the one part, or accept it if all of it is one.",
    ),
}


MOST_NAMED = 3
"""So many places of one kind are named in a sentence, the rest are counted; all are in its finding."""


def placed(folded: Folded, sign: int, at: Point) -> tuple[Point, str]:
    """The sheet point of a place (z, radius) on one side of the axis, and its words."""
    spot = folded.place(at[0], sign * at[1])
    return spot, place_words(spot)


def wide(folded: Folded, sign: int, m: Measured, level: Level, code: DrawingCode, sentence: str) -> Finding:
    """What is said of a recess at its floor, with its width and its place in the gaps of the sentence."""
    spot, words = placed(folded, sign, ((m.z_near + m.z_far) / 2, m.floor))
    sentence = sentence.format(wide="{:.4g}", place=words)
    return Finding.measured(level, code, sentence, (m.z_near - m.z_far,), spot)


def one_sided(folded: Folded, sign: int, m: Measured) -> Finding:
    """A recess that one half shows and the other doesn't."""
    words = (
        "A recess {wide} wide at {place} stands on one side of the axis only: read as a notch, flat or keyway, not as "
        "a groove; check whether that is meant."
    )
    return wide(folded, sign, m, Level.CAUTION, DrawingCode.ONE_SIDED, words)


def off_axis(folded: Folded, sign: int, row: Sequence[Measured]) -> Finding:
    """Several recesses on one side of an axis that is only guessed: it may be one half of a part."""
    spot, words = placed(folded, sign, ((row[0].z_near + row[0].z_far) / 2, row[0].floor))
    return Finding(
        Level.STOP,
        DrawingCode.AXIS_UNCLEAR,
        f"{len(row)} recesses, the first at {words}, stand on one side of a view without a centre line, and none on "
        "both: it may be one half of the part; draw the turning axis as a centre line.",
        spot,
    )


def rack(folded: Folded, sign: int, row: Sequence[Measured]) -> Finding:
    """Many recesses on one side of a marked axis and none on both: no groove goes round."""
    spot, words = placed(folded, sign, ((row[0].z_near + row[0].z_far) / 2, row[0].floor))
    return Finding(
        Level.STOP,
        DrawingCode.NOT_TURNED,
        f"{len(row)} recesses, the first at {words}, stand on one side of the axis and none on both: it may be a "
        "rack or a comb, or one half lacks its grooves; draw both halves alike if they go round.",
        spot,
    )


def lopsided(folded: Folded, apart: float) -> Finding:
    """Two halves that end at different places."""
    view = folded.view
    spot = view.axis.unfold((view.low + view.high) / 2, 0.0)
    return Finding.measured(
        Level.STOP,
        DrawingCode.NOT_TURNED,
        f"The two halves of the view at {place_words(spot)} end {{:.4g}} apart from one another; a turned "
        "part is alike on both sides of its axis: draw both halves alike, or one of them alone.",
        (apart,),
        spot,
    )


def unlike_ends(folded: Folded, sign: int, apart: Stretch) -> Finding:
    """Two halves of which one ends a hair before the other."""
    spot, words = placed(folded, sign, ((apart.near + apart.far) / 2, max(apart.one, apart.two)))
    words = f"One half of the view ends {{:.4g}} before the other at {words}: draw both alike."
    return Finding.measured(Level.CAUTION, DrawingCode.HALVES_UNLIKE, words, (apart.length,), spot)


def unlike_lands(folded: Folded, sign: int, front: float, apart: Stretch) -> Finding:
    """Lands at different heights in the two halves, or shoulders at different places; `front` is z of the front."""
    cure = "draw both alike, or accept it if a flat is cut there after turning."
    return _apart(folded, sign, front, apart, DrawingCode.LANDS_DISAGREE, "the outside", cure)


def milled_land(folded: Folded, sign: int, front: float, apart: Stretch) -> Finding:
    """The same as a caution, where an end view shows what was cut there."""
    cure = "an end view has the corners of a flat or a slot there, and the whole land was read."
    return _apart(folded, sign, front, apart, DrawingCode.ONE_SIDED, "the outside", cure)


def unlike_bores(folded: Folded, sign: int, front: float, apart: Stretch) -> Finding:
    """A bore that the two halves in section show differently."""
    return _apart(folded, sign, front, apart, DrawingCode.HALVES_DISAGREE, "the bore", "draw both alike.")


def one_bore(folded: Folded, sign: int, front: float, apart: Stretch, cure: str) -> Finding:
    """The same where the lines tell which of the two was read: a caution, `cure` says which."""
    return _apart(folded, sign, front, apart, DrawingCode.HALVES_UNLIKE, "the bore", cure)


def _apart(
    folded: Folded, sign: int, front: float, apart: Stretch, code: DrawingCode, where: str, cure: str
) -> Finding:
    """Where two halves lie apart, how far, and what to do."""
    low, high = sorted((apart.one, apart.two))
    spot, words = placed(folded, sign, ((apart.near + apart.far) / 2, high))
    return Finding.measured(
        Level.CAUTION if code in (DrawingCode.ONE_SIDED, DrawingCode.HALVES_UNLIKE) else Level.STOP,
        code,
        f"From {{:.6g}} to {{:.6g}} behind the front face, at {words}, one half shows {where} {{:.6g}} from the axis "
        f"and the other {{:.6g}}: {cure}",
        (front - apart.near, front - apart.far, high, low),
        spot,
    )


def unlike_faces(folded: Folded, sign: int, front: float, one: FaceRecess, two: FaceRecess) -> Finding:
    """A recess in a face that the other half shows with different sizes; `front` is z of the front face."""
    spot, words = placed(folded, sign, (one.z_floor, (one.outer + one.inner) / 2))
    ring = "{:.6g} to {:.6g} behind the front face, {:.6g} to {:.6g} from the axis"
    return Finding.measured(
        Level.STOP,
        DrawingCode.HALVES_DISAGREE,
        f"One half shows the recess in a face at {words} {ring}; the other shows it {ring}: draw both alike.",
        (*_ring(front, one), *_ring(front, two)),
        spot,
    )


def face_of_one_half(folded: Folded, sign: int, front: float, f: FaceRecess) -> Finding:
    """A recess in a face that the other half lacks, though neither half is the only one in section."""
    spot, words = placed(folded, sign, (f.z_floor, (f.outer + f.inner) / 2))
    return Finding.measured(
        Level.STOP,
        DrawingCode.LANDS_DISAGREE,
        f"One half shows a recess in a face at {words}, {{:.6g}} to {{:.6g}} behind the front face and {{:.6g}} to "
        "{:.6g} from the axis; the other shows none: draw both alike, hatch the half that is in section, or accept it "
        "if it is not a ring, and it is left out.",
        _ring(front, f),
        spot,
    )


def _ring(front: float, f: FaceRecess) -> tuple[float, ...]:
    """Where a recess in a face begins and ends behind the front face, and its radii."""
    return front - f.z_face, front - f.z_floor, f.inner, f.outer


def unlike(folded: Folded, sign: int, m: Measured) -> Finding:
    """A recess that one half shows straight and the other a little out of true."""
    spot, words = placed(folded, sign, ((m.z_near + m.z_far) / 2, m.floor))
    return Finding(
        Level.CAUTION,
        DrawingCode.HALVES_UNLIKE,
        f"The two halves show the recess at {words} a little differently; the one with "
        f"{'straight walls' if m.shape in STRAIGHT else f'the {m.shape} shape'} was read.",
        spot,
    )


def broken(folded: Folded, sign: int, one: Measured, two: Measured) -> Finding:
    """A recess whose corners or edges are broken otherwise in the other half."""
    spot, words = placed(folded, sign, ((one.z_near + one.z_far) / 2, one.floor))
    kinds = (
        ("a corner radius of", "smaller", one.corners, two.corners),
        ("an edge broken by", "larger", one.chamfers, two.chamfers),
    )
    pairs = [(abs(a - b), what, read, (a, b)) for what, read, *both in kinds for a, b in zip(*both, strict=True)]
    _, what, read, sizes = max(pairs)
    return Finding.measured(
        Level.CAUTION,
        DrawingCode.HALVES_UNLIKE,
        f"One half shows the recess at {words} with {what} {{:.4g}}, the other {{:.4g}}; the {read} was read.",
        sizes,
        spot,
    )


def leaning(folded: Folded, sign: int, m: Measured) -> Finding:
    """A recess that one half shows straight and the other plainly leaning."""
    return in_two_ways(folded, sign, m, "with radial walls", "with sloping ones")


def clashing(folded: Folded, sign: int, one: Measured, two: Measured) -> Finding:
    """A recess that the two halves show in different shapes."""
    return in_two_ways(folded, sign, one, f"as {one.shape}", f"as {two.shape}")


def in_two_ways(folded: Folded, sign: int, m: Measured, one: str, other: str) -> Finding:
    """The stop for a recess that each half shows in its own way."""
    spot, words = placed(folded, sign, ((m.z_near + m.z_far) / 2, m.floor))
    sentence = f"One half shows the recess at {words} {one} and the other {other}; draw both alike."
    return Finding(Level.STOP, DrawingCode.HALVES_DISAGREE, sentence, spot)


def crossing(folded: Folded, sign: int, front: float, one: Measured, two: Measured) -> Finding:
    """A recess with a different place or floor in the other half; `front` is z of the front face."""
    spot, words = placed(folded, sign, ((one.z_near + one.z_far) / 2, one.floor))
    place = "{:.6g} to {:.6g} behind the front face, {:.6g} from the axis"
    return Finding.measured(
        Level.STOP,
        DrawingCode.HALVES_DISAGREE,
        f"One half shows the recess at {words} {place}; the other shows one {place}: draw both alike.",
        [length for m in (one, two) for length in (front - m.z_near, front - m.z_far, m.floor)],
        spot,
    )


def helix(folded: Folded, sign: int, row: Sequence[Measured]) -> Finding:
    """Like recesses that alternate on the two sides: a helix."""
    spot, words = placed(folded, sign, (row[0].z_near, row[0].mouth))
    return Finding(
        Level.CAUTION,
        DrawingCode.HELIX,
        f"From {words} the recesses on one side of the axis stand between those on the other: read as a helix or "
        "thread, not as grooves.",
        spot,
    )


def thread(folded: Folded, sign: int, t: Thread) -> Finding:
    """A thread drawn tooth by tooth."""
    spot, words = placed(folded, sign, (t.z_near, t.crest))
    _, end = placed(folded, sign, (t.z_far, t.crest))
    return Finding.measured(
        Level.CAUTION,
        DrawingCode.THREAD,
        f"{t.count} like teeth of pitch {{:.4g}} from {words} to {end} are read as a thread, not as grooves.",
        (t.pitch,),
        spot,
    )


def cross_hole(folded: Folded, sign: int, m: Measured) -> Finding:
    """A dip of the outline that a cross hole leaves."""
    words = "The dip {wide} wide at {place} is as deep as a cross hole's mouth and was read as one, not as a groove."
    return wide(folded, sign, m, Level.CAUTION, DrawingCode.CROSS_HOLE, words)


def drilled(folded: Folded, sign: int, walls: tuple[float, float], count: int) -> Finding:
    """Holes across the axis, each drawn in section by two walls (low, high) about a centre line of its own."""
    spot, words = placed(folded, sign, (sum(walls) / 2, 0.0))
    return Finding.measured(
        Level.CAUTION,
        DrawingCode.CROSS_HOLE,
        f"{count} pair{'s' * (count > 1)} of lines, the first {{:.4g}} apart at {words}, stand about "
        "a centre line across the axis: read as holes drilled from the side, which are not cut here.",
        (walls[1] - walls[0],),
        spot,
    )


def slip(folded: Folded, sign: int, at: Point, depth: float) -> Finding:
    """A dip (z, radius) no deeper than the pen's error."""
    spot, words = placed(folded, sign, at)
    return Finding(
        Level.CAUTION,
        DrawingCode.PEN_SLIP,
        f"The dip at {words} is drawn {depth:.2g} deep, within the error of a drawing; it was not read as a groove: "
        "check whether one is meant.",
        spot,
    )


def slight(folded: Folded, sign: int, at: Point) -> Finding:
    """A recess, with a place (z, radius) in it, no wider or no deeper than what is drawing noise on its sheet."""
    spot, words = placed(folded, sign, at)
    return Finding(
        Level.STOP,
        DrawingCode.OUTLINE_UNCLEAR,
        f"The recess at {words} is no wider or no deeper than {folded.fine:.3g}, and a drawing of this size and "
        "rounding may be off by as much: send it with more decimal places, or the grooved length alone.",
        spot,
    )


def veiled(folded: Folded, sign: int, m: Measured) -> Finding:
    """A recess in the outside, or in the bore of a section, that hidden lines alone show."""
    where = "bore" if m.floor > m.mouth else "outside"
    words = (
        f"Hidden lines show a recess {{wide}} wide in the {where} at {{place}}, where nothing hides one: "
        "draw it with full lines if it is a groove, or accept it if it is none; it was not read as one."
    )
    return wide(folded, sign, m, Level.STOP, DrawingCode.OUTLINE_UNCLEAR, words)


def inked(folded: Folded, sign: int, at: Point) -> Finding:
    """What is filled, or drawn as a wide stroke, in the metal at its outside."""
    spot, words = placed(folded, sign, at)
    return Finding(
        Level.STOP,
        DrawingCode.OUTLINE_UNCLEAR,
        f"The metal is filled, or a wide stroke is drawn, at the outside at {words}: draw the edges of the groove as "
        "lines if one is meant, or accept it if none is; it was not read as one.",
        spot,
    )


def told(folded: Folded, sign: int, at: Point, code: DrawingCode) -> Finding:
    """What OF_A_PLACE says of a place (z, radius) on one side."""
    (spot, words), (level, sentence) = placed(folded, sign, at), OF_A_PLACE[code]
    return Finding(level, code, sentence.format(place=words), spot)


def inner_lines(folded: Folded, sign: int, places: Sequence[Point]) -> Finding:
    """Lines along the axis round places (z, radius) on one side that may be a bore or a thread: one finding for all."""
    spots = tuple(placed(folded, sign, at)[0] for at in places)
    words = [place_words(at) for at in spots]
    more = [f"{len(words) - MOST_NAMED} more places"] if len(words) > MOST_NAMED else []
    *named, last = [*words[:MOST_NAMED], *more]
    where = f"{', '.join(named)} and {last}" if named else last
    return Finding(
        Level.CAUTION,
        DrawingCode.INNER_LINES,
        f"The lines along the axis round {where} may be a bore, a groove in the end face or the root of a thread; none "
        "of them was read.",
        spots[0],
        spots=spots[1:],
    )
