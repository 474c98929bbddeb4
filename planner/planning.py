"""A part and a shop become a plan: fit, choose, place, order, steps, time. What can't be planned is a stop finding."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from extractor.finding import Finding, Level, accept, stopped
from extractor.grouping import grouped
from extractor.limits import aims_of
from extractor.part import Groove, Part
from extractor.places import with_distances
from planner.assembly import assembled
from planner.cautions import cautions
from planner.choose import Choice, Chooser, saves
from planner.codes import PlanCode
from planner.corners import rounded
from planner.counts import between_counts
from planner.cuts.contouring import follows, place_paths
from planner.cuts.form import FORMS
from planner.cuts.ground import ground_of
from planner.cuts.moves import Setting
from planner.cuts.place import Placed, place, same_limits
from planner.cuts.taper import bears, cored, leaves_corners
from planner.fit import SQUARE, Fit, Fitter, Misfit, fit
from planner.followers import may_follow, with_followers
from planner.front_on import front_on
from planner.holding import bearable
from planner.order import in_order
from planner.plan import Cycles, Plan
from planner.refuse import not_programmed, refusal
from planner.room import hindered, lies_in_jaws, room_findings
from planner.rows.sets import LIKE_WITHIN, group_grooves, like_groups
from planner.settings.settled import settled_for
from planner.shop import Shop, Tool
from planner.shoulders import parted
from planner.wish import wished

Way = tuple[int, str]
"""One way to cut a groove: its number and the name of the tool."""


class _Cut(NamedTuple):
    """A choice of inserts, the setting that its rows are cut in, and what is found about their room and power."""

    chooser: Chooser
    choice: Choice
    setting: Setting
    rows: list[Placed]
    found: tuple[Finding, ...]


def plan_part(part: Part, shop: Shop, accepted: Collection[str] = (), *, cycles: Cycles = "full") -> Plan:
    """The plan for a part. A plan whose findings stop has no operation and is never written.

    Recesses that can't be planned stop it, unless `accepted` holds `recess-not-planned`: then they are left out, with a
    caution each, and the others are planned. `cycles`: what the dialect has, which decides the time and whether a cycle
    over a shoulder is worth it.
    """
    if part.units != shop.units:
        raise ValueError("the shop must be in the part's units")
    shop, said = settled_for(part, shop)
    setting = Setting(cored(part, shop), shop, shop.increments, part, cycles)
    fitting = _Fitting(setting, accepted)
    fits, told = fitting.without()
    if not fits and not stopped(findings := (*said, *told)):
        return _empty(setting, (*findings, _nothing(_without_grooves(part))))
    if stopped(findings := (*said, *told)):
        return _empty(setting, (*findings, *(_more_stops(fitting) if fits else ())))
    cut, told = _with_room(fitting)
    found = accept((*cut.found, *cautions(cut.setting, cut.rows)), accepted)
    findings = (*said, *told, *_saved(cut, setting), *found)
    if stopped(findings):
        return _empty(cut.setting, findings)
    plan = assembled(cut.setting, in_order(cut.rows, part), findings)
    return replace(plan, left_out=tuple(groove.id for groove in part.grooves if groove.id not in cut.choice.fits))


def _more_stops(fitting: "_Fitting") -> tuple[Finding, ...]:
    """What stands in the way of the grooves that fit beside those refused, so that all is told at once.

    Power hangs on a material that may be what is refused.
    """
    return tuple(one for one in _with_room(fitting)[0].found if one.stops and one.code != PlanCode.POWER)


def inserts_for(part: Part, shop: Shop) -> tuple[dict[int, tuple[str, ...]], tuple[Finding, ...]]:
    """The names of the tools that could cut each groove, and a finding for each groove that none can."""
    shop, _ = settled_for(part, shop)
    fits, findings = _Fitting(Setting(cored(part, shop), shop, shop.increments, part), ()).without()
    stops = {one.groove for one in findings if one.stops}
    names = {number: tuple(fit.tool.name for fit in found) for number, found in fits.items() if number not in stops}
    return names, findings


def _with_room(fitting: "_Fitting") -> tuple[_Cut, tuple[Finding, ...]]:
    """The best choice, without what jaws, centre, turret or power forbid if every groove can be cut otherwise.

    With what is to be said of the fits that were chosen among. A groove that lies in the jaws can't be cut by any.
    """
    fits, told = fitting.without()
    in_jaws = {groove.id for groove in fitting.setting.part.grooves if lies_in_jaws(groove, fitting.setting)}
    cut, barred = _best(fits, fitting.setting), frozenset[Way]()
    while ways := {(number, name) for number, name in _hindered(cut) if number not in in_jaws}:
        barred |= ways
        others, then = fitting.without(barred)
        if others.keys() != fits.keys() or not _refused(then) <= _refused(told):
            break
        cut, told = _best(others, fitting.setting), then
    return cut, told


def _refused(findings: Sequence[Finding]) -> set[int | None]:
    """The grooves that findings stop at."""
    return {one.groove for one in findings if one.stops}


def _best(fits: Mapping[int, Sequence[Fit]], setting: Setting) -> _Cut:
    """The best choice among some fits, and its rows."""
    fits = bearable(fits, setting)
    chooser = Chooser([groove for groove in setting.part.grooves if groove.id in fits], fits, setting)
    return _cut(chooser, chooser.best(), setting)


def _cut(chooser: Chooser, choice: Choice, setting: Setting) -> _Cut:
    """The rows of a choice; where a row together has no room, groove by groove, each as well as it can be placed."""
    chosen = choice.fits
    setting = _as_cut(setting, chosen)
    rows = front_on((share for row in _rows(chosen, setting) for share in parted(row, setting)), setting)
    found = room_findings(setting, rows)
    if stopped(found):
        bad = hindered(rows, setting)
        alone = [setting.part.grooves[number - 1] for row in bad for number in row.grooves]
        rows = [row for row in rows if row not in bad]
        rows += [row for groove in alone for row in _placed([groove], [chosen[groove.id]], setting)]
        found = room_findings(setting, rows)
    return _Cut(chooser, choice, setting, rows, found)


def _hindered(cut: _Cut) -> frozenset[Way]:
    """The ways in which grooves can't be cut as they were chosen to be.

    Whether by plunges or by a finishing path: the same tool goes as far and as deep, and asks for as much power.
    """
    bad = hindered(cut.rows, cut.setting) if stopped(cut.found) else []
    return frozenset((number, cut.choice.fits[number].tool.name) for row in bad for number in row.grooves)


def _saved(cut: _Cut, setting: Setting) -> tuple[Finding, ...]:
    """What one tool more would save, if there is room for it, or one that the shop doesn't have."""
    more = cut.chooser.with_one_more(cut.choice)
    notes = saves(cut.choice, more, setting.shop)
    if more and notes and stopped(_cut(cut.chooser, more, setting).found):
        notes = ()
    return notes or _wished(cut.choice, setting)


