"""Expected pictures at the tune checks of the demo: the check's own scale, pulse and echoes."""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from core.base.errors import Cancelled
from core.base.progress import Quiet
from core.jobs.check_pictures import check_pictures
from core.picture.display_chain import Paint
from core.picture.picture_view import Own
from core.plan.tune_result import Rung, TuneCheck
from core.sheets.check_picture import CheckPicture, is_none_beside_others
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.ringed_echoes import codes_round

_SIZE_PX = 400


@lru_cache(maxsize=1)
def _pictures() -> tuple[CheckPicture, ...]:
    return check_pictures(demo_outcome(), Quiet(), size_px=_SIZE_PX)


def _check(picture: CheckPicture) -> TuneCheck:
    check = demo_outcome().plan.legs[picture.leg_index].tune_check
    assert check is not None
    return check


def test_every_leg_with_a_check_has_a_picture_and_no_other() -> None:
    legs = [leg.leg_index for leg in demo_outcome().plan.legs if leg.tune_check is not None]
    assert len(legs) > 4
    assert [picture.leg_index for picture in _pictures()] == legs


def test_a_picture_is_on_the_scale_and_the_radar_of_its_check_with_the_long_pulse() -> None:
    outcome = demo_outcome()
    margins = outcome.coverage.budget
    assert margins is not None
    for picture in _pictures():
        check, leg = _check(picture), outcome.plan.legs[picture.leg_index]
        assert picture.frame.scale_m == check.scale_m
        assert picture.screen.shape == (_SIZE_PX, _SIZE_PX)
        assert not picture.screen.flags.writeable
        assert picture.heading_deg == picture.frame.up_deg
        assert picture.frame.up_deg == pytest.approx(leg.course_deg, abs=0.5)
        # Exactly what the margins of the four echoes were worked out for.
        assert picture.budget.radar == margins.radar
        assert picture.budget.radar.name == check.radar
        assert picture.budget.pulse == margins.radar.long_pulse == margins.pulse
        assert picture.budget.conditions == margins.conditions
        assert picture.budget.antenna_height_m == margins.antenna_height_m
        # The blind sector of the demo's main radar lies astern.
        assert picture.own[round(picture.own.size * ((picture.heading_deg + 180.0) % 360.0) / 360.0)
                           % picture.own.size] == Own.BLIND  # fmt: skip


def test_echoes_to_be_seen_are_inked_where_they_are_ringed_and_the_absent_one_is_not() -> None:
    looked_at = dict.fromkeys(Rung, 0)
    for picture in _pictures():
        for step in _check(picture).rungs:
            if step.echo is None:
                continue
            looked_at[step.rung] += 1
            if step.rung is Rung.ABSENT:
                # The middle half of the ring: things beside it may stand in its outer part.
                inner = codes_round(picture, step.echo, 0.25)
                assert inner.size > 5
                assert not np.any(inner >= Paint.UNCERTAIN), picture.leg_index + 1
                assert np.any(inner == Paint.SHADOW)
                inside = codes_round(picture, step.echo)
                others = bool(np.any(inside >= Paint.UNCERTAIN))
                assert is_none_beside_others(picture, _check(picture)) == others
                continue
            inside = codes_round(picture, step.echo)
            least = Paint.UNCERTAIN if step.rung is Rung.WEAK else Paint.PAINTED
            assert np.any(inside >= least), (picture.leg_index + 1, step.rung)
            if step.rung is Rung.STRONG:
                middle = codes_round(picture, step.echo, 0.3)
                assert np.any(middle == Paint.STRONG), picture.leg_index + 1
    assert min(looked_at.values()) >= 5


def test_the_same_outcome_gives_the_same_pixels() -> None:
    again = check_pictures(demo_outcome(), Quiet(), size_px=_SIZE_PX)
    for one, other in zip(_pictures(), again, strict=True):
        assert np.array_equal(one.screen, other.screen)


class _Stop:
    """Progress that stops at the third report."""

    def __init__(self) -> None:
        self.said: list[str] = []

    def report(self, fraction: float, text: str = "") -> None:
        assert 0.0 <= fraction <= 1.0
        self.said.append(text)
        if len(self.said) == 3:
            raise Cancelled


def test_progress_names_the_leg_and_a_stop_stops_at_once() -> None:
    progress = _Stop()
    with pytest.raises(Cancelled):
        check_pictures(demo_outcome(), progress, size_px=100)
    assert len(progress.said) == 3
    second = _pictures()[1].leg_index + 1
    assert progress.said[-1].endswith(f"leg {second}")


def test_without_any_check_there_is_no_picture() -> None:
    outcome = demo_outcome()
    legs = tuple(replace(leg, tune_check=None) for leg in outcome.plan.legs)
    bare = replace(outcome, plan=replace(outcome.plan, legs=legs))
    assert check_pictures(bare, Quiet()) == ()
