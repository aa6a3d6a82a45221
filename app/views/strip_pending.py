"""What the officer changed on a leg since its plan was made: shown on the strip at once."""

from collections.abc import Iterator
from dataclasses import dataclass

from app.state.document import Document
from app.views.strip_drag import limit_items, object_items
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.project import Project
from core.jobs.edit_limits import limit_behind, value_of
from core.jobs.edit_project import limits_of
from core.plan.plan_result import DangerLimit, IndexLine, LegPlan, Override, Role
from core.sheets.page import Item
from core.sheets.strip_block import Strip
from core.sheets.strip_lines import STYLES
from core.words import quantities
from core.words.kept_words import shown

_ROLES = {"primary": Role.PRIMARY, "check": Role.CHECK}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """Choices and limits of a leg that its plan does not hold yet."""

    chosen: tuple[tuple[str, Override | None], ...] = ()
    """Use and the choice as it is now; None where it was taken back."""
    limits: tuple[tuple[IndexLine, float | None], ...] = ()
    """Margin lines with their distance as it is now, m; None where the limit was taken out."""
    new_limits: tuple[DangerLimit, ...] = ()
    """Limits of the leg that no line shows."""

    def words(self) -> tuple[str, ...]:
        """A line for each change."""
        said = []
        for role, override in self.chosen:
            name = tr("left to the plan") if override is None else override.object_id
            said.append(f"{shown(role)}: {name}")
        for line, value_m in self.limits:
            sense = "" if line.limit is None else line.limit.shown
            now = tr("taken out") if value_m is None else quantities.distance(value_m, 2)
            said.append(f"{line.object.id} {sense} {now}")
        said += [
            tr("new limit off {object_id}", object_id=limit.object_id) for limit in self.new_limits
        ]
        return tuple(dict.fromkeys(said))

    def items(self, leg: LegPlan, strip: Strip) -> Iterator[Item]:
        """Lines as they are to be, dotted, beside those that the plan still has."""
        looks = {look.object.id.casefold(): look for look in leg.looks}
        for role, override in self.chosen:
            look = None if override is None else looks.get(override.object_id.casefold())
            if look is not None:
                yield from object_items(strip, look, STYLES[_ROLES[role]][0])
        for line, value_m in self.limits:
            if value_m is not None:
                yield from limit_items(strip, line, value_m)


NOTHING = Pending()


def pending_of(document: Document) -> Pending:
    """What was changed on the chosen leg since the plan was made."""
    leg, computed, project = document.leg_plan, document.computed, document.project
    if leg is None or computed is None:
        return NOTHING
    number = leg.leg_index + 1
    chosen = tuple(
        (role, _override(project, number, role))
        for role in _ROLES
        if _override(project, number, role) != _override(computed, number, role)
    )
    if _limit_source(project) == _limit_source(computed):
        return Pending(chosen=chosen)
    try:
        now = limits_of(project, leg_count=document.leg_count)
        before = limits_of(computed, leg_count=document.leg_count)
    except LegsheetError:
        # Told where the limits are edited, and when the plan is computed.
        return Pending(chosen=chosen)
    moved = []
    for line in leg.lines:
        if line.role is not Role.MARGIN or line.limit is None:
            continue
        limit = limit_behind(now, line, number)
        value_m = None if limit is None else value_of(limit, line.limit)
        if value_m is None or abs(value_m - line.cross_index_range_m) > 0.5:
            moved.append((line, value_m))
    old = {(limit.object_id.casefold(), limit.leg_number) for limit in before}
    new = tuple(
        limit
        for limit in now
        if limit.leg_number in (None, number)
        and (limit.object_id.casefold(), limit.leg_number) not in old
    )
    return Pending(chosen=chosen, limits=tuple(moved), new_limits=new)


def _override(project: Project, number: int, role: str) -> Override | None:
    return next((o for o in project.overrides if (o.leg_number, o.role) == (number, role)), None)


def _limit_source(project: Project) -> tuple[object, ...]:
    return project.limits, project.limits_text, project.leg_sources, project.is_reversed
