"""Stream and leeway in words."""

import pytest

from core.base.units import mps_from_kn
from core.passage.motion import LegMotion, leg_motion
from core.passage.stream import Leeway, LegStream, Stream
from core.words.motion_words import (
    given_words,
    headings_words,
    leeway_words,
    motion_lines,
    speeds_words,
    steer_words,
    stream_words,
)


def moved(stream: Stream | None, leeway: Leeway | None) -> LegMotion:
    return leg_motion(
        LegStream(stream=stream, leeway=leeway),
        course_deg=0.0,
        speed_mps=mps_from_kn(12.0),
        leg_number=1,
    )


ABEAM = Stream(set_deg=90.0, drift_mps=mps_from_kn(2.0))


def test_a_stream_is_told_by_where_it_sets_to() -> None:
    assert stream_words(ABEAM) == "sets 090° T, 2.0 kn"


@pytest.mark.parametrize(
    ("leeway", "words"),
    [
        (Leeway(to_port_deg=4.0, to_starboard_deg=4.0), "up to 4° either way"),
        (Leeway(to_starboard_deg=4.0), "up to 4° to starboard"),
        (Leeway(to_port_deg=2.5), "up to 2.5° to port"),
        (Leeway(to_port_deg=2.0, to_starboard_deg=4.0), "up to 2° to port, 4° to starboard"),
        (Leeway(), "none"),
    ],
)
def test_leeway_says_its_side(leeway: Leeway, words: str) -> None:
    assert leeway_words(leeway) == words


def test_headings_are_widened_to_whole_degrees() -> None:
    # Crab 9.594 to port, 3 either way: 347.4 to 353.4.
    motion = moved(ABEAM, Leeway(to_port_deg=3.0, to_starboard_deg=3.0))
    assert steer_words(motion, 0.0) == "steer 350° T"
    assert headings_words(motion, 0.0) == "347° to 354° T"
    assert given_words(motion) == "stream sets 090° T, 2.0 kn; leeway up to 3° either way"
    assert speeds_words(motion) == "12.0 kn, 11.8 kn over ground"
    assert motion_lines(motion, 0.0) == ("steer 350° T (347° to 354° T)   12.0 kn through water",)


def test_without_either_nothing_is_said() -> None:
    assert motion_lines(None, 0.0) == ()
    assert headings_words(moved(ABEAM, None), 0.0) == ""
    assert speeds_words(moved(None, Leeway())) == "12.0 kn"
