"""Range scales: what forces them, and that they hold what they must."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.base.units import mps_from_kn
from core.plan.range_scales import plan_spans, settings_of, with_longer_end
from core.plan.rules import DEFAULT_RULES
from core.plan.scale_pulse import pulse_for
from core.plan.screen import Screen, closing_speed_mps, holds_look_out
from core.plan.usable_window import Setting
from core.ship.ship import Pulse
from tests.helpers.islands import NM
from tests.helpers.plans import KNOTS_12, SHIP


def centred(settings: tuple[Setting, ...]) -> tuple[Setting, ...]:
    return tuple(s for s in settings if s.screen.off_centre_ratio == 0.0)


def scales(speed_kn: float, corridor_nm: float = 0.5) -> list[tuple[float, float]]:
    return [
        (s.screen.scale_m / NM, s.screen.off_centre_ratio)
        for s in settings_of(
            SHIP,
            speed_mps=mps_from_kn(speed_kn),
            corridor_m=corridor_nm * NM,
            rules=DEFAULT_RULES,
        )
    ]


def test_twelve_knots_need_the_three_mile_scale() -> None:
    assert scales(12.0)[0] == (3.0, 0.0)


def test_off_centring_saves_a_scale_for_a_faster_ship() -> None:
    # 16 kn against 16 kn for 6 min is 3.2 NM: not on the centred 3 NM scale, but off-centred.
    assert scales(16.0)[0] == (3.0, 0.5)


def test_scales_that_cannot_watch_the_corridor_are_not_offered() -> None:
    # On 12 NM a range is read to 0.12 NM at best, on 6 NM to 0.06.
    assert sorted({s for s, _off in scales(12.0, 0.5)}) == [3.0, 6.0, 12.0]
    assert sorted({s for s, _off in scales(12.0, 0.1)}) == [3.0, 6.0]


def test_every_scale_is_offered_off_centred_before_the_next_longer_one() -> None:
    assert scales(12.0, 0.1) == [(3.0, 0.0), (3.0, 0.5), (6.0, 0.0), (6.0, 0.5)]


@given(st.floats(min_value=3.0, max_value=35.0))
def test_first_scale_holds_the_look_out_distance_on_every_bearing(speed_kn: float) -> None:
    first = settings_of(SHIP, speed_mps=mps_from_kn(speed_kn), corridor_m=NM, rules=DEFAULT_RULES)[
        0
    ]
    own, other = mps_from_kn(speed_kn), mps_from_kn(max(speed_kn, 15.0))
    for relative_deg in range(0, 360, 15):
        closing = closing_speed_mps(
            own_speed_mps=own, other_speed_mps=other, relative_bearing_deg=float(relative_deg)
        )
        assert closing * 360.0 <= first.screen.range_m(float(relative_deg)) + 0.01


def test_closing_speed_is_the_sum_ahead_and_the_difference_astern() -> None:
    # Plain geometry: head on both speeds add, astern only the faster one closes.
    assert closing_speed_mps(
        own_speed_mps=6.0, other_speed_mps=8.0, relative_bearing_deg=0.0
    ) == pytest.approx(14.0)
    assert closing_speed_mps(
        own_speed_mps=6.0, other_speed_mps=8.0, relative_bearing_deg=180.0
    ) == pytest.approx(2.0)
    assert closing_speed_mps(
        own_speed_mps=8.0, other_speed_mps=6.0, relative_bearing_deg=180.0
    ) == pytest.approx(0.0)


def test_a_screen_too_small_does_not_hold_the_look_out() -> None:
    assert not holds_look_out(
        Screen(scale_m=1.5 * NM),
        own_speed_mps=KNOTS_12,
        least_other_speed_mps=0.0,
        decision_time_s=360.0,
    )


SETTINGS = centred(settings_of(SHIP, speed_mps=KNOTS_12, corridor_m=0.5 * NM, rules=DEFAULT_RULES))


def spans(
    *coverage: tuple[tuple[float, float], ...], end: float = 20.0, least: int = 0
) -> list[tuple[float, float, float]]:
    found = plan_spans(
        SETTINGS,
        tuple(tuple((a * NM, b * NM) for a, b in parts) for parts in coverage),
        end_m=end * NM,
        least_index=least,
        speed_mps=KNOTS_12,
        rules=DEFAULT_RULES,
    )
    return [
        (
            round(s.from_along_m / NM, 3),
            round(s.to_along_m / NM, 3),
            round(s.setting.screen.scale_m / NM, 3),
        )
        for s in found
    ]


def test_shortest_scale_stays_where_it_covers_the_leg() -> None:
    assert spans(((0, 20),), ((0, 20),), ((0, 20),)) == [(0.0, 20.0, 3.0)]


def test_a_gap_goes_to_the_shortest_scale_that_fills_it_with_overlap_to_both_sides() -> None:
    # The overlap is 3 min at 12 kn, 0.6 NM.
    assert spans(((0, 8), (12, 20)), ((0, 20),), ((0, 20),)) == [
        (0.0, 7.4, 3.0),
        (7.4, 12.6, 6.0),
        (12.6, 20.0, 3.0),
    ]


def test_a_leg_does_not_begin_with_a_shorter_scale_for_a_few_minutes() -> None:
    # Land to index on comes on to the 6 NM scale 0.5 NM from the start: the hand-over of 0.6 NM
    # before it reaches the start; from 1.0 NM it would leave 2 min on 3 NM, from 2.0 NM 7 min.
    begins = [spans(((4, 20),), ((near, 20),), ((near, 20),))[0] for near in (0.5, 1.0, 2.0)]
    assert begins == [(0.0, 4.6, 6.0), (0.0, 4.6, 6.0), (0.0, 1.4, 3.0)]


def test_a_longer_base_where_it_covers_a_quarter_of_the_leg_more() -> None:
    assert spans(((0, 4),), ((0, 16),), ((0, 20),))[0] == (0.0, 15.4, 6.0)


def test_no_change_of_scale_in_the_last_five_minutes() -> None:
    for _start, stop, _scale in spans(((0, 18.9),), ((0, 20),), ((0, 20),))[:-1]:
        assert stop <= 20.0 - 1.0 + 1e-6


def test_what_the_officer_demands_forces_a_longer_scale() -> None:
    assert spans(((0, 20),), ((0, 20),), ((0, 20),), least=1) == [(0.0, 20.0, 6.0)]


def test_wheel_over_mark_forces_a_longer_scale_at_the_end_only() -> None:
    base = plan_spans(
        SETTINGS,
        (((0.0, 20.0 * NM),),) * 3,
        end_m=20.0 * NM,
        least_index=0,
        speed_mps=KNOTS_12,
        rules=DEFAULT_RULES,
    )
    longer = with_longer_end(
        base, SETTINGS[1], end_m=20.0 * NM, speed_mps=KNOTS_12, rules=DEFAULT_RULES
    )
    assert [s.setting.screen.scale_m / NM for s in longer] == pytest.approx([3.0, 6.0])
    assert longer[0].to_along_m == longer[1].from_along_m == pytest.approx(19.0 * NM)


edges = st.lists(st.tuples(st.integers(0, 19), st.integers(1, 6)), max_size=4)


@given(edges, edges, edges)
def test_spans_cover_the_leg_without_holes(
    one: list[tuple[int, int]], two: list[tuple[int, int]], three: list[tuple[int, int]]
) -> None:
    coverage = [
        tuple((float(a), float(min(a + n, 20))) for a, n in part) for part in (one, two, three)
    ]
    found = spans(*(tuple(sorted(part)) for part in coverage))
    assert found[0][0] == 0.0
    assert found[-1][1] == 20.0
    assert all(a[1] == b[0] for a, b in itertools.pairwise(found))
    assert all(start < stop for start, stop, _scale in found)


def test_pulses_are_the_radars_own_by_name() -> None:
    radar = replace(
        SHIP.radars[0],
        pulses=(
            Pulse(name="P1", length_s=0.07e-6, from_scale_m=0.25 * NM, to_scale_m=3.0 * NM),
            Pulse(name="P2", length_s=0.25e-6, from_scale_m=3.0 * NM, to_scale_m=12.0 * NM),
            Pulse(name="P3", length_s=0.8e-6, from_scale_m=12.0 * NM),
        ),
    )
    named = [pulse_for(radar, scale * NM) for scale in (1.5, 3.0, 6.0, 12.0, 24.0)]
    assert named == ["P1", "P1", "P2", "P3", "P3"]


def test_without_stated_pulses_they_go_by_the_scale() -> None:
    # Common practice, no source.
    named = [pulse_for(SHIP.radars[0], scale * NM) for scale in (3.0, 6.0, 24.0)]
    assert named == ["short", "medium", "long"]


def test_a_scale_is_shortened_in_steps() -> None:
    # Land ahead comes on to the 12 NM scale at 10, the 6 at 16.5 and the 3 at 18 of 24 NM; a
    # hand-over of 3 min is 0.6 NM.
    settings = centred(settings_of(SHIP, speed_mps=KNOTS_12, corridor_m=NM, rules=DEFAULT_RULES))
    covered = tuple(((start * NM, 24.0 * NM),) for start in (18.0, 16.5, 10.0))
    spans = plan_spans(
        settings,
        covered,
        end_m=24.0 * NM,
        least_index=0,
        speed_mps=KNOTS_12,
        rules=DEFAULT_RULES,
    )
    assert [s.setting.screen.scale_m / NM for s in spans] == [3.0, 12.0, 6.0, 3.0]
    assert [s.from_along_m / NM for s in spans] == pytest.approx([0.0, 9.4, 17.1, 18.6], abs=0.01)
