"""What windows lost that ended without being closed: take it up again, or not."""

from collections.abc import Callable, Sequence
from enum import Enum

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QListWidget,
    QVBoxLayout,
    QWidget,
)

from core.base.errors import InputError
from core.base.language import tr
from core.files.autosave_file import Autosave
from core.words.old_plan_words import moment_words


class Recovery(Enum):
    """What to do with one of them."""

    RECOVER = "recover"
    THROW = tr("throw away")
    LATER = "later"


def lost_words(save: Autosave | None) -> str:
    """What it is, from when, of which project."""
    if save is None:
        return tr("Edits that cannot be read any more (the file is damaged)")
    name = save.title or (
        save.path.stem if save.path is not None else tr("A passage without a name")
    )
    last = tr(", last: {last_edit}", last_edit=save.last_edit) if save.last_edit else ""
    words = tr(
        "{name}: edits of {moment}{last}",
        name=name,
        moment=moment_words(save.saved_utc.isoformat()),
        last=last,
    )
    if save.path is None:
        return tr("{autosave}\nNever saved as a project", autosave=words) + (
            tr(" (invented demo)") if save.is_demo else ""
        )
    return tr(
        "{autosave}\nProject {name} in {parent}, {as_it_stands}",
        autosave=words,
        name=save.path.name,
        parent=save.path.parent,
        as_it_stands=_as_it_stands(save),
    )


def _as_it_stands(save: Autosave) -> str:
    from core.files.hashing import sha256_of

    if save.path is None or not save.path.exists():
        return tr("which is not there now")
    try:
        is_same = sha256_of(save.path) == save.base_sha256
    except InputError:
        return tr("which cannot be read now")
    return tr("without these edits") if is_same else tr("which was changed by another window since")


class RecoveryDialog(QDialog):
    """Lists them, the newest first and chosen."""

    def __init__(
        self,
        saves: Sequence[Autosave | None],
        throw_away: Callable[[int], None],
        parent: QWidget | None = None,
    ) -> None:
        """``throw_away`` is called with the index of each that the officer wants no more."""
        super().__init__(parent)
        self._throw = throw_away
        self._saves = list(enumerate(saves))
        self.chosen: int | None = None
        self.setWindowTitle(tr("Edits that were not saved"))
        head = QLabel(
            tr(
                "This program ended without being closed. Recover opens the "
                "project with these edits, still to be saved; Later keeps them for "
                "the next start."
            ),
            self,
        )
        head.setWordWrap(True)
        self._list = QListWidget(self)
        self._list.setWordWrap(True)
        self._list.setAccessibleName(tr("Edits that were not saved, the newest first"))
        self._list.addItems([lost_words(save) for save in saves])
        self._list.itemActivated.connect(lambda _item: self._recover_chosen())
        buttons = QDialogButtonBox(self)
        self._recover = buttons.addButton(tr("&Recover"), QDialogButtonBox.ButtonRole.AcceptRole)
        throw = buttons.addButton(tr("&Throw away"), QDialogButtonBox.ButtonRole.DestructiveRole)
        buttons.addButton(tr("&Later"), QDialogButtonBox.ButtonRole.RejectRole)
        self._recover.setDefault(True)
        buttons.accepted.connect(self._recover_chosen)
        throw.clicked.connect(self._throw_chosen)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(head)
        layout.addWidget(self._list, 1)
        layout.addWidget(buttons)
        self.resize(680, 320)
        self._list.currentRowChanged.connect(self._check)
        self._list.setCurrentRow(0)
        self._list.setFocus()

    def _check(self, row: int) -> None:
        self._recover.setEnabled(row >= 0 and self._saves[row][1] is not None)

    def _recover_chosen(self) -> None:
        row = self._list.currentRow()
        if row >= 0 and self._saves[row][1] is not None:
            self.chosen = self._saves[row][0]
            self.accept()

    def _throw_chosen(self) -> None:
        row = self._list.currentRow()
        if row < 0:
            return
        index, _save = self._saves.pop(row)
        self._list.takeItem(row)
        self._throw(index)
        if not self._saves:
            self.reject()
        else:
            self._check(self._list.currentRow())
            self._list.setFocus()
