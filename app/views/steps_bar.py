"""The way from a route to a plan in steps, each saying what it has and which comes next."""

from collections.abc import Mapping

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QToolButton, QWidget

from app.state.document import Document
from core.base.language import tr, tr_n

STEPS = ("open_route", "add_land_folder", "open_ship", "compute")
"""Ids of the actions of the steps, in order."""


class StepsBar(QWidget):
    """A button a step; the one to do next is framed."""

    def __init__(
        self, document: Document, actions: Mapping[str, QAction], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document = document
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        self.buttons: dict[str, QToolButton] = {}
        for name in STEPS:
            action = actions[name]
            button = QToolButton(self)
            button.setObjectName(f"step_{name}")
            button.setToolTip(action.toolTip())
            button.clicked.connect(action.trigger)
            layout.addWidget(button)
            self.buttons[name] = button
        self._actions = actions
        for signal in (
            document.project_changed,
            document.passage_changed,
            document.outcome_changed,
            document.job.turned,
        ):
            signal.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Say what each step has."""
        words = self._words()
        following = self._following()
        for name, button in self.buttons.items():
            button.setText(words[name])
            button.setEnabled(self._actions[name].isEnabled() or name != "compute")
            is_next = name == following
            if button.property("next") != is_next:
                button.setProperty("next", is_next)
                button.style().unpolish(button)
                button.style().polish(button)

    def _words(self) -> dict[str, str]:
        project = self._document.project
        has_route = project.route is not None or bool(project.route_text)
        legs = self._document.leg_count
        route = tr("given") if has_route else tr("none")
        if has_route and legs:
            route = tr_n("{count} leg", "{count} legs", legs)
        count = len(project.land)
        land = project.land[0].name if count == 1 else tr("{count} places", count=count)
        ship = tr("edited") if project.ship_text else tr("built-in")
        if project.ship is not None and not project.ship_text:
            ship = project.ship.stem.replace("_", " ")
        compute = tr("Compute")
        if self._document.outcome is not None:
            compute = tr("Compute again") if self._document.is_stale else tr("Computed")
        return {
            "open_route": tr("1 Route: {route}", route=route),
            "add_land_folder": tr("2 Land: {name}", name=_short(land) if count else tr("none")),
            "open_ship": tr("3 Ship: {name}", name=_short(ship)),
            "compute": tr("4 {compute}", compute=compute),
        }

    def _following(self) -> str:
        """The step to do next; none while a plan is computed or is up to date."""
        document, project = self._document, self._document.project
        if document.job.is_running:
            return ""
        if project.route is None and not project.route_text:
            return "open_route"
        if not project.land:
            return "add_land_folder"
        if document.outcome is None or document.is_stale:
            return "compute"
        return ""


def _short(words: str) -> str:
    return words if len(words) <= 18 else f"{words[:17]}…"
