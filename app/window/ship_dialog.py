"""Own ship edited in the window: size, radars, blind sectors; kept in the project."""

from dataclasses import replace

from PySide6.QtWidgets import QDialogButtonBox, QLabel, QTabWidget, QVBoxLayout, QWidget

from app.views.soft_caret import SoftCaret
from app.window.careful_dialog import CarefulDialog, typed_in
from app.window.sector_form import SectorForm
from app.window.ship_forms import RadarForm, ShipForm
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.reading import blob_of
from core.files.ship_file import read_ship
from core.files.ship_write import ship_text
from core.ship.ship import Ship

_NOTE = tr(
    "What is changed here is kept in the project; the ship file stays "
    "as it is. Figures come from the ship's papers and the radar's "
    "certificates."
)


class ShipDialog(CarefulDialog):
    """Checked by the reader of ship files before it closes."""

    def __init__(self, ship: Ship, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._ship = ship
        self.text = ""
        self.setWindowTitle(tr("Own ship"))
        self.tabs = QTabWidget(self)
        self.ship_form = ShipForm(ship, self)
        self.radar_forms = tuple(RadarForm(radar, self) for radar in ship.radars)
        self.sector_form = SectorForm(ship.radars, ship.load_condition, self)
        self.tabs.addTab(self.ship_form, tr("&1 Ship"))
        for number, form in enumerate(self.radar_forms, start=2):
            self.tabs.addTab(form, f"&{number} {ship.radars[number - 2].name[:24]}")
        last = len(self.radar_forms) + 2
        self.tabs.addTab(self.sector_form, tr("&{last} Blind sectors", last=last))
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._trouble.setMinimumHeight(self._trouble.fontMetrics().lineSpacing() * 2)
        buttons = QDialogButtonBox(self)
        buttons.addButton(tr("&Use this ship"), QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self._try)
        buttons.rejected.connect(self.reject)
        note = QLabel(_NOTE, self)
        note.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.addWidget(note)
        layout.addWidget(self.tabs, 1)
        layout.addWidget(self._trouble)
        layout.addWidget(buttons)
        SoftCaret(self)
        self.resize(900, 560)

    @property
    def trouble(self) -> str:
        """What cannot be used, empty where all can."""
        return self._trouble.text()

    def state(self) -> object:
        """All fields, and the sectors of every radar and load condition."""
        forms = (self.ship_form, *self.radar_forms)
        sectors = self.sector_form.put_into(self._ship.radars)
        now = self.sector_form.load_condition
        return (*(typed_in(form) for form in forms), sectors, now)

    def read(self) -> Ship:
        """The ship as it stands in the forms.

        Raises
        ------
        ValueError
            One sentence about what cannot be used.
        """
        ship = self.ship_form.read()
        radars = tuple(form.read(ship) for form in self.radar_forms)
        return replace(
            ship,
            radars=self.sector_form.put_into(radars),
            load_condition=self.sector_form.load_condition,
        )

    def _try(self) -> None:
        try:
            text = ship_text(self.read())
            read_ship(blob_of(tr("Own ship"), text.encode("utf-8")))
        except (ValueError, LegsheetError) as exc:
            self._trouble.setText(str(exc))
            return
        self.text = text
        self.accept()
