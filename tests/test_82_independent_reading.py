"""Drawings nobody tuned the reader to: a seeded share of them is read right, the rest refused, none read wrongly.

The whole figures are printed by tests/bench/reading_rates.py.
"""

from collections import Counter

import pytest
from support.independent.more_traps import MORE
from support.independent.negatives import KINDS, negative
from support.independent.offices import compose
from support.independent.outcomes import Outcome, outcome
from support.independent.recipes import FAMILIES
from support.independent.traps import TRAPS, trapped

SHARE = 5  # sheets of each family
NEVER = {"wrong", "warned", "crash"}


def _told(found: dict[int, Outcome]) -> str:
    return "; ".join(f"{seed}: {o.word}: {o.why[:200]}" for seed, o in found.items() if o.word in {*NEVER, "refused"})


@pytest.mark.parametrize("family", [name for name in FAMILIES if name != "hard"])
def test_no_sheet_of_a_family_is_read_wrongly(family: str) -> None:
    found = {seed: outcome(compose(FAMILIES[family](seed))) for seed in range(SHARE)}
    words = Counter(o.word for o in found.values())
    assert not NEVER & set(words), _told(found)
    assert words["refused"] <= SHARE // 5, _told(found)


def test_strokes_lying_on_the_view_never_mislead_in_silence() -> None:
    """Loose hatching, marks and helper lines may cost a caution or a refusal, not a wrong answer without a word."""
    found = {seed: outcome(compose(FAMILIES["hard"](seed))) for seed in range(SHARE)}
    words = Counter(o.word for o in found.values())
    assert not {"wrong", "crash"} & set(words), _told(found)
    assert words["right"] >= SHARE * 3 // 4, _told(found)


@pytest.mark.parametrize(("old", "name"), [(k % 2 == 1, name) for k, name in enumerate([*TRAPS, *MORE])])
def test_oddities_of_real_sheets(name: str, old: bool) -> None:
    found = outcome(trapped({**TRAPS, **MORE}[name], 3, old))
    assert found.word in ("right", "refused-ok"), found.why


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_no_turned_part_is_refused(kind: str) -> None:
    found = outcome(negative(kind, 1, True))
    assert found.word in ("refused-ok", "right"), f"{kind}: {found.word}: {found.why}"
