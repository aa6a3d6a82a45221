"""The set-up card: every control, set for the leg and the weather, with its reason.

What is called common practice here has no published source; the settings follow the trade notes
(pulse short to index and long for landfall, interference rejection off for racons, echo stretch
off to index and on to find, relative trails).
"""

from dataclasses import replace

import pytest

from core.base.units import m_from_nm
from core.plan import setup_codes as codes
from core.plan.leg_setup import without_racons
from core.plan.plan_result import LegPlan, ScaleStretch
from core.plan.rules import DEFAULT_RULES, Weather
from core.plan.setup_card import setup_card
from core.plan.setup_lines import numbered
from core.plan.setup_result import Control, SetupCard, SetupRow
from core.ship.ship import Band, Pulse, Radar, Ship
from core.words.reasons import sentence
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import SHIP, covered, mark, planned
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_setup import sample_echoes

CALM = Weather(sea_state=0.0, rain_mm_h=0.0)
X_ONLY = replace(SHIP, radars=SHIP.radars[:1])


def card_of(
    leg: LegPlan,
    *,
    ship: Ship = SHIP,
    weather: Weather = CALM,
    racons: frozenset[str] = frozenset(),
) -> SetupCard:
    leg = replace(leg, scales=tuple(_renamed(one, ship) for one in leg.scales))
    return setup_card(leg, ship, weather=weather, racons=racons, rules=DEFAULT_RULES)


def _renamed(stretch: ScaleStretch, ship: Ship) -> ScaleStretch:
    return replace(stretch, radar=ship.radars[0].name)


def rows(card: SetupCard, control: Control) -> list[SetupRow]:
    return [row for row in card.rows if row.control is control]


def row(card: SetupCard, control: Control) -> SetupRow:
    (only,) = rows(card, control)
    return only


def leg_plan(number: int = 1) -> LegPlan:
    return sample_outcome().plan.legs[number - 1]


def test_every_leg_has_every_control_with_words_for_setting_and_reason() -> None:
    for leg in sample_outcome().plan.legs:
        card = leg.setup
        assert card is not None
        found = {one.control for one in card.rows}
        assert found == set(Control) - {Control.SECOND_RADAR}  # the sample ship has one radar
        for one in card.rows:
            assert sentence(one.setting)
            assert sentence(one.reason)
            assert 0.0 <= one.from_along_m <= one.to_along_m <= leg.distance_m


@pytest.mark.parametrize(
    ("sea_state", "rain_mm_h", "band", "code"),
    [
        (0.0, 0.0, Band.X, codes.WHY_X_IN_FAIR_WEATHER),
        (4.0, 3.9, Band.X, codes.WHY_X_IN_FAIR_WEATHER),
        (0.0, 4.0, Band.S, codes.WHY_S_IN_RAIN),
        (5.0, 0.0, Band.S, codes.WHY_S_IN_SEA),
        (6.0, 16.0, Band.S, codes.WHY_S_IN_RAIN),
    ],
)
def test_rain_and_heavy_sea_favour_s_band(
    sea_state: float, rain_mm_h: float, band: Band, code: str
) -> None:
    # Common practice, no source; the figures are those of PlanRules.
    card = card_of(leg_plan(), weather=Weather(sea_state=sea_state, rain_mm_h=rain_mm_h))
    assert card.band is band
    assert row(card, Control.RADAR).reason.code == code
    if band is Band.S:
        assert card.radar == "second"
        assert ("planned", "main") in row(card, Control.RADAR).reason.values


def test_without_an_s_band_the_card_says_so() -> None:
    storm = Weather(sea_state=6.0, rain_mm_h=16.0)
    card = card_of(leg_plan(), ship=X_ONLY, weather=storm)
    assert card.band is Band.X
    assert row(card, Control.RADAR).reason.code == codes.WHY_X_IN_WEATHER
    fair = card_of(leg_plan(), ship=X_ONLY)
    assert row(fair, Control.RADAR).reason.code == codes.WHY_ONLY_RADAR


def test_an_s_band_main_radar_stays_in_any_weather() -> None:
    turned = replace(SHIP, radars=SHIP.radars[::-1])
    for weather, code in (
        (CALM, codes.WHY_MAIN_RADAR),
        (Weather(sea_state=6.0, rain_mm_h=0.0), codes.WHY_S_ALREADY),
    ):
        card = card_of(leg_plan(), ship=turned, weather=weather)
        assert card.band is Band.S
        assert row(card, Control.RADAR).reason.code == code


def test_scales_keep_their_own_reasons_and_stretches() -> None:
    leg = leg_plan()
    first = leg.scales[0]
    two = (
        replace(first, to_along_m=4000.0),
        replace(first, from_along_m=4000.0, scale_m=m_from_nm(6.0), pulse="medium"),
    )
    card = card_of(replace(leg, scales=two))
    found = rows(card, Control.SCALE)
    scales_m = [dict(one.setting.values)["scale_m"] for one in found]
    assert scales_m == [m_from_nm(3.0), m_from_nm(6.0)]
    assert [one.reason for one in found] == [one.reason for one in two]
    assert [one.from_along_m for one in rows(card, Control.PULSE)] == [0.0, 4000.0]
    # Centred all along is said once.
    assert len(rows(card, Control.OFF_CENTRE)) == 1
    assert row(card, Control.OFF_CENTRE).to_along_m == two[1].to_along_m


