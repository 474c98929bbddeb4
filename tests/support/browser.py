"""A headless Chromium for the tests that open pages: the system's own, brought by apt-get where root may do that.

Nothing is skipped without one: a test that needs a browser fails and says how to get it. The browser runs offline,
with an empty profile, and every request that a page makes is written down.
"""

import fcntl
import functools
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

NAMES = ("chromium", "chromium-browser")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
MISSING = "The tests of job sheets need Chromium: install it (Debian: apt-get install chromium) and run them again."


def measure(name: str) -> str:
    """A script that a page runs to measure itself, and that answers what is wrong; each says what it looks for."""
    return (Path(__file__).parent / "measures" / f"{name}.js").read_text("utf-8")


def found() -> str | None:
    """Where a Chromium is, if anywhere."""
    return next((path for name in NAMES if (path := shutil.which(name))), None)


@functools.cache
def chromium() -> str:
    """The browser's path; installed first where it is missing and we may. RuntimeError with what to do otherwise."""
    path = found()
    if path is None and os.geteuid() == 0 and shutil.which("apt-get"):
        # Workers of one run may all find it missing: one installs it, the others wait.
        with (Path(tempfile.gettempdir()) / "rillwright-browser.lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            path = found() or _install()
    if path is None:
        raise RuntimeError(MISSING)
    return path


def _install() -> str | None:
    """Ask apt-get for it; where it is then, if it came."""
    quiet = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update"], ["install", "-y", "--no-install-recommends", "chromium"]):
        subprocess.run(["apt-get", "-q", *command], check=False, env=quiet, capture_output=True, timeout=900)
    return found()


@contextmanager
def browser() -> Iterator[Browser]:
    """A running browser."""
    with sync_playwright() as driver:
        running = driver.chromium.launch(executable_path=chromium(), args=FLAGS)
        try:
            yield running
        finally:
            running.close()


@dataclass
class Visit:
    """A page that is open, with everything it asked for and complained of."""

    page: Page
    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)


@contextmanager
def visit(running: Browser, path: Path, **settings: object) -> Iterator[Visit]:
    """Open a file offline; `settings` are those of a browser context (viewport, color_scheme, java_script_enabled)."""
    context: BrowserContext = running.new_context(offline=True, **settings)
    context.set_default_timeout(60_000)
    try:
        seen = Visit(context.new_page())
        seen.page.on("request", lambda request: seen.asked.append(request.url))
        seen.page.on("console", lambda message: seen.complaints.append(message.text))
        seen.page.on("pageerror", lambda error: seen.complaints.append(str(error)))
        seen.page.goto(path.resolve().as_uri())
        yield seen
    finally:
        context.close()
