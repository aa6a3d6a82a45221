"""Ranges of objects nearly ahead or astern, which tell the progress along a leg (job.md 2.10.6)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from core.plan.fix_result import DeadRange
from core.plan.fix_targets import FixTarget
from core.plan.rules import FixRules


@dataclass(frozen=True, slots=True, kw_only=True)
class RangePlace:
    """What can be measured on the screen in use at one place of a leg."""

    along_m: float
    targets: tuple[FixTarget, ...]
    range_error_m: float
    """Of the set on that scale, 95 %."""

    def of(self, object_id: str) -> FixTarget | None:
        """One object as it is seen there."""
        return next((t for t in self.targets if t.object_id == object_id), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """Places one after the other with one object near the track line."""

    is_ahead: bool
    places: tuple[RangePlace, ...]
    targets: tuple[FixTarget, ...]


def dead_ranges_of(
    places: Sequence[RangePlace], *, end_m: float, speed_mps: float, rules: FixRules
) -> tuple[DeadRange, ...]:
    """The best object ahead and the best one astern, those usable at the wheel-over first.

    Parameters
    ----------
    places : sequence of RangePlace
        In order along the leg, those of the countdown among them.
    end_m : float
        The wheel-over, or the waypoint of the last leg, m along.
    speed_mps : float
        Speed over the ground.
    rules : FixRules
        How near to the track line, and for when to count down.
    """
    runs = _runs(places, rules)
    found = []
    for is_ahead in (True, False):
        own = [run for run in runs if run.is_ahead is is_ahead]
        if own:
            best = max(own, key=lambda run: _merit(run, end_m))
            found.append(_dead_range(best, end_m=end_m, speed_mps=speed_mps, rules=rules))
    return tuple(found)


def _merit(run: _Run, end_m: float) -> tuple[bool, bool, float, float]:
    first, last = run.places[0].along_m, run.places[-1].along_m
    off = max(t.off_track_deg for t in run.targets)
    return last >= end_m - 1.0, run.targets[-1].is_point_like, last - first, -off


def _runs(places: Sequence[RangePlace], rules: FixRules) -> list[_Run]:
    ids = dict.fromkeys(t.object_id for place in places for t in place.targets)
    runs: list[_Run] = []
    for object_id in ids:
        for is_ahead in (True, False):
            kept: list[tuple[RangePlace, FixTarget]] = []
            for place in (*places, None):
                target = None if place is None else place.of(object_id)
                is_near = (
                    target is not None
                    and target.off_track_deg <= rules.dead_off_deg
                    and (target.ahead_m > 0.0) is is_ahead
                )
                if is_near and place is not None and target is not None:
                    kept.append((place, target))
                    continue
                if len(kept) > 1:
                    runs.append(
                        _Run(
                            is_ahead=is_ahead,
                            places=tuple(p for p, _t in kept),
                            targets=tuple(t for _p, t in kept),
                        )
                    )
                kept = []
    return runs


def _dead_range(run: _Run, *, end_m: float, speed_mps: float, rules: FixRules) -> DeadRange:
    first, last = run.targets[0], run.targets[-1]
    countdown = []
    for seconds in rules.countdown_s:
        wanted = end_m - seconds * speed_mps
        for place, target in zip(run.places, run.targets, strict=True):
            if abs(place.along_m - wanted) <= 1.0:
                countdown.append((seconds / 60.0, target.range_m))
                break
    return DeadRange(
        object_id=last.object_id,
        name=last.name,
        is_ahead=run.is_ahead,
        from_along_m=run.places[0].along_m,
        to_along_m=run.places[-1].along_m,
        range_from_m=first.range_m,
        range_to_m=last.range_m,
        off_track_deg=max(t.off_track_deg for t in run.targets),
        rate_mps=dead_range_rate_mps(speed_mps=speed_mps, off_track_deg=last.off_track_deg),
        error_m=max(place.range_error_m for place in run.places),
        countdown=tuple(countdown),
    )


def dead_range_rate_mps(*, speed_mps: float, off_track_deg: float) -> float:
    """How fast the range changes: V cos b (job.md 2.10.6)."""
    return speed_mps * math.cos(math.radians(off_track_deg))
