"""Options of the suite: `--renew` writes the golden programs anew instead of holding the tool to them."""

import os

from hypothesis import settings

# How long one example may take says more about who else is using the machine than about the code.
settings.register_profile("suite", deadline=None)
# The one check that decides whether a change lands draws the same examples each time; by hand they are new each time.
settings.register_profile("check", deadline=None, derandomize=True)
settings.load_profile("check" if os.environ.get("CI") else "suite")


def pytest_addoption(parser):
    parser.addoption("--renew", action="store_true", help="write the golden programs anew; look at the difference")
