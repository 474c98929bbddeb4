"""Compiled templates are kept for the next process, and never come before the template's own text."""

import sys
from pathlib import Path

import pytest
from jinja2 import DictLoader, Environment

from rillwright.jobsheet.compiled import CompiledTemplates

TEXTS = {"one.html": "{% for n in row %}{{ n }};{% endfor %}"}


@pytest.fixture
def module(tmp_path):
    path = tmp_path / "module.py"
    path.write_text("compiled = 1\n", "ascii")
    return path


def environment(module, folder, monkeypatch=None, texts=TEXTS):
    """A new environment; with `monkeypatch` one in which compiling fails."""
    made = Environment(loader=DictLoader(texts), autoescape=True, bytecode_cache=CompiledTemplates(module, folder))
    if monkeypatch is not None:
        monkeypatch.setattr(made, "compile", lambda *_: pytest.fail("it was compiled"))
    return made


def rendered(made):
    return made.get_template("one.html").render(row=["<", 2])


@pytest.fixture
def kept(module, tmp_path, monkeypatch):
    """The file that the first environment kept."""
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    folder = tmp_path / "kept"
    folder.mkdir()
    assert rendered(environment(module, folder)) == "&lt;;2;"
    (file,) = folder.iterdir()
    return file


def test_the_next_environment_compiles_nothing(module, kept, monkeypatch):
    assert rendered(environment(module, kept.parent, monkeypatch)) == "&lt;;2;"


def test_another_text_of_the_template_is_compiled(module, kept):
    assert rendered(environment(module, kept.parent, texts={"one.html": "{{ row[1] }}"})) == "2"


def test_another_text_of_the_module_is_compiled(module, kept):
    module.write_text("compiled = 2\n", "ascii")
    assert rendered(environment(module, kept.parent)) == "&lt;;2;"
    assert len(list(kept.parent.iterdir())) == 2


@pytest.mark.parametrize("size", [0, 5, 30, 60, -1], ids=lambda size: f"cut at {size}")
def test_a_damaged_file_is_made_anew(module, kept, size):
    whole = kept.read_bytes()
    kept.write_bytes(whole[:size])
    assert rendered(environment(module, kept.parent)) == "&lt;;2;"
    assert kept.read_bytes() == whole


def test_nothing_is_kept_where_nothing_may_be_written(module, tmp_path, monkeypatch):
    assert rendered(environment(module, tmp_path / "missing")) == "&lt;;2;"
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert rendered(environment(module, tmp_path)) == "&lt;;2;"
    assert [path.name for path in tmp_path.iterdir()] == ["module.py"]


def test_they_lie_beside_the_compiled_module():
    place = Path(CompiledTemplates(Path(__file__)).directory)
    assert sys.pycache_prefix or place == Path(__file__).parent / "__pycache__"
