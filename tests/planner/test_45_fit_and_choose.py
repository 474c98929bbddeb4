"""Which insert goes into which groove, and which of several is taken."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.moves import tool as usual_tool
from support.parts import groove_of, part_of, row

from extractor.limits import Limits
from planner import default_shop, parse_shop, plan_part
from planner.choose import EQUAL, Chooser, seconds_for
from planner.cuts.ground import ground_of
from planner.cuts.moves import Setting
from planner.cuts.place import place, same_limits
from planner.cuts.strokes import cutting_steps
from planner.cuts.widen import common_count, gaps_for, layout
from planner.fit import Fit, Fitter, Misfit, fit, greatest_corner
from planner.increment import Increments

MM = Increments.of("mm")


def insert(width=3.0, radius=0.2, reach=12.0, station=1, **more):
    return usual_tool(station=station, offset=station, width=width, corner_radius=radius, max_depth=reach, **more)


def held(tool, spot=(-10, -13, 34), text="", **part):
    the_part = part_of([spot], **part)
    return fit(the_part.grooves[0], tool, the_part, parse_shop(text, "s", "mm"))


class TestFit:
    @pytest.mark.parametrize(
        ("width", "plunges"), [(3.0, 1), (2.98, 1), (3.02, 1), (2.97, 2), (2.0, 2), (1.7, 2), (1.6, 3), (1.0, 4)]
    )
    def test_how_many_plunges(self, width, plunges):
        answer = held(insert(width, radius=0.0))
        assert isinstance(answer, Fit)
        assert answer.plunges == plunges

    @pytest.mark.parametrize(
        ("tool", "reason"),
        [
            (insert(3.03), "width"),
            (insert(3.0, radius=0.3), "corner"),
            (insert(3.0, reach=2.9), "reach"),
            (insert(3.0, where="inside"), "kind"),
            (insert(3.0, where="face"), "kind"),
            (insert(3.0, edge="round"), "kind"),
            (insert(1.0, radius=0.5), "corner"),
        ],
    )
    def test_what_stands_in_the_way(self, tool, reason):
        answer = held(tool)
        assert isinstance(answer, Misfit)
        assert answer.reason == reason

    def test_a_rounded_insert_leaves_no_flat_floor_in_a_wider_groove(self):
        answer = held(insert(1.0, radius=0.5), (-10, -13, 34, {"corner_radius": 0.5}))
        assert isinstance(answer, Misfit)
        assert answer.reason == "width"
        assert isinstance(held(insert(3.0, radius=0.5), (-10, -13, 34, {"corner_radius": 0.5})), Fit)

    def test_the_greatest_corner(self):
        shop = default_shop("mm")
        drawn = groove_of(corner_radius=0.4)
        assert greatest_corner(drawn, shop) == pytest.approx(0.42)
        sharp = groove_of()
        assert greatest_corner(sharp, shop) == 0.2

    def test_the_reach_allows_the_floor_only_so_deep(self):
        answer = held(insert(3.0, reach=3.02), (-10, -13, 34, {"tolerances": {"floor_diameter": (-0.2, 0.0)}}))
        assert isinstance(answer, Fit)
        assert answer.deepest == pytest.approx(33.96)


class TestGaps:
    @given(st.floats(0.01, 40), st.floats(0.5, 6), st.floats(0, 0.3))
    def test_neighbours_overlap_flat_on_flat(self, span, width, share):
        tool = insert(width, radius=share * width)
        gaps, ribs = gaps_for(span, tool)
        assert gaps >= 1
        assert span / gaps <= width - 2 * tool.corner_radius
        if ribs:
            assert gaps % 2 == 0
            assert 0.25 * width <= 2 * span / gaps - width + 1e-9, "a rib is no thinner than a quarter of the insert"
            assert 2 * span / gaps - width <= width, "a rib is narrower than the insert"

    def test_nothing_to_widen(self):
        assert gaps_for(0.0, insert()) == (1, False)

    def test_a_point_can_t_widen(self):
        assert gaps_for(2.0, insert(1.0, radius=0.5)) == (0, False)


class TestLayout:
    def limits(self, width, slack=0.02):
        return [Limits(low=width - slack, aim=width, high=width + slack, source="shop")]

    @given(st.integers(3030, 30_000), st.sampled_from([0.0, 0.05, 0.1, 0.3]))
    def test_both_walls_are_met(self, width, finish):
        tool = insert(finish=finish)
        plunges = layout(self.limits(width / 1000), tool, MM)
        assert abs(plunges.span - (width - 3000)) <= 10
        assert plunges.offsets == tuple(sorted(plunges.offsets))
        assert plunges.offsets[0] >= plunges.finish or len(plunges.offsets) == 1
        assert plunges.offsets[-1] <= plunges.span
        assert sorted(plunges.order) == list(plunges.offsets)
        if not finish:
            assert (plunges.offsets[0], plunges.offsets[-1]) == (0, plunges.span)

    @given(st.integers(3030, 30_000), st.floats(0.0, 0.3))
    def test_gaps_are_even_or_nearly(self, width, slack):
        plunges = layout(self.limits(width / 1000, slack), insert(), MM)
        gaps = [b - a for a, b in zip(plunges.offsets, plunges.offsets[1:], strict=False)]
        assert max(gaps, default=0) - min(gaps, default=0) <= 1
        assert (plunges.gap > 0) == (len(set(gaps)) == 1)

    def test_the_width_stays_within_its_limits(self):
        tight = [Limits(low=8.0, aim=8.001, high=8.002)]
        for width in (2.0, 2.3, 2.7):
            assert 8000 <= layout(tight, insert(width), MM).span + round(width * 1000) <= 8002

    def test_a_common_count_keeps_off_the_limits(self):
        assert (
            common_count([Limits(low=1.0, aim=1.05, high=1.1), Limits(low=0.9, aim=1.0, high=1.02)], 1.05, MM) == 1019
        )
        assert common_count([Limits(low=1.0, aim=1.0, high=1.0)], 1.0, MM) == 1000
        assert common_count([Limits(low=1.0, aim=1.1, high=1.2), Limits(low=2.0, aim=2.1, high=2.2)], 1.1, MM) == 1100


class TestFitter:
    """Inserts are held against a kind of groove once; what comes out is what each groove gets by itself."""

    UNLIKE = (
        {},
        {"corner_radius": 0.4},
        {"corner_radius": 0.4, "tolerances": {"corner_radius": (-0.1, 0.3)}},
        {"tolerances": {"width": (-0.3, 0.0)}},
        {"tolerances": {"width": (0.0, 0.3)}},
        {"tolerances": {"width": (-0.1, 0.1)}},
        {"tolerances": {"width": (-0.1, 0.1)}, "general": frozenset({"width"})},
        {"tolerances": {"width": (-0.02, 0.02)}},
        {"tolerances": {"width": (0.0002, 0.0004)}},
        {"shape": "relief"},
        {"shape": "vee"},
        {"shape": "round"},
    )

    @pytest.mark.parametrize("to_limits", [False, True])
    @pytest.mark.parametrize("order", [1, -1])
    def test_every_kind_has_answers_of_its_own(self, order, to_limits):
        spots = [
            (-8 - 12 * k, -8 - 12 * k - wide, 34 - 4 * (k % 3), more)
            for k, (wide, more) in enumerate(
                [(wide, more) for wide in (3.0, 3.015, 2.0, 5.0) for more in self.UNLIKE][::order]
            )
        ]
        part, shop = part_of(spots, length=900), default_shop("mm")
        fitter = Fitter(part, shop)
        for groove in part.grooves:
            alone = [fit(groove, tool, part, shop, to_limits=to_limits) for tool in shop.tools]
            assert fitter.answers(groove, (), to_limits=to_limits) == alone

    def test_a_shoulder_beside_one_groove_of_a_kind(self):
        part = part_of([(-10, -13, 34), (-40, -43, 34)], steps=[(0, 40), (-43.5, 60)], length=80)
        fitter = Fitter(part, parse_shop("", "s", "mm"))
        reach = [{a.tool.name for a in fitter.answers(g, ()) if isinstance(a, Fit)} for g in part.grooves]
        assert len(fitter.kinds) == 1
        assert reach[1] < reach[0], "the holder meets the shoulder"

    @pytest.mark.parametrize("order", [1, -1])
    def test_each_holder_meets_lands_of_its_own(self, order):
        """A shoulder of 60 across begins 4 behind the groove; one holder reaches 5 that way, the other 2."""
        part = part_of([(-10, -13, 34)], steps=[(0, 40), (-17, 60)], length=80)
        rows = ["width = 3\nholder_far = 5\n", "width = 3\n"][::order]
        tools = "".join(f"[[tools]]\nstation = {k}\nmax_depth = 12\n{row}" for k, row in enumerate(rows, 1))
        answers = Fitter(part, parse_shop(f'units = "mm"\n{tools}', "s", "mm")).answers(part.grooves[0], ())
        told = [a.reason if isinstance(a, Misfit) else a.deepest for a in answers]
        assert told[::order] == ["reach", 40.0 - 2 * 12.0]

    @pytest.mark.parametrize("order", [1, -1])
    def test_of_one_kind_the_deeper_may_be_out_of_reach(self, order):
        part = part_of([(-10, -13, (34, 20)[::order][0]), (-20, -23, (34, 20)[::order][1])])
        shop = parse_shop('units = "mm"\n[[tools]]\nstation = 1\nwidth = 3\nmax_depth = 5\n', "s", "mm")
        fitter = Fitter(part, shop)
        told = [answer for groove in part.grooves for answer in fitter.answers(groove, ())]
        assert len(fitter.kinds) == 1
        assert told[::order] == [Fit(shop.tools[0], 1, 40.0 - 2 * 5.0), Misfit(shop.tools[0], "reach")]

    def test_what_is_barred_for_one_groove_stays_for_the_next(self):
        part, shop = part_of([(-10, -13, 34), (-20, -23, 34)]), default_shop("mm")
        fitter, names = Fitter(part, shop), [tool.name for tool in shop.tools]
        first = fitter.answers(part.grooves[0], {names[0], names[3]})
        assert [a.tool.name for a in first] == [*names[1:3], *names[4:]]
        assert [a.tool.name for a in fitter.answers(part.grooves[1], ())] == names

    @pytest.mark.parametrize(("more", "kinds"), [(4e-10, 1), (6e-10, 2)])
    def test_widths_that_only_reading_tells_apart_are_one_kind(self, more, kinds):
        part = part_of([(0, -3, 34), (-20, -23 - more, 34)])
        fitter = Fitter(part, default_shop("mm"))
        for groove in part.grooves:
            fitter.answers(groove, ())
        assert len(fitter.kinds) == kinds

    def test_to_the_limits_is_another_question(self):
        part = part_of([(-10, -13, 34, {"tolerances": {"width": (-0.2, 0.0)}})])
        shop = parse_shop('units="mm"\n[[tools]]\nstation=1\nwidth=2.97\nmax_depth=9\nlast_feed=1', "s", "mm")
        fitter = Fitter(part, shop)
        plain, near = (fitter.answers(part.grooves[0], (), to_limits=limits)[0] for limits in (False, True))
        assert (plain, near) == (Misfit(shop.tools[0], "width"), Fit(shop.tools[0], 1, 31.0 - 9.0, 0.0))


class TestChoose:
    def chosen(self, spots, *tools, prefer="tools"):
        part = part_of(spots, length=200)
        shop = parse_shop("", "s", "mm", [f"prefer={prefer}"])
        fits = {g.id: [f for t in tools if isinstance(f := fit(g, t, part, shop), Fit)] for g in part.grooves}
        choice = Chooser(part.grooves, fits, Setting(part, shop, MM, part)).best()
        return {number: f.tool.station for number, f in choice.fits.items()}

    def test_one_insert_for_all_if_one_does(self):
        spots = [(-10, -13, 34), (-20, -24, 34), (-30, -32, 34)]
        tools = [insert(3, station=1), insert(4, station=2), insert(2, station=3)]
        assert self.chosen(spots, *tools) == {1: 3, 2: 3, 3: 3}
        # Six plunges with one insert take longer than three with three and two changes more only if changes are dear.
        assert self.chosen(spots, *tools, prefer="blocks") == {1: 1, 2: 2, 3: 3}

    def test_seconds_kept_for_grooves_of_one_size_are_those_of_each(self):
        """Grooves of one width and the same fits, unlike in one size each; the last is as the first."""
        face = {"where": "face", "z_near": 0.0, "z_far": -3.0}
        sizes = (
            {},
            {"floor_diameter": 24.0},
            {"mouth_diameter": 36.0, "floor_diameter": 30.0},
            {"where": "inside", "mouth_diameter": 34.0, "floor_diameter": 40.0},
            {**face, "mouth_diameter": 30.0, "floor_diameter": 24.0},
            {**face, "mouth_diameter": 90.0, "floor_diameter": 84.0},
            {**face, "mouth_diameter": 30.0, "floor_diameter": 24.0, "z_far": -4.0},
            {"z_near": -20.0, "z_far": -23.0},
        )
        grooves = [groove_of(id=k, **size) for k, size in enumerate(sizes, 1)]
        part, one = part_of([(-10, -13, 34)]), Fit(insert(), 1, 0.0)
        setting = Setting(part, parse_shop("", "s", "mm"), MM, part)
        chooser = Chooser(grooves, {groove.id: [one] for groove in grooves}, setting)
        told = [chooser.kinds[chooser.kind_of[g.id]].seconds[one.tool.name] for g in grooves]
        assert told == pytest.approx([seconds_for(groove, one, setting) for groove in grooves], abs=5e-4)
        assert (len(set(told)), told[-1]) == (7, told[0])
        assert sum(kind.count for kind in chooser.kinds.values()) == 8

    def test_each_groove_then_gets_its_best_of_the_fewest(self):
        spots = [(-10, -13, 34), (-20, -30, 8), (-40, -44, 34)]
        tools = [insert(3, reach=5, station=1), insert(4, reach=20, station=2), insert(2, reach=5, station=3)]
        assert self.chosen(spots, *tools) == {1: 1, 2: 2, 3: 2}

    @given(st.lists(st.sets(st.integers(1, 6), min_size=1, max_size=4), min_size=1, max_size=7))
    @settings(max_examples=80)
    def test_never_more_tools_than_brute_force_finds(self, able):
        part = part_of([(-10 - 8 * i, -13 - 8 * i, 34 - i / 10) for i in range(len(able))], length=200)
        fits = {i + 1: [Fit(insert(station=s), 1, 0.0) for s in some] for i, some in enumerate(able)}
        setting = Setting(part, parse_shop("", "s", "mm", ["prefer=tools"]), MM, part)
        used = {f.tool.station for f in Chooser(part.grooves, fits, setting).best().fits.values()}
        sizes = range(1, 7)
        least = next(n for n in sizes if any(all(some & set(c) for some in able) for c in combinations(sizes, n)))
        assert len(used) <= least


class TestPlace:
    def placed(self, spots, tool=None, shop_text="", **part):
        the_part = part_of(spots, length=200, **part)
        shop, tool = parse_shop(shop_text, "s", "mm"), tool or insert()
        fits = [fit(g, tool, the_part, shop) for g in the_part.grooves]
        return place(the_part.grooves, fits, ground_of(the_part, the_part.grooves[0]), shop, MM)

    @pytest.mark.parametrize("more", ["", "dwell = 2\n", "last_feed = 0.5\n"])
    def test_the_cuts_of_a_row_ask_its_own_grooves_alone(self, more):
        """Where the jaws are in the way every groove of a long part is a row of its own."""

        class Long(tuple):
            """Grooves too many to go through for each row."""

            def __iter__(self):
                raise AssertionError

        part = part_of([(-10, -12, 20, {"tolerances": {"floor_diameter": (-0.1, 0.1)}}), (-20, -22, 34)], length=200)
        shop = parse_shop(f'units = "mm"\n[[tools]]\nstation = 1\nwidth = 2\nmax_depth = 15\n{more}', "s", "mm")
        (first, *_) = part.grooves
        (one,) = place([first], [fit(first, shop.tools[0], part, shop)], ground_of(part, first), shop, MM)
        steps = cutting_steps(one, Setting(part, shop, MM, part))
        vars(part)["grooves"] = Long(part.grooves)
        assert cutting_steps(one, Setting(part, shop, MM, part)) == steps

    def test_the_cuts_that_are_kept_are_those_of_each_setting(self):
        part = part_of(row(4, -10, 5, 3, 34), length=200)
        (one,) = self.placed(row(4, -10, 5, 3, 34))
        shop = parse_shop("", "s", "mm")
        by_cycle, by_plunges = (Setting(part, shop, MM, part, cycles) for cycles in ("full", "none"))
        kinds = [{type(step).__name__ for step in cutting_steps(one, s)} for s in (by_cycle, by_plunges, by_cycle)]
        assert ["GrooveCycle" in some for some in kinds] == [True, False, True]

    def test_a_row(self):
        (found,) = self.placed(row(4, -10, 5, 3, 34))
        assert found.places == (-13_000, -18_000, -23_000, -28_000)
        assert (found.shift, found.floor, found.lowest, found.error) == (5000, 34_000, -28_000, 0.0)
        assert found.reference(-13_000) == -13_000

    def test_the_near_edge(self):
        (found,) = self.placed(
            row(2, -10, 5, 3, 34),
            usual_tool(station=1, offset=1, corner_radius=0.2, reference="near"),
        )
        assert found.reference(found.places[0]) == -10_000

    def test_a_slimmer_insert_within_the_tolerance_stands_in_the_middle(self):
        (found,) = self.placed([(-10, -13, 34)], insert(2.98))
        assert found.places == (-12_990,)

    @given(st.lists(st.floats(-0.018, 0.018), min_size=2, max_size=8), st.sampled_from([3.0, 2.99, 3.01]))
    @settings(max_examples=60)
    def test_every_wall_stays_within_the_tolerance(self, errors, width):
        spots = [(-10 - 5 * i + e, -13 - 5 * i + e, 34) for i, e in enumerate(errors)]
        for found in self.placed(spots, insert(width)):
            for number, far_edge in zip(found.grooves, found.places, strict=True):
                z_near, z_far, _ = spots[number - 1]
                assert abs(far_edge / 1000 - z_far) <= 0.0205
                assert abs(far_edge / 1000 + width - z_near) <= 0.0205

    def test_the_error_of_a_row_is_told(self):
        spots = [(-10, -13, 34), (-15.015, -18.015, 34), (-20, -23, 34)]
        (found,) = self.placed(spots)
        assert 0.004 < found.error <= 0.02

    def test_limits_that_don_t_meet_part_a_group(self):
        low, high = {"tolerances": {"floor_diameter": (-0.1, -0.05)}}, {"tolerances": {"floor_diameter": (0.0, 0.1)}}
        part = part_of([(-10, -13, 34, low), (-20, -23, 34, high), (-30, -33, 34, low)])
        groups = same_limits(part.grooves, 0.02, MM)
        assert [[g.id for g in group] for group in groups] == [[1, 3], [2]]


class TestTimeDecides:
    """Two widths: one insert can cut both in more plunges, two can in fewer with a tool change between."""

    SPOTS = ((-10, -12, 36.8), (-20, -22, 36.8), (-34, -37, 35), (-43, -46, 35))
    TOOLS = (
        'units = "mm"\n[machine]\nstick_out = 90\n{}\n[material]\nname = "C45"\n'
        "[[tools]]\nstation = 1\nwidth = 2.0\nmax_depth = 9\nfeed = 0.06\n"
        "[[tools]]\nstation = 2\nwidth = 3.0\nmax_depth = 9\nfeed = 0.08\n"
    )

    def plan(self, machine="", *changes):
        return plan_part(part_of(self.SPOTS), parse_shop(self.TOOLS.format(machine), "s", "mm", changes))

    def tools(self, *changes):
        return {operation.tool.name for operation in self.plan("", *changes).operations}

    def test_a_quick_change_is_worth_it_and_a_slow_one_is_not(self):
        assert self.tools("tool_change=1") == {"T0101", "T0202"}
        assert self.tools("tool_change=20") == {"T0101"}

    @pytest.mark.parametrize("change", [2.0, 5.0, 8.0, 12.0])
    def test_the_quicker_of_both_ways_is_taken(self, change):
        wished = {p: self.plan("", f"tool_change={change}", f"prefer={p}") for p in ("time", "tools", "blocks")}
        assert wished["time"].seconds <= min(plan.seconds for plan in wished.values()) + 2 * EQUAL

    def test_what_is_wished(self):
        assert self.tools("prefer=tools", "tool_change=1") == {"T0101"}
        assert self.tools("prefer=blocks", "tool_change=20") == {"T0101", "T0202"}

    def test_what_another_tool_would_save_is_told(self):
        (said,) = (
            f for f in self.plan("batch = 100", "prefer=tools", "tool_change=1").findings if f.code == "tool-saves"
        )
        assert said.message.startswith("T0202 for grooves 3 and 4 would save ")
        assert "min a batch of 100" in said.message
        assert not [f for f in self.plan("", "tool_change=20").findings if f.code == "tool-saves"]

    def test_built_in_inserts_must_be_set_up_and_a_batch_shares_that(self):
        def names(batch):
            plan = plan_part(part_of(self.SPOTS), parse_shop("", "s", "mm", [f"batch={batch}", "tool_change=1"]))
            return {operation.tool.name for operation in plan.operations}

        assert len(names(1)) == 1
        assert len(names(10_000)) == 2
