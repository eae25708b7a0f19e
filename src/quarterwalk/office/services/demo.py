"""The office of the invented district: its people, its fields, and all its walks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from django.db import transaction

from quarterwalk.demo import Season, demo_fields
from quarterwalk.files import PlantingFile
from quarterwalk.files.seen_table import SeenFile
from quarterwalk.files.walk_table import WalkFile
from quarterwalk.files.weather_file import WeatherFile
from quarterwalk.office import clock
from quarterwalk.office.models import District, FieldRow, Membership, Person, Role
from quarterwalk.office.services import fields, people, seen, walks, weather

# A link lives as long as anybody looks at a demo.
_LINK_LIVES = timedelta(days=30)


@dataclass(frozen=True, slots=True)
class DemoLink:
    """Somebody of the demo, what they are, and the path that signs them in."""

    name: str
    role: str
    path: str


@dataclass(frozen=True, slots=True)
class DemoTables:
    """The demo's tables, read as any others.

    Parameters
    ----------
    walks : WalkFile
        Its walks.
    plantings : PlantingFile
        The dates of its fields.
    weather : WeatherFile
        Days of its stations.
    seen : SeenFile
        What was seen of its crops between walks.
    """

    walks: WalkFile
    plantings: PlantingFile
    weather: WeatherFile
    seen: SeenFile


def fill(season: Season, tables: DemoTables) -> list[DemoLink]:
    """Fill an empty office with the demo's season, walks and people.

    Parameters
    ----------
    season : Season
        The invented season.
    tables : DemoTables
        What it hands in.

    Returns
    -------
    list of DemoLink
        One for each person who may sign in.
    """
    told = season.district
    with transaction.atomic():
        district = District.objects.create(name=told.name, time_zone=told.time_zone, is_demo=True)
        lead = _person(district, told.advisor, Role.LEAD)
        fields.add_fields(district=district, fields=demo_fields())
        for field in FieldRow.objects.filter(district=district):
            fields.set_rule(field=field, guideline=told.guideline, line="")
        fields.set_plantings(district=district, plantings=tables.plantings)
        weather.take_weather(district=district, weather=tables.weather)
        scouts = [_person(district, name, Role.SCOUT) for name in told.scouts]
        growers = [_grower(district, name) for name in _growers(district)]
        seen.import_seen(district=district, seen=tables.seen, by=scouts[0].person)
        walks.import_walks(district=district, walks=tables.walks, by=lead.person)
    return [_link(member) for member in (lead, *scouts, *growers)]


def _growers(district: District) -> list[str]:
    """Name the growers who sign in: the one with the most fields is enough to see it."""
    names = [
        field.grower.name for field in district.fields.select_related("grower") if field.grower
    ]
    return [max(sorted(set(names)), key=names.count)]


def _person(district: District, name: str, role: Role) -> Membership:
    told = people.NewPerson(name, _sign_in_name(name), role)
    return people.add_person(district=district, person=told)[0]


def _grower(district: District, name: str) -> Membership:
    whose = district.growers.get(name=name)
    told = people.NewPerson(name, _sign_in_name(name), Role.GROWER, whose)
    return people.add_person(district=district, person=told)[0]


def _sign_in_name(name: str) -> str:
    return name.split()[0].lower()


def _link(member: Membership) -> DemoLink:
    person: Person = member.person
    token = people.lasting_link(person=person, until=clock.now() + _LINK_LIVES)
    return DemoLink(person.name, Role(member.role).label, f"/join/{token}")
