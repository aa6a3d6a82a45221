"""What the detect job is asked; apart from the job, so that typing costs no physics."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class DetectWords:
    """What an officer asks, as typed; None where nothing was said."""

    band: str | None = None
    preset: str | None = None
    antenna_height_m: float | None = None
    rcs_m2: float | None = None
    target_height_m: float | None = None
    shore_height_m: float | None = None
    is_extended: bool = False
    sea_state: float | None = None
    rain_mm_h: float | None = None
    refraction_k: float | None = None
    range_scale_m: float | None = None
    swerling: int = 0
    is_table: bool = False
