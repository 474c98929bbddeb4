"""What the dimensions of a sheet say of a part, gathered one by one: tolerances, distances, contradictions.

Rules: the drawn geometry is the nominal; a dimension adds deviations or, where it prints another number, a stop. It
speaks for the groove it measures, for others only where its text counts them. Deviations of a distance stay those of
the distance. A size in brackets is for information and gives nothing. A tolerance that applies to nothing is a caution.
"""

from collections.abc import Iterable
from dataclasses import replace

from extractor.codes import DrawingCode
from extractor.distance import Distance, Source
from extractor.finding import Finding, Level
from extractor.part import Deviation, Groove
from extractor.sheet import Dimension, DimensionKind, Text
from extractor.sizing.lettering.groove_notes import GrooveNote, groove_note, pitch_alone
from extractor.sizing.lettering.pointers import PointedNote, led
from extractor.sizing.lettering.printed import Printed, parse
from extractor.sizing.lettering.sheet_words import plain
from extractor.sizing.measured.features import Features
from extractor.sizing.measured.like import alike, kin_of, same
from extractor.sizing.measured.ties import Tie, middle, tie_alone
from extractor.sizing.notes.count_notes import count_asked
from extractor.sizing.notes.dimension_notes import (
    NOTED_FIELDS,
    dashed,
    not_its_size,
    note_of,
    of_others,
    of_several,
    whole_note,
    without_count,
)
from extractor.sizing.notes.note_faults import COUNTS, hold
from extractor.sizing.notes.note_findings import NOT_KEPT, note_stop
from extractor.sizing.sentences.could_size import GROOVES
from extractor.sizing.sentences.general import CallUp
from extractor.sizing.sizes.chains import chain_of
from extractor.sizing.sizes.shown import close, deviations_on_paper, places_on_paper
from extractor.sizing.sizes.spacing import Pair, distance_between, drawn, of_floor, of_z, size_read, spacing_of
from extractor.sizing.tolerances.tolerance import (
    Size,
    as_printed,
    as_shown,
    is_shaft,
    odd_in_brackets,
    unit_factor,
    unread,
)

SHARED_FIELDS = frozenset({"width", "floor_diameter", "mouth_diameter", "depth", "corner_radius"})
"""Fields that one dimension can give to several grooves."""
LONGEST_NOTE = 40
"""Letters of a text that can be a dimension's."""


