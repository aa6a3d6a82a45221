"""What one leg would be like at other offings, side by side."""

from dataclasses import dataclass

from core.base.units import m_from_nm
from core.passage.passage import Side
from core.plan.emergence_result import Emergence

OFFING_RADIUS_M = m_from_nm(12.0)
"""How far an offing is swept at most: no index line is read beyond it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OffingLine:
    """An object that a primary or check line is laid on."""

    object_id: str
    name: str
    role: str
    """``primary`` or ``check``."""
    side: Side
    cross_index_range_m: float
    range_scale_m: float
    """The longest scale in use with it."""
    share_ratio: float
    """Share of the leg it is indexed on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OffingPaint:
    """By where an object normally paints."""

    object_id: str
    name: str
    range_m: float | None
    """None where it paints from the start or does not come to paint; ``words`` say which."""
    along_m: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Offing:
    """The leg at one distance to the side of where it is planned."""

    shift_m: float
    """Starboard positive; 0 as planned."""
    distance_change_m: float
    """Of the leg and the legs beside it against the plan, m."""
    lines: tuple[OffingLine, ...]
    """Primary lines in order of use, then check lines."""
    index_gap_minutes: float
    worst_uncertainty_m: float | None
    """Greatest error of a primary line, 95 %, m; None without one."""
    paints: tuple[OffingPaint, ...]
    nearest_land_m: float | None
    """From the track; None where none is within the sweep radius."""
    nearest_hidden_m: float | None
    """From the track to the nearest water behind land; None where none is hidden in reach."""
    hidden_count: int
    """Land shadows along the leg."""
    emergence: Emergence | None
    """The head with the shortest warning of craft from behind it; None where none was found."""
    is_complete: bool
    """False where heights are missing that matter."""
    warnings: tuple[str, ...]
    """Land crossed, danger limits broken, in words; worst first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OffingTable:
    """Offings of one leg, the planned one first."""

    leg_number: int
    from_name: str
    to_name: str
    offings: tuple[Offing, ...]
    common_ids: tuple[str, ...]
    """Objects whose first paints are told for every offing."""
