"""The menu at a place in the area view: what can be done there."""

from collections.abc import Callable

from PySide6.QtWidgets import QMenu, QWidget

from app.state.document import Document
from app.views.area_tools import AreaTools
from core.base.language import tr
from core.geodesy.position import Position


def fill_menu(
    parent: QWidget,
    document: Document,
    tools: AreaTools,
    place: Position,
    *,
    waypoint: int | None,
    leg: int | None,
    mark: str | None,
    ask_mark: Callable[[Position], None],
    ask_limit: Callable[[str], None],
    ask_table: Callable[[int], None],
) -> QMenu:
    """A menu for a place.

    Parameters
    ----------
    waypoint, leg : int or None
        Those under the place, from 0.
    mark : str or None
        The nearest mark or index object, for a danger limit off it.
    """
    menu = QMenu(parent)
    line = document.line

    def row(text: str, do: Callable[[], None], *, is_on: bool = True) -> None:
        action = menu.addAction(text)
        action.setEnabled(is_on)
        action.triggered.connect(lambda _checked: do())

    if line is not None:
        if waypoint is not None and waypoint < len(line.waypoints):
            name = line.waypoints[waypoint].name.replace("&", "&&")
            row(tr("&Choose waypoint {name}", name=name), lambda: tools.choose(waypoint))
            row(
                tr("&Delete waypoint {name}", name=name),
                lambda: tools.delete(waypoint),
                is_on=len(line.waypoints) > 2,
            )
        if leg is not None:
            row(
                tr("&Insert waypoint on leg {leg_number} here", leg_number=leg + 1),
                lambda: tools.insert_on(leg, place),
            )
        near = leg + 1 if waypoint is None and leg is not None else waypoint
        if near is not None:
            row(tr("Waypoints and legs as a &table…"), lambda: ask_table(near))
        row(tr("Add waypoint here &behind the last"), lambda: tools.add(place, at_start=False))
        row(tr("Add waypoint here before the &first"), lambda: tools.add(place, at_start=True))
        menu.addSeparator()
    row(tr("&Measure from here"), lambda: tools.start_ruler(place, is_start_set=True))
    menu.addSeparator()
    row(tr("New m&ark here…"), lambda: ask_mark(place))
    if mark is not None:
        shown = mark.replace("&", "&&")
        row(tr("Danger &limit off {object}…", object=shown), lambda: ask_limit(mark))
    else:
        row(tr("Danger &limit…"), lambda: ask_limit(""))
    return menu
