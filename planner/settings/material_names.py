"""Materials by the names that people write: each row one material under all its names, and plain words for many.

Names: EN and ISO symbols and numbers, older DIN ones, AISI, SAE, UNS, BS and JIS. Sources: public conversion tables,
each name in two of them or more where no remark says otherwise; the rest is from memory. What follows a system
(`planner.settings.material_rules`) needs no row here. Trade names of makers are left out.
"""

from collections.abc import Iterator

SAME: dict[str, str] = {
    "low carbon steel": """
        1.0037 St37-2 S235JR 1.0038 1.0036 USt37-2 RSt37-2 A36 SS400 | 1.0570 1.0577 1.0045 St52-3 S355J2 S355J2G3
        S355JR | 1.0401 1.1141 C15 Ck15 C15E 1015 EN3B | 1.0402 1.1151 C22 Ck22 C22E 1020 S20C | C22.8 P250GH 1.0460
        | C10 Ck10 C10E 1.1121 1.0301 1010 | 1018 | 1008 | 1.0050 St50-2 E295 | 1.0446 1.0445 GE240 GS-45
    """,
    "free cutting steel": """
        1.0711 9S20 1212 | 1.0718 9SMnPb28 11SMnPb30 12L14 | 1.0715 9SMn28 11SMn30 1213 SUM22 | 1.0736 9SMn36
        11SMn37 | 1.0737 9SMnPb36 11SMnPb37 | 1.0726 35S20 1140 | 1.0727 46S20 1146 | 1.0721 10S20 | 1215 | 1144 |
        EN1A | EN1APb
    """,
    "medium carbon steel": """
        1.0503 1.1191 1.1201 C45 Ck45 C45E C45R Cm45 1045 S45C EN43B | 1.0501 1.1181 C35 Ck35 C35E 1035 S35C |
        1.0511 1.1186 C40 Ck40 C40E 1040 S40C EN8 080M40 | 1.0060 St60-2 E335 |
        1.0540 1.1206 C50 Ck50 C50E 1050steel S50C | 1.1213
    """,
    "high carbon steel": """
        1.0601 1.1221 C60 Ck60 C60E 1060steel S58C | 1.0535 1.1203 C55 Ck55 C55E 1055 | 1.0070 St70-2 E360 | 1.1545
        C105U C105W1 | 1095 | 1.1274 Ck101 C100S | 1.1248 Ck75 C75S 1074 1075
    """,
    "low alloy steel": """
        1.7225 42CrMo4 4140 EN19 SCM440 708M40 | 1.7227 42CrMoS4 | 1.7218 25CrMo4 4130 SCM430 | 1.7220 34CrMo4 4135
        SCM435 | 1.7131 16MnCr5 5115 | 1.7139 16MnCrS5 | 1.7147 20MnCr5 5120 | 1.5920 18CrNi8 | 1.6582 34CrNiMo6
        4340 EN24 817M40 SNCM447 | 1.6587 18CrNiMo7-6 17CrNiMo6 | 1.3505 100Cr6 102Cr6 52100 SUJ2 EN31 GCr15 | 1.8159
        51CrV4 50CrV4 6150 EN47 | 1.7035 41Cr4 5140 | 1.7033 34Cr4 5132 | 1.6511 36CrNiMo4 9840 | 1.6580 30CrNiMo8 |
        1.6523 21NiCrMo2 20NiCrMo2-2 8620 SNCM220 | 1.8509 41CrAlMo7 41CrAlMo7-10 34CrAlMo5 | 1.8519 31CrMoV9 |
        1.7709 21CrMoV5-7 | 1.7711 40CrMoV4-6 | B7 | EN36 | 9310 | 8740 | 4150 | 1.2210 115CrV3 silversteel
        silberstahl
    """,
    "tool steel": """
        1.2379 X153CrMoV12 X155CrVMo12-1 D2 SKD11 | 1.2842 90MnCrV8 O2 | 1.2510 100MnCrW4 O1 SKS3 | 1.2714
        55NiCrMoV7 L6 | 1.2083 X40Cr14 X42Cr13 | 1.2316 X38CrMo16 X36CrMo17 | 1.2311 40CrMnMo7 P20 | 1.2312
        40CrMnMoS8-6 | 1.2738 40CrMnNiMo8-6-4 | 1.2343 X37CrMoV5-1 X38CrMoV5-1 H11 | 1.2344 X40CrMoV5-1 H13 SKD61 |
        1.2080 X210Cr12 D3 | 1.2363 X100CrMoV5 X100CrMoV5-1 A2 | 1.2767 X45NiCrMo4 | 1.2550 60WCrV7 60WCrV8 S1 |
        1.3343 HS6-5-2 HS6-5-2C M2 SKH51 | 1.3243 HS6-5-2-5 M35
    """,
    "martensitic stainless steel": """
        1.4021 X20Cr13 420 SUS420J1 | 1.4034 X46Cr13 | 1.4028 X30Cr13 | 1.4006 X12Cr13 X10Cr13 410 SUS410 | 1.4005
        X12CrS13 416 | 1.4057 X17CrNi16-2 X20CrNi17-2 431 | 1.4104 X14CrMoS17 X12CrMoS17 430F | 1.4105 X6CrMoS17 |
        1.4016 X6Cr17 430 SUS430 | 1.4112 X90CrMoV18 440B | 1.4125 X105CrMo17 440C SUS440C | 1.4122 X39CrMo17-1 |
        1.4313 X3CrNiMo13-4 X4CrNi13-4 | 1.4542 1.4548 X5CrNiCuNb16-4 X5CrNiCuNb17-4-4 630 S17400 17-4PH SUS630 |
        1.4545 15-5PH S15500 | 1.4418 X4CrNiMo16-5-1 | 403 | 440A | 1.4512 X2CrTi12 409 | 1.4509 X2CrTiNb18 | 1.4922
        X20CrMoV12-1 X20CrMoV11-1 | 1.4903 X10CrMoVNb9-1
    """,
    "austenitic stainless steel": """
        1.4301 X5CrNi18-10 304 V2A SUS304 S30400 X5CrNi1810 | 1.4305 X8CrNiS18-9 X10CrNiS18-9 303 SUS303 S30300
        X10CrNiS189 | 1.4307 1.4306 X2CrNi18-9 X2CrNi19-11 304L SUS304L S30403 | 1.4310 X10CrNi18-8 X12CrNi17-7 301
        302 | 1.4303 305 | 1.4401 1.4436 X5CrNiMo17-12-2 316 SUS316 S31600 | 1.4404 1.4435 X2CrNiMo17-12-2
        X2CrNiMo18-14-3 316L SUS316L S31603 | 1.4541 X6CrNiTi18-10 321 SUS321 S32100 | 1.4571 X6CrNiMoTi17-12-2
        X10CrNiMoTi18-10 316Ti V4A S31635 | 1.4550 X6CrNiNb18-10 347 | 1.4539 X1NiCrMoCu25-20-5 904L N08904 | 1.4547
        S31254 | 1.4841 X15CrNiSi25-21 314 | 1.4845 X8CrNi25-21 310 310S | 1.4828 X15CrNiSi20-12 309 | 1.4948
        X6CrNi18-11 304H | 1.4961 X8CrNiNb16-13 | A2-70 | A4-70 | A4-80 | 201 | 202 | 317L
    """,
    "duplex stainless steel": """
        1.4462 X2CrNiMoN22-5-3 S32205 S31803 2205 318LN | 1.4410 X2CrNiMoN25-7-4 S32750 2507 | 1.4501 S32760 |
        1.4362 X2CrNiN23-4 2304 | 1.4162 2101
    """,
    "grey cast iron": """
        EN-GJL-250 GJL250 GG-25 0.6025 5.1301 FC250 | EN-GJL-200 GJL200 GG-20 0.6020 5.1300 | GG-15 EN-GJL-150
        0.6015
    """,
    "nodular cast iron": """
        EN-GJS-400-15 GJS400-15 GGG-40 0.7040 60-40-18 5.3106 FCD400 | EN-GJS-500-7 GJS500-7 GGG-50 0.7050 80-55-06
        5.3200 | EN-GJS-600-3 GJS600-3 GGG-60 0.7060 | EN-GJS-700-2 GJS700-2 GGG-70 0.7070 | 65-45-12
    """,
    "wrought aluminium": """
        EN-AW-1050A AW1050A 1050A 3.0255 Al99,5 | EN-AW-2007 AW2007 2007 3.1645 AlCuMgPb AlCu4PbMgMn | EN-AW-2011
        AW2011 2011 3.1655 AlCuBiPb AlCu6BiPb | EN-AW-2017A AW2017A 2017A 2017 3.1325 AlCuMg1 AlCu4MgSi | EN-AW-2024
        AW2024 2024 3.1355 AlCuMg2 AlCu4Mg1 | EN-AW-5083 AW5083 5083 3.3547 AlMg4,5Mn AlMg4,5Mn0,7 | EN-AW-5754
        AW5754 5754 3.3535 AlMg3 | EN-AW-6012 AW6012 6012 3.0615 AlMgSiPb | EN-AW-6026 AW6026 6026 | EN-AW-6060
        AW6060 6060 3.3206 AlMgSi0,5 AlMgSi | EN-AW-6061 AW6061 6061 3.3211 3.3214 AlMg1SiCu | EN-AW-6082 AW6082
        6082 3.2315 AlMgSi1 AlSi1MgMn | EN-AW-7075 AW7075 7075 3.4365 AlZnMgCu1,5 AlZn5,5MgCu | EN-AW-7020 AW7020
        7020 3.4335 AlZn4,5Mg1 | 5052 AW5052 EN-AW-5052 | 6063 AW6063 EN-AW-6063 | 3003 AW3003 EN-AW-3003 | 1100
    """,
    "cast aluminium": """
        AlSi10Mg AlSi9Mg | AlSi12 EN-AC-44200 | AlSi7Mg EN-AC-42000 A356 | AlSi9Cu3 EN-AC-46000 A380
    """,
    "brass": """
        CuZn37 CW508L 2.0321 Ms63 C27200 | CuZn39Pb3 CW614N C38500 2.0401 Ms58 | CuZn40Pb2 CW617N 2.0402 C37700 |
        CuZn36Pb3 CW603N C36000 360 2.0375 | CuZn30 CW505L Ms70 | CuZn40Mn2Fe1 CW723R
    """,
    "bronze or copper": """
        Cu-ETP CW004A E-Cu E-Cu58 2.0065 2.0060 C11000 | Cu-OF CW008A 2.0040 C10200 | CuSn6 CW452K 2.1020 | CuSn8
        CW453K 2.1030 | CuSn7Zn4Pb7-C CC493K Rg7 2.1090 C93200 SAE660 | CuSn12-C CC483K 2.1052 | CuAl10Ni5Fe4 CW307G
        2.0966 C63000 | CuSn5Zn5Pb5-C Rg5 | CuCr1Zr CW106C 2.1293 | Cu-DHP CW024A 2.0090
    """,
    "titanium": """
        3.7164 3.7165 Ti6Al4V TiAl6V4 R56400 Ti-Gr5 TiGrade5 Grade5 Gr5 Ti5 | R56401 Ti6Al4VELI TiGrade23 Ti-Gr23
        Grade23 | 3.7035 Ti2 TiGrade2 Gr2 Ti-Gr2 Grade2 R50400 | 3.7025 Ti1 TiGrade1 Grade1 | 3.7055 Ti3 Grade3 | 3.7065
        Ti4 Grade4
    """,
    "nickel or cobalt alloy": """
        2.4856 N06625 alloy625 625 NiCr22Mo9Nb | 2.4668 N07718 NiCr19NbMo NiCr19Fe19Nb5Mo3 alloy718 718 | 2.4360
        N04400 alloy400 NiCu30Fe | 2.4819 N10276 C-276 C276 alloyC276 NiMo16Cr15W | 2.4816 N06600 alloy600 NiCr15Fe
        | 2.4858 N08825 alloy825 825
    """,
    "heat-resistant iron alloy": "1.4980 A286 S66286 X5NiCrTi26-15 X6NiCrTiMoVB25-15-2 660",
    "hardened steel or iron": "EN-GJN-HV550 EN-GJN",
    "plastics": """
        POM POM-C POM-H acetal polyacetal polyoxymethylene | PTFE polytetrafluoroethylene | PEEK | PVC PVC-U PVC-C |
        PC polycarbonate | PE-UHMW UHMW UHMWPE UHMW-PE PE1000 | PE PE-HD HDPE PE-HD PE500 PE300 polyethylene
        polyethylen | PP PP-H polypropylene | PMMA acrylic acrylglas | PET PET-P PETP | ABS | PVDF | PEI | PSU | PPS
        | PA6-G PA6G PA6-C
    """,
}
"""By family: materials parted by a bar, the names of one by blanks."""

