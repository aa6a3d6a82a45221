"""What the radar floor refuses outright, since no reader lets it through."""

import numpy as np
import pytest

from core.radar.bullington import Profile
from core.radar.installation import InstallationStandard, standard_in
from core.radar.knife_edge import LIT_NU, edge_loss_db
from core.radar.square_law import DetectionRule, required_snr_db


@pytest.mark.parametrize(("pd", "pfa"), [(0.5, 0.5), (1.0, 1e-4), (0.8, 0.0), (1e-5, 1e-4)])
def test_rules_no_threshold_can_keep(pd: float, pfa: float) -> None:
    with pytest.raises(ValueError, match="pfa"):
        DetectionRule(pd=pd, pfa=pfa)
    with pytest.raises(ValueError, match="pfa"):
        required_snr_db(pd, pfa, 1)


def test_less_than_one_pulse() -> None:
    with pytest.raises(ValueError, match="less than one"):
        required_snr_db(0.8, 1e-4, 0)


def test_a_profile_needs_three_points() -> None:
    with pytest.raises(ValueError, match="three points"):
        Profile(distance_m=np.array([0.0, 1.0]), ground_m=np.zeros(2))


def test_an_edge_well_below_the_line_takes_nothing() -> None:
    assert np.all(edge_loss_db(np.array([-5.0, -1.0, LIT_NU])) == 0.0)
    losses = edge_loss_db(np.linspace(-2.0, 5.0, 200))
    assert np.all(np.diff(losses) >= 0.0)


@pytest.mark.parametrize(
    ("text", "standard"),
    [
        ("type-tested to IMO MSC.192(79) (invented)", InstallationStandard.MSC_192),
        ("MSC 192", InstallationStandard.MSC_192),
        ("Resolution A.477(XII)", InstallationStandard.A_477),
        ("msc.64(67)", InstallationStandard.MSC_64),
        ("MSC.1921", None),
        ("", None),
    ],
)
def test_standard_in_the_words_of_a_certificate(
    text: str, standard: InstallationStandard | None
) -> None:
    assert standard_in(text) is standard
