"""The pilot card: one side for nine legs, large letters, what a pilot asks of the ship."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.plan.outcome import Outcome
from core.plan.plan_result import Role
from core.sheets.page import Page
from core.sheets.pilot_card import LEAST_PT, lay_out_pilot_card, pilot_pages
from core.ship.ship import BlindSector, ShipPoint, TurnAtSpeed
from core.words import quantities
from core.words.pilot_words import ship_facts
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import cut_texts, off_page, overlaps, texts_of, words_of
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()


def _pages(outcome: Outcome) -> tuple[Page, ...]:
    layout = lay_out_pilot_card(outcome, _MEASURE)
    return pilot_pages(outcome, layout, first_number=1, page_count=9, measure=_MEASURE)


def _with_legs(count: int) -> Outcome:
    """The demo with as many legs as wanted, its own over and over."""
    outcome = demo_outcome()
    legs = outcome.plan.legs
    chosen = tuple(legs[n % len(legs)] for n in range(count))
    return replace(outcome, plan=replace(outcome.plan, legs=chosen))


def test_nine_legs_with_ship_and_radar_fit_on_one_side() -> None:
    # Capability B13: «fits one side with 9 legs; includes errors, blind sectors, PI, WO, turns».
    assert len(_pages(_with_legs(9))) == 1
    assert len(_pages(_with_legs(20))) > 1


def test_everything_of_the_card_can_be_read_on_a5() -> None:
    # A5 is A4 over root two; 9 pt there (trade note 9.2, common practice, no source).
    for page in _pages(_with_legs(13)):
        own = [text for text in texts_of(page.items) if 26.0 < text.y_mm < 240.0]
        assert own
        assert min(text.size_pt for text in own) >= LEAST_PT
        assert LEAST_PT / 2.0**0.5 >= 9.0
        assert overlaps(page.items, _MEASURE) == []
        assert off_page(page, _MEASURE) == []
        assert cut_texts(page.items) == []


def test_every_primary_line_margin_and_turn_stands_on_the_card() -> None:
    outcome = demo_outcome()
    words = words_of(*_pages(outcome))
    for leg in outcome.plan.legs:
        assert quantities.track(leg.course_deg).removesuffix(" T") in words
        for line in leg.lines:
            if line.role is Role.PRIMARY:
                number = quantities.index_number(line.cross_index_range_m, line.range_scale_m)
                assert number in words
            elif line.limit is not None:
                number = quantities.margin_number(
                    line.cross_index_range_m, line.limit, line.range_scale_m
                )
                assert any(f"{short} {number}" in words for short in ("NLT", "NMT"))
        if leg.wheel_over is not None:
            assert f"R {quantities.miles(leg.wheel_over.turn_radius_m, 2)}" in words


def test_a_pilot_finds_errors_sectors_reference_and_turns_or_a_line_to_write_on() -> None:
    outcome = sample_outcome()
    ship = outcome.request.ship
    radar = replace(
        ship.radars[0],
        blind_sectors=(BlindSector(from_relative_deg=175.4, to_relative_deg=184.2),),
        range_index_error_m=20.0,
        heading_marker_error_deg=-0.5,
        antenna_from_aft_perpendicular_m=18.0,
    )
    full = replace(
        ship,
        radars=(radar,),
        length_m=169.0,
        aft_marks_from_stern_m=6.0,
        conning=ShipPoint(from_stern_m=22.0),
        reference=ShipPoint(from_stern_m=22.0),
        turns=(TurnAtSpeed(speed_mps=m_from_nm(12.0) / 3600.0, radius_m=m_from_nm(0.8)),),
        gyro_error_deg=1.0,
    )
    said = " ".join(ship_facts(replace(outcome, request=replace(outcome.request, ship=full))))
    # T9: 0.8 NM at 12 kn is 14.3 deg/min (job.md, computed by hand); 169 - 6 - 18 = 145 m.
    for words in (
        "R 0.80 NM 14°/min",
        "145 m to bow",
        "2 m ahead of bridge",
        "blind 175–185 rel",
        "20 m",
        "-0.5°",
        "gyro error 1°",
        "147 m abaft the bow",
    ):
        assert words in said, words
    bare = replace(
        full,
        reference=None,
        radars=(replace(radar, blind_sectors=(), antenna_from_aft_perpendicular_m=None),),
    )
    said = " ".join(ship_facts(replace(outcome, request=replace(outcome.request, ship=bare))))
    assert "reference point ______" in said
    assert "blind ______ rel" in said
    assert "______ m to bow" in said
