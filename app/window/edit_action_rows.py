"""Actions of the menu Edit: taken back, made again, and the passage edited by forms."""

from app.window.action_row import ActionRow, Menu
from app.window.when_enabled import can_redo, can_undo, has_line, has_route
from core.base.language import tr

EDIT_ACTIONS: tuple[ActionRow, ...] = (
    ActionRow("undo", Menu.EDIT, tr("&Undo"), tr("Take the last edit back"), "Ctrl+Z", can_undo),
    ActionRow("redo", Menu.EDIT, tr("&Redo"), tr("Make the edit again"), "Ctrl+Shift+Z", can_redo),
    ActionRow(
        "waypoints",
        Menu.EDIT,
        tr("&Waypoints and legs…"),
        tr("Names, positions, turn radii, corridors, speeds and notes as a table"),
        "Ctrl+W",
        has_line,
        starts_group=True,
    ),
    ActionRow(
        "drawn",
        Menu.EDIT,
        tr("&Marks and danger limits…"),
        tr("List marks and distances off; put in new ones, change them, take them out"),
        "Ctrl+Shift+M",
        has_route,
    ),
)
