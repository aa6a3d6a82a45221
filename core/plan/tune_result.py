"""The tune check of a leg: four echoes, strong to absent, that show how well the radar is set."""

from dataclasses import dataclass
from enum import Enum

from core.base.language import Worded
from core.geodesy.position import Position
from core.plan.reason import Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderEcho:
    """What one object is expected to show as from one place of a leg."""

    object_id: str
    name: str
    position: Position
    """Of the object."""
    along_m: float
    """Where the ship is, along the leg."""
    range_m: float
    bearing_deg: float
    margin_db: float | None
    """Echo over the detection threshold of the fitted radar; None where none was worked out."""
    is_masked_by_land: bool
    """Hidden by nearer land even with the strongest refraction reckoned with (k 2)."""
    masked_by: str
    """What hides it, in words, such as ``land 84 m high, 2.1 NM off``."""
    in_blind_sector: bool
    is_doubtful: bool = False
    """An islet that may lie under water, by height error and tide."""


class Rung(Worded):
    """A step of the ladder."""

    STRONG = "strong"
    MEDIUM = "medium"
    WEAK = "weak"
    ABSENT = "absent"


@dataclass(frozen=True, slots=True, kw_only=True)
class TuneRung:
    """One step: the echo chosen for it, or why there is none."""

    rung: Rung
    echo: LadderEcho | None
    reason: Reason


class TuneReading(Enum):
    """A pattern of seen and missing echoes that means something; words in ``core.words``."""

    AS_EXPECTED = "as expected"
    WEAK_MISSING = "strong seen, weak missing"
    STRONG_MISSING = "strong missing"
    ABSENT_SEEN = "masked one seen"
    ALL_LATE = "all late, near echoes normal"
    NEAR_WEAK = "all late, near echoes weak too"
    ALL_EARLY = "many before their earliest"


@dataclass(frozen=True, slots=True, kw_only=True)
class TuneCheck:
    """Where along a leg to compare the screen with four echoes; the time is by the timetable."""

    along_m: float
    position: Position
    """Of the ship."""
    radar: str
    scale_m: float
    """To make the check on; it may be longer than the one in use there."""
    pulse: str
    """That the margins hold for."""
    rungs: tuple[TuneRung, ...]
    """Strong, medium, weak, absent."""
    readings: tuple[TuneReading, ...]
    """Those that the echoes found can show."""
    reason: Reason
    """Why here."""

    def echo(self, rung: Rung) -> LadderEcho | None:
        """The echo of a step."""
        return next(step.echo for step in self.rungs if step.rung is rung)
