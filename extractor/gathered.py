"""Findings that say one thing of very many places, as one: nobody reads thousands, or answers for each."""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from itertools import islice

from extractor.finding import Finding, Level

MOST_ALIKE = 50
"""So many findings are told one by one, and so many stops asked for so, each tried by a reading of the sheet. Nobody
answers for more: a sheet of thousands, each with its reading, would take hours, and is to be drawn again."""

MOST_SPOTS = 12
"""Places that are kept of those told as one: as many as a picture can show."""

NUMBER = re.compile(r"[-+]?\d[\d.,]*(?:e[-+]?\d+)?")
"""A number in a sentence, with a comma or a full stop behind it."""

Reason = tuple[Level, str, str]


def gathered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings in their order; more than MOST_ALIKE of one code and one sentence, but for its numbers, as one.

    The one stands where the first of them did and has their number, its place and further ones. What is said of a
    groove by its number is left alone: it is looked for at that groove.
    """
    listed = tuple(findings)
    often = {code for code, count in Counter(f.code for f in listed).items() if count > MOST_ALIKE}
    if not often:
        return listed
    reasons = [_reason(f) if f.code in often and f.groove is None else None for f in listed]
    counts = Counter(reason for reason in reasons if reason is not None)
    told: set[Reason] = set()
    kept: list[Finding] = []
    for finding, reason in zip(listed, reasons, strict=True):
        if reason is None or counts[reason] <= MOST_ALIKE:
            kept.append(finding)
        elif reason not in told:
            told.add(reason)
            alike = (one for one, why in zip(listed, reasons, strict=True) if why == reason)
            kept.append(_one_of(counts[reason], list(islice(alike, MOST_SPOTS))))
    return tuple(kept)


def _reason(finding: Finding) -> Reason:
    """What a finding says, wherever it says it."""
    return finding.level, finding.code, NUMBER.sub("#", finding.message)


def _one_of(count: int, first: list[Finding]) -> Finding:
    """The first of so many findings, told for all of them."""
    spots = tuple(one.at for one in first[1:] if one.at is not None)
    message = f"The first of {count:,} places alike: {first[0].message}"
    return replace(first[0], message=message, spots=spots, alike=count)
