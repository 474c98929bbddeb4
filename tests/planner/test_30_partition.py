"""The fewest even rows: against brute force, a table of known answers, and in bounded time for very many grooves."""

from functools import cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.rows import TABLE, rows_of

from planner.rows.even import GrowingRow, ShiftBounds, settle
from planner.rows.long_rows import long_rows
from planner.rows.partition import EXACT_UP_TO, fewest_rows


def is_row(windows):
    """Brute force: some start and some shift put a whole count into every window."""
    if len(windows) == 1:
        return True
    (low, high), (low2, high2) = windows[0], windows[1]
    return any(
        all(lo <= start + k * shift <= hi for k, (lo, hi) in enumerate(windows))
        for start in range(low, high + 1)
        for shift in range(max(1, low2 - start), high2 - start + 1)
    )


def least(windows):
    """Brute force over all ways to share out, by dynamic programming over the members still to be placed."""
    count = len(windows)

    @cache
    def rest(left):
        if not left:
            return 0
        first, others = left[0], left[1:]
        best = len(left)
        for size in range(len(others) + 1):
            for chosen in combinations(others, size):
                if row_ok((first, *chosen)):
                    best = min(best, 1 + rest(tuple(i for i in others if i not in chosen)))
        return best

    @cache
    def row_ok(members):
        return is_row([windows[m] for m in members])

    return rest(tuple(range(count)))


def check(windows, rows):
    """Every groove once, and every count inside its window."""
    assert sorted(m for row in rows for m in row.members) == list(range(len(windows)))
    for row in rows:
        assert list(row.members) == sorted(row.members)
        for k, member in enumerate(row.members):
            low, high = windows[member]
            assert low <= row.start + k * row.shift <= high
        assert (row.shift > 0) == (len(row.members) > 1)


def spread(places, slack):
    return [(p - slack, p + slack) for p in places]


PLACES = st.lists(st.integers(0, 60), min_size=1, max_size=9, unique=True).map(sorted)


@settings(max_examples=50)
@given(PLACES, st.sampled_from([10, 30]), st.integers(0, 3))
def test_as_few_as_brute_force(places, scale, slack):
    windows = spread([p * scale for p in places], slack)
    rows = fewest_rows(windows, [p * scale for p in places])
    check(windows, rows)
    assert len(rows) == least(tuple(windows))


GAPS = st.lists(st.tuples(st.integers(0, 300), st.integers(0, 4)), min_size=2, max_size=6)


def stretched(gaps):
    place, windows = 0, []
    for gap, slack in gaps:
        place += gap + 9
        windows.append((place - slack, place + slack))
    return windows


@settings(max_examples=40)
@given(GAPS)
def test_a_chain_is_a_row_just_when_brute_force_says_so(gaps):
    windows, chain = stretched(gaps), GrowingRow(())
    for window in windows:
        chain = chain.extended(window) if chain else None
    assert (chain is not None) == is_row(windows)


