"""The last plan that was made of a project: of when it is, and what went in."""

from dataclasses import dataclass
from enum import Enum

from core.plan.request import InputFile


@dataclass(frozen=True, slots=True, kw_only=True)
class LastPlan:
    """What is kept of a plan when its project is saved."""

    created_utc: str
    """ISO 8601 with Z."""
    digest: str
    version: str
    """Of the program that made it."""
    asked: tuple[tuple[str, str], ...]
    """Conditions and choices by their names in the project file, as JSON, in order of names."""
    inputs: tuple[InputFile, ...]


class Since(Enum):
    """What became of an input since the last plan."""

    CHANGED = "changed"
    ANOTHER = "another"
    ADDED = "added"
    TAKEN_OUT = "taken out"
    MISSING = "missing"
    UNREADABLE = "unreadable"
    ASKED = "asked"
    """A condition or choices."""
    PROGRAM = "program"


@dataclass(frozen=True, slots=True, kw_only=True)
class InputChange:
    """One input that is not what the last plan was made from."""

    since: Since
    role: str = ""
    """As of ``InputFile``."""
    name: str = ""
    """Of the file now, or of the one that is missing; of the condition; for the program its
    version then."""
    before: str = ""
    """Of the file then, where another one is given now."""
