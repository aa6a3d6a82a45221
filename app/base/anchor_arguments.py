"""Words of the command line for a passage that ends at anchor."""

import argparse
from dataclasses import dataclass

from app.base.option_types import METRES
from core.base.errors import InputError
from core.base.language import tr
from core.files.anchorage_json import anchorage_with, speeds_in_text
from core.plan.anchoring_result import Anchorage


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorWords:
    """The options of an anchorage as typed."""

    is_anchor: bool = False
    waypoint: str = ""
    cable_m: float | None = None
    hawse_m: float | None = None
    approach: str = ""


def add_anchorage(parser: argparse.ArgumentParser) -> None:
    """Options of an anchorage."""
    add = parser.add_argument
    add("--anchor", action="store_true", help=tr("the passage ends at anchor at its last waypoint"))
    add(
        "--anchor-at",
        default="",
        metavar="WAYPOINT",
        help=tr("the same at another waypoint of the route, by its name"),
    )
    add("--cable", type=METRES, metavar="M", help=tr("with --anchor: length of cable, m"))
    add(
        "--hawse",
        type=METRES,
        metavar="M",
        help=tr("with --anchor: radar's reference point to the hawse, m (from the ship file)"),
    )
    add(
        "--approach",
        default="",
        metavar="NM:KN ...",
        help=tr("with --anchor: speeds from distances to go, such as '3:8 1.5:6 0.5:3'"),
    )


def anchor_words(given: argparse.Namespace) -> AnchorWords:
    """What was typed of it."""
    return AnchorWords(
        is_anchor=given.anchor or bool(given.anchor_at.strip()),
        waypoint=given.anchor_at,
        cable_m=given.cable,
        hawse_m=given.hawse,
        approach=given.approach,
    )


def anchorage_in(words: AnchorWords) -> Anchorage | None:
    """The anchorage that was typed; None where none was.

    Raises
    ------
    InputError
        A value no officer can mean, or one without ``--anchor``.
    """
    if not words.is_anchor:
        if words.cable_m is not None or words.hawse_m is not None or words.approach:
            raise InputError(
                tr(
                    "cable, hawse or approach are given for a passage that is not said "
                    "to end at anchor"
                ),
                todo=tr("Add --anchor, or leave them out"),
            )
        return None
    try:
        return anchorage_with(
            waypoint=words.waypoint,
            cable_m=words.cable_m,
            hawse_m=words.hawse_m,
            speeds_nm_kn=speeds_in_text(words.approach),
        )
    except ValueError as exc:
        raise InputError(str(exc), todo=tr("Give another value")) from exc
