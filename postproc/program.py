"""A program as text, with what it was written for."""

import hashlib

from extractor.front import FrontEnd
from extractor.part import Units
from extractor.values import dataclass


@dataclass(frozen=True)
class Heading:
    """What the comments at the top of a program say of its origin; any text, made safe by the writer.

    `front` says which end of the drawn part is Z0, None where there is no drawing to say it of; `accepted`: codes
    of the stops that the user answered for.
    """

    drawing: str
    drawing_sha256: str
    number: int = 1
    front: FrontEnd | None = None
    accepted: tuple[str, ...] = ()


@dataclass(frozen=True)
class Program:
    """The text of one program (lines end in a line feed) and the dialect that it is spelt in."""

    text: str
    dialect: str
    units: Units

    @property
    def sha256(self) -> str:
        """SHA-256 of the text as written to disk."""
        return hashlib.sha256(self.text.encode("ascii")).hexdigest()
