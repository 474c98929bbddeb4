"""The rooms of `operator_changes.py`: their modules, the tests that judge them, and what changes nothing."""

ROOMS = {
    "judging": (
        "postproc/judging/*.py",
        "tests/postproc/test_[4-9]*.py tests/postproc/test_28*.py tests/rillwright/test_31_compare_picture.py",
    ),
    "limits": (
        "extractor/limits.py extractor/distance.py extractor/places.py extractor/side.py extractor/sizing/spacing.py",
        "tests/extractor/test_57_distances.py tests/extractor/test_6[0-9]_places.py tests/extractor/test_69_edges.py "
        "tests/extractor/test_60_tol*.py tests/planner/test_15_values.py tests/test_89_printed_limits.py",
    ),
    "interpreter": (
        "postproc/reading/*.py",
        "tests/postproc/*.py",
    ),
    "placing": (
        "extractor/placing.py extractor/laying.py extractor/together.py",
        "tests/extractor/test_46_views*.py tests/extractor/test_49*.py tests/extractor/test_56_front.py "
        "tests/extractor/test_36*.py tests/extractor/test_45*.py tests/extractor/test_54*.py "
        "tests/extractor/test_40*.py tests/extractor/test_48_ledger.py",
    ),
    "folder": (
        "rillwright/folder/placing.py rillwright/atomic.py rillwright/job.py",
        "tests/rillwright/test_10*.py tests/rillwright/test_63_watch*.py tests/rillwright/test_24*.py "
        "tests/rillwright/test_66_watch_faults_by*.py tests/rillwright/test_20*.py",
    ),
    "settings": (
        "planner/settings/contradictions.py postproc/dialect.py rillwright/outcome.py planner/planning.py",
        "tests/planner/test_10*.py tests/planner/test_50*.py tests/planner/test_91*.py tests/rillwright/test_19*.py "
        "tests/rillwright/test_2[0-3]*.py tests/postproc/test_03*.py tests/postproc/test_1[0-4]*.py "
        "tests/postproc/test_3[68]*.py",
    ),
}
"""Modules and tests of each room."""
_SIGN = "a sign is 1 or -1"
EQUIVALENT: dict[tuple[str, str, str, str], str] = {
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
        "extractor/sizing/spacing.py",
        "if deviations is not None and nominal < abs(one.at):",
        "<",
        "<=",
    ): "nothing is printed between two places at one place",
    (
        "extractor/sizing/spacing.py",
        "return (low, high) if floor.at > other.at else (-high + 0.0, -low + 0.0)",
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
        "postproc/reading/formula.py",
        "@lru_cache(maxsize=2048)",
        "2048",
        "4096",
    ): "how much is kept, not what",
    (
        "extractor/places.py",
        "LEAST_WEIGHT = 1e-9",
        "1e-9",
        "2e-09",
    ): "either is as good as nothing beside a weight of 1",
    (
        "postproc/judging/leftover.py",
        "return [self._row[k] for k in np.flatnonzero((self._low < stretch[1]) & (self._high > stretch[0])).tolist()]",
        "<",
        "<=",
    ): "cutting out what only touches a stretch leaves it as it is",
    (
        "postproc/judging/leftover.py",
        "return [self._row[k] for k in np.flatnonzero((self._low < stretch[1]) & (self._high > stretch[0])).tolist()]",
        ">",
        ">=",
    ): "cutting out what only touches a stretch leaves it as it is",
    (
        "extractor/places.py",
        "for place, way in ((one.end, 1), (one.start, -1)):",
        "1",
        "2",
    ): "only the sign is asked for",
    (
        "postproc/reading/zeros.py",
        "return len(a) == len(b) and sum(p != q for p, q in zip(a, b, strict=True)) == 1 and one * other > 0",
        ">",
        ">=",
    ): "neither number is 0 here",
    (
        "postproc/reading/words.py",
        "yield _stop(rest[MOST_FINDINGS].code, rest[MOST_FINDINGS].line or 0, message)",
        "0",
        "1",
    ): "what is odd about a text has its line",
    (
        "extractor/placing.py",
        "loose = one.axis.fold(np.array([network.point(n) for n in free]).reshape(-1, 2))",
        "1",
        "2",
    ): "any negative number asks numpy for what is left",
    (
        "extractor/laying.py",
        "return [float(z) for z, _ in folded.axis.fold(np.array(places).reshape(-1, 2))]",
        "1",
        "2",
    ): "any negative number asks numpy for what is left",
}
"""File, the line as it stands, old and new text of changes that nothing could notice, each with the reason."""
