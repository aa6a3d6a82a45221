"""Why something was chosen, or how a thing is to be set: a code and its numbers."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why something was chosen: a short code and its numbers, put into words by ``core.words``."""

    code: str
    values: tuple[tuple[str, float | str], ...] = ()
