"""Text from outside as it may stand in a sentence, on a page or on a terminal."""


def printable(text: str) -> str:
    r"""The text with a blank for every character that can't be printed: some steer a terminal, others end a line.

    >>> printable("groove\x1b[31m 3\nwide")
    'groove [31m 3 wide'
    """
    return text if text.isprintable() else "".join(c if c.isprintable() else " " for c in text)


__all__ = ["printable"]
