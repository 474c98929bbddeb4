"""The `dataclass` of values: frozen classes share their methods, which the library compiles for each class.

Rules: to type checkers, `replace`, `fields` and pickle a value is a dataclass of the standard library, and it behaves
as one. That compiles six methods for each frozen class when its module is imported; with 300 classes it was a quarter
of the time in which the tool starts. Classes that aren't frozen go to the library. A class of which many values are
made gets an `__init__` of its own after a while: the shared one takes four times as long.
"""

import dataclasses
from collections.abc import Callable, Iterator, Set
from itertools import count
from operator import attrgetter
from typing import TYPE_CHECKING, Any, NamedTuple, Never

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(cls: Any = None, /, *, frozen: bool = False, eq: bool = True, kw_only: bool = False) -> Any:
        """The library's decorator of this name, with the options that are used here."""

        def made(one: type[Any]) -> type[Any]:
            """The class as a value, or as the library makes it."""
            return _frozen(one, eq, kw_only) if frozen else dataclasses.dataclass(eq=eq, kw_only=kw_only)(one)

        return made if cls is None else made(cls)


class _Fields(NamedTuple):
    """What the shared methods need to know of a class and its fields.

    `makers` make the defaults that no two values share; `made` counts the values.
    """

    owner: type[Any]
    names: Set[str]
    defaults: dict[str, Any]
    makers: dict[str, Callable[[], Any]]
    shown: tuple[str, ...]
    compared: Callable[[Any], Any]
    made: Iterator[int]


def _frozen(cls: type[Any], eq: bool, kw_only: bool) -> type[Any]:
    """The class with its fields known to the library, and with the shared methods that it has none of its own for."""
    made = dataclasses.dataclass(init=False, repr=False, eq=False, kw_only=kw_only)(cls)
    told, missing = dataclasses.fields(made), dataclasses.MISSING
    compared = [f.name for f in told if f.compare]
    made._fields_of_value = _Fields(
        owner=made,
        names=dict.fromkeys(f.name for f in told).keys(),
        defaults={f.name: f.default for f in told if f.default is not missing},
        makers={f.name: f.default_factory for f in told if f.default_factory is not missing},
        shown=tuple(f.name for f in told if f.repr),
        compared=attrgetter(*compared) if compared else _nothing,
        made=count(1),
    )
    for name, method in (SHARED | BY_VALUE if eq else SHARED).items():
        if vars(made).get(name) is None:  # Python itself sets `__hash__` to None beside an `__eq__`
            setattr(made, name, method)
    return made


def _nothing(_value: object) -> None:
    """What two values without fields to compare are compared by."""


def _init(self: Any, /, *args: Any, **named: Any) -> None:
    """Set every field: those given, then defaults."""
    known, held = self._fields_of_value, self.__dict__
    if next(known.made) == OFTEN:
        known.owner.__init__ = _own_init(known)
    held.update(known.defaults)
    held.update(named)
    twice = False
    if args:
        places = self.__match_args__
        twice = len(args) > len(places) or not named.keys().isdisjoint(places[: len(args)])
        held.update(zip(places, args, strict=False))
    for name, maker in known.makers.items():
        if name not in held:
            held[name] = maker()
    if twice or held.keys() != known.names:
        wrong = ", ".join(sorted(held.keys() ^ known.names)) or "one that is given twice"
        raise TypeError(f"{type(self).__qualname__}() is called with fields that it lacks, or without: {wrong}")
    if hasattr(self, "__post_init__"):
        self.__post_init__()


def _own_init(known: _Fields) -> Any:
    """An `__init__` that does the same for one class, compiled for its fields."""
    own = "_".join(["", *known.names])  # no field has this name
    fields = sorted(dataclasses.fields(known.owner), key=lambda f: f.kw_only is True)
    makers = {name: f"{own}.makers[{name!r}]" for name in known.makers}
    defaults = makers | {name: f"{own}.defaults[{name!r}]" for name in known.defaults}
    given = [f"{f.name}={defaults[f.name]}" if f.name in defaults else f.name for f in fields]
    if fields and fields[-1].kw_only:
        given.insert(sum(not f.kw_only for f in fields), "*")
    held = {name: f"{name} if {name} is not {maker} else {maker}()" for name, maker in makers.items()}
    pairs = ", ".join(f"{name!r}: {held.get(name, name)}" for name in known.names)
    checked = f"; {own}_.__post_init__()" if hasattr(known.owner, "__post_init__") else ""
    room: dict[str, Any] = {own: known}
    exec(f"def __init__({', '.join([f'{own}_', '/', *given])}): {own}_.__dict__.update({{{pairs}}}){checked}", room)
    return room["__init__"]


def _repr(self: Any) -> str:
    said = ", ".join(f"{name}={getattr(self, name)!r}" for name in self._fields_of_value.shown)
    return f"{type(self).__qualname__}({said})"


def _eq(self: Any, other: Any) -> Any:
    if other is self:
        return True
    if other.__class__ is not self.__class__:
        return NotImplemented
    compared = self._fields_of_value.compared
    return compared(self) == compared(other)


def _hash(self: Any) -> int:
    return hash(self._fields_of_value.compared(self))


def _setattr(self: Any, name: str, value: object) -> Never:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _delattr(self: Any, name: str) -> Never:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


SPARE = {"spare": True}
"""Of a field: a record leaves it out where it has its default."""

OFTEN = 100
"""So many values of a class are made before its own `__init__` is compiled, which takes as long as so many of them."""

SHARED = {"__init__": _init, "__repr__": _repr, "__setattr__": _setattr, "__delattr__": _delattr}
BY_VALUE = {"__eq__": _eq, "__hash__": _hash}

__all__ = ["SPARE", "dataclass"]
