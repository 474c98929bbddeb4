"""The command line: exit statuses over all commands, one sentence an error, JSON alone on standard output."""

import json
import os
import shutil
import signal
import subprocess
import sys
from contextlib import contextmanager

import pytest
from support.door import run
from support.drawings import draw_ring
from support.forms import make_drawing

from rillwright import cli
from rillwright.settings import Settings

PROGRAM = [
    "make",
    "read",
    "ask",
    "plan",
    "compare",
    "explain",
    "watch",
    "history",
    "sheet",
    "convert",
    "shop",
    "dialects",
    "help",
]


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """A folder with a good drawing and its results, one that is refused, a file that is no drawing, a shop file."""
    folder = tmp_path_factory.mktemp("desk")
    draw_ring(folder / "ring.dxf")
    draw_ring(folder / "plain.dxf", grooves=())
    draw_ring(folder / "moved.dxf", ((-11, -14, 34), (-21, -24, 34)))
    (folder / "no.dxf").write_text("this is no drawing")
    (folder / "shop.toml").write_text('units = "mm"\n[machine]\nstick_out = 90.0\n')
    (folder / "bad.toml").write_text("[machine]\nmax_rmp = 3\n")
    (folder / "letter.nc").write_bytes(b"\0\1\2")
    make_drawing(folder / "ring.dxf", folder / "out", Settings())
    run("watch", folder, "--out", folder / "watched", "--once", "--settle", "0")
    return folder


