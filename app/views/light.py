"""The window's colours: Qt's palette, and a little style where that does not reach."""

from PySide6.QtGui import QColor, QPalette

from app.paint.palette import Palette
from core.sheets.page import Tone

_Role = QPalette.ColorRole


def _mixed(first: QColor, second: QColor, share: float) -> QColor:
    return QColor(
        round(first.red() + (second.red() - first.red()) * share),
        round(first.green() + (second.green() - first.green()) * share),
        round(first.blue() + (second.blue() - first.blue()) * share),
    )


def window_palette(palette: Palette) -> QPalette:
    """Qt's roles in the colours of a palette, the disabled ones fainter."""
    paper, ink = palette.colour(Tone.PAPER), palette.colour(Tone.INK)
    shade, rule = palette.colour(Tone.SHADE), palette.colour(Tone.RULE)
    chosen = _mixed(shade, palette.colour(Tone.OWN_SHIP), 0.28)
    made = QPalette()
    for role, colour in (
        (_Role.Window, shade),
        (_Role.WindowText, ink),
        (_Role.Base, paper),
        (_Role.AlternateBase, shade),
        (_Role.Text, ink),
        (_Role.Button, _mixed(shade, ink, 0.06)),
        (_Role.ButtonText, ink),
        (_Role.BrightText, palette.colour(Tone.WARNING)),
        (_Role.ToolTipBase, paper),
        (_Role.ToolTipText, ink),
        (_Role.PlaceholderText, palette.colour(Tone.FAINT_INK)),
        (_Role.Highlight, chosen),
        (_Role.HighlightedText, ink),
        (_Role.Accent, palette.colour(Tone.OWN_SHIP)),
        (_Role.Link, palette.colour(Tone.PRIMARY)),
        (_Role.LinkVisited, palette.colour(Tone.PRIMARY)),
        (_Role.Light, _mixed(shade, ink, 0.10)),
        (_Role.Midlight, _mixed(shade, ink, 0.08)),
        (_Role.Mid, rule),
        (_Role.Dark, rule),
        (_Role.Shadow, paper if palette.name != "day" else rule),
    ):
        made.setColor(role, colour)
    faint = _mixed(palette.colour(Tone.FAINT_INK), shade, 0.25)
    for role in (_Role.WindowText, _Role.Text, _Role.ButtonText, _Role.HighlightedText):
        made.setColor(QPalette.ColorGroup.Disabled, role, faint)
    made.setColor(QPalette.ColorGroup.Disabled, _Role.Highlight, shade)
    return made


EDGED = ("QLineEdit", "QAbstractSpinBox", "QComboBox", "QCheckBox", "QRadioButton")
"""Classes of fields and boxes to tick."""
_QT_DARKER = 140
"""The style draws an edge so much darker than the window: on a dark one nobody sees it."""


def edge_colour(palette: Palette) -> QColor:
    """Edge of a field or a box to tick: seen at night too, and dimmer than any letter."""
    rule = palette.colour(Tone.RULE)
    return rule if palette.name == "day" else _mixed(rule, palette.colour(Tone.FAINT_INK), 0.5)


def edged_palette(palette: Palette) -> QPalette:
    """Roles for the classes of ``EDGED``, which paint nothing else by the window's."""
    made = window_palette(palette)
    made.setColor(_Role.Window, edge_colour(palette).lighter(_QT_DARKER))
    # The edge of the one that is typed in is drawn by the colour of what is selected.
    made.setColor(_Role.Highlight, palette.colour(Tone.OWN_SHIP))
    made.setColor(_Role.HighlightedText, palette.colour(Tone.PAPER))
    return made


def style_sheet(palette: Palette) -> str:
    """Style for what Qt's palette does not reach: splitters, tips, bars, heads of tables."""
    ink = palette.colour(Tone.INK).name()
    paper, shade = palette.colour(Tone.PAPER).name(), palette.colour(Tone.SHADE).name()
    rule = palette.colour(Tone.RULE).name()
    own = palette.colour(Tone.OWN_SHIP).name()
    warning = palette.colour(Tone.WARNING).name()
    faint = window_palette(palette).color(QPalette.ColorGroup.Disabled, _Role.Text).name()
    return f"""
QToolTip {{ background: {paper}; color: {ink}; border: 1px solid {rule}; padding: 3px; }}
QSplitter::handle {{ background: {shade}; }}
QSplitter::handle:hover {{ background: {rule}; }}
QMenuBar {{ background: {shade}; color: {ink}; }}
QMenu {{ background: {paper}; color: {ink}; border: 1px solid {rule}; }}
QMenu::item:selected, QMenuBar::item:selected {{ background: {rule}; }}
QMenu::item:disabled {{ color: {faint}; }}
QMenu::separator {{ height: 1px; background: {rule}; margin: 3px 6px; }}
QStatusBar::item {{ border: none; }}
QHeaderView::section {{
    background: {shade}; color: {ink}; border: none; border-bottom: 1px solid {rule};
    padding: 2px 4px;
}}
QTabWidget::pane {{ border: none; }}
QTabBar::tab {{
    background: {shade}; color: {ink}; padding: 3px 8px; border: 1px solid {rule};
    border-bottom: none; margin-top: 3px;
}}
QTabBar::tab:selected {{ background: {paper}; font-weight: bold; margin-top: 0; }}
QTabBar::tab:focus {{ border: 2px solid {own}; }}
QDialogButtonBox {{ dialogbuttonbox-buttons-have-icons: 0; }}
QMessageBox {{ messagebox-text-interaction-flags: 4; }}
QTableCornerButton::section {{ background: {shade}; border: none; }}
QAbstractScrollArea:focus {{ border: 2px solid {own}; }}
QAbstractScrollArea {{ border: 1px solid {rule}; }}
QProgressBar {{ background: {paper}; border: 1px solid {rule}; }}
QProgressBar::chunk {{ background: {own}; }}
#notice_bar, #standing_bar {{ background: {paper}; border: 2px solid {warning}; }}
#notice_bar[kind="done"] {{ border: 1px solid {rule}; }}
#notice_head, #trouble {{ color: {warning}; font-weight: bold; }}
#notice_bar[kind="done"] #notice_head {{ color: {ink}; }}
#pane_head {{ color: {ink}; font-weight: bold; padding: 2px 4px; }}
#guide_bar {{ background: {paper}; border: 1px solid {rule}; }}
QToolButton[next="true"] {{ border: 2px solid {own}; font-weight: bold; padding: 1px 4px; }}
#caution {{ color: {ink}; }}
"""
