"""What the program says in windows, steps, errors, findings and help, for ``foreign_window``.

All of it is imported as it is used: by then the invented language is chosen.
"""

import contextlib
import io
from collections.abc import Callable
from dataclasses import replace
from enum import Enum
from pathlib import Path
from typing import Any

from tests.helpers.foreign_catalogue import OPEN

_ROUTES = {
    "empty.csv": "",
    "one.txt": "START 56 12.34N 005 45.60W\n",
    "twice.csv": "name,lat,lon\nA,50,0\nB,50,0\n",
    "pole.csv": "name,lat,lon\nA,50,0\nB,89.9999,0\n",
    "words.csv": "name,lat,lon\nA,here,there\nB,51,0\n",
    "cut.gpx": "<gpx><rte>",
    "points.gpx": "<gpx><wpt lat='1' lon='1'/></gpx>",
    "broken.geojson": '{"type": "FeatureCollection", "features": [',
    "other.geojson": '{"type": "Topology"}',
    "no.rtz": "<route version='1.0'><routeInfo/></route>",
}
_MARKS = {
    "name.csv": "name,lat,lon\n,50,0\n",
    "twice.csv": "name,lat,lon\nA,50,0\nA,51,0\n",
    "place.csv": "name,lat,lon\nA,50,here\n",
    "fixed.csv": "name,lat,lon,fixed\nA,50,0,perhaps\n",
}
_LIMITS = {"none.csv": "object,leg\nA,1\n", "leg.csv": "object,leg,nlt\nA,x,1\n"}
_SHIPS = {"none.toml": "", "radar.toml": 'name = "x"\n', "list.toml": "name = 3\n"}


def texts_of(root: Any) -> set[str]:
    """What is written on the widgets of a window, in its tables, tips and menus."""
    from PySide6.QtCore import Qt
    from PySide6.QtGui import QAction
    from PySide6.QtWidgets import (
        QAbstractButton,
        QComboBox,
        QGroupBox,
        QLabel,
        QTableView,
        QTabWidget,
        QWidget,
    )

    found: set[str] = set()
    for widget in (root, *root.findChildren(QWidget)):
        found |= {widget.windowTitle(), widget.toolTip(), widget.statusTip()}
        # Parts that Qt makes for itself have names of their own.
        if not widget.objectName().startswith("qt_"):
            found.add(widget.accessibleName())
        if isinstance(widget, QLabel | QAbstractButton):
            found.add(widget.text())
        elif isinstance(widget, QGroupBox):
            found.add(widget.title())
        elif isinstance(widget, QComboBox):
            found.update(widget.itemText(number) for number in range(widget.count()))
        elif isinstance(widget, QTabWidget):
            found.update(widget.tabText(number) for number in range(widget.count()))
        elif isinstance(widget, QTableView):
            table, across = widget.model(), Qt.Orientation.Horizontal
            for column in range(table.columnCount()):
                found.add(str(table.headerData(column, across)))
                for row in range(table.rowCount()):
                    found.add(str(table.index(row, column).data() or ""))
    for action in root.findChildren(QAction):
        found |= {action.text(), action.statusTip(), action.toolTip()}
    return found


def steps_of(window: Any) -> set[str]:
    """What undo and a read-only project say of edits."""
    from core.plan.plan_result import Override

    document = window._document
    stack, found = document.undo_stack, set[str]()
    steps: tuple[Callable[[], None], ...] = (
        lambda: document.set_options(replace(document.project.options, sea_state=5.0)),
        lambda: document.set_override(Override(leg_number=1, role="check", object_id="A")),
        lambda: document.clear_override(1, "check"),
        document.reverse,
    )
    for step in steps:
        step()
        found |= {stack.undoText(), window.actions_by_id["undo"].text()}
    while stack.canUndo():
        stack.undo()
        found.add(window.actions_by_id["redo"].text())
    document.standing.begin(read_only=OPEN)
    document.reverse()
    return found | {notice.text for notice in document.notices.waiting}


def said_elsewhere(folder: Path) -> set[str]:
    """Sentences of errors and findings, words of files, help of the command line."""
    return _errors(folder) | _kept_words() | _help()


def _errors(folder: Path) -> set[str]:
    from core.base.errors import LegsheetError
    from core.files.limits_file import read_limits
    from core.files.marks_file import read_marks
    from core.files.readers import read_passage
    from core.files.ship_file import read_ship
    from core.files.writing import check_writable

    found: set[str] = set()

    def told(what: Callable[[], Any]) -> None:
        try:
            what()
        except LegsheetError as exc:
            found.update((exc.what, exc.todo))

    for files, read in (
        (_ROUTES, read_passage),
        (_MARKS, read_marks),
        (_LIMITS, read_limits),
        (_SHIPS, read_ship),
    ):
        for name, text in files.items():
            path = folder / name
            path.write_text(text, encoding="utf-8")
            told(lambda read=read, path=path: read(path))  # type: ignore[misc]
    told(lambda: check_writable((folder / "none" / "x.pdf",)))
    told(lambda: check_writable((folder,)))
    if len(found) < 25:
        raise RuntimeError(f"only these errors were told: {found}")
    return found


def _kept_words() -> set[str]:
    from core.base.language import Worded
    from core.words import kept_words

    def all_of(kind: type[Enum]) -> set[str]:
        own = {member.shown for member in kind if isinstance(member, Worded)}
        return own.union(*(all_of(below) for below in kind.__subclasses__()))

    return all_of(Worded) | set(kept_words._SHOWN.values())


def _help() -> set[str]:
    """Help of all commands, without the words that argparse adds itself."""
    from app.base.arguments import _parser

    found = set()
    waiting = [_parser()]
    while waiting:
        parser = waiting.pop()
        found |= {parser.description or "", parser.epilog or ""}
        for action in parser._actions:
            found.add(action.help or "")
            choices = action.choices
            if isinstance(choices, dict):
                waiting += choices.values()
                found |= {one.help or "" for one in action._choices_actions}  # type: ignore[attr-defined]
    with contextlib.redirect_stdout(io.StringIO()):
        _parser().print_help()
    return {text for text in found if text not in ("show this help message and exit", "")}


def names_of(outcome: Any) -> list[str]:
    """Names and remarks of the officer's own, which stand in files; longest first."""
    request = outcome.request
    ship = request.ship
    names = {ship.name, outcome.plan.passage.name, *(w.name for w in request.passage.waypoints)}
    names |= {mark.name for mark in (*request.marks, *request.places)}
    names |= {limit.note for limit in request.limits} | {
        limit.object_id for limit in request.limits
    }
    names |= {radar.name for radar in ship.radars}
    for radar in ship.radars:
        for case in radar.load_conditions:
            names |= {case.name, *(sector.cause for sector in case.blind_sectors)}
    names |= {path.name for path in request.land_paths}
    names |= {file.name for file in request.inputs}
    names |= {one.name for one in request.contingencies}
    return sorted(filter(None, names), key=len, reverse=True)
