"""Where a leg has nothing to index or no heights, and what that means for it."""

import numpy as np

from core.base.findings import Finding
from core.base.language import tr
from core.base.units import nm_from_m
from core.coverage.coverage_result import Gap
from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.blind_conflicts import sector_words
from core.plan.candidates import LegField
from core.plan.gap_effects import Watched, gap_findings, gap_with_effect
from core.plan.hand_overs import InSight, no_index_reason, substitute
from core.plan.intervals import Interval, length_m
from core.plan.leg_context import LegContext
from core.plan.plan_result import BlindConflict, IndexLine, Role
from core.plan.ranking import is_straight
from core.plan.usable_window import FeatureTrack, ScaleSpan, geometric_windows

_TURN_ROUNDING_M = 10.0


def in_sight(field: LegField, context: LegContext, part: Interval) -> InSight:
    """What the track sees anywhere within a stretch."""
    views = field.sight.on_track_within(*part)
    if not views.any():
        middle = (part[0] + part[1]) / 2.0
        along = field.sight.node_along_m[field.sight.node_of]
        distance = np.where(field.sight.is_on_track, np.abs(along - middle), np.inf)
        views = distance == distance.min()
    middle = (part[0] + part[1]) / 2.0
    fixed: list[tuple[float, str]] = []
    floating: list[tuple[float, str]] = []
    unknown = False
    for track in field.tracks:
        unknown = unknown or bool(track.sight.unknown[views].any())
        off = float(np.min(np.hypot(track.along_m - middle, track.cross_m)))
        if not track.sight.seen[views].any() or off > field.frame.reach_m:
            continue
        if not track.feature.is_fixed and track.feature.mark is not None:
            floating.append((off, track.feature.mark.name))
        elif track.feature.key in context.ids:
            fixed.append((off, context.ids[track.feature.key]))
    return InSight(
        fixed=tuple(name for _off, name in sorted(fixed)),
        floating=tuple(name for _off, name in sorted(floating)),
        has_coast=field.sight.sees_any(field.frame.near, views),
        has_unknown=unknown or not context.coverage.is_complete,
    )


def gap_substitute(
    field: LegField,
    context: LegContext,
    part: Interval,
    lines: tuple[IndexLine, ...],
    conflicts: tuple[BlindConflict, ...],
) -> str:
    """What to do over a stretch without a primary line."""
    check = next((x.object.id for x in lines if x.role is Role.CHECK and _holds(x, part)), "")
    blind = next((c for c in conflicts if not c.is_shadow and _holds(c, part)), None)
    if blind is not None:
        lost = {"object_id": blind.object_id, "sector": sector_words(blind)}
        if check:
            return tr(
                "{object_id} is in the blind sector {sector}; keep to the check line on {check_id}",
                **lost,
                check_id=check,
            )
        if blind.other_radar:
            return tr(
                "{object_id} is in the blind sector {sector}; read it on {other_radar}",
                **lost,
                other_radar=blind.other_radar,
            )
        return tr(
            "{object_id} is in the blind sector {sector}; open it by a few degrees of heading",
            **lost,
        )
    next_line = next((x for x in lines if x.role is Role.PRIMARY), None)
    if next_line is not None and part[1] <= context.tangent_before_m + _TURN_ROUNDING_M:
        return tr(
            "Still in the turn; {object_id} takes over at its end", object_id=next_line.object.id
        )
    if check:
        return tr("Keep to the check line on {object_id}", object_id=check)
    return substitute(in_sight(field, context, part))


def _holds(stretch: IndexLine | BlindConflict, part: Interval) -> bool:
    return (
        stretch.from_along_m <= part[0] + _TURN_ROUNDING_M
        and stretch.to_along_m >= part[1] - _TURN_ROUNDING_M
    )


def why_no_index(field: LegField, context: LegContext) -> str:
    """Why no primary line can be laid on the leg."""
    if field.end_m <= 0.0:
        return tr("The leg is shorter than its turn")
    sight = in_sight(field, context, (0.0, field.end_m))
    return no_index_reason(sight, reach_nm=nm_from_m(context.rules.longest_index_scale_m))


def leg_gaps(
    field: LegField,
    context: LegContext,
    spans: tuple[ScaleSpan, ...],
) -> tuple[tuple[Gap, ...], tuple[Finding, ...]]:
    """The leg's gaps, each with its effect, and a finding for each."""
    watched = tuple(_hidden_by_gaps(field, context, spans))
    marked = [
        gap_with_effect(gap, field.line, watched, context.first_sights, cell_m=context.cell_m)
        for gap in context.coverage.gaps
    ]
    return (
        tuple(gap for gap, _hidden in marked),
        gap_findings(tuple(marked), field.leg_index + 1),
    )


def _hidden_by_gaps(
    field: LegField, context: LegContext, spans: tuple[ScaleSpan, ...]
) -> list[Watched]:
    """Objects that would be usable but for unknown heights in front of them.

    An object in sight has nothing unknown in front of it, so these are all that a gap can take.
    Straight shores are left out: nobody would index on them.
    """
    found = []
    for track in field.tracks:
        blocked = track.sight.unknown.any(axis=1) & ~track.sight.seen.any(axis=1)
        if not track.feature.is_fixed or not blocked.any() or field.end_m <= 0.0:
            continue
        if is_straight(track.feature):
            continue
        nearest = int(np.argmin(np.abs(track.cross_m)))
        shown = geometric_windows(
            along_m=float(track.along_m[nearest]),
            cross_m=float(track.cross_m[nearest]),
            spans=spans,
        )
        if length_m(shown) < context.rules.least_window_m:
            continue
        name = context.ids.get(track.feature.key) or _unlettered(track, nearest)
        position = Position(
            lat_deg=float(track.feature.lat_deg[nearest]),
            lon_deg=float(track.feature.lon_deg[nearest]),
        )
        along = field.sight.node_along_m[field.sight.node_of]
        for start, stop in shown:
            inside = blocked & (along >= start) & (along <= stop)
            if inside.any():
                window = (float(along[inside].min()), float(along[inside].max()))
                found.append(Watched(name=name, position=position, window=window))
    return found


def _unlettered(track: FeatureTrack, number: int) -> str:
    """What to call an object that nobody could see so far."""
    cross = float(track.cross_m[number])
    return tr(
        "a {kind} {distance_nm:.1f} NM to {side}",
        kind=track.feature.kind.shown,
        distance_nm=nm_from_m(abs(cross)),
        side=(Side.STARBOARD if cross > 0.0 else Side.PORT).shown,
    )
