"""The figures a plan is made with, in one place, each with its ground."""

from dataclasses import dataclass, field

from core.base.units import m_from_nm, mps_from_kn


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedErrors:
    """Errors of a cross-index range that do not depend on where the object bears, 95 %.

    Values of the worked number in handbook 10.2; the display term there (33 m on the 6 NM scale)
    is taken as a share of the scale. The tide's term belongs to each shore (``shore_rise.py``).
    """

    edge_m: float = 20.0
    """Where the echo's edge lies on the object."""
    antenna_m: float = 5.0
    """Antenna against the ship's reference point."""
    chart_m: float = 19.0
    """Position of the object in the data."""
    display_ratio: float = 0.003
    """Reading the display, as a share of the range scale."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weather:
    """Sea and rain."""

    sea_state: float
    """0 to 6; 0 is glassy."""
    rain_mm_h: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TuneRules:
    """Figures of the tune check; judgements of ours where no other ground is given."""

    strong_db: float = 20.0
    """An echo this far over the threshold is seen by any set that works."""
    medium_db: float = 10.0
    """From here to strong is medium, below it weak: a set 10 dB down sees 0.56 of its range
    (fourth-root law, computed) and shows it by the weak echo."""
    clear_db: float = 3.0
    """Least margin of a weak echo: more than the field over the sea is in error (1.7 dB at most,
    handbook 5.6) and a little for the target."""
    steady_s: float = 180.0
    """The ship is steady this long after a turn (common practice, no source)."""
    check_s: float = 180.0
    """Time that comparing four echoes takes (common practice, no source)."""
    least_range_ratio: float = 0.1
    """Nearer than this share of the scale echoes crowd and are too large to tell from clutter."""
    longest_scale_m: float = m_from_nm(24.0)
    """Beyond it land is for recognition only (job.md 4.1.9)."""
    apart_deg: float = 6.0
    """Echoes of two steps that bear this much apart are not taken for each other; three times
    the beam of a small antenna."""
    apart_ratio: float = 0.08
    """The same in range, as a share of the scale: half a ring of six."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FixRules:
    """Figures of radar fixes; judgements of ours where no other ground is given."""

    least_cut_deg: float = 30.0
    """Position lines must cut at this or more, and as much short of 180 (job.md A22)."""
    good_cut_deg: float = 60.0
    """They had better cut at this or more (job.md 4.4.3)."""
    apart_deg: float = 10.0
    """Three objects bear at least this much apart from one another."""
    farthest_m: float = m_from_nm(24.0)
    """Beyond it radar ranges are not fixed by (TP 1802, job.md 1.6.3)."""
    nearest_m: float = m_from_nm(0.25)
    """Nearer than this a range runs too fast to be read."""
    most_looked_at: int = 9
    """Objects a fix is chosen from, small ones first, then by range."""
    broad_cost_ratio: float = 0.15
    """An object that is not point-like counts as so much more error (job.md 4.4.2)."""
    fine_cut_cost_ratio: float = 0.5
    """The same for a cut outside what is aimed at."""
    kept_ratio: float = 0.75
    """The objects of the fix before are kept unless others are better than this."""
    worth_other_scale_ratio: float = 0.7
    """Another scale is set for a fix that is this much better."""
    alert_s: float = 180.0
    """The last fix before a wheel-over is so long before it: with its first warning."""


