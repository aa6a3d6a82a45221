from app.state.notices import NoticeKind, Notices


def test_what_comes_before_anyone_listens_is_kept(qapp: object) -> None:
    notices = Notices()
    notices.post(NoticeKind.TROUBLE, "a")
    notices.post(NoticeKind.TROUBLE, "a")
    notices.post(NoticeKind.FAULT, "b")
    assert [n.text for n in notices.waiting] == ["a", "b"]
    notices.dismiss()
    assert [n.text for n in notices.waiting] == ["b"]


def test_news_replaces_older_news_but_no_trouble(qapp: object) -> None:
    notices = Notices()
    notices.post(NoticeKind.TROUBLE, "a")
    notices.post(NoticeKind.DONE, "written x")
    notices.post(NoticeKind.DONE, "written y")
    assert [n.text for n in notices.waiting] == ["a", "written y"]
    notices.clear(NoticeKind.TROUBLE)
    assert [n.text for n in notices.waiting] == ["written y"]
