"""Materials by name: groups of ISO 513, figures within published ranges, and what is said where names fail or differ.

Names and groups: public conversion tables and the groups of VDI 3323 in catalogues of 2017 and 2022, some from memory.
kc1.1: ranges over those catalogues and a machining table book of 2022. Speeds: catalogues of grooving inserts of 2016
and 2021.
"""

from dataclasses import replace

import pytest
from support.parts import part_of

from extractor.part import MaterialNote
from planner import default_shop, parse_shop, plan_part, settled, settled_for
from planner.cutting import cutting_force
from planner.settings.material_known import is_name, known
from planner.settings.materials import FAMILIES, SOURCES
from postproc import find_dialect, write_program
from postproc.program import Heading

GROUPS = {
    "P": """
        1.0037 | St37-2 | S235JR | 1.0570 | St52-3 | S355J2 | S355J2+N | 1.0401 | C15 | 1015 | 1.1141 | Ck15
        | 1.0402 | C22 | 1020 | 1.0501 | C35 | 1035 | 1.0503 | C45 | 1045 | C45 steel | C45+C | C45E+QT |
        1.1191 | Ck45 | C45E | 1.0601 | C60 | St50-2 | E295 | St60-2 | E335 | E360 | GE240 | GS-45 | 1.0711
        | 9S20 | 1.0718 | 9SMnPb28 | 12L14 | 11SMnPb30+C | 11SMn30 | 1213 | 11SMnPb37 | 1.7225 | 42CrMo4 |
        42CrMo4+QT | AISI 4140 | EN 19 | SCM440 | 1.7131 | 16MnCr5 | 5115 | 18CrNi8 | 34CrNiMo6 | SAE 4340 |
        1.3505 | 100Cr6 | 52100 | 1.2379 | X153CrMoV12 | X155CrVMo12-1 | D2 | 90MnCrV8 | O2 | 1.2714 |
        1.2083 | X40Cr14 | X38CrMo16 | mild steel | silver steel | 42CrMo4 28-32 HRC | 42CrMo4 44 HRC |
        Stahl | unhardened C45 | case hardening steel
    """,
    "P or M": """
        1.4021 | X20Cr13 | 420 | 1.4034 | X46Cr13 | 1.4057 | X17CrNi16-2 | 431 | 1.4104 | X14CrMoS17 | 430F
        | X90CrMoV18 | 440B | 1.4542 | 17-4PH | 630
    """,
    "M": """
        1.4301 | X5CrNi18-10 | X5 CrNi 18 10 | AISI 304 | 304 | V2A | 1.4305 | X8CrNiS18-9 | 303 | 1.4307 |
        X2CrNi18-9 | 304L | 304 L | 1.4401 | X5CrNiMo17-12-2 | 316 | 1.4404 | X2CrNiMo17-12-2 | 316L |
        1.4435 | 1.4541 | X6CrNiTi18-10 | 321 | 1.4571 | X6CrNiMoTi17-12-2 | 316Ti | V4A | 1.4539 | 904L |
        1.4462 | X2CrNiMoN22-5-3 | S32205 | 2205 | duplex | Stainless steel 1.4301 | Edelstahl rostfrei |
        Werkstoff 1.4571
    """,
    "K": """
        EN-GJL-250 | GJL 250 | GG-25 | GG25 | 0.6025 | 5.1301 | EN-GJL-200 | GG-20 | EN-GJS-400-15 | GGG-40
        | 0.7040 | 5.3106 | EN-GJS-500-7 | EN-GJS-700-2 | EN-GJMB-350-10 | EN-GJMW-400-5 | grey cast iron |
        ductile iron | Gusseisen
    """,
    "N": """
        EN AW-6082 | EN AW 6082-T6 | 6082 | AlMgSi1 | 3.2315 | EN AW-1050A | Al99,5 | 2007 | AlCuMgPb | 2011
        | 2017A | 2024 | 5083 | 5754 | AlMg3 | 6060 | 6061-T6 | 7075 T651 | AlZnMgCu1,5 | EN AW-AlSi1MgMn |
        7020 | 3.4335 | aluminium | aluminum | Cu-ETP | CW004A | CuZn37 | CW508L | CuZn39Pb3 | CW614N |
        C38500 | CuZn40Pb2 | Ms58 | CuZn36Pb3 | C36000 | CuSn6 | CuSn8 | CW453K | CuSn7Zn4Pb7-C | Rg7 |
        CuAl10Ni5Fe4 | brass | Messing | gunmetal | Rotguss | brass CuZn39Pb3
    """,
    "S": """
        TiAl6V4 | Ti6Al4V | Ti-6Al-4V | 3.7164 | 3.7165 | R56400 | Titanium grade 5 | Titan Grade 2 | 3.7035
        | alloy 625 | 2.4856 | N06625 | 718 | 2.4668 | NiCr19NbMo | alloy 400 | 2.4360 | C-276 | 2.4819 |
        A286 | 1.4980
    """,
    "H": """
        hardened | gehärtet | gehaertet | 58 HRC | 60+4 HRC | HRC 58-62 | hardened steel | steel 58 HRC |
        42CrMo4 45 HRC | 42CrMo4, 55 HRC | 100Cr6 60+4 HRC | 16MnCr5 einsatzgehärtet | C45 induction
        hardened | 42CrMo4 446 HV | chilled iron | EN-GJN-HV600
    """,
    "plastics": """
        PA6 | PA66 | PA6-G | PA66 GF30 | nylon | POM | POM-C | acetal | PTFE | PEEK | PVC-U | PE-UHMW | PC |
        PMMA | PET | Kunststoff
    """,
}
NAMES = [(name.strip(), group) for group, text in GROUPS.items() for name in " ".join(text.split()).split("|")]


