"""Actions that begin another passage."""

from app.window.action_row import ActionRow, Menu
from core.base.language import tr

NEW_ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "new_passage",
        Menu.PASSAGE,
        tr("Ne&w passage"),
        tr("Leave the passage that is open and begin another one with the same ship"),
        "Ctrl+N",
    ),
)
