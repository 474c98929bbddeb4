"""`rillwright help`: the pages that ship with the tool."""

import click


@click.command(name="help")
@click.argument("topic", required=False)
def help_page(topic: str | None) -> None:
    """Print the page about TOPIC; without one, the list of pages."""
    from difflib import get_close_matches

    from rillwright.helping import TOPICS, page
    from rillwright.tables import say

    if topic is None:
        for name, about in TOPICS.items():
            say(f"{name:10}{about}", indent=10)
        return
    if topic not in TOPICS:
        near = get_close_matches(topic, TOPICS, n=1)
        hint = f" Did you mean {near[0]}?" if near else ""
        raise click.UsageError(f"There is no page {topic!r}; the pages are {', '.join(TOPICS)}.{hint}")
    click.echo(page(topic), nl=False)
