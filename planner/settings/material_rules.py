"""Names that follow a system: the family by the system's own rules, without a row for each material.

Systems, from memory: EN 10027-1 (steel symbols by use or by what is in them), EN 10027-2 (steel numbers), EN 1560 (cast
iron), EN 573 and EN 1780 (aluminium), EN 1412 and ISO 1190 (copper), SAE J402 and UNS (steel by four or five digits).
"""

import re

ELEMENT = re.compile(r"AL|CR|CU|CO|MN|MO|NB|NI|PB|SE|SI|TA|TI|ZN|ZR|[BCNPSVW]")
_IN_STEEL = r"(?:AL|CR|MN|MO|NB|NI|SI|B|V|W)"
RULES: tuple[tuple[str, str], ...] = (
    # Steel by use and strength, by carbon, by what is in it.
    (r"S(?:185|235|275|355|420|450|460)[A-Z0-9]{0,7}", "low carbon steel"),
    (r"P(?:195|235|245|265|275|285|305|355)[A-Z0-9]{0,4}", "low carbon steel"),
    (r"ST(?:33|35|37|44|52)(?:-\d)?[A-Z]?|[UR]ST\d\d(?:-\d)?|DC0[1-7]", "low carbon steel"),
    (r"C(?:0?[4-9]|1\d|2[0-4])[ECDGR]{0,2}", "low carbon steel"),
    (r"ST(?:50|60)(?:-\d)?[A-Z]?|E(?:295|335)[A-Z0-9]{0,3}", "medium carbon steel"),
    (r"C[KQFM]?(?:2[5-9]|[34]\d|5[0-4])[ECDGR]{0,2}", "medium carbon steel"),
    (r"ST70(?:-\d)?|E360[A-Z0-9]{0,3}|C[KFM]?(?:5[5-9]|[6-9]\d)[ECDGRS]{0,2}", "high carbon steel"),
    (r"C[KQ](?:1\d|2[0-4])", "low carbon steel"),
    (r"\d{1,2}S(?:MN|MNPB|PB)?\d{2}[KVE]?|SUM\d\dL?|12L1\d|(?:AISI|SAE)?12\d\d", "free cutting steel"),
    (r"(?:AISI|SAE)11\d\d", "free cutting steel"),
    (rf"G?\d{{2,3}}{_IN_STEEL}+(?:S|PB)?\d{{0,2}}(?:-\d{{1,2}}){{0,2}}[EHKV]?", "low alloy steel"),
    (r"HS\d{1,2}-\d{1,2}-\d{1,2}(?:-\d{1,2})?C?|C(?:8|9|10|11|12)\d[UW]\d?", "tool steel"),
    (r"G[SE]\d{2,3}|EN(?:16|24|25|26|30B|36|39|40B)[A-Z]?", "low alloy steel"),
    (r"(?:AISI|SAE)10(?:0\d|1\d|2[0-4])|G10(?:0|1|2)\d\d0?", "low carbon steel"),
    (r"(?:AISI|SAE)10(?:2[5-9]|[34]\d|5[0-4])|G10[345]\d0", "medium carbon steel"),
    (r"(?:AISI|SAE)10[5-9]\d|G10[6-9]\d0", "high carbon steel"),
    (r"(?:AISI|SAE)(?:13|40|41|43|46|47|48|50|51|61|86|87|88|92|93|94|98)\d\d", "low alloy steel"),
    (r"G(?:13|4\d|5[012]|61|8\d|9\d)\d{3}", "low alloy steel"),
    (r"(?:AISI|SAE)52100|G52986", "low alloy steel"),
    # Steel by number.
    (r"1\.(?:00[34]\d|01\d\d|0[34][0-3]\d|04[0-4]\d|11[0-5]\d)", "low carbon steel"),
    (r"1\.07\d\d", "free cutting steel"),
    (r"1\.(?:00[56]\d|05\d\d|11[6-9]\d|120\d)", "medium carbon steel"),
    (r"1\.(?:007\d|06\d\d|122\d|123\d)", "high carbon steel"),
    (r"1\.[5678]\d{3}|1\.35\d\d", "low alloy steel"),
    (r"1\.2\d{3}|1\.3[23]\d\d", "tool steel"),
    (r"1\.4[012]\d\d|1\.4[67]\d\d", "martensitic stainless steel"),
    (r"1\.43\d\d|1\.44\d\d|1\.45\d\d|1\.48\d\d", "austenitic stainless steel"),
    (r"S3\d{4}|SUS3\d\d[A-Z]{0,3}|(?:AISI|SAE)3\d\d[A-Z]{0,2}", "austenitic stainless steel"),
    (r"S4\d{4}|SUS4\d\d[A-Z]{0,3}|(?:AISI|SAE)4\d\d[A-Z]?", "martensitic stainless steel"),
    # Cast iron.
    (r"(?:EN)?GJL\d{3}[A-Z]*|(?:EN)?GJLHB\d{3}|GG-?\d\d|0\.60\d\d|5\.1\d{3}|FC\d{3}", "grey cast iron"),
    (r"(?:EN)?GJ[SV]\d{3}(?:-\d{1,2})?[A-Z]*|GG[GV]-?\d\d(?:\.\d)?|0\.70\d\d", "nodular cast iron"),
    (r"5\.[23]\d{3}|FCD\d{3}", "nodular cast iron"),
    (r"(?:EN)?GJM[BW]\d{3}(?:-\d{1,2})?|GT[SW]\d\d(?:-\d\d)?|0\.80\d\d|5\.4\d{3}", "malleable cast iron"),
    (r"(?:EN)?GJN[A-Z]*\d*|5\.5\d{3}|0\.96\d\d", "hardened steel or iron"),
    # Aluminium.
    (r"(?:EN)?(?:AW|AA)[1-8]\d{3}[A-Z]?|A9[1-8]\d{3}", "wrought aluminium"),
    (r"(?:EN)?(?:AW)?AL(?:99|MG|CU|ZN|MN|SI[01]?M)[A-Z0-9.]*|3\.[0-4]\d{3}", "wrought aluminium"),
    (r"(?:EN)?AC\d{5}|(?:EN)?(?:AC)?G?[DK]?ALSI\d[A-Z0-9.]*", "cast aluminium"),
    # Copper and what is made of it.
    (r"CUZN\d[A-Z0-9.]*|CW(?:5\d\d|6\d\d|7\d\d)[A-Z]|MS\d\d|2\.0[2-5]\d\d", "brass"),
    (r"CU(?:SN|AL|NI|CR|PB|MG|SI|TE|SP)[A-Z0-9.]*|CW(?:0|1[1-9]|2|3|4)\d{1,2}[A-Z]", "bronze or copper"),
    (r"CC\d{3}[A-Z]|RG\d{1,2}|2\.0[06-9]\d\d|2\.1\d{3}", "bronze or copper"),
    # Titanium, nickel, cobalt.
    (r"TI\d?AL\d+[A-Z0-9.]*|3\.7\d{3}|R5\d{4}", "titanium"),
    (r"NI(?:CR|MO|CU|FE|CO)\d[A-Z0-9.]*|2\.4[0-9]\d\d|N0[2-9]\d{3}|N1\d{4}", "nickel or cobalt alloy"),
    (r"COCR\d[A-Z0-9.]*", "nickel or cobalt alloy"),
    # Plastics.
    (r"PA(?:4|6|11|12|46|66|610|612|6-6|6\.6)[A-Z]?(?:[GC]F\d{1,2})?", "plastics"),
    (r"(?:PEEK|POM|PET|PC|PPS|PVDF|PTFE|PP|ABS|PBT)[A-Z]?(?:[GC]F\d{1,2})?", "plastics"),
)  # fmt: skip
"""Whole names by pattern, and the family; the first that fits counts."""
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
    return next((family for pattern, family in RULES if re.fullmatch(pattern, name)), None)


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
