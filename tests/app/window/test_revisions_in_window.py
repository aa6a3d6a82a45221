"""Issuing revisions in the window, and opening what was saved for an earlier voyage."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QDialogButtonBox, QLabel, QLineEdit, QListWidget, QPlainTextEdit
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.settings import OFFICER, Settings
from app.views.leg_words import leg_rows
from app.window.main_window import MainWindow
from app.window.revision_dialog import RevisionDialog
from app.window.revision_list_dialog import RevisionListDialog
from core.files.project import Options, Project, write_project
from core.jobs.revise_plan import compared_with, issued
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.three_islets import ROUTE


def test_a_saved_plan_opens_stale_and_is_not_computed_by_itself(
    qtbot: QtBot, planned: MainWindow, document: Document, tmp_path: Path
) -> None:
    revision = issued(sample_outcome(), issued_utc="2031-05-14T00:00:00Z", note="")
    target = tmp_path / "old.legsheet"
    options = Options(tide_m=1.2, mean_sea_level_m=2.0)
    write_project(target, Project(route_text=ROUTE, options=options, revisions=(revision,)))
    planned.files.open_path(target)
    assert document.outcome is None
    assert not document.is_modified
    (words,) = document.standing.sentences
    for said in ("STALE", "Revision 1", "2031-05-14", "tide 1.2 m", "land data", "F5"):
        assert said in words
    shown = planned.findChildren(QLabel, "standing_text")[0]
    assert shown.isVisible()
    assert shown.text() == words
    document.notices.dismiss()
    assert shown.isVisible(), "it stands until the plan is computed"
    planned.actions_by_id["compute"].trigger()
    qtbot.waitUntil(lambda: document.outcome is not None)
    assert document.standing.sentences == ()
    assert not shown.isVisible()


def test_issuing_marks_what_changes_later_and_can_be_taken_back(
    planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(RevisionDialog, "exec", lambda _dialog: RevisionDialog.DialogCode.Accepted)
    monkeypatch.setattr(RevisionDialog, "note", property(lambda _dialog: "bunkers taken"))
    monkeypatch.setattr(RevisionDialog, "who", property(lambda _dialog: "2/O A. Example"))
    assert not planned.actions_by_id["revisions"].isEnabled()
    planned.actions_by_id["issue_revision"].trigger()
    (revision,) = document.project.revisions
    assert (revision.number, revision.note, revision.by) == (1, "bunkers taken", "2/O A. Example")
    assert planned.actions_by_id["revisions"].isEnabled()
    assert document.is_modified
    assert not document.is_stale
    assert document.outcome is not None
    assert document.outcome.revision.is_issued
    legs = document.outcome.plan.legs
    slower = replace(legs[1], speed_mps=legs[1].speed_mps / 2.0)
    plan = replace(document.outcome.plan, legs=(legs[0], slower, *legs[2:]))
    later = compared_with(replace(document.outcome, plan=plan), revision)
    document.set_outcome(later, document.project)
    assert (document.outcome.revision.number, document.outcome.revision.marked()) == (2, (1,))
    assert any("Changed in revision 2" in row.spoken for row in leg_rows(document))
    document.undo_stack.undo()
    assert document.outcome.revision.since is None
    assert not document.project.revisions


def test_who_issues_is_asked_once_and_remembered(qtbot: QtBot, settings: Settings) -> None:
    dialog = RevisionDialog(sample_outcome().revision, settings)
    buttons = dialog.findChildren(QDialogButtonBox)[0]
    issue = next(b for b in buttons.buttons() if "Issue" in b.text())
    assert not issue.isEnabled(), "nobody issued it yet"
    name = next(e for e in dialog.findChildren(QLineEdit) if e.accessibleName() == "Rank and name")
    name.setText("  2/O  A. Example ")
    issue.click()
    assert dialog.result() == RevisionDialog.DialogCode.Accepted
    assert settings.get(OFFICER) == "2/O A. Example"
    again = RevisionDialog(sample_outcome().revision, settings)
    assert again.who == "2/O A. Example"
    for one in (dialog, again):
        one.close()
        one.deleteLater()


def test_all_revisions_are_listed_with_who_when_why_and_what(qtbot: QtBot) -> None:
    outcome = sample_outcome()
    first = issued(outcome, issued_utc="2031-05-14T06:00:00Z", note="first", by="2/O A. Example")
    legs = outcome.plan.legs
    slower = replace(legs[1], speed_mps=legs[1].speed_mps / 2.0)
    changed = replace(outcome, plan=replace(outcome.plan, legs=(legs[0], slower, *legs[2:])))
    second = issued(
        compared_with(changed, first), issued_utc="2031-05-15T18:30:00Z", note="slower in leg 2"
    )
    dialog = RevisionListDialog((first, second))
    rows = dialog.findChildren(QListWidget)[0]
    changes = dialog.findChildren(QPlainTextEdit)[0]
    assert rows.item(0).text() == (
        "Revision 2, 2031-05-15 18:30 UTC, by whom was not kept\nslower in leg 2"
    )
    assert rows.item(1).text() == "Revision 1, 2031-05-14 06:00 UTC, 2/O A. Example\nfirst"
    assert "Leg 2, " in changes.toPlainText()
    assert "kn" in changes.toPlainText()
    assert second.digest[:12] in changes.toPlainText()
    rows.setCurrentRow(1)
    assert "first revision" in changes.toPlainText()
    dialog.close()
    dialog.deleteLater()
