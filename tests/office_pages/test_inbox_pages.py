from __future__ import annotations

import pytest

from quarterwalk.office.models import EntryState, JournalEntry
from quarterwalk.office.services.journal import take
from tests.office.people import People, phone
from tests.office_pages.visits import visitor, words


@pytest.fixture
def waiting(people: People) -> JournalEntry:
    """Give an entry whose bytes are spoiled, from Bob's phone."""
    device, _ = phone(people.bob, people.near)
    take(device, b'{"v":1,"spoiled\n')
    return JournalEntry.objects.get(state=EntryState.QUARANTINED)


def test_an_empty_inbox_says_what_comes_here(people: People) -> None:
    assert "Nothing waits." in visitor(people.alice).get("/inbox").content.decode()


def test_what_waits_is_counted_beside_the_inbox_and_listed_with_why(
    people: People, waiting: JournalEntry
) -> None:
    told = words(visitor(people.alice).get("/inbox").content.decode())
    assert "Inbox 1" in told
    assert "Something that can't be read" in told
    assert "paired by Bob Tarn" in told
    assert "It can't be read: it is cut off, or is no entry of a walk." in told
    assert "JSON" not in told
    assert "char" not in told


@pytest.mark.parametrize(
    ("why", "said", "told"),
    [
        (
            "unknown-person",
            "Whoever wrote it is not one who walks here.",
            "Whoever wrote it is nobody who walks in this district.",
        ),
        (
            "other-bytes",
            "Another entry of this number is held already.",
            "Another entry with the same number is held already, with other content.",
        ),
        (
            "schema",
            "body.gate.called is not there.",
            "It does not have the form of an entry. What is wrong in it: body.gate.called is not"
            " there.",
        ),
        (
            "schema",
            "Only the office names a scout or a day with a plant.",
            "It does not have the form of an entry. Only the office names a scout or a day with a"
            " plant.",
        ),
    ],
)
def test_why_an_entry_waits_is_said_once(
    people: People, waiting: JournalEntry, why: str, said: str, told: str
) -> None:
    JournalEntry.objects.filter(pk=waiting.pk).update(why=why, said=said)
    page = words(visitor(people.alice).get(f"/inbox/{waiting.pk}").content.decode())
    assert f"Why it waits {told} What it says" in page


def test_spoiled_bytes_are_shown_as_they_came_and_cannot_be_taken(
    people: People, waiting: JournalEntry
) -> None:
    page = visitor(people.alice).get(f"/inbox/{waiting.pk}").content.decode()
    assert "{&quot;v&quot;:1,&quot;spoiled" in page
    assert 'value="yes"' not in page
    assert 'value="no"' in page


def test_a_decision_needs_a_reason_and_keeps_it(people: People, waiting: JournalEntry) -> None:
    client, path = visitor(people.alice), f"/inbox/{waiting.pk}"
    refused = client.post(path, {"take_it": "no", "why": ""})
    assert refused.status_code == 422
    assert "Say why." in refused.content.decode()
    assert client.post(path, {"take_it": "no", "why": "Cut off on the way."}).status_code == 302
    waiting.refresh_from_db()
    assert (waiting.state, waiting.decided_why) == (EntryState.LEFT_OUT, "Cut off on the way.")
    assert "Left out by Alice Marr on 1 July" in words(client.get(path).content.decode())


def test_taking_what_cannot_be_taken_is_refused_in_words(
    people: People, waiting: JournalEntry
) -> None:
    path = f"/inbox/{waiting.pk}"
    answer = visitor(people.alice).post(path, {"take_it": "yes", "why": "I want it."})
    assert answer.status_code == 422
    assert "It can't be taken" in words(answer.content.decode())


def test_only_the_lead_of_the_district_has_an_inbox(people: People, waiting: JournalEntry) -> None:
    for person in (people.bob, people.gil, people.charlie):
        assert visitor(person).get(f"/inbox/{waiting.pk}").status_code == 404
    assert visitor(people.bob).get("/inbox").status_code == 404
