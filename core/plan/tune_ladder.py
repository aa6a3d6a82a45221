"""Which echoes to check the radar with, and where: pure selection from echoes worked out before.

Job.md 6.2.2 and 6.2.3: at a place where the ship is steady and knows where she is, one echo that
any working set shows, a medium one, a weak one that is still expected, and one that land hides.
"""

import itertools
import math
from dataclasses import dataclass

import numpy as np

from core.geodesy.leg_line import LegLine
from core.plan import setup_codes as codes
from core.plan.plan_result import ScaleStretch
from core.plan.reason import Reason
from core.plan.rules import PlanRules, TuneRules
from core.plan.tune_result import LadderEcho, Rung, TuneCheck, TuneReading, TuneRung
from core.plan.tune_rungs import Ladder, by_rung, ladders, on_screen, turned_deg


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckStretch:
    """Where along a leg a check may be made."""

    line: LegLine
    steady_from_m: float
    """The ship has settled after the turn before, m along."""
    steady_to_m: float
    """Latest begin, m along: the check is done before the first warning of the next turn."""
    needed_m: float
    """Where the leg begins to need its radar most, m along; better checked before."""
    check_m: float
    """Run while the check is made."""
    speed_mps: float

    def is_before_need(self, along_m: float) -> bool:
        """Whether a check begun at a place is done before the radar is needed most."""
        return along_m + self.check_m <= self.needed_m

    def course_at_deg(self, along_m: float) -> float:
        """Course of the line at a place, deg."""
        return float(self.line.at(np.array([along_m]))[2][0])


def choose_tune_check(
    echoes: tuple[LadderEcho, ...] | None,
    stretch: CheckStretch,
    scales: tuple[ScaleStretch, ...],
    rules: PlanRules,
) -> tuple[TuneCheck | None, Reason | None]:
    """The best place of a leg for a tune check and its four echoes.

    Parameters
    ----------
    echoes : tuple of LadderEcho, optional
        Of every object at every candidate place, in any order; None where echoes were not worked
        out, empty where there is no land and no mark.
    stretch : CheckStretch
        Where the ship is steady.
    scales : tuple of ScaleStretch
        Scales the check may be made on, what is preferred first; each with the pulse that the
        margins hold for.
    rules : PlanRules
        Figures.

    Returns
    -------
    check, reason : TuneCheck and None, or None and the Reason why there is none
        A check has at least one echo that is expected to be seen; a step without an echo says
        why. More steps go before an early place, that before an absent echo which stays masked
        either side, that before a preferred scale, that before echoes spread over the screen.
    """
    if echoes is None:
        return None, Reason(code=codes.TUNE_NOT_WORKED_OUT)
    if not echoes:
        return None, Reason(code=codes.TUNE_NO_OBJECTS)
    moments = {
        along_m: tuple(group)
        for along_m, group in itertools.groupby(
            sorted(echoes, key=lambda e: (e.along_m, e.object_id)), key=lambda e: e.along_m
        )
    }
    places = [
        along_m for along_m in moments if stretch.steady_from_m <= along_m <= stretch.steady_to_m
    ]
    if not places:
        return None, Reason(code=codes.TUNE_NO_STEADY, values=(("leg_m", stretch.line.length_m),))
    order = sorted(moments)
    best: tuple[tuple[float, ...], float, ScaleStretch, Ladder] | None = None
    for most, along_m, wish in _most_promising(places, moments, stretch, scales, rules):
        if best is not None and most < best[0][0]:
            break
        scale = scales[wish]
        here = on_screen(moments[along_m], scale, stretch.course_at_deg(along_m), rules)
        unsteady = _unmasked_beside(moments, order, along_m)
        for ladder in ladders(here, scale, rules.tune):
            score = _score(ladder, along_m, stretch, scale, wish, unsteady, rules.tune)
            if best is None or score > best[0]:
                best = (score, along_m, scale, ladder)
    if best is None:
        return None, Reason(
            code=codes.TUNE_NOTHING_SEEN, values=(("least_db", rules.tune.clear_db),)
        )
    _score_found, along_m, scale, ladder = best
    here = on_screen(moments[along_m], scale, stretch.course_at_deg(along_m), rules)
    unsteady = _unmasked_beside(moments, order, along_m)
    return _check(ladder, along_m, stretch, scale, here, unsteady, rules.tune), None


def _most_promising(
    places: list[float],
    moments: dict[float, tuple[LadderEcho, ...]],
    stretch: CheckStretch,
    scales: tuple[ScaleStretch, ...],
    rules: PlanRules,
) -> list[tuple[int, float, int]]:
    """Most steps there can be, place and number of the scale, the most steps first."""
    found = []
    for along_m in places:
        for wish, scale in enumerate(scales):
            if not scale.from_along_m <= along_m <= scale.to_along_m:
                continue
            here = on_screen(moments[along_m], scale, stretch.course_at_deg(along_m), rules)
            most = sum(map(bool, by_rung(here, rules.tune).values()))
            found.append((most, along_m, wish))
    return sorted(found, key=lambda one: (-one[0], one[1], one[2]))


