from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from PySide6.QtWidgets import QDialogButtonBox, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from app.window.choice_dialog import ChoiceDialog
from app.window.conditions_dialog import ConditionsDialog, parse_number, parse_time
from core.base.units import m_from_nm, mps_from_kn
from core.files.project import Options
from core.plan.plan_result import IndexLine, LegPlan, Override, Role
from tests.helpers.sample_outcome import sample_outcome

_FULL = Options(
    tide_m=3.2,
    mean_sea_level_m=3.0,
    refraction_k=4 / 3,
    radius_m=m_from_nm(24.0),
    craft_height_m=5.0,
    height_error_m=5.0,
    start_utc=datetime(2026, 3, 14, 5, 0, tzinfo=UTC),
    speed_mps=mps_from_kn(12.5),
    antenna_height_m=25.0,
    corridor_m=m_from_nm(0.25),
    coast_height_m=20.0,
    sea_state=2.0,
    rain_mm_h=4.0,
    traffic_speed_mps=mps_from_kn(20.0),
    decision_time_s=720.0,
    fix_interval_s=180.0,
    set_deg=45.0,
    drift_mps=mps_from_kn(1.5),
    leeway_port_deg=4.0,
    leeway_starboard_deg=4.0,
    pass_off_m=m_from_nm(0.1),
    overlap_s=300.0,
)


def _ok(dialog: ConditionsDialog) -> None:
    buttons = dialog.findChildren(QDialogButtonBox)[0]
    buttons.button(QDialogButtonBox.StandardButton.Ok).click()


def _trouble(dialog: ConditionsDialog) -> str:
    return dialog.findChildren(QLabel, "trouble")[0].text()


def _edit(dialog: ConditionsDialog, name: str) -> QLineEdit:
    return dialog.findChildren(QLineEdit, name)[0]


@pytest.fixture
def full(qapp: object) -> Iterator[ConditionsDialog]:
    made = ConditionsDialog(_FULL)
    yield made
    made.close()
    made.deleteLater()


def test_conditions_left_alone_stay_exactly_the_same(full: ConditionsDialog) -> None:
    _ok(full)
    assert full.options == _FULL


def test_an_emptied_field_leaves_the_value_to_the_files(full: ConditionsDialog) -> None:
    for name in ("speed_mps", "tide_m", "mean_sea_level_m"):
        _edit(full, name).clear()
    _ok(full)
    assert full.options.speed_mps is None
    assert full.options.tide_m is None
    assert full.options.antenna_height_m == 25.0


def test_a_set_without_a_drift_is_refused(full: ConditionsDialog) -> None:
    _edit(full, "drift_mps").clear()
    _ok(full)
    assert _trouble(full) == "Set and drift go together: give both, or neither."


def test_nautical_units_are_taken_as_typed_comma_or_point(full: ConditionsDialog) -> None:
    _edit(full, "speed_mps").setText("14,5")
    _edit(full, "radius_m").setText("12")
    _ok(full)
    assert full.options.speed_mps == pytest.approx(14.5 * 1852 / 3600)
    assert full.options.radius_m == pytest.approx(12 * 1852)


def test_a_tide_without_mean_sea_level_is_refused_and_the_form_stays(
    qtbot: QtBot, full: ConditionsDialog
) -> None:
    full.show()
    _edit(full, "mean_sea_level_m").clear()
    _ok(full)
    assert full.isVisible()
    assert "give both" in _trouble(full)
    assert full.options == _FULL


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("refraction_k", "abc", "is not a number"),
        ("refraction_k", "nan", "is not between"),
        ("antenna_height_m", "0", "is not between 1 and 150"),
        ("radius_m", "1e9", "is not between 0.5 and 48"),
        ("speed_mps", "inf", "is not between"),
    ],
)
def test_what_no_officer_means_is_refused_in_one_sentence(
    full: ConditionsDialog, name: str, text: str, said: str
) -> None:
    _edit(full, name).setText(text)
    _ok(full)
    assert said in _trouble(full)


def test_numbers_and_times_as_officers_type_them() -> None:
    assert parse_number(" 1,25 ", "x", 0.0, 2.0) == 1.25
    assert parse_number("", "x", 0.0, 2.0) is None
    assert parse_time("2026-03-14 05:00") == datetime(2026, 3, 14, 5, 0, tzinfo=UTC)
    assert parse_time("2026-03-14T05:00Z") == datetime(2026, 3, 14, 5, 0, tzinfo=UTC)
    assert parse_time("2026-03-14 05:00+02:00") == datetime(2026, 3, 14, 3, 0, tzinfo=UTC)
    assert parse_time(" ") is None
    with pytest.raises(ValueError, match="is not a time"):
        parse_time("tomorrow")


def _line_on(leg: LegPlan, object_id: str) -> IndexLine:
    line = next(line for line in leg.lines if line.object.id == object_id)
    return replace(line, role=Role.PRIMARY)


@pytest.fixture
def choice(qapp: object) -> Iterator[ChoiceDialog]:
    leg = sample_outcome().plan.legs[0]
    held = Override(leg_number=1, role="check", object_id="B", is_locked=False, remark="seen")
    made = ChoiceDialog(leg, (held,), _line_on(leg, "B"))
    yield made
    made.close()
    made.deleteLater()


def test_the_object_of_the_line_is_offered_first(choice: ChoiceDialog) -> None:
    line = _line_on(sample_outcome().plan.legs[0], "B")
    assert choice.override == Override(
        leg_number=1,
        role="primary",
        object_id="B",
        is_locked=True,
        remark="",
        part_m=(line.from_along_m, line.to_along_m),
    )


def test_an_object_is_named_once_with_its_height(choice: ChoiceDialog) -> None:
    texts = [choice._objects.item(row).text() for row in range(choice._objects.count())]
    assert texts
    for text, (thing, _reason) in zip(texts, sample_outcome().plan.legs[0].candidates, strict=True):
        assert text.split(": ")[0].count(f"{thing.height_above_water_m:.0f} m") == 1


def test_an_earlier_choice_is_shown_as_it_was_made(qapp: object) -> None:
    leg = sample_outcome().plan.legs[0]
    held = Override(leg_number=1, role="primary", object_id="B", is_locked=False, remark="seen")
    dialog = ChoiceDialog(leg, (held,), _line_on(leg, "A"))
    assert dialog.override == held
    dialog.deleteLater()


def test_a_leg_without_candidates_offers_no_choice(qapp: object) -> None:
    dialog = ChoiceDialog(sample_outcome().plan.legs[2], (), None)
    assert dialog.override is None
    dialog.deleteLater()
