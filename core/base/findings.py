"""Findings: what the officer must know about data or plan, without the work stopping."""

from dataclasses import dataclass

from core.base.language import Worded, tr


class Severity(Worded):
    """How much a finding matters, worst first."""

    MUST_FIX = "must fix"
    CHECK = "check"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """The place a finding is about; every part may be absent."""

    file: str = ""
    line: int | None = None
    waypoint: str = ""
    leg_number: int | None = None
    """Number of the leg as printed, from 1."""

    def __str__(self) -> str:
        parts = [self.file] if self.file else []
        if self.line is not None:
            parts.append(tr("line {line}", line=self.line))
        if self.leg_number is not None:
            parts.append(tr("leg {leg_number}", leg_number=self.leg_number))
        if self.waypoint:
            parts.append(tr("waypoint {waypoint}", waypoint=self.waypoint))
        return ", ".join(parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing found on the way: how bad, a stable code, and the sentence in three parts."""

    severity: Severity
    code: str
    """Stable short name in lower case with hyphens, such as ``speed-assumed``."""
    what: str
    where: Where = Where()
    todo: str = ""

    def __str__(self) -> str:
        place = str(self.where)
        text = f"{place}: {self.what}" if place else self.what
        text = text.rstrip(".") + "."
        return f"{text} {self.todo.rstrip('.')}." if self.todo else text
