"""The one message table: what it must never say."""

import re

import pytest

from core.words.messages import CAUTION_SHORT, CAUTIONS, Say

FORBIDDEN = re.compile(r"\bsafe|\bsafely|will be seen|\bwill paint|guarantee|\bcertain", re.I)


@pytest.mark.parametrize("text", [*Say, *CAUTIONS, CAUTION_SHORT])
def test_no_text_promises_anything(text: str) -> None:
    assert FORBIDDEN.search(text) is None


def test_cautions_say_what_the_plan_is_not() -> None:
    for words in (CAUTION_SHORT, " ".join(CAUTIONS)):
        for needed in ("depths", "chart", "master", "pilot", "may be real"):
            assert needed in words.lower() or needed in words


def test_a_gap_is_never_open_water() -> None:
    assert "never to be read as open water" in " ".join(CAUTIONS)
