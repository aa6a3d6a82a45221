"""Where a piece of land or a mark first paints, between which limits, and where it must not."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from core.base.arrays import BoolArray, FloatArray, HoldsArrays
from core.coverage.coverage_result import Moment
from core.geodesy.position import Position

if TYPE_CHECKING:  # compiled kernels stand behind it: the window opens before they are loaded
    from core.radar.echo_budget import Conditions


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintLimit:
    """One limit of a first paint: a moment, or why there is none."""

    moment: Moment | None
    reason: str = ""
    """Empty where there is a moment."""
    is_from_start: bool = False
    """Whether there is none because it holds from the start of the leg on."""
    held_by: str = ""
    """The blind sector of own ship in which it stands until then; empty where none holds it."""


class WhatIfKind(Enum):
    """What is varied in a what-if."""

    REFRACTION = "refraction"
    RAIN = "rain"
    SEA = "sea"


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """Where it first paints if the weather is another."""

    kind: WhatIfKind
    conditions: Conditions
    limit: PaintLimit


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintedStretch:
    """A stretch of a leg from which something paints."""

    begins: Moment
    ends: Moment
    lasts: bool
    """Whether it goes on to the end of the leg."""
    lost_to: str
    """What takes it away at the end, empty where it lasts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RadarPaint:
    """From where something paints on one radar."""

    radar: str
    band: str
    """``X`` or ``S``."""
    limit: PaintLimit
    stretches: tuple[tuple[float, float], ...]
    """Along the leg, m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstPaint:
    """The four limits of one object on one leg, and what else is known of its echo.

    ``earliest_possible`` is geometry with strong refraction, ``normally_from`` geometry with
    standard refraction, ``normally_by`` the fitted radar with standard refraction, ``overdue``
    the minimum standard with weak refraction, high water, land as much lower as the elevation may
    be wrong, poorly echoing ground, and from wherever in the corridor it comes last. Both of the
    latter in the stated weather. (job.md 4.1.6.)
    """

    object_id: str
    name: str
    position: Position
    height_above_water_m: float
    earliest_possible: PaintLimit
    normally_from: PaintLimit
    normally_by: PaintLimit
    overdue: PaintLimit
    corridor_by: PaintLimit
    """Normally by from wherever in the corridor it comes last; the same as from the track where
    the corridor makes no difference worth telling."""
    stretches: tuple[PaintedStretch, ...]
    """Where it paints on the track, in order."""
    what_if: tuple[WhatIf, ...]
    by_radar: tuple[RadarPaint, ...]
    """Every radar of the ship, the main one first."""

    @property
    def lost(self) -> PaintedStretch | None:
        """The first stretch, where it ends before the leg does."""
        return self.stretches[0] if self.stretches and not self.stretches[0].lasts else None

    @property
    def says_something(self) -> bool:
        """Whether it begins or ceases to paint on the leg, or could."""
        limits = (self.earliest_possible, self.normally_from, self.normally_by, self.overdue)
        return self.lost is not None or any(limit.moment is not None for limit in limits)

    @property
    def varies(self) -> bool:
        """Whether other weather or another radar makes a difference on the leg."""
        limits = (
            self.normally_by,
            *(what.limit for what in self.what_if),
            *(radar.limit for radar in self.by_radar),
        )
        return any(limit.moment is not None for limit in limits)

    @property
    def seen_again(self) -> tuple[Moment, ...]:
        """Where it comes again after it was lost."""
        return tuple(stretch.begins for stretch in self.stretches[1:])


@dataclass(frozen=True, slots=True, kw_only=True)
class MustNotPaint:
    """A stretch of a leg on which land hides an object that would paint without it.

    If it paints all the same, the position or the identity is wrong. From everywhere in the
    corridor, with strong refraction, and with the object higher and the land before it lower
    than the elevation says. Never for what is below the horizon.
    """

    object_id: str
    name: str
    position: Position
    begins: Moment
    ends: Moment
    masked_by: str
    """The land that hides it, such as ``land 84 m high, 2.1 NM off``."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LegEchoes(HoldsArrays):
    """Echoes of all objects from places along the track of a leg.

    along_m : (p,); range_m, bearing_deg, margin_db : (p, t), margin minus infinity where nothing
    of it is in sight; is_masked : (p, t), as in ``MustNotPaint``
    """

    object_ids: tuple[str, ...]
    along_m: FloatArray
    range_m: FloatArray
    bearing_deg: FloatArray
    margin_db: FloatArray
    is_masked: BoolArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LegPaints:
    """All about first paint on one leg."""

    paints: tuple[FirstPaint, ...]
    """In the order of the targets."""
    must_not: tuple[MustNotPaint, ...]
    echoes: LegEchoes
