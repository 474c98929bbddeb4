"""`rillwright help`: the pages that ship with the tool."""

from difflib import get_close_matches

import click

from rillwright.helping import TOPICS, page
from rillwright.tables import say


def run(topic: str | None) -> int:
    """Print a page, or the list of them."""
    if topic is None:
        for name, about in TOPICS.items():
            say(f"{name:10}{about}", indent=10)
        return 0
    if topic not in TOPICS:
        near = get_close_matches(topic, TOPICS, n=1)
        hint = f" Did you mean {near[0]}?" if near else ""
        raise click.UsageError(f"There is no page {topic!r}; the pages are {', '.join(TOPICS)}.{hint}")
    click.echo(page(topic), nl=False)
    return 0
