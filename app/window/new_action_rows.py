"""Actions that begin another passage, and that look through the land of the one open."""

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
LAND_ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "land_places",
        Menu.INPUTS,
        tr("Land &in use…"),
        tr("The files and folders of land of this passage; each can be taken out by itself"),
        "Ctrl+Shift+A",
        lambda document: bool(document.project.land),
    ),
)
