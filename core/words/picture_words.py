"""The expected picture in words: controls, rows, what was picked, and the caption of a picture."""

import math
from collections.abc import Sequence

from core.base.language import tr
from core.land.sources import DataSource
from core.passage.passage import Passage
from core.picture.controls import Controls
from core.picture.display_chain import UNCERTAIN_DB, Paint
from core.picture.echo_rows import EchoKind, EchoRow
from core.picture.expected_picture import Picture
from core.picture.pick_echo import Picked
from core.picture.picture_view import PictureView
from core.words.detect_words import PRESET_TITLES
from core.words.kept_words import shown as shown_word
from core.words.messages import Say
from core.words.quantities import (
    DASH,
    course,
    distance,
    fine_height,
    position,
    radar_range,
    refraction,
    scale,
)

CONTROL_TITLES = {
    "gain_db": tr("Gain"),
    "mistuning_db": tr("Tuning"),
    "sea_clutter": tr("Sea clutter"),
    "rain_clutter": tr("Rain clutter"),
    "interference_rejection": tr("Interference rejection"),
    "echo_stretch": tr("Echo stretch"),
    "pulse": tr("Pulse"),
}
"""Controls under their trade names."""

TAKEN_BY = {
    "gain_db": tr("too little gain"),
    "mistuning_db": tr("mistuning"),
    "sea_clutter": tr("sea clutter control"),
    "rain_clutter": tr("rain clutter control"),
    "interference_rejection": tr("interference rejection"),
    "echo_stretch": tr("echo stretch"),
}

PICTURE_CAUTION = tr(
    "Calculated, planning aid only. Not a chart. An echo that is not "
    "predicted may be real; one that is expected may be missed."
)

KEY = (
    (Paint.STRONG, tr("paints strongly")),
    (Paint.PAINTED, tr("is expected to paint")),
    (Paint.UNCERTAIN, tr("may paint")),
    (Paint.CLUTTER, tr("clutter")),
    (Paint.SPECKLE, tr("noise")),
    (Paint.SHADOW, tr("hidden by land")),
    (Paint.BLIND, tr("own blind sector")),
    (Paint.UNKNOWN, tr("no data: a gap, not open water")),
)
"""What the inks of a picture mean."""

_SOURCES_SHOWN = 3


def control_words(controls: Controls, well: Controls) -> tuple[tuple[str, str], ...]:
    """Title and setting of every control, beside well set where it differs."""
    rows = (
        ("gain_db", _gain(controls.gain_db)),
        ("mistuning_db", _tuning(controls.mistuning_db)),
        ("sea_clutter", _amount(controls.sea_clutter)),
        ("rain_clutter", _amount(controls.rain_clutter)),
        ("interference_rejection", _switch(is_on=controls.interference_rejection)),
        ("echo_stretch", _switch(is_on=controls.echo_stretch)),
    )
    out = []
    for name, text in rows:
        is_well = math.isclose(getattr(controls, name), getattr(well, name), abs_tol=5e-3)
        note = (
            tr(" ({amount} well set)", amount=_amount(getattr(well, name)))
            if name.endswith("clutter")
            else ""
        )
        out.append((CONTROL_TITLES[name], text if is_well else f"{text}{note}"))
    return tuple(out)


def is_well_set(controls: Controls, well: Controls) -> bool:
    """Whether controls are as well set ones, but for what no caption could tell."""
    return control_words(controls, well) == control_words(well, well)


def _gain(gain_db: float) -> str:
    if abs(gain_db) < 0.05:
        return tr("at light speckle")
    if gain_db > 0.0:
        return tr("{gain_db:.1f} dB more than light speckle", gain_db=gain_db)
    return tr("{gain_db:.1f} dB less than light speckle", gain_db=-gain_db)


def _tuning(mistuning_db: float) -> str:
    return (
        tr("at its best")
        if mistuning_db < 0.05
        else tr("{mistuning_db:.1f} dB lost by mistuning", mistuning_db=mistuning_db)
    )


def _amount(amount: float) -> str:
    return tr("off") if amount < 5e-3 else f"{amount * 100.0:.0f} %"


def _switch(*, is_on: bool) -> str:
    return tr("on") if is_on else tr("off")


def margin_words(margin_db: float) -> str:
    """A margin in whole dB, rounded down: ``+7 dB``, ``−3 dB``."""
    whole = math.floor(margin_db + 1e-6)
    return f"+{whole} dB" if whole >= 0 else f"−{-whole} dB"


def _expected(margin_db: float) -> str:
    """In the words of the picture's own inks."""
    if margin_db >= UNCERTAIN_DB:
        return tr("is expected to paint")
    return tr("may paint") if margin_db > -UNCERTAIN_DB else tr("too weak")


def says_lost(remark: str) -> bool:
    """Whether a remark of a row tells that a control took the echo."""
    return remark in {tr("lost: {control}", control=control) for control in TAKEN_BY.values()}