# command, exit status: the table of the contract, with {desk} standing for the folder above.
CALLS = [
    ("ask {desk}/ring.dxf", 0),
    ("help", 0),
    ("help folder", 0),
    ("help nonsense", 2),
    ("shop", 0),
    ("shop {desk}/ring.dxf", 2),
    ("shop --check {desk}/shop.toml", 0),
    ("shop --check {desk}/shop.toml {desk}/ring.dxf", 0),
    ("ask {desk}/no.dxf", 2),
    ("make {desk}/ring.dxf --out {desk}/made", 0),
    ("make {desk}/ring.dxf --out {desk}/made --shop {desk}/shop.toml --dialect plunge --set peck=0.5", 0),
    ("make {desk}/ring.dxf {desk}/plain.dxf --out {desk}/made", 1),
    ("make {desk}/no.dxf --out {desk}/made", 1),
    ("make {desk}/ring.dxf --out {desk}/made --json", 0),
    ("make {desk}/ring.dxf --out {desk}/made --explain", 0),
    ("make {desk}/ring.dxf --out {desk}/made --number 7", 0),
    ("make {desk}/ring.dxf --out {desk}/made --pieces 100", 0),
    ("make {desk}/ring.dxf --out {desk}/made --pieces 0", 2),
    ("make {desk}/ring.dxf --out {desk}/made --accept nonsense", 0),
    ("make", 2),
    ("make {desk}/missing.dxf", 2),
    ("make {desk}", 2),
    ("make {desk}/ring.dxf --nonsense", 2),
    ("make {desk}/ring.dxf --out {desk}/made --dialect two-blok", 2),
    ("make {desk}/ring.dxf --out {desk}/made --shop {desk}/bad.toml", 2),
    ("make {desk}/ring.dxf --out {desk}/made --shop {desk}/missing.toml", 2),
    ("make {desk}/ring.dxf --out {desk}/made --set nonsense", 2),
    ("make {desk}/ring.dxf --out {desk}/made --set spead=3", 2),
    ("make {desk}/ring.dxf --out {desk}/made --units cm", 2),
    ("make {desk}/ring.dxf --out {desk}/made --at nowhere", 2),
    ("make {desk}/ring.dxf --out {desk}/made --scale 0", 2),
    ("make {desk}/ring.dxf --out {desk}/made --accept ,", 2),
    ("make {desk}/ring.dxf --out {desk}/made --number 0", 2),
    ("make {desk}/out/ring.nc", 2),
    ("make {desk}/ring.dxf --out {desk}/ring.dxf", 2),
    ("read {desk}/ring.dxf", 0),
    ("read {desk}/ring.dxf --json", 0),
    ("read {desk}/ring.dxf --overlay {desk}/over.dxf", 0),
    ("read {desk}/ring.dxf --overlay {desk}/ring.dxf", 2),
    ("read {desk}/no.dxf", 2),
    ("read {desk}/missing.dxf", 2),
    ("read", 2),
    ("plan {desk}/ring.dxf", 0),
    ("plan {desk}/ring.dxf --json --set peck=0.5", 0),
    ("plan {desk}/ring.dxf --against {desk}/shop.toml", 0),
    ("plan {desk}/ring.dxf --against {desk}/bad.toml", 2),
    ("plan {desk}/plain.dxf", 1),
    ("plan {desk}/no.dxf", 1),
    ("compare {desk}/ring.dxf {desk}/out/ring.nc", 0),
    ("compare {desk}/ring.dxf {desk}/out/ring.nc --json", 0),
    ("compare {desk}/ring.dxf {desk}/out/ring.nc --picture {desk}/both.svg", 0),
    ("compare {desk}/ring.dxf {desk}/out/ring.nc --picture {desk}/out/ring.nc", 2),
    ("compare {desk}/ring.dxf {desk}/out/ring.nc --stock 40", 0),
    ("compare {desk}/ring.dxf {desk}/out/ring.nc --stock 0", 2),
    ("compare {desk}/moved.dxf {desk}/out/ring.nc", 1),
    ("compare {desk}/moved.dxf {desk}/out/ring.nc --json", 1),
    ("compare {desk}/no.dxf {desk}/out/ring.nc", 2),
    ("compare {desk}/ring.dxf {desk}/letter.nc", 2),
    ("compare {desk}/ring.dxf {desk}/missing.nc", 2),
    ("compare {desk}/ring.dxf", 2),
    ("explain {desk}/out/ring.nc", 0),
    ("explain {desk}/out/ring.nc --json", 0),
    ("explain {desk}/out/ring.nc --shop {desk}/shop.toml", 0),
    ("explain {desk}/letter.nc", 2),
    ("explain {desk}/missing.nc", 2),
    ("sheet {desk}/out/ring.json --out {desk}/again.html", 0),
    ("sheet {desk}/out/ring.nc --out {desk}/again.html", 2),
    ("history {desk}/watched", 0),
    ("history {desk}/watched ring", 0),
    ("history {desk}/watched ring.dxf --json", 0),
    ("history {desk}/watched nobody", 2),
    ("history {desk}/out", 2),
    ("history {desk}/missing", 2),
    ("watch {desk} --out {desk}/watched --once --settle 0", 1),
    ("watch {desk} --out {desk} --once", 2),
    ("watch {desk}/out --out {desk} --once", 2),
    ("watch {desk}/missing --out {desk}/watched --once", 2),
    ("watch {desk} --once", 2),
    ("watch {desk} --out {desk}/watched --once --shop {desk}/bad.toml", 2),
    ("dialects", 0),
    ("dialects --json", 0),
    ("dialects extra", 2),
    ("dialects --new own", 0),
    ("dialects --new own/other", 2),
    ("dialects --new own --check {desk}/bad.toml", 2),
    ("dialects --check {desk}/bad.toml", 2),
    ("dialects --check {desk}/missing.toml", 2),
    ("convert {desk}/missing.nc --to plunge", 2),
    ("nonsense", 2),
    ("--version", 0),
    ("--help", 0),
    *((f"{command} --help", 0) for command in PROGRAM),
]


