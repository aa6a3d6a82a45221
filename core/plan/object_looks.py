"""Index objects of a leg in full: shape, shore, place among others, how sure the data is."""

import math

import numpy as np

from core.coverage.profiles import Pairs, PairState, sight_of_pairs
from core.passage.passage import Side
from core.plan import reason_codes
from core.plan.candidates import Candidate, LegField
from core.plan.leg_context import LegContext
from core.plan.object_result import Confidence, Grade, ObjectLook
from core.plan.plan_result import Edge
from core.plan.ranking import is_doubtful
from core.plan.reason import Reason
from core.plan.shore import UNKNOWN, cell_size_m, cells_around
from core.plan.usable_window import EdgePoint, FeatureTrack

_APART_M = 100.0
"""Coast and elevation farther apart than this are told of (job.md 8.5)."""
_GRADES = (Grade.GOOD, Grade.FAIR, Grade.POOR)


def object_looks(
    field: LegField, candidates: tuple[Candidate, ...], context: LegContext, *, echo_m: float
) -> tuple[ObjectLook, ...]:
    """What every candidate is like, in their order.

    Parameters
    ----------
    field : LegField
        The leg.
    candidates : tuple of Candidate
        Objects that can be used on it, best first.
    context : LegContext
        Land, ship and letters.
    echo_m : float
        Nearer to each other than this two echoes are not told apart.
    """
    flips = _could_hide(field, candidates, context)
    return tuple(
        _look(field, candidate, context, place=i + 1, echo_m=echo_m, could_hide=flips[i])
        for i, candidate in enumerate(candidates)
    )


def _look(
    field: LegField,
    candidate: Candidate,
    context: LegContext,
    *,
    place: int,
    echo_m: float,
    could_hide: bool | None,
) -> ObjectLook:
    feature, window, edge = candidate.track.feature, candidate.window, candidate.window.edge
    rise, rules = feature.rise, context.rules
    cross_m = abs(edge.cross_m)
    moves_m = 0.0 if feature.mark is not None else None
    if rise is not None:
        moves_m = rise.movement_m(rules.tidal_range_m)
    confidence = _confidence(field, candidate, context, could_hide)
    margin_db = confidence.least_margin_db
    # A headland stands on a coast, so only its tip tells it from the rest.
    is_alone = edge.edge is Edge.TIP
    if feature.isolation_m is not None:
        is_alone = feature.isolation_m >= echo_m
    return ObjectLook(
        object=context.make_object(candidate.track, edge),
        place=place,
        is_weak=candidate.rank.is_weak,
        reason=candidate.rank.reason,
        side=Side.STARBOARD if edge.cross_m > 0.0 else Side.PORT,
        cross_index_range_m=cross_m,
        windows=window.windows,
        extent_m=feature.extent_m,
        beams_ratio=feature.extent_m / (math.radians(field.beam_deg) * max(cross_m, 1.0)),
        slope_ratio=None if rise is None or rise.is_low else rise.slope_ratio,
        is_steep_to=rise is not None and rise.sure_slope_ratio >= rules.steep_ratio,
        tide_moves_m=moves_m,
        is_tide_at_least=rise is not None and rise.is_low,
        isolation_m=feature.isolation_m,
        inside_m=edge.inside_m,
        spread_m=window.spread_m,
        confidence=confidence,
        is_likely_conspicuous=(
            is_alone
            and not candidate.rank.is_weak
            and confidence.grade is Grade.GOOD
            and margin_db is not None
            and margin_db >= rules.tune.strong_db
        ),
    )


def _confidence(
    field: LegField, candidate: Candidate, context: LegContext, could_hide: bool | None
) -> Confidence:
    feature, edge = candidate.track.feature, candidate.window.edge
    lat_deg, lon_deg = edge.position.lat_deg, edge.position.lon_deg
    land, rules = context.land, context.rules
    cell_m = cell_size_m(land, lat_deg=lat_deg, lon_deg=lon_deg)
    worst = 0
    reasons: list[Reason] = []

    def note(level: int, code: str, *values: tuple[str, float]) -> None:
        nonlocal worst
        worst = max(worst, level)
        reasons.append(Reason(code=code, values=values))

    margin_db = None
    if feature.mark is not None:
        if not feature.mark.is_on_chart:
            note(1, reason_codes.NOT_SEEN_ON_CHART)
    else:
        if land.heights_assumed:
            note(2, reason_codes.HEIGHTS_ASSUMED)
        elif feature.height_m <= land.height_error_m:
            note(2, reason_codes.HEIGHT_WITHIN_ERROR, ("height_error_m", land.height_error_m))
        elif is_doubtful(feature.kind, feature.height_m, rules):
            note(2, reason_codes.HEIGHT_WITHIN_TIDE, ("height_m", rules.doubtful_height_m))
        elif could_hide:
            note(1, reason_codes.HEIGHT_COULD_HIDE, ("height_error_m", land.height_error_m))
        around = cells_around(
            land, lat_deg=lat_deg, lon_deg=lon_deg, reach_m=rules.height_reach_m, kinds=UNKNOWN
        )
        if around.distance_m.size:
            note(2, reason_codes.HEIGHTS_MISSING)
        if feature.key.startswith("line ") and feature.extent_m < rules.islet_cells_ratio * cell_m:
            note(1, reason_codes.FEW_CELLS, ("cell_side_m", cell_m))
        apart_m = _coast_apart_m(candidate.track, edge, context, cell_m)
        if apart_m > max(_APART_M, cell_m):
            note(1, reason_codes.COAST_APART, ("coast_apart_m", apart_m))
        if land.coast.from_elevation:
            note(1, reason_codes.NO_COAST_DATA)
        margin_db = _least_margin_db(field, candidate)
        if margin_db is not None and margin_db < rules.tune.medium_db:
            note(1, reason_codes.WEAK_ECHO, ("least_db", margin_db))
    return Confidence(
        grade=_GRADES[worst],
        reasons=tuple(reasons),
        height_could_hide=could_hide,
        least_margin_db=margin_db,
        cell_m=cell_m,
    )


