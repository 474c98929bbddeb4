"""Patterns compiled when first asked are those of the library, and each of them compiles."""

import pkgutil
import re
from importlib import import_module

import pytest

import extractor
from extractor.late import ASKED, _Late, late


@pytest.mark.parametrize("name", ASKED)
def test_a_pattern_answers_as_the_library_s_own(name):
    given = ("-", "A1 b22") if name.startswith("sub") else ("A1 b22",)
    for flags in (0, re.IGNORECASE):
        asked = [getattr(made(r"[a-z](\d+)", flags), name)(*given) for made in (late, re.compile)]
        told = [[one.groups() for one in found] if name == "finditer" else found for found in asked]
        assert repr(told[0]) == repr(told[1])


def test_a_pattern_is_compiled_once_and_only_when_it_is_asked(monkeypatch):
    compiled = []
    monkeypatch.setattr(re, "compile", lambda *given: compiled.append(given) or re._compile(*given))
    found = late("a+")
    assert (found.pattern, compiled) == ("a+", [])
    assert found.search("caat").span() == (1, 3)
    assert found.search("dog") is found.fullmatch("b") is None
    assert compiled == [("a+", 0)]
    with pytest.raises(AttributeError):
        found.no_such_thing  # noqa: B018


def test_each_pattern_of_the_room_compiles():
    modules = [import_module(m.name) for m in pkgutil.walk_packages(extractor.__path__, "extractor.")]
    found = {id(p): p for m in modules for p in vars(m).values() if isinstance(p, _Late)}
    assert len(found) > 100
    for one in found.values():
        one.search("")