@settings(max_examples=40)
@given(st.one_of(GAPS, st.lists(st.tuples(st.integers(50, 54), st.integers(0, 4)), min_size=2, max_size=60)))
def test_bounds_by_the_hull_are_those_of_every_pair(gaps):
    windows, bounds = stretched(gaps), ShiftBounds()
    for place, window in enumerate(windows):
        left = bounds.add(window)
        pairs = [(k, j) for k in range(place + 1) for j in range(k)]
        low = max((-((windows[j][1] - windows[k][0]) // (k - j)) for k, j in pairs), default=1)
        high = min(((windows[k][1] - windows[j][0]) // (k - j) for k, j in pairs), default=10**12)
        assert (bounds.low, bounds.high, left) == (max(low, 1), high, max(low, 1) <= high)
        if not left:
            return


@pytest.mark.parametrize(("places", "count"), [row[1:] for row in TABLE], ids=[row[0] for row in TABLE])
def test_the_table_of_best_partitions(places, count):
    windows = spread(places, 2)
    rows = fewest_rows(windows, places)
    check(windows, rows)
    assert len(rows) == count
    if len(places) <= 9:
        assert least(tuple(windows)) == count, "the table itself is held to brute force"


def test_the_table_has_forty_rows():
    assert len(TABLE) >= 40


def test_the_longest_run_is_kept_whole():
    rows = fewest_rows(spread([0, 300, 500, 1000, 1500], 1), [0, 300, 500, 1000, 1500])
    assert [row.members for row in rows] == [(0, 2, 3, 4), (1,)]


def test_three_uneven_are_the_nearest_pair_and_one():
    rows = fewest_rows(spread([0, 500, 1200], 1), [0, 500, 1200])
    assert [row.members for row in rows] == [(0, 1), (2,)]


def test_start_and_shift_spread_the_error():
    # Thirds of an inch are no whole counts: 3333.3 each. The best start splits what is left over.
    aims = [k * 10_000 / 3 for k in range(10)]
    windows = [(round(a) - 10, round(a) + 10) for a in aims]
    (row,) = fewest_rows(windows, aims)
    assert row.shift == 3333
    errors = [row.start + k * row.shift - a for k, a in enumerate(aims)]
    assert max(map(abs, errors)) <= 2.0
    assert min(errors) < 0 < max(errors)


def test_settle_refuses_what_is_no_row():
    with pytest.raises(ValueError, match="no even row"):
        settle((0, 1, 2), [(0, 0), (10, 10), (25, 25)], [0, 10, 25])


def test_rounding_that_adds_up_splits_a_row():
    # 40 grooves a third of an inch apart with 1 count of room: 3333 a step would be off by 13 at the end.
    aims = [k * 10_000 / 3 for k in range(25)]
    rows = fewest_rows([(round(a) - 1, round(a) + 1) for a in aims], aims)
    check([(round(a) - 1, round(a) + 1) for a in aims], rows)
    assert 1 < len(rows) <= 4


@pytest.mark.parametrize("span", [26, 32, 40, 60, 100])
def test_two_dozen_are_exact_and_quick(span):
    places = [((i * 7919) % span) for i in range(400)]
    places = sorted(set(places))[:EXACT_UP_TO] if span < 40 else sorted({(i * i * 13 + i) % span for i in range(99)})
    places = [p * 100 for p in places][:EXACT_UP_TO]
    rows = fewest_rows(spread(places, 2), places)
    check(spread(places, 2), rows)


class TestVeryMany:
    def test_one_long_row(self):
        places = [300 * i for i in range(1000)]
        assert [len(r.members) for r in fewest_rows(spread(places, 5), places)] == [1000]

    def test_two_interleaved(self):
        places = rows_of((0, 300, 500), (130, 410, 500))
        assert len(fewest_rows(spread(places, 5), places)) <= 12

    def test_irregular_ones_are_paired(self):
        places = sorted({(i * i * 7919 + i * 13) % 999_983 for i in range(1000)})
        windows = spread(places, 0)
        rows = fewest_rows(windows, places)
        check(windows, rows)
        assert len(rows) <= len(places) // 2 + 1

    @given(st.lists(st.integers(0, 10_000), min_size=25, max_size=60, unique=True).map(sorted))
    @settings(max_examples=6)
    def test_every_one_once_and_in_its_window(self, places):
        windows = spread([p * 20 for p in places], 4)
        check(windows, fewest_rows(windows, [p * 20 for p in places]))

    @given(st.lists(st.tuples(st.integers(0, 400), st.integers(0, 3)), min_size=25, max_size=60))
    @settings(max_examples=6)
    def test_windows_of_unlike_width(self, gaps):
        windows = stretched(gaps)
        check(windows, fewest_rows(windows, [(low + high) / 2 for low, high in windows]))

    def test_an_odd_count_between_two_even_ones_is_no_third(self):
        # From 0 over 9 to 11 a third comes at 18, 20 or 22; twenty-four more far apart make it many.
        windows = [(0, 0), (9, 11), (19, 19)] + [(p, p) for p in (1000 * 2**k for k in range(1, 25))]
        rows = fewest_rows(windows, [low for low, _ in windows])
        check(windows, rows)
        assert (0, 1, 2) not in [row.members for row in rows]

    @pytest.mark.parametrize("share", [0.5, 0.8, 1.0])
    def test_a_thousand_are_grouped(self, share):
        # Every so many of a grid, each a little off its place; the share tells how many of the grid are there.
        kept = [i for i in range(int(1000 / share)) if (i * 7919) % 100 < 100 * share]
        places = [3000 * i + (i * i * 37) % 41 - 20 for i in kept]
        windows = spread(places, 15)
        check(windows, fewest_rows(windows, places))

    def test_any_three_at_one_pitch_are_found_among_what_is_left(self):
        # Sixty threes, no pitch twice: no vote finds them.
        places = sorted(100_003 * k**3 + i * (1000 + 7 * k * k) for k in range(60) for i in range(3))
        assert len(fewest_rows(spread(places, 0), places)) <= 60

    def test_few_are_no_worse_than_the_exact_answer_by_much(self):
        places = rows_of((0, 500, 6), (230, 700, 6), (90, 330, 6))
        exact = len(fewest_rows(spread(places, 1), places))
        assert len(long_rows(spread(places, 1))) <= exact + 3
