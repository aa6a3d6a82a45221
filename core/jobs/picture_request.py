"""What the picture job is asked; apart from the job, so that typing costs no physics."""

from dataclasses import dataclass
from pathlib import Path

from core.geodesy.position import Position

ORIENTATIONS = ("north-up", "course-up", "head-up")


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureWords:
    """What an officer asks, as typed; None where nothing was said."""

    land: tuple[Path, ...] = ()
    position: Position | None = None
    ship: Path | None = None
    marks: Path | None = None
    classes: Path | None = None
    """Raster of kinds of ground."""
    antenna_height_m: float | None = None
    band: str | None = None
    radar_name: str | None = None
    preset: str | None = None
    scale_m: float | None = None
    heading_deg: float | None = None
    course_deg: float | None = None
    leeway_deg: float | None = None
    orientation: str | None = None
    off_centre_percent: float | None = None
    off_centre_deg: float | None = None
    gain_db: float | None = None
    mistuning_db: float | None = None
    sea_clutter_percent: float | None = None
    rain_clutter_percent: float | None = None
    interference_rejection: bool = False
    echo_stretch: bool = False
    pulse: str | None = None
    sea_state: float | None = None
    rain_mm_h: float | None = None
    refraction_k: float | None = None
    tide_m: float | None = None
    mean_sea_level_m: float | None = None
    is_night: bool = False
    size_px: int | None = None
