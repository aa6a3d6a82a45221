"""Actions of the menu «Leg»: legs, own ship, the strip."""

from app.window.action_row import ActionRow, Menu
from app.window.when_enabled import (
    has_last_leg,
    has_next_leg,
    has_passage,
    has_plan,
    is_idle_with_passage,
)
from core.base.language import tr

LEG_ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "next_leg", Menu.LEG, tr("&Next leg"), tr("Go to the next leg"), "Ctrl+Down", has_next_leg
    ),
    ActionRow(
        "last_leg", Menu.LEG, tr("&Leg before"), tr("Go to the leg before"), "Ctrl+Up", has_last_leg
    ),
    ActionRow(
        "cursor_ahead",
        Menu.LEG,
        tr("Own ship &ahead"),
        tr("Move own ship one viewpoint ahead"),
        "Alt+Up",
        has_passage,
        starts_group=True,
    ),
    ActionRow(
        "cursor_astern",
        Menu.LEG,
        tr("Own ship a&stern"),
        tr("Move own ship one viewpoint astern"),
        "Alt+Down",
        has_passage,
    ),
    ActionRow(
        "cursor_end",
        Menu.LEG,
        tr("Own ship to &end of leg"),
        tr("Move own ship to the waypoint at the end"),
        "Alt+End",
        has_passage,
    ),
    ActionRow(
        "cursor_start",
        Menu.LEG,
        tr("Own ship to s&tart of leg"),
        tr("Move own ship to the waypoint at the start"),
        "Alt+Home",
        has_passage,
    ),
    ActionRow(
        "minute_ahead",
        Menu.LEG,
        tr("One &minute ahead"),
        tr("Move own ship a minute's run ahead"),
        "Alt+Shift+Up",
        has_plan,
    ),
    ActionRow(
        "minute_astern",
        Menu.LEG,
        tr("One m&inute astern"),
        tr("Move own ship a minute's run astern"),
        "Alt+Shift+Down",
        has_plan,
    ),
    ActionRow(
        "event_ahead",
        Menu.LEG,
        tr("Next e&vent"),
        tr("Move own ship to where something next begins, ends or is due; told in the status line"),
        "Alt+Right",
        has_plan,
    ),
    ActionRow(
        "event_astern",
        Menu.LEG,
        tr("Event &before"),
        tr("Move own ship back to where something last began, ended or was due"),
        "Alt+Left",
        has_plan,
    ),
    ActionRow(
        "explain_here",
        Menu.LEG,
        tr("E&xplain what is here"),
        tr("Go over lines, bars, coast and water on own ship's level of the strip, each in words"),
        "F3",
        has_plan,
        starts_group=True,
    ),
    ActionRow(
        "strip_wider",
        Menu.LEG,
        tr("Strip &wider across"),
        tr("Show more water to each side of this leg"),
        "Alt+-",
        has_plan,
    ),
    ActionRow(
        "strip_narrower",
        Menu.LEG,
        tr("Strip na&rrower across"),
        tr("Stretch the strip across, for this leg"),
        "Alt++",
        has_plan,
    ),
    ActionRow(
        "strip_as_planned",
        Menu.LEG,
        tr("Strip as on the s&heet"),
        tr("Show as much water to each side as the printed sheet of this leg"),
        "Alt+0",
        has_plan,
    ),
    ActionRow(
        "compare_offings",
        Menu.LEG,
        tr("&Compare offings…"),
        tr("Plan the leg at other distances to port or starboard and list them side by side"),
        "Ctrl+Shift+O",
        is_idle_with_passage,
        starts_group=True,
    ),
)
