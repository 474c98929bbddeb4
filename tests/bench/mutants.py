"""Five thousand one-character mutants of right programs: how many are told, how many cut nothing else.

Run as `python -m pytest tests/bench/mutants.py -s`; prints the figures.
"""

from support.mutants import tally


def test_five_thousand_mutants():
    found = tally(5_000, seed=1)
    print(f"\n5000 mutants: {found.told} told, {found.harmless} cut nothing else, {len(found.missed)} missed")
    for code, number in found.codes.most_common(12):
        print(f"  {number:5}  {code}")
    assert found.missed == []
