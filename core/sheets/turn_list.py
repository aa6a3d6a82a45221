"""Turns leg by leg as rows of a list: ring readings, and what shows along the arc."""

from core.plan.outcome import Outcome
from core.plan.plan_result import WheelOver
from core.plan.turn_card_result import ARC_SHARES, ArcSeen, TurnCard
from core.sheets.list_pages import Group
from core.sheets.tables import Cell, Column, Row
from core.words import quantities
from core.words.messages import Say
from core.words.turn_words import (
    RELATIVE,
    arc_words,
    half_words,
    land_words,
    radius_words,
    rate_words,
    ring_words,
    share_words,
)


def turn_columns() -> tuple[Column, ...]:
    """The object, then one column for each place on the arc."""
    return (
        Column(head=Say.COLUMN_TURN_OBJECT, width_mm=38.0),
        *(Column(head=share_words(share), width_mm=30.0) for share in ARC_SHARES),
    )


def turn_groups(outcome: Outcome) -> list[Group]:
    """A group for every leg that ends with a turn."""
    names = [waypoint.name for waypoint in outcome.plan.passage.waypoints]
    groups = []
    for leg in outcome.plan.legs:
        card = leg.turn_card
        if card is not None:
            at = Say.TURN_AT.format(waypoint=names[leg.leg_index + 1])
            title = f"{Say.LEG} {leg.leg_index + 1}, {at}"
            groups.append(Group(title=title, rows=_rows(card, leg.wheel_over), is_kept_whole=True))
    return groups


def _rows(card: TurnCard, turn: WheelOver | None) -> tuple[Row, ...]:
    rows = [] if turn is None else [Row(cells=(), note=f"{_capital(radius_words(turn))}.")]
    rows += [
        Row(cells=(), note=f"{_capital(arc_words(card))}; {land_words(card)}."),
        Row(cells=(), note=f"{_capital(Say.RATE_OF_TURN)} {rate_words(card)}."),
    ]
    if card.half is not None:
        rows.append(Row(cells=(), note=f"{Say.HALF_TURN}: {half_words(card.half)}."))
    if card.ring is None:
        rows.append(Row(cells=(), note=f"{Say.NO_RING}: {card.ring_reason}."))
    rows.append(
        Row(
            cells=(
                Cell(text=str(Say.COLUMN_COURSE), is_bold=True),
                *(Cell(text=quantities.course(place.course_deg)) for place in card.places),
            )
        )
    )
    if card.ring is not None:
        ring = card.ring
        star = " *" if ring.object.confirm_on_chart else ""
        rows.append(
            Row(
                cells=(
                    Cell(
                        text=f"{ring.object.id}{star}",
                        beside=f"{Say.RING} {ring_words(card, ring)}",
                        is_bold=True,
                    ),
                    *(
                        Cell(
                            text=quantities.radar_range(one.range_m),
                            second=f"{quantities.whole_degrees(one.relative_deg)}° {RELATIVE}",
                        )
                        for one in ring.readings
                    ),
                ),
                reference="wheel-over",
            )
        )
    seen = [one for one in card.seen if card.ring is None or not _is_ring(card, one)]
    rows += [_seen_row(one) for one in seen if not all(one.shows)]
    throughout = ", ".join(f"{one.object_id} ({one.use})" for one in seen if all(one.shows))
    if throughout:
        rows.append(Row(cells=(), note=f"{Say.SHOWS_THROUGHOUT}: {throughout}."))
    return tuple(rows)


def _is_ring(card: TurnCard, seen: ArcSeen) -> bool:
    return card.ring is not None and seen.object_id == card.ring.object.id


def _seen_row(seen: ArcSeen) -> Row:
    return Row(
        cells=(
            Cell(text=seen.object_id, beside=seen.use, is_bold=True),
            *(
                Cell(text=str(Say.SHOWS) if shows else str(Say.SHOWS_NOT), is_bold=not shows)
                for shows in seen.shows
            ),
        )
    )


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]
