"""Projects and routes last opened or saved."""

from pathlib import Path

from app.state.settings import RECENT, Settings

MOST = 9


class Recent:
    """The list as the settings keep it, the last one first."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings

    @property
    def paths(self) -> tuple[Path, ...]:
        """At most nine."""
        return tuple(Path(text) for text in self._settings.get(RECENT) if text)[:MOST]

    def add(self, path: Path) -> None:
        """Put a file first."""
        whole = path.absolute()
        kept = [one for one in self.paths if one != whole]
        self._settings.put(RECENT, tuple(str(one) for one in [whole, *kept][:MOST]))
