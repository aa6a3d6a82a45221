from dataclasses import replace

from app.state.document import Document
from app.state.notices import NoticeKind, Notices
from core.files.project import Options, Project


def _texts(notices: Notices) -> list[str]:
    return [notice.text for notice in notices.waiting]


def test_what_comes_before_anyone_listens_is_kept(qapp: object) -> None:
    notices = Notices()
    notices.post(NoticeKind.TROUBLE, "a")
    notices.post(NoticeKind.TROUBLE, "a")
    notices.post(NoticeKind.FAULT, "b")
    assert _texts(notices) == ["a", "b"]
    notices.dismiss()
    assert _texts(notices) == ["a"], "the one shown goes, which is the newest"
    notices.post(NoticeKind.FAULT, "b")
    notices.post(NoticeKind.TROUBLE, "a")
    assert _texts(notices) == ["b", "a"], "told again it is the newest"


def test_news_replaces_older_news_but_no_trouble(qapp: object) -> None:
    notices = Notices()
    notices.post(NoticeKind.TROUBLE, "a")
    notices.post(NoticeKind.DONE, "written x")
    notices.post(NoticeKind.DONE, "written y")
    assert _texts(notices) == ["a", "written y"]
    notices.clear(NoticeKind.TROUBLE)
    assert _texts(notices) == ["written y"]


def test_a_notice_goes_with_what_it_is_about(document: Document) -> None:
    notices = document.notices
    document.edit("reverse", replace(document.project, is_reversed=True))
    notices.post(NoticeKind.CHECK, "other way", about=("is_reversed",))
    notices.post(NoticeKind.TROUBLE, "cannot compute")
    notices.post(NoticeKind.TROUBLE, "no autosave", lasts=True)
    notices.post(NoticeKind.DONE, "written")
    document.set_options(Options(refraction_k=1.2))
    assert _texts(notices) == ["other way", "no autosave", "written"]
    document.undo_stack.undo()
    assert "other way" in _texts(notices)
    document.undo_stack.undo()
    assert _texts(notices) == ["no autosave", "written"]


def test_another_project_leaves_only_what_is_not_of_the_one_before(document: Document) -> None:
    document.notices.post(NoticeKind.CHECK, "of the old one")
    document.notices.post(NoticeKind.TROUBLE, "no autosave", lasts=True)
    document.notices.post(NoticeKind.FAULT, "a fault")
    document.open_project(Project(), None)
    assert _texts(document.notices) == ["no autosave", "a fault"]
