"""Stream and leeway on the command line."""

import argparse
from pathlib import Path

from core.base.language import tr
from core.base.units import mps_from_kn
from core.files.csv_table import number_from_text
from core.files.streams_file import leeway_of
from core.passage.stream import Leeway, Stream


def _stream(text: str) -> Stream:
    """``045,1.5``: set in degrees true, then drift in knots."""
    set_deg, drift_kn = (number_from_text(part.strip()) for part in text.split(","))
    if set_deg is None or drift_kn is None:
        raise ValueError(text)
    return Stream(set_deg=set_deg, drift_mps=mps_from_kn(drift_kn))


_stream.__name__ = tr("set and drift")


def _leeway(text: str) -> Leeway:
    leeway = leeway_of(text.strip())
    if leeway is None:
        raise ValueError(text)
    return leeway


_leeway.__name__ = tr("leeway")


def add_streams(parser: argparse.ArgumentParser) -> None:
    """The options of stream and leeway."""
    add = parser.add_argument
    add(
        "--stream",
        type=_stream,
        metavar="SET,DRIFT",
        help=tr(
            "stream all along: the true direction it sets towards, and "
            "knots; speeds then count through the water"
        ),
    )
    add(
        "--leeway",
        type=_leeway,
        metavar="DEG",
        help=tr(
            "by how much the wind may push her off her heading, deg: 4 "
            "either way, +4 to starboard, -4 to port, which the heading to "
            "steer then allows for"
        ),
    )
    add(
        "--streams",
        type=Path,
        metavar="FILE",
        help=tr("the same for single legs (CSV: leg,set,drift,leeway)"),
    )


def stream_options(given: argparse.Namespace) -> dict[str, float | None]:
    """What was typed, by the names of ``Options``."""
    stream: Stream | None = getattr(given, "stream", None)
    leeway: Leeway | None = getattr(given, "leeway", None)
    return {
        "set_deg": None if stream is None else stream.set_deg,
        "drift_mps": None if stream is None else stream.drift_mps,
        "leeway_port_deg": None if leeway is None else leeway.to_port_deg,
        "leeway_starboard_deg": None if leeway is None else leeway.to_starboard_deg,
    }
