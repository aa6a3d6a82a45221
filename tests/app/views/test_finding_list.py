"""Findings lead to their place."""

from pathlib import Path

from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.finding_list import FindingList, finding_rows
from core.base.findings import Finding, Severity, Where
from core.files.project import Project
from tests.helpers.sample_outcome import sample_outcome

_PROJECT = Project(route=Path("a.rtz"), land=(Path("land"),))


def _finding(where: Where) -> Finding:
    return Finding(severity=Severity.CHECK, code="x", what="look here", where=where)


def test_a_finding_leads_to_its_waypoint_or_its_leg(qtbot: QtBot, document: Document) -> None:
    document.open_project(_PROJECT, None)
    document.set_outcome(sample_outcome(), _PROJECT)
    view = FindingList(document)
    qtbot.addWidget(view)
    names = [w.name for w in sample_outcome().plan.passage.waypoints]
    wheres = (
        Where(waypoint=names[2]), Where(waypoint=names[0]), Where(leg_number=2),
        Where(waypoint="nowhere", leg_number=3), Where(),
    )  # fmt: skip
    view.table.set_rows(finding_rows(tuple(_finding(where) for where in wheres)))
    places = []
    for row in range(len(wheres)):
        view.activated.emit(view.model().index(row, 0))
        places.append((document.leg_index, round(document.cursor_along_m)))
    length_m = round(sample_outcome().plan.passage.line(1).length_m)
    assert places == [(1, length_m), (0, 0), (1, 0), (2, 0), (2, 0)]


def test_the_name_of_a_file_stays_as_it_is() -> None:
    rows = finding_rows((_finding(Where(file="coast_osm.geojson")), _finding(Where())))
    assert [row.cells[2] for row in rows] == ["coast_osm.geojson: look here.", "Look here."]
