"""Land shadows followed along a leg, each with its side and the land that makes it."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.angles import difference_deg
from core.base.language import tr
from core.base.units import nm_from_m
from core.coverage.chains import Chain, follow, sector_of, stretch
from core.coverage.corridor_shadows import Owner, shadow_steps
from core.coverage.coverage_result import LegShadow, SweepSettings, ViewpointCoverage
from core.coverage.profiles import Grid, Pairs, PairSight, sight_of_pairs
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.passage.passage import Side

_FEW_VIEWPOINTS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sample:
    """A hidden spot that stands for a shadow, for asking what hides it."""

    view: ViewpointCoverage
    bearing_deg: float
    range_m: float


def leg_shadows(
    views: tuple[ViewpointCoverage, ...], line: LegLine, grid: Grid, settings: SweepSettings
) -> tuple[LegShadow, ...]:
    """Follow the shadows of all viewpoints of a leg, so that they hold for its whole corridor.

    Parameters
    ----------
    views : tuple of ViewpointCoverage
        On the track and at the edges of the corridor.
    line : LegLine
        The leg's line.
    grid : Grid
        The land, to find what makes each shadow.
    settings : SweepSettings
        As swept.

    Returns
    -------
    tuple of LegShadow
        A shadow goes on while it overlaps itself from viewpoint to viewpoint; it is told with
        the sector and the ranges it takes in over its stretch, bearings from the track or from
        the edges. What only one place along has is left out, unless the leg has no more than two.
    """
    steps = shadow_steps(views)
    is_short = len(steps.patches) <= _FEW_VIEWPOINTS
    chains = tuple(c for c in follow(steps.patches) if is_short or len(c.patches) > 1)
    if not chains:
        return ()
    places = list(steps.along_m)
    _lats, _lons, courses = line.at(np.array(places))
    samples = [_sample(chain, steps.owners) for chain in chains]
    blockers = _blockers(samples, grid, settings)
    shadows = []
    for number, chain in enumerate(chains):
        from_deg, to_deg = sector_of(chain.patches)
        from_m, to_m = stretch(places, chain.first, chain.last, line.length_m)
        own = [
            i
            for i, patch in enumerate(chain.patches, chain.first)
            if steps.owners[patch.index].is_on_track
        ]
        shadows.append(
            LegShadow(
                from_along_m=from_m,
                to_along_m=to_m,
                bearing_from_deg=from_deg,
                bearing_to_deg=to_deg,
                range_from_m=min(p.range_from_m for p in chain.patches),
                range_to_m=max(p.range_to_m for p in chain.patches),
                track_along_m=stretch(places, own[0], own[-1], line.length_m) if own else None,
                side=_side(chain, [float(c) for c in courses]),
                cause=_cause(
                    float(blockers.blocker_height_m[number]),
                    float(blockers.blocker_range_m[number]),
                ),
            )
        )
    return tuple(shadows)


def _side(chain: Chain, courses_deg: list[float]) -> Side:
    """The side on which the shadow's middle lies for most of its stretch."""
    lean = 0.0
    for number, patch in enumerate(chain.patches, start=chain.first):
        middle = patch.bearing_from_deg + patch.width_deg / 2.0
        lean += math.sin(math.radians(difference_deg(middle, courses_deg[number])))
    return Side.STARBOARD if lean >= 0.0 else Side.PORT


def _cause(height_m: float, range_m: float) -> str:
    if height_m <= 0.0:
        return tr("land")
    return tr(
        "land {height_m:.0f} m high, {distance_nm:.1f} NM off",
        height_m=height_m,
        distance_nm=nm_from_m(range_m),
    )


def _sample(chain: Chain, owners: tuple[Owner, ...]) -> _Sample:
    """A spot in the middle of the shadow from the viewpoint where its near edge is nearest."""
    owner = min((owners[p.index] for p in chain.patches), key=lambda o: o.shadow.range_from_m)
    patch, hidden = owner.patch, owner.view.hidden
    rays = hidden.offsets.size - 1
    middle = round((patch.bearing_from_deg + patch.width_deg / 2.0) * rays / 360.0)
    reach = math.ceil(patch.width_deg / 2.0 * rays / 360.0)
    for step in sorted(range(-reach, reach + 1), key=lambda i: (abs(i), i)):
        ray = (middle + step) % rays
        for j in range(int(hidden.offsets[ray]), int(hidden.offsets[ray + 1])):
            if patch.range_from_m <= hidden.from_m[j] and hidden.to_m[j] <= patch.range_to_m:
                return _Sample(
                    view=owner.view,
                    bearing_deg=ray * 360.0 / rays,
                    range_m=float(hidden.from_m[j] + hidden.to_m[j]) / 2.0,
                )
    return _Sample(
        view=owner.view,
        bearing_deg=middle * 360.0 / rays,
        range_m=(patch.range_from_m + patch.range_to_m) / 2.0,
    )


def _blockers(
    samples: list[_Sample],
    grid: Grid,
    settings: SweepSettings,
) -> PairSight:
    positions = [s.view.viewpoint.position for s in samples]
    from_lat = np.array([p.lat_deg for p in positions])
    from_lon = np.array([p.lon_deg for p in positions])
    to_lat, to_lon, _final = geodesic.direct(
        lat_deg=from_lat,
        lon_deg=from_lon,
        bearing_deg=np.array([s.bearing_deg for s in samples]),
        distance_m=np.array([s.range_m for s in samples]),
    )
    count = len(samples)
    return sight_of_pairs(
        Pairs(
            from_lat_deg=from_lat,
            from_lon_deg=from_lon,
            to_lat_deg=to_lat,
            to_lon_deg=to_lon,
            to_height_m=np.full(count, settings.craft_height_m),
            margin_m=np.zeros(count),
        ),
        grid,
        None,
        antenna_height_m=settings.antenna_height_m,
        refraction_k=settings.refraction_k,
        find_worst=True,
    )