@pytest.mark.parametrize(("call", "status"), CALLS, ids=[call for call, _ in CALLS])
def test_exit_statuses(desk, call, status):
    result = run(*(word.format(desk=desk) for word in call.split()))
    assert result.exit_code == status, result.output
    assert "Traceback" not in result.output
    if status == 2:
        assert result.stdout == ""
        assert len(result.stderr.strip().splitlines()) == 1, result.stderr
    if "--json" in call.split() and status < 2:
        json.loads(result.stdout)


def test_every_command_is_in_the_table_and_in_the_help():
    assert list(cli.COMMANDS) == PROGRAM
    told = run("--help").stdout
    for name, told_of in cli.COMMANDS.items():
        assert name in told
        assert told_of.summary in told
        assert any(call.split()[0] == name for call, _ in CALLS)


def test_no_call_at_all_shows_the_help():
    result = run()
    assert result.exit_code == 2
    assert "Commands:" in result.output


def test_make_json_is_a_list_of_records_and_messages_go_to_standard_error(desk):
    result = run("make", desk / "ring.dxf", desk / "plain.dxf", "--out", desk / "made", "--json")
    records = json.loads(result.stdout)
    assert [one["status"] for one in records] == ["made", "refused"]
    assert "ring.dxf: made ring.nc" in result.stderr
    assert "plain.dxf: refused" in result.stderr


def test_a_batch_is_timed_and_a_misspelt_code_told(desk, tmp_path):
    result = run("plan", desk / "ring.dxf", "--pieces", "100", "--accept", "nonsense")
    assert "batch-hours" in result.stdout
    assert "--accept nonsense: there is no finding" in result.stderr
    result = run("plan", desk / "ring.dxf")
    assert "batch-hours" not in result.stdout


def test_the_plan_of_a_refused_drawing_shows_no_empty_table(desk):
    result = run("plan", desk / "plain.dxf")
    assert "operation" not in result.stdout.split("stop")[0]
    assert "0.0 s" not in result.stdout


def test_a_wrong_call_among_good_drawings_makes_none(desk, tmp_path):
    result = run("make", desk / "ring.dxf", desk / "missing.dxf", "--out", tmp_path / "none")
    assert result.exit_code == 2
    assert not (tmp_path / "none").exists()


def test_numbers_are_counted_on_only_where_asked_for(desk, tmp_path):
    drawings = [draw_ring(tmp_path / name) for name in ("a.dxf", "b.dxf")]
    run("make", *drawings)
    assert "O0001" in (tmp_path / "b.nc").read_text()
    run("make", *drawings, "--number", "40")
    assert "O0041" in (tmp_path / "b.nc").read_text()
    assert run("make", *drawings, "--number", "9999").exit_code == 2


def test_a_folder_that_can_not_be_written_is_told_in_a_sentence(desk, tmp_path):
    (tmp_path / "file").write_text("")
    result = run("make", desk / "ring.dxf", "--out", tmp_path / "file" / "deeper")
    assert result.exit_code == 1
    assert "Not a directory" in result.stderr
    assert len(result.stderr.splitlines()) == 1


def test_a_fault_of_our_own_is_one_sentence(desk, monkeypatch):
    from rillwright.commands import dialects_command

    monkeypatch.setattr(dialects_command, "print_dialects", lambda _: 1 / 0)
    monkeypatch.delenv("RILLWRIGHT_DEBUG", raising=False)
    result = run("dialects")
    assert result.exit_code == 1
    assert "This is our fault: ZeroDivisionError" in result.stderr
    assert len(result.stderr.splitlines()) == 1
    monkeypatch.setenv("RILLWRIGHT_DEBUG", "1")
    assert isinstance(run("dialects").exception, ZeroDivisionError)


@contextmanager
def _interrupted_at_the_end():
    yield
    raise KeyboardInterrupt


@pytest.mark.parametrize(("call", "status"), [("dialects", 0), ("nonsense", 2)])
def test_an_interrupt_once_all_is_done_changes_nothing(monkeypatch, call, status):
    monkeypatch.setattr(cli, "seldom", _interrupted_at_the_end)
    result = run(call)
    assert (result.exit_code, "Traceback" in result.output) == (status, False)


