"""The index objects of a leg as rows of words: figures, then under them what each is like."""

from app.views.plan_rows import to_go, use_words
from app.views.table_model import Row
from app.views.tide_rows import tide_rows
from core.base.language import tr
from core.plan import reason_codes
from core.plan.object_result import ObjectLook
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.words import quantities
from core.words.messages import Say
from core.words.object_words import confidence_words, conspicuous_words, look_words
from core.words.reasons import beside_name, sentence

OBJECT_HEADS = (
    tr("Place"),
    tr("Object"),
    tr("Side"),
    tr("Range"),
    tr("NM to go"),
    tr("Data"),
    tr("Use"),
)


def object_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """Best first, two rows each; then floating marks, which are never indexed, and two tides."""
    pairs = [_look_rows(leg, look) for look in leg.looks]
    dash = quantities.DASH
    for thing, reason in leg.candidates:
        if reason.code == reason_codes.FLOATING:
            words = sentence(reason)
            cells = (dash, thing.id, dash, dash, dash, dash, tr("never"))
            note = Row(cells=(f"{thing.name}: {words}",), tip=words, is_note=True, subject=thing)
            pairs.append((Row(cells=cells, tip=words, subject=thing), note))
    return (*(row for pair in pairs for row in pair), *tide_rows(outcome, leg))


def _look_rows(leg: LegPlan, look: ObjectLook) -> tuple[Row, Row]:
    thing = look.object
    used = dict.fromkeys(use_words(line.role) for line in leg.lines if line.object.id == thing.id)
    confirm = str(Say.CONFIRM_ON_CHART) if thing.confirm_on_chart else ""
    words = (
        thing.name,
        beside_name(look.reason, thing.name),
        *look_words(look),
        confidence_words(look),
        conspicuous_words(look),
        confirm,
    )
    why = "; ".join(dict.fromkeys(part for part in words if part))
    figures = Row(
        cells=(
            tr("{place}, weak", place=look.place) if look.is_weak else str(look.place),
            thing.id,
            quantities.side(look.side),
            quantities.miles(look.cross_index_range_m, 2),
            ", ".join(to_go(leg, start, stop) for start, stop in look.windows),
            look.confidence.grade.shown,
            ", ".join(used) or quantities.DASH,
        ),
        tip=why,
        subject=look,
    )
    return figures, Row(cells=(why,), tip=why, is_note=True, subject=look)