@pytest.mark.parametrize("group", GROUPS)
def test_names_are_known_by_their_group(group):
    found = {name: known(name) for name, own in NAMES if own == group}
    assert {n for n, k in found.items() if k is None or k.family.group not in group.split(" or ")} == set()


@pytest.mark.parametrize(
    "name",
    [
        *("unobtainium", "wood", "magnesium AZ91", "steel 37Q9", "X120Mn12", "1.3401", "brass 1.4301", "C45 / 1.4301"),
        *("C45 or brass", "stainless 999", "12", "3 mm", "M8", "1050", "steel 1.9999", "?", "GG"),
    ],
)
def test_what_is_not_known_or_says_two_things_has_no_group(name):
    assert known(name) is None


@pytest.mark.parametrize(
    ("national", "en"),
    [
        *(("XC48", "C45"), ("XC38", "C35"), ("42CD4", "42CrMo4"), ("100C6", "100Cr6"), ("Z6CN18.09", "1.4301")),
        *(
            ("Z2 CND 17-12", "1.4404"),
            ("AU4G", "2017A"),
            ("40HM", "42CrMo4"),
            ("ŁH15", "100Cr6"),
            ("1H18N9T", "1.4541"),
        ),
        *(("45 PN-93/H-84019", "C45"), ("СТАЛЬ 45 ГОСТ 1050-88", "C45"), ("ШХ15", "100Cr6"), ("SS 1650", "C45")),
        *(
            ("SS 2333", "1.4301"),
            ("SS 2541-03", "34CrNiMo6"),
            ("SS 2304", "1.4028"),
            ("Ç1040", "C40"),
            ("C1045", "1045"),
        ),
        *(("RVS 304", "1.4301"), ("40Х ГОСТ 4543-71", "41Cr4"), ("C40 UNI 7846", "C40")),
        *(
            ("UNI 7845 C40", "C40"),
            ("UNI EN 10083 42CrMo4", "42CrMo4"),
            ("NF EN 10083-2 C45", "C45"),
            ("UNI C45", "C45"),
        ),
        *(("PN-EN 10025 S235JR", "S235JR"), ("GOST 4543-71 40X", "41Cr4"), ("UNI 1.4301", "1.4301")),
        *(("XC48 NF A35-552", "C45"), ("UNI EN AW-6082", "6082"), ("C45 UNI EN 10083-2:2006 28 HRC", "C45")),
    ],
)
def test_a_national_name_is_that_of_the_en(national, en):
    """Such correspondences stand in any conversion table of steels; these are from memory."""
    one, other = known(national), known(en)
    assert one is not None
    assert other is not None
    assert one.agrees(other)


