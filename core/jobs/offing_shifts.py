"""Which offings of a leg can be compared."""

import math
import re

from core.base.errors import InputError
from core.base.language import tr
from core.base.units import m_from_nm, nm_from_m

MOST_SHIFT_M = m_from_nm(20.0)
MOST_OFFINGS = 8
_SAME_M = 1.0


def check_shifts(shifts_m: tuple[float, ...]) -> tuple[float, ...]:
    """Shifts that can be compared, each once, in the order given.

    Raises
    ------
    InputError
        None, too many, or one that is no other offing.
    """
    if not shifts_m:
        raise InputError(
            tr("no offing is given"), todo=tr("Give distances in NM, starboard positive")
        )
    for shift_m in shifts_m:
        if not _SAME_M < abs(shift_m) <= MOST_SHIFT_M:
            raise InputError(
                tr(
                    "an offing {distance_nm:g} NM from the planned leg cannot be compared",
                    distance_nm=nm_from_m(shift_m),
                ),
                todo=tr(
                    "Give distances up to {distance_nm:g} NM, other than 0",
                    distance_nm=nm_from_m(MOST_SHIFT_M),
                ),
            )
    found = tuple(dict.fromkeys(shifts_m))
    if len(found) > MOST_OFFINGS:
        raise InputError(
            tr("{count} offings are more than can be read side by side", count=len(found)),
            todo=tr("Give {most_offings} at most", most_offings=MOST_OFFINGS),
        )
    return found


def shifts_in_text(text: str) -> tuple[float, ...]:
    """Distances typed in NM, as m: ``0.5,1.0``, ``0.5, 1.0`` or ``0,5 / 1,0``.

    Raises
    ------
    ValueError
        One sentence about what is no distance.
    """
    words = [word for word in re.split(r"[\s;/]+", text) if word]
    if len(words) == 1:
        words = words[0].split(",")
    found = []
    for word in filter(None, (word.strip(",") for word in words)):
        try:
            value = float(word.replace(",", "."))
        except ValueError as exc:
            raise ValueError(f"«{word}» is not a distance in NM.") from exc
        if not math.isfinite(value):
            raise ValueError(f"«{word}» is not a distance in NM.")
        found.append(m_from_nm(value))
    return tuple(found)
