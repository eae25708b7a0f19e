from __future__ import annotations

from quarterwalk.phone import phone_files
from tests.office_pages.visits import visitor


def test_every_file_of_the_phone_page_is_served_to_anybody(db: None) -> None:
    client = visitor(None)
    for name, path in phone_files().items():
        answer = client.get(f"/phone/{name}")
        assert answer.status_code == 200, name
        assert answer.content == path.read_bytes(), name


def test_the_page_itself_stands_at_its_address(db: None) -> None:
    answer = visitor(None).get("/phone/")
    assert answer["Content-Type"] == "text/html; charset=utf-8"
    assert answer["Cache-Control"] == "no-cache"
    assert "form-action 'none'" in answer["Content-Security-Policy"]


def test_modules_and_manifest_have_their_types(db: None) -> None:
    client = visitor(None)
    assert client.get("/phone/app.js")["Content-Type"] == "text/javascript; charset=utf-8"
    manifest = client.get("/phone/manifest.webmanifest")
    assert manifest["Content-Type"] == "application/manifest+json"


def test_a_file_that_a_phone_has_already_is_not_sent_again(db: None) -> None:
    client = visitor(None)
    tag = client.get("/phone/app.js")["ETag"]
    again = client.get("/phone/app.js", headers={"if-none-match": tag})
    assert (again.status_code, again.content) == (304, b"")


def test_nothing_beside_the_page_is_served(db: None) -> None:
    for name in ("files.py", "../office/settings.py", "nothing.js", "__init__.py"):
        assert visitor(None).get(f"/phone/{name}").status_code == 404