@pytest.mark.parametrize("name", ["XC99", "42CD9", "SS 9999", "C1099", "PN 16", "UNI 5739", "GOST 1050", "Z6"])
def test_what_only_looks_like_one_is_not_known(name):
    assert known(name) is None


@pytest.mark.parametrize(
    "name",
    [
        *("42CrMo4 UNI EN 10083 58 HRC", "100Cr6 UNI EN ISO 683-17 60-62 HRC", "40X GOST 4543 HRC 58"),
        *("X40Cr14 PN 55 HRC", "C45 PN-93/H-84019 hardened", "UNI 7845 C40 600 HV 10", "C45 UNI 600 HV 10"),
    ],
)
def test_a_national_standard_hides_no_hardness(name):
    assert known(name).family.group == "H"


@pytest.mark.parametrize(
    "name",
    [
        "C45 / 6082", "C45/6082", "6082 / C45", "C45 OR 6082", "6082 oder C45", "42CrMo4 / 7075", "C45, 6082",
        "1.4301 / 1045", "C45 / 304", "C45 / 2007", "POM; 6082", "42CrMo4 / 2011",
    ],
)  # fmt: skip
def test_two_materials_of_different_groups_are_none(name):
    """EN 573-3 and AISI numbers; 2007 is a grade behind a stroke, and may be a year behind a comma."""
    assert known(name) is None


@pytest.mark.parametrize(
    ("name", "one"),
    [
        ("C45 / 1045", "C45"), ("42CrMo4 / 4140", "42CrMo4"), ("1.4301 / 304", "1.4301"), ("AlMgSi1, 6082", "6082"),
        ("42CrMo4 / 1100", "42CrMo4"), ("C45, 2017", "C45"), ("C45 / 4711", "C45"), ("C45, 800 N/mm2", "C45"),
        ("EN 10083-2:2006 C45", "C45"), ("C45 / 1950", "C45"), ("C45 6082", "C45"),
    ],
)  # fmt: skip
def test_two_names_of_one_group_a_strength_or_a_year_are_that_of_the_first(name, one):
    """1100 N/mm2 is a usual strength of 42CrMo4 (EN ISO 683-2), and aluminium by its number."""
    found, first = known(name), known(one)
    assert found is not None
    assert first is not None
    assert found.family == first.family


@pytest.mark.parametrize(
    "name", ["C45 UNI EN 10083 / EN AW-6082", "C45 GOST 1050-88 / 1.4301", "NF EN 10083 C45 / 1.4301"]
)
def test_a_national_standard_hides_no_second_material(name):
    assert known(name) is None


@pytest.mark.parametrize("text", ["E24", "E36", "40H", "2H13", "S250", "A60-2"])
def test_zones_and_fits_are_no_names_by_themselves(text):
    assert not is_name(text)


@pytest.mark.parametrize(
    ("just_soft", "just_hard"),
    [
        ("C60 44 HRC", "C60 45 HRC"),
        ("C60 445 HV", "C60 446 HV"),
        ("C60 423 HB", "C60 424 HB"),
        ("40+4 HRC", "41+4 HRC"),
    ],
)
def test_hardness_decides_from_45_hrc(just_soft, just_hard):
    assert known(just_hard).family.group == "H"
    assert known(just_soft) is None or known(just_soft).family.group == "P"


def test_hardened_is_never_steel_and_hard_aluminium_is_still_aluminium():
    assert {known(f"{one} hardened").family.group for one in ("steel", "C45", "1.4034", "42CrMo4", "GG25")} == {"H"}
    assert known("6082 age hardened").family.group == "N"


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        *(("C45", "1.0503", True), ("C45 steel", "Ck45", True), ("1.4301", "AISI 304", True), ("steel", "C45", True)),
        *(("stainless", "1.4571", True), ("C45", "C60", False), ("1.4301", "1.4571", False), ("steel", "brass", False)),
        *(("100Cr6", "100Cr6 60 HRC", False), ("6082", "AlMgSi1", True), ("steel", "steel 58 HRC", False)),
    ],
)
def test_two_names_of_one_material(one, other, same):
    assert known(one).agrees(known(other)) is same is known(other).agrees(known(one))


