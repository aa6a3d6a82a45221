"""The mark of a copy that was made for others to look at."""

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class CopyMark:
    """Who made the copy, when, and of which project."""

    by: str
    """Rank and name as typed."""
    made_utc: str
    """ISO 8601 with Z."""
    of: str
    """Name of the project file it was made of; empty where that was never saved."""


def copy_row(mark: CopyMark) -> dict[str, Any]:
    """As a JSON table."""
    return {"by": mark.by, "made_utc": mark.made_utc, "of": mark.of}


def copy_of_row(row: object) -> CopyMark | None:
    """From a JSON table; None from none.

    Raises
    ------
    ValueError
        It is no such table; the message is the sentence for the officer.
    """
    if row is None:
        return None
    if not isinstance(row, dict) or not all(
        isinstance(row.get(name), str) for name in ("by", "made_utc", "of")
    ):
        raise ValueError("read_only_copy does not hold by, made_utc and of")
    return CopyMark(by=row["by"], made_utc=row["made_utc"], of=row["of"])
