"""What a phone asks of the office, and every answer it may get."""

from __future__ import annotations

import hashlib
import json
from datetime import UTC, date, datetime
from io import BytesIO
from typing import Any

import pytest
from django.test import Client
from jsonschema import Draft202012Validator

from quarterwalk.card import check_card
from quarterwalk.office.models import CardRow, Device, JournalEntry, Membership
from quarterwalk.office.services import fields, phones
from tests.office.conftest import Moment
from tests.office.people import People, made_ready
from tests.office.seasoned import walk_in
from tests.office.sender import Sender, answers

ASKED = (("get", "/sync/day"), ("post", "/sync/entries"), ("get", "/sync/walks"),
         ("get", f"/sync/cards/{'0' * 64}"))  # fmt: skip


def pair(code: str, label: Any = "Joss's phone") -> Any:
    told = {"code": code, "label": label}
    return Client().post("/sync/pair", json.dumps(told), content_type="application/json")


def test_a_code_pairs_a_phone(people: People, moment: Moment) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    answer = pair(code)
    told = answer.json()
    assert answer.status_code == 200
    assert "no-store" in answer["Cache-Control"]
    device = Device.objects.get(device_id=told["device"])
    assert (device.person, device.district, device.label) == (
        people.bob, people.near, "Joss's phone",
    )  # fmt: skip
    assert phones.device_of(told["token"]) == device
    assert told["person"] == {"id": people.bob.public_id, "name": "Bob Tarn"}
    assert told["district"] == {"id": people.near.public_id, "name": "Near"}
    assert (told["now"], told["shift_ms"]) == ("2026-06-18T18:00:00.000+00:00", 0)
    assert told["token"] not in json.dumps(list(Device.objects.values()), default=str)


@pytest.mark.parametrize("body", [b"", b"{", b"[]", b"{}", b'{"code":"\\ud800"}', b"\xff", b"1",
                                  b"[" * 100_000, b'{"code":["7KQ4-M2XD"]}'])  # fmt: skip
def test_what_is_no_code_is_answered_404(people: People, body: bytes) -> None:
    answer = Client().generic("POST", "/sync/pair", body, "application/json")
    assert (answer.status_code, answer.json()) == (404, {"error": "code"})


def test_odd_letters_in_a_label_do_no_harm(people: People) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    told = pair(code, "a\x00\ud800b" + "c" * 99).json()
    assert Device.objects.get(device_id=told["device"]).label == "ab" + "c" * 58


def test_who_tries_codes_is_slowed_down(people: People) -> None:
    statuses = [pair("AAAA-AAAA").status_code for _ in range(12)]
    assert statuses[:10] == [404] * 10
    assert statuses[-1] == 429
    assert pair("AAAA-AAAA").json() == {"error": "slow"}


@pytest.mark.parametrize(("how", "path"), ASKED)
@pytest.mark.parametrize("header", ["", "Bearer ", "Bearer x", "Basic x", "Bearer \xff"])
def test_without_a_token_nothing_is_told(people: People, how: str, path: str, header: str) -> None:
    answer = getattr(Client(), how)(path, headers={"Authorization": header})
    assert (answer.status_code, answer.json()) == (401, {"error": "token"})


@pytest.mark.parametrize(("how", "path"), ASKED)
def test_a_token_that_was_ended_opens_nothing(bobs: Sender, how: str, path: str) -> None:
    phones.revoke(device=bobs.device)
    answer = getattr(Client(), how)(path, headers={"Authorization": f"Bearer {bobs.token}"})
    assert (answer.status_code, answer.json()) == (401, {"error": "token"})


def test_a_signed_in_person_without_a_token_is_a_stranger_here(people: People) -> None:
    client = Client()
    client.force_login(people.alice)
    assert client.get("/sync/day").status_code == 401


def test_no_cookie_is_set_and_none_is_needed(bobs: Sender) -> None:
    strict = Client(enforce_csrf_checks=True)
    headers = {"Authorization": f"Bearer {bobs.token}"}
    answer = strict.generic("POST", "/sync/entries", b"", headers=headers)
    assert answer.status_code == 200
    assert not answer.cookies
    assert "no-store" in answer["Cache-Control"]


