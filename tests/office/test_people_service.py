"""People: let in by a link that works once, never without a lead, and gone when taken away."""

from __future__ import annotations

import pytest
from django.db import IntegrityError, transaction

from quarterwalk.office.models import District, Membership, Person, Role, SignInLink
from quarterwalk.office.services import people as changes
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.tokens import hashed
from tests.office.conftest import Moment
from tests.office.people import PASSWORD, ZONE, People

pytestmark = pytest.mark.django_db
OTHER_PASSWORD = "two herons over the water"


def ned(role: Role = Role.SCOUT) -> changes.NewPerson:
    return changes.NewPerson("Ned Orr", "ned", role)


def begun(**odd: str) -> changes.Beginning:
    told = {"district": "North", "time_zone": ZONE, "name": "Ada Wren", "sign_in_name": "ada",
            "password": PASSWORD}  # fmt: skip
    return changes.Beginning(**{**told, **odd})


def test_who_is_let_in_chooses_a_password_by_a_link(people: People) -> None:
    part, token = changes.add_person(district=people.near, person=ned())
    assert (part.district, part.role) == (people.near, Role.SCOUT)
    assert not part.person.has_usable_password()
    link = changes.use_link(token)
    assert link is not None
    changes.choose_password(link=link, password=OTHER_PASSWORD)
    assert Person.objects.get(sign_in_name="ned").check_password(OTHER_PASSWORD)


def test_a_link_works_once(people: People) -> None:
    _, token = changes.add_person(district=people.near, person=ned())
    link = changes.use_link(token)
    assert link is not None
    changes.choose_password(link=link, password=OTHER_PASSWORD)
    assert changes.use_link(token) is None
    with pytest.raises(ServiceRefused):
        changes.choose_password(link=link, password="somebody else's")
    link.person.refresh_from_db()
    assert link.person.check_password(OTHER_PASSWORD)


def test_a_link_lives_a_week(people: People, moment: Moment) -> None:
    part, token = changes.add_person(district=people.near, person=ned())
    link = changes.use_link(token)
    assert link is not None
    moment.later(days=7)
    assert changes.use_link(token) is None
    with pytest.raises(ServiceRefused):
        changes.choose_password(link=link, password=OTHER_PASSWORD)
    assert changes.use_link(changes.new_link(part)) is not None


def test_a_new_link_ends_the_one_before(people: People) -> None:
    part, first = changes.add_person(district=people.near, person=ned())
    second = changes.new_link(part)
    assert changes.use_link(first) is None
    assert changes.use_link(second) is not None


def test_a_link_is_kept_as_its_hash(people: People) -> None:
    _, token = changes.add_person(district=people.near, person=ned())
    [kept] = SignInLink.objects.all()
    assert kept.token_hash == hashed(token)


def test_no_lead_opens_what_another_leads(people: People) -> None:
    Membership.objects.create(person=people.bob, district=people.far, role=Role.SCOUT)
    part = Membership.objects.get(person=people.bob, district=people.near)
    with pytest.raises(ServiceRefused):
        changes.new_link(part)
    assert not SignInLink.objects.exists()


def test_a_lasting_link_works_again_and_again_and_changes_no_password(
    people: People, moment: Moment
) -> None:
    moment_later = moment.now.replace(day=moment.now.day + 5)
    token = changes.lasting_link(person=people.bob, until=moment_later)
    for _ in range(3):
        link = changes.use_link(token)
        assert link is not None
        assert link.lasting
    with pytest.raises(ServiceRefused):
        changes.choose_password(link=link, password=OTHER_PASSWORD)
    moment.later(days=5)
    assert changes.use_link(token) is None


def test_a_link_of_who_may_not_sign_in_opens_nothing(people: People) -> None:
    part, token = changes.add_person(district=people.near, person=ned())
    Person.objects.filter(pk=part.person_id).update(is_active=False)
    assert changes.use_link(token) is None


@pytest.mark.parametrize("taken", ["bob", "BOB", "Bob"])
def test_a_sign_in_name_is_taken_in_any_letter_case(people: People, taken: str) -> None:
    with pytest.raises(ServiceRefused) as refused:
        changes.add_person(
            district=people.far, person=changes.NewPerson("Bob Ray", taken, Role.SCOUT)
        )
    assert refused.value.about == "sign_in_name"
    with pytest.raises(IntegrityError), transaction.atomic():
        Person.objects.create(sign_in_name=taken, name="Bob Ray")


