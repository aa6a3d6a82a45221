"""Land looked at before: what each file is and covers, and which of them the passage takes."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.state.shelf_store import ShelfStore
from app.window.ask import Ask
from app.work.core_jobs import CoreJobs
from app.work.land_looks import look_at_each
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.land_shelf import Shelf, ShelfFile
from core.land.land_fit_result import LandFit
from core.passage.passage import Passage
from core.plan.object_result import Grade
from core.words.land_fit_words import area_words, fit_words, percent_of

_HEADS = (
    tr("File"),
    tr("Folder"),
    tr("Area"),
    tr("What"),
    tr("Resolution"),
    tr("Released"),
    tr("Licence"),
    tr("Quality"),
    tr("Covers"),
)
_WIDTHS = (150, 170, 225, 55, 115, 85, 90, 115, 50)
_MOST_FOLDER = 20


class LandDialog(QDialog):
    """A table of all land looked at; ticked files are taken, in the order heights, coast.

    Parameters
    ----------
    land : tuple of Path
        Files and folders the project takes now.
    passage : Passage or None
        Held against the files where one is known.
    """

    def __init__(
        self,
        store: ShelfStore,
        jobs: CoreJobs,
        land: tuple[Path, ...],
        passage: Passage | None,
        radius_m: float,
        ask: Ask,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._store, self._jobs, self._ask = store, jobs, ask
        self._land, self._passage, self._radius_m = land, passage, radius_m
        # Files and folders whose files are ticked once, when they are next shown.
        self._to_tick = {path.resolve() for path in land}
        self._runner = Runner("legsheet-land", self)
        self.setWindowTitle(tr("Land data"))
        self.table = QTreeWidget(self)
        self.table.setHeaderLabels(list(_HEADS))
        self.table.setRootIsDecorated(False)
        self.table.setAccessibleName(tr("Land files"))
        for column, width in enumerate(_WIDTHS):
            head = self.table.header().sectionSizeHint(column)
            self.table.setColumnWidth(column, max(width, head))
        self._words = QLabel(self)
        self._words.setWordWrap(True)
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._bar = QProgressBar(self)
        self._bar.setRange(0, 1000)
        self._bar.setTextVisible(False)
        files, folder = QPushButton(tr("Add &files…"), self), QPushButton(tr("Add f&older…"), self)
        self._fit = QPushButton(tr("&Tick what covers the passage"), self)
        forget = QPushButton(tr("Fo&rget"), self)
        forget.setToolTip(tr("Take the file out of this list; the file itself stays where it is"))
        buttons = QDialogButtonBox(self)
        self._ok = buttons.addButton(
            tr("&Use ticked files"), QDialogButtonBox.ButtonRole.AcceptRole
        )
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        files.clicked.connect(lambda: self._look(self._ask.files(tr("Add land files"), "land")))
        folder.clicked.connect(self.add_folder)
        self._fit.clicked.connect(self.tick_what_fits)
        forget.clicked.connect(self._forget)
        row = QHBoxLayout()
        for button in (files, folder, self._fit, forget):
            button.setAutoDefault(False)
            row.addWidget(button)
        row.addWidget(self._bar, 1)
        layout = QVBoxLayout(self)
        layout.addWidget(self.table, 1)
        layout.addWidget(self._words)
        layout.addWidget(self._trouble)
        layout.addLayout(row)
        layout.addWidget(buttons)
        self.resize(1100, 460)
        self.table.itemChanged.connect(self._refresh_words)
        self._runner.progressed.connect(lambda share, _text: self._bar.setValue(round(share * 1e3)))
        self._bar.hide()
        self._trouble.hide()
        self._show()
        if land:
            self._look(list(land), is_asked=False)
        self.table.setFocus()

    @property
    def ticked(self) -> tuple[Path, ...]:
        """The files ticked, as the table lists them."""
        return tuple(
            self._path(item)
            for item in self._items()
            if item.checkState(0) is Qt.CheckState.Checked
        )

    @property
    def chosen(self) -> tuple[Path, ...] | None:
        """What the project is to take; None where that is what it takes already."""
        ticked = self.ticked
        known = [
            file.path
            for file in self._store.shelf.below(self._land).files
            if file.kind != "unusable"
        ]
        is_whole = all(self._store.shelf.below((path,)).files for path in self._land)
        return None if set(ticked) == set(known) and self._land and is_whole else ticked

    def tick_what_fits(self) -> None:
        """Tick the files that cover some of the passage, and no others."""
        if self._passage is None:
            return
        fit = self._jobs.land_fit(self._store.shelf, self._passage, self._radius_m)
        for item in self._items():
            state = Qt.CheckState.Checked if self._path(item) in fit.paths else _NOT
            if item.flags() & Qt.ItemFlag.ItemIsUserCheckable:
                item.setCheckState(0, state)

    def close_threads(self) -> None:
        """Stop what is looked at in the background."""
        self._runner.close()

    def done(self, result: int) -> None:
        """Close, with nothing left running."""
        self.close_threads()
        super().done(result)

    def _items(self) -> list[QTreeWidgetItem]:
        items = (self.table.topLevelItem(i) for i in range(self.table.topLevelItemCount()))
        return [item for item in items if item is not None]

    @staticmethod
    def _path(item: QTreeWidgetItem) -> Path:
        return Path(str(item.data(0, Qt.ItemDataRole.UserRole)))

    def add_folder(self) -> None:
        """Ask for a folder, look at it and tick what is in it."""
        folder = self._ask.folder(tr("Add land folder"))
        self._look([folder] if folder is not None else [])

    def _look(self, paths: list[Path], *, is_asked: bool = True) -> None:
        """Look at files; those asked for are ticked, of others only such as were not listed."""
        if not paths:
            return
        shelf = self._store.shelf
        untouched = set() if is_asked else {file.path for file in shelf.files}
        self._bar.show()
        self._trouble.hide()

        def done(looked: Shelf) -> None:
            self._bar.hide()
            self._to_tick = {f.path for f in looked.below(paths).files} - untouched
            self._store.put(looked)
            self._show()

        def failed(error: LegsheetError) -> None:
            self._bar.hide()
            self._trouble.setText(str(error))
            self._trouble.show()

        def work(progress: JobProgress) -> Shelf:
            if is_asked:
                return self._jobs.look_at_land(shelf, tuple(paths), progress)
            # What is in use is listed as far as there is any.
            return look_at_each(self._jobs, shelf, tuple(paths), progress).shelf

        self._runner.submit(
            work,
            done=done,
            failed=failed,
            stopped=self._bar.hide,
        )

    def _forget(self) -> None:
        item = self.table.currentItem()
        if item is not None:
            self._store.put(self._store.shelf.without([self._path(item)]))
            self._show()

    def _show(self) -> None:
        """The whole shelf; what covers the passage first."""
        shelf = self._store.shelf
        fit = LandFit(paths=(), kinds=(), shares=(), legs=())
        if self._passage is not None:
            fit = self._jobs.land_fit(shelf, self._passage, self._radius_m)
        shares = dict(zip(fit.paths, fit.shares, strict=True))
        ticked = self.ticked if self.table.topLevelItemCount() else ()
        self.table.blockSignals(True)
        self.table.clear()
        for file in sorted(shelf.files, key=lambda f: (-shares.get(f.path, 0.0), str(f.path))):
            self.table.addTopLevelItem(self._item(file, shares.get(file.path), ticked))
        self._to_tick = set()
        self.table.blockSignals(False)
        self._fit.setEnabled(self._passage is not None)
        self._refresh_words()

    def _item(
        self, file: ShelfFile, share: float | None, ticked: tuple[Path, ...]
    ) -> QTreeWidgetItem:
        is_usable, folder = file.kind != "unusable", _end_of(file.path.parent)
        covers = "" if self._passage is None else f"{percent_of(share or 0.0)} %"
        quality = f"{Grade(file.grade).shown}: {file.reason}" if file.grade else tr("not looked at")
        kind = tr("heights") if file.kind == "elevation" else tr("coast")
        cells = (
            [file.path.name, folder, area_words(file.areas), kind, file.resolution,
             file.released or tr("not stated"), file.licence or tr("not stated"), quality, covers]
            if is_usable
            else [file.path.name, folder, "", tr("not usable"), "", "", "", file.problem, ""]
        )  # fmt: skip
        item = QTreeWidgetItem(cells)
        item.setData(0, Qt.ItemDataRole.UserRole, str(file.path))
        item.setToolTip(0, str(file.path))
        for column, words in enumerate(cells[2:], start=2):
            item.setToolTip(column, words)
        item.setToolTip(1, str(file.path.parent))
        if is_usable:
            parents = {file.path, *file.path.parents}
            is_taken = file.path in ticked or bool(parents & self._to_tick)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(0, Qt.CheckState.Checked if is_taken else _NOT)
        return item

    def _refresh_words(self) -> None:
        ticked = set(self.ticked)
        self._ok.setEnabled(bool(ticked))
        if self._passage is None:
            self._words.setText(tr("No passage is open: what covers it is told once there is one."))
            return
        if not ticked:
            self._words.setText(tr("Nothing is ticked."))
            return
        shelf = self._store.shelf
        chosen = replace(shelf, files=tuple(f for f in shelf.files if f.path in ticked))
        fit = self._jobs.land_fit(chosen, self._passage, self._radius_m)
        self._words.setText(tr("Ticked: {fit}", fit=fit_words(fit)))


_NOT = Qt.CheckState.Unchecked


def _end_of(folder: Path) -> str:
    """The end of a folder's path, by which folders are told apart."""
    words = str(folder)
    return words if len(words) <= _MOST_FOLDER else f"…{words[1 - _MOST_FOLDER :]}"
