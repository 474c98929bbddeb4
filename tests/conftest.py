"""Options of the suite: `--renew` writes the golden programs anew instead of holding the tool to them."""


def pytest_addoption(parser):
    parser.addoption("--renew", action="store_true", help="write the golden programs anew; look at the difference")