@pytest.mark.parametrize("whose", ["nobody", "elsewhere"])
def test_a_grower_sees_the_fields_of_a_grower_of_the_district(people: People, whose: str) -> None:
    grower = people.away.grower if whose == "elsewhere" else None
    told = changes.NewPerson("Ned Orr", "ned", Role.GROWER, grower)
    with pytest.raises(ServiceRefused) as refused:
        changes.add_person(district=people.near, person=told)
    assert refused.value.about == "grower"
    assert not Person.objects.filter(sign_in_name="ned").exists()


def test_a_grower_of_a_scout_is_left_out(people: People) -> None:
    told = changes.NewPerson("Ned Orr", "ned", Role.SCOUT, people.home.grower)
    part, _ = changes.add_person(district=people.near, person=told)
    assert part.grower is None


def test_a_district_is_never_without_a_lead(people: People) -> None:
    part = people.part(people.alice)
    for leave in (
        lambda: changes.change_role(part=part, role=Role.SCOUT),
        lambda: changes.take_away(part=part),
    ):
        with pytest.raises(ServiceRefused, match="needs a lead"):
            leave()
    assert Membership.objects.get(pk=part.pk).role == Role.LEAD


def test_a_lead_who_may_not_sign_in_is_no_other_lead(people: People) -> None:
    bobs = people.part(people.bob)
    changes.change_role(part=bobs, role=Role.LEAD)
    Person.objects.filter(pk=people.bob.pk).update(is_active=False)
    with pytest.raises(ServiceRefused, match="needs a lead"):
        changes.change_role(part=people.part(people.alice), role=Role.SCOUT)


def test_a_lead_steps_down_once_there_is_another(people: People) -> None:
    changes.change_role(part=people.part(people.bob), role=Role.LEAD)
    changes.change_role(part=people.part(people.alice), role=Role.SCOUT)
    with pytest.raises(ServiceRefused, match="needs a lead"):
        changes.take_away(part=people.part(people.bob))


def test_whoever_was_a_grower_sees_no_grower_s_fields_as_a_scout(people: People) -> None:
    changes.change_role(part=people.part(people.gil), role=Role.SCOUT)
    assert people.part(people.gil).grower is None


def test_taking_a_part_away_keeps_the_person_and_their_part_elsewhere(people: People) -> None:
    Membership.objects.create(person=people.bob, district=people.far, role=Role.SCOUT)
    changes.take_away(part=Membership.objects.get(person=people.bob, district=people.near))
    assert people.part(people.bob).district == people.far


@pytest.mark.usefixtures("moment", "db")
class TestBeginning:
    """An office in which there is nobody yet."""

    def test_the_first_lead_makes_the_first_district(self) -> None:
        token = changes.begin_link()
        assert token is not None
        assert changes.may_begin(token)
        lead = changes.begin_office(begun())
        part = Membership.objects.get(person=lead)
        assert (part.role, part.district.name, part.district.time_zone) == (
            Role.LEAD, "North", ZONE,
        )  # fmt: skip
        assert lead.check_password(PASSWORD)

    def test_an_office_begins_once(self) -> None:
        token = changes.begin_link()
        assert token is not None
        changes.begin_office(begun())
        assert changes.begin_link() is None
        assert not changes.may_begin(token)
        with pytest.raises(ServiceRefused):
            changes.begin_office(begun(sign_in_name="eve"))
        assert Person.objects.count() == 1

    @pytest.mark.parametrize("token", ["", "begin", "a:b:c"])
    def test_only_the_printed_link_begins_it(self, token: str) -> None:
        assert not changes.may_begin(token)

    @pytest.mark.parametrize("zone", ["", "Mars/Olympus", "../etc/passwd", "\x00"])
    def test_a_time_zone_that_is_none_is_refused(self, zone: str) -> None:
        with pytest.raises(ServiceRefused) as refused:
            changes.begin_office(begun(time_zone=zone))
        assert refused.value.about == "time_zone"
        assert not District.objects.exists()