@pytest.mark.parametrize(
    ("scale_nm", "pulse", "code"),
    [
        (3.0, "short", codes.WHY_PULSE_SHORT),
        (6.0, "medium", codes.WHY_PULSE_MIDDLE),
        (24.0, "long", codes.WHY_PULSE_LONG),
    ],
)
def test_pulse_is_short_to_index_and_long_to_find_land(
    scale_nm: float, pulse: str, code: str
) -> None:
    # Common practice, no source (trade notes 6.4.3).
    leg = leg_plan()
    scales = (replace(leg.scales[0], scale_m=m_from_nm(scale_nm), pulse=pulse),)
    found = row(card_of(replace(leg, scales=scales)), Control.PULSE)
    assert found.reason.code == code
    assert found.is_common_practice


def test_the_depth_of_the_pulse_is_that_of_the_ships_own() -> None:
    # c tau / 2 of 0.5 us: 74.95 m (by hand, c = 299 792 458 m/s).
    own = Pulse(name="mine", length_s=0.5e-6)
    radar = replace(SHIP.radars[0], pulses=(own,))
    leg = leg_plan()
    scales = (replace(leg.scales[0], pulse="mine"),)
    card = card_of(replace(leg, scales=scales), ship=replace(SHIP, radars=(radar,)))
    depth = dict(row(card, Control.PULSE).reason.values)["depth_m"]
    assert depth == pytest.approx(74.948, abs=0.001)


def test_interference_rejection_is_off_only_for_a_racon_in_use() -> None:
    leg = leg_plan()
    used = leg.lines[0].object.id
    assert row(card_of(leg), Control.INTERFERENCE).setting.code == codes.SET_ON
    elsewhere = card_of(leg, racons=frozenset({"Far Rock"}))
    assert row(elsewhere, Control.INTERFERENCE).setting.code == codes.SET_ON
    off = row(card_of(leg, racons=frozenset({used})), Control.INTERFERENCE)
    assert off.setting.code == codes.SET_OFF
    assert off.reason.values == (("object", used),)
    on_s = card_of(leg, racons=frozenset({used}), weather=Weather(sea_state=6.0, rain_mm_h=0.0))
    assert row(on_s, Control.INTERFERENCE).reason.code == codes.WHY_RACON_ON_S


def test_a_racon_that_is_the_second_mark_counts_too() -> None:
    leg = leg_plan()
    assert leg.wheel_over is not None
    assert leg.wheel_over.second_mark is not None
    second = leg.wheel_over.second_mark.object.id
    bare = replace(leg, lines=())
    off = card_of(bare, racons=frozenset({second}))
    assert row(off, Control.INTERFERENCE).setting.code == codes.SET_OFF


def test_echo_stretch_is_on_only_to_find_land_with_nothing_to_index() -> None:
    leg = leg_plan()
    assert row(card_of(leg), Control.STRETCH).setting.code == codes.SET_OFF
    assert any(sight.in_sight_from is not None for sight in leg.first_sights)
    landfall = replace(leg, lines=())
    assert row(card_of(landfall), Control.STRETCH).setting.code == codes.SET_ON
    nothing = replace(leg, lines=(), first_sights=())
    assert row(card_of(nothing), Control.STRETCH).setting.code == codes.SET_OFF


@pytest.mark.parametrize(
    ("sea_state", "setting", "why"),
    [
        (0.0, codes.SET_SEA_OFF, codes.WHY_SEA_OFF),
        (2.0, codes.SET_SEA_LOW, codes.WHY_SEA),
        (3.0, codes.SET_SEA_NEEDED, codes.WHY_SEA),
        (4.0, codes.SET_SEA_NEEDED, codes.WHY_SEA_HEAVY),
    ],
)
def test_sea_clutter_follows_the_sea(sea_state: float, setting: str, why: str) -> None:
    found = row(
        card_of(leg_plan(), weather=Weather(sea_state=sea_state, rain_mm_h=0.0)),
        Control.SEA_CLUTTER,
    )
    assert (found.setting.code, found.reason.code) == (setting, why)


def test_rain_clutter_is_off_without_rain() -> None:
    assert row(card_of(leg_plan()), Control.RAIN_CLUTTER).setting.code == codes.SET_RAIN_OFF
    wet = card_of(leg_plan(), weather=Weather(sea_state=0.0, rain_mm_h=1.0))
    assert row(wet, Control.RAIN_CLUTTER).setting.code == codes.SET_RAIN_NEEDED


