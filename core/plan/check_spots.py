"""Where on a leg to check ranges for an index error, and the heading marker (job.md 6.3)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.plan import reason_codes
from core.plan.fix_result import HeadingCheck, RangeCheck
from core.plan.fix_targets import FixTarget
from core.plan.reason import Reason
from core.plan.rules import FixRules
from core.plan.screen import Screen


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckPlace:
    """One place of a leg with what can be measured on the screen in use there."""

    along_m: float
    course_deg: float
    screen: Screen
    place_error_m: float
    """Where the edge of an echo may lie off its place in the data, 95 %."""
    targets: tuple[FixTarget, ...]


def range_index_error_m(*, one_range_m: float, other_range_m: float, distance_m: float) -> float:
    """Index error of the set on the line joining two objects, m; positive reads long.

    ``(r1 + r2 - D) / 2``: 0.85 and 0.83 NM between marks 1.60 NM apart give 0.04 (job.md T21).
    """
    return (one_range_m + other_range_m - distance_m) / 2.0


def range_check_of(
    places: Sequence[CheckPlace], rules: FixRules
) -> tuple[RangeCheck | None, Reason | None]:
    """The best pair of objects either side, or why there is none.

    Small objects first, then the least error of their places, then the nearest: the range error
    is a share of the scale, and a short scale shows it best.
    """
    best: tuple[tuple[float, ...], RangeCheck] | None = None
    for number, place in enumerate(places):
        low, high = _reach(places, number)
        for port in place.targets:
            for starboard in place.targets:
                found = _pair(place, port, starboard, rules)
                if found is None or not low <= found.along_m <= high:
                    continue
                broad = sum(not one.is_point_like for one in (port, starboard))
                rank = (
                    place.screen.scale_m,
                    float(broad),
                    found.error_m,
                    found.distance_m,
                )
                if best is None or rank < best[0]:
                    best = rank, found
    if best is None:
        return None, Reason(code=reason_codes.RANGE_CHECK_NONE)
    return best[1], None


def _reach(places: Sequence[CheckPlace], number: int) -> tuple[float, float]:
    """Between the places before and after: there the objects are seen as at this one."""
    own = places[number].along_m
    before = places[max(number - 1, 0)].along_m
    after = places[min(number + 1, len(places) - 1)].along_m
    return (own + before) / 2.0, (own + after) / 2.0


def _pair(
    place: CheckPlace, port: FixTarget, starboard: FixTarget, rules: FixRules
) -> RangeCheck | None:
    if port.cross_m >= 0.0 or starboard.cross_m <= 0.0:
        return None
    if max(port.extent_m, starboard.extent_m) > rules.check_extent_m:
        return None
    across = starboard.cross_m - port.cross_m
    slant = starboard.ahead_m - port.ahead_m
    if math.degrees(math.atan2(across, abs(slant))) < rules.check_cross_deg:
        return None
    ahead = port.ahead_m + slant * -port.cross_m / across
    moved = [replace(one, ahead_m=one.ahead_m - ahead) for one in (port, starboard)]
    if any(
        one.range_m < rules.nearest_m
        or not place.screen.shows(ahead_m=one.ahead_m, cross_m=one.cross_m)
        for one in moved
    ):
        return None
    at = [replace(one, bearing_deg=(place.course_deg + one.relative_deg) % 360.0) for one in moved]
    errors = [math.hypot(place.place_error_m, one.shore_error_m) for one in moved]
    return RangeCheck(
        port=at[0].measured(),
        starboard=at[1].measured(),
        along_m=place.along_m + ahead,
        distance_m=math.hypot(across, slant),
        error_m=math.hypot(*errors) / 2.0,
        scale_m=place.screen.scale_m,
    )


def heading_check_of(
    places: Sequence[CheckPlace], *, beam_deg: float, rules: FixRules
) -> tuple[HeadingCheck | None, Reason | None]:
    """The small strong echo nearest to ahead and to the edge of the screen, or why none.

    Compared by eye and by radar; the eye is not blurred by the beam, so the object may be no
    broader than that (job.md 6.3.1).
    """
    best: tuple[float, HeadingCheck] | None = None
    for place in places:
        for target in place.targets:
            relative = target.relative_deg
            width = math.degrees(target.extent_m / max(target.range_m, 1.0))
            share = target.range_m / place.screen.range_m(relative)
            if (
                not target.is_point_like
                or width > beam_deg
                or abs(relative) > rules.marker_off_deg
                or share < rules.marker_share_ratio
                or (target.margin_db is not None and target.margin_db < rules.marker_db)
            ):
                continue
            rank = abs(relative) / rules.marker_off_deg + (1.0 - share)
            if best is None or rank < best[0]:
                best = (
                    rank,
                    HeadingCheck(
                        object=target.measured(),
                        along_m=place.along_m,
                        relative_deg=relative,
                        scale_m=place.screen.scale_m,
                        degree_m=target.range_m * math.radians(1.0),
                    ),
                )
    if best is None:
        return None, Reason(code=reason_codes.HEADING_CHECK_NONE)
    return best[1], None
