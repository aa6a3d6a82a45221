"""What a margin line must hold beside the danger (job note 2.5.3). Answers by hand."""

import pytest

from core.base.units import m_from_nm
from core.plan.margins import Allowances, limit_findings, margin_lines
from core.plan.plan_result import DangerLimit, Edge, IndexLine, IndexObject, ObjectKind
from core.plan.usable_window import EdgePoint
from core.words.reasons import sentence
from tests.helpers.islands import NM, place

LIMIT = DangerLimit(object_id="A", leg_number=1, least_m=0.80 * NM, most_m=None)
THING = IndexObject(
    id="A",
    name="A",
    position=place(NM, 0.0),
    edge=Edge.POSITION,
    kind=ObjectKind.ISLET,
    height_above_water_m=20.0,
    is_fixed=True,
    confirm_on_chart=False,
)


def edge(cross_nm: float) -> EdgePoint:
    return EdgePoint(
        position=place(cross_nm * NM, 0.0),
        edge=Edge.POSITION,
        along_m=2.0 * NM,
        cross_m=cross_nm * NM,
    )


def codes(
    cross_nm: float, *, corridor_nm: float, hull_nm: float, error_nm: float = 0.05
) -> list[str]:
    found = limit_findings(
        LIMIT,
        THING,
        edge(cross_nm),
        leg_number=1,
        corridor_m=m_from_nm(corridor_nm),
        error_m=m_from_nm(error_nm),
        hull_m=m_from_nm(hull_nm),
    )
    return [finding.code for finding in found]


def line(hull_nm: float) -> IndexLine:
    (found,) = margin_lines(
        LIMIT,
        THING,
        edge(1.2),
        window=(0.0, 4.0 * NM),
        course_deg=0.0,
        range_scale_m=3.0 * NM,
        error_m=m_from_nm(0.05),
        allowances=Allowances(hull_m=m_from_nm(hull_nm), response_m=m_from_nm(0.1)),
    )
    return found


def test_the_line_is_the_limit_and_tells_what_it_must_hold() -> None:
    assert line(0.02).cross_index_range_m == pytest.approx(0.80 * NM)
    assert sentence(line(0.02).reason) == (
        "your danger limit of 0.80 NM, which must hold: read error 0.05 NM, hull towards it "
        "0.02 NM, 0.10 NM run before she answers"
    )


@pytest.mark.parametrize(
    ("cross_nm", "corridor_nm", "hull_nm", "code"),
    [
        # 1.10 off, 0.30 of corridor: 0.80, just clear without the hull, 0.78 with it.
        (1.10, 0.29, 0.0, None),
        (1.10, 0.29, 0.02, "corridor-breaks-danger-limit"),
        # 0.06 between track and limit, read to 0.05: enough without the hull alone.
        (0.86, 0.0, 0.0, None),
        (0.86, 0.0, 0.02, "danger-limit-within-error"),
        (0.70, 0.0, 0.0, "track-breaks-danger-limit"),
    ],
)
def test_the_hull_counts_against_the_limit(
    cross_nm: float, corridor_nm: float, hull_nm: float, code: str | None
) -> None:
    found = codes(cross_nm, corridor_nm=corridor_nm, hull_nm=hull_nm)
    assert found == ([] if code is None else [code])