def _coast_apart_m(
    track: FeatureTrack, edge: EdgePoint, context: LegContext, cell_m: float
) -> float:
    """From the coast at an object's edge to the nearest cell that the elevation has as land, m."""
    number = int(np.argmin(np.hypot(track.along_m - edge.along_m, track.cross_m - edge.cross_m)))
    reach_m = context.rules.height_reach_m
    around = cells_around(
        context.land,
        lat_deg=float(track.feature.lat_deg[number]),
        lon_deg=float(track.feature.lon_deg[number]),
        reach_m=reach_m,
    )
    off_m = around.distance_m[around.height_m > 0.0]
    # A cell's land begins half a cell before its centre.
    return max(float(np.min(off_m, initial=reach_m)) - cell_m / 2.0, 0.0)


def _least_margin_db(field: LegField, candidate: Candidate) -> float | None:
    """Least margin of the object's edge over viewpoints on the track within its windows, dB."""
    track, window, sight = candidate.track, candidate.window, field.sight
    near = (
        np.hypot(track.along_m - window.edge.along_m, track.cross_m - window.edge.cross_m)
        <= field.near_m + window.edge.inside_m
    )
    near = near if near.any() else np.ones(near.shape, dtype=np.bool_)
    least: float | None = None
    for part in window.windows:
        for number in np.flatnonzero(sight.on_track_within(*part)):
            paint = sight.coverage.viewpoints[number].paint
            seen = near & track.sight.seen[number]
            if paint is None or not seen.any():
                continue
            margins = paint.margin_db[track.feature.point_index[seen]]
            best = float(np.nanmax(margins, initial=-math.inf))
            if math.isfinite(best):
                least = best if least is None else min(least, best)
    return least


def _could_hide(
    field: LegField, candidates: tuple[Candidate, ...], context: LegContext
) -> list[bool | None]:
    """Whether heights lower by their error would hide each candidate within its windows.

    Looked from both ends and the middle of every window (the land in between as it is), at the
    height of the land within a cell or 100 m of the edge.
    """
    found: list[bool | None] = [None] * len(candidates)
    land, settings = context.land, context.settings
    rows: list[tuple[int, float, float, float, float, float]] = []
    for i, candidate in enumerate(candidates):
        feature, edge = candidate.track.feature, candidate.window.edge
        if feature.mark is not None:
            continue
        found[i] = feature.height_m <= land.height_error_m
        distance = np.hypot(
            candidate.track.along_m - edge.along_m, candidate.track.cross_m - edge.cross_m
        )
        near = distance <= max(field.near_m, float(distance.min()))
        top_m = float(np.nanmax(land.points.height_m[feature.point_index[near]], initial=0.0))
        if edge.edge is Edge.POSITION:
            top_m = feature.height_m
        lowered_m = max(top_m - land.height_error_m, 0.0)
        for start, stop in candidate.window.windows:
            for along in (start, (start + stop) / 2.0, stop):
                own = field.line.position_at(along)
                rows.append(
                    (
                        i,
                        own.lat_deg,
                        own.lon_deg,
                        edge.position.lat_deg,
                        edge.position.lon_deg,
                        lowered_m,
                    )
                )
    if not rows:
        return found
    table = np.array(rows, dtype=np.float64)
    sight = sight_of_pairs(
        Pairs(
            from_lat_deg=table[:, 1].copy(),
            from_lon_deg=table[:, 2].copy(),
            to_lat_deg=table[:, 3].copy(),
            to_lon_deg=table[:, 4].copy(),
            to_height_m=table[:, 5].copy(),
            margin_m=np.full(len(rows), field.near_m),
        ),
        context.grid,
        None,
        antenna_height_m=settings.antenna_height_m,
        refraction_k=settings.refraction_k,
    )
    for (i, *_rest), state in zip(rows, sight.state, strict=True):
        if state != PairState.IN_SIGHT:
            found[int(i)] = True
    return found
