"""What is done with lines and own ship on the strip and in its tables."""

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.put_files import OF_THE_LIMITS
from app.views.leg_words import numbered_legs
from app.views.strip_drag import LIMITS_FROM_CHART, LineDrag
from app.views.strip_tips import tell_stop
from app.window.choice_dialog import ChoiceDialog
from app.window.limit_dialog import LimitDialog
from app.window.panes import Panes
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.project import Project
from core.jobs.edit_limits import limit_behind, moved_limit, with_limit, without_limit
from core.jobs.edit_project import limits_of
from core.plan.choices import part_of, with_own_lines
from core.plan.plan_result import DangerLimit, IndexLine, LegPlan, Override, Role
from core.words import quantities


class StripActions:
    """Choices of objects, danger limits, moves of own ship."""

    def __init__(self, window: QWidget, document: Document, panes: Panes) -> None:
        self._window = window
        self._document = document
        self._panes = panes
        panes.strip.line_dropped.connect(self._drop)
        panes.strip.line_asked.connect(self._ask_line)
        panes.tables.choice_asked.connect(self.choose_object)
        panes.tables.limit_asked.connect(self.change_limit)

    def handlers(self) -> dict[str, Callable[[], None]]:
        """What each action does, by its id."""
        document, strip = self._document, self._panes.strip
        return {
            "choose_object": self.choose_object,
            "danger_limit": self.change_limit,
            "cursor_ahead": lambda: document.step_cursor(1),
            "cursor_astern": lambda: document.step_cursor(-1),
            "minute_ahead": lambda: strip.ship.by_minutes(1.0),
            "minute_astern": lambda: strip.ship.by_minutes(-1.0),
            "event_ahead": lambda: self._to_event(1),
            "event_astern": lambda: self._to_event(-1),
            "cursor_end": lambda: document.set_cursor(document.leg_length_m()),
            "cursor_start": lambda: document.set_cursor(0.0),
            "explain_here": self._explain_here,
            "strip_wider": lambda: strip.widen(1),
            "strip_narrower": lambda: strip.widen(-1),
            "strip_as_planned": strip.widen_as_planned,
        }

    def choose_object(self, typed: str = "") -> None:
        """Let the officer choose an index object for the leg."""
        self._choose(self._panes.tables.chosen_line(), typed)

    def _choose(self, line: IndexLine | None, typed: str = "") -> None:
        leg = self._document.leg_plan
        if leg is None or self._document.refuses(tr("choose an index object")):
            return
        overrides = self._document.project.overrides
        dialog = ChoiceDialog(leg, overrides, line, self._window, typed=typed)
        if dialog.exec() == ChoiceDialog.DialogCode.Accepted:
            if dialog.is_cleared:
                self._document.clear_override(leg.leg_index + 1, dialog.role, dialog.part_m)
            elif dialog.override is not None:
                self._document.set_override(dialog.override)
        dialog.deleteLater()

    def change_limit(self, line: IndexLine | None = None, typed: str = "") -> None:
        """Let the officer type a danger limit of the leg."""
        leg = self._document.leg_plan
        if leg is None or self._document.refuses(tr("change a danger limit")):
            return
        if line is None:
            line = self._panes.tables.chosen_margin()
        try:
            limits = self._limits()
        except LegsheetError as exc:
            self._document.notices.post(NoticeKind.TROUBLE, str(exc))
            return
        number = leg.leg_index + 1
        limit = None if line is None else limit_behind(limits, line, number)
        others = [other for other in limits if other is not limit]
        dialog = LimitDialog(
            limit,
            self._names(leg),
            numbered_legs(self._document.passage),
            frozenset((other.object_id.casefold(), other.leg_number) for other in others),
            object_id="" if line is None else line.object.id,
            leg_index=leg.leg_index,
            parent=self._window,
        )
        if limit is not None:
            dialog.offer_taking_out()
        if line is not None and line.limit is not None:
            dialog.begin_with(line.limit, typed)
        if dialog.exec() == LimitDialog.DialogCode.Accepted:
            if dialog.is_taken_out and limit is not None:
                self._take_out(limit)
            elif dialog.limit is not None:
                self._put(dialog.limit, limit)
        dialog.deleteLater()

    def _names(self, leg: LegPlan) -> tuple[str, ...]:
        """What a limit may be off: objects that the leg can index, best first, then all others."""
        outcome = self._document.outcome
        names = [look.object.id for look in leg.looks]
        if outcome is not None:
            names += [thing.id for thing in outcome.plan.objects]
            names += [mark.name for mark in outcome.request.marks]
        return tuple(dict.fromkeys(names))

    def _limits(self) -> tuple[DangerLimit, ...]:
        return limits_of(self._document.project, leg_count=self._document.leg_count)

    def _put(self, limit: DangerLimit, instead_of: DangerLimit | None) -> None:
        count = self._document.leg_count
        self._edit(
            tr("danger limit off {object_id}", object_id=limit.object_id),
            lambda project: with_limit(project, limit, instead_of=instead_of, leg_count=count),
        )

    def _take_out(self, limit: DangerLimit) -> None:
        count = self._document.leg_count
        self._edit(
            tr("take out danger limit off {object_id}", object_id=limit.object_id),
            lambda project: without_limit(project, limit, leg_count=count),
        )

    def _edit(self, text: str, change: Callable[[Project], Project]) -> None:
        try:
            self._document.edit(text, change(self._document.project))
        except LegsheetError as exc:
            self._document.notices.post(NoticeKind.TROUBLE, str(exc))

    # From the strip

    def _drop(self, drag: LineDrag) -> None:
        """A line was let go: another object, or another distance off its own."""
        leg = self._document.leg_plan
        if leg is None or leg is not drag.leg:
            return
        if drag.is_limit:
            self._drop_limit(leg, drag)
        else:
            self._drop_index(leg, drag)

    def _drop_index(self, leg: LegPlan, drag: LineDrag) -> None:
        target = drag.target
        if target is None or target.object.id == drag.line.object.id:
            self._panes.strip.said.emit(tr("Nothing changed: no other object there"))
            return
        role = drag.line.role.value
        number = leg.leg_index + 1
        chosen = Override(
            leg_number=number,
            role=role,
            object_id=target.object.id,
            part_m=with_own_lines(part_of(leg.lines, drag.line), leg.lines, role, target.object.id),
        )
        self._document.set_override(chosen)
        # A read-only project stays as it is, and says so itself.
        if chosen in self._document.overrides_of(number, role):
            self._panes.strip.said.emit(
                tr(
                    "{object_id} chosen as {role} object of leg {number}; compute again (F5)",
                    object_id=target.object.id,
                    role=role,
                    number=number,
                )
            )

    def _drop_limit(self, leg: LegPlan, drag: LineDrag) -> None:
        number, line = leg.leg_index + 1, drag.line
        before = self._document.project
        try:
            limits = self._limits()
        except LegsheetError as exc:
            self._document.notices.post(NoticeKind.TROUBLE, str(exc))
            return
        moved = moved_limit(limits, line, number, drag.limit_m)
        self._put(moved, limit_behind(limits, line, number))
        if self._document.project != before and line.limit is not None:
            where = (
                tr("every leg that uses it")
                if moved.leg_number is None
                else tr("leg {number}", number=number)
            )
            self._document.notices.post(
                NoticeKind.DONE,
                tr(
                    "{object_id} {sense} {distance}, {legs}: CHECK IT ON THE CHART. {caution}",
                    object_id=line.object.id,
                    sense=line.limit.shown,
                    distance=quantities.distance(drag.limit_m, 2),
                    legs=where,
                    caution=LIMITS_FROM_CHART,
                ),
                about=OF_THE_LIMITS,
            )

    def _ask_line(self, line: IndexLine) -> None:
        if line.role is Role.MARGIN:
            self.change_limit(line)
        elif line.role in (Role.PRIMARY, Role.CHECK):
            self._choose(line)

    def _to_event(self, steps: int) -> None:
        strip = self._panes.strip
        strip.ship.by_events(steps)
        tell_stop(strip, strip.drawn, strip.ship, self._document.cursor_along_m)

    def _explain_here(self) -> None:
        strip = self._panes.strip
        strip.setFocus()
        strip.point(1)