def _wished(choice: Choice, setting: Setting) -> tuple[Finding, ...]:
    """What an insert that the shop doesn't have would save."""
    grooves = setting.part.grooves

    def holds(groove: Groove, tool: Tool) -> Fit | None:
        """The fit of one insert beside the chosen one, if it is borne as well."""
        drawn = setting.drawn.grooves[groove.id - 1]
        answer = _on_slopes(groove, drawn, tool, setting.shop) or fit(groove, tool, setting.part, setting.shop)
        if not isinstance(answer, Fit) or rounded(groove, [answer], setting.part.units)[1]:
            return None
        able = bearable({groove.id: [choice.fits[groove.id], answer]}, setting)[groove.id]
        return answer if answer in able else None

    return wished(choice, [groove for groove in grooves if groove.id in choice.fits], setting, holds)


def _as_cut(setting: Setting, chosen: Mapping[int, Fit]) -> Setting:
    """The setting for what was chosen: recesses that a path cuts are whole again, as it needs no core over the floor.

    Where one plunge makes a groove as wide as its insert, the grooves that hang on its walls move along with them.
    """
    drawn, whole = setting.drawn, {number for number, fit in chosen.items() if fit.path}
    hang = [n for n in chosen if any(place.relative for place in drawn.grooves[n - 1].places)]
    alone = [n for n in hang if chosen[n].plunges == 1 and drawn.grooves[n - 1].shape in SQUARE]
    widths = {n: drawn.grooves[n - 1].side.along * chosen[n].tool.width for n in alone}
    placed = with_distances(drawn, drawn.distances, widths) if widths else drawn
    rows = zip(setting.part.grooves, drawn.grooves, placed.grooves, strict=True)
    grooves = tuple(core if core != own and core.id not in whole else new for core, own, new in rows)
    return replace(setting, part=replace(setting.part, grooves=grooves))


