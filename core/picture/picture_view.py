"""Everything about an expected picture that depends on place, set and weather, not on set-up."""

import math
import zlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, HoldsArrays
from core.coverage.echo_field import EchoField, Surface
from core.coverage.echo_sweep import sweep_echo
from core.coverage.land_echo import land_echo
from core.coverage.terrain import Terrain
from core.geodesy.position import Position
from core.picture.point_echoes import PictureTarget, PointEcho, point_echoes, with_points
from core.radar.echo_budget import EchoBudget
from core.radar.square_law import DetectionRule
from core.ship.ship import BlindSector

_MOST_CELLS = 700
_BEARINGS = 360
_MOST_BEARINGS = 4 * _BEARINGS
"""A quarter of the beam, but no finer than a quarter of a degree: about 1.5 pixels at the edge."""
_NOTHING_DB = -200.0


class Own(IntEnum):
    """What own structure does on a bearing."""

    CLEAR = 0
    SHADOW = 1
    """Small echoes are lost; or leeway may turn a sector there."""
    BLIND = 2


class Ground(IntEnum):
    """What lies in a cell before anything is painted."""

    SEA = 1
    """Water or land in sight."""
    BELOW_HORIZON = 2
    SHADOW = 3
    """Hidden by land."""
    UNKNOWN = 5
    """Heights are missing: a gap, not water."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PictureView(HoldsArrays):
    """Powers round a place, beside the noise of one pulse. B bearings, N range cells.

    Row b stands for the bearings round ``360 * b / B`` deg, cell n for the ranges from
    ``n * cell_m`` to ``(n + 1) * cell_m``.

    echo_db : (B, N) float32
        Land and point targets over noise, dB; -200 where there is none.
    sea_ratio : (B, N) float32
        Mean echo of the sea over noise, bare.
    rain_ratio : (N,) float64
        Mean echo of the rain over noise, bare.
    open_sea_ratio : (N,) float64
        That of the sea where nothing hides any of it.
    ground : (B, N) uint8, ``Ground``
    own : (B,) uint8, ``Own``
        By true bearing, for ``heading_deg``.
    """

    position: Position
    budget: EchoBudget
    rule: DetectionRule
    scale_m: float
    radius_m: float
    """How far the picture reaches: the scale, and what off-centring adds."""
    cell_m: float
    heading_deg: float | None
    """True; None where it is not known: then sectors of own structure are left out."""
    leeway_deg: float
    """How far the heading may differ from the one given, either way, deg."""
    sectors: tuple[BlindSector, ...]
    snr_required_db: float
    seed: int
    """Of the speckle; the same place has the same."""
    points: tuple[PointEcho, ...]
    echo_db: Float32Array
    sea_ratio: Float32Array
    rain_ratio: FloatArray
    open_sea_ratio: FloatArray
    ground: ByteArray
    own: ByteArray

    @property
    def bearings(self) -> int:
        """B."""
        return int(self.echo_db.shape[0])

    @property
    def middles_m(self) -> FloatArray:
        """Middles of the range cells, m: (N,)."""
        return (np.arange(self.echo_db.shape[1], dtype=np.float64) + 0.5) * self.cell_m

    def turned(self, heading_deg: float | None, leeway_deg: float = 0.0) -> "PictureView":
        """The same place on another heading; only own sectors move."""
        return replace(
            self,
            heading_deg=heading_deg,
            leeway_deg=leeway_deg,
            own=own_sectors(
                self.sectors, self.bearings, heading_deg=heading_deg, leeway_deg=leeway_deg
            ),
        )


def view_place(
    terrain: Terrain,
    position: Position,
    budget: EchoBudget,
    *,
    scale_m: float,
    heading_deg: float | None = None,
    leeway_deg: float = 0.0,
    off_centre_ratio: float = 0.0,
    sectors: Sequence[BlindSector] = (),
    targets: Sequence[PictureTarget] = (),
) -> PictureView:
    """Work out what a radar receives at a place.

    Parameters
    ----------
    terrain : Terrain
        Land made ready, reaching at least ``scale_m * (1 + off_centre_ratio)`` round the place.
    position : Position
        The antenna.
    budget : EchoBudget
        Set, antenna height and weather, with the pulse in use
        (``RadarSet.pulse_for_scale`` unless the officer chose another).
    scale_m : float
        Range scale, m.
    heading_deg, leeway_deg : float
        True heading, None if not known, and how far it may differ from that, deg.
    off_centre_ratio : float
        How far own ship stands off the middle of the picture, as a share of the scale.
    sectors : sequence of BlindSector
        Blind and shadow sectors of the radar, relative to the bow.
    targets : sequence of PictureTarget
        Point targets; those out of reach are left out.
    """
    radius_m = scale_m * (1.0 + off_centre_ratio)
    quarter_deg = budget.radar.horizontal_beamwidth_deg / 4.0
    bearings = _BEARINGS * max(math.ceil(360.0 / quarter_deg / _BEARINGS - 1e-9), 2)
    field = sweep_echo(
        terrain,
        position,
        antenna_height_m=budget.antenna_height_m,
        refraction_k=budget.conditions.refraction_k,
        radius_m=radius_m,
        cell_m=max(budget.pulse.depth_m / 2.0, radius_m / _MOST_CELLS),
        bearing_count=min(bearings, _MOST_BEARINGS),
    )
    echo = land_echo(field, budget)
    middles_m = (np.arange(echo.rain_w.size, dtype=np.float64) + 0.5) * field.cell_m
    points = point_echoes(terrain, position, budget, targets, radius_m=radius_m)
    power = with_points(echo.land_w, points, budget, field.cell_m)
    with np.errstate(divide="ignore"):
        echo_db = np.float32(10.0) * np.log10(power / np.float32(echo.noise_w))
    return PictureView(
        position=position,
        budget=budget,
        rule=echo.rule,
        scale_m=scale_m,
        radius_m=radius_m,
        cell_m=field.cell_m,
        heading_deg=heading_deg,
        leeway_deg=leeway_deg,
        sectors=tuple(sectors),
        snr_required_db=echo.snr_required_db,
        seed=zlib.crc32(f"{position.lat_deg:.6f} {position.lon_deg:.6f}".encode()),
        points=points,
        echo_db=np.maximum(echo_db, np.float32(_NOTHING_DB)),
        sea_ratio=echo.sea_w / np.float32(echo.noise_w),
        rain_ratio=echo.rain_w / echo.noise_w,
        open_sea_ratio=budget.sea_power_w(middles_m) / echo.noise_w,
        ground=_ground(field),
        own=own_sectors(
            tuple(sectors), echo_db.shape[0], heading_deg=heading_deg, leeway_deg=leeway_deg
        ),
    )


def own_sectors(
    sectors: tuple[BlindSector, ...], bearings: int, *, heading_deg: float | None, leeway_deg: float
) -> ByteArray:
    """What own structure does, by true bearing: (B,) uint8, ``Own``.

    Leeway or set may turn a sector either way: on its fringe nothing is certain, so the fringe
    counts as a shadow sector.
    """
    out = np.zeros(bearings, dtype=np.uint8)
    if heading_deg is None:
        return out
    relative_deg = np.arange(bearings) * 360.0 / bearings - heading_deg
    for sector in sectors:
        width_deg = (sector.to_relative_deg - sector.from_relative_deg) % 360.0
        into_deg = np.mod(relative_deg - sector.from_relative_deg, 360.0)
        fringe = np.mod(into_deg + leeway_deg, 360.0) <= width_deg + 2.0 * leeway_deg
        core = (into_deg <= width_deg) & (into_deg >= leeway_deg)
        core &= into_deg <= width_deg - leeway_deg
        out[fringe] = np.maximum(out[fringe], Own.SHADOW)
        if not sector.is_shadow:
            out[core] = Own.BLIND
    return out


def _ground(field: EchoField) -> ByteArray:
    surface = field.surface
    out = np.full(surface.shape, Ground.SEA, dtype=np.uint8)
    behind = np.maximum.accumulate(surface == Surface.LAND, axis=1)
    hidden = surface == Surface.HIDDEN
    out[hidden] = Ground.BELOW_HORIZON
    out[hidden & behind] = Ground.SHADOW
    out[surface == Surface.UNKNOWN] = Ground.UNKNOWN
    return out
