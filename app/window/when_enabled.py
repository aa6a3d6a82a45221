"""When an action of the window can be used."""

from collections.abc import Callable

from app.state.document import Document

EnabledWhen = Callable[[Document], bool]


def always(_document: Document) -> bool:
    """Whatever the document holds."""
    return True


def has_plan(document: Document) -> bool:
    """A plan is there, perhaps out of date."""
    return document.outcome is not None


def has_passage(document: Document) -> bool:
    """A passage is known."""
    return document.passage is not None


def has_line(document: Document) -> bool:
    """The waypoints are read, so that they can be edited."""
    return document.line is not None


def has_route(document: Document) -> bool:
    """A route is named or typed."""
    return document.project.route is not None or bool(document.project.route_text)


def has_revisions(document: Document) -> bool:
    """Revisions were issued."""
    return bool(document.project.revisions)


def is_idle_with_plan(document: Document) -> bool:
    """A plan of the inputs shown: an out-of-date one is neither printed nor exported."""
    has_plan = document.outcome is not None and not document.is_stale
    return has_plan and not document.job.is_running


def is_idle_with_passage(document: Document) -> bool:
    """A passage is known and nothing is computed."""
    return document.passage is not None and not document.job.is_running


def is_running(document: Document) -> bool:
    """Something is computed."""
    return document.job.is_running


def has_next_leg(document: Document) -> bool:
    """There is a leg after the chosen one."""
    return document.leg_index + 1 < document.leg_count


def has_last_leg(document: Document) -> bool:
    """There is a leg before the chosen one."""
    return document.leg_index > 0


def can_undo(document: Document) -> bool:
    """There is an edit to take back."""
    return document.undo_stack.canUndo()


def can_redo(document: Document) -> bool:
    """There is an edit to make again."""
    return document.undo_stack.canRedo()
