"""All actions of the window in one table: where each stands, its key, when it can be used."""

from dataclasses import dataclass
from enum import Enum

from app.window.when_enabled import (
    EnabledWhen,
    always,
    can_redo,
    can_undo,
    has_last_leg,
    has_next_leg,
    has_passage,
    has_plan,
    has_route,
    is_idle_with_passage,
    is_idle_with_plan,
    is_running,
)


class Menu(Enum):
    """The menus in order."""

    PASSAGE = "&Passage"
    INPUTS = "&Inputs"
    PLAN = "Pl&an"
    LEG = "&Leg"
    EDIT = "&Edit"
    SHOW = "&Show"
    HELP = "&Help"


@dataclass(frozen=True, slots=True)
class ActionRow:
    """One action: its id, where it stands, what it says, its key and when it can be used."""

    id: str
    menu: Menu
    text: str
    tip: str
    shortcut: str
    enabled_when: EnabledWhen = always
    starts_group: bool = False
    in_strip: str = ""
    """Short text for the tool strip at the top; empty where it has no button there."""


ACTIONS: tuple[ActionRow, ...] = (
    ActionRow(
        "open_route",
        Menu.PASSAGE,
        "Open &route…",
        "Take the waypoints from a route file (RTZ, GPX, CSV or GeoJSON)",
        "Ctrl+O",
        in_strip="Route",
    ),
    ActionRow(
        "type_route",
        Menu.PASSAGE,
        "&Type or paste route…",
        "Give the waypoints as text, one a line",
        "Ctrl+T",
    ),
    ActionRow(
        "reverse",
        Menu.PASSAGE,
        "Re&verse the passage",
        "Plan it from the last waypoint to the first, without choices of objects and start time",
        "Ctrl+Shift+V",
        has_route,
    ),
    ActionRow(
        "open_project",
        Menu.PASSAGE,
        "Open pro&ject…",
        "Open a saved project: all inputs, conditions and choices",
        "Ctrl+J",
        starts_group=True,
    ),
    ActionRow("open_demo", Menu.PASSAGE, "Open invented &demo", "An invented passage", "Ctrl+F1"),
    ActionRow(
        "save",
        Menu.PASSAGE,
        "&Save project",
        "Write inputs, conditions and choices into the project file",
        "Ctrl+S",
    ),
    ActionRow(
        "save_as",
        Menu.PASSAGE,
        "Save project &as…",
        "Write the project into another file",
        "Ctrl+Shift+S",
    ),
    ActionRow(
        "preview",
        Menu.PASSAGE,
        "Look at s&heets…",
        "Show the pages as they will print",
        "Ctrl+Shift+P",
        is_idle_with_plan,
        starts_group=True,
        in_strip="Sheets",
    ),
    ActionRow(
        "print", Menu.PASSAGE, "&Print…", "Print the leg sheets on A4", "Ctrl+P", is_idle_with_plan
    ),
    ActionRow(
        "export_pdf",
        Menu.PASSAGE,
        "Sheets as PD&F…",
        "Write the leg sheets into a PDF file",
        "Ctrl+Shift+F",
        is_idle_with_plan,
    ),
    ActionRow(
        "export_json",
        Menu.PASSAGE,
        "Plan as JS&ON…",
        "Write the whole plan as a JSON file",
        "Ctrl+Shift+J",
        is_idle_with_plan,
        starts_group=True,
    ),
    ActionRow(
        "export_geojson",
        Menu.PASSAGE,
        "Coverage as &GeoJSON…",
        "Write what is in sight, lines and viewpoints for a map program",
        "Ctrl+Shift+G",
        is_idle_with_plan,
    ),
    ActionRow(
        "export_csv",
        Menu.PASSAGE,
        "Tables as &CSV…",
        "Write the index table and the wheel-over table",
        "Ctrl+Shift+C",
        is_idle_with_plan,
    ),
    ActionRow(
        "save_picture",
        Menu.PASSAGE,
        "Expected p&icture as PNG…",
        "Write the picture shown, with what it was calculated from",
        "Ctrl+Shift+I",
        is_idle_with_plan,
    ),
    ActionRow(
        "export_route",
        Menu.PASSAGE,
        "Route as RT&Z or GPX…",
        "Write the waypoints and legs as a route file",
        "Ctrl+Shift+R",
        is_idle_with_passage,
    ),
    ActionRow(
        "quit",
        Menu.PASSAGE,
        "&Quit",
        "Close the window; asks where edits are not saved",
        "Ctrl+Q",
        starts_group=True,
    ),
    ActionRow(
        "add_land", Menu.INPUTS, "Add &land files…", "Add elevation or coast files", "Ctrl+L"
    ),
    ActionRow(
        "add_land_folder",
        Menu.INPUTS,
        "Add land &folder…",
        "Add all elevation and coast files of a folder",
        "Ctrl+Shift+L",
        in_strip="Land",
    ),
    ActionRow(
        "clear_land",
        Menu.INPUTS,
        "&Remove all land",
        "Take all land data out of the project",
        "Ctrl+Shift+Backspace",
        lambda document: bool(document.project.land),
    ),
    ActionRow(
        "open_ship",
        Menu.INPUTS,
        "&Ship…",
        "Take draughts, antenna and turning data from a ship file",
        "Ctrl+H",
        starts_group=True,
        in_strip="Ship",
    ),
    ActionRow(
        "open_marks", Menu.INPUTS, "&Marks…", "Take own marks from a CSV or GeoJSON file", "Ctrl+M"
    ),
    ActionRow(
        "open_limits",
        Menu.INPUTS,
        "&Danger limits…",
        "Take distances off, read from the chart, from a CSV file",
        "Ctrl+D",
    ),
    ActionRow(
        "open_streams",
        Menu.INPUTS,
        "Streams &by leg…",
        "Take set, drift and leeway of single legs from a CSV file",
        "Ctrl+Shift+D",
    ),
    ActionRow(
        "open_contingencies",
        Menu.INPUTS,
        "Con&tingency legs…",
        "Take abort points and where to go from them from a CSV file",
        "Ctrl+Shift+T",
    ),
    ActionRow(
        "open_classes",
        Menu.INPUTS,
        "Kinds of &ground…",
        "Take kinds of ground from a GeoTIFF with its table beside it",
        "Ctrl+G",
    ),
    ActionRow(
        "conditions",
        Menu.INPUTS,
        "&Conditions…",
        "Tide, refraction, sweep radius, start time, speed, antenna height",
        "Ctrl+E",
        starts_group=True,
        in_strip="Conditions",
    ),
    ActionRow(
        "anchorage",
        Menu.INPUTS,
        "End at &anchor…",
        "Say that the passage ends at anchor, for an anchoring card",
        "Ctrl+K",
    ),
    ActionRow(
        "compute",
        Menu.PLAN,
        "&Compute plan",
        "Work out every leg from the inputs as they are now",
        "F5",
        has_route,
        in_strip="Compute",
    ),
    ActionRow(
        "stop",
        Menu.PLAN,
        "&Stop",
        "End the computation; the last plan stays",
        "Esc",
        is_running,
    ),
    ActionRow(
        "choose_object",
        Menu.PLAN,
        "Choose index &object…",
        "Put another object in place of the plan's, lock it, remark on it",
        "F2",
        has_plan,
        starts_group=True,
    ),
    ActionRow(
        "issue_revision",
        Menu.PLAN,
        "&Issue as revision…",
        "Keep the plan as it is; later plans mark what changed since",
        "Ctrl+R",
        is_idle_with_plan,
        starts_group=True,
    ),
    ActionRow("next_leg", Menu.LEG, "&Next leg", "Go to the next leg", "Ctrl+Down", has_next_leg),
    ActionRow("last_leg", Menu.LEG, "&Leg before", "Go to the leg before", "Ctrl+Up", has_last_leg),
    ActionRow(
        "cursor_ahead",
        Menu.LEG,
        "Own ship &ahead",
        "Move own ship one viewpoint ahead",
        "Alt+Up",
        has_passage,
        starts_group=True,
    ),
    ActionRow(
        "cursor_astern",
        Menu.LEG,
        "Own ship a&stern",
        "Move own ship one viewpoint astern",
        "Alt+Down",
        has_passage,
    ),
    ActionRow(
        "cursor_end",
        Menu.LEG,
        "Own ship to &end of leg",
        "Move own ship to the waypoint at the end",
        "Alt+End",
        has_passage,
    ),
    ActionRow(
        "cursor_start",
        Menu.LEG,
        "Own ship to s&tart of leg",
        "Move own ship to the waypoint at the start",
        "Alt+Home",
        has_passage,
    ),
    ActionRow(
        "compare_offings",
        Menu.LEG,
        "&Compare offings…",
        "Plan the leg at other distances to port or starboard and list them side by side",
        "Ctrl+Shift+O",
        is_idle_with_passage,
        starts_group=True,
    ),
    ActionRow("undo", Menu.EDIT, "&Undo", "Take the last edit back", "Ctrl+Z", can_undo),
    ActionRow("redo", Menu.EDIT, "&Redo", "Make the edit again", "Ctrl+Shift+Z", can_redo),
    ActionRow(
        "light",
        Menu.SHOW,
        "Day, dusk, &night",
        "Change the colours of the window to the next of day, dusk and night",
        "F8",
        in_strip="Day/dusk/night",
    ),
    ActionRow("next_pane", Menu.SHOW, "Next &pane", "Go to the next part of the window", "F6"),
    ActionRow(
        "show_picture",
        Menu.SHOW,
        "Expected p&icture",
        "Show what the radar is expected to paint at the cursor",
        "Ctrl+I",
        starts_group=True,
        in_strip="Picture",
    ),
    ActionRow(
        "whole_passage",
        Menu.SHOW,
        "&Whole passage",
        "Fit the area view to the whole passage",
        "F9",
        has_passage,
        starts_group=True,
    ),
    ActionRow(
        "this_leg", Menu.SHOW, "This &leg", "Fit the area view to the leg", "F10", has_passage
    ),
    ActionRow(
        "dismiss",
        Menu.SHOW,
        "&Dismiss notice",
        "Take the notice at the top away",
        "F4",
        lambda document: bool(document.notices.waiting),
        starts_group=True,
    ),
    ActionRow("keys", Menu.HELP, "&Keys", "All keys of this window", "F1"),
    ActionRow(
        "about", Menu.HELP, "&About and cautions", "What this is, and what it is not", "Shift+F1"
    ),
)
