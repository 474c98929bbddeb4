"""A value is to its users what a frozen dataclass of the standard library is, which is the oracle, class by class."""

import copy
import dataclasses
import pickle
from functools import cached_property

import pytest

from extractor import values
from planner.increment import Increments


def classes(dataclass):
    """The same classes under one decorator or the other."""

    @dataclass(frozen=True)
    class Plain:
        a: int
        b: tuple[int, ...] = ()
        c: list[int] = dataclasses.field(default_factory=list)
        d: float = dataclasses.field(default=0.5, repr=False, compare=False)

        def __post_init__(self):
            if self.a < 0:
                raise ValueError("less than nothing")

        @cached_property
        def twice(self):
            return 2 * self.a

    @dataclass(frozen=True)
    class More(Plain):
        e: str = "e"

    @dataclass(frozen=True, kw_only=True)
    class Named:
        self: int = 1
        fresh: int

    @dataclass(frozen=True, eq=False)
    class Alone:
        a: int

    @dataclass(frozen=True)
    class Odd:
        a: object

        def __eq__(self, other):
            return self.a is other

    @dataclass(frozen=True)
    class Empty:
        pass

    @dataclass
    class Open:
        a: int

    return Plain, More, Named, Alone, Odd, Empty, Open


HERE, LIBRARY = classes(values.dataclass), classes(dataclasses.dataclass)
PLAIN, MORE, NAMED, ALONE, ODD, EMPTY, OPEN = range(7)
CALLS = [
    (PLAIN, (1,), {}),
    (PLAIN, (1, (2,)), {"c": [3], "d": 4.0}),
    (PLAIN, (1, (2,), [3], 4.0), {}),
    (PLAIN, (1, (2,), [3], 4.0, 5), {}),
    (PLAIN, (1,), {"a": 1}),
    (PLAIN, (), {}),
    (PLAIN, (-1,), {}),
    (PLAIN, (1,), {"z": 1}),
    (MORE, (1, (), [2]), {"e": "f"}),
    (NAMED, (), {"fresh": 2}),
    (NAMED, (), {"fresh": 2, "self": 3}),
    (NAMED, (1,), {}),
    (ALONE, (1,), {}),
    (ODD, (1,), {}),
    (EMPTY, (), {}),
    (OPEN, (1,), {}),
]
OTHER = object()
DEEDS = (
    lambda c, make: make(),
    lambda c, make: make() == make(),
    lambda c, make: make() == OTHER,
    lambda c, make: hash(make()) == hash(make()),
    lambda c, make: copy.deepcopy(make()),
    lambda c, make: setattr(make(), "a", 3),
    lambda c, make: delattr(make(), "a"),
    lambda c, make: dataclasses.asdict(make()),
    lambda c, make: dataclasses.replace(make(), a=7),
    lambda c, make: dataclasses.replace(make(), z=1),
    lambda c, make: make().c is make().c,
    lambda c, make: (make().twice, make()),
    lambda c, make: [(f.name, f.compare, f.repr, f.kw_only) for f in dataclasses.fields(c)],
    lambda c, make: (c.__match_args__, c.__qualname__),
)


def told(deed, kind, args, named):
    """What comes of it, in words; of a call that is wrong the kind of fault alone."""
    try:
        return str(deed(kind, lambda: kind(*args, **named)))
    except TypeError:
        return "TypeError"
    except Exception as error:
        return f"{type(error).__name__}: {error}"


OFTEN = classes(values.dataclass)
for which, args, named in CALLS * values.OFTEN:
    told(lambda c, make: make(), OFTEN[which], args, named)


def test_a_class_of_many_values_has_an_init_of_its_own():
    assert OFTEN[PLAIN].__init__ is not HERE[PLAIN].__init__ is HERE[NAMED].__init__


@pytest.mark.parametrize(("which", "args", "named"), CALLS)
def test_a_value_is_made_told_compared_and_kept_as_the_library_does(which, args, named):
    for deed in DEEDS:
        wanted = told(deed, LIBRARY[which], args, named)
        assert told(deed, HERE[which], args, named) == told(deed, OFTEN[which], args, named) == wanted


@pytest.mark.parametrize("kinds", [HERE, LIBRARY])
def test_values_differ_by_what_is_compared_and_by_their_class(kinds):
    assert kinds[PLAIN](3) != kinds[PLAIN](4)
    assert kinds[PLAIN](3, d=1.0) == kinds[PLAIN](3, d=2.0)
    assert kinds[PLAIN](3) != kinds[MORE](3)
    assert kinds[ALONE](3) != kinds[ALONE](3)
    assert len({kinds[NAMED](fresh=1), kinds[NAMED](fresh=1), kinds[NAMED](fresh=2)}) == 2


def test_values_of_the_tree_go_to_another_process_and_back():
    counts = Increments.of("mm")
    assert pickle.loads(pickle.dumps(counts)) == counts
