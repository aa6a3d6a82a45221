"""What the officer's marks echo like, by the words of their kind."""

from dataclasses import replace

import numpy as np

from core.base.arrays import FloatArray
from core.plan.plan_result import Mark
from core.radar.echo_budget import EchoBudget
from core.radar.radar_target import TYPICAL_TARGETS, RadarTarget, TypicalTarget
from core.radar.square_law import DetectionRule, required_snr_db
from core.radar.target_echo import target_snr_db
from core.ship.ship import Band

_LIKE = (
    (("light tower", "lighthouse", "tower"), "light tower of masonry"),
    (("lanby", "superbuoy", "light vessel"), "large lighted buoy with reflector"),
    (("buoy",), "typical buoy"),
    (("spar", "perch", "withy"), "small plastic buoy, spar"),
)
_BEACON = "beacon, dolphin or steel pile"
"""Words of a mark's kind and what it echoes like; all else as a beacon. Common practice, no
source."""
_BY_NAME = {kind.name: kind for kind in TYPICAL_TARGETS}


def like_of(mark: Mark) -> TypicalTarget:
    """The typical target a mark echoes like, by the word of its kind."""
    kind = mark.kind.casefold()
    for words, name in _LIKE:
        if any(word in kind for word in words):
            return _BY_NAME[name]
    return _BY_NAME[_BEACON]


def radar_target_of(mark: Mark, band: Band) -> RadarTarget:
    """A mark at its own height, as weak as its kind can be."""
    height_m = max(mark.height_above_water_m, 0.1)
    return replace(like_of(mark).weakest(band), height_m=height_m)


def mark_margin_db(mark: Mark, budget: EchoBudget, range_m: FloatArray) -> FloatArray:
    """Echo of a mark over open sea beyond what detection needs, dB, at ranges (n,), m."""
    rule = DetectionRule()
    needed_db = required_snr_db(rule.pd, rule.pfa, budget.pulses, rule.fluctuation)
    at_m = np.maximum(range_m, budget.pulse.depth_m)
    target = radar_target_of(mark, budget.radar.band)
    return np.asarray(target_snr_db(budget, target, at_m) - needed_db)
