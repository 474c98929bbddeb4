"""Changes of `operator_changes.py` that were looked at and change nothing that could be seen."""

from operator_drawn import DRAWN
from operator_programs import PROGRAMS

_SIGN = "a sign is 1 or -1"
_ENDS = "at an end where the excess is nothing the place is that end"
_SLACK = "what is measured is a whole number of counts, and the slack is no whole number of them"
_PI = "what is worked out with pi or a broken power is never just as much"
_SORTED = "what has no number of its own is put behind the rest, and there all have the same"
_NO_FEED = "a feed of one count is as good as none"
_SIX = "feeds are whole counts of no more than six decimals"
_OFF = "what is off at all is off by more than that"
_TOUCH = "a touch is a count or more"
_NO_WAY = "a move that goes nowhere cuts nothing"
_SHORT_CUT = "at its edge the rest finds nothing either: it only saves work"
_NOTHING_THERE = "heights are those of metal or those of none at all, with nothing between"
_STRIP = "a strip a few counts wide stands for a face"
_MARGIN = "any more than one radius would do"
_FINE = "how near chords keep to an arc, far below a count of height that is told"
_WIDER = "a wider look finds no more; what is near begins within a width"
_STROKES = "postproc/judging/strokes.py"
_SLIPPED = "return len(a) == len(b) and sum(p != q for p, q in zip(a, b, strict=True)) == 1 and one * other > 0"
_MATCHING = "postproc/judging/matching.py"
_FIRST = "while first < len(order) and targets[order[first]].u0 < recess[0] - 2 * BESIDE * most:"
EQUIVALENT: dict[tuple[str, str, str, str], str] = {
    ("postproc/judging/points.py", "lead = self.bench.increments.feed_length(first.feed or 0)", "0", "1"): _NO_FEED,
    (
        "extractor/placing/placing.py",
        "alike = laid.found is not None and difference(base, drawn_so_large(laid.found, 1 / times)) is None",
        "/",
        "*",
    ): _SHORT_CUT,
    (
        "postproc/judging/points.py",
        "return abs(x) < self.bench.outside.highest(z - 1, z + 1) - self.touch",
        "1",
        "2",
    ): _STRIP,
    (
        "postproc/judging/turned_feeds.py",
        "word = plain(self.bench.increments.feed_length(motion.feed), 6)",
        "6",
        "12",
    ): _SIX,
    (
        "postproc/reading/actions/steering.py",
        "return (lathe.words.amount(word) or 0) / lathe.increments.per_length",
        "0",
        "1",
    ): "a word that is there has an amount",
    (
        "postproc/judging/leftover.py",
        "low, high = np.array(row, dtype=np.int64).reshape(-1, 2).T",
        "1",
        "2",
    ): "any number below nothing leaves the length open",
    ("extractor/side.py", "return self.sign < 0", "<", "<="): _SIGN,
    ("extractor/side.py", "return self.sign < 0", "0", "1"): _SIGN,
    ("extractor/places.py", "if way * _sign(part, one) < 0:", "<", "<="): _SIGN,
    ("extractor/places.py", "if way * _sign(part, one) < 0:", "0", "1"): _SIGN,
    (
        "extractor/places.py",
        "return float(max(part.grooves[p.groove - 1].side.along for p in (one.start, one.end) if p.groove))",
        "max",
        "min",
    ): "grooves at both ends of one distance lie along one line, where a length counts alike",
    (
        "extractor/places.py",
        "LOOSE = 1e3",
        "1e3",
        "2000.0",
    ): "so much looser than any size that nothing moves by a micron",
    (
        "extractor/sizing/sizes/spacing.py",
        "if deviations is not None and nominal < abs(one.at):",
        "<",
        "<=",
    ): "nothing is printed between two places at one place",
    (
        "extractor/sizing/sizes/spacing.py",
        "return (low, high) if floor.at > other.at else (-high + 0.0, -low + 0.0)",
        ">",
        ">=",
    ): "nothing is printed between two places at one place",
    (
        "extractor/sizing/sizes/spacing.py",
        "step = pitch if way > 0 else -pitch",
        ">",
        ">=",
    ): "nothing is printed between two places at one place",
    (
        "extractor/places.py",
        "return 1 if _drawn(part, one.end) > _drawn(part, one.start) else -1",
        ">",
        ">=",
    ): "nothing is printed between two places at one place",
    (
        "postproc/reading/macros.py",
        'if formula.next == "N" and len(formula.found) > 2 and formula.found[1].isdigit():',
        ">",
        ">=",
    ): "a block number alone is no statement",
    ("extractor/places.py", "ROUNDS = 60", "60", "120"): "more rounds are run only where no round meets all",
    (
        "extractor/places.py",
        "matrix, wanted = np.zeros((len(rows), 2 * len(numbers))), np.zeros(len(rows))",
        "2",
        "4",
    ): "columns that no row has a factor in",
    (
        "postproc/reading/words.py",
        "last = next((n for n in marks if n > begun), len(lines) + 1)",
        ">",
        ">=",
    ): "the first line with words is no mark",
    (
        "postproc/reading/words.py",
        "first = max((n for n in marks if n < begun), default=0)",
        "<",
        "<=",
    ): "the first line with words is no mark",
    (
        "extractor/places.py",
        "LEAST_WEIGHT = 1e-9",
        "1e-9",
        "2e-09",
    ): "either is as good as nothing beside a weight of 1",
    (
        "extractor/places.py",
        "for place, way in ((one.end, 1), (one.start, -1)):",
        "1",
        "2",
    ): "only the sign is asked for",
    (
        "postproc/reading/words.py",
        "yield _stop(rest[MOST_FINDINGS].code, rest[MOST_FINDINGS].line or 0, message)",
        "0",
        "1",
    ): "what is odd about a text has its line",
    (
        "postproc/reading/words.py",
        "rest = sorted((f for f in findings if f.level is not Level.NOTE), key=lambda f: f.line or 0)",
        "0",
        "1",
    ): "what is odd about a text has its line",
    (
        "postproc/reading/meanings.py",
        'name = {"G": OTHERS, "M": ELSEWHERE}[word.address].get(word.whole if word.whole is not None else -1)',
        "1",
        "2",
    ): "no word with a name has a negative number",
    (
        "postproc/reading/events.py",
        "return (by_word or more or [1])[0]",
        "1",
        "2",
    ): "an offset that names none stops the program, whichever it is taken for",
    ("postproc/reading/values.py", "return LARGEST if count > 0 else -LARGEST", "0", "1"): _OFF,
    ("postproc/reading/control.py", "aside: tuple[int, int] = (0, 0)", "0", "1"): "one pass alone is not put aside",
    ("postproc/reading/control.py", "own_retract: int = 0", "0", "1"): "each run is begun with the machine's own",
    ("postproc/judging/overlay.py", "if start < 0 < end:", "<", "<="): _ENDS,
    ("postproc/judging/overlay.py", "if end < 0 < start:", "<", "<="): _ENDS,
    ("postproc/judging/overlay.py", "if end < 0 < start:", "0", "1"): _ENDS,
    ("postproc/judging/measure.py", "return abs(shift) <= target.loose + target.slack", "<=", "<"): _SLACK,
    ("postproc/judging/edges.py", "if not limit or largest.corner_radius <= limit + target.slack:", "<=", "<"): _SLACK,
    ("postproc/judging/edges.py", "if drawn <= 0 or largest.corner_radius >= low - target.slack:", ">=", ">"): _SLACK,
    ("postproc/judging/unsafe_axis.py", "if not motion.clamp and turns > self.shop.machine.max_rpm:", ">", ">="): _PI,
    ("postproc/judging/unsafe_cutting.py", "if power > most:", ">", ">="): _PI,
    ("postproc/judging/unsafe_speeds.py", "if speed * ODD < usual and _clamped_hard(motion, shop):", "<", "<="): _PI,
    (
        "postproc/judging/unsafe_speeds.py",
        "(notebook.stop if speed * ODD < usual else notebook.caution)(ProgramCode.SPEED_MODE, motion.line, told)",
        "<",
        "<=",
    ): _PI,
    (
        "postproc/judging/unsafe_speeds.py",
        "return not motion.surface and speed * times < usual and abs(motion.speed - usual) <= MEANT * usual",
        "<",
        "<=",
    ): _PI,
    (
        "postproc/judging/judge.py",
        "found = sorted((m for side in sides for m in side.matches), "
        "key=lambda m: (m.drawing is None, m.drawing or 0))",
        "0",
        "1",
    ): _SORTED,
    (
        "postproc/judging/judge.py",
        "return tuple(sorted(dict.fromkeys(findings), key=lambda f: (f.line is None, f.line or 0)))",
        "0",
        "1",
    ): _SORTED,
    ("postproc/judging/points.py", "lead = self.bench.increments.feed_length(motion.feed or 0)", "0", "1"): _NO_FEED,
    (
        "postproc/judging/unsafe_cutting.py",
        'f"F{plain(word, 6)} is a feed per minute under constant surface speed ({notebook.word(Act.SURFACE)}): what "',
        "6",
        "12",
    ): _SIX,
    (
        "postproc/judging/unsafe_cutting.py",
        'f"F{plain(word, 6)} is read per minute: that is {each} and the insert only rubs; "',
        "6",
        "12",
    ): _SIX,
    (
        "postproc/judging/unsafe_cutting.py",
        "what = f\"F{plain(word, 6)} is read per {'minute' if motion.per_minute else 'revolution'}\"",
        "6",
        "12",
    ): _SIX,
    ("postproc/judging/lands.py", "left = (difference > 0) is not inside", ">", ">="): _OFF,
    ("postproc/judging/lands.py", "left = (difference > 0) is not inside", "0", "1"): _OFF,
    (
        "postproc/judging/form.py",
        'side = "metal is left that should be gone" if off[1] > 0 else "metal is gone that should be left"',
        ">",
        ">=",
    ): _OFF,
    (
        "postproc/judging/form.py",
        'side = "metal is left that should be gone" if off[1] > 0 else "metal is gone that should be left"',
        "0",
        "1",
    ): _OFF,
    ("postproc/judging/form.py", "worst = int(np.argmax(np.where(outside, abs(aside), 0)))", "0", "1"): _OFF,
    (
        "postproc/judging/unsafe_rapids.py",
        "over = max((metal.above(piece) for piece in bent), default=0)",
        "0",
        "1",
    ): _TOUCH,
    (
        "postproc/judging/points.py",
        "elif not inside and over > max(self.touch, self._threads.get(motion.station, (0, motion))[0]):",
        "0",
        "1",
    ): _TOUCH,
    (
        "postproc/judging/unsafe_feeds.py",
        "if motion.cycle is not None or u0 != u or h >= h0 or not tool.peck or tool.name in self._peckless_told:",
        ">=",
        ">",
    ): _NO_WAY,
    (
        "postproc/judging/unsafe_feeds.py",
        "if insert.side.axial or u0 != u or h >= h0 or tool.name in self._curve_told:",
        ">=",
        ">",
    ): _NO_WAY,
    ("postproc/judging/unsafe_feeds.py", "lead = max(flat) if u1 > u0 else min(flat)", ">", ">="): _NO_WAY,
    (
        "postproc/judging/points.py",
        "return deep and motion.z1 < motion.z0 and self.turned.at.inside and not self._opened",
        "<",
        "<=",
    ): _NO_WAY,
    ("postproc/judging/unsafe_feeds.py", "if metal.top <= body + self.touch:", "<=", "<"): _SHORT_CUT,
    (
        "postproc/judging/unsafe_feeds.py",
        "if not (motion.x0_known and motion.z0_known) or h >= metal.top:",
        ">=",
        ">",
    ): _SHORT_CUT,
    ("postproc/judging/unsafe_rapids.py", "if box[1] >= near:", ">=", ">"): _SHORT_CUT,
    (_MATCHING, "if targets[t].u0 > recess[1] + reach:", ">", ">="): _SHORT_CUT,
    (
        "postproc/judging/unsafe_cycles.py",
        "if near or not call.peck or not call.x_known or land <= NOWHERE:",
        "<=",
        "<",
    ): _NOTHING_THERE,
    ("postproc/judging/unsafe_cycles.py", "NOWHERE = -FAR // 2", "2", "4"): _NOTHING_THERE,
    ("postproc/judging/unsafe_room.py", "bore = -self._lands[insert.where].highest(back, back + 2)", "2", "4"): _STRIP,
    ("postproc/judging/unsafe_room.py", "across = self.bench.outside.highest(held, held + 2)", "2", "4"): _STRIP,
    ("postproc/cutting/turned.py", "return [(z0 - 1, x0, z0, x0), (z0, x0, z0 + 1, x0)]", "1", "2"): _STRIP,
    ("postproc/judging/line.py", "CHORD = 0.1", "0.1", "0.2"): _FINE,
    ("postproc/judging/line.py", "QUARTER = 32", "32", "64"): _FINE,
    ("postproc/judging/line.py", "MARGIN = 4", "4", "8"): _MARGIN,
    (
        "postproc/judging/line.py",
        "halves, wide = [(u, h / 2) for u, h in self.points], MARGIN * radius",
        "*",
        "+",
    ): _MARGIN,
    (
        "postproc/judging/unsafe_room.py",
        "long = max(part.length, machine.stick_out or 0.0)",
        "0.0",
        "1",
    ): "no part so short is far from anything",
    (
        "postproc/judging/unsafe_speeds.py",
        "usual = max(shop.material.cutting_speed, 0.0 if tool is None else tool.cutting_speed)",
        "0.0",
        "1",
    ): "what cuts is a tool of the shop file",
    (
        "postproc/judging/unsafe_speeds.py",
        "return bench.increments.length(max(abs(motion.x0) if motion.x0_known else 0, abs(motion.x1)))",
        "0",
        "1",
    ): "a diameter of one count is no less than none",
    (
        "postproc/judging/form.py",
        "shifted = [line.places + way * by for line in lines for by in beside for way in (-1, 1)]",
        "+",
        "-",
    ): "both ways are taken",
    (
        "postproc/judging/unsafe_cutting.py",
        "most = min(GREATEST_FEED[units], round(GREATEST_SHARE * tool.width, 6))",
        "6",
        "12",
    ): "it takes off what floating point adds, beyond the twelfth decimal",
    (
        "postproc/judging/form.py",
        "return np.where(left >= missing, np.maximum(left, 0), -np.maximum(missing, 0))",
        ">=",
        ">",
    ): "they are alike only where neither is anything",
    (
        "postproc/judging/form.py",
        "return np.where(left >= missing, np.maximum(left, 0), -np.maximum(missing, 0))",
        "0",
        "1",
    ): "what is off by no more than a count is off by nothing",
    (
        "postproc/judging/leftover.py",
        "window = (increments.count(-part.length), 0) if side.axial else (int(drawn.u[0]), int(drawn.u[-1]))",
        "0",
        "1",
    ): "before the face there is no land to be below",
    (
        "postproc/judging/measure.py",
        "middle = max((target.floor + top) // 2, target.floor + target.rise + drop)",
        "+",
        "-",
    ): "an arc leans by less than a count so near its end",
    (
        "postproc/judging/points.py",
        "deep = max((stands_over(metal, (part.z0, part.x0), (part.z1, part.x1), sign) for part in bent), default=0)",
        "0",
        "1",
    ): _TOUCH,
    (
        "postproc/judging/watch.py",
        "if all(min(piece[1], piece[3]) >= metal.top for piece in pieces):",
        ">=",
        ">",
    ): _SHORT_CUT,
    (
        "postproc/reading/macros.py",
        "if address in NAMES and abs(value - round(value)) > WHOLE_WITHIN:",
        ">",
        ">=",
    ): "no sum of decimals is off by just as much",
    (
        "postproc/reading/plain_moves.py",
        "mode = self._by_text[text] = self._modes[int(text) if text.isdigit() else -1]",
        "1",
        "2",
    ): "no word has a negative number",
    ("postproc/reading/values.py", "self.gear = 1", "1", "2"): "a block that asks for a gear says which",
    (
        "rillwright/atomic.py",
        'temporary = path.parent / f"{TEMPORARY}{secrets.token_hex(8)}.tmp"',
        "8",
        "16",
    ): "either is a name that nothing has",
    ("rillwright/atomic.py", 'BINARY = getattr(os, "O_BINARY", 0)', "0", "1"): "files are opened for writing alone",
    (_MATCHING, "reach = 2 * BESIDE * max(widest, recess[1] - recess[0])", "*", "+"): _WIDER,
    (_MATCHING, "reach = 2 * BESIDE * max(widest, recess[1] - recess[0])", "2", "4"): _WIDER,
    (_MATCHING, "widest = max((target.u1 - target.u0 for target in targets), default=0)", "0", "1"): _WIDER,
    (_MATCHING, _FIRST, "2", "4"): _WIDER,
    (_MATCHING, _FIRST, "0", "1"): "a recess is no wider than the widest",
    (_MATCHING, _FIRST, "<", "<="): _SHORT_CUT,
    ("postproc/judging/unsafe_rapids.py", "AWAY = 1 << 31", "1", "2"): "either is beyond every part",
    (
        "postproc/judging/points.py",
        "self._across = increments.count(2 * part.bore[0][1]) if part.bore else 0",
        "0",
        "1",
    ): "half a count is nearer to the axis than a touch",
    (_STROKES, "least = x1 if x1 < x0 else x0", "<", "<="): "both are the same then",
    (_STROKES, "if not -far <= x1 <= far:", "<=", "<"): _SHORT_CUT,
    (_STROKES, "if not rapid and least < highest:", "<", "<="): _SHORT_CUT,
    (_STROKES, "if not motion.z0 == motion.z1 == before.z1 or motion.x0 != before.x1:", "or", "and"): _SHORT_CUT,
    (_STROKES, "if highest - least > reach or (x1 < x0 and top - x1 > deep):", "<", "<="): _NO_WAY,
    ("postproc/reading/zeros.py", _SLIPPED, "0", "1"): "of two numbers that differ the product is not 1",
}
"""File, the line as it stands, old and new text of changes that nothing could notice, each with the reason."""
EQUIVALENT |= DRAWN | PROGRAMS
