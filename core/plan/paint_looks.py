"""With which radars, weather and water first paints are worked out, and of which objects."""

import math
from dataclasses import replace

import numpy as np

from core.base.constants import STANDARD_REFRACTION_K
from core.coverage.first_paint import WEAK_REFRACTION_K, PaintLooks
from core.coverage.first_paint_result import WhatIfKind
from core.coverage.land_echo import GAMMA_ERROR_DB
from core.coverage.paint_gauge import Look, PaintTarget
from core.coverage.sight_scene import SightTarget
from core.plan.candidates import LegField
from core.plan.mark_echo import like_of
from core.plan.object_book import ObjectBook
from core.plan.plan_result import IndexObject, ObjectKind
from core.plan.request import Environment, Request
from core.plan.rules import PlanRules
from core.plan.shore import metres_from
from core.plan.tide_levels import low_and_high_m
from core.radar.echo_budget import EchoBudget
from core.radar.presets import radar_set
from core.radar.radar_set import Preset

PEAK_RADIUS_M = 500.0
"""Ground this near a summit belongs to it; coarse elevation cells are a kilometre wide."""

_MARK_GROUND_M = 100.0
"""Ground this near a mark echoes with it."""
_REACH_M = {
    ObjectKind.PEAK: PEAK_RADIUS_M,
    ObjectKind.MARK: _MARK_GROUND_M,
    ObjectKind.STRUCTURE: _MARK_GROUND_M,
}

_REFRACTION = (0.8, 1.0, 2.0)
_RAIN_MM_H = (4.0, 16.0)
_SEA_STATES = (2.0, 5.0)
"""What-ifs beside the stated weather: handbook 1.4; rain and sea as the standard wants their
effects stated (job.md 6.4.2)."""


def paint_looks(request: Request, budget: EchoBudget, rules: PlanRules) -> PaintLooks:
    """The looks of one request.

    Parameters
    ----------
    request : Request
        Ship and environment.
    budget : EchoBudget
        The main radar as coverage was worked out with it.
    rules : PlanRules
        With the tidal range of the waters.
    """
    environment, ship = request.environment, request.ship
    main = _through(budget, refraction_k=STANDARD_REFRACTION_K)
    poorest_set = radar_set(ship.radars[0], Preset.MINIMUM)
    poorest = replace(
        _through(budget, refraction_k=WEAK_REFRACTION_K),
        radar=poorest_set,
        pulse=poorest_set.long_pulse,
    )
    others = []
    for radar in ship.radars[1:]:
        fitted = radar_set(radar)
        other = replace(
            main,
            radar=fitted,
            pulse=fitted.long_pulse,
            antenna_height_m=ship.antenna_height_above_water_m(radar),
        )
        others.append((radar.name, Look(budget=other)))
    return PaintLooks(
        main_name=ship.radars[0].name,
        main=Look(budget=main),
        poorest=Look(
            budget=poorest,
            water_rise_m=high_water_rise_m(environment, rules) + environment.height_error_m,
            gamma_shift_db=-GAMMA_ERROR_DB,
        ),
        others=tuple(others),
        what_if=(
            *(
                (WhatIfKind.REFRACTION, Look(budget=_through(main, refraction_k=k)))
                for k in _REFRACTION
            ),
            *(
                (WhatIfKind.RAIN, Look(budget=_through(main, rain_mm_h=rain)))
                for rain in _RAIN_MM_H
            ),
            *((WhatIfKind.SEA, Look(budget=_through(main, sea_state=sea))) for sea in _SEA_STATES),
        ),
        height_error_m=environment.height_error_m,
    )


def high_water_rise_m(environment: Environment, rules: PlanRules) -> float:
    """How much higher than now high water stands."""
    return max(low_and_high_m(rules)[1] - environment.water_level_m, 0.0)


def _through(
    budget: EchoBudget,
    *,
    refraction_k: float | None = None,
    rain_mm_h: float | None = None,
    sea_state: float | None = None,
) -> EchoBudget:
    """The same set through other air, rain or sea."""
    now = budget.conditions
    return replace(
        budget,
        conditions=replace(
            now,
            refraction_k=now.refraction_k if refraction_k is None else refraction_k,
            rain_mm_h=now.rain_mm_h if rain_mm_h is None else rain_mm_h,
            sea_state=now.sea_state if sea_state is None else sea_state,
        ),
    )


def paint_targets(
    book: ObjectBook, fields: tuple[LegField, ...], rules: PlanRules
) -> tuple[PaintTarget, ...]:
    """All objects as targets to look for from afar."""
    features = {
        book.ids[track.feature.key]: track.feature
        for field in fields
        for track in field.tracks
        if track.feature.key in book.ids
    }
    targets = []
    for thing in book.objects:
        feature = features.get(thing.id)
        reach_m = _REACH_M.get(thing.kind, rules.height_reach_m)
        own_m = math.inf
        if feature is not None and thing.kind in (ObjectKind.ISLET, ObjectKind.ROCK):
            east, north = metres_from(
                feature.lat_deg,
                feature.lon_deg,
                from_lat_deg=thing.position.lat_deg,
                from_lon_deg=thing.position.lon_deg,
            )
            reach_m = min(reach_m, max(float(np.hypot(east, north).max()), 1.0))
            own_m = feature.height_m
        mark = feature.mark if feature is not None else None
        targets.append(
            PaintTarget(
                sight=_sight(thing, reach_m, rules),
                reach_m=reach_m,
                own_m=own_m,
                mark=None if mark is None else like_of(mark),
                floats=mark is not None and not mark.is_fixed,
            )
        )
    return tuple(targets)


def _sight(thing: IndexObject, reach_m: float, rules: PlanRules) -> SightTarget:
    is_peak = thing.kind is ObjectKind.PEAK
    return SightTarget(
        object_id=thing.id,
        name=thing.name,
        position=thing.position,
        height_above_water_m=thing.height_above_water_m,
        is_on_land=thing.kind not in (ObjectKind.MARK, ObjectKind.STRUCTURE),
        own_radius_m=PEAK_RADIUS_M if is_peak else rules.height_reach_m,
    )
