"""The README's commands print what it says they print, and its files and the pages that ship are what they say.

    python -m pytest tests/test_94_readme.py --renew

writes the printed lines and the made tables anew; read the difference before committing it.
"""

import os
import re
import shlex
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from planner import parse_shop
from rillwright.cli import COMMANDS, main
from rillwright.helping import PAGES, TOPICS, renewed, tables

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
# What differs from run to run: times of day.
TIMES = re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d")


def blocks(kind, file=README):
    """The code blocks of one kind in the README or a page."""
    return [body for name, body in BLOCK.findall(file.read_text("utf-8")) if name == kind]


def commands(block):
    """Each command of a console block, with its here-document."""
    found, end = [], None
    for line in block.splitlines():
        if line.startswith("$ "):
            found.append(line[2:])
            here = re.search(r"<<'(\w+)'$", line)
            end = here and here.group(1)
        elif end is not None:
            found[-1] += "\n" + line
            end = None if line == end else end
    return found


def said(block):
    """What a console block shows when its commands are run one after the other in the present folder."""
    shown = []
    for command in commands(block):
        done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=600, env=environment())
        shown += [f"$ {command}", *(done.stdout + done.stderr).splitlines()]
    return TIMES.sub("2031-05-06 07:08:09", "\n".join(shown) + "\n")


def environment():
    """The environment of a user who has the tool on the path."""
    return os.environ | {"PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"}


def test_every_command_prints_what_is_shown(tmp_path, monkeypatch, request):
    (tmp_path / "drawings").symlink_to(ROOT / "drawings")
    monkeypatch.chdir(tmp_path)
    text = README.read_text("utf-8")
    for block in blocks("console"):
        printed = said(block)
        if request.config.getoption("--renew"):
            text = text.replace(f"```console\n{block}```", f"```console\n{printed}```")
        else:
            assert printed == block
    if request.config.getoption("--renew"):
        README.write_text(text, "utf-8")
    told = re.search(r"Following this page leaves (.*?);", text, re.DOTALL).group(1)
    installed = {".venv", "build", "rillwright.egg-info"}
    left = {path.name for path in tmp_path.iterdir()} - {"drawings"}
    assert left | installed == set(re.findall(r"`([^`]+)`", told))


def test_what_is_shown_shows_something():
    text = README.read_text("utf-8")
    for word in ("made ring-shaft.nc", "Agree:", "Differ:", "\nG75 ", "5 grooves instead of 4", "tolerances of groove"):
        assert word in text


def test_the_comparison_of_printed_lines_can_fail(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert said("$ echo one\n") == "$ echo one\none\n"
    assert said("$ echo one\n") != "$ echo one\ntwo\n"


def test_the_shop_file_and_the_answers_shown_are_such():
    (text,), (answers,) = blocks("toml", PAGES / "shop.md"), blocks("toml", PAGES / "findings.md")
    assert "accept" in tomllib.loads(answers)
    assert parse_shop(text, "page", "mm").tools[0].width == 3.0
    assert tomllib.loads(text)["machine"]["dialect"] == "two-block"


@pytest.mark.parametrize("topic", TOPICS)
def test_the_tables_of_a_page_are_those_that_the_code_makes(topic, request):
    file = PAGES / f"{topic}.md"
    text = file.read_text("utf-8")
    if request.config.getoption("--renew"):
        file.write_text(renewed(text), "utf-8")
    else:
        assert renewed(text) == text
    assert f"(rillwright/help/{topic}.md)" in README.read_text("utf-8")


def test_a_changed_key_or_finding_shows_in_its_page():
    changed = (PAGES / "shop.md").read_text("utf-8").replace("| `peck` |", "| `pek` |")
    assert renewed(changed) != changed


def test_every_table_that_is_made_stands_in_one_page():
    told = [
        name for topic in TOPICS for name in re.findall(r"<!-- ([\w-]+) -->\n\|", (PAGES / f"{topic}.md").read_text())
    ]
    assert sorted(told) == sorted(tables())


def test_a_page_is_printed_and_a_slip_is_answered_with_the_nearest():
    run = CliRunner().invoke
    listed, shown, slip = (run(main, ["help", *words]) for words in ([], ["shop"], ["findngs"]))
    assert [line.split()[0] for line in listed.stdout.splitlines()] == list(TOPICS)
    assert shown.stdout.startswith("# The shop file")
    assert "<!--" not in shown.stdout
    assert slip.exit_code == 2
    assert "Did you mean findings?" in slip.stderr


def test_no_link_of_readme_or_page_leads_nowhere():
    for file in (README, ROOT / "DEVELOPERS.md", *PAGES.glob("*.md")):
        for link in re.findall(r"\]\(([^)#]+)\)", file.read_text("utf-8")):
            assert (file.parent / link).exists(), f"{file.name}: {link}"


def test_every_command_and_every_option_of_reading_is_told():
    text = README.read_text("utf-8")
    assert [name for name in COMMANDS if f"rillwright {name}" not in text] == []
    assert [one for one in ("--units", "--front", "--at", "--scale", "--accept", "--grooved") if one not in text] == []


def test_two_commands_do_all_the_setting_up_and_the_check_runs_the_second():
    first, second = blocks("sh")
    assert first.splitlines() == [first.strip()]
    assert "rillwright make drawings/*.dxf --out out" in first
    assert "pytest" in second
    assert "README.md" in (ROOT / ".ci" / "run").read_text()


@pytest.mark.parametrize("kind", ["ini", "cron"])
def test_the_calls_for_unattended_runs_are_calls_of_the_tool(kind, tmp_path):
    (text,) = blocks(kind, PAGES / "folder.md")
    (call,) = re.findall(r"\.venv/bin/rillwright (.*?)(?: >>.*)?$", text, re.MULTILINE)
    inbox, out = tmp_path / "drawings", tmp_path / "programs"
    inbox.mkdir()
    words = [str({"/srv/drawings": inbox, "/srv/programs": out}.get(word, word)) for word in shlex.split(call)]
    tool = [sys.executable, "-c", "from rillwright.cli import main; main()"]
    once = [] if "--once" in words else ["--once"]
    assert subprocess.run([*tool, *words, *once], capture_output=True, timeout=600).returncode == 0


def test_the_table_of_exit_statuses_names_every_command():
    from rillwright.cli import COMMANDS

    table = README.read_text("utf-8").split("## Exit statuses")[1]
    assert set(re.findall(r"`(\w+)`", table)) >= set(COMMANDS)
