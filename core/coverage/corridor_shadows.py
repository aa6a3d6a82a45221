"""Land shadows step by step along a leg, from the track and both edges of its corridor together."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from core.coverage.chains import Patch
from core.coverage.coverage_result import LandShadow, ViewpointCoverage


@dataclass(frozen=True, slots=True, kw_only=True)
class Owner:
    """The viewpoint whose hidden water a patch stands for."""

    view: ViewpointCoverage
    shadow: LandShadow
    index: int = 0

    @property
    def is_on_track(self) -> bool:
        """Whether it is one of the planned line itself."""
        return self.view.viewpoint.cross_m == 0.0

    @property
    def patch(self) -> Patch:
        """The shadow as a patch, as this viewpoint alone has it."""
        return Patch(
            bearing_from_deg=self.shadow.bearing_from_deg,
            bearing_to_deg=self.shadow.bearing_to_deg,
            range_from_m=self.shadow.range_from_m,
            range_to_m=self.shadow.range_to_m,
            index=self.index,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ShadowSteps:
    """Patches of each place along the track, and whose they are.

    ``Patch.index`` counts in ``owners``; a patch that the track has too is owned by the track.
    """

    along_m: tuple[float, ...]
    patches: tuple[tuple[Patch, ...], ...]
    owners: tuple[Owner, ...]


def shadow_steps(views: Iterable[ViewpointCoverage]) -> ShadowSteps:
    """Shadows of all viewpoints of a leg, those of the edges joined to those of the track.

    What an edge of the corridor has in common with the track widens the track's own shadow; the
    rest is a shadow of its own. Where edges are swept at every second viewpoint only, a shadow
    that an edge alone has stands for the next viewpoint too.
    """
    by_along: dict[float, list[ViewpointCoverage]] = {}
    for view in views:
        by_along.setdefault(view.viewpoint.along_m, []).append(view)
    owners: list[Owner] = []
    steps: list[tuple[Patch, ...]] = []
    alone: list[Patch] = []
    for along_m in sorted(by_along):
        here = by_along[along_m]
        joined: list[Patch] = []
        for view in here:
            if view.viewpoint.cross_m == 0.0:
                joined += [_patch(view, shadow, owners) for shadow in view.shadows]
        own_count = len(joined)
        edges = [view for view in here if view.viewpoint.cross_m != 0.0]
        if edges:
            for view in edges:
                for shadow in view.shadows:
                    _join(joined, own_count, _patch(view, shadow, owners))
            alone = joined[own_count:]
        else:
            joined += alone
            alone = []
        steps.append(tuple(joined))
    return ShadowSteps(along_m=tuple(sorted(by_along)), patches=tuple(steps), owners=tuple(owners))


def _patch(view: ViewpointCoverage, shadow: LandShadow, owners: list[Owner]) -> Patch:
    owners.append(Owner(view=view, shadow=shadow, index=len(owners)))
    return owners[-1].patch


def _join(joined: list[Patch], own_count: int, patch: Patch) -> None:
    """Widen the patch that shares most with this one, or add it."""
    shared = [_shared_deg(one, patch) for one in joined]
    best = max(range(len(joined)), key=lambda i: (shared[i], i < own_count), default=None)
    if best is None or shared[best] <= 0.0:
        joined.append(patch)
    else:
        joined[best] = _wider(joined[best], patch)


def _shared_deg(one: Patch, other: Patch) -> float:
    """Bearings in both, where their ranges overlap; else 0."""
    if min(one.range_to_m, other.range_to_m) <= max(one.range_from_m, other.range_from_m):
        return 0.0
    shift = (other.bearing_from_deg - one.bearing_from_deg) % 360.0
    arc = max(0.0, min(one.width_deg, shift + other.width_deg) - shift)
    return arc + max(0.0, min(one.width_deg, shift - 360.0 + other.width_deg))


def _wider(one: Patch, other: Patch) -> Patch:
    """Both sectors and both spans of range, under the first one's owner."""
    start = (other.bearing_from_deg - one.bearing_from_deg) % 360.0
    before = 0.0 if start <= one.width_deg else 360.0 - start
    end = other.width_deg + (start if before == 0.0 else -before)
    after = max(0.0, end - one.width_deg)
    is_round = one.width_deg + before + after >= 359.5
    return replace(
        one,
        bearing_from_deg=0.0 if is_round else (one.bearing_from_deg - before) % 360.0,
        bearing_to_deg=359.5 if is_round else (one.bearing_to_deg + after) % 360.0,
        range_from_m=min(one.range_from_m, other.range_from_m),
        range_to_m=max(one.range_to_m, other.range_to_m),
    )