def _without_grooves(part: Part) -> str:
    """Why there is nothing to program, and what would give something."""
    if any(one.why == "turned" for one in part.left_to_others):
        return "The part has only low lands that are left to turning; use --grooved to treat them as grooves."
    return "The part has no groove, so there is nothing to program."


def _nothing(why: str) -> Finding:
    """A stop where there is nothing to cut."""
    return Finding(Level.STOP, PlanCode.NO_GROOVES, why)


def _empty(setting: Setting, findings: tuple[Finding, ...]) -> Plan:
    """A plan with nothing in it but the reasons."""
    return Plan(setting.increments, setting.shop, group_grooves(setting.drawn), (), (), (), 0.0, findings)


class _Fitting:
    """Which inserts fit the grooves; worked out once for each groove and what is barred for it."""

    def __init__(self, setting: Setting, accepted: Collection[str]) -> None:
        """Nothing worked out yet; `accepted`: the stops that the user answers for."""
        self.setting, self._accepted = setting, accepted
        self._fitter = Fitter(setting.part, setting.shop)
        self._known: dict[tuple[int, frozenset[str]], tuple[list[Fit], Finding | None]] = {}

    def without(self, barred: Collection[Way] = ()) -> tuple[dict[int, list[Fit]], tuple[Finding, ...]]:
        """The inserts that fit every groove, and a finding for each groove that none fits; no groove at all is none."""
        grooves = self.setting.part.grooves
        fits: dict[int, list[Fit]] = {}
        refused: list[Finding] = []
        names: dict[int, set[str]] = {}
        for number, name in barred:
            names.setdefault(number, set()).add(name)
        for groove in grooves:
            fitting, finding = self._of(groove, frozenset(names.get(groove.id, ())))
            if fitting:
                fits[groove.id] = fitting
            if finding is not None:
                refused.append(finding)
        found = accept(refused, self._accepted)
        if grooves and not fits and not stopped(found):
            found += (_nothing("Every groove is left out, so there is nothing to program."),)
        return fits, found

    def _of(self, groove: Groove, barred: frozenset[str]) -> tuple[list[Fit], Finding | None]:
        if (groove.id, barred) not in self._known:
            self._known[groove.id, barred] = _fits_of(groove, self.setting, barred, self._fitter)
        return self._known[groove.id, barred]


def _fits_of(
    groove: Groove, setting: Setting, barred: Collection[str], fitter: Fitter
) -> tuple[list[Fit], Finding | None]:
    """The inserts that make a groove, by a path where nothing else does, and what is to be said where none does."""
    fitting, finding = _plain(groove, setting, barred, fitter)
    if finding is None:
        return fitting, None
    paths, finding = _followed(setting.drawn.grooves[groove.id - 1], finding, setting, barred)
    return paths or fitting, finding


