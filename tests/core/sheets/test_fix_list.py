"""Scales and radar fixes on the sheets."""

from core.plan.fix_result import LegFixes
from core.sheets.fix_list import fix_groups, fix_section, shown_fixes
from tests.helpers.sample_fixes import fixes_over
from tests.helpers.sample_outcome import sample_outcome


def test_every_leg_has_its_scales_then_its_fixes_then_its_worst_stretch() -> None:
    outcome = sample_outcome()
    for leg, group in zip(outcome.plan.legs, fix_groups(outcome), strict=True):
        kinds = [row.reference for row in group.rows]
        counts = len(leg.scales), kinds.count("fix"), kinds.count("check")
        assert kinds == ["scale"] * counts[0] + ["fix"] * counts[1] + ["check"] * counts[2]
        assert all(counts)
        words = " ".join(cell.text for row in group.rows for cell in row.cells)
        assert "WIDER THAN THE CORRIDOR" in words
        assert "nothing to index" in words


def test_places_without_a_fix_stand_in_one_row() -> None:
    outcome = sample_outcome()
    rows = [row for row in fix_groups(outcome)[0].rows if row.reference == "fix"]
    none = [row for row in rows if row.cells and row.cells[2].text == "no radar fix"]
    assert len(none) == 1
    assert "–" in none[0].cells[1].text
    assert [row.cells[-1].is_blank_box for row in rows] == [False, True, True, True, False]


def test_the_leg_sheet_says_in_one_line_how_good_fixes_are() -> None:
    section = fix_section(sample_outcome().plan.legs[0], where="page 9")
    assert section.title.startswith("Radar fix at 3 of 5, ± ")
    assert section.is_pointer


def test_a_long_leg_shows_the_fixes_where_objects_change() -> None:
    one = fixes_over(10_000.0, 370.4)
    same = LegFixes(
        interval_s=360.0,
        fixes=one.fixes[-1:] * 40 + one.fixes[2:3] * 40,
        worst_m=one.worst_m,
        corridor_m=one.corridor_m,
        worst_cross=None,
    )
    shown = shown_fixes(same)
    assert len(shown) == 3
    assert shown_fixes(one) == one.fixes
