from __future__ import annotations

import re
from datetime import timedelta

from django.conf import settings
from django.contrib.messages import get_messages

from quarterwalk.office import clock
from quarterwalk.office.models import District, Membership, Person, Role
from quarterwalk.office.services import people as changes
from tests.office.people import PASSWORD, People
from tests.office_pages.visits import visitor, words


def test_nobody_reads_a_page_without_signing_in(people: People) -> None:
    answer = visitor(None).get("/")
    assert answer.status_code == 302
    assert answer["Location"] == "/sign-in?next=/"


def test_a_name_in_any_letter_case_and_its_password_open_the_fields(people: People) -> None:
    client = visitor(None)
    answer = client.post("/sign-in", {"login": "Alice", "password": PASSWORD})
    assert (answer.status_code, answer["Location"]) == (302, "/")
    assert not list(get_messages(answer.wsgi_request))
    assert "Home 80" in client.get("/").content.decode()


def test_a_wrong_password_says_neither_which_of_the_two_was_wrong(people: People) -> None:
    told = []
    for name in ("alice", "nobody-at-all"):
        answer = visitor(None).post("/sign-in", {"login": name, "password": "wrong"})
        assert answer.status_code == 422
        told.append(words(answer.content.decode()).replace(name, ""))
        assert "The name and the password do not go together." in told[-1]
    assert told[0] == told[1]


def test_after_too_many_attempts_one_waits(people: People) -> None:
    client = visitor(None)
    for _ in range(6):
        answer = client.post("/sign-in", {"login": "alice", "password": "wrong"})
    assert "Wait five minutes" in words(answer.content.decode())
    right = client.post("/sign-in", {"login": "alice", "password": PASSWORD})
    assert right.status_code != 302


def test_signing_out_takes_a_button(people: People) -> None:
    client = visitor(people.alice)
    assert "Sign out?" in client.get("/sign-out").content.decode()
    assert client.get("/").status_code == 200
    client.post("/sign-out")
    assert client.get("/").status_code == 302


def test_a_password_is_changed_with_the_one_before(people: People) -> None:
    client = visitor(people.alice)
    fresh = {"new_password1": "wren in the hedge", "new_password2": "wren in the hedge"}
    wrong = client.post("/password", fresh | {"old_password": "guess"})
    assert wrong.status_code == 422
    assert "That is not your password." in wrong.content.decode()
    assert client.post("/password", fresh | {"old_password": PASSWORD}).status_code == 302
    assert client.get("/").status_code == 200
    assert Person.objects.get(pk=people.alice.pk).check_password("wren in the hedge")


def test_a_lasting_link_signs_in_again_and_again(people: People) -> None:
    token = changes.lasting_link(person=people.bob, until=clock.now() + timedelta(days=1))
    for _ in range(2):
        client = visitor(None)
        assert client.get(f"/join/{token}").status_code == 302
        assert "Bob Tarn" in client.get("/").content.decode()


def test_a_fresh_office_begins_with_its_district_and_lead(db: None) -> None:
    token = changes.begin_link()
    told = {
        "district": "River", "time_zone": "America/Chicago", "name": "Dora Finch",
        "sign_in_name": "dora", "password": "wren in the hedge",
    }  # fmt: skip
    client = visitor(None)
    weak = client.post(f"/begin/{token}", told | {"password": "short"})
    assert weak.status_code == 422
    assert not Person.objects.exists()
    assert client.post(f"/begin/{token}", told).status_code == 302
    assert "There are no fields yet." in client.get("/").content.decode()
    assert "no longer works" in visitor(None).get(f"/begin/{token}").content.decode()


def test_time_zones_are_places_and_those_of_the_americas_come_first(db: None) -> None:
    page = visitor(None).get(f"/begin/{changes.begin_link()}").content.decode()
    zones = re.findall(r'<option value="([^"]+)"', page)
    assert zones.index("US/Central") < zones.index("Africa/Abidjan")
    assert zones[0].startswith("America/")
    assert "Europe/Paris" in zones
    assert not {"Factory", "localtime"} & {*zones}


def test_somebody_with_two_districts_goes_from_one_to_the_other(people: People) -> None:
    Membership.objects.create(person=people.alice, district=people.far, role=Role.SCOUT)
    client = visitor(people.alice)
    client.post("/district", {"district": people.far.public_id})
    page = client.get("/").content.decode()
    assert "Away 80" in page
    assert "Home 80" not in page
    assert client.get("/people").status_code == 404


def test_nobody_goes_to_a_district_that_they_have_no_part_in(people: People) -> None:
    answer = visitor(people.alice).post("/district", {"district": people.far.public_id})
    assert answer.status_code == 404


def test_the_demo_says_so_on_every_page(people: People) -> None:
    District.objects.filter(pk=people.near.pk).update(is_demo=True)
    for client in (visitor(people.bob), visitor(None)):
        for path in ("/", "/sign-in", "/nowhere"):
            page = words(client.get(path, follow=True).content.decode())
            assert "Demo: everything here is invented." in page, path
    assert "You are Bob Tarn, scout. Everything you change here is gone" in words(
        visitor(people.bob).get("/").content.decode()
    )


def test_a_real_office_never_says_demo(people: People) -> None:
    assert "invented" not in visitor(people.bob).get("/").content.decode()


def test_the_health_check_asks_for_no_sign_in(db: None) -> None:
    assert visitor(None).get("/healthy").content == b"ok"
    assert settings.LOGIN_URL == "account_login"


def test_a_form_without_its_mark_is_told_to_be_sent_again(people: People) -> None:
    client = visitor(people.alice)
    client.handler.enforce_csrf_checks = True
    answer = client.post("/people/add", {})
    assert answer.status_code == 403
    assert "This was not saved" in answer.content.decode()
