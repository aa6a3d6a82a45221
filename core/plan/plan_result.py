"""What a plan says, leg by leg; every choice carries its reason."""

from dataclasses import dataclass

from core.base.findings import Finding
from core.base.language import Worded
from core.coverage.coverage_result import FirstSight, Gap
from core.coverage.first_paint_result import FirstPaint, MustNotPaint
from core.coverage.look_alike_result import LookAlike
from core.geodesy.position import Position
from core.passage.motion import LegMotion
from core.passage.passage import Passage, Side
from core.passage.timetable import Timetable
from core.plan.anchoring_result import AnchoringCard
from core.plan.corridor_result import CorridorWatch
from core.plan.fix_result import LegFixes
from core.plan.index_object import Edge as Edge
from core.plan.index_object import IndexObject as IndexObject
from core.plan.index_object import ObjectKind as ObjectKind
from core.plan.leg_check_result import LegChecks
from core.plan.object_result import ObjectLook
from core.plan.reason import Reason as Reason
from core.plan.scale_result import ScaleStretch as ScaleStretch
from core.plan.setup_result import SetupCard
from core.plan.tide_edge_result import TideEdge
from core.plan.tune_result import TuneCheck
from core.plan.turn_card_result import TurnCard
from core.plan.waters_result import LegWaters


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownObject:
    """A lettered object of this or an earlier plan, where it was when it got its letter."""

    id: str
    kind: ObjectKind
    position: Position
    """Middle of an islet, tip of a headland, summit; not the edge point of an index line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A mark the officer gave: fixed or floating, with or without a note that the chart has it."""

    name: str
    position: Position
    height_above_water_m: float
    is_fixed: bool
    kind: str = "mark"
    """Word of the file, such as ``beacon``, ``breakwater end``, ``racon``, ``buoy``."""
    is_on_chart: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DangerLimit:
    """A distance off an object that the officer took from the chart; never invented."""

    object_id: str
    """Id or name of the object it is measured from."""
    leg_number: int | None
    """The leg it belongs to, from 1; None for every leg that uses the object."""
    least_m: float | None
    """Not less than, m."""
    most_m: float | None
    """Not more than, m."""
    note: str = ""
    """Why, in the officer's words."""


_SAME_PART = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Override:
    """What the officer decided for one leg, or a part of it, instead of the tool."""

    leg_number: int
    role: str
    """``primary`` or ``check``."""
    object_id: str
    is_locked: bool = True
    remark: str = ""
    part_m: tuple[float, float] | None = None
    """From where to where along the leg it holds, m; None for the whole leg."""

    def meets(self, from_m: float, to_m: float) -> bool:
        """Whether it holds on some of a stretch of its leg."""
        return self.part_m is None or (self.part_m[0] < to_m and self.part_m[1] > from_m)

    def is_for(self, from_m: float, to_m: float) -> bool:
        """Whether a stretch of its leg is the part it is for, or of that part, or holds it.

        Two lines of a hand-over run together for a while, so that a little in common is not
        enough; and a line planned anew begins and ends a little elsewhere.
        """
        if self.part_m is None:
            return True
        common_m = min(self.part_m[1], to_m) - max(self.part_m[0], from_m)
        return common_m >= _SAME_PART * min(self.part_m[1] - self.part_m[0], to_m - from_m)


class Role(Worded):
    """What an index line is for."""

    PRIMARY = "primary"
    CHECK = "check"
    MARGIN = "margin"
    WHEEL_OVER = "wheel_over"