def test_trails_are_relative_and_longer_on_long_scales() -> None:
    short = row(card_of(leg_plan()), Control.TRAILS)
    assert short.setting.values == (("trail_minutes", 3.0),)
    leg = leg_plan(3)  # 12 NM scale, nothing to index
    long = row(card_of(leg), Control.TRAILS)
    assert long.setting.values == (("trail_minutes", 6.0),)
    assert long.reason.code == codes.WHY_TRAILS_WATCH


def test_ebl_and_vrm_are_on_the_second_mark_or_the_card_says_why_not() -> None:
    leg = leg_plan()
    assert leg.wheel_over is not None
    mark = leg.wheel_over.second_mark
    assert mark is not None
    found = row(card_of(leg), Control.EBL_VRM)
    assert dict(found.setting.values) == {
        "mark_range_m": mark.range_m,
        "mark_bearing_deg": mark.bearing_deg,
    }
    last = row(card_of(leg_plan(3)), Control.EBL_VRM)
    assert last.setting.code == codes.SET_NONE
    assert sentence(last.reason) == leg_plan(3).wheel_over_reason


def test_every_line_of_the_leg_is_on_the_card_with_its_range() -> None:
    leg = leg_plan()
    found = rows(card_of(leg), Control.INDEX_LINE)
    assert len(found) == len(leg.lines)
    for line in leg.lines:
        values = [dict(one.setting.values) for one in found if one.reason == line.reason]
        assert any(
            one["object"] == line.object.id
            and one["cross_index_range_m"] == line.cross_index_range_m
            for one in values
        )
    none = rows(card_of(leg_plan(3)), Control.INDEX_LINE)
    assert [sentence(one.reason) for one in none] == [leg_plan(3).no_index_reason]


def test_a_number_is_used_again_only_once_its_line_is_done() -> None:
    line = leg_plan().lines[0]
    spans = ((0.0, 100.0), (50.0, 200.0), (100.0, 300.0), (150.0, 160.0), (200.0, 300.0))
    found = numbered(tuple(replace(line, from_along_m=a, to_along_m=b) for a, b in spans))
    numbers = {(one.from_along_m, one.to_along_m): number for one, number in found}
    assert [numbers[span] for span in spans] == [1, 2, 1, 3, 2]


def test_the_second_radar_scans_on_its_own_scale_and_the_radars_change_places_in_rain() -> None:
    leg = leg_plan()
    second = replace(leg.scales[0], radar="second", scale_m=m_from_nm(6.0))
    both = replace(leg, scales=(replace(leg.scales[0], radar="main"), second))
    for weather, other in ((CALM, "second"), (Weather(sea_state=0.0, rain_mm_h=8.0), "main")):
        card = setup_card(both, SHIP, weather=weather, racons=frozenset(), rules=DEFAULT_RULES)
        values = dict(row(card, Control.SECOND_RADAR).setting.values)
        assert values["radar"] == other
        assert values["scale_m"] == m_from_nm(6.0)
        assert len(rows(card, Control.SCALE)) == 1


def test_a_radar_without_the_scale_takes_the_next_longer() -> None:
    s_band = Radar(
        name="second",
        band=Band.S,
        antenna_above_water_m=27.0,
        range_scales_m=(m_from_nm(1.5), m_from_nm(4.0), m_from_nm(8.0)),
    )
    ship = replace(SHIP, radars=(SHIP.radars[0], s_band))
    card = card_of(leg_plan(), ship=ship, weather=Weather(sea_state=0.0, rain_mm_h=8.0))
    scale_m = dict(row(card, Control.SCALE).setting.values)["scale_m"]
    assert scale_m == m_from_nm(4.0)


def test_a_planned_leg_has_its_card_and_knows_its_racons() -> None:
    passage = track((0.0, -4.0 * NM), (0.0, 4.0 * NM))
    land = flat_sea().land(islet(-2.0 * NM, 0.0), 20.0).model()
    coverage = covered(land, passage)
    settings = {}
    for kind in ("Racon beacon", "beacon"):
        beacon = mark("Invented Reef", 1.0 * NM, 0.0, kind=kind)
        leg = planned(land, passage, coverage, marks=(beacon,)).legs[0]
        assert leg.lines[0].object.id == "Invented Reef"
        assert leg.setup is not None
        settings[kind] = row(leg.setup, Control.INTERFERENCE).setting.code
        # Until echoes are worked out the leg says why it has no tune check.
        assert leg.tune_check is None
        assert leg.tune_check_reason is not None
        assert leg.tune_check_reason.code == codes.TUNE_NOT_WORKED_OUT
    assert settings == {"Racon beacon": codes.SET_OFF, "beacon": codes.SET_ON}


def test_a_racon_is_no_echo_of_the_tune_check() -> None:
    # It answers more strongly than it echoes (common practice, no source).
    passage = sample_outcome().plan.passage
    echoes = sample_echoes(passage.line(0))
    left = without_racons(echoes, frozenset({"B"}))
    assert left is not None
    assert [echo.object_id for echo in left] == ["A", "D", "E"]
    assert without_racons(None, frozenset({"B"})) is None
