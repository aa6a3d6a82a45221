"""An invented Outcome of three legs for tests of sheets, strips and views.

Everything here is invented: the islands, the ship, the marks and the passage lie in an empty
part of the South Atlantic. Numbers of the first leg follow the worked leg of the trade notes
(islet A 1.20 NM to starboard, breakwater end B 0.90 NM to port, wheel-over 0.56 NM before the
waypoint). Sight is found by a plain march along rays, good enough to look at, not to check with.
"""

from datetime import UTC, datetime
from functools import lru_cache

import numpy as np

from core.base.findings import Finding, Severity, Where
from core.base.units import m_from_nm
from core.coverage.coverage_result import (
    Coverage,
)
from core.geodesy.position import Position
from core.passage.passage import Passage
from core.passage.timetable import Timetable
from core.plan.outcome import Outcome, Timings
from core.plan.plan_result import (
    Edge,
    HandOver,
    IndexGap,
    IndexLine,
    IndexObject,
    LegPlan,
    Limit,
    Mark,
    ObjectKind,
    Plan,
    Quality,
    Role,
)
from core.plan.request import Environment, InputFile, Request
from core.ship.ship import Band, Radar, Ship
from tests.helpers.sample_checks import NO_CHECKS, checks_over
from tests.helpers.sample_fixes import fixes_over
from tests.helpers.sample_lines import (
    first_sight,
    index_line,
    index_object,
    key_in_of,
    scale_stretch,
    wheel_over_of,
)
from tests.helpers.sample_looks import looks_of
from tests.helpers.sample_setup import sample_echoes, with_sample_setup
from tests.helpers.sample_waters import (
    ANTENNA_M,
    LENGTHS_NM,
    NM_M,
    SPEED_MPS,
    sample_coverage,
    sample_land,
    sample_passage,
)


def _leg_plan(
    passage: Passage, index: int, coverage: Coverage, lines: tuple[IndexLine, ...], **more: object
) -> LegPlan:
    line = passage.line(index)
    values: dict[str, object] = {
        "leg_index": index,
        "course_deg": line.course_deg,
        "distance_m": line.length_m,
        "speed_mps": SPEED_MPS,
        "corridor_port_m": m_from_nm(0.2),
        "corridor_starboard_m": m_from_nm(0.2),
        "quality": Quality(grade="fair", reasons=("elevation cells about 93 x 80 m",)),
        "gaps": coverage.legs[index].gaps,
        "first_sights": (),
        "lines": lines,
        "no_index_reason": "",
        "hand_overs": (),
        "index_gaps": (),
        "scales": (scale_stretch(line.length_m, 3.0, "forced-by-object"),),
        "wheel_over": None,
        "wheel_over_reason": "last leg of the passage",
        "key_in": key_in_of(tuple(x for x in lines if x.role is not Role.WHEEL_OVER)),
        "looks": looks_of(lines),
        "fixing": fixes_over(line.length_m, m_from_nm(0.2)),
        "checks": checks_over(line.length_m) if index == 0 else NO_CHECKS,
        "data_grain_m": 185.2,
        "candidates": tuple((x.object, x.reason) for x in lines if x.role is Role.PRIMARY),
    }
    values.update(more)
    return LegPlan(**values)  # type: ignore[arg-type]  # a table of defaults, checked by use


