"""Options of the suite: `--renew` writes the golden programs anew instead of holding the tool to them."""

from hypothesis import settings

# How long one example may take says more about who else is using the machine than about the code.
settings.register_profile("suite", deadline=None)
settings.load_profile("suite")


def pytest_addoption(parser):
    parser.addoption("--renew", action="store_true", help="write the golden programs anew; look at the difference")
