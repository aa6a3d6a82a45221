"""Issuing revisions in the window, and opening what was saved for an earlier voyage."""

from dataclasses import replace
from pathlib import Path

import pytest

from app.state.document import Document
from app.views.leg_words import leg_rows
from app.window.main_window import MainWindow
from app.window.revision_dialog import RevisionDialog
from core.files.project import Options, Project, write_project
from core.jobs.revise_plan import compared_with, issued
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.three_islets import ROUTE


def test_a_saved_plan_opens_stale_and_is_not_computed_by_itself(
    planned: MainWindow, document: Document, tmp_path: Path
) -> None:
    revision = issued(sample_outcome(), issued_utc="2031-05-14T00:00:00Z", note="")
    target = tmp_path / "old.legsheet"
    options = Options(tide_m=1.2, mean_sea_level_m=2.0)
    write_project(target, Project(route_text=ROUTE, options=options, revisions=(revision,)))
    planned.files.open_path(target)
    assert document.outcome is None
    assert not document.is_modified
    (notice,) = document.notices.waiting
    for said in ("STALE", "Revision 1", "2031-05-14", "tide 1.2 m", "F5"):
        assert said in notice.text


def test_issuing_marks_what_changes_later_and_can_be_taken_back(
    planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(RevisionDialog, "exec", lambda _dialog: RevisionDialog.DialogCode.Accepted)
    monkeypatch.setattr(RevisionDialog, "note", property(lambda _dialog: "bunkers taken"))
    planned.actions_by_id["issue_revision"].trigger()
    (revision,) = document.project.revisions
    assert (revision.number, revision.note) == (1, "bunkers taken")
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
