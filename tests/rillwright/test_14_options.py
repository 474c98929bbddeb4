"""Options that several commands share: what they take, what they refuse, and the settings they become."""

import click
import pytest
from click.testing import CliRunner

from rillwright.cli import COMMANDS, main
from rillwright.options import READING, SHOP, PointType, RatioType, limit, options


@pytest.mark.parametrize(
    ("text", "point"), [("120,85.5", (120.0, 85.5)), ("-1e1, 2", (-10.0, 2.0)), ("0,0", (0.0, 0.0))]
)
def test_a_point_is_two_numbers(text, point):
    assert PointType().convert(text, None, None) == point


@pytest.mark.parametrize("text", ["", "1", "1,2,3", "a,b", "nan,1", "inf,0", "1;2"])
def test_anything_else_is_no_point(text):
    with pytest.raises(click.BadParameter, match="write X,Y"):
        PointType().convert(text, None, None)


@pytest.mark.parametrize(
    ("text", "ratio"),
    [("2", 2.0), ("2:1", 2.0), ("1:2", 0.5), ("2.6:1", 2.6), ("0.5", 0.5), ("1:10000", 1e-4), ("10000", 1e4)],
)
def test_a_scale_is_written_as_drawings_do(text, ratio):
    assert RatioType().convert(text, None, None) == pytest.approx(ratio)


@pytest.mark.parametrize("text", ["", "0", "-1", "1:0", "x", "nan", "inf", "1:2:3", "1:10001", "10001", "1e300"])
def test_anything_else_is_no_scale(text):
    with pytest.raises(click.BadParameter, match="2:1"):
        RatioType().convert(text, None, None)


@click.command()
@options(SHOP, READING)
def told(settings):
    """Keep what arrives."""
    told.settings = settings


def settings_of(*words):
    result = CliRunner().invoke(told, words, standalone_mode=False)
    assert result.exception is None, result.exception
    return told.settings


def test_nothing_given_is_the_default():
    settings = settings_of()
    assert (settings.shop_text, settings.dialect, settings.changes) == ("", None, ())
    assert settings.options == type(settings.options)()


def test_everything_given_arrives(tmp_path):
    (tmp_path / "shop.toml").write_text('units = "mm"\n')
    settings = settings_of(
        "--shop", str(tmp_path / "shop.toml"), "--dialect", "plunge", "--set", "peck=1", "--set", "feed=0.1",
        "--units", "in", "--front", "left", "--at", "1,2", "--scale", "2:1", "--accept", "a, b", "--accept", "c,",
    )  # fmt: skip
    assert settings.shop_text == 'units = "mm"\n'
    assert settings.shop_name.endswith("shop.toml")
    assert (settings.dialect, settings.changes) == ("plunge", ("peck=1", "feed=0.1"))
    reading = settings.options
    assert (reading.units, reading.front, reading.at, reading.scale) == ("in", "left", (1.0, 2.0), 2.0)
    assert reading.accept == {"a", "b", "c"}


@pytest.mark.parametrize(
    ("typed", "codes"),
    [
        ("a@1,2,b", {"a@1,2", "b"}),
        ("a@-1.5, -.5 ,b@3", {"a@-1.5, -.5", "b@3"}),
        ("b,a@+1,2", {"b", "a@+1,2"}),
        ("a@3,b@4", {"a@3", "b@4"}),
    ],
)
def test_a_comma_before_a_number_is_that_of_a_place(typed, codes):
    assert settings_of("--accept", typed).options.accept == codes


def test_a_command_without_them_gets_no_settings():
    @click.command()
    @options(click.option("--plain"))
    def bare(plain):
        click.echo(plain)

    assert CliRunner().invoke(bare, ["--plain", "x"]).output == "x\n"


OWN_WORDS = {"--out", "--units", "--csv"}
"""What they mean differs from command to command, and so does what the help says."""


def test_an_option_of_several_commands_is_the_same_in_each():
    known = {}
    for name in COMMANDS:
        command = main.get_command(click.Context(main), name)
        for option in (one for one in command.params if isinstance(one, click.Option)):
            told = (option.opts, option.type.name, option.multiple, option.is_flag, option.metavar)
            told += () if option.opts[0] in OWN_WORDS else (option.help,)
            assert option.help, f"{name} {option.opts[0]} says nothing"
            if option.opts[0] != "--out" or name not in ("sheet", "convert"):
                assert known.setdefault(option.opts[0], told) == told, name
    assert len(known) > 20


@pytest.mark.parametrize(("default", "word", "value"), [(2.0, "0.5", 0.5), (4, "8", 8)])
def test_a_limit_is_whole_where_its_default_is(default, word, value):
    @click.command()
    @limit("--most", "N", 0, 10, default, "Most.")
    def show(most):
        click.echo(f"{most!r}")

    assert CliRunner().invoke(show, ["--most", word]).output == f"{value!r}\n"
    assert CliRunner().invoke(show, []).output == f"{default!r}\n"
    assert CliRunner().invoke(show, ["--most", "11"]).exit_code == 2
