"""How wide the officer wants the water beside each leg: the stretch across, kept by leg."""

from app.state.document import Document
from core.base.units import m_from_nm

_WIDTHS_M = tuple(m_from_nm(nm) for nm in (0.5, 0.75, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24))


class LegWidths:
    """Half widths by the names of a leg's waypoints, so that edits of other legs keep them."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._widths_m: dict[tuple[str, str], float] = {}
        document.opened.connect(self._widths_m.clear)

    def _key(self) -> tuple[str, str] | None:
        passage, index = self._document.passage, self._document.leg_index
        if passage is None or index + 1 >= len(passage.waypoints):
            return None
        return passage.waypoints[index].name, passage.waypoints[index + 1].name

    @property
    def chosen_m(self) -> float | None:
        """Distance from the track to each edge of the chosen leg; None as on the sheet."""
        key = self._key()
        return None if key is None else self._widths_m.get(key)

    def step(self, steps: int, now_m: float) -> bool:
        """Wider by steps from ``now_m`` where nothing is chosen yet; whether that changes it."""
        key = self._key()
        if key is None:
            return False
        now_m = self._widths_m.get(key, now_m)
        far = [abs(width - now_m) for width in _WIDTHS_M]
        number = min(max(far.index(min(far)) + steps, 0), len(_WIDTHS_M) - 1)
        if _WIDTHS_M[number] == now_m:
            return False
        self._widths_m[key] = _WIDTHS_M[number]
        return True

    def forget(self) -> bool:
        """As wide as on the sheet again; whether that changes it."""
        key = self._key()
        return key is not None and self._widths_m.pop(key, None) is not None
