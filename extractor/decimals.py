"""Printed decimal numbers: how many places they have, and by how much the last one may be rounded."""


def places_of(number: str) -> int:
    """How many decimals a number is printed with.

    >>> places_of("12.50"), places_of("12"), places_of(".5")
    (2, 0, 1)
    """
    return len(number.partition(".")[2])


def half_place(places: int) -> float:
    """Half of the last of so many decimals: a five may be rounded either way.

    >>> half_place(0), half_place(2)
    (0.5, 0.005)
    """
    return 0.5 / int(10**places)


__all__ = ["half_place", "places_of"]