@lru_cache(maxsize=1)
def sample_outcome() -> Outcome:
    """The invented outcome: three legs, built once."""
    passage, land = sample_passage(), sample_land()
    coverage = sample_coverage(passage, land)
    a = index_object(passage, 0, 0, "A", "islet 38 m, 2.9 NM NE of Outer buoy")
    breakwater = passage.line(0).offset(np.array([m_from_nm(5.5)]), np.array([m_from_nm(-0.9)]))
    b = IndexObject(
        id="B",
        name="breakwater end (invented)",
        position=Position(lat_deg=float(breakwater[0][0]), lon_deg=float(breakwater[1][0])),
        edge=Edge.POSITION,
        kind=ObjectKind.MARK,
        height_above_water_m=6.0,
        is_fixed=True,
        confirm_on_chart=False,
    )
    c = index_object(passage, 1, 2, "C", "headland 210 m, 1.9 NM SE of Islet turn")
    d = index_object(passage, 1, 3, "D", "rock 14 m, 0.9 NM N of the track")
    wheel0 = wheel_over_of(passage, 0, c, b)
    wheel1 = wheel_over_of(passage, 1, None, d)
    end0 = wheel0.along_m / NM_M
    end1 = wheel1.along_m / NM_M
    nlt = Limit.NOT_LESS_THAN
    lines0: tuple[IndexLine, ...] = (
        index_line(passage, 0, Role.PRIMARY, a, from_nm=0.0, to_nm=5.25),
        index_line(passage, 0, Role.PRIMARY, b, from_nm=2.64, to_nm=end0),
        index_line(passage, 0, Role.MARGIN, a, from_nm=0.0, to_nm=5.25, limit=nlt, limit_nm=0.9),
        index_line(passage, 0, Role.MARGIN, b, from_nm=2.64, to_nm=end0, limit=nlt, limit_nm=0.7),
    )
    if wheel0.line is not None:
        lines0 = (*lines0, wheel0.line)
    lines1 = (
        index_line(passage, 1, Role.PRIMARY, c, from_nm=0.6, to_nm=4.4),
        index_line(passage, 1, Role.CHECK, d, from_nm=1.6, to_nm=4.9),
    )
    findings = (
        Finding(
            severity=Severity.MUST_FIX,
            code="gap-hides-object",
            what="heights are missing in a block 1.6 NM to starboard; land there may hide or be "
            "an index object",
            where=Where(leg_number=3),
            todo="Add elevation data for this area or plan the leg without it",
        ),
        Finding(
            severity=Severity.CHECK,
            code="no-index",
            what="nothing fixed is in sight that an index line can be laid on",
            where=Where(leg_number=3),
            todo="Choose another method of monitoring the track",
        ),
        Finding(
            severity=Severity.NOTE,
            code="confirm-on-chart",
            what="objects A, C and D come from elevation and coast data alone",
            todo="Confirm each on the chart before use",
        ),
    )
    legs: tuple[LegPlan, ...] = (
        _leg_plan(
            passage,
            0,
            coverage,
            lines0,
            wheel_over=wheel0,
            wheel_over_reason="",
            hand_overs=(
                HandOver(
                    from_object="A",
                    to_object="B",
                    from_along_m=m_from_nm(2.64),
                    to_along_m=m_from_nm(5.25),
                    minutes=13.0,
                    fallback="C",
                ),
            ),
            first_sights=(
                first_sight(passage, 0, a, 0.0, 5.9),
                first_sight(passage, 0, b, 1.5, None),
                first_sight(passage, 0, c, 0.0, None),
            ),
        ),
        _leg_plan(
            passage,
            1,
            coverage,
            lines1,
            wheel_over=wheel1,
            wheel_over_reason="",
            index_gaps=(
                IndexGap(
                    from_along_m=0.0,
                    to_along_m=m_from_nm(0.6),
                    minutes=3.0,
                    substitute="range and bearing of B",
                ),
                IndexGap(
                    from_along_m=m_from_nm(4.9),
                    to_along_m=m_from_nm(end1),
                    minutes=(end1 - 4.9) * 5.0,
                    substitute="range and bearing of D",
                ),
            ),
            first_sights=(first_sight(passage, 1, d, 0.4, None),),
        ),
        _leg_plan(
            passage,
            2,
            coverage,
            (),
            no_index_reason="no fixed object is in sight within the planned screen",
            quality=Quality(grade="poor", reasons=("heights missing within 12 NM",)),
            index_gaps=(
                IndexGap(
                    from_along_m=0.0,
                    to_along_m=passage.line(2).length_m,
                    minutes=35.0,
                    substitute="position fixes by other means",
                ),
            ),
            scales=(scale_stretch(passage.line(2).length_m, 12.0, "look-out"),),
        ),
    )
    ship = Ship(
        name="Invented Trader",
        length_m=180.0,
        beam_m=28.0,
        draught_forward_m=8.8,
        draught_aft_m=9.2,
        turn_radius_m=m_from_nm(0.8),
        response_distance_m=m_from_nm(0.1),
        radars=(Radar(name="Main radar", band=Band.X, antenna_above_water_m=ANTENNA_M),),
        invented=True,
    )
    legs = tuple(
        with_sample_setup(
            leg,
            passage.line(leg.leg_index),
            ship,
            sample_echoes(passage.line(0)) if leg.leg_index == 0 else None,
        )
        for leg in legs
    )
    starts = np.cumsum([0.0, *(n * NM_M / SPEED_MPS for n in LENGTHS_NM[:-1])])
    start = datetime(2026, 3, 14, 5, 0, tzinfo=UTC)
    request = Request(
        passage=passage,
        ship=ship,
        land_paths=(),
        environment=Environment(tide_m=3.2, mean_sea_level_m=3.0, radius_m=m_from_nm(12.0)),
        start_utc=start,
        marks=(
            Mark(
                name="B",
                position=b.position,
                height_above_water_m=6.0,
                is_fixed=True,
                kind="breakwater end",
                is_on_chart=True,
            ),
        ),
        inputs=(
            InputFile(role="route", name="invented_sound.rtz", sha256="3d" * 32),
            InputFile(role="ship", name="invented_trader.toml", sha256="4c" * 32),
            InputFile(role="elevation", name="invented_heights.tif", sha256="1f" * 32),
            InputFile(role="coast", name="invented_coast.geojson", sha256="2e" * 32),
            InputFile(role="marks", name="invented_marks.csv", sha256="5b" * 32),
        ),
    )
    return Outcome(
        request=request,
        digest="7a3e" * 16,
        land=land,
        coverage=coverage,
        plan=Plan(
            passage=passage,
            timetable=Timetable(
                start_utc=start,
                leg_start_s=tuple(float(s) for s in starts),
                leg_speed_mps=(SPEED_MPS,) * 3,
            ),
            legs=legs,
            objects=(a, b, c, d),
            findings=findings,
        ),
        findings=findings,
        timings=Timings(land_s=0.1, coverage_s=0.4, plan_s=0.1, total_s=0.6),
        created_utc="2026-03-13T18:20:00Z",
    )
