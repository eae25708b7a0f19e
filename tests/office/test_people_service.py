"""People: let in by a link that opens once, and never the last lead gone."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.auth import authenticate
from django.db import IntegrityError, transaction

from quarterwalk.office.models import District, Grower, Membership, Person, Role, SignInLink
from quarterwalk.office.services import people as service
from quarterwalk.office.services import phones
from quarterwalk.office.services.people import Beginning, NewPerson
from quarterwalk.office.services.refused import ServiceRefused
from tests.office.conftest import Moment
from tests.office.people import People
from tests.office.sender import Sender

GOOD = "a heron stands very still"


def joss(**more: object) -> NewPerson:
    told = {"name": "Joss Pell", "sign_in_name": "joss", "role": Role.SCOUT, **more}
    return NewPerson(**told)  # type: ignore[arg-type]


def test_a_link_lets_somebody_choose_their_password_once(people: People) -> None:
    part, token = service.add_person(district=people.near, person=joss())
    assert not part.person.has_usable_password()
    link, again = service.use_link(token), service.use_link(token)
    assert link is not None
    assert again is not None
    assert service.choose_password(link=link, password=GOOD) == part.person
    assert Person.objects.get(sign_in_name="joss").check_password(GOOD)
    assert service.use_link(token) is None
    with pytest.raises(ServiceRefused, match="used already"):
        service.choose_password(link=again, password="an otter took it instead")
    assert Person.objects.get(sign_in_name="joss").check_password(GOOD)
    assert token not in str(list(SignInLink.objects.values_list("token_hash", flat=True)))


def test_a_link_ends_after_a_week(people: People, moment: Moment) -> None:
    _, token = service.add_person(district=people.near, person=joss())
    moment.later(days=7, seconds=-1)
    link = service.use_link(token)
    assert link is not None
    moment.later(seconds=1)
    assert service.use_link(token) is None
    with pytest.raises(ServiceRefused, match="ended"):
        service.choose_password(link=link, password=GOOD)


def test_a_newer_link_ends_the_older(people: People) -> None:
    part, old = service.add_person(district=people.near, person=joss())
    new = service.new_link(part)
    assert service.use_link(old) is None
    assert service.use_link(new) is not None


def test_no_lead_opens_what_another_leads(people: People) -> None:
    part = Membership.objects.create(person=people.charlie, district=people.near, role=Role.SCOUT)
    with pytest.raises(ServiceRefused, match="another district"):
        service.new_link(part)
    assert not SignInLink.objects.exists()


def test_a_lasting_link_opens_again_and_again_and_sets_no_password(people: People) -> None:
    until = service.clock.now() + timedelta(days=3)
    token = service.lasting_link(person=people.bob, until=until)
    for _ in range(2):
        link = service.use_link(token)
        assert link is not None
        with pytest.raises(ServiceRefused):
            service.choose_password(link=link, password=GOOD)
    service.new_link(people.part(people.bob))
    assert service.use_link(token) is not None


@pytest.mark.parametrize("name", ["bob", "BOB", "Bob"])
def test_a_sign_in_name_is_taken_in_any_case(people: People, name: str) -> None:
    with pytest.raises(ServiceRefused) as refused:
        service.add_person(district=people.far, person=joss(sign_in_name=name))
    assert refused.value.about == "sign_in_name"
    with pytest.raises(IntegrityError), transaction.atomic():
        Person.objects.create(sign_in_name=name, name="Another")
    assert authenticate(username=name.upper(), password="heron under the bridge") == people.bob


def test_a_grower_needs_a_grower_of_the_district(people: People) -> None:
    theirs = Grower.objects.get(district=people.far)
    for grower in (None, theirs):
        with pytest.raises(ServiceRefused) as refused:
            service.add_person(district=people.near, person=joss(role=Role.GROWER, grower=grower))
        assert refused.value.about == "grower"
    assert not Person.objects.filter(sign_in_name="joss").exists()


def test_the_last_lead_stays(people: People) -> None:
    part = people.part(people.alice)
    with pytest.raises(ServiceRefused, match="needs a lead"):
        service.take_away(part=part)
    with pytest.raises(ServiceRefused, match="needs a lead"):
        service.change_role(part=part, role=Role.SCOUT)
    part.refresh_from_db()
    assert part.role == Role.LEAD
    service.change_role(part=people.part(people.bob), role=Role.LEAD)
    service.take_away(part=part)
    with pytest.raises(ServiceRefused, match="needs a lead"):
        service.take_away(part=people.part(people.bob))


def test_who_was_made_lead_meanwhile_is_the_last_one_too(people: People) -> None:
    stale = people.part(people.bob)
    service.change_role(part=people.part(people.bob), role=Role.LEAD)
    service.take_away(part=people.part(people.alice))
    with pytest.raises(ServiceRefused, match="needs a lead"):
        service.take_away(part=stale)


def test_a_lead_whose_account_is_off_is_no_lead_left(people: People) -> None:
    service.change_role(part=people.part(people.bob), role=Role.LEAD)
    Person.objects.filter(pk=people.bob.pk).update(is_active=False)
    with pytest.raises(ServiceRefused, match="needs a lead"):
        service.take_away(part=people.part(people.alice))


def test_with_a_part_go_its_phones_of_that_district(people: People) -> None:
    Membership.objects.create(person=people.bob, district=people.far, role=Role.SCOUT)
    near, far = Sender(people.bob, people.near), Sender(people.bob, people.far)
    part = Membership.objects.get(person=people.bob, district=people.near)
    service.take_away(part=part)
    assert phones.device_of(near.token) is None
    assert phones.device_of(far.token) == far.device
    assert near.get("day").status_code == 401
    assert far.get("day").status_code == 200


def test_a_grower_who_becomes_a_scout_keeps_no_grower(people: People) -> None:
    service.change_role(part=people.part(people.gil), role=Role.SCOUT, grower=people.home.grower)
    assert people.part(people.gil).grower is None


# the beginning

TOLD = Beginning("North", "America/Chicago", "Ada Wray", "ada", GOOD)


@pytest.mark.django_db
def test_an_office_begins_with_its_first_lead() -> None:
    token = service.begin_link()
    assert token is not None
    assert service.may_begin(token)
    assert not service.may_begin("x" + token)
    lead = service.begin_office(TOLD)
    assert lead.check_password(GOOD)
    assert Membership.objects.get().role == Role.LEAD
    assert District.objects.get().time_zone == "America/Chicago"
    assert not service.may_begin(token)
    assert service.begin_link() is None
    with pytest.raises(ServiceRefused, match="already"):
        service.begin_office(TOLD)


@pytest.mark.django_db
@pytest.mark.parametrize("zone", ["", "Mars", "../etc/passwd", "/etc/passwd", "x" * 300, "America"])
def test_a_time_zone_that_is_none_is_refused(zone: str) -> None:
    with pytest.raises(ServiceRefused) as refused:
        service.begin_office(Beginning("North", zone, "Ada Wray", "ada", GOOD))
    assert refused.value.about == "time_zone"
    assert not Person.objects.exists()
