"""Any words at all on the command line end in a status and one sentence; never in a traceback, never in a file."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.door import run
from support.drawings import draw_ring

from rillwright import cli

OPTIONS = [
    "--out", "--shop", "--dialect", "--set", "--units", "--front", "--at", "--scale", "--accept", "--json", "--number",
    "--explain", "--overlay", "--against", "--stock", "--picture", "--csv", "--nonsense", "-x", "--", "-",
]  # fmt: skip
VALUES = [
    "mm",
    "in",
    "right",
    "top",
    "0",
    "-1",
    "1e9",
    "nan",
    "1,2",
    "2:1",
    "peck=0.5",
    "=",
    "two-block",
    "",
    "a b",
    "é",
]
COMMANDS = [name for name in cli.COMMANDS if name != "watch"]


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    folder = tmp_path_factory.mktemp("words")
    draw_ring(folder / "ring.dxf")
    (folder / "shop.toml").write_text('units = "mm"\n')
    (folder / "four.nc").write_text("%\nO1\nG21 G99\nG0 X42. Z-13.\nG1 X34. F0.1\nM30\n%\n")
    return folder


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    command=st.sampled_from(COMMANDS),
    words=st.lists(
        st.one_of(
            st.sampled_from(OPTIONS),
            st.sampled_from(VALUES),
            st.sampled_from(["{desk}/ring.dxf", "{desk}/four.nc", "{desk}/shop.toml", "{desk}", "{desk}/none"]),
            st.text(max_size=12).filter(lambda word: "\0" not in word and "/" not in word),
        ),
        max_size=6,
    ),
)
def test_any_words(desk, command, words, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    # Sheets and records that an earlier call left may be written anew; what was given may not.
    before = {desk / name: (desk / name).read_bytes() for name in ("ring.dxf", "shop.toml", "four.nc")}
    result = run(command, *(word.replace("{desk}", str(desk)) for word in words))
    assert result.exit_code in (0, 1, 2), (words, result.output)
    assert "Traceback" not in result.output
    assert "our fault" not in result.output
    if result.exit_code == 2:
        assert len(result.stderr.strip().splitlines()) <= 1 or "Usage:" in result.output
    for path, data in before.items():
        assert path.read_bytes() == data
