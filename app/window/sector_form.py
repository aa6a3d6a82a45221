"""Blind and shadow sectors of the radars by load condition: drawn, or typed in a table."""

from dataclasses import replace
from itertools import takewhile

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QInputDialog,
    QLabel,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.views.sector_dial import SectorDial
from app.window.number_form import call
from core.base.language import tr
from core.ship.ship import BlindSector, LoadCondition, Radar
from core.words.kept_words import shown

_HEADS = (tr("From °"), tr("To °"), tr("Kind"), tr("Cause"))
_KINDS = ("blind", "shadow")


class SectorForm(QWidget):
    """Edits the load conditions of all radars together: a condition is one of the ship."""

    def __init__(
        self, radars: tuple[Radar, ...], load_condition: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        names = [radar.name for radar in radars]
        # By condition, then by the place of the radar in the list: two radars may have one name.
        self._cases: dict[str, dict[int, tuple[BlindSector, ...]]] = {}
        for index, radar in enumerate(radars):
            for case in radar.load_conditions:
                self._cases.setdefault(case.name, {})[index] = case.blind_sectors
        self._now = load_condition if load_condition in self._cases else ""
        self._is_filling = False
        self.radar = QComboBox(self)
        self.radar.addItems(names)
        self.case = QComboBox(self)
        self.dial = SectorDial(self)
        self.table = QTableWidget(0, len(_HEADS), self)
        self.table.setHorizontalHeaderLabels(list(_HEADS))
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setStretchLastSection(True)
        self.table.setAccessibleName(tr("Sectors"))
        add_case, drop_case = (
            QPushButton(tr("N&ew condition…"), self),
            QPushButton(tr("Re&move"), self),
        )
        add, drop = QPushButton(tr("&Add sector"), self), QPushButton(tr("&Delete sector"), self)
        for button, act in (
            (add_case, self._add_case),
            (drop_case, self._drop_case),
            (add, lambda: self.add_sector(0.0, 10.0)),
            (drop, self._drop_sector),
        ):
            button.setAutoDefault(False)
            button.clicked.connect(call(act))
        top = QHBoxLayout()
        for label, box in ((tr("Ra&dar"), self.radar), (tr("&Condition now"), self.case)):
            name = QLabel(label, self)
            name.setBuddy(box)
            top.addWidget(name)
            top.addWidget(box, 1)
        top.addWidget(add_case)
        top.addWidget(drop_case)
        under = QHBoxLayout()
        under.addWidget(add)
        under.addWidget(drop)
        right = QVBoxLayout()
        right.addWidget(self.table, 1)
        right.addLayout(under)
        middle = QHBoxLayout()
        middle.addWidget(self.dial, 1)
        middle.addLayout(right, 1)
        layout = QVBoxLayout(self)
        layout.addLayout(top)
        layout.addLayout(middle, 1)
        self._fill_cases()
        self.radar.currentIndexChanged.connect(call(self._fill))
        self.case.currentTextChanged.connect(self._choose_case)
        self.table.itemChanged.connect(self._take_cell)
        self.table.currentCellChanged.connect(call(self._show_dial))
        self.dial.sector_drawn.connect(self.add_sector)
        self.dial.sector_moved.connect(self._move)
        self.dial.chosen.connect(lambda row: self.table.setCurrentCell(row, 0))
        self._fill()

    @property
    def load_condition(self) -> str:
        """The condition the ship is in now; empty for none."""
        return self._now

    def put_into(self, radars: tuple[Radar, ...]) -> tuple[Radar, ...]:
        """The radars with the sectors as they stand here, in the order of the form."""
        made = []
        for index, radar in enumerate(radars):
            cases = tuple(
                LoadCondition(name=case, blind_sectors=by_radar.get(index, ()))
                for case, by_radar in self._cases.items()
            )
            now = self._cases.get(self._now, {}).get(index, ())
            made.append(replace(radar, load_conditions=cases, blind_sectors=now))
        return tuple(made)

    @property
    def sectors(self) -> tuple[BlindSector, ...]:
        """Those of the radar and condition shown."""
        return self._cases.get(self._now, {}).get(self.radar.currentIndex(), ())

    def add_sector(self, from_deg: float, to_deg: float) -> None:
        """One more; a first condition is made where there is none."""
        if not self._now:
            self._cases["as drawn"] = {}
            self._now = tr("as drawn")
            self._fill_cases()
        sector = BlindSector(from_relative_deg=from_deg, to_relative_deg=to_deg)
        self._put((*self.sectors, sector), len(self.sectors))

    def add_case(self, name: str) -> None:
        """One more condition, with the sectors of the one before to begin with."""
        if name and name not in self._cases:
            self._cases[name] = dict(self._cases.get(self._now, {}))
            self._now = name
            self._fill_cases()
            self._fill()

    def _add_case(self) -> None:
        name, is_ok = QInputDialog.getText(
            self, tr("New load condition"), tr("Its name, such as ballast")
        )
        if is_ok:
            self.add_case(name.strip())

    def _drop_case(self) -> None:
        self._cases.pop(self._now, None)
        self._now = next(iter(self._cases), "")
        self._fill_cases()
        self._fill()

    def _choose_case(self, name: str) -> None:
        if not self._is_filling:
            self._now = name
            self._fill()

    def _drop_sector(self) -> None:
        row = self.table.currentRow()
        if 0 <= row < len(self.sectors):
            kept = self.sectors[:row] + self.sectors[row + 1 :]
            self._put(kept, min(row, len(kept) - 1))

    def _move(self, row: int, from_deg: float, to_deg: float) -> None:
        moved = replace(self.sectors[row], from_relative_deg=from_deg, to_relative_deg=to_deg)
        self._put((*self.sectors[:row], moved, *self.sectors[row + 1 :]), row)

    def _put(self, sectors: tuple[BlindSector, ...], row: int) -> None:
        self._cases[self._now][self.radar.currentIndex()] = sectors
        self._fill()
        self.table.setCurrentCell(row, 0)

    def _fill_cases(self) -> None:
        self._is_filling = True
        self.case.clear()
        self.case.addItems(list(self._cases))
        self.case.setCurrentText(self._now)
        self._is_filling = False

    def _fill(self) -> None:
        self._is_filling = True
        self.table.setRowCount(len(self.sectors))
        for row, sector in enumerate(self.sectors):
            cells = (
                f"{sector.from_relative_deg:g}",
                f"{sector.to_relative_deg:g}",
                shown(_KINDS[sector.is_shadow]),
                sector.cause,
            )
            for column, words in enumerate(cells):
                self.table.setItem(row, column, QTableWidgetItem(words))
        self._is_filling = False
        self._show_dial()

    def _show_dial(self) -> None:
        self.dial.show_sectors(self.sectors, self.table.currentRow())

    def _take_cell(self, item: QTableWidgetItem) -> None:
        """What was typed; what cannot be used turns back."""
        if self._is_filling or not 0 <= item.row() < len(self.sectors):
            return
        sector, text = self.sectors[item.row()], item.text().strip()
        if item.column() <= 1:
            sector = _with_end(sector, item.column(), text)
        elif item.column() == _HEADS.index(tr("Kind")):
            sector = replace(sector, is_shadow=_says_shadow(text))
        else:
            sector = replace(sector, cause=text)
        self._cases[self._now][self.radar.currentIndex()] = (
            *self.sectors[: item.row()],
            sector,
            *self.sectors[item.row() + 1 :],
        )
        self._fill()
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)


def _with_end(sector: BlindSector, column: int, text: str) -> BlindSector:
    try:
        angle_deg = float(text.replace(",", ".")) % 360.0
    except ValueError:
        return sector
    ends = [sector.from_relative_deg, sector.to_relative_deg]
    ends[column] = angle_deg
    if ends[0] == ends[1] or angle_deg != angle_deg:
        return sector
    return replace(sector, from_relative_deg=ends[0], to_relative_deg=ends[1])


def _says_shadow(text: str) -> bool:
    """Whether what was typed begins more like «shadow» than like «blind»."""
    blind, shadow = (_alike(text.casefold(), shown(kind).casefold()) for kind in _KINDS)
    return shadow > blind


def _alike(one: str, other: str) -> int:
    """How many letters two words begin with in common."""
    pairs = zip(one, other, strict=False)
    return sum(1 for _pair in takewhile(lambda pair: pair[0] == pair[1], pairs))