class EmergenceRules:
    """Which heads craft are taken to come out from behind; judgements of ours unless said."""

    craft_speeds_mps: tuple[float, ...] = (mps_from_kn(10.0), mps_from_kn(20.0), mps_from_kn(30.0))
    """Coaster, boat, fast ferry (job.md 7.2 and 7.6); the middle one decides (job.md 14.11)."""
    least_run_m: float = m_from_nm(0.2)
    """A craft is hidden for so long a run before she comes out, or it is no news: 36 s at 20 kn,
    over which tracking carries a craft seen before, and a bay too short to gather way in."""
    least_hidden_m2: float = m_from_nm(1.0) ** 2 / 20.0
    """Water hidden within ``near_tip_m`` of the tip: a square of two cables and a quarter, room
    to lie in or to run in."""
    near_tip_m: float = m_from_nm(1.0)
    late_s: float = 120.0
    """Low points are looked over: a craft in sight so much longer than the coast alone would have
    it comes out from behind other land."""
    same_head_m: float = m_from_nm(0.5)
    """Tips this near to each other are one head; the shorter warning stands for it."""
    most_a_leg: int = 6
    """More nag than they help."""
    name_reach_m: float = m_from_nm(0.2)
    """A lettered object this near to the tip is the head's name."""
    bold_turn_deg: float = 60.0
    """A bold alteration to keep clear, made in the ship's normal turn: a warning shorter than that
    takes is flagged apart (job.md 7.7; the angle is common practice, no source)."""
    least_bend_ratio: float = 2.0
    """A bend abeam of the tip needs this many times its width of leg before and after, or the
    course alters by more than 27 deg."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenMarkRules:
    """When water about a mark is looked at."""

    within_m: float = m_from_nm(6.0)
    """A ferry of 30 kn met end on at 12 kn is 4.2 NM off six minutes before; the next scale."""
    own_ground_m: float = 150.0
    """Land this near to the mark is its own shore and hides nothing of it; one cell at least."""


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
    """Time in hand before a craft met end on is reached (job.md 3.13, coastal; common practice, no
    source)."""
    open_sea_decision_time_s: float = 900.0
    """The same where no land is within ``open_sea_m`` (job.md 3.13, 12 to 15 min; common practice,
    no source)."""
    open_sea_m: float = m_from_nm(10.0)
    """Farther from land than this is open sea (common practice, no source)."""
    other_speed_mps: float = mps_from_kn(15.0)
    """Least speed assumed of the other craft (job.md 14.7; common practice, no source)."""
    fix_interval_s: float = 360.0
    """From one radar fix to the next (job.md 14.15; common practice, no source)."""
    scan_s: float = 60.0
    """How long a look on the longer scale lasts (job.md 3.8; common practice, no source)."""
    least_scan_s: float = 120.0
    """More often than this a scan is no rhythm to keep (a judgement of ours)."""
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
    """Islets and heads lower than this in the elevation data are not known to stand above water
    at all (the data has lost them), so nothing is laid on them unless the officer gives them as a
    mark."""
    doubtful_height_m: float = 7.0
    """Islets and rocks no higher than this may lie under high water: height error and high water
    above now, together (5 m and half of ``tidal_range_m`` here)."""
    shore_range_ratio: float = 12.0
    """A shore of a visible height h (m) must be seen from sqrt(12 h) NM by the least radar allowed:
    60 m from 20, 6 m from 8, 3 m from 6 NM (IMO MSC.192(79) table, by job.md 4.1.5). Islets and
    marks give less, so nothing is indexed from farther off until detection is worked out."""
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
    tidal_range_m: float = 4.0
    """From low to high water, for how far the edge of a shore moves. An assumption where the
    officer gives none: spring range of many open coasts, more than most enclosed seas have (from
    memory)."""
    is_tidal_range_assumed: bool = True
    low_water_m: float | None = None
    high_water_m: float | None = None
    """Above mean sea level, m; None takes half the tidal range below and above it."""
    shore_reach_m: float = 250.0
    """How far in from the coast dry ground is looked for: a 1:50 beach under 5 m of tide (job.md
    T13). A shore lower than that farther in is a low shore, and no more is known of it."""
    shore_cell_most_m: float = 125.0
    """Cells so large that two of them pass the reach tell nothing of a shore's slope."""
    islet_cells_ratio: float = 3.0
    """An islet fewer cells across than this is mixed with the sea beside it in every cell, so its
    slope is not known."""
    tide_most_m: float = 185.2
    """An edge that the tide moves by a cable is a beach, never a first choice (job.md 2.4.2)."""
    steady_edge_m: float = 18.52
    """An edge that the tide moves by no more than a tenth of a cable is steep-to (job.md
    2.3.3)."""
    same_place_m: float = 100.0
    """A fixed mark and a thing on land this near to each other are one echo; the coast counts as
    in sight within as much. In coarse data ``same_place_cells_ratio`` cells instead."""
    same_place_cells_ratio: float = 2.0
    candidates_per_leg: int = 12
    most_lines: int = 4
    """Index lines a radar offers at least (IMO MSC.192(79) 5.15, from memory)."""
    least_window_m: float = m_from_nm(0.5)
    """Shorter windows are not worth setting a line for."""
    least_check_s: float = 300.0
    """Check lines shorter than this are set and taken off again to no use (a judgement of ours)."""
    check_apart_m: float = m_from_nm(0.3)
    """A check nearer to the primary object than this stands on the same piece of land: it can be
    mistaken for it and reads the same errors."""
    blind_bridge_s: float = 120.0
    """An object lost in a blind sector for no longer than this keeps its line, with a gap; for
    longer another one takes over (job.md 14.12: 0.6 min needs no action)."""
    same_echo_beams_ratio: float = 2.0
    """Echoes nearer to each other than this many beamwidths are not told apart (job.md 2.3.2)."""
    least_turn_cross_m: float = m_from_nm(0.2)
    """A wheel-over line nearer to own ship than this is met by an echo almost on the new course:
    it swells by half a beam towards the line and moves little (job.md 2.9.5)."""
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
    tune: TuneRules = field(default_factory=TuneRules)
    fix: FixRules = field(default_factory=FixRules)
    emergence: EmergenceRules = field(default_factory=EmergenceRules)
    hidden_marks: HiddenMarkRules = field(default_factory=HiddenMarkRules)
    pass_off_m: float = m_from_nm(0.05)
    """How far beyond a tip a craft is taken to pass that comes out from behind it (job.md 7.5)."""
    trail_s: float = 180.0
    """Trails this long on scales to index on (job.md 14.13; common practice, no source)."""
    long_trail_s: float = 360.0
    """The same on longer scales, where an echo moves less over the screen."""
    s_band_weather: Weather = field(default_factory=lambda: Weather(sea_state=5.0, rain_mm_h=4.0))
    """From this rain or this sea on S band is used where the ship has it: the lighter of the two
    rates of rain and the heavier of the two sea states for which makers state what is lost (IMO
    MSC.192(79), from memory)."""

    @property
    def steep_ratio(self) -> float:
        """Slope that keeps the edge steady over the tidal range; 0.27 for 5 m (job.md T13)."""
        return self.tidal_range_m / self.steady_edge_m


DEFAULT_RULES = PlanRules()