# kc1.1 over all sources of the table in section 2, as least and greatest; ranges, never one value.
FORCES = {
    "C15": (1350, 1915),
    "C45": (1500, 2220),
    "C60": (1700, 1900),
    "42CrMo4": (1675, 2526),
    "1.2379": (2450, 2500),
    "1.4021": (1875, 1875),
    "1.4301": (2000, 2394),
    "1.4462": (2000, 2394),
    "GG25": (1050, 1350),
    "GGG-40": (1225, 1350),
    "GTS-35": (1225, 1531),
    "6082": (470, 800),
    "AlSi12": (680, 773),
    "CuZn39Pb3": (700, 780),
    "TiAl6V4": (1160, 2110),
    "718": (3300, 3300),
    "A286": (2600, 3100),
    "hardened": (4500, 4700),
}
# Catalogue ranges of surface speed for grooving in m/min (section 3); S: turning starts, H and plastics have none seen.
SPEEDS = {
    "C45": (80, 200),
    "42CrMo4": (70, 180),
    "1.4301": (60, 150),
    "GG25": (70, 200),
    "6082": (200, 500),
    "CuZn39Pb3": (100, 200),
    "TiAl6V4": (30, 70),
    "718": (20, 61),
    "hardened": (30, 80),
}


def test_figures_lie_within_the_published_ranges():
    for name, (low, high) in FORCES.items():
        assert low <= known(name).family.kc11 <= high, name
    for name, (low, high) in SPEEDS.items():
        assert low <= known(name).family.speed <= high, name


# Force in N of a plunge 3 wide at 0.1 a turn, least and greatest over the sources of that table: kc1.1 b h^(1 - mc).
PLUNGES = {
    "C15": (657, 911),
    "C45": (747, 919),
    "42CrMo4": (899, 1348),
    "1.4301": (1012, 1138),
    "GG25": (546, 772),
    "6082": (298, 427),
    "TiAl6V4": (649, 1050),
    "718": (1356, 1720),
}


def test_the_force_of_a_plunge_lies_within_the_published_ranges():
    for name, (low, high) in PLUNGES.items():
        family = known(name).family
        by_hand = family.kc11 * 3 * 0.1 ** (1 - family.mc)
        assert cutting_force(family.kc11, family.mc, 3.0, 0.1, "mm") == pytest.approx(by_hand)
        assert low - 1 <= by_hand <= high + 1, name


def test_every_family_has_its_figures_in_order_and_a_source_for_each():
    for family in FAMILIES.values():
        assert 0 < family.slow <= family.speed <= family.fast
        assert 0.17 <= family.mc <= 0.30  # least and greatest mc of the table in section 2
        assert 0.5 <= family.feed <= 1.2
        assert len(family.by) == 3
        assert set(family.by) <= SOURCES.keys()


PART = part_of([(-10, -13, 36)])


def noted(*names):
    return replace(PART, materials=tuple(MaterialNote(name, (1.0, 2.0)) for name in names))


def about(text, *names):
    plan = plan_part(noted(*names), parse_shop(text, "s", "mm"))
    codes = {f.code for f in plan.findings if "material" in f.code}
    return plan, codes


def named(name, more=""):
    return f'units = "mm"\n[material]\nname = "{name}"\n{more}'


NAMELESS = 'units = "mm"\n[material]\ncutting_speed = 50\nspecific_cutting_force = 3000\n'
FIGURES = "cutting_speed = 50\nspecific_cutting_force = 3000\n"


