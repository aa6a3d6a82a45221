"""The figures a plan is made with, in one place, each with its ground."""

from dataclasses import dataclass, field

from core.base.units import m_from_nm, mps_from_kn


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedErrors:
    """Errors of a cross-index range that do not depend on where the object bears, 95 %.

    Values of the worked number in handbook 10.2; the display term there (33 m on the 6 NM scale)
    is taken as a share of the scale. Tide is left to the ranking, as its range is not known.
    """

    edge_m: float = 20.0
    """Where the echo's edge lies on the object."""
    antenna_m: float = 5.0
    """Antenna against the ship's reference point."""
    chart_m: float = 19.0
    """Position of the object in the data."""
    display_ratio: float = 0.003
    """Reading the display, as a share of the range scale."""


NO_FIXED_ERRORS = FixedErrors(edge_m=0.0, antenna_m=0.0, chart_m=0.0, display_ratio=0.0)
"""For checks against worked examples that state range and bearing errors alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRules:
    """Rules of planning that no standard fixes; defaults are common practice unless said."""

    screen_margin_ratio: float = 0.1
    """Kept free at the edge of the screen, share of the scale (handbook 9.3)."""
    overlap_s: float = 180.0
    """Time two objects are indexed together at a hand-over (job.md 2.6.1)."""
    decision_time_s: float = 360.0
    """Time in hand before a craft met end on is reached (job.md 3.13, coastal)."""
    other_speed_mps: float = mps_from_kn(15.0)
    """Least speed assumed of the other craft."""
    settled_s: float = 300.0
    """No change of scale this long before a wheel-over."""
    corridor_share_ratio: float = 0.5
    """Error limit as a share of the narrower side of the corridor."""
    least_limit_ratio: float = 1.2
    """Error limit at least this many times the error read abeam, or nothing could be used."""
    longest_index_scale_m: float = m_from_nm(12.0)
    """Beyond it the permitted range error alone is 0.24 NM (job.md 2.9.1)."""
    preferred_index_scale_m: float = m_from_nm(6.0)
    """Index on this scale or shorter where possible (handbook 10.2)."""
    shortest_index_scale_m: float = m_from_nm(0.75)
    least_cross_m: float = m_from_nm(0.1)
    """An object nearer to the track than this is a danger, not an index object."""
    near_cross_m: float = m_from_nm(0.3)
    """Below this, or below three corridors if that is less, an object ranks last: it passes close,
    its bearing runs fast, and it is as much a danger as a mark."""
    least_height_m: float = 1.0
    """Islets lower than this in the elevation data are not known to stand above water at all (the
    data has lost them), so nothing is laid on them unless the officer gives them as a mark."""
    islet_extent_m: float = m_from_nm(0.5)
    rock_extent_m: float = 100.0
    narrow_m: float = m_from_nm(0.05)
    """Objects narrower than half a cable are taken by their position (definitions.md)."""
    height_reach_m: float = m_from_nm(0.3)
    prominence_m: float = 150.0
    """A headland stands out from the coast either side by this much."""
    headland_reach_m: float = m_from_nm(0.5)
    """Coast to each side of a headland's edge point that counts as the headland."""
    sharp_reach_m: float = 200.0
    sharp_turn_deg: float = 60.0
    """A tip's waterline turns by this much within ``sharp_reach_m`` either side."""
    tide_range_m: float = 4.0
    """Assumed rise of the water for how far the edge of a beach moves."""
    steep_ratio: float = 0.27
    """Slope that keeps the edge within 0.1 cable over a 5 m tide (job.md 2.3.3)."""
    candidates_per_leg: int = 12
    most_lines: int = 4
    """Index lines a radar offers at least (IMO MSC.192(79) 5.15, from memory)."""
    least_window_m: float = m_from_nm(0.5)
    """Shorter windows are not worth setting a line for."""
    small_alteration_deg: float = 15.0
    """Below this a wheel-over line crosses the track too finely (job.md 2.7.5)."""
    large_alteration_deg: float = 90.0
    """Beyond this the turn is better taken in two steps (job.md 2.7.6)."""
    least_alteration_deg: float = 1.0
    """Below this there is no turn to plan."""
    pre_alert_s: tuple[float, ...] = (180.0, 60.0)
    """Warnings before a wheel-over (job.md 2.7.8)."""
    off_centre_ratio: float = 0.5
    """Off-centring that every radar offers (IMO MSC.64(67) 3.15.2)."""
    fixed_errors: FixedErrors = field(default_factory=FixedErrors)


DEFAULT_RULES = PlanRules()
