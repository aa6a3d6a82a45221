"""What an index object is like, in printed words."""

import math

from core.base.language import tr
from core.plan.object_result import Grade, ObjectLook
from core.plan.plan_result import IndexObject, LegPlan
from core.words import quantities
from core.words.messages import Say
from core.words.reasons import sentence

_FIRM_M = 20.0
"""The tide moving an edge by less than this is below what cells can say."""


def look_words(look: ObjectLook) -> tuple[str, ...]:
    """Shape, shore, place among others and painted edge, a phrase each."""
    return tuple(
        words
        for words in (
            _width(look),
            _shore(look),
            _tide(look),
            _apart(look),
            _painted(look),
        )
        if words
    )


def confidence_words(look: ObjectLook) -> str:
    """How far the data bears it out, with what lowers it and the least margin of its echo."""
    sure = look.confidence
    parts = [sentence(reason) for reason in sure.reasons]
    if sure.least_margin_db is not None and sure.grade is Grade.GOOD:
        parts.append(Say.LEAST_MARGIN.format(margin=f"{math.floor(sure.least_margin_db):d} dB"))
    words = Say.CONFIDENCE.format(grade=sure.grade.shown)
    return f"{words}: {'; '.join(parts)}" if parts else words


def conspicuous_words(look: ObjectLook) -> str:
    """«likely conspicuous (calculated)», or nothing."""
    return str(Say.LIKELY_CONSPICUOUS) if look.is_likely_conspicuous else ""


def all_words(look: ObjectLook) -> str:
    """Everything of it in one line."""
    parts = (*look_words(look), confidence_words(look), conspicuous_words(look))
    return "; ".join(part for part in parts if part)


def grain_words(leg: LegPlan) -> str:
    """What the data of a leg cannot hold, in one short sentence; empty where nothing tells."""
    if leg.data_grain_m is None or leg.data_grain_m <= 0.0:
        return ""
    size_m = math.ceil(leg.data_grain_m / 10.0 - 1e-9) * 10
    return Say.DATA_GRAIN.format(size=f"{size_m:d} m")


def first_look(legs: tuple[LegPlan, ...], thing: IndexObject) -> ObjectLook | None:
    """The look of an object on the first leg that uses it, else the first that could."""
    found = [
        (not any(line.object.id == thing.id for line in leg.lines), leg.leg_index, look)
        for leg in legs
        for look in leg.looks
        if look.object.id == thing.id
    ]
    return min(found, key=lambda item: item[:2])[2] if found else None


def _width(look: ObjectLook) -> str:
    if look.extent_m <= 0.0:
        return ""
    at = quantities.radar_range(look.cross_index_range_m)
    across = tr("{height} across", height=quantities.height(look.extent_m))
    if look.beams_ratio < 1.0:
        return tr("{width}, narrower than the beam at {range}", width=across, range=at)
    return tr(
        "{width}, {beams_ratio:.0f} beams at {range}",
        width=across,
        beams_ratio=look.beams_ratio,
        range=at,
    )


def _shore(look: ObjectLook) -> str:
    if look.is_steep_to:
        return tr("steep-to")
    if look.slope_ratio is not None:
        return tr("slope {slope_ratio:.2f}", slope_ratio=look.slope_ratio)
    if look.is_tide_at_least:
        return tr("low shore")
    return "" if look.tide_moves_m is not None else tr("slope of its shore not known")


def _tide(look: ObjectLook) -> str:
    moves = look.tide_moves_m
    if moves is None or (moves == 0.0 and not look.is_tide_at_least):
        return ""
    if look.is_tide_at_least:
        return tr(
            "tide moves its edge {distance}",
            distance=quantities.least_edge_movement(moves),
        )
    if moves < _FIRM_M:
        return tr("tide moves its edge under {firm_m:.0f} m", firm_m=_FIRM_M)
    return tr("tide moves its edge {distance}", distance=quantities.edge_movement(moves))


def _apart(look: ObjectLook) -> str:
    if look.isolation_m is None:
        return ""
    return tr("other land {distance} from it", distance=quantities.distance(look.isolation_m, 2))


def _painted(look: ObjectLook) -> str:
    words = ""
    if look.inside_m > 0.0:
        words = tr(
            "paints {distance} inside the charted coast",
            distance=quantities.edge_movement(look.inside_m),
        )
    if look.spread_m >= _FIRM_M:
        farther = quantities.rough_movement(look.spread_m)
        if not words:
            return tr("paints up to {distance} farther off within its window", distance=farther)
        words = tr(
            "{painted}, up to {distance} farther off within its window",
            painted=words,
            distance=farther,
        )
    return words
