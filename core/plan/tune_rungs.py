"""Which step of the tune check an echo can stand on, and ladders of echoes told apart."""

import itertools
from collections.abc import Iterable

from core.plan.plan_result import ScaleStretch
from core.plan.rules import PlanRules, TuneRules
from core.plan.screen import Screen
from core.plan.tune_result import LadderEcho, Rung

_MOST_A_RUNG = 4
"""Echoes tried for each step, best first: so many to the fourth power are soon looked through."""

Ladder = tuple[LadderEcho | None, LadderEcho | None, LadderEcho | None, LadderEcho | None]
"""One echo or none for each step: strong, medium, weak, absent."""


def rung_of(echo: LadderEcho, rules: TuneRules) -> Rung | None:
    """The step an echo can stand on; None for one that tells nothing.

    What is over the horizon or merely too weak is no absent echo: in a duct it may well show.
    """
    if echo.in_blind_sector:
        return None
    if echo.is_masked_by_land:
        return Rung.ABSENT
    if echo.margin_db is None or not echo.margin_db >= rules.clear_db:
        return None
    if echo.margin_db > rules.strong_db:
        return Rung.STRONG
    return Rung.MEDIUM if echo.margin_db >= rules.medium_db else Rung.WEAK


def on_screen(
    echoes: tuple[LadderEcho, ...], scale: ScaleStretch, course_deg: float, rules: PlanRules
) -> tuple[LadderEcho, ...]:
    """Those that lie well on the screen of the scale in use."""
    screen = Screen(
        scale_m=scale.scale_m,
        off_centre_ratio=scale.off_centre_ratio if scale.off_centre_direction == "astern" else 0.0,
        margin_ratio=rules.screen_margin_ratio,
    )
    least_m = rules.tune.least_range_ratio * scale.scale_m
    return tuple(
        echo
        for echo in echoes
        if least_m <= echo.range_m <= screen.range_m(echo.bearing_deg - course_deg)
    )


def ladders(
    echoes: tuple[LadderEcho, ...], scale: ScaleStretch, rules: TuneRules
) -> Iterable[Ladder]:
    """Every ladder of echoes apart from one another that has at least one to be seen."""
    kinds = by_rung(echoes, rules)
    for ladder in itertools.product(*((*kinds[rung][:_MOST_A_RUNG], None) for rung in Rung)):
        strong, medium, weak, absent = ladder
        if strong is None and medium is None and weak is None:
            continue
        chosen = [echo for echo in ladder if echo is not None]
        if all(is_apart(a, b, scale, rules) for a, b in itertools.combinations(chosen, 2)):
            yield strong, medium, weak, absent


def by_rung(echoes: tuple[LadderEcho, ...], rules: TuneRules) -> dict[Rung, list[LadderEcho]]:
    """Echoes of each step, the best first: strongest, most in the middle, weakest, nearest.

    What may lie under water stands on a step only where nothing else does.
    """
    found: dict[Rung, list[LadderEcho]] = {rung: [] for rung in Rung}
    for echo in echoes:
        rung = rung_of(echo, rules)
        if rung is not None:
            found[rung].append(echo)
    for rung, fitting in found.items():
        if not all(echo.is_doubtful for echo in fitting):
            fitting[:] = [echo for echo in fitting if not echo.is_doubtful]
        fitting.sort(key=lambda echo: (_demerit(echo, rung, rules), echo.object_id))
    return found


def _demerit(echo: LadderEcho, rung: Rung, rules: TuneRules) -> float:
    margin_db = echo.margin_db or 0.0
    if rung is Rung.STRONG:
        return -margin_db
    if rung is Rung.MEDIUM:
        return abs(margin_db - (rules.medium_db + rules.strong_db) / 2.0)
    return margin_db if rung is Rung.WEAK else echo.range_m


def turned_deg(one: LadderEcho, other: LadderEcho) -> float:
    """Angle between two echoes, 0 to 180 deg."""
    return abs((one.bearing_deg - other.bearing_deg + 180.0) % 360.0 - 180.0)


def is_apart(one: LadderEcho, other: LadderEcho, scale: ScaleStretch, rules: TuneRules) -> bool:
    """Whether two echoes cannot be taken for each other, and are not one object."""
    if one.object_id == other.object_id:
        return False
    is_apart_in_range = abs(one.range_m - other.range_m) >= rules.apart_ratio * scale.scale_m
    return is_apart_in_range or turned_deg(one, other) >= rules.apart_deg
