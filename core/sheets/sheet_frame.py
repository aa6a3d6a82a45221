"""What every sheet shares: paper, margins, head line, foot with data, cautions and boxes."""

from core.land.sources import DataSource
from core.plan.outcome import Outcome
from core.radar.echo_budget import EchoBudget
from core.sheets.page import Anchor, Item, Measure, Rectangle, Stroke, Text, Tone, outline
from core.sheets.wrapping import BODY_PT, line_mm, set_in, wrap
from core.words import quantities
from core.words.kept_words import shown
from core.words.messages import CAUTION_SHORT, Say
from core.words.reference_words import reference_words

WIDTH_MM, HEIGHT_MM = 210.0, 297.0
"""A4 upright."""
LEFT_MM, RIGHT_MM = 11.0, 199.0
TOP_MM, BOTTOM_MM = 9.0, 288.0
CONTENT_MM = RIGHT_MM - LEFT_MM

_BOX_MM = 9.0
_SMALL_PT = 9.0
_SOURCE_LINES = 3


def head_line(
    outcome: Outcome, *, page_number: int, page_count: int, measure: Measure
) -> tuple[Item, ...]:
    """Ship and passage on the left, page n of m on the right, a rule below."""
    plan = outcome.plan
    page = Say.PAGE_OF.format(number=page_number, count=page_count)
    right = Say.REVISION_AND_PAGE.format(revision=outcome.revision.number, page=page)
    right_mm = measure.width_mm(right, size_pt=10.0, is_bold=True)
    ship = outcome.request.ship
    is_said = not ship.invented or "invented" in ship.name.lower()
    name = ship.name if is_said else f"{ship.name} ({Say.SHIP_INVENTED})"
    left = f"{name}; {plan.passage.name}"
    room = CONTENT_MM - right_mm - 4.0
    lines, size_pt = set_in(left, room, measure, sizes_pt=(10.0, 9.5, BODY_PT))
    # Ship and passage in full stand on the passage sheet; here two lines are all the room.
    shown = lines[:2]
    return (
        *(
            Text(
                x_mm=LEFT_MM,
                y_mm=TOP_MM + 4.0 - (len(shown) - 1 - number) * line_mm(size_pt),
                text=line,
                size_pt=size_pt,
            )
            for number, line in enumerate(shown)
        ),
        Text(
            x_mm=RIGHT_MM,
            y_mm=TOP_MM + 4.0,
            text=right,
            size_pt=10.0,
            is_bold=True,
            anchor=Anchor.END,
        ),
        Stroke(
            points=((LEFT_MM, TOP_MM + 5.6), (RIGHT_MM, TOP_MM + 5.6)),
            width_mm=0.5,
            tone=Tone.INK,
        ),
    )


def source_words(source: DataSource) -> str:
    """One data source: name, date, resolution, licence."""
    parts = (source.name, source.released or str(Say.UNDATED), source.resolution, source.licence)
    return ", ".join(part for part in parts if part)


def _short_source_words(source: DataSource) -> str:
    """The same without the resolution, which the passage sheet holds."""
    parts = (source.name, source.released or str(Say.UNDATED), source.licence)
    return ", ".join(part for part in parts if part)


def radar_words(budget: EchoBudget) -> str:
    """For which radar, preset, pulse and weather paint was worked out."""
    conditions = budget.conditions
    weather = str(Say.CLEAR_WEATHER)
    if conditions.sea_state > 0.0 or conditions.rain_mm_h > 0.0:
        weather = Say.WEATHER.format(
            sea=f"{conditions.sea_state:g}", rain=f"{conditions.rain_mm_h:g}"
        )
    return Say.RADAR.format(
        radar=budget.radar.name,
        preset=budget.radar.preset.shown,
        pulse=shown(budget.pulse.name),
        weather=weather,
    )