STEELS = frozenset(
    {
        "low carbon steel",
        "free cutting steel",
        "medium carbon steel",
        "high carbon steel",
        "low alloy steel",
        "tool steel",
    }
)
STAINLESS = frozenset({"martensitic stainless steel", "austenitic stainless steel", "duplex stainless steel"})
IRONS = frozenset({"grey cast iron", "nodular cast iron", "malleable cast iron"})
HARD = frozenset({"hardened steel or iron"})
COPPERS = frozenset({"brass", "bronze or copper"})
ALUMINIUM = frozenset({"wrought aluminium", "cast aluminium"})
ALL_STEEL = STEELS | STAINLESS | HARD | {"heat-resistant iron alloy"}

# Plain words, what they may mean, and the family that is taken where nothing says more: the one that is harder to cut.
PLAIN: tuple[tuple[str, frozenset[str], str], ...] = (
    ("steel stahl acier acciaio", ALL_STEEL, "low alloy steel"),
    ("mild_steel plain_steel structural_steel baustahl low_carbon_steel", STEELS | HARD, "low carbon steel"),
    ("carbon_steel kohlenstoffstahl unalloyed_steel unlegierter_stahl", STEELS | HARD, "high carbon steel"),
    ("free_cutting_steel free_machining_steel automatenstahl", STEELS | HARD, "free cutting steel"),
    (
        "alloy_steel low_alloy_steel verguetungsstahl einsatzstahl case_hardening_steel bearing_steel waelzlagerstahl "
        "spring_steel federstahl nitriding_steel nitrierstahl legierter_stahl",
        STEELS | HARD,
        "low alloy steel",
    ),
    (
        "tool_steel werkzeugstahl high_speed_steel schnellarbeitsstahl hss cold_work_steel hot_work_steel "
        "kaltarbeitsstahl warmarbeitsstahl",
        STEELS | HARD,
        "tool steel",
    ),
    ("cast_steel stahlguss steel_casting", STEELS | HARD, "low alloy steel"),
    (
        "stainless stainless_steel edelstahl rostfrei nichtrostend nichtrostender_stahl rostfreier_stahl inox "
        "crni_stahl corrosion_resistant_steel cres niro",
        STAINLESS | HARD,
        "austenitic stainless steel",
    ),
    ("austenitic austenitic_stainless_steel austenitisch", STAINLESS, "austenitic stainless steel"),
    ("martensitic ferritic martensitisch ferritisch", STAINLESS | HARD, "martensitic stainless steel"),
    ("duplex duplex_stainless_steel duplex_steel", STAINLESS, "duplex stainless steel"),
    ("cast_iron gusseisen iron fonte", IRONS | HARD, "nodular cast iron"),
    ("grey_iron gray_iron grey_cast_iron gray_cast_iron grauguss", IRONS | HARD, "grey cast iron"),
    (
        "nodular_iron ductile_iron nodular_cast_iron ductile_cast_iron sg_iron sphaeroguss kugelgraphitguss",
        IRONS | HARD,
        "nodular cast iron",
    ),
    ("malleable_iron malleable_cast_iron temperguss", IRONS | HARD, "malleable cast iron"),
    ("chilled_iron chilled_cast_iron hartguss schalenhartguss", HARD, "hardened steel or iron"),
    ("aluminium aluminum alu dural duralumin aluminio alluminio", ALUMINIUM, "wrought aluminium"),
    ("cast_aluminium cast_aluminum alu_guss aluguss aluminiumguss", ALUMINIUM, "cast aluminium"),
    ("brass messing leaded_brass laiton ottone", COPPERS, "brass"),
    (
        "bronze copper kupfer gunmetal gun_metal rotguss red_brass aluminium_bronze aluminum_bronze aluminiumbronze "
        "phosphor_bronze tin_bronze zinnbronze leaded_bronze cuivre rame",
        COPPERS,
        "bronze or copper",
    ),
    ("titanium titan titane titanio titanium_alloy", frozenset({"titanium"}), "titanium"),
    (
        "nickel_alloy nickel_base nickellegierung nickelbasis superalloy cobalt_alloy",
        frozenset({"nickel or cobalt alloy"}),
        "nickel or cobalt alloy",
    ),
    ("plastic plastics kunststoff nylon polyamide polyamid thermoplast", frozenset({"plastics"}), "plastics"),
)


def same_rows() -> Iterator[tuple[str, tuple[str, ...]]]:
    """Family and names of each material."""
    for family, text in SAME.items():
        for row in text.split("|"):
            if names := tuple(row.split()):
                yield family, names
