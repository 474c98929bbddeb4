"""The fewest even rows against a second exact method: an integer program over all rows, solved by a general library.

scipy.optimize.milp (the HiGHS solver) chooses among every row that some start and some shift make, found here by trying
all starts and shifts count by count, so that each groove is taken exactly once and as few as possible are chosen.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_matrix
from support.rows import TABLE

from planner.rows.partition import BETTERED_UP_TO, EXACT_UP_TO, fewest_rows


def every_row(windows):
    """All rows as members. The windows lie apart, so that a count belongs to one groove at most."""
    owner = {count: member for member, (low, high) in enumerate(windows) for count in range(low, high + 1)}
    found = {(member,) for member in range(len(windows))}
    for member, (low, high) in enumerate(windows):
        for start in range(low, high + 1):
            for second in owner:
                if owner[second] > member:
                    row, place = [member], second
                    while place in owner:
                        row.append(owner[place])
                        found.add(tuple(row))
                        place += second - start
    return sorted(found)


def least(windows):
    """The fewest rows that take every groove once."""
    rows = every_row(windows)
    entries = [(member, column) for column, row in enumerate(rows) for member in row]
    members, columns = np.array(entries).T
    takes = coo_matrix((np.ones(len(entries)), (members, columns)), shape=(len(windows), len(rows)))
    answer = milp(
        np.ones(len(rows)),
        constraints=LinearConstraint(takes.tocsr(), 1, 1),
        integrality=np.ones(len(rows)),
        bounds=Bounds(0, 1),
    )
    assert answer.status == 0, "solved to the end"
    return round(answer.fun)


def apart(places, room):
    """Sorted places without those that lie nearer to the one before than `room`."""
    kept = []
    for place in sorted(set(places)):
        if not kept or place - kept[-1] >= room:
            kept.append(place)
    return kept


@st.composite
def interleaved(draw):
    """Two to four rows of several pitches over each other."""
    runs = st.tuples(st.integers(0, 90), st.integers(15, 60), st.integers(3, 9))
    several = draw(st.lists(runs, min_size=2, max_size=4))
    return [10 * (first + k * pitch) for first, pitch, count in several for k in range(count)]


@st.composite
def with_gaps(draw):
    """One pitch with places missing, and a stray or two."""
    count, pitch = draw(st.integers(12, 28)), draw(st.sampled_from([150, 200, 333]))
    gone = draw(st.sets(st.integers(0, count - 1), max_size=count - 10))
    strays = draw(st.lists(st.integers(0, count * pitch), max_size=2))
    return [k * pitch for k in range(count) if k not in gone] + strays


@st.composite
def jittered(draw):
    """One pitch, every place a little off."""
    count = draw(st.integers(10, 24))
    return [k * 100 + draw(st.integers(-4, 4)) for k in range(count)]


ANYWHERE = st.lists(st.integers(0, 60), min_size=10, max_size=24, unique=True).map(lambda some: [10 * p for p in some])


@settings(max_examples=18, deadline=None)
@given(st.one_of(interleaved(), with_gaps(), jittered(), ANYWHERE), st.data())
def test_up_to_two_dozen_are_as_few_as_the_integer_program_says(places, data):
    slacks = data.draw(st.lists(st.integers(0, 2), min_size=len(places), max_size=len(places)), label="slacks")
    places = apart(places, 6)[:EXACT_UP_TO]
    windows = [(p - s, p + s) for p, s in zip(places, slacks, strict=False)]
    assert len(fewest_rows(windows, places)) == least(windows)


@pytest.mark.parametrize("row", [row for row in TABLE if 10 <= len(row[1]) <= EXACT_UP_TO], ids=lambda row: row[0])
def test_the_table_of_best_partitions_is_held_to_it_too(row):
    _, places, count = row
    assert least([(p - 2, p + 2) for p in places]) == count


@settings(max_examples=4, deadline=None)
@given(st.lists(st.integers(0, 90), min_size=EXACT_UP_TO + 1, max_size=40, unique=True))
def test_more_than_two_dozen_are_nearly_as_few(places):
    places = sorted(10 * p for p in places)
    assert len(places) <= BETTERED_UP_TO
    windows = [(p - 1, p + 1) for p in places]
    best = least(windows)
    assert best <= len(fewest_rows(windows, places)) <= best + 2


def test_the_integer_program_tells_more_from_fewer():
    assert least([(0, 0), (10, 10), (20, 20), (33, 33)]) == 2
    assert least([(0, 0), (10, 10), (20, 20), (30, 30)]) == 1
    assert least([(0, 0), (10, 10), (24, 24), (70, 70)]) == 2