def data_words(outcome: Outcome) -> str:
    """What the numbers stand on: water, antenna, refraction, error of heights."""
    settings = outcome.coverage.settings
    environment = outcome.request.environment
    k = settings.refraction_k
    parts = [
        Say.ANTENNA.format(height=quantities.fine_height(settings.antenna_height_m)),
        Say.REFRACTION.format(
            k=quantities.refraction(k), coefficient=quantities.horizon_coefficient(k)
        ),
    ]
    if environment.tide_m is None or environment.mean_sea_level_m is None:
        parts.append(str(Say.NO_TIDE))
    else:
        parts.append(
            Say.TIDE.format(
                tide=quantities.fine_height(environment.tide_m),
                level=quantities.fine_height(environment.mean_sea_level_m),
            )
        )
    parts.append(Say.RADIUS.format(radius=quantities.scale(settings.radius_m)))
    parts.append(
        Say.HEIGHT_ERROR.format(error=f"± {quantities.fine_height(outcome.land.height_error_m)}")
    )
    if outcome.coverage.budget is not None:
        parts.append(radar_words(outcome.coverage.budget))
    if outcome.land.heights_assumed:
        parts.append(str(Say.HEIGHTS_ASSUMED))
    parts.append(reference_words(outcome.request.ship))
    parts.append(str(Say.GEODESY))
    return ". ".join(parts) + "."


def foot(
    outcome: Outcome, measure: Measure, *, has_data: bool = True, note: str = ""
) -> tuple[tuple[Item, ...], float]:
    """Data, caution and blank boxes at the foot of a leg sheet, and the y where they begin.

    The foot grows upwards with the number of sources; those past three lines are counted, the
    passage sheet lists them all. ``note`` is said with the data.
    """
    boxes_top = BOTTOM_MM - _BOX_MM
    items: list[Item] = list(_boxes(outcome, boxes_top, measure))
    caution = wrap(f"{CAUTION_SHORT} {Say.CONFIRM_SIGN}.", CONTENT_MM, measure, size_pt=_SMALL_PT)
    data = [
        *wrap(f"{data_words(outcome)} {note}".rstrip(), CONTENT_MM, measure, size_pt=_SMALL_PT),
        *_sources(outcome, measure),
    ]
    step = line_mm(_SMALL_PT)
    y = boxes_top - 1.6
    for line in reversed(caution):
        items.append(Text(x_mm=LEFT_MM, y_mm=y, text=line, size_pt=_SMALL_PT, is_bold=False))
        y -= step
    y -= 0.8
    for line in reversed(data if has_data else []):
        items.append(Text(x_mm=LEFT_MM, y_mm=y, text=line, size_pt=_SMALL_PT, tone=Tone.FAINT_INK))
        y -= step
    top = y - 0.2
    items.append(Stroke(points=((LEFT_MM, top), (RIGHT_MM, top)), width_mm=0.25, tone=Tone.RULE))
    return tuple(items), top


def _sources(outcome: Outcome, measure: Measure) -> tuple[str, ...]:
    """Sources of the data on at most three lines; the rest is counted, whole names only."""
    sources = [_short_source_words(source) for source in outcome.land.sources]

    def lines(count: int) -> tuple[str, ...]:
        shown = sources[:count]
        if count < len(sources):
            shown.append(Say.MORE_SOURCES.format(count=len(sources) - count))
        return wrap(f"{Say.DATA}: {'; '.join(shown)}.", CONTENT_MM, measure, size_pt=_SMALL_PT)

    count = len(sources)
    while count > 0 and len(lines(count)) > _SOURCE_LINES:
        count -= 1
    return lines(count)


def _boxes(outcome: Outcome, top: float, measure: Measure) -> list[Item]:
    """Prepared, checked, approved: blank, to be filled with a pencil; the digest beside them."""
    digest = f"{Say.DIGEST} {outcome.digest[:12]}"
    stamp = Say.COMPUTED.format(when=outcome.created_utc)
    side_mm = 2.0 + max(measure.width_mm(text, size_pt=BODY_PT) for text in (digest, stamp))
    width = (CONTENT_MM - side_mm) / 3.0
    items: list[Item] = []
    for number, words in enumerate((Say.PREPARED, Say.CHECKED, Say.APPROVED)):
        frame = Rectangle(
            x_mm=LEFT_MM + number * width, y_mm=top, width_mm=width - 1.5, height_mm=_BOX_MM
        )
        items.append(outline(frame, width_mm=0.25))
        items.append(
            Text(x_mm=frame.x_mm + 1.0, y_mm=top + 3.6, text=words, size_pt=BODY_PT, is_bold=True)
        )
    for line, text in enumerate((stamp, digest)):
        items.append(
            Text(
                x_mm=RIGHT_MM,
                y_mm=top + 3.6 + line * 4.2,
                text=text,
                size_pt=BODY_PT,
                anchor=Anchor.END,
                tone=Tone.FAINT_INK,
            )
        )
    return items
