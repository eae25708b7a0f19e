from __future__ import annotations

from datetime import UTC, datetime

from quarterwalk.office.models import FieldRow
from quarterwalk.office.services.fields import close_field
from tests.office.people import People
from tests.office_pages.visits import Tags, visitor, words


def test_no_time_is_proposed(people: People) -> None:
    page = visitor(people.alice).get(f"/fields/{people.home.public_id}/closed").content.decode()
    (until,) = [tag for tag in Tags(page).named("input") if tag.get("name") == "until"]
    assert not until.get("value")
    assert "This office works out no re-entry time." in page


def test_a_time_is_read_as_a_clock_at_the_field_shows_it(people: People) -> None:
    path = f"/fields/{people.home.public_id}/closed"
    given = {"until": "2026-07-02T07:00", "why": "Sprayed by plane."}
    assert visitor(people.alice).post(path, given).status_code == 302
    row = FieldRow.objects.get(pk=people.home.pk)
    # Chicago is 5 hours behind UTC in July
    assert row.closed_until == datetime(2026, 7, 2, 12, tzinfo=UTC)
    assert row.closed_why == "Sprayed by plane."


def test_a_closed_field_shows_the_time_that_was_given_and_opens_again(people: People) -> None:
    path = f"/fields/{people.home.public_id}/closed"
    close_field(field=people.home, until=datetime(2026, 7, 2, 12, tzinfo=UTC), why="")
    client = visitor(people.alice)
    assert 'value="2026-07-02T07:00"' in client.get(path).content.decode()
    assert client.post(path, {"open": "1"}).status_code == 302
    assert FieldRow.objects.get(pk=people.home.pk).closed_until is None


def test_a_time_that_cannot_be_read_is_refused(people: People) -> None:
    path = f"/fields/{people.home.public_id}/closed"
    answer = visitor(people.alice).post(path, {"until": "in 12 hours"})
    assert answer.status_code == 422
    assert "Write the day and the time" in words(answer.content.decode())
    assert FieldRow.objects.get(pk=people.home.pk).closed_until is None
