"""What is set on a picture, in the two short lines that stand on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.base.language import tr
from core.words import quantities
from core.words.kept_words import shown

if TYPE_CHECKING:  # compiled kernels stand behind these: the window opens before they are loaded
    from core.picture.controls import Controls
    from core.picture.picture_view import PictureView


def set_lines(view: PictureView, controls: Controls, well: Controls) -> tuple[str, str]:
    """Radar, scale and pulse; then the preset and every control that is not as well set."""
    from core.words.detect_words import PRESET_TITLES

    budget = view.budget
    return (
        tr(
            "{band} band, {scale}, {pulse_name} pulse",
            band=budget.radar.band.value,
            scale=quantities.scale(view.scale_m),
            pulse_name=shown(budget.pulse.name),
        ),
        "; ".join(
            (PRESET_TITLES[budget.radar.preset], *(_differing(controls, well) or (tr("well set"),)))
        ),
    )


def _differing(controls: Controls, well: Controls) -> tuple[str, ...]:
    """Controls as they stand, where that could be told from well set."""
    sea, rain = _percent(controls.sea_clutter), _percent(controls.rain_clutter)
    words = (
        (
            round(controls.gain_db) != round(well.gain_db),
            tr("gain {signed_db} dB", signed_db=_signed(controls.gain_db)),
        ),
        (
            round(controls.mistuning_db) != round(well.mistuning_db),
            tr("{mistuning_db:.0f} dB off tune", mistuning_db=controls.mistuning_db),
        ),
        (sea != _percent(well.sea_clutter), tr("sea clutter {sea_percent} %", sea_percent=sea)),
        (
            rain != _percent(well.rain_clutter),
            tr("rain clutter {rain_percent} %", rain_percent=rain),
        ),
        (
            controls.interference_rejection != well.interference_rejection,
            tr("interference rejection on")
            if controls.interference_rejection
            else tr("interference rejection off"),
        ),
        (
            controls.echo_stretch != well.echo_stretch,
            tr("echo stretch on") if controls.echo_stretch else tr("echo stretch off"),
        ),
    )
    return tuple(text for is_other, text in words if is_other)


def _percent(share: float) -> int:
    return round(100.0 * share)


def _signed(value: float) -> str:
    return f"{round(value):+d}".replace("-", "\u2212")
