"""The land shelf on disk: what is known of land files, kept from session to session."""

from pathlib import Path

from core.base.errors import LegsheetError
from core.files.land_shelf import Shelf, read_shelf, write_shelf


class ShelfStore:
    """Reads the shelf when it is first asked for and writes every change."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._shelf: Shelf | None = None

    @property
    def shelf(self) -> Shelf:
        """What is known."""
        if self._shelf is None:
            self._shelf = read_shelf(self._path)
        return self._shelf

    def put(self, shelf: Shelf) -> None:
        """Keep another shelf; one that cannot be written lasts as long as the window."""
        if shelf == self.shelf:
            return
        self._shelf = shelf
        try:
            write_shelf(self._path, shelf)
        except LegsheetError:
            # Only a cache: what is lost is looked at again.
            return
