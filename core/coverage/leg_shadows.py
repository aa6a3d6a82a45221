"""Land shadows followed along a leg, each with its side and the land that makes it."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.angles import difference_deg
from core.base.units import nm_from_m
from core.coverage.chains import Chain, Patch, follow, sector_of, stretch
from core.coverage.coverage_result import LegShadow, SweepSettings, ViewpointCoverage
from core.coverage.profiles import Grid, Pairs, PairSight, sight_of_pairs
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.passage.passage import Side

_FEW_VIEWPOINTS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sample:
    """A hidden spot that stands for a shadow, for asking what hides it."""

    viewpoint: int
    bearing_deg: float
    range_m: float


def leg_shadows(
    on_track: tuple[ViewpointCoverage, ...], line: LegLine, grid: Grid, settings: SweepSettings
) -> tuple[LegShadow, ...]:
    """Follow the shadows of the viewpoints on the track along their leg.

    Parameters
    ----------
    on_track : tuple of ViewpointCoverage
        In order along the leg.
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
        the sector and the ranges it takes in over its stretch. What only one viewpoint has is
        left out, unless the leg has no more than two.
    """
    steps = tuple(
        tuple(
            Patch(
                bearing_from_deg=s.bearing_from_deg,
                bearing_to_deg=s.bearing_to_deg,
                range_from_m=s.range_from_m,
                range_to_m=s.range_to_m,
            )
            for s in view.shadows
        )
        for view in on_track
    )
    is_short = len(steps) <= _FEW_VIEWPOINTS
    chains = tuple(c for c in follow(steps) if is_short or len(c.patches) > 1)
    if not chains:
        return ()
    places = [view.viewpoint.along_m for view in on_track]
    _lats, _lons, courses = line.at(np.array(places))
    samples = [_sample(chain, on_track) for chain in chains]
    blockers = _blockers(samples, on_track, grid, settings)
    shadows = []
    for number, chain in enumerate(chains):
        from_deg, to_deg = sector_of(chain.patches)
        from_m, to_m = stretch(places, chain.first, chain.last, line.length_m)
        shadows.append(
            LegShadow(
                from_along_m=from_m,
                to_along_m=to_m,
                bearing_from_deg=from_deg,
                bearing_to_deg=to_deg,
                range_from_m=min(p.range_from_m for p in chain.patches),
                range_to_m=max(p.range_to_m for p in chain.patches),
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
        return "land"
    return f"land {height_m:.0f} m high, {nm_from_m(range_m):.1f} NM off"


def _sample(chain: Chain, on_track: tuple[ViewpointCoverage, ...]) -> _Sample:
    """A spot in the middle of the shadow from the viewpoint where its near edge is nearest."""
    number = min(range(len(chain.patches)), key=lambda i: chain.patches[i].range_from_m)
    patch = chain.patches[number]
    hidden = on_track[chain.first + number].hidden
    rays = hidden.offsets.size - 1
    middle = round((patch.bearing_from_deg + patch.width_deg / 2.0) * rays / 360.0)
    reach = math.ceil(patch.width_deg / 2.0 * rays / 360.0)
    for step in sorted(range(-reach, reach + 1), key=lambda i: (abs(i), i)):
        ray = (middle + step) % rays
        for j in range(int(hidden.offsets[ray]), int(hidden.offsets[ray + 1])):
            if patch.range_from_m <= hidden.from_m[j] and hidden.to_m[j] <= patch.range_to_m:
                return _Sample(
                    viewpoint=chain.first + number,
                    bearing_deg=ray * 360.0 / rays,
                    range_m=float(hidden.from_m[j] + hidden.to_m[j]) / 2.0,
                )
    return _Sample(
        viewpoint=chain.first + number,
        bearing_deg=middle * 360.0 / rays,
        range_m=(patch.range_from_m + patch.range_to_m) / 2.0,
    )


def _blockers(
    samples: list[_Sample],
    on_track: tuple[ViewpointCoverage, ...],
    grid: Grid,
    settings: SweepSettings,
) -> PairSight:
    positions = [on_track[s.viewpoint].viewpoint.position for s in samples]
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