def row_words(row: EchoRow) -> tuple[str, str, str, str, str, str]:
    """A predicted echo: name, range, bearing, margin now, margin well set, what took it."""
    patch = row.patch
    name = patch.name or tr("land")
    if patch.merges:
        name += tr(", merges with land")
    if patch.rows.size == 0 or row.is_blind:
        why = tr("own blind sector") if patch.rows.size else tr("not in sight")
        if patch.is_unknown:
            why = tr("not known: no data on the way")
        return name, radar_range(patch.range_m), course(patch.bearing_deg), DASH, DASH, why
    taken = TAKEN_BY.get(row.taken_by, "") if row.taken_by else ""
    if taken and row.is_lost:
        taken = tr("lost: {control}", control=taken)
    return (
        name,
        radar_range(patch.range_m),
        course(patch.bearing_deg),
        margin_words(row.margin_db),
        margin_words(row.well_margin_db),
        taken or _expected(row.margin_db),
    )


def picked_words(picked: Picked) -> str:
    """What lies at a point, in one line."""
    name = picked.name or picked.what
    if picked.name and picked.patch is not None and picked.patch.kind is EchoKind.LAND:
        name = tr("{name}, land", name=picked.name)
    text = f"{name}, {radar_range(picked.range_m)}, {course(picked.bearing_deg)}"
    if picked.margin_db is None:
        return text
    return tr("{echo}, margin {margin}", echo=text, margin=margin_words(picked.margin_db))


def caption_lines(
    picture: Picture, *, place: str, sources: Sequence[DataSource], water: str
) -> tuple[str, ...]:
    """What a picture was calculated from, line by line.

    Parameters
    ----------
    picture : Picture
        The picture.
    place : str
        Name of the place, empty for none.
    sources : sequence of DataSource
        Land data.
    water : str
        Tide in words.
    """
    view, frame = picture.view, picture.frame
    budget = view.budget
    radar, pulse, weather = budget.radar, budget.pulse, budget.conditions
    up = picture.orientation.shown
    if frame.off_centre_ratio > 0.0:
        up = tr(
            "{orientation}, off-centred {off_centre_percent:.0f} %",
            orientation=up,
            off_centre_percent=frame.off_centre_ratio * 100.0,
        )
    controls, well = picture.shown.controls, picture.well
    settings = ", ".join(f"{title.lower()} {text}" for title, text in control_words(controls, well))
    if weather.sea_state <= 0.0 and weather.rain_mm_h <= 0.0:
        air = str(Say.CLEAR_WEATHER)
    else:
        air = Say.WEATHER.format(sea=f"{weather.sea_state:g}", rain=f"{weather.rain_mm_h:g}")
    at = f"{place}, {position(view.position)}" if place else position(view.position)
    state = tr("well set") if is_well_set(controls, well) else tr("not well set")
    shown = [f"{s.name} ({s.released or Say.UNDATED})" for s in sources[:_SOURCES_SHOWN]]
    if len(sources) > _SOURCES_SHOWN:
        shown.append(tr("{count} more", count=len(sources) - _SOURCES_SHOWN))
    return (
        tr("Expected picture, calculated: {place}", place=at),
        tr(
            "{scale} scale, {what_is_up}, {heading}",
            scale=scale(view.scale_m),
            what_is_up=up,
            heading=_heading_words(view),
        ),
        tr(
            "{band} band, {preset}, {pulse_name} pulse {length_us:g} µs, beam "
            "{horizontal_beamwidth_deg:g}°, antenna {antenna_height} above water",
            band=radar.band.value,
            preset=PRESET_TITLES[radar.preset],
            pulse_name=shown_word(pulse.name),
            length_us=pulse.length_s * 1e6,
            horizontal_beamwidth_deg=radar.horizontal_beamwidth_deg,
            antenna_height=fine_height(budget.antenna_height_m),
        ),
        tr("Set-up, {state}: {settings}", state=state, settings=settings),
        f"{air[:1].upper()}{air[1:]}, {refraction(weather.refraction_k)}. {water}",
        tr("Data: {sources}", sources="; ".join(shown)) if shown else tr("Data: none"),
        PICTURE_CAUTION,
    )


def _heading_words(view: PictureView) -> str:
    if view.heading_deg is None:
        if view.sectors:
            return tr("heading not given, own blind sectors left out")
        return tr("heading not given")
    heading = course(view.heading_deg)
    if view.leeway_deg > 0.0:
        return tr(
            "heading {course}, {leeway_deg:g}° either way",
            course=heading,
            leeway_deg=view.leeway_deg,
        )
    return tr("heading {course}", course=heading)


def water_words(tide_m: float | None, mean_sea_level_m: float | None) -> str:
    """The height of the water in a sentence."""
    if tide_m is None or mean_sea_level_m is None:
        return f"{Say.NO_TIDE}."
    return f"{Say.TIDE.format(tide=fine_height(tide_m), level=fine_height(mean_sea_level_m))}."


def leg_place_words(passage: Passage, leg_index: int, along_m: float) -> str:
    """A place on a leg: ``leg 2, 3.4 NM from WP2``."""
    name = passage.waypoints[leg_index].name
    return tr(
        "leg {leg_number}, {distance} from {name}",
        leg_number=leg_index + 1,
        distance=distance(along_m),
        name=name,
    )