@pytest.mark.parametrize("path", ["pair", "entries"])
def test_only_the_method_that_is_meant_is_answered(bobs: Sender, path: str) -> None:
    assert bobs.get(path).status_code == 405


# entries


def test_a_batch_too_large_is_refused_whole(bobs: Sender, people: People) -> None:
    answer = bobs.post(b"x" * 1_000_001)
    assert (answer.status_code, answer.json()) == (413, {"error": "size"})
    answer = bobs.post(b"{}\n" * 2_001)
    assert (answer.status_code, answer.json()) == (413, {"error": "size"})
    assert not JournalEntry.objects.exists()


def test_the_largest_batch_is_taken(bobs: Sender) -> None:
    assert answers(bobs.post(b"{}\n" * 2_000)) == ["quarantined schema"] * 2_000
    assert JournalEntry.objects.count() == 1


@pytest.mark.parametrize("promised", ["999", "-1", "much"])
def test_a_batch_that_was_cut_off_is_not_taken(bobs: Sender, people: People, promised: str) -> None:
    body = json.dumps(bobs.open(people.home)).encode()
    odd = {"CONTENT_LENGTH": promised, "wsgi.input": BytesIO(body)}
    answer = bobs.post(body, **odd)
    assert (answer.status_code, answer.json()) == (400, {"error": "cut"})
    assert not JournalEntry.objects.exists()


def test_nothing_sent_is_nothing_answered(bobs: Sender) -> None:
    told = bobs.post(b"\n\r\n").json()
    assert (told["answers"], told["walks"]) == ([], {})


def test_a_whole_walk_comes_back_with_its_call(bobs: Sender, people: People) -> None:
    said = bobs.walk(people.home)
    answer = bobs.send(*said)
    assert answers(answer) == ["held"] * len(said)
    told = answer.json()["walks"][said[0]["walk"]]
    assert (told["state"], told["waiting"], told["plants"]) == ("closed", 0, 100)
    call = told["call"]
    assert (call["verdict"], call["words"], call["provisional"]) == ("hold", "Hold", False)
    assert call["lacking"] == []
    assert all(call[name] for name in ("reasons", "headline", "guideline", "insects"))
    assert answers(bobs.send(*said)) == ["already-held"] * len(said)
    assert bobs.get("walks", id=said[0]["walk"]).json()["walks"] == {said[0]["walk"]: told}


def test_a_walk_that_goes_on_has_no_call_yet(bobs: Sender, people: People) -> None:
    opened = bobs.open(people.home)
    told = bobs.send(opened, bobs.check(opened["walk"], "NW", 1)).json()
    assert told["walks"][opened["walk"]] == {
        "state": "open", "waiting": 0, "plants": 1, "call": None,
    }  # fmt: skip


def test_a_call_is_one_for_now_while_entries_are_on_their_way(bobs: Sender, people: People) -> None:
    said = bobs.walk(people.home)
    lost = said.pop(7)
    told = bobs.send(*said).json()["walks"][said[0]["walk"]]
    assert (told["state"], told["waiting"], told["call"]["provisional"]) == ("closed", 1, True)
    assert told["call"]["lacking"] == ["Waiting for 1 more entry from the phone."]
    told = bobs.send(lost).json()["walks"][said[0]["walk"]]
    assert (told["waiting"], told["call"]["provisional"]) == (0, False)


def test_a_field_without_a_guideline_gets_no_call(bobs: Sender, people: People) -> None:
    fields.set_rule(field=people.home, guideline="", line="")
    said = bobs.walk(people.home)
    assert bobs.send(*said).json()["walks"][said[0]["walk"]]["call"] is None


def test_walks_of_another_district_are_not_told(bobs: Sender, people: People) -> None:
    charlies = Sender(people.charlie, people.far)
    said = charlies.walk(people.away, 4)
    charlies.send(*said)
    assert bobs.get("walks", id=said[0]["walk"]).json()["walks"] == {}
    stolen = bobs.send(*said).json()  # even who knows the very bytes is not told
    assert {one["answer"] for one in stolen["answers"]} == {"already-held"}
    assert stolen["walks"] == {}


@pytest.mark.parametrize("path", ["walks?id=x&id=k3f9m2q8t5wz-1", "walks"])
def test_walks_that_are_none_are_not_told(bobs: Sender, path: str) -> None:
    assert bobs.get(path).json()["walks"] == {}


