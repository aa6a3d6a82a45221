"""One action of the window, and the menus that hold them."""

from dataclasses import dataclass
from enum import Enum

from app.window.when_enabled import EnabledWhen, always
from core.base.language import tr


class Menu(Enum):
    """The menus in order."""

    PASSAGE = tr("&Passage")
    INPUTS = tr("&Inputs")
    PLAN = tr("Pl&an")
    LEG = tr("&Leg")
    EDIT = tr("&Edit")
    SHOW = tr("&Show")
    HELP = tr("&Help")


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
