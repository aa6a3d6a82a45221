"""What is being computed and how far it is, with the stop button beside it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QPushButton, QSizePolicy, QWidget

from app.state.document import Document
from core.base.language import tr


class JobBar(QWidget):
    """Progress line: words, a bar, a stop; or the state of the plan when nothing runs."""

    stop_asked = Signal()

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._text = QLabel(self)
        self._text.setObjectName("job_text")
        self._text.setMinimumWidth(120)
        self._text.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._text.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._bar = QProgressBar(self)
        self._bar.setRange(0, 1000)
        self._bar.setTextVisible(False)
        self._bar.setFixedWidth(110)
        self._bar.setMaximumHeight(14)
        self._bar.setAccessibleName(tr("Progress"))
        self._stop = QPushButton(tr("Stop (Esc)"), self)
        self._stop.clicked.connect(self.stop_asked)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(6, 0, 6, 0)
        layout.addWidget(self._text, 1)
        layout.addWidget(self._bar)
        layout.addWidget(self._stop)
        # Else the row grows by a pixel when they come, and everything below is laid out anew.
        self.setMinimumHeight(max(self._bar.sizeHint().height(), self._stop.sizeHint().height()))
        document.job.changed.connect(self._refresh)
        document.project_changed.connect(self._refresh)
        document.outcome_changed.connect(self._refresh)
        document.legs_done_changed.connect(self._refresh)
        self._refresh()

    def _refresh(self) -> None:
        job = self._document.job
        self._bar.setVisible(job.is_running)
        self._stop.setVisible(job.is_running)
        self._stop.setEnabled(not job.is_stopping)
        if job.is_running:
            self._bar.setValue(round(job.fraction * 1000))
            words = tr("Stopping") if job.is_stopping else job.text
            self._text.setText(f"{words}  {job.fraction * 100.0:.0f} %")
        elif self._document.is_stale:
            self._text.setText(tr("<b>PLAN OUT OF DATE:</b> inputs changed, compute again (F5)"))
        elif self._document.outcome_before_edit is not None:
            self._text.setText(tr("<b>PLAN OUT OF DATE:</b> line edited, compute again (F5)"))
        elif self._document.outcome is not None:
            self._text.setText(tr("Plan is of the inputs shown"))
        elif self._document.standing.is_old:
            self._text.setText(tr("<b>STALE:</b> compute again (F5)"))
        elif covered := len(self._document.first_legs.numbers):
            self._text.setText(
                tr(
                    "<b>NO PLAN YET:</b> {covered} of {count} legs covered, compute again (F5)",
                    covered=covered,
                    count=self._document.leg_count,
                )
            )
        else:
            self._text.setText(tr("No plan yet"))
