"""The set-up card of a leg: each control of the radar, how to set it there, and why."""

from dataclasses import dataclass

from core.base.language import Worded
from core.plan.reason import Reason
from core.ship.ship import Band


class Control(Worded):
    """What is set, by its trade name, in the order of the card."""

    RADAR = "radar"
    SCALE = "range scale"
    OFF_CENTRE = "off-centring"
    PULSE = "pulse"
    GAIN = "gain"
    SEA_CLUTTER = "sea clutter"
    RAIN_CLUTTER = "rain clutter"
    INTERFERENCE = "interference rejection"
    STRETCH = "echo stretch"
    TRAILS = "trails"
    VECTOR = "vectors"
    EBL_VRM = "EBL and VRM"
    INDEX_LINE = "index line"
    SECOND_RADAR = "second radar"


@dataclass(frozen=True, slots=True, kw_only=True)
class SetupRow:
    """One control over a stretch of the leg."""

    control: Control
    number: int = 0
    """Of an index line, from 1; 0 where the control has no number."""
    setting: Reason
    """How to set it: a code of ``setup_codes.py`` and its values."""
    reason: Reason
    from_along_m: float
    to_along_m: float
    is_common_practice: bool
    """True where nothing but common practice stands behind the setting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetupCard:
    """How to set the radar for one leg."""

    radar: str
    """The radar the leg is run on."""
    band: Band
    rows: tuple[SetupRow, ...]
    """In the order of ``Control``, each control's rows along the leg."""
