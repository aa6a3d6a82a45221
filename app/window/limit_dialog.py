"""One danger limit given by hand: off which object, on which leg, how near and how far."""

from PySide6.QtWidgets import QComboBox, QDialogButtonBox, QLabel, QLineEdit, QWidget

from app.views.strip_drag import LIMITS_FROM_CHART
from app.window.conditions_dialog import parse_number
from app.window.form_dialog import FormDialog
from core.base.language import tr
from core.base.units import m_from_nm, nm_from_m
from core.files.limits_file import FARTHEST_NM, LONGEST_NOTE
from core.files.marks_file import LONGEST_NAME
from core.plan.plan_result import DangerLimit, Limit

_EVERY = tr("every leg that uses the object")


class LimitDialog(FormDialog):
    """A limit that is new, or one that is changed; distances are the officer's, off the chart."""

    def __init__(
        self,
        limit: DangerLimit | None,
        names: tuple[str, ...],
        legs: tuple[str, ...],
        taken: frozenset[tuple[str, int | None]],
        *,
        object_id: str = "",
        leg_index: int | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Ask for a limit.

        Parameters
        ----------
        names : tuple
            Marks and objects of the plan, to choose from.
        legs : tuple
            Each leg in words.
        taken : frozenset
            Object, in small letters, and leg of other limits.
        """
        super().__init__(tr("New danger limit") if limit is None else tr("Danger limit"), parent)
        self._limit = limit
        self._taken = taken
        if limit is not None:
            object_id = limit.object_id
            leg_index = None if limit.leg_number is None else limit.leg_number - 1
        self._object = QComboBox(self)
        self._object.setEditable(True)
        self._object.addItems(names)
        self._object.setCurrentText(object_id)
        self._leg = QComboBox(self)
        self._leg.addItems((_EVERY, *legs))
        if leg_index is not None and leg_index < len(legs):
            self._leg.setCurrentIndex(leg_index + 1)
        self._least = self._miles(None if limit is None else limit.least_m)
        self._most = self._miles(None if limit is None else limit.most_m)
        self._note = QLineEdit("" if limit is None else limit.note, self)
        self._note.setMaxLength(LONGEST_NOTE)
        self._note.setPlaceholderText(tr("why, such as the 10 m line"))
        self.row(tr("Off o&bject or mark"), self._object)
        self.row(tr("On &leg"), self._leg)
        self.row(tr("Not less &than, NM"), self._least)
        self.row(tr("Not &more than, NM"), self._most)
        self.row(tr("&Note"), self._note)
        warning = QLabel(LIMITS_FROM_CHART, self)
        warning.setWordWrap(True)
        self.form.addRow(warning)
        self._buttons = self.finish()
        self.is_taken_out = False
        """Whether the limit is to go."""
        if object_id:
            self._least.setFocus()

    def begin_with(self, which: Limit, typed: str) -> None:
        """Put the caret on one of the distances, what was typed already in place of it."""
        edit = self._most if which is Limit.NOT_MORE_THAN else self._least
        if typed:
            edit.setText(typed)
        else:
            edit.selectAll()
        edit.setFocus()

    def offer_taking_out(self) -> None:
        """A button that takes the limit out."""
        button = self._buttons.addButton(
            tr("Take &out"), QDialogButtonBox.ButtonRole.DestructiveRole
        )
        button.clicked.connect(self._take_out)

    def _take_out(self) -> None:
        self.is_taken_out = True
        self.accept()

    @property
    def limit(self) -> DangerLimit | None:
        """What was accepted."""
        return self._limit

    def _miles(self, value_m: float | None) -> QLineEdit:
        edit = QLineEdit("" if value_m is None else f"{nm_from_m(value_m):.5g}", self)
        edit.setPlaceholderText(tr("none"))
        return edit

    @staticmethod
    def _kept(value_nm: float | None, was_m: float | None) -> float | None:
        """The distance in m; what was not typed anew is not rounded."""
        if value_nm is None or was_m is None:
            return None if value_nm is None else m_from_nm(value_nm)
        is_same = f"{value_nm:.5g}" == f"{nm_from_m(was_m):.5g}"
        return was_m if is_same else m_from_nm(value_nm)

    def take(self) -> None:
        """Read the form."""
        object_id = self._object.currentText().strip()
        if not object_id:
            raise ValueError(tr("Give the object or mark that the distance is measured from"))
        if len(object_id) > LONGEST_NAME:
            raise ValueError(
                tr(
                    "The object is longer than {longest_name} letters: shorten it",
                    longest_name=LONGEST_NAME,
                )
            )
        index = self._leg.currentIndex()
        leg_number = None if index <= 0 else index
        least_nm = parse_number(self._least.text(), tr("Not less than"), 0.0, FARTHEST_NM)
        most_nm = parse_number(self._most.text(), tr("Not more than"), 0.0, FARTHEST_NM)
        if least_nm is None and most_nm is None:
            raise ValueError(tr("Give the least distance, the greatest, or both"))
        if least_nm is not None and most_nm is not None and least_nm >= most_nm:
            raise ValueError(
                tr(
                    "Not less than {least_nm:g} is not below not more than {most_nm:g}",
                    least_nm=least_nm,
                    most_nm=most_nm,
                )
            )
        if (object_id.casefold(), leg_number) in self._taken:
            leg = (
                tr("every leg")
                if leg_number is None
                else tr("leg {leg_number}", leg_number=leg_number)
            )
            raise ValueError(
                tr(
                    "There is already a limit off «{object_id}» on {leg}: change that",
                    object_id=object_id,
                    leg=leg,
                )
            )
        was = self._limit
        self._limit = DangerLimit(
            object_id=object_id,
            leg_number=leg_number,
            least_m=self._kept(least_nm, None if was is None else was.least_m),
            most_m=self._kept(most_nm, None if was is None else was.most_m),
            note=self._note.text().strip(),
        )
