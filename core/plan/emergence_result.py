"""Where craft may come out from behind land, and how long they are in sight before they are met."""

from dataclasses import dataclass
from enum import Enum

from core.geodesy.position import Position
from core.passage.passage import Side


class Alarm(Enum):
    """How a warning time stands to the time a decision takes."""

    NONE = "enough"
    """The decision time or more."""
    SHORT = "below the decision time"
    SHORTER_THAN_TURN = "below the time of a bold alteration"
    """Own ship does not even complete a bold alteration in it."""


class NoOffing(Enum):
    """Why no offing is stated that would give the decision time."""

    ENOUGH = "the warning is long enough"
    OTHER_SHORE = "land on the other side leaves no room for it"
    NEAR_END = "the head lies too near an end of the leg for one bend in it"
    NO_RUN = "no craft of that speed comes out there unseen"


@dataclass(frozen=True, slots=True, kw_only=True)
class CraftRun:
    """One speed of craft behind one head."""

    craft_speed_mps: float
    warning_s: float | None
    """From first visibility to meeting on the track, s; None where a craft of this speed does
    not come out there unseen."""
    at_edge_s: float | None
    """The same for own ship at the corridor's edge on that side: the least in the corridor."""
    own_along_m: float | None
    """Where own ship is when she is first in sight, along the leg; negative on the leg before."""
    position: Position | None
    """Where the craft is then."""
    relative_deg: float
    """On which she bears from the heading to steer all the time, [0, 360)."""
    alarm: Alarm
    """By the least in the corridor; craft faster than the middle speed are flagged only where own
    ship does not complete a bold alteration."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Emergence:
    """A head behind which a craft can run unseen."""

    number: int
    """From 1, the shortest warning first."""
    object_id: str
    """Letter or name of the object whose tip it is, empty where it has none."""
    side: Side
    tip: Position
    tip_along_m: float
    offing_m: float
    """Of the tip from the track, m."""
    pass_off_m: float
    """How far beyond the tip the craft is taken to pass, m."""
    hidden_m2: float
    """Water hidden behind the tip and near it, as seen when the craft comes out."""
    is_behind_unknown: bool
    """True where heights in front are not known and taken as high enough to hide."""
    relative_from_deg: float
    relative_to_deg: float
    """Relative bearings on which craft come out, clockwise, over all headings that the leeway
    leaves possible."""
    runs: tuple[CraftRun, ...]
    """The slowest craft first."""
    decision_s: float
    needed_offing_m: float | None
    """That would give the decision time against the craft that decides; None with a reason."""
    extra_offing_m: float | None
    extra_distance_m: float | None
    """By how much one bend in the leg, abeam of the tip, lengthens it for that offing."""
    no_offing: NoOffing | None

    @property
    def alarm(self) -> Alarm:
        """Of the craft that decides."""
        return self.deciding.alarm

    @property
    def deciding(self) -> CraftRun:
        """The craft whose warning decides: the middle speed, or the nearest that comes out."""
        middle = len(self.runs) // 2
        order = sorted(range(len(self.runs)), key=lambda i: (abs(i - middle), -i))
        return next(self.runs[i] for i in order if self.runs[i].warning_s is not None)