def _unmasked_beside(
    moments: dict[float, tuple[LadderEcho, ...]], order: list[float], along_m: float
) -> frozenset[str]:
    """Objects that land does not hide at the places next before and after."""
    at = order.index(along_m)
    beside = order[max(at - 1, 0) : at] + order[at + 1 : at + 2]
    return frozenset(
        echo.object_id for place in beside for echo in moments[place] if not echo.is_masked_by_land
    )


def _score(
    ladder: Ladder,
    along_m: float,
    stretch: CheckStretch,
    scale: ScaleStretch,
    wish: int,
    unsteady: frozenset[str],
    rules: TuneRules,
) -> tuple[float, ...]:
    """Greater is better, the first figure that differs decides."""
    chosen = [echo for echo in ladder if echo is not None]
    strong, _medium, weak, absent = ladder
    # Strong beside weak is the pair that tells tuning from all else.
    has_pair = strong is not None and weak is not None
    stays_absent = absent is not None and absent.object_id not in unsteady
    spread = sum(
        turned_deg(a, b) / 180.0 + abs(a.range_m - b.range_m) / scale.scale_m
        for a, b in itertools.combinations(chosen, 2)
    ) / max(math.comb(len(chosen), 2), 1)
    weak_db = 0.0 if weak is None or weak.margin_db is None else weak.margin_db
    # A weaker weak echo is worth some spread: 10 dB as much as half a screen.
    merit = spread - 0.5 * weak_db / rules.medium_db
    return (
        float(len(chosen)),
        float(has_pair),
        float(stretch.is_before_need(along_m)),
        float(stays_absent),
        -float(wish),
        round(merit, 6),
        -along_m,
    )


def _check(
    ladder: Ladder,
    along_m: float,
    stretch: CheckStretch,
    scale: ScaleStretch,
    here: tuple[LadderEcho, ...],
    unsteady: frozenset[str],
    rules: TuneRules,
) -> TuneCheck:
    kinds = by_rung(here, rules)
    rungs = tuple(
        TuneRung(rung=rung, echo=echo, reason=_why(rung, echo, kinds[rung], unsteady, rules))
        for rung, echo in zip(Rung, ladder, strict=True)
    )
    reason = Reason(code=codes.TUNE_PLACE_LATE)
    if stretch.is_before_need(along_m):
        before_s = (stretch.needed_m - along_m) / stretch.speed_mps
        reason = Reason(code=codes.TUNE_PLACE, values=(("before_minutes", before_s / 60.0),))
    return TuneCheck(
        along_m=along_m,
        position=stretch.line.position_at(along_m),
        radar=scale.radar,
        scale_m=scale.scale_m,
        pulse=scale.pulse,
        rungs=rungs,
        readings=_readings(ladder),
        reason=reason,
    )


_CODES = {
    Rung.STRONG: codes.TUNE_STRONG,
    Rung.MEDIUM: codes.TUNE_MEDIUM,
    Rung.WEAK: codes.TUNE_WEAK,
}


def _why(
    rung: Rung,
    echo: LadderEcho | None,
    of_its_kind: list[LadderEcho],
    unsteady: frozenset[str],
    rules: TuneRules,
) -> Reason:
    """Why this echo, or why none."""
    if echo is not None:
        if rung is Rung.ABSENT:
            is_marginal = echo.object_id in unsteady
            code = codes.TUNE_ABSENT_MARGINAL if is_marginal else codes.TUNE_ABSENT
            return Reason(code=code, values=(("masked_by", echo.masked_by),))
        return Reason(code=_CODES[rung], values=(("margin_db", echo.margin_db or 0.0),))
    if of_its_kind:
        return Reason(code=codes.TUNE_NOT_APART)
    if rung is Rung.ABSENT:
        return Reason(code=codes.TUNE_NO_MASKED)
    least = {
        Rung.STRONG: rules.strong_db,
        Rung.MEDIUM: rules.medium_db,
        Rung.WEAK: rules.clear_db,
    }[rung]
    values: tuple[tuple[str, float | str], ...] = (("least_db", least),)
    if rung is not Rung.STRONG:
        most = rules.strong_db if rung is Rung.MEDIUM else rules.medium_db
        values += (("most_db", most),)
    return Reason(code=codes.TUNE_NO_RUNG, values=values)


def _readings(ladder: Ladder) -> tuple[TuneReading, ...]:
    """What the echoes found can tell."""
    strong, medium, weak, absent = ladder
    readings = [TuneReading.AS_EXPECTED]
    if weak is not None and (strong is not None or medium is not None):
        readings.append(TuneReading.WEAK_MISSING)
    if strong is not None:
        readings.append(TuneReading.STRONG_MISSING)
    if absent is not None:
        readings.append(TuneReading.ABSENT_SEEN)
    return (*readings, TuneReading.ALL_LATE, TuneReading.NEAR_WEAK, TuneReading.ALL_EARLY)
