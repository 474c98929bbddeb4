"""Needless rapids are struck out, and nothing else: the tool still passes every place where something happens."""

from hypothesis import given
from hypothesis import strategies as st
from support.rapids import needless_rapids

from planner.steps import Coolant, Cut, Dwell, Rapid, ToolCall
from planner.tidy import tidied

OUT, HOME = Rapid(x=42_000), Rapid(x=200_000)


def test_out_and_home_is_one_move_of_the_earlier_part():
    assert tidied([(Cut(800, x=34_000), OUT), (HOME, Rapid(z=100_000))]) == [
        (Cut(800, x=34_000), HOME),
        (Rapid(z=100_000),),
    ]


def test_out_and_down_again_are_two():
    steps = (Cut(800, x=34_000), OUT, Rapid(x=36_000), Cut(800, x=30_000))
    assert tidied([steps]) == [steps]


def test_to_where_the_tool_is_already():
    assert tidied([(OUT, Rapid(z=-13_000), OUT, Rapid(z=-13_000), Dwell(100))]) == [(OUT, Rapid(z=-13_000), Dwell(100))]


def test_another_tool_stands_elsewhere_at_the_same_numbers():
    steps = (HOME, ToolCall(2, 2), HOME, Coolant(True))
    assert tidied([steps]) == [steps]


def test_what_happens_between_parts_two_rapids():
    steps = (Cut(800, x=34_000), OUT, Coolant(False), HOME)
    assert tidied([steps]) == [steps]


PLACES = st.integers(-3, 3)
STEPS = st.one_of(
    st.builds(Rapid, x=PLACES),
    st.builds(Rapid, z=PLACES),
    st.builds(Cut, st.just(800), x=PLACES),
    st.builds(Cut, st.just(800), z=PLACES),
    st.builds(Cut, st.just(800), x=PLACES, z=PLACES),
    st.builds(ToolCall, st.integers(1, 2), st.just(1)),
    st.just(Dwell(100)),
)


def trail(parts):
    """Where the tool is at everything but a rapid, before and after it."""
    x = z = None
    for step in (step for steps in parts for step in steps):
        before = (x, z)
        x = getattr(step, "x", None) if getattr(step, "x", None) is not None else x
        z = getattr(step, "z", None) if getattr(step, "z", None) is not None else z
        if not isinstance(step, Rapid):
            yield step, before, (x, z)
    yield x, z


@given(st.lists(st.lists(STEPS, max_size=8).map(tuple), max_size=4))
def test_every_cut_begins_and_ends_where_it_did(parts):
    done = tidied(parts)
    assert len(done) == len(parts)
    assert list(trail(done)) == list(trail(parts))
    assert needless_rapids([step for steps in done for step in steps]) == []
