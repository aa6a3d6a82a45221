"""First paint in words: rounding, bands, radars."""

from dataclasses import replace

import pytest

from core.base.units import m_from_nm
from core.coverage.coverage_result import Moment
from core.coverage.first_paint_result import (
    FirstPaint,
    MustNotPaint,
    PaintedStretch,
    PaintLimit,
    RadarPaint,
    WhatIf,
    WhatIfKind,
)
from core.geodesy.position import Position
from core.radar.echo_budget import Conditions
from core.words.leg_facts import leg_facts
from core.words.paint_words import (
    Stand,
    band_words,
    limit_when,
    limits_words,
    must_not_words,
    radar_words,
    sightings,
)
from tests.helpers.sample_outcome import sample_outcome

_NEVER = PaintLimit(moment=None, reason="never in sight on this leg: hidden by land")
_START = PaintLimit(
    moment=None, reason="paints from the start of the passage on", is_from_start=True
)


def _at(along_nm: float, range_nm: float = 20.0) -> PaintLimit:
    return PaintLimit(
        moment=Moment(along_m=m_from_nm(along_nm), range_m=m_from_nm(range_nm), bearing_deg=71.0)
    )


def _paint(**changes: object) -> FirstPaint:
    by = _at(3.01, 19.0)
    assert by.moment is not None
    paint = FirstPaint(
        object_id="A",
        name="invented head 40 m high",
        position=Position(lat_deg=47.0, lon_deg=-31.0),
        height_above_water_m=40.0,
        earliest_possible=_at(0.5, 24.0),
        normally_from=_at(2.0, 21.0),
        normally_by=by,
        corridor_by=by,
        overdue=_at(6.01, 14.0),
        stretches=(PaintedStretch(begins=by.moment, ends=by.moment, lasts=True, lost_to=""),),
        what_if=(),
        by_radar=(
            RadarPaint(radar="X band, mast", band="X", limit=by, stretches=()),
            RadarPaint(radar="S band, mast", band="S", limit=_at(4.0, 17.0), stretches=()),
        ),
    )
    return replace(paint, **changes)  # type: ignore[arg-type] # fields by name


def test_first_moments_are_rounded_down_and_what_is_due_up() -> None:
    # job.md T6b: 0717 is 76.8 min rounded up, 0647 is 47.4 min rounded down
    timetable = sample_outcome().plan.timetable
    early = limit_when(timetable, 0, _at(3.01))
    late = limit_when(timetable, 0, _at(3.01), is_late=True)
    assert int(late) - int(early) == 1
    assert limit_when(timetable, 0, _START) == "start"
    assert limit_when(timetable, 0, _NEVER) == "–"


def test_a_revision_says_start_where_the_sheets_do() -> None:
    outcome = sample_outcome()
    legs = outcome.plan.legs
    leg = replace(legs[0], first_paints=(_paint(normally_by=_START), _paint(object_id="B")))
    outcome = replace(outcome, plan=replace(outcome.plan, legs=(leg, *legs[1:])))
    said = dict(leg_facts(outcome, 0).items)
    assert said["first paint A"].startswith("by start, overdue ")
    assert said["first paint B"].startswith("by 0516 19.0 NM, overdue ")


def test_overdue_stands_last_and_nothing_is_said_of_limits_that_are_not_there() -> None:
    timetable = sample_outcome().plan.timetable
    said = limits_words(_paint(), timetable, 0)
    assert [words.split()[0] for words in said] == ["possible", "from", "OVERDUE"]
    bare = _paint(earliest_possible=_START, normally_from=_START, overdue=_NEVER)
    assert limits_words(bare, timetable, 0) == ()


def test_a_corridor_that_makes_a_difference_is_told() -> None:
    timetable = sample_outcome().plan.timetable
    assert any("corridor by" in w for w in limits_words(_paint(corridor_by=_at(5.0)), timetable, 0))
    nowhere = limits_words(_paint(corridor_by=_NEVER), timetable, 0)
    assert "not from all over the corridor" in nowhere


def _if(kind: WhatIfKind, limit: PaintLimit) -> WhatIf:
    return WhatIf(kind=kind, conditions=Conditions(), limit=limit)


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        ((_at(1.0, 25.0), _at(5.0, 15.0)), "25.0–15.0 NM"),
        ((_at(5.0, 15.0), _NEVER), "19.0–15.0 NM, or not at all"),
        ((_START, _at(5.0, 15.0)), "start–15.0 NM"),
        ((), "19.0 NM"),
        ((_at(3.0, 19.01),), "19.0 NM"),
    ],
)
def test_other_weather_is_told_as_a_span(limits: tuple[PaintLimit, ...], words: str) -> None:
    # job.md B5: results given as a range, never one number where they differ
    what_if = tuple(_if(WhatIfKind.RAIN, limit) for limit in limits)
    other = (_if(WhatIfKind.SEA, _at(9.0, 3.0)),)
    assert band_words(_paint(what_if=what_if + other), WhatIfKind.RAIN) == words


def test_an_object_that_never_paints_may_not_paint() -> None:
    paint = _paint(normally_by=_NEVER, what_if=(_if(WhatIfKind.SEA, _NEVER),))
    assert band_words(paint, WhatIfKind.SEA) == "may not paint"


def test_both_one_or_none_of_the_radars() -> None:
    # job.md B3: seen by both, by one, by none
    assert radar_words(_paint()) == "X 19.0 NM, S 17.0 NM"
    x, s = _paint().by_radar
    assert radar_words(_paint(by_radar=(replace(x, limit=_NEVER), s))) == "S 17.0 NM only"
    both = (replace(x, limit=_NEVER), replace(s, limit=_NEVER))
    assert radar_words(_paint(by_radar=both)) == "none"
    twins = (x, replace(s, band="X"))
    assert radar_words(_paint(by_radar=twins)) == "X band, mast 19.0 NM, S band, mast 17.0 NM"


def test_paint_goes_before_sight_and_stands_by_what_is_expected() -> None:
    leg = sample_outcome().plan.legs[0]
    sight = leg.first_sights[0]
    paint = _paint(object_id=sight.object_id)
    (first, *_rest) = sightings(replace(leg, first_paints=(paint,)))
    assert (first.stand, first.moment) == (Stand.COMES, paint.normally_by.moment)
    for by, stand in (
        (_START, Stand.FROM_START),
        (_NEVER, Stand.NEVER),
        (replace(_NEVER, reason="not known to come in sight"), Stand.UNKNOWN),
    ):
        changed = replace(leg, first_paints=(replace(paint, normally_by=by),))
        assert sightings(changed)[0].stand is stand


def test_what_must_not_paint_says_when_where_and_why() -> None:
    begins, ends = _at(1.0, 8.0).moment, _at(2.0, 7.0).moment
    assert begins is not None
    assert ends is not None
    item = MustNotPaint(
        object_id="B",
        name="B",
        position=Position(lat_deg=50.0, lon_deg=-4.0),
        begins=begins,
        ends=ends,
        masked_by="land 84 m high, 2.1 NM off",
    )
    words = must_not_words(item, sample_outcome().plan.timetable, 0)
    assert "8.00–7.00 NM" in words
    assert "071" in words
    assert words.endswith("land 84 m high, 2.1 NM off")