@pytest.mark.parametrize(
    "start", ["from rillwright.cli import main; main(['--version'])", "import rillwright.many as m; m._load()"]
)
def test_nothing_is_looked_through_at_the_end_of_a_process(start):
    code = f"import atexit, gc; atexit.register(lambda: print('left', gc.get_freeze_count() > 0)); {start}"
    assert (
        "left True" in subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    )


def test_an_interrupt_ends_quietly(desk, monkeypatch):
    from rillwright.commands import dialects_command

    def interrupt(_):
        raise KeyboardInterrupt

    monkeypatch.setattr(dialects_command, "print_dialects", interrupt)
    result = run("dialects")
    assert result.exit_code == 130
    assert "Traceback" not in result.output


@pytest.mark.parametrize(("way", "status"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129)])
def test_a_stop_from_outside_takes_away_what_is_half_written_and_says_so(
    desk, tmp_path, monkeypatch, capfd, way, status
):
    monkeypatch.setattr(os, "replace", lambda *_: os.kill(os.getpid(), way))
    # Whoever runs the tests may have had a closed terminal ignored.
    before = signal.signal(way, signal.SIG_DFL)
    try:
        result = run("make", desk / "ring.dxf", "--out", tmp_path)
        assert signal.getsignal(way) is signal.SIG_DFL
    finally:
        signal.signal(way, before)
    assert result.exit_code == status
    assert list(tmp_path.iterdir()) == []
    assert capfd.readouterr().err == "Stopped.\n"


def test_what_steers_a_terminal_is_not_said_of_a_line_that_can_t_be_converted(tmp_path):
    (tmp_path / "x.nc").write_bytes(b"G21 G18 G40 G99\nT0303\nG97 S900 M03\nG00 Z\x9b31m.\nG01 X34. F0.08\nM30\n")
    result = run("convert", tmp_path / "x.nc", "--to", "plunge")
    assert (result.exit_code, "31m" in result.stderr) == (1, True), result.stderr
    assert all(line.isprintable() for line in result.stderr.splitlines())


@pytest.mark.parametrize("put", [lambda path: path.symlink_to(path), os.mkfifo], ids=["links to themselves", "pipes"])
def test_what_is_no_file_where_results_belong_is_neither_waited_for_nor_our_fault(desk, tmp_path, put):
    shutil.copy(desk / "ring.dxf", tmp_path)
    for ending in ("nc", "nc.stale", "html", "json"):
        put(tmp_path / f"ring.{ending}")
    result = run("make", tmp_path / "ring.dxf")
    assert "our fault" not in result.output
    assert len(result.stderr.splitlines()) <= 1, result.stderr


def test_a_name_of_two_lines_is_said_on_one(tmp_path):
    (tmp_path / "two\nlines.dxf").write_bytes(b"0\nSECTION\n2\nENTITIES\n0\nLINE\n5\n?\n10\nx\n0\nENDSEC\n0\nEOF\n")
    for command in ("read", "make"):
        result = run(command, tmp_path / "two\nlines.dxf")
        assert result.exit_code in (1, 2), result.output
        assert "our fault" not in result.output
        assert "two lines.dxf" in result.output


