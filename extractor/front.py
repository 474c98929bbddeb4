"""Which end of the drawn part is the finished front face, Z0, and what says so: value and wording for all rooms."""

from typing import Literal

from extractor.values import dataclass

Front = Literal["right", "left", "top", "bottom"]
FrontBy = Literal["assumed", "words", "dimensions", "option", "answer"]

END_WORDS: dict[Front, str] = {
    "right": "right-hand end",
    "left": "left-hand end",
    "top": "upper end",
    "bottom": "lower end",
}
"""How a sentence names an end of the drawn part."""
OPPOSITE: dict[Front, Front] = {"right": "left", "left": "right", "top": "bottom", "bottom": "top"}
"""The other end."""
BY_WORDS: dict[FrontBy, str] = {
    "assumed": "assumed",
    "words": "as words there say",
    "dimensions": "all lengths begin there",
    "option": "as told",
    "answer": "as answered",
}
"""What says so, put after the end."""


@dataclass(frozen=True)
class FrontEnd:
    """The end of the drawn part that is the finished front face, and what says so.

    `by`: words on the sheet, the place where its lengths begin, or the user's option or answer; else assumed.

    >>> FrontEnd("left", "words").words
    'the left-hand end as drawn, as words there say'
    """

    end: Front
    by: FrontBy

    @property
    def words(self) -> str:
        """End and reason, worded for use in a sentence."""
        return f"the {END_WORDS[self.end]} as drawn, {BY_WORDS[self.by]}"