class TestShopAndDrawing:
    def test_none_anywhere_is_assumed_and_said_in_the_head(self):
        plan, codes = about("")
        assert codes == {"material-assumed"}
        assert plan.shop.material.name == "C45 steel"
        for name in ("two-block", "one-block", "plunge", "two-block-iso"):
            text = write_program(plan, find_dialect(name), Heading("a.dxf", "0" * 64)).text
            assert "FOR C45 STEEL, ASSUMED" in text.replace("\n(", " ").replace(")", "").replace("  ", " ")

    def test_that_of_the_drawing_is_used_where_the_shop_names_none(self):
        plan, codes = about("", "1.4571")
        assert not codes
        assert plan.shop.material.name == "1.4571"
        assert plan.shop.material.group == "M"
        assert plan.shop.material.cutting_speed == 90.0
        assert "ASSUMED" not in write_program(plan, find_dialect("two-block"), Heading("a.dxf", "0" * 64)).text

    @pytest.mark.parametrize(("more", "told"), [("", True), ("cutting_speed = 50\n", True), (FIGURES, False)])
    def test_figures_that_the_shop_does_not_give_are_starting_values(self, more, told):
        plan, _ = about(named("EN-GJL-250", more))
        assert ("starting-values" in {f.code for f in plan.findings}) is told

    def test_they_differ(self):
        plan, codes = about(named("C45"), "1.4571")
        assert codes == {"materials-differ"}
        assert plan.shop.material.name == "C45"
        (found,) = (f for f in plan.findings if f.code == "materials-differ")
        assert "1.4571" in found.message
        assert "C45" in found.message
        assert found.at == (1.0, 2.0)

    @pytest.mark.parametrize("drawn", ["1.0503", "Ck45", "steel", "C45E"])
    def test_one_material_by_two_names_is_no_difference(self, drawn):
        assert about(named("C45"), drawn)[1] == set()

    @pytest.mark.parametrize("text", [named("unobtainium"), named("unobtainium", "cutting_speed = 50\n")])
    def test_an_unknown_name_stops(self, text):
        plan, codes = about(text)
        assert codes == {"material-unknown"}
        assert plan.stopped

    def test_an_unknown_name_on_the_drawing_stops_and_the_shop_answers_it(self):
        assert about("", "unobtainium")[1] == {"material-unknown"}
        assert about(named("C45"), "unobtainium")[1] == {"materials-differ"}
        assert about(NAMELESS, "unobtainium")[1] == set()

    def test_two_materials_on_the_drawing_are_none(self):
        assert about("", "C45", "1.4301")[1] == {"material-unknown"}
        assert about("", "C45", "1.0503")[1] == set()

    def test_the_shops_own_figures_need_no_known_name(self):
        plan, codes = about(named("unobtainium", FIGURES))
        assert not codes
        assert plan.shop.material.cutting_speed == 50.0
        assert plan.shop.material.group == ""

    def test_a_shop_with_figures_and_no_name_assumes_nothing(self):
        plan, codes = about(NAMELESS)
        assert not codes
        assert plan.shop.material.name == "material without a name"


class TestFeeds:
    def test_hard_material_lowers_a_feed_that_nobody_gave(self):
        shop = settled(default_shop("mm"), (MaterialNote("titanium"),))[0]
        usual = {tool.name: tool.feed for tool in default_shop("mm").tools}
        for tool in shop.tools:
            # A round figure as one writes it: of 0.005, from 0.1 on of 0.01.
            assert abs(tool.feed - 0.8 * usual[tool.name]) <= 0.0025 + 1e-9
            assert round(1000 * tool.feed) % (5 if tool.feed < 0.1 else 10) == 0

    def test_a_feed_that_the_shop_gave_stands(self):
        text = 'units = "mm"\n[material]\nname = "titanium"\n[[tools]]\nstation = 1\nwidth = 3.0\nfeed = 0.1\n'
        assert settled(parse_shop(text, "s", "mm"))[0].tools[0].feed == 0.1
        assert settled(parse_shop(text.replace("feed = 0.1\n", ""), "s", "mm"))[0].tools[0].feed == 0.065

    def test_inch(self):
        shop = settled(parse_shop(named("titanium"), "s", "in"))[0]
        assert shop.material.cutting_speed == 130.0  # 40 m/min is 131 ft/min