def test_a_reader_that_goes_away_ends_it_without_a_word(desk):
    with subprocess.Popen(
        [
            sys.executable,
            "-c",
            "from rillwright.cli import main; main()",
            "explain",
            str(desk / "out" / "ring.nc"),
            "--json",
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        process.stdout.close()
        told = process.stderr.read()
    assert told == b""


HEAVY = {
    "--help": ("ezdxf", "shapely", "numpy", "networkx", "rich", "jinja2"),
    # The processes of a batch, entry points of other packages, and any dialect but the one that is spoken.
    "make": ("concurrent.futures.process", "importlib.metadata", "sqlite3"),
}


@pytest.mark.parametrize("command", HEAVY)
def test_a_command_loads_nothing_heavy_that_it_does_not_need(tmp_path, command):
    given = [command] if command == "--help" else [command, str(draw_ring(tmp_path / "ring.dxf"))]
    # What a library loads for itself depends on its version.
    code = "import sys\n" + ("" if command == "--help" else "import ezdxf, jinja2, networkx, numpy, rich, shapely\n")
    code += "theirs = set(sys.modules)\nfrom rillwright.cli import main\n"
    code += f"try:\n main({given!r})\nexcept SystemExit:\n pass\n"
    code += f"print(sorted(set({HEAVY[command]!r}) & set(sys.modules) - theirs))\n"
    code += "loaded = sys.modules.get('postproc.dialects')\nprint(loaded and loaded._ours.cache_info().currsize)"
    env = os.environ | ({"PYTHONWARNINGS": "error"} if command == "--help" else {})
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=env, check=True)
    assert told.stdout.splitlines()[-2:] == ["[]", "None" if command == "--help" else "1"]


def test_read_prints_a_name_with_markup_and_line_breaks_as_it_is(tmp_path):
    path = draw_ring(tmp_path / "[red]x\n.dxf")
    result = run("read", path)
    assert result.exit_code == 0
    assert "[red]x" in result.stdout.splitlines()[0]


def test_nothing_is_read_from_the_users_home(desk, tmp_path):
    (tmp_path / "ezdxf").mkdir()
    for name in ("ezdxf.ini", "font_manager_cache.json"):
        (tmp_path / "ezdxf" / name).write_bytes(b"\xff\xfe nothing of use")
    tool = [sys.executable, "-c", "from rillwright.cli import main; main()"]
    env = os.environ | {"XDG_CONFIG_HOME": str(tmp_path), "XDG_CACHE_HOME": str(tmp_path), "HOME": str(tmp_path)}
    told = subprocess.run([*tool, "read", desk / "ring.dxf"], capture_output=True, text=True, env=env)
    assert (told.returncode, told.stderr) == (0, "")


@pytest.mark.parametrize("call", ["read", "make", "plan"])
def test_letters_that_the_terminal_lacks_are_no_fault(tmp_path, call):
    path = draw_ring(tmp_path / "größe \u4e2d.dxf", grooves=())
    tool = [sys.executable, "-c", "from rillwright.cli import main; main()"]
    env = os.environ | {"PYTHONIOENCODING": "ascii"}
    told = subprocess.run([*tool, call, path], capture_output=True, env=env)
    assert b"Traceback" not in told.stderr
    assert b"our fault" not in told.stderr


def test_the_environment_is_left_as_it_was(monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", "mine")
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    run("dialects")
    assert os.environ["XDG_CACHE_HOME"] == "mine"
    assert "XDG_CONFIG_HOME" not in os.environ


def test_a_wide_low_land_is_turned_unless_the_user_says_grooved(tmp_path):
    path = draw_ring(tmp_path / "spool.dxf", grooves=((-10, -35, 34), (-40, -43, 34)))
    turned = run("read", path, "--json")
    assert [g["width"] for g in json.loads(turned.stdout)["grooves"]] == [3.0]
    (caution,) = [f for f in json.loads(turned.stdout)["findings"] if f["code"] == "journal"]
    assert caution["level"] == "caution"
    assert caution["message"].endswith("turned before the grooves are cut; use --grooved to treat it as a groove.")
    grooved = run("read", path, "--grooved", "--json")
    assert [g["width"] for g in json.loads(grooved.stdout)["grooves"]] == [25.0, 3.0]
    made = run("make", path, "--grooved", "--out", tmp_path / "out", "--json")
    assert [m["state"] for m in json.loads(made.stdout)[0]["verification"]["grooves"]] == ["matches", "matches"]
