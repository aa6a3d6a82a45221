"""What the officer changed on a leg since its plan was made: shown on the strip at once."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

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
_WHOLE = (-math.inf, math.inf)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """Choices and limits of a leg that its plan does not hold yet."""

    chosen: tuple[Override, ...] = ()
    """Choices that are new."""
    freed: tuple[Override, ...] = ()
    """Choices that were taken back, with none in their place."""
    limits: tuple[tuple[IndexLine, float | None], ...] = ()
    """Margin lines with their distance as it is now, m; None where the limit was taken out."""
    new_limits: tuple[DangerLimit, ...] = ()
    """Limits of the leg that no line shows."""

    def words(self) -> tuple[str, ...]:
        """A line for each change."""
        said = [f"{shown(override.role)}: {override.object_id}" for override in self.chosen]
        said += [
            tr(
                "{role}: left to the plan instead of {object_id}",
                role=shown(o.role),
                object_id=o.object_id,
            )
            for o in self.freed
        ]
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
        for override in self.chosen:
            look = looks.get(override.object_id.casefold())
            if look is not None:
                tone = STYLES[_ROLES[override.role]][0]
                yield from object_items(strip, look, tone, override.part_m)
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
    now_chosen, then_chosen = _overrides(project, number), _overrides(computed, number)
    chosen = tuple(o for o in now_chosen if o not in then_chosen)
    freed = tuple(
        o
        for o in then_chosen
        if not any(x.role == o.role and x.is_for(*(o.part_m or _WHOLE)) for x in now_chosen)
    )
    choices = Pending(chosen=chosen, freed=freed)
    if _limit_source(project) == _limit_source(computed):
        return choices
    try:
        now = limits_of(project, leg_count=document.leg_count)
        before = limits_of(computed, leg_count=document.leg_count)
    except LegsheetError:
        # Told where the limits are edited, and when the plan is computed.
        return choices
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
    return replace(choices, limits=tuple(moved), new_limits=new)


def _overrides(project: Project, number: int) -> tuple[Override, ...]:
    return tuple(o for o in project.overrides if o.leg_number == number and o.role in _ROLES)


def _limit_source(project: Project) -> tuple[object, ...]:
    return project.limits, project.limits_text, project.leg_sources, project.is_reversed