def _plain(
    groove: Groove, setting: Setting, barred: Collection[str], fitter: Fitter
) -> tuple[list[Fit], Finding | None]:
    """The inserts that make a groove by plunges, chamfers and slopes alone, and what is to be said where none does."""
    part, shop = setting.part, setting.shop
    drawn = setting.drawn.grooves[groove.id - 1]
    aims = aims_of(groove, shop.machine.tolerance)
    finding = not_programmed(groove, drawn, part, shop.machine.tolerance)
    if finding := finding or between_counts(groove, aims, setting.increments):
        return [], finding
    answers: Sequence[Fit | Misfit] = ()
    # Rather an insert whose width lies near a limit than none.
    for to_limits in (False, True):
        answers = _answers(groove, drawn, barred, fitter, to_limits=to_limits)
        if fitting := [answer for answer in answers if isinstance(answer, Fit)]:
            return rounded(groove, fitting, part.units)
    return [], refusal(groove, answers, part, shop)


def _answers(
    groove: Groove, drawn: Groove, barred: Collection[str], fitter: Fitter, *, to_limits: bool = False
) -> list[Fit | Misfit]:
    """All inserts but those barred held against a groove, or against the core of one with slopes."""
    answers = fitter.answers(groove, barred, to_limits=to_limits)
    if drawn.shape != "tapered":
        return answers
    return [_on_slopes(groove, drawn, answer.tool, fitter.shop) or answer for answer in answers]


def _on_slopes(groove: Groove, drawn: Groove, tool: Tool, shop: Shop) -> Misfit | None:
    """What the slopes of a tapered recess have against an insert; `groove` is its core."""
    if drawn.shape != "tapered":
        return None
    if not bears(drawn, groove, tool):
        return Misfit(tool, "slope")
    return None if leaves_corners(drawn, tool, shop.machine.tolerance) else Misfit(tool, "round")


def _followed(
    groove: Groove, finding: Finding, setting: Setting, barred: Collection[str]
) -> tuple[list[Fit], Finding | None]:
    """The inserts that make a refused groove by a finishing path, else the finding with what would do."""
    if not may_follow(groove, finding):
        return [], finding
    tools = [tool for tool in setting.shop.tools if tool.name not in barred]
    # A round edge is for round forms; elsewhere a square one bears the plunges better and reaches corners.
    square = [tool for tool in tools if tool.edge == "square"]
    for some in (tools,) if groove.shape in FORMS else (square, [tool for tool in tools if tool not in square]):
        answers = [follows(groove, tool, setting.drawn, setting.shop) for tool in some]
        found = [answer for answer in answers if isinstance(answer, Fit)]
        if found:
            return found, None
    # Where ways are barred the choice before stands, and nobody reads what else would do.
    return [], finding if barred else with_followers(finding, groove, setting.drawn, setting.shop)


def _rows(fits: Mapping[int, Fit], setting: Setting) -> list[Placed]:
    """All rows of grooves."""
    part, shop, increments = setting.part, setting.shop, setting.increments
    chosen = [(fits[g.id], g) for g in part.grooves if g.id in fits]
    groups = grouped(((fit.tool.name, fit.plunges, fit.path), groove) for fit, groove in chosen)
    return [
        row
        for grooves in groups.values()
        for like in _like(grooves, setting, as_cut=not fits[grooves[0].id].path)
        for group in same_limits(like, shop.machine.tolerance, increments)
        for row in _placed(group, [fits[g.id] for g in group], setting)
    ]


def _like(grooves: Sequence[Groove], setting: Setting, as_cut: bool) -> Iterator[list[Groove]]:
    """Groups of grooves that are alike, as they are drawn too: over like floors slopes may run out unlike."""
    within = LIKE_WITHIN[setting.part.units]
    for like in like_groups(grooves, within, as_cut):
        for drawn in like_groups([setting.drawn.grooves[groove.id - 1] for groove in like], within, as_cut):
            yield [setting.part.grooves[groove.id - 1] for groove in drawn]


def _placed(grooves: Sequence[Groove], fits: Sequence[Fit], setting: Setting) -> list[Placed]:
    """The rows of like grooves that one insert cuts in one way."""
    if fits[0].path:
        return place_paths(grooves, fits, setting.part, setting.shop)
    return place(grooves, fits, ground_of(setting.part, grooves[0]), setting.shop, setting.increments)