class Limit(Worded):
    """Which way a margin line warns."""

    NOT_LESS_THAN = "not less than"
    NOT_MORE_THAN = "not more than"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fallback:
    """Another echo for a line, and the part of the line's stretch that it can serve."""

    object_id: str
    from_along_m: float
    to_along_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexLine:
    """A line to set on the radar."""

    role: Role
    object: IndexObject
    side: Side
    """As seen along the line's own course (the new course for a wheel-over line)."""
    cross_index_range_m: float
    limit: Limit | None
    line_bearing_deg: float
    echo_travel_deg: float
    from_along_m: float
    to_along_m: float
    range_scale_m: float
    uncertainty_m: float
    """Of the cross-index range as read, 95 %, greatest over the window."""
    reason: Reason
    override: Override | None = None
    fallback: Fallback | None = None
    """What to use where the object is not seen (rain, a ship in front of it)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOver:
    """Both objects usable together: pass from one to the other here."""

    from_object: str
    to_object: str
    from_along_m: float
    to_along_m: float
    minutes: float
    fallback: str | None
    agreement_m: float = 0.0
    """Both lines are to agree within this, 95 %, m: their errors over the stretch together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexGap:
    """A stretch with nothing to index, and what to do instead."""

    from_along_m: float
    to_along_m: float
    minutes: float
    substitute: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindConflict:
    """An object of the plan in a blind or shadow sector of own structure."""

    object_id: str
    role: Role
    radar: str
    from_relative_deg: float
    to_relative_deg: float
    """The sector, clockwise from the bow."""
    cause: str
    """What stands in the way, in the words of the ship file."""
    is_shadow: bool
    """True where large echoes still show."""
    from_along_m: float
    to_along_m: float
    minutes: float
    other_radar: str
    """A radar that is not blind there, empty where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondMark:
    """Range and bearing of another object at the wheel-over."""

    object: IndexObject
    range_m: float
    bearing_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WheelOver:
    """Where the wheel goes over for the turn at the end of a leg."""

    along_m: float
    distance_before_waypoint_m: float
    position: Position
    new_course_deg: float
    alteration_deg: float
    """Starboard positive."""
    turn_radius_m: float
    is_radius_of_route: bool
    """Stated at the waypoint and not the ship's own."""
    own_radius_m: float
    """Of the ship's normal turn at that speed."""
    water_speed_mps: float
    rate_of_turn_deg_per_min: float
    corner_cut_m: float
    """Greatest distance inside the corner that the turn passes the waypoint."""
    pre_alert_along_m: tuple[float, ...]
    pre_alert_minutes: tuple[float, ...]
    method: Reason
    line: IndexLine | None
    line_reason: str
    """Why there is no line, empty when there is one."""
    second_mark: SecondMark | None
    second_mark_reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyIn:
    """One row to key into the radar: where a line lies and where to cut it short."""

    line: IndexLine
    bearing_deg: float
    beam_range_m: float
    side: Side
    truncate_ahead_m: float
    truncate_astern_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Quality:
    """Data quality in words."""

    grade: str
    """``good``, ``fair`` or ``poor``."""
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LegPlan:
    """The plan of one leg."""

    leg_index: int
    course_deg: float
    distance_m: float
    speed_mps: float
    """Over the ground."""
    corridor_port_m: float
    corridor_starboard_m: float
    quality: Quality
    gaps: tuple[Gap, ...]
    """The leg's gaps, each with what it can hide."""
    first_sights: tuple[FirstSight, ...]
    lines: tuple[IndexLine, ...]
    """Primary lines in order of use, then check, margin and wheel-over lines."""
    no_index_reason: str
    """Why nothing can be indexed, empty when something can."""
    hand_overs: tuple[HandOver, ...]
    index_gaps: tuple[IndexGap, ...]
    scales: tuple[ScaleStretch, ...]
    wheel_over: WheelOver | None
    wheel_over_reason: str
    key_in: tuple[KeyIn, ...]
    candidates: tuple[tuple[IndexObject, Reason], ...]
    """Every object that could be used, best first, with its reason."""
    motion: LegMotion | None = None
    """Heading and speeds where stream or leeway is given, else None."""
    turn_card: TurnCard | None = None
    """All about the turn at its end; None where there is none."""
    blind_conflicts: tuple[BlindConflict, ...] | None = None
    """Objects of the lines in blind sectors; None where no sectors are stated."""
    setup: SetupCard | None = None
    """How to set the radar for the leg; a plan always has it."""
    tune_check: TuneCheck | None = None
    """Where and with which echoes to see whether the radar is set well."""
    tune_check_reason: Reason | None = None
    """Why there is no check, None when there is one."""
    first_paints: tuple[FirstPaint, ...] = ()
    """Of the objects of ``first_sights``, and of all others that begin or cease to paint."""
    coast_paints: tuple[FirstPaint, ...] = ()
    """Stretches of coast that begin to paint on the leg, the first few."""
    must_not_paint: tuple[MustNotPaint, ...] = ()
    looks: tuple[ObjectLook, ...] = ()
    """Objects that can be indexed, best first, in full."""
    corridor_watch: CorridorWatch | None = None
    """Whether the corridor can be watched; None without a primary line."""
    data_grain_m: float | None = None
    """Things smaller than this may be missing from the data; None where nothing tells."""
    fixing: LegFixes | None = None
    """How to fix by radar alone; a plan always has it."""
    tide_edges: tuple[TideEdge, ...] = ()
    """Objects of the lines at low and high water, in the order of the lines."""
    look_alikes: tuple[LookAlike, ...] = ()
    """Places from which the coast paints much as from one on the leg."""
    waters: LegWaters | None = None
    """Hidden water beside the leg; a plan always has it."""
    checks: LegChecks | None = None
    """Dead ranges, check spots, cross-checks; a plan always has them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The plan of a passage."""

    passage: Passage
    """With every default filled in."""
    timetable: Timetable
    legs: tuple[LegPlan, ...]
    objects: tuple[IndexObject, ...]
    known_objects: tuple[KnownObject, ...] = ()
    """Lettered objects of earlier plans, found now or not, then the new ones of this plan."""
    are_letters_kept: bool = False
    """Whether a first plan would give other letters or know other objects."""
    findings: tuple[Finding, ...]
    anchoring: AnchoringCard | None = None
    """Where the passage ends at anchor."""
