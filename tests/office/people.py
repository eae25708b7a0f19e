"""Alice leads, Bob scouts, Gil grows; Charlie leads another district; and nobody is signed out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.contrib.auth.models import AnonymousUser

from quarterwalk.office.models import (
    Device,
    District,
    FieldRow,
    Grower,
    Membership,
    Person,
    Role,
)
from quarterwalk.office.services import fields, phones

NOBODY = AnonymousUser()
ZONE = "America/Chicago"
PASSWORD = "heron under the bridge"


def square(west: float) -> str:
    """Draw a square field of about 80 acres at the invented district's latitude."""
    east, south, north = west + 0.006, 33.0, 33.005
    ring = [[west, south], [east, south], [east, north], [west, north], [west, south]]
    return f'{{"type":"Polygon","coordinates":[{ring}]}}'


@dataclass(frozen=True, slots=True)
class People:
    """Everybody, with the two districts, their fields and their phones.

    `home` (Gil's) and `east` (another grower's) lie in Alice's district, `away` in Charlie's.
    """

    alice: Person
    bob: Person
    gil: Person
    charlie: Person
    near: District
    far: District
    home: FieldRow
    east: FieldRow
    away: FieldRow

    def part(self, person: Person) -> Membership:
        """Give the one part that a person has."""
        return Membership.objects.select_related("district", "person", "grower").get(person=person)


def settle() -> People:
    """Make the rows of everybody."""
    near = District.objects.create(name="Near", time_zone=ZONE)
    far = District.objects.create(name="Far", time_zone=ZONE)
    gils = Grower.objects.create(district=near, name="Gil Orme")
    other = Grower.objects.create(district=near, name="Ida Vane")
    theirs = Grower.objects.create(district=far, name="Gil Orme")
    return People(
        alice=_person("Alice Marr", near, Role.LEAD),
        bob=_person("Bob Tarn", near, Role.SCOUT),
        gil=_person("Gil Orme", near, Role.GROWER, gils),
        charlie=_person("Charlie Stow", far, Role.LEAD),
        near=near,
        far=far,
        home=_field("Home 80", near, gils, -100.00),
        east=_field("East 80", near, other, -99.98),
        away=_field("Away 80", far, theirs, -99.90),
    )


def _person(name: str, district: District, role: Role, grower: Grower | None = None) -> Person:
    person = Person(sign_in_name=name.split()[0].lower(), name=name)
    person.set_password(PASSWORD)
    person.save()
    Membership.objects.create(person=person, district=district, role=role, grower=grower)
    return person


def _field(name: str, district: District, grower: Grower, west: float) -> FieldRow:
    return FieldRow.objects.create(
        district=district, name=name, grower=grower, boundary=square(west), acres=77.0
    )


def phone(person: Person, district: District) -> tuple[Device, str]:
    """Pair a phone, as its person does; gives its token too."""
    paired = phones.pair(code=phones.make_code(person=person, district=district), label="phone")
    assert paired is not None
    return paired


def made_ready(field: FieldRow) -> None:
    """Give a field a guideline, and first square on 8 June 2026."""
    fields.set_rule(field=field, guideline="southern-high-plains", line="")
    dates = fields.SeasonDates(first_square=date(2026, 6, 8))
    fields.set_dates(field=field, year=2026, dates=dates)
    field.refresh_from_db()
