from __future__ import annotations

import re

from quarterwalk.office.models import Membership, Person
from tests.office.people import People
from tests.office_pages.visits import visitor, words

NEW = {"name": "Dora Finch", "sign_in_name": "dora", "role": "scout"}


def test_somebody_added_gets_a_link_by_which_they_choose_a_password(people: People) -> None:
    page = visitor(people.alice).post("/people/add", NEW).content.decode()
    (link,) = re.findall(r"http://testserver(/join/[^<\s]+)", page)
    dora = visitor(None)
    assert "Welcome, Dora Finch" in dora.get(link).content.decode()
    chosen = {"new_password1": "wren in the hedge", "new_password2": "wren in the hedge"}
    assert dora.post(link, chosen).status_code == 302
    assert dora.get("/").status_code == 200
    assert "no longer works" in visitor(None).get(link).content.decode()


def test_a_weak_or_mistyped_password_is_refused_and_the_link_lives_on(people: People) -> None:
    page = visitor(people.alice).post("/people/add", NEW).content.decode()
    (link,) = re.findall(r"http://testserver(/join/[^<\s]+)", page)
    dora = visitor(None)
    weak = dora.post(link, {"new_password1": "12345", "new_password2": "12345"})
    assert weak.status_code == 422
    other = dora.post(link, {"new_password1": "wren in the hedge", "new_password2": "wren"})
    assert other.status_code == 422
    assert "The two passwords are not the same." in other.content.decode()
    assert "Welcome, Dora Finch" in dora.get(link).content.decode()


def test_a_sign_in_name_is_taken_in_any_letter_case(people: People) -> None:
    answer = visitor(people.alice).post("/people/add", NEW | {"sign_in_name": "BOB"})
    assert answer.status_code == 422
    assert "Somebody signs in by this name already." in answer.content.decode()
    assert not Person.objects.filter(name="Dora Finch").exists()


def test_a_grower_needs_a_grower(people: People) -> None:
    answer = visitor(people.alice).post("/people/add", NEW | {"role": "grower"})
    assert answer.status_code == 422
    assert "Choose whose fields this grower sees." in answer.content.decode()


def test_a_district_keeps_a_lead(people: People) -> None:
    part = people.part(people.alice)
    client = visitor(people.alice)
    for path, sent in (
        (f"/people/{part.pk}", {"role": "scout"}),
        (f"/people/{part.pk}/remove", {}),
    ):
        answer = client.post(path, sent)
        assert answer.status_code == 422
        assert "Near needs a lead." in words(answer.content.decode())
    part.refresh_from_db()
    assert part.role == "lead"


def test_a_part_is_changed_and_taken_away(people: People) -> None:
    part = people.part(people.bob)
    client = visitor(people.alice)
    assert client.post(f"/people/{part.pk}", {"role": "lead"}).status_code == 302
    part.refresh_from_db()
    assert part.role == "lead"
    assert client.post(f"/people/{part.pk}/remove").status_code == 302
    assert not Membership.objects.filter(pk=part.pk).exists()


def test_a_new_link_ends_the_one_before(people: People) -> None:
    client, path = visitor(people.alice), f"/people/{people.part(people.bob).pk}/link"
    links = [
        re.findall(r"http://testserver(/join/[^<\s]+)", client.post(path).content.decode())[0]
        for _ in range(2)
    ]
    told = [visitor(None).get(link).content.decode() for link in links]
    assert "no longer works" in told[0]
    assert "Welcome, Bob Tarn" in told[1]
