"""The expected picture at the cursor, its set-up in rows beside it, and its echoes."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollArea, QTabWidget, QVBoxLayout, QWidget

from app.base.throttle import LatestCall
from app.paint.palette import Palette
from app.state.document import Document
from app.views.control_rows import ControlRows
from app.views.picture_canvas import PictureCanvas
from app.views.picture_key import PictureKey
from app.views.picture_work import (
    ControlValues,
    MadePicture,
    PictureAsk,
    PictureMaker,
    differing_words,
    held_view,
    picked_at,
    picture_file,
)
from app.views.plan_tables import WordsView
from app.views.set_up_presets import OWN, PRESETS, WELL_SET, preset_of
from app.views.table_model import Row
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.text_route import typed_position
from core.geodesy.position import Position

ECHO_HEADS = (tr("Echo"), "NM", "° T", tr("Margin"))
_ORDER = Row(
    cells=(tr("Lost to the set-up first, then the others; in each group the least margin first."),),
    is_note=True,
)
_FILE_PX = 1200
_LINES = 3


class PicturePane(QWidget):
    """Follows leg and cursor of the document while it is seen."""

    save_asked = Signal()

    def __init__(self, document: Document, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._colours = palette
        self._made: MadePicture | None = None
        self._own: ControlValues | None = None
        """The officer's set-up; None follows well set."""
        self._maker = PictureMaker()
        self._runner = Runner("legsheet-picture", self)
        # A file takes no turn of the picture's, nor the picture one of the file's.
        self._filer = Runner("legsheet-picture-file", self)
        self._redraw = LatestCall(self._request, 0, self)
        self._held: PictureAsk | None = None
        """The set-up kept beside: its radar, scale, pulse and controls."""
        self._held_made: MadePicture | None = None
        self._held_maker = PictureMaker()
        self.canvas = PictureCanvas(palette, self)
        self.held_canvas = PictureCanvas(palette, self)
        self.held_canvas.setAccessibleName(tr("Expected picture of the set-up held"))
        self.held_canvas.hide()
        self.rows = ControlRows(self)
        self.echoes = WordsView(tr("Echoes"), ECHO_HEADS, self)
        self.words = QLabel(self)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.words.setAccessibleName(tr("About the picture"))
        self.words.setWordWrap(True)
        # Words of any length leave the picture its size.
        self.words.setFixedHeight(_LINES * self.fontMetrics().lineSpacing() + 2)
        self.words.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._asked: tuple[float, float] | None = None
        """The point asked about, as shares of the side."""
        scroll = QScrollArea(self)
        scroll.setWidget(self.rows)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        beside = QTabWidget(self)
        beside.setDocumentMode(True)
        beside.addTab(scroll, tr("Set-up"))
        beside.addTab(self.echoes, tr("Echoes"))
        self._key = PictureKey(palette, self)
        beside.addTab(self._key, tr("Key"))
        across = QHBoxLayout()
        across.setSpacing(2)
        beside.setMinimumWidth(
            self.rows.minimumSizeHint().width() + scroll.verticalScrollBar().sizeHint().width() + 4
        )
        # One over the other: side by side they would widen the pane and press the strip.
        pictures = QVBoxLayout()
        pictures.setSpacing(2)
        pictures.addWidget(self.held_canvas, 1)
        pictures.addWidget(self.canvas, 1)
        across.addLayout(pictures, 1)
        across.addWidget(beside)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addLayout(across, 1)
        layout.addWidget(self.words)
        self.canvas.resized.connect(self._redraw.request)
        self.canvas.picked.connect(self._pick)
        self.held_canvas.picked.connect(self._pick_held)
        self.rows.choice_changed.connect(self._choose)
        self.rows.controls_changed.connect(self._control)
        self.rows.preset_chosen.connect(self._set_preset)
        self.rows.beside_asked.connect(self._hold)
        self.rows.save_asked.connect(self.save_asked)
        for signal in (document.outcome_changed, document.leg_changed, document.cursor_changed):
            signal.connect(self._choose)

    @property
    def made(self) -> MadePicture | None:
        """What is shown; None before the first."""
        return self._made

    @property
    def held(self) -> MadePicture | None:
        """The picture held beside it; None without."""
        return self._held_made

    @property
    def is_current(self) -> bool:
        """Whether all that was asked for is shown."""
        return self._made is not None and not self._runner.is_busy and not self._redraw.is_waiting

    def set_colours(self, palette: Palette) -> None:
        """Draw in another palette."""
        self._colours = palette
        self.canvas.set_colours(palette)
        self.held_canvas.set_colours(palette)
        self._key.set_colours(palette)
        self._redraw.request()

    def close_threads(self) -> None:
        """Stop working in the background; the pane is not used afterwards."""
        self._redraw.stop()
        self._runner.close()
        self._filer.close()

    def showEvent(self, event: QShowEvent) -> None:
        """Make the picture that was not made while nobody saw it."""
        super().showEvent(event)
        self._redraw.request()

    def make_file(self, done: Callable[[bytes], None]) -> bool:
        """Make a PNG of what is shown, off the GUI thread; False where nothing is shown."""
        made = self._made
        if made is None:
            return False
        self._filer.submit(
            lambda _progress: picture_file(made, _FILE_PX), done=done, failed=self._file_failed
        )
        return True

    def _request(self) -> None:
        outcome = self._document.outcome
        if outcome is None or self._document.leg_index >= len(outcome.plan.legs):
            self._made = None
            self.canvas.show_lines(())
            self.canvas.show_image(None, tr("The picture comes with the plan"))
            self.echoes.show_rows(())
            self.words.clear()
            return
        if not self.isVisible():
            return
        radars = outcome.request.ship.radars
        number = min(self.rows.radar_index, len(radars) - 1)
        self.rows.offer([radar.name for radar in radars], radars[number].range_scales_m)
        try:
            position = self._position()
        except LegsheetError as error:
            self.words.setText(str(error))
            return
        ask = PictureAsk(
            outcome=outcome,
            leg_index=self._document.leg_index,
            along_m=self._document.cursor_along_m,
            position=position,
            radar_index=number,
            scale_m=self.rows.scale_m,
            pulse=self.rows.pulse,
            up=self.rows.up,
            size_px=self.canvas.side_px,
            device_ratio=self.devicePixelRatioF(),
            controls=self._own,
            colours=self._colours,
        )

        held = None if self._held is None else held_view(self._held, ask)

        def work(progress: JobProgress) -> tuple[MadePicture, MadePicture | None]:
            progress.report(0.0)
            made = self._maker.make(ask)
            return made, None if held is None else self._held_maker.make(held)

        self._runner.follow(work, done=self._take, failed=self._failed)

    def _position(self) -> Position | None:
        text = self.rows.place_text
        return typed_position(text) if text else None

    def _take(self, both: tuple[MadePicture, MadePicture | None]) -> None:
        made, held = both
        document = self._document
        if made.ask.outcome is not document.outcome or made.ask.leg_index != document.leg_index:
            return
        self._made = made
        self.canvas.show_image(made.image)
        self._held_made = held if self._held is not None else None
        self.held_canvas.show_image(None if held is None else held.image)
        if self._own is None:
            self.rows.show_controls(made.controls)
        self.rows.show_preset(preset_of(made.controls, made.well))
        self.rows.offer_pulses(made.pulses)
        self._say_what_is_set()
        rows = tuple(_echo_row(*words) for words in made.echoes)
        self.echoes.show_rows((_ORDER, *rows) if rows else ())
        self.words.setToolTip("\n".join(made.caption))
        self._say()

    def _say_what_is_set(self) -> None:
        made, held = self._made, self._held_made
        if made is None:
            return
        first, *others = made.set_lines
        if held is not None:
            held_first, *held_others = held.set_lines
            self.held_canvas.show_lines((tr("Held: {radar}", radar=held_first), *held_others))
            first = tr("Now: {radar}", radar=first)
        self.canvas.show_lines((first, *others))

    def _failed(self, error: LegsheetError) -> None:
        """The picture before is of something else and does not stay."""
        self._made = None
        self.canvas.show_lines(())
        self.canvas.show_image(None, tr("No picture"))
        self.echoes.show_rows(())
        self.words.setText(str(error))

    def _file_failed(self, error: LegsheetError) -> None:
        self.words.setText(str(error))

    def _choose(self) -> None:
        """Another view: what was asked about lies elsewhere on it."""
        self._asked = None
        self._redraw.request()

    def _control(self) -> None:
        self._own = self.rows.values
        self._redraw.request()

    def _set_preset(self, name: str) -> None:
        """Well set follows the place; any other set-up stays as it is now."""
        made = self._made
        if name == OWN or made is None:
            return
        self._own = None if name == WELL_SET else PRESETS[name](made.well)
        if self._own is not None:
            self.rows.show_controls(self._own)
        self._redraw.request()

    def _hold(self, is_held: bool) -> None:
        """Keep the set-up shown beside what follows, or no longer."""
        made = self._made
        self._held = None
        if is_held and made is None:
            # There is no set-up to keep before the first picture.
            self.rows.let_go()
        elif is_held and made is not None:
            ask = made.ask
            self._held = replace(ask, controls=ask.controls or made.controls)
        self.held_canvas.setVisible(self._held is not None)
        self._redraw.request()

    def _pick(self, across: float, down: float) -> None:
        self._asked = (across, down)
        self._say()

    def _pick_held(self, across: float, down: float) -> None:
        """What lies at a point of the picture held; both show where that is."""
        made = self._held_made
        if made is not None:
            self._asked = (across, down)
            self.canvas.set_mark(self._asked)
            self.held_canvas.set_mark(self._asked)
            side_px = made.picture.frame.size_px
            self.words.setText(
                tr("Held: {picked_at}", picked_at=picked_at(made, across * side_px, down * side_px))
            )

    def _say(self) -> None:
        """What lies at the point asked about, else what the picture was calculated from."""
        made = self._made
        if made is None:
            return
        self.canvas.set_mark(self._asked)
        self.held_canvas.set_mark(self._asked)
        if self._asked is None:
            words = f"{made.caption[0]}  {made.caption[2]}"
            if self._held_made is not None:
                words = f"{differing_words(self._held_made, made)}  {words}"
            self.words.setText(words)
            return
        side_px = made.picture.frame.size_px
        across, down = self._asked
        self.words.setText(picked_at(made, across * side_px, down * side_px))


def _echo_row(name: str, range_words: str, bearing: str, now: str, well: str, remark: str) -> Row:
    """One echo in the little room there is; a lost one says what took it."""
    from core.words.picture_words import says_lost

    is_lost = says_lost(remark)
    return Row(
        cells=(
            name,
            range_words.removesuffix(" NM"),
            bearing.removesuffix("° T"),
            f"{now} {remark}" if is_lost else now,
        ),
        tip=tr(
            "{name}, {range}, {bearing}: margin {margin_now}, well set {margin_well_set}; {remark}",
            name=name,
            range=range_words,
            bearing=bearing,
            margin_now=now,
            margin_well_set=well,
            remark=remark,
        ),
        is_alert=is_lost,
    )