NAMES_ALONE = """
    Ti-6Al-4V | X5CrNi18-10 (1.4301) | 1.4571 | 16MnCr5 | C45 | C45E+QT | EN-GJL-250 | 17-4PH H900 | PEEK | POM schwarz
    | BRASS CZ121 | SUS304 | Messing | Edelstahl | Сталь 40Х | 12Х18Н10Т | Сталь 45 | ЛС59-1 | Acero inoxidable | Q235
    | 42CrMo4 44 HRC | ocel
"""
"""What stands in cells of title blocks without a label: common practice, no source; GOST and GB names from memory."""
NO_NAMES = """
    SHAFT | BRONZE BUSH | STEEL CITY WORKS | PIN 304 | 4140 | 1018 | 45 | 12 | 12 050 | H13 | M2 | A2 | Rev A2 | C10
    | 20x13 | 40 x 13 | A2-70 | ISO 4762 A2-70 | C2
    | S10 | T5 | DRG 1018 | 2024-06-11 | GRADE 5 | 58 HRC | M8x1 | AL | PE | A3 | EN 8 | valve with brass seat
"""
"""Titles, numbers, dates, grades, chamfers, tool numbers and marks: each is or holds what else may be a material's."""


@pytest.mark.parametrize("name", [*map(str.strip, " ".join(NAMES_ALONE.split()).split("|"))])
def test_a_text_that_is_a_name_and_no_more_is_one_by_itself(name):
    assert is_name(name)


@pytest.mark.parametrize("name", [*map(str.strip, " ".join(NO_NAMES.split()).split("|"))])
def test_titles_and_short_codes_are_no_names_by_themselves(name):
    assert not is_name(name)


def alone(*texts, units="mm", **more):
    """The plan's material and the findings of it for a part with texts that nothing calls its material."""
    notes = tuple(MaterialNote(text, (0.0, 0.0)) for text in texts)
    part = replace(part_of([(-10, -13, 34)]), units=units, lines=notes, **more)
    shop, found = settled_for(part, default_shop(units))
    return shop.material.name, [(str(f.level), str(f.code)) for f in found]


class TestNamesAlone:
    def test_the_only_one_is_taken_and_told(self):
        assert alone("SHAFT", "Ti-6Al-4V", "1018") == ("Ti-6Al-4V", [("note", "material-alone")])

    def test_two_ways_of_saying_one_are_one(self):
        assert alone("X5CrNi18-10", "1.4301")[1] == [("note", "material-alone")]

    def test_two_that_differ_are_named_and_none_is_taken(self):
        name, found = alone("16MnCr5", "1.4301")
        assert (name, found) == ("C45 steel", [("caution", "material-assumed")])

    @pytest.mark.parametrize("text", ["PTFE", "BRASS CZ121", "EN AW-6082"])
    def test_what_is_cut_faster_than_the_assumed_one_is_named_and_not_taken(self, text):
        # It may be a coating's, a ring's or a cap's; C45 itself is cut at the speed that is assumed.
        assert alone(text) == ("C45 steel", [("caution", "material-assumed")])
        assert alone("C45")[1] == [("note", "material-alone")]

    def test_beside_words_of_hard_metal_none_is_taken(self):
        assert alone("C45", "HARDENED 60 HRC") == ("C45 steel", [("caution", "material-assumed")])
        assert alone("C45", "TEMPERED 28 HRC")[1] == [("note", "material-alone")]

    def test_what_the_sheet_calls_the_material_counts_before_them(self):
        assert alone("PEEK", materials=(MaterialNote("C45"),)) == ("C45", [])

    def test_a_number_alone_is_a_size_on_a_sheet_in_inches(self):
        assert alone("1.4571")[0] == "1.4571"
        assert alone("1.4571", units="in")[1] == [("caution", "material-assumed")]
        assert alone("Ti-6Al-4V", units="in")[0] == "Ti-6Al-4V"


def test_names_of_gb_gost_and_csn_are_those_of_their_materials():
    # Pairs of common conversion tables, from memory.
    pairs = (
        ("45", "C45"),
        ("Сталь 45", "C45"),
        ("20#", "C22"),
        ("12 050", "C45"),
        ("11 523", "S355J2"),
        ("40Х", "41Cr4"),
    )
    more = (("12Х18Н10Т", "1.4541"), ("06Cr19Ni10", "1.4301"), ("2A12", "EN AW-2024"), ("ВТ6", "Ti6Al4V"))
    assert [one for one, other in (*pairs, *more) if not known(one) or not known(one).agrees(known(other))] == []
