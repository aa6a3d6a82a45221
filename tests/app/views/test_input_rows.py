"""Inputs kept in the project are told as such, not as missing."""

from app.state.document import Document
from app.views.input_rows import input_rows
from core.files.project import Project


def _facts(document: Document, project: Project) -> dict[str, str]:
    document.open_project(project, None)
    return {row.cells[0]: row.cells[1] for row in input_rows(document)}


def test_marks_and_limits_edited_in_the_project_are_told(document: Document) -> None:
    facts = _facts(document, Project(marks_text="name,lat,lon\n", limits_text="object\n"))
    assert facts["Marks"] == "edited in this project"
    assert facts["Danger limits"] == "edited in this project"
    facts = _facts(document, Project())
    assert facts["Marks"] == facts["Danger limits"] == "none given"
