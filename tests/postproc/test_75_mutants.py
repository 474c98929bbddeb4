"""One character of a right program changed, or one slip made: whatever then cuts otherwise is told.

Outside check: the slow simulation with polygons (shapely) says whether the mutant cuts otherwise. The full figure is
`tests/bench/mutants.py`; here a seeded share of it.
"""

from support.hands.mutants import slipped, tally


def test_every_mutant_that_cuts_otherwise_is_told():
    found = tally(120, seed=3, most_moves=20_000)
    assert found.missed == []
    assert found.told > 60
    assert found.left_out < 8
    assert found.harmless > 24


def test_every_slip_that_cuts_otherwise_is_told():
    found = tally(80, seed=9, most_moves=20_000, change=slipped)
    assert found.missed == []
    assert found.told > 36
    assert found.harmless > 8


def test_the_check_can_fail():
    """With a verdict that is always content, the slow simulation finds mutants that it let pass."""
    assert tally(120, seed=3, content=True, most_moves=2_000).missed
