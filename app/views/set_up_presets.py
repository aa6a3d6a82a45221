"""Set-ups to look at beside a good one: the usual ways in which a set is out, by name."""

from collections.abc import Callable
from dataclasses import replace

from app.views.picture_work import ControlValues
from core.base.language import tr

_LOW_DB, _HIGH_DB, _OFF_TUNE_DB = 12.0, 6.0, 10.0

WELL_SET = tr("well set")
OWN = tr("as the rows say")

PRESETS: dict[str, Callable[[ControlValues], ControlValues]] = {
    WELL_SET: lambda well: well,
    tr("too little gain"): lambda well: replace(well, gain_db=well.gain_db - _LOW_DB),
    tr("too much gain"): lambda well: replace(well, gain_db=well.gain_db + _HIGH_DB),
    tr("off tune"): lambda well: replace(well, mistuning_db=_OFF_TUNE_DB),
    tr("sea clutter control full"): lambda well: replace(well, sea_clutter=1.0),
    tr("sea clutter control off"): lambda well: replace(well, sea_clutter=0.0),
    tr("rain clutter control full"): lambda well: replace(well, rain_clutter=1.0),
}
"""From the set-up that is good here to one that is not; usual mistakes (common practice)."""


def preset_of(values: ControlValues, well: ControlValues) -> str:
    """Name of a set-up where it has one."""
    for name, made in PRESETS.items():
        if made(well) == values:
            return name
    return OWN
