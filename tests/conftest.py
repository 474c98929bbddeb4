"""Options of the suite: `--renew` writes the golden programs and figures anew instead of holding the tool to them."""

import os
import re

import pytest
from hypothesis import settings
from support.figures import Listening, hold

LISTENED = re.compile(r"postproc/test_(?!56)")
"""Modules whose tests are held by the figures of all that they are told."""

# How long one example may take says more about who else is using the machine than about the code.
settings.register_profile("suite", deadline=None)
# The one check that decides whether a change lands draws the same examples each time; by hand they are new each time.
settings.register_profile("check", deadline=None, derandomize=True)
settings.load_profile("check" if os.environ.get("CI") else "suite")


def pytest_addoption(parser):
    parser.addoption(
        "--renew", action="store_true", help="write golden programs and figures anew; look at the difference"
    )


@pytest.hookimpl(wrapper=True)
def pytest_pyfunc_call(pyfuncitem):
    """Hold the figures of all that a test is told; see `support.figures`. Random examples differ from run to run."""
    if hasattr(pyfuncitem.obj, "hypothesis") or not LISTENED.match("/".join(pyfuncitem.path.parts[-2:])):
        return (yield)
    listening = Listening(pyfuncitem.module)
    try:
        result = yield
    finally:
        listening.close()
    hold(pyfuncitem, listening.text(), pyfuncitem.config.getoption("--renew"))
    return result