@pytest.mark.parametrize("name", ["x", "0" * 63, "0" * 64, "A" * 64])
def test_a_card_that_is_none_is_not_there(bobs: Sender, name: str) -> None:
    assert bobs.get(f"cards/{name}").status_code == 404


def test_the_phones_clock_is_kept_beside_the_offices(bobs: Sender, moment: Moment) -> None:
    moment.later(minutes=2)
    headers = {"Authorization": f"Bearer {bobs.token}",
               "Quarterwalk-Now": "2026-06-18T13:02:03.500-05:00"}  # fmt: skip
    Client().get("/sync/day", headers=headers)
    assert (bobs.stored().skew_ms, bobs.stored().seen_at) == (3_500, moment.now)
    moment.later(minutes=2)
    headers["Quarterwalk-Now"] = "9" * 40
    Client().get("/sync/day", headers=headers)
    assert (bobs.stored().skew_ms, bobs.stored().seen_at) == (3_500, moment.now)


# day and cards

TEXT, WHEN = {"type": "string", "minLength": 1}, {"type": ["string", "null"]}
DAY = {
    "type": "object",
    "additionalProperties": False,
    "required": ["now", "shift_ms", "person", "district", "scouts", "fields"],
    "properties": {
        "now": TEXT,
        "shift_ms": {"const": 0},
        "person": {"type": "object"},
        "district": {"type": "object", "required": ["id", "name", "demo"]},
        "scouts": {"type": "array", "items": {"required": ["id", "name"]}},
        "fields": {
            "type": "array",
            "items": {
                "required": ["id", "name", "grower", "farm", "acres", "due", "stage", "last",
                             "closed_until", "card", "no_card"],
                "properties": {
                    "due": {"required": ["on", "text"], "properties": {"on": WHEN, "text": TEXT}},
                    "stage": TEXT,
                    "last": {"type": ["object", "null"], "required": ["on", "verdict", "words"]},
                    "closed_until": WHEN,
                    "card": WHEN,
                    "no_card": WHEN,
                },
            },
        },
    },
}  # fmt: skip


def day(sender: Sender) -> Any:
    answer = sender.get("day")
    assert answer.status_code == 200
    told = answer.json()
    Draft202012Validator(DAY).validate(told)
    return told


def test_the_day_tells_the_districts_fields_and_who_walks(bobs: Sender, people: People) -> None:
    told = day(bobs)
    assert told["person"] == {"id": people.bob.public_id, "name": "Bob Tarn"}
    assert told["district"] == {"id": people.near.public_id, "name": "Near", "demo": False}
    assert [each["name"] for each in told["scouts"]] == ["Alice Marr", "Bob Tarn"]
    assert [each["name"] for each in told["fields"]] == ["East 80", "Home 80"]
    home = told["fields"][1]
    assert (home["id"], home["grower"], home["acres"]) == (people.home.public_id, "Gil Orme", 77.0)
    assert home["due"] == {"on": "2026-06-18", "text": "first look, no walk yet", "now": True}
    assert (home["stage"], home["last"], home["no_card"]) == ("week 2, day 10", None, None)


def test_what_is_due_first_stands_first(bobs: Sender, people: People, moment: Moment) -> None:
    bobs.send(*bobs.walk(people.east))
    told = day(bobs)["fields"]
    assert [each["name"] for each in told] == ["Home 80", "East 80"]
    assert told[1]["last"] == {"on": "2026-06-18", "verdict": "hold", "words": "Hold"}
    assert told[1]["due"]["on"] > "2026-06-18"
    assert told[1]["due"]["now"] is False


def test_a_look_of_two_days_is_due_from_the_first_on(bobs: Sender, people: People) -> None:
    # more insects than two thirds of the line: again after 3 to 4 days
    walk_in(people.home, people.bob, nymphs=5, lost=0, on=date(2026, 6, 15))
    due = {each["name"]: each for each in day(bobs)["fields"]}["Home 80"]["due"]
    assert due == {"on": "2026-06-19", "text": "18 to 19 June, walked 15 June", "now": True}