class SaidSoFar:
    """What is known so far.

    `given`: deviations by groove and field. `sized`: the fields that a dimension gives a groove, with deviations
    or without. `general`: the fields whose deviations come from the sheet's general tolerances. `unread`: the fields
    that have a tolerance of their own on the sheet which was not applied: no general one stands for it. `places`: the
    decimals that sizes are printed with, where known. `without_places`: distances that no general tolerance was found
    for. `distances`, `findings`: as they were met. `notes`: texts of dimensions that are whole notes with tolerances,
    and the grooves that they measure; `note_limits` keeps what they give. `shared`: dimensions that give several
    grooves one size without a tolerance, its field, and those grooves.
    """

    def __init__(self, features: Features, noted: CallUp | None) -> None:
        """Nothing said yet; `noted` are the general tolerances that stand for a distance without its own."""
        self.features, self.noted = features, noted
        self.given: dict[int, dict[str, Deviation]] = {}
        self.sized: dict[int, set[str]] = {}
        self.general: dict[int, set[str]] = {}
        self.unread: dict[int, set[str]] = {}
        self.places: dict[int, dict[str, int]] = {}
        self.without_places: list[str] = []
        self.distances: list[Distance] = []
        self.findings: list[Finding] = []
        self.shared: list[tuple[Dimension, str, tuple[int, ...]]] = []
        self.notes: list[tuple[PointedNote, GrooveNote, list[Groove]]] = []

    def dimensions(self, sizes: Iterable[tuple[Dimension, Tie | None]], texts: Iterable[Text]) -> None:
        """Take in sizes with what they measure, and bare texts: counted ones later, those that fit several last."""
        ties = [(one, tie) for one, tie in sizes if tie is not None]
        ties += [found for text in texts if (found := self._bare(text)) is not None]
        read = [self._pitch_alone(dimension, parse(dimension.text), tie) for dimension, tie in ties]
        for dimension, printed, tie in sorted(read, key=lambda one: (len(one[2].grooves) > 1, one[1].count > 1)):
            self._dimension(dimension, printed, tie)

    def _pitch_alone(self, dimension: Dimension, printed: Printed, tie: Tie) -> tuple[Dimension, Printed, Tie]:
        """A dimension that prints nothing but a pitch and a count with the pitch alone, if it measures one.

        Over all grooves, or the whole part, it prints no size of its own where the grooves are as the note says.
        """
        words = dimension.text or ""
        pitch, note = (pitch_alone(words), groove_note(words)) if not tie.grooves else (None, None)
        if pitch is None or note is None:
            return dimension, printed, tie
        if tie.ends is not None and self.features.fits(parse(pitch), tie.true):
            return replace(dimension, text=pitch), parse(pitch), tie
        for groove in self.features.part.grooves:
            spans = {float(pitch) * (m.count - 1) + w for m in note.meanings if m.count for w in (0.0, groove.width)}
            over = tie.field == "length" or any(self.features.near(tie.true, span) for span in spans)
            if over and not hold(note, groove, self.features):
                return replace(dimension, text=None), parse(None), tie
        return dimension, printed, tie

    def _bare(self, text: Text) -> tuple[Dimension, Tie] | None:
        """A bare text such as `Ø34 h11`, as exploded dimensions leave it: tied where only floors have that diameter.

        A note on several grooves gives none of them a size of its own.
        """
        own = len(text.text) <= LONGEST_NOTE and not of_several(groove_note(text.text))
        printed = parse(text.text) if own else Printed()
        if printed.sign != "diameter" or printed.size is None or printed.reference:
            return None
        tie = tie_alone(printed, self.features)
        return (led(text.text, text.at, text.at), tie) if tie is not None else None

    def _dimension(self, dimension: Dimension, printed: Printed, tie: Tie) -> None:
        """Hold one dimension against what it measures, and keep what it gives."""
        if printed.sign == "radius" and (tie.twice or tie.field.endswith("diameter")):
            tie = replace(tie, half=True)
        if printed.sign in ("angle", "thread") or not_its_size(printed, tie, dimension, self.features):
            return
        if dimension.kind is DimensionKind.LEADER and of_others(dimension.text or "", printed, tie, self.features.part):
            return
        if odd_in_brackets(dimension.text, printed, tie.true) and chain_of(dimension.text) is None:
            words = (
                f'"{dimension.text}" prints two sizes, neither of which is the other in mm or inch: ask which is meant.'
            )
            self._tell(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, words, dimension, tie.grooves)
            return
        tie = self._as_read(printed, tie)
        dimension, printed = dashed(dimension, printed, tie, self.features)
        note = note_of(dimension, tie, self.features)
        if note is not None and dimension.kind is DimensionKind.LEADER and (note.limited or of_several(note)):
            return  # `note_limits` keeps all that it gives
        counted = printed.count > 1 and any(len(kin) == printed.count for kin in self._kin(tie))
        if note is not None and self._noted(dimension, note, tie, counted=counted):
            return
        if note is not None and not dimension.deviations and self._whole(dimension, note, tie):
            return
        if tie.ends is not None:
            self._between(dimension, printed, tie, tie.ends)
            return
        self.withhold(tie.floors if printed.limited or dimension.deviations else (), "floor_diameter")
        if self._contradicts(dimension, printed, tie, tie.true):
            self.withhold(tie.grooves if printed.limited or dimension.deviations else (), tie.field)
            return
        if self._for_information(dimension, printed, tie):
            return
        self._unheld(dimension, printed, bool(tie.floors) or tie.field == "step_diameter")
        if tie.grooves:
            self._of_grooves(dimension, printed, tie, note)

    def _of_grooves(self, dimension: Dimension, printed: Printed, tie: Tie, note: GrooveNote | None) -> None:
        """Keep the size that a dimension gives grooves; `note`: what its text is at them."""
        meant = self._meant(printed, tie)
        given, finding = deviations_on_paper(printed, dimension, self._size(tie, meant))
        self.findings += [finding] if finding is not None else []
        if printed.unread:
            self.findings.append(unread(dimension))
            for field in NOTED_FIELDS if given is not None or len(printed.sizes) > 1 else ():
                self.withhold(tie.grooves, field)
        if given is not None and not meant:
            words = (
                f'The tolerance of "{as_printed(dimension)}" fits grooves '
                f"{', '.join(map(str, sorted(set(tie.grooves))))} and does not say which it means: it was given "
                "to none; read it yourself."
            )
            self._tell(Level.CAUTION, DrawingCode.DIMENSION_UNCLEAR, words, dimension)
        if (printed.limited or dimension.deviations) and (given is None or not meant):
            self.withhold(meant or tie.grooves, tie.field)
        self._hold_count(dimension, printed, tie, note)
        if printed.count == len(meant) and given is not None:
            self.findings += [odd for n in meant for odd in self.twice(n, tie.field, given, dimension)]
        self.shared += [(dimension, tie.field, meant)] if given is None and len(meant) > 1 else []
        places = places_on_paper(printed, dimension)
        for number in meant:
            self.keep(number, tie.field, given)
            self.places.setdefault(number, {}).update({tie.field: places} if places is not None else {})

    def _whole(self, dimension: Dimension, note: GrooveNote, tie: Tie) -> bool:
        """True for a text that is a whole note with tolerances, which is put among `notes`."""
        grooves = [self.features.part.grooves[number - 1] for number in tie.grooves]
        whole = whole_note(note, tie.field, grooves, self.features)
        if whole is not None:
            self._hold_count(dimension, parse(dimension.text), tie, note)
        for number in tie.grooves if whole else ():
            self.keep(number, tie.field, None)
        self.notes += [(PointedNote.standing(note.words, middle(dimension)), whole, grooves)] if whole else []
        return whole is not None

    def _noted(self, dimension: Dimension, note: GrooveNote, tie: Tie, *, counted: bool) -> bool:
        """True, with a finding, if a dimension's text is a groove's note that doesn't fit; of a leader others tell.

        `counted`: its count is that of the grooves that it may mean. False, with a finding, where the count alone is
        wrong: what the text gives the groove holds. `2x1.6` along a groove 1.6 wide may be read as 2 wide, 1.6 deep.
        """
        printed = parse(dimension.text)
        behind = replace(printed, sizes=() if printed.size is None else (printed.size,))
        alone = counted and any(m.count == printed.count and len(m.sizes) == 1 for m in note.meanings)
        # `3 NUT` along a groove 3 wide is no count; `3 NUTEN` is.
        named = all(not m.sizes for m in note.meanings) and not GROOVES.search(plain(note.words).upper())
        if dimension.kind is DimensionKind.LEADER or ((alone or named) and self.features.agrees(behind, tie.true)):
            return False
        grooves = [self.features.part.grooves[number - 1] for number in tie.grooves]
        faults = [hold(note, groove, self.features) for groove in grooves]
        if not all(faults) or (counted and any(all(one.startswith(COUNTS) for one in row) for row in faults)):
            return False
        limited = note.limited > 0 and not all(fault.startswith(COUNTS) for fault in faults[0])
        self.withhold(tie.grooves if limited else (), tie.field)
        self.findings.append(note_stop(note.words, faults[0], grooves[0], middle(dimension), limited=limited))
        return not all(fault.startswith(COUNTS) for fault in faults[0])

    def _unheld(self, dimension: Dimension, printed: Printed, step: bool) -> None:
        """A caution where a tolerance stands at a step within a groove: nothing here holds a program to it."""
        if step and (printed.limited or dimension.deviations):
            self.findings.append(unread(dimension))

    def _for_information(self, dimension: Dimension, printed: Printed, tie: Tie) -> bool:
        """True for a size in brackets, which gives nothing; with a caution if a tolerance stands in them."""
        told = tie.grooves or tie.floors or any(m.named or m.floor for m in tie.ends or ())
        if printed.reference and told and (printed.deviations is not None or printed.tolerance_class is not None):
            self.findings.append(unread(dimension))
        return printed.reference

    def twice(self, number: int, field: str, given: Deviation, dimension: Dimension) -> Iterable[Finding]:
        """A stop where a size has other deviations already, from another text."""
        before = self.given.get(number, {}).get(field)
        if before is None or field in self.general.get(number, ()):
            return ()
        if close(before, given, mm=self.features.part.units == "mm"):
            return ()
        nominal = float(getattr(self.features.part.grooves[number - 1], field))
        one, two = (f"{nominal + low:.6g} to {nominal + high:.6g}" for low, high in (given, before))
        words = (
            f'"{as_printed(dimension)}" gives the {field.replace("_", " ")} of groove {number} as {one} where the '
            f"sheet also gives {two}: ask which is meant."
        )
        at = middle(dimension)
        return (Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, " ".join(words.split()), at, groove=number),)

    def keep(self, number: int, field: str, given: Deviation | None, *, general: bool = False) -> None:
        """Keep a size of a groove with its deviations, None for a size without; what was kept first stays."""
        self.sized.setdefault(number, set()).add(field)
        if given is not None and field not in self.given.setdefault(number, {}):
            self.given[number][field] = given
            if general:
                self.general.setdefault(number, set()).add(field)

    def withhold(self, numbers: Iterable[int], field: str) -> None:
        """Keep that a size of some grooves has a tolerance of its own on the sheet that was not applied."""
        for number in numbers:
            self.unread.setdefault(number, set()).add(field)

    def _size(self, tie: Tie, meant: tuple[int, ...]) -> Size:
        """The size that a tie to a groove's field measures."""
        groove = self.features.part.grooves[(meant or tie.grooves)[0] - 1]
        feature, shaft = float(getattr(groove, tie.field)), is_shaft(groove, tie.field)
        return self.features.sized(tie.true, feature, shaft=shaft, half=tie.half)

    def _as_read(self, printed: Printed, tie: Tie) -> Tie:
        """The tie with the size read from the outline if that is printed: its ends may have been picked by eye."""
        read = size_read(tie, self.features)
        if printed.measured or tie.half or tie.loose or read is None:
            return tie
        fits = [self.features.agrees(printed, true) for true in (tie.true, read)]
        return replace(tie, true=read) if fits == [False, True] else tie

    def _contradicts(self, dimension: Dimension, printed: Printed, tie: Tie, each: float) -> bool:
        """True, with a finding, if a dimension prints another size than it measures; `each`: one spacing of several."""
        printed = without_count(as_shown(printed, dimension), tie, dimension)
        if not printed.sizes or printed.measured:
            return False
        sizes = [*tie.printable(printed.sign), *([each] if each != tie.true else [])]
        if any(self.features.agrees(printed, true, unit_factor(printed, dimension, true)) for true in sizes):
            return False
        # Notes at grooves and even spacings are held as such, with all that they print.
        if note_of(dimension, tie, self.features) is None and chain_of(dimension.text) is None:
            size = printed.sizes[0] if printed.size is None else printed.size
            true = min(tie.printable(printed.sign), key=lambda one: abs(one - size))
            words = (
                f"A dimension prints {size:g} where the drawing measures {true:.6g} ({'half the ' * (true < tie.true)}"
                f"{tie.field.replace('_', ' ')}{f' of groove {tie.grooves[0]}' if tie.grooves else ''}): ask which is "
                f"meant{NOT_KEPT if printed.limited or dimension.deviations else ''}."
            )
            level = Level.CAUTION if tie.loose else Level.STOP
            self._tell(level, DrawingCode.DIMENSION_CONTRADICTS, words, dimension, tie.grooves)
        return True

    def _tell(
        self, level: Level, code: DrawingCode, words: str, dimension: Dimension, grooves: tuple[int, ...] = ()
    ) -> None:
        """Keep a finding on a dimension, at the first of its grooves."""
        number, at = next(iter(grooves), None), middle(dimension)
        self.findings.append(Finding(level, code, " ".join(words.split()), at, groove=number))

    def _between(self, dimension: Dimension, printed: Printed, tie: Tie, ends: Pair) -> None:
        """A dimension between two landmarks: distances, and for the floor of a face groove deviations of its z."""
        spacing = spacing_of(ends, tie.true, printed, self.features)
        if self._contradicts(dimension, printed, tie, spacing.each) or self._for_information(dimension, printed, tie):
            return
        if spacing.off and any(m.named for m in ends):
            words = f"A dimension says {printed.count} spacings, but no such row of grooves was read."
            self._tell(Level.CAUTION, DrawingCode.COUNT_DIFFERS, words, dimension)
        if not any(m.named or m.floor for m in ends):
            grooves, steps = self.features.part.grooves, {z for z, _ in self.features.steps}
            within = (m.at in steps or any(g.z_far < m.at < g.z_near for g in grooves) for m in ends if m.along)
            self._unheld(dimension, printed, any(within))
            return
        if spacing.several:
            self._keep_pair(ends, None, "shop")
        for pair in () if spacing.several else spacing.pairs:
            self._pair(dimension, printed, tie, pair, spacing.each)
        if printed.unread or (spacing.several and (printed.deviations or dimension.deviations)):
            self.findings.append(unread(dimension))

    def _pair(self, dimension: Dimension, printed: Printed, tie: Tie, pair: Pair, each: float) -> None:
        """Keep what a dimension says of one pair of landmarks."""
        times = 2.0 if tie.twice else 1.0
        size = self.features.sized(each, times * drawn(pair), half=tie.half)
        given, finding = deviations_on_paper(printed, dimension, size)
        self.findings += [finding] if finding is not None and finding not in self.findings else []
        source: Source = "dimension" if given is not None else "shop"
        if given is None and self.noted is not None and finding is None and not printed.unread:
            given = self.noted.linear(size.feature, self.features.part.unit, places_on_paper(printed, dimension))
            source = "class" if given is not None else "shop"
            self.without_places += [f"distance of {size.feature:.6g}"] if given is None else []
        if given is not None:
            given = given[0] / times, given[1] / times
        self._keep_pair(pair, given, source)

    def _keep_pair(self, pair: Pair, given: Deviation | None, source: Source) -> None:
        """Keep a distance, and the deviations of z that one from an end gives."""
        floor = next((m.floor for m in pair if m.floor), 0)
        if floor:
            field = self.features.part.grooves[floor - 1].floor_field
            turned = None if given is None else of_floor(pair, given)
            self.keep(floor, field, turned, general=source == "class")
            return
        distance = distance_between(pair, given, source)
        if distance is None or any({distance.start, distance.end} == {d.start, d.end} for d in self.distances):
            return
        self.distances.append(distance)
        placed = of_z(distance)
        if placed is not None:
            self.keep(*placed, general=source == "class")

    def _meant(self, printed: Printed, tie: Tie) -> tuple[int, ...]:
        """The groove a dimension measures, or all of that size where `4x` counts them or it is typical of them.

        A size that fits several grooves by value alone is for those without a dimension of their own, if they are
        all alike; else it does not say which it means.
        """
        kin = self._kin(tie)
        if printed.typical:
            return kin[0]
        told = (numbers for numbers in kin if len(numbers) == printed.count > 1)
        counted = min(told, key=lambda told: sum(tie.field in self.given.get(n, ()) for n in told), default=None)
        if counted is not None:
            return counted
        if len(tie.grooves) < 2:
            return tie.grooves
        grooves = self.features.part.grooves
        open_to = [grooves[n - 1] for n in tie.grooves if tie.field not in self.sized.get(n, ())]
        fit = [g for g in open_to if alike(open_to[0], g) and same(getattr(g, tie.field), tie.true)]
        return tuple(g.id for g in fit) if len(fit) == len(open_to) else ()

    def _kin(self, tie: Tie) -> tuple[tuple[int, ...], ...]:
        """Numbers of the grooves that a count may mean, the most first.

        Those of one side that share the size tied to the first; the like ones; of these those on a land alike; and all
        but those with a dimension of their own.
        """
        if not tie.grooves or tie.field not in SHARED_FIELDS:
            return (tie.grooves,)
        first = self.features.part.grooves[tie.grooves[0] - 1]
        equal, akin, _ = kin_of(first, [tie.field], self.features)
        level = [g for g in akin if same(g.mouth_diameter, first.mouth_diameter)]
        rest = [g for g in equal if g is first or tie.field not in self.sized.get(g.id, ())]
        return tuple(tuple(g.id for g in kin) for kin in (equal, akin, level, rest))

    def _hold_count(self, dimension: Dimension, printed: Printed, tie: Tie, note: GrooveNote | None) -> None:
        """A caution where `4x` stands before a size that another number of grooves have; `note`: what the text is."""
        if printed.count < 2 or not tie.grooves or tie.field not in SHARED_FIELDS:
            return
        if note is not None:
            first, led = self.features.part.grooves[tie.grooves[0] - 1], dimension.kind is DimensionKind.LEADER
            self.findings += () if led else count_asked(note, first, self.features, middle(dimension))
            return
        counts = [len(numbers) for numbers in self._kin(tie)]
        # Of the two corners of a groove one or both may be counted.
        if printed.count not in counts and not (tie.field == "corner_radius" and printed.count / 2 in counts):
            feature = tie.field.replace("_", " ")
            words = f"A dimension says {printed.count} times, but {counts[0]} grooves of that {feature} were read."
            self._tell(Level.CAUTION, DrawingCode.COUNT_DIFFERS, words, dimension, tie.grooves)
