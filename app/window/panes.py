"""The panes of the window and how they stand side by side."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QLabel,
    QSplitter,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from app.paint.palette import Palette
from app.state.document import Document
from app.views.area_view import AreaView
from app.views.finding_list import FindingList
from app.views.leg_list import LegList
from app.views.picture_pane import PicturePane
from app.views.plan_tables import PlanTables
from app.views.readout_bar import ReadoutBar
from app.views.strip_view import StripView
from core.base.language import tr
from core.words import quantities


def _headed(head: QLabel, view: QWidget, parent: QWidget) -> QWidget:
    frame = QFrame(parent)
    head.setParent(frame)
    head.setObjectName("pane_head")
    head.setBuddy(view)
    layout = QVBoxLayout(frame)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(1)
    layout.addWidget(head)
    layout.addWidget(view, 1)
    return frame


_AREA_SIZES = [330, 260, 170]
_PICTURE_SIZES = [480, 180, 100]
"""Heights of the upper pane, tables and findings, in proportion."""


class Panes(QSplitter):
    """Leg list, strip with its read-out, then area, tables and findings one above the other."""

    def __init__(self, document: Document, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._document = document
        self.setChildrenCollapsible(False)
        self.legs = LegList(document, self)
        self.strip = StripView(document, palette, self)
        self.readout = ReadoutBar(document, self)
        self.area = AreaView(document, palette, self)
        self.picture = PicturePane(document, palette, self)
        self.tables = PlanTables(document, self)
        self.findings = FindingList(document, self)
        self._legs_head, self._strip_head = QLabel(tr("Legs")), QLabel()
        self._findings_head = QLabel(tr("Findings"))
        strip_pane = _headed(self._strip_head, self.strip, self)
        layout = strip_pane.layout()
        if layout is not None:
            layout.addWidget(self.readout)
        side = QSplitter(Qt.Orientation.Vertical, self)
        side.setChildrenCollapsible(False)
        self.upper = QTabWidget(side)
        self.upper.setDocumentMode(True)
        self.upper.addTab(self.area, tr("&Area"))
        self.upper.addTab(self.picture, tr("Expected p&icture"))
        side.addWidget(self.upper)
        side.addWidget(self.tables)
        findings_pane = _headed(self._findings_head, self.findings, side)
        side.addWidget(findings_pane)
        side.setSizes(_AREA_SIZES)
        self._side = side
        self.upper.currentChanged.connect(self._make_room)
        side.setStretchFactor(0, 3)
        side.setStretchFactor(1, 2)
        side.setStretchFactor(2, 1)
        legs_pane = _headed(self._legs_head, self.legs, self)
        self.addWidget(legs_pane)
        self.addWidget(strip_pane)
        self.addWidget(side)
        self.parts = (legs_pane, strip_pane, self.upper, self.tables, findings_pane)
        self.setStretchFactor(0, 0)
        self.setStretchFactor(1, 3)
        self.setStretchFactor(2, 2)
        self.setSizes([262, 570, 540])
        for signal in (
            document.passage_changed,
            document.outcome_changed,
            document.leg_changed,
            document.project_changed,
        ):
            signal.connect(self._refresh)
        self._refresh()

    def set_colours(self, palette: Palette) -> None:
        """Draw strip, area and picture in another palette."""
        self.strip.set_colours(palette)
        self.area.set_colours(palette)
        self.picture.set_colours(palette)

    def close_threads(self) -> None:
        """Stop what is drawn in the background."""
        self.strip.close_threads()
        self.area.close_threads()
        self.picture.close_threads()

    def show_passage(self) -> None:
        """The whole passage in the area view, brought to the front."""
        self.upper.setCurrentWidget(self.area)
        self.area.show_passage()

    def show_leg(self) -> None:
        """The leg in the area view, brought to the front."""
        self.upper.setCurrentWidget(self.area)
        self.area.show_leg()

    def show_picture(self) -> None:
        """Bring the expected picture to the front."""
        self.upper.setCurrentWidget(self.picture)
        self.picture.rows.setFocus()

    def focus_next(self) -> None:
        """Go from pane to pane."""
        front = self.upper.currentWidget()
        stops: list[QWidget] = [self.legs, self.strip, front, self.tables, self.findings]
        here = next(
            (i for i, pane in enumerate(stops) if pane.hasFocus() or _holds_focus(pane)), -1
        )
        pane = stops[(here + 1) % len(stops)]
        if pane is self.tables:
            self.tables.currentWidget().setFocus(Qt.FocusReason.TabFocusReason)
        else:
            pane.setFocus(Qt.FocusReason.TabFocusReason)

    def _make_room(self) -> None:
        """The picture wants more room than the area; tables and findings give it."""
        is_picture = self.upper.currentWidget() is self.picture
        self._side.setSizes(_PICTURE_SIZES if is_picture else _AREA_SIZES)

    def _refresh(self) -> None:
        document = self._document
        count = document.leg_count
        self._legs_head.setText(tr("Legs ({count})", count=count) if count else tr("Legs"))
        words = ""
        if document.passage is not None and document.leg_index < count:
            start, end = document.passage.waypoints[document.leg_index : document.leg_index + 2]
            line = document.passage.line(document.leg_index)
            words = tr(
                "Leg {leg_number}: {from_name} → {to_name}   {track}   {distance}",
                leg_number=document.leg_index + 1,
                from_name=start.name,
                to_name=end.name,
                track=quantities.track(line.course_deg),
                distance=quantities.distance(line.length_m),
            )
        self._strip_head.setText(words or tr("Leg strip"))
        outcome = document.outcome
        findings = outcome.findings if outcome is not None else ()
        self._findings_head.setText(
            tr("Findings ({count})", count=len(findings)) if findings else tr("Findings")
        )


def _holds_focus(pane: QWidget) -> bool:
    focus = QApplication.focusWidget()
    return focus is not None and pane.isAncestorOf(focus)
