"""Names that follow a system: the family by the system's own rules, without a row for each material.

Those that tell it by the whole name stand in `materials.toml`; high-alloy steel is told by what is in it (EN 10027-1).
"""

import re

from planner.settings.materials import MATERIALS

ELEMENT = re.compile(r"AL|CR|CU|CO|MN|MO|NB|NI|PB|SE|SI|TA|TI|ZN|ZR|[BCNPSVW]")
CHROME = re.compile(r"X(\d{1,3})((?:AL|CR|CU|CO|MN|MO|NB|NI|PB|SE|SI|TA|TI|ZR|[BCNPSVW])+)(\d{1,2}(?:-\d{1,2})*)?")
# EN 10088-1: a steel is stainless from 10.5 % chromium on; symbols round it.
STAINLESS_FROM = 11
# From so much nickel on a stainless steel is austenitic; from so much chromium with less nickel it is duplex.
AUSTENITIC_FROM, DUPLEX_FROM = 7, 20
# So many hundredths of a per cent of carbon make a tool steel of one with much chromium.
TOOL_FROM = 120


def by_rule(name: str) -> str | None:
    """The family of a squeezed name by the system that it follows, None where it follows none.

    >>> by_rule("X6CRNIMOTI17-12-2"), by_rule("CUZN39PB3"), by_rule("1.7225"), by_rule("X120MN12")
    ('austenitic stainless steel', 'brass', 'low alloy steel', None)
    """
    if found := CHROME.fullmatch(name):
        return _high_alloy(int(found[1]), ELEMENT.findall(found[2]), [int(n) for n in (found[3] or "").split("-") if n])
    return next((family for pattern, family in MATERIALS["rules"]["whole"] if re.fullmatch(pattern, name)), None)


def _high_alloy(carbon: int, elements: list[str], shares: list[int]) -> str | None:
    """A steel named by X: carbon in hundredths of a per cent, then the elements, then the shares of the first ones."""
    share = dict(zip(elements, shares, strict=False))
    chrome, nickel = share.get("CR", 0), share.get("NI", 0)
    if elements[0] == "NI" and nickel >= DUPLEX_FROM:
        return "heat-resistant iron alloy"
    if chrome < STAINLESS_FROM or carbon >= TOOL_FROM:
        return "tool steel" if "CR" in elements else None
    if nickel >= AUSTENITIC_FROM:
        return "austenitic stainless steel"
    return "duplex stainless steel" if chrome >= DUPLEX_FROM and nickel else "martensitic stainless steel"
