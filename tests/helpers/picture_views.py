"""Views of invented waters for tests of the picture."""

from functools import lru_cache

from core.coverage.terrain import Terrain, prepare_terrain
from core.geodesy.position import Position
from core.picture.picture_view import PictureView, view_place
from core.picture.point_echoes import PictureTarget
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset, RadarSet
from core.radar.radar_target import RadarTarget
from core.ship.ship import Band, BlindSector
from tests.helpers.islands import CENTRE, NM, Sea, box, place

CALM = Conditions()
ROUGH = Conditions(sea_state=4.0, rain_mm_h=4.0)


def radar_of(band: Band = Band.X, preset: Preset = Preset.TYPICAL) -> RadarSet:
    """A band's preset."""
    return preset_set(band, preset)


def sea() -> Sea:
    """Water 8 NM each way."""
    return Sea(half_width_m=8.0 * NM, cell_m=60.0)


@lru_cache(maxsize=8)
def waters(kind: str) -> Terrain:
    """Invented waters: bare, islands (a wall, hills, an islet), or with a gap."""
    if kind == "bare":
        return prepare_terrain(sea().model())
    land = (
        sea()
        .land(box(2.0 * NM, -1.5 * NM, 2.0 * NM + 300.0, 1.0 * NM), 40.0)
        .land(box(-5.0 * NM, 2.0 * NM, -3.0 * NM, 4.0 * NM), 120.0)
        .land(box(-200.0, -3.0 * NM, 200.0, -3.0 * NM + 150.0), 4.0)
    )
    if kind == "gap":
        land = land.without_heights(box(-2.0 * NM, -4.0 * NM, -1.0 * NM, -2.0 * NM))
    return prepare_terrain(land.model())


def buoy(
    range_m: float, name: str = "buoy", *, rcs_m2: float = 5.0, height_m: float = 3.5
) -> PictureTarget:
    """A point target due north of the middle."""
    return PictureTarget(
        name=name,
        position=place(0.0, range_m),
        target=RadarTarget(rcs_m2=rcs_m2, height_m=height_m),
    )


def view_of(
    kind: str = "islands",
    *,
    scale_m: float = 6.0 * NM,
    conditions: Conditions = CALM,
    radar: RadarSet | None = None,
    antenna_m: float = 15.0,
    at: Position = CENTRE,
    heading_deg: float = 0.0,
    leeway_deg: float = 0.0,
    off_centre_ratio: float = 0.0,
    sectors: tuple[BlindSector, ...] = (),
    targets: tuple[PictureTarget, ...] = (),
) -> PictureView:
    """The view from the middle of invented waters."""
    radar = radar or radar_of()
    return view_place(
        waters(kind),
        at,
        EchoBudget(
            radar=radar,
            pulse=radar.pulse_for_scale(scale_m),
            antenna_height_m=antenna_m,
            conditions=conditions,
        ),
        scale_m=scale_m,
        heading_deg=heading_deg,
        leeway_deg=leeway_deg,
        off_centre_ratio=off_centre_ratio,
        sectors=sectors,
        targets=targets,
    )