def test_a_walk_of_last_season_is_not_what_is_due(
    bobs: Sender, people: People, moment: Moment
) -> None:
    bobs.send(*bobs.walk(people.east))
    moment.later(days=365)
    told = {each["name"]: each for each in day(bobs)["fields"]}["East 80"]
    assert (told["last"], told["due"]["text"], told["due"]["on"]) == (
        None, "first look, no walk yet", "2027-06-18",
    )  # fmt: skip


def test_before_the_crop_squares_the_first_look_is_due_once_it_does(
    bobs: Sender, moment: Moment
) -> None:
    moment.later(days=-20)
    due = day(bobs)["fields"][0]["due"]
    assert (due["on"], due["now"]) == ("2026-06-08", False)


@pytest.mark.parametrize(
    ("back", "latest", "stage"),
    [(10, None, "week 1, day 0"), (4, None, "week 1, day 6"), (3, None, "week 2, day 7"),
     (0, 10, "week 2, day 8 to 10"), (10, 10, "week 1, day 0"), (11, None, "before squaring"),
     (3, 10, "week 1 or 2")],
)  # fmt: skip
def test_the_stage_counts_days_from_first_square(
    bobs: Sender, people: People, moment: Moment, back: int, latest: int | None, stage: str
) -> None:
    dates = fields.SeasonDates(date(2026, 5, 1), date(2026, 6, 8))
    if latest is not None:
        dates = fields.SeasonDates(date(2026, 5, 1), date(2026, 6, 8), date(2026, 6, latest))
    fields.set_dates(field=people.home, year=2026, dates=dates)
    moment.later(days=-back)
    told = {each["name"]: each["stage"] for each in day(bobs)["fields"]}
    assert told["Home 80"] == stage


def test_a_card_is_given_out_byte_for_byte_as_it_is_named(bobs: Sender) -> None:
    for field in day(bobs)["fields"]:
        answer = bobs.get(f"cards/{field['card']}")
        assert (answer.status_code, answer["Content-Type"]) == (200, "application/json")
        assert hashlib.sha256(answer.content).hexdigest() == field["card"]
        card = json.loads(answer.content)
        check_card(card)
        assert card["field"]["id"] == field["id"]
    assert day(bobs)["fields"][0]["card"] == day(bobs)["fields"][0]["card"]
    assert CardRow.objects.count() == 2


def test_a_card_of_another_district_is_not_there(bobs: Sender, people: People) -> None:
    made_ready(people.away)
    theirs = day(Sender(people.charlie, people.far))["fields"][0]["card"]
    assert theirs
    answer = bobs.get(f"cards/{theirs}")
    assert (answer.status_code, answer.json()) == (404, {"error": "card"})


def test_a_field_that_is_swept_says_why_it_has_no_card(bobs: Sender, people: People) -> None:
    fields.set_rule(field=people.home, guideline="tennessee-sweep", line="")
    told = day(bobs)["fields"][1]
    assert told["card"] is None
    assert "sweep" in told["no_card"]


def test_a_closed_field_says_until_when_in_the_districts_time(
    bobs: Sender, people: People, moment: Moment
) -> None:
    until = datetime(2026, 6, 19, 12, tzinfo=UTC)
    fields.close_field(field=people.home, until=until)
    assert day(bobs)["fields"][1]["closed_until"] == "2026-06-19T07:00:00-05:00"
    moment.later(days=1)
    assert day(bobs)["fields"][1]["closed_until"] is None


@pytest.mark.parametrize("how", ["removed", "grower"])
def test_who_may_not_walk_any_more_is_shown_no_field_and_no_card(
    bobs: Sender, people: People, how: str
) -> None:
    card = day(bobs)["fields"][0]["card"]
    said = bobs.walk(people.home, 4)
    bobs.send(*said)
    part = Membership.objects.filter(person=people.bob)
    if how == "removed":
        part.delete()
    else:
        part.update(role="grower", grower=people.home.grower)
    told = bobs.get("day").json()
    assert (told["fields"], told["scouts"]) == ([], [])
    assert bobs.get(f"cards/{card}").status_code == 404
    assert bobs.get("walks", id=said[0]["walk"]).json()["walks"] == {}


def test_an_account_that_was_switched_off_opens_nothing(bobs: Sender, people: People) -> None:
    people.bob.is_active = False
    people.bob.save()
    assert bobs.get("day").status_code == 401
