from __future__ import annotations

import re

from quarterwalk.office.models import Device
from quarterwalk.office.services.phones import pair
from tests.office.people import People, phone
from tests.office_pages.visits import visitor, words


def test_a_code_is_shown_large_with_a_square_and_pairs_one_phone(people: People) -> None:
    page = visitor(people.bob).post("/phones/code").content.decode()
    (code,) = re.findall(r'<p class="code">([^<]+)</p>', page)
    assert f"/phone/#pair={code}" in page
    assert '<svg viewBox="0 0 ' in page
    assert pair(code=code, label="Bob's phone") is not None
    assert pair(code=code, label="another") is None


def test_a_lead_sees_all_phones_and_a_scout_their_own(people: People) -> None:
    phone(people.alice, people.near)
    phone(people.bob, people.near)
    lead = visitor(people.alice).get("/phones").content.decode()
    scout = visitor(people.bob).get("/phones").content.decode()
    assert "Alice Marr, paired 1 July, 12:00" in lead
    assert "Bob Tarn, paired 1 July, 12:00" in lead
    assert "Alice Marr" not in words(scout)
    assert "What a phone has not sent yet is not known here" in scout


def test_a_phone_that_is_ended_stays_in_the_list(people: People) -> None:
    device, _ = phone(people.bob, people.near)
    client = visitor(people.bob)
    assert client.post(f"/phones/{device.device_id}/end").status_code == 302
    assert Device.objects.get(pk=device.pk).revoked_at is not None
    assert "Ended 1 July, 12:00" in client.get("/phones").content.decode()


def test_a_clock_that_is_far_off_is_told(people: People) -> None:
    device, _ = phone(people.bob, people.near)
    Device.objects.filter(pk=device.pk).update(skew_ms=-7 * 60_000)
    assert "Its clock is 7 minutes behind." in visitor(people.bob).get("/phones").content.decode()


def test_a_scout_ends_nobody_elses_phone_and_a_grower_pairs_none(people: People) -> None:
    device, _ = phone(people.alice, people.near)
    assert visitor(people.bob).post(f"/phones/{device.device_id}/end").status_code == 404
    assert visitor(people.gil).post("/phones/code").status_code == 404
