"""The document: inputs, result, what is chosen and what is out of date. No widgets."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from app.state import officer_choices
from app.state.commands import ProjectEdit
from app.state.edited_line import Lines, edited_line, same_legs, way_of
from app.state.first_legs import FirstLegs
from app.state.job_state import JobState
from app.state.kept_of_plans import KeptOfPlans
from app.state.notices import NoticeKind, Notices
from app.state.standing import SAVE_AS, Standing
from app.state.stops import stepped_m, stops_m
from core.base.language import tr
from core.files.project import Options, Project, inputs_of
from core.jobs.edit_project import passage_to_edit
from core.jobs.reverse_project import reversed_project
from core.jobs.revise_plan import compared_with, issued
from core.passage.edit_passage import PassageEdit
from core.passage.passage import Passage
from core.plan.first_results import FirstResults
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, Override
from core.plan.revision import Revision


class Document(QObject):
    """Owns the project, the outcome, the undo stack, the chosen leg and the cursor.

    Signals say that something changed; whoever shows it asks for the rest.
    """

    opened = Signal()
    project_changed = Signal()
    passage_changed = Signal()
    outcome_changed = Signal()
    legs_done_changed = Signal()
    leg_changed = Signal()
    cursor_changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.undo_stack = QUndoStack(self)
        self.notices = Notices(self)
        self.job = JobState(self)
        self.standing = Standing(self)
        self.path: Path | None = None
        self.is_demo = False
        self._project = Project()
        self._computed: Project | None = None
        self._kept = KeptOfPlans()
        self._lines = Lines()
        self._passage: Passage | None = None
        self._outcome: Outcome | None = None
        self.first_legs = FirstLegs()
        self._leg_index = 0
        self._cursor_along_m = 0.0

    # What it holds

    @property
    def project(self) -> Project:
        """The inputs as they are now."""
        return self._project

    @property
    def project_to_keep(self) -> Project:
        """The inputs with what plans of them left, as they are written and computed."""
        return self._kept.put_into(self._project)

    @property
    def outcome(self) -> Outcome | None:
        """The last finished plan of this passage, perhaps of older inputs.

        A plan of another route or the other way is never shown: it would pass for this one's.
        """
        computed = self._computed
        if computed is None or way_of(computed) != way_of(self._project):
            return None
        return self._outcome

    @property
    def passage(self) -> Passage | None:
        """The passage of the plan, or of the route file before there is a plan."""
        return self._passage

    @property
    def line(self) -> Passage | None:
        """The passage as its route has it, nothing assumed, for edits; None until it is read."""
        return self._lines.of(self._project)

    @property
    def outcome_before_edit(self) -> Outcome | None:
        """The last plan, where waypoints or legs were edited since; None otherwise.

        It is the plan of another line: views may show what can be seen from ``kept_legs`` out of
        it and where the line was, marked as such, and nothing else.
        """
        computed = self._computed
        if computed is None or self.outcome is not None:
            return None
        return self._outcome if self._lines.are_kin(computed, self._project) else None

    @property
    def kept_legs(self) -> dict[int, int]:
        """Legs that run as in ``outcome_before_edit``, each with its number there, from 0."""
        if self._computed is None or self.outcome_before_edit is None:
            return {}
        before, now = self._lines.of(self._computed), self.line
        return {} if before is None or now is None else same_legs(before, now)

    @property
    def is_stale(self) -> bool:
        """Whether the inputs are not those the plan was made from."""
        if self.outcome is None or self._computed is None:
            return False
        return inputs_of(self._project) != inputs_of(self._computed)

    @property
    def computed(self) -> Project | None:
        """The inputs that ``outcome`` was made from; None without one."""
        return None if self.outcome is None else self._computed

    @property
    def is_modified(self) -> bool:
        """Whether edits are not saved."""
        return not self.undo_stack.isClean()

    @property
    def leg_index(self) -> int:
        """The chosen leg, from 0."""
        return self._leg_index

    @property
    def leg_count(self) -> int:
        """How many legs the passage has; 0 without a passage."""
        return len(self._passage.legs) if self._passage is not None else 0

    @property
    def leg_plan(self) -> LegPlan | None:
        """The plan of the chosen leg."""
        outcome = self.outcome
        if outcome is None or self._leg_index >= len(outcome.plan.legs):
            return None
        return outcome.plan.legs[self._leg_index]

    @property
    def cursor_along_m(self) -> float:
        """Where own ship is drawn on the chosen leg, m from its first waypoint."""
        return self._cursor_along_m

    # A new document

    def open_project(
        self,
        project: Project,
        path: Path | None,
        *,
        is_demo: bool = False,
        is_recovered: bool = False,
        read_only: str = "",
        old_plan: str = "",
    ) -> None:
        """Take over a project as a fresh document: nothing to undo, no result yet.

        A recovered one holds edits that its file does not. ``read_only`` says why it cannot be
        changed where it stands, ``old_plan`` of when its last plan is.
        """
        # First of all, since the stack tells everybody that it is empty now.
        self.path, self.is_demo = path, is_demo
        self.undo_stack.clear()
        self.undo_stack.setClean()
        self.notices.begin()
        if is_recovered:
            self.undo_stack.resetClean()
        self._lines.clear()
        self.standing.begin(read_only=read_only, old_plan=old_plan)
        self._outcome = self._computed = self._passage = None
        self.first_legs.clear()
        self._leg_index, self._cursor_along_m = 0, 0.0
        self._project = project
        self._kept.begin(project)
        self.opened.emit()
        self.project_changed.emit()
        self.passage_changed.emit()
        self.outcome_changed.emit()
        self.leg_changed.emit()

    def saved_as(self, path: Path) -> None:
        """The project was written to a file."""
        self.path, self.is_demo = path, False
        self._project = replace(self._project, read_only_copy=None)
        self.standing.saved()
        self.notices.clear(NoticeKind.TROUBLE)
        self.undo_stack.setClean()
        self.project_changed.emit()

    # Edits, each one step on the undo stack

    def edit(self, text: str, project: Project) -> None:
        """Replace the project as one step that can be undone; no step where nothing changes.

        Where the project is read-only it stays as it is, and the officer is told what to do.
        """
        if project == self._project or self.refuses(text):
            return
        self.undo_stack.push(ProjectEdit(text, before=self._project, after=project, put=self._put))

    def refuses(self, text: str) -> bool:
        """Whether the project is read-only; then it is told what cannot be done."""
        if self.standing.read_only:
            self.notices.post(
                NoticeKind.TROUBLE,
                tr(
                    "{edit}: this project is read-only. {save_as}",
                    edit=text[:1].upper() + text[1:],
                    save_as=SAVE_AS,
                ),
            )
        return bool(self.standing.read_only)

    def set_options(self, options: Options) -> None:
        """Change the conditions."""
        self.edit(tr("change conditions"), replace(self._project, options=options))

    def set_override(self, override: Override) -> None:
        """Put the officer's choice for one leg and role in place of an earlier one."""
        text = officer_choices.choose_words(override.role, override.leg_number)
        self.edit(text, officer_choices.with_choice(self._project, override))

    def clear_override(
        self, leg_number: int, role: str, part_m: tuple[float, float] | None = None
    ) -> None:
        """Leave the choice to the plan again, on the whole leg or on a part of it."""
        text = officer_choices.free_words(role, leg_number)
        self.edit(text, officer_choices.without_choices(self._project, leg_number, role, part_m))

    def edit_passage(
        self, text: str, edit: Callable[[Passage], PassageEdit], *, is_turned: bool = False
    ) -> None:
        """Edit waypoints or legs as one step; nothing is read, so it is done at once.

        With ``is_turned`` the edited passage is then planned the other way.

        Raises
        ------
        InputError, ValueError
            The edit cannot be done; nothing is changed.
        """
        line, before = self.line, self._project
        if line is None:
            return
        project, sources = edited_line(before, edit, line, is_turned=is_turned)
        if project == before or self.refuses(text):
            return
        self._lines.put(project, passage_to_edit(project))
        self._lines.note_edit(before, project)
        leg_index, along_m = self._leg_index, self._cursor_along_m
        self.edit(text, project)
        # The chosen leg keeps its place in the passage, not its number.
        here = next((i for i, legs in enumerate(sources) if leg_index in legs), None)
        if here is not None and here != self._leg_index:
            self.set_leg(here, along_m)

    def reverse(self) -> None:
        """Plan the passage the other way round."""
        self.edit(tr("reverse the passage"), reversed_project(self._project))

    def overrides_of(self, leg_number: int, role: str) -> tuple[Override, ...]:
        """The officer's choices for a leg and role."""
        return officer_choices.choices_of(self._project, leg_number, role)

    def issue_revision(self, note: str, *, issued_utc: str, by: str = "") -> None:
        """Keep the plan as it is as the next revision, to be compared with later."""
        outcome = self.outcome
        if outcome is None or self.is_stale:
            return
        revision = issued(outcome, issued_utc=issued_utc, note=note, by=by)
        self.edit(
            tr("issue revision {number}", number=revision.number),
            replace(self._project, revisions=(*self._earlier(revision.number), revision)),
        )

    def _earlier(self, number: int) -> tuple[Revision, ...]:
        """Revisions before a number: the same one issued again replaces itself."""
        return tuple(r for r in self._project.revisions if r.number < number)

    def _put(self, project: Project) -> None:
        passage_changed = way_of(project) != way_of(self._project)
        revisions_changed = project.revisions != self._project.revisions
        self.notices.edited(self._project, project)
        self._project = project
        legs_gone = self.first_legs.keep_if_of(project)
        if passage_changed:
            # Before anybody asks: the passage is the one of this project or not known.
            outcome = self.outcome
            self._passage = self.line if outcome is None else outcome.plan.passage
        if revisions_changed and self._outcome is not None:
            self._outcome = compared_with(self._outcome, self._last_revision())
        self.project_changed.emit()
        if revisions_changed:
            self.outcome_changed.emit()
        if passage_changed:
            self.set_passage(self._passage)
            self.outcome_changed.emit()
        if legs_gone:
            self.legs_done_changed.emit()

    def _last_revision(self) -> Revision | None:
        return self._project.revisions[-1] if self._project.revisions else None

    # Results

    def take_line(self, project: Project, passage: Passage) -> None:
        """Keep the passage that was read for a project, as its route has it."""
        self._lines.put(project, passage)

    def read_again(self, passage: Passage) -> None:
        """The file of the route holds another line now: what was planned is no plan of it."""
        self._lines.put(self._project, passage)
        self._outcome = self._computed = None
        self.first_legs.clear()
        self.set_passage(passage)
        self.outcome_changed.emit()

    def set_passage(self, passage: Passage | None) -> None:
        """Show a route that was read, before there is a plan of it."""
        self._passage = passage
        self.passage_changed.emit()
        self.set_leg(min(self._leg_index, max(self.leg_count - 1, 0)))

    def take_first(self, first: FirstResults, project: Project) -> None:
        """The running computation of a project covered a leg."""
        if self.first_legs.take(first, project, self._project):
            self.legs_done_changed.emit()

    def set_outcome(self, outcome: Outcome, project: Project) -> None:
        """Take the plan that was made from a project."""
        # Revisions may have been issued or taken back while it was computed.
        if outcome.revision.since != self._last_revision():
            outcome = compared_with(outcome, self._last_revision())
        self._outcome, self._computed = outcome, project
        self._kept.take(outcome, project)
        if way_of(project) == way_of(self._project):
            self._passage = outcome.plan.passage
        self.first_legs.clear()
        self.standing.computed()
        leg_index = min(self._leg_index, self.leg_count - 1)
        moved = leg_index != self._leg_index
        self._leg_index = leg_index
        self._cursor_along_m = 0.0 if moved else self._clamped(self._cursor_along_m)
        self.passage_changed.emit()
        self.outcome_changed.emit()
        self.leg_changed.emit()

    # Leg and cursor

    def set_leg(self, leg_index: int, along_m: float = 0.0) -> None:
        """Choose a leg and put the cursor on it."""
        leg_index = min(max(leg_index, 0), max(self.leg_count - 1, 0))
        if leg_index != self._leg_index:
            self._leg_index = leg_index
            self._cursor_along_m = self._clamped(along_m)
            self.leg_changed.emit()
        self.set_cursor(along_m)

    def set_cursor(self, along_m: float) -> None:
        """Put own ship at a distance along the chosen leg, kept on the leg."""
        along_m = self._clamped(along_m)
        if along_m != self._cursor_along_m:
            self._cursor_along_m = along_m
            self.cursor_changed.emit()

    def step_cursor(self, steps: int) -> None:
        """Move own ship by viewpoints on the track, forward positive."""
        places_m = stops_m(self.outcome, self._leg_index, self.leg_length_m())
        self.set_cursor(stepped_m(places_m, self._cursor_along_m, steps))

    def leg_length_m(self) -> float:
        """Length of the chosen leg, m; 0 without one."""
        if self._passage is None or self._leg_index >= len(self._passage.legs):
            return 0.0
        return self._passage.line(self._leg_index).length_m

    def _clamped(self, along_m: float) -> float:
        return min(max(along_m, 0.0), self.leg_length_m())
