"""Fills an empty office with a small district and says, as JSON, what came in.

Run by its path in a process of its own, with the data folder as its only argument; goes
through the same services as the office's pages. Two of the three fields are ready to be
walked today, the third is closed; one was walked before.
"""

from __future__ import annotations

import json
import sys
from datetime import date, timedelta
from pathlib import Path

import numpy as np

from quarterwalk.cli.office import set_up

set_up(Path(sys.argv[1]))

from quarterwalk.demo import demo_fields  # noqa: E402 - only once Django is set up
from quarterwalk.files.weather_file import WeatherFile  # noqa: E402
from quarterwalk.office import clock  # noqa: E402
from quarterwalk.office.models import (  # noqa: E402
    Device,
    District,
    FieldRow,
    JournalEntry,
    Membership,
    Person,
    Role,
    WalkRow,
)
from quarterwalk.office.services import (  # noqa: E402
    fields,
    journal,
    people,
    phones,
    walks,
    weather,
)
from quarterwalk.office.translate import to_field  # noqa: E402
from quarterwalk.walk import (  # noqa: E402
    QUADRANTS,
    InsectCount,
    PlantCheck,
    SquareCount,
)
from quarterwalk.weather import DailyWeather, DayMark, Station  # noqa: E402

PASSWORD = "heron under the bridge"
GUIDELINE = "southern-high-plains"
FIELDS = ("Windmill 80", "Gin Road 120", "Playa 60")
DAYS_OF_SQUARING = 10
"""First square was so long ago: today lies in the second week of squaring. [days]"""


def main() -> None:
    near = District.objects.create(name="Near the draw", time_zone="America/Chicago")
    far = District.objects.create(name="Beyond the draw", time_zone="America/Chicago")
    lead = _person(near, "Tamsin Orrick", Role.LEAD)
    scouts = [_person(near, name, Role.SCOUT) for name in ("Joss Verel", "Dace Illery")]
    _person(far, "Ada Stow", Role.LEAD)
    _fields(near, far)
    grower = _person(near, "Marlow Teague", Role.GROWER)
    _weather(near)
    told = {
        "people": {member.person.sign_in_name: member.pk for member in (lead, *scouts, grower)},
        "password": PASSWORD,
        "guideline": GUIDELINE,
        "first_square": _first_square(near).isoformat(),
        "fields": {row.name: row.public_id for row in near.fields.all()},
        "entry": _set_aside(near, scouts[0].person),
        "device": Device.objects.get(label="An old phone").device_id,
        "walk": _walked(near, scouts[1].person),
        "join": _newcomer(near),
        "left_out": _left_out(near, lead.person),
    }
    print(json.dumps(told))


def _person(district: District, name: str, role: Role) -> Membership:
    whose = district.growers.get(name=name) if role == Role.GROWER else None
    new = people.NewPerson(name, name.split()[0].lower(), role, whose)
    member, token = people.add_person(district=district, person=new)
    link = people.use_link(token)
    assert link is not None
    people.choose_password(link=link, password=PASSWORD)
    return member


def _newcomer(district: District) -> str:
    """Let somebody in who has not chosen a password yet; gives their link."""
    new = people.NewPerson("Orla Finch", "orla", Role.SCOUT)
    return people.add_person(district=district, person=new)[1]


def _fields(near: District, far: District) -> None:
    found = {field.name: field for field in demo_fields()}
    fields.add_fields(district=near, fields=[found[name] for name in FIELDS])
    fields.add_fields(district=far, fields=[found["Depot 130"]])
    first = _first_square(near)
    for row in FieldRow.objects.filter(district=near):
        fields.set_rule(field=row, guideline=GUIDELINE, line="")
        dates = fields.SeasonDates(planted=first - timedelta(days=40), first_square=first)
        fields.set_dates(field=row, year=first.year, dates=dates)
    until = clock.now() + timedelta(days=2)
    fields.close_field(field=near.fields.get(name="Playa 60"), until=until, why="Sign at the gate")


def _first_square(district: District) -> date:
    return clock.today(district) - timedelta(days=DAYS_OF_SQUARING)


def _weather(district: District) -> None:
    """Hand in twelve years of warm summers at a station near by, up to yesterday."""
    last = clock.today(district) - timedelta(days=1)
    first = date(last.year - 12, 1, 1)
    days = np.arange((last - first).days + 1)
    mean = 62 + 21 * np.sin(2 * np.pi * (days - 105) / 365.25) + 4 * np.sin(days)
    near = to_field(district.fields.all()[0]).shape.centroid
    told = DailyWeather(
        Station("GIN", "Gin Road", (near.x - 0.1, near.y)),
        first,
        mean - 13,
        mean + 13,
        np.full(days.size, DayMark.MEASURED, np.uint8),
    )
    weather.take_weather(district=district, weather=WeatherFile("w.csv", (told,), (), (), ()))


def _checks(missing: int) -> list[PlantCheck]:
    """Give 25 plants a quarter, every fifth with an insect, the first ten with squares."""
    return [
        PlantCheck(
            quadrant,
            plant,
            stop=1 + (plant - 1) // 5,
            insects=InsectCount(int(plant % 5 == 0), 0),
            squares=SquareCount(5 - missing, missing) if plant <= 10 else None,
        )
        for quadrant in QUADRANTS
        for plant in range(1, 26)
    ]


def _walked(district: District, by: Person) -> str:
    field = district.fields.get(name="Gin Road 120")
    on = clock.today(district) - timedelta(days=3)
    return walks.enter_walk(field=field, on=on, scout=by.name, checks=_checks(1), by=by)


def _left_out(district: District, by: Person) -> str:
    field = district.fields.get(name="Gin Road 120")
    on = clock.today(district) - timedelta(days=9)
    walk_id = walks.enter_walk(field=field, on=on, scout=by.name, checks=_checks(0), by=by)
    walks.strike_walk(walk=WalkRow.objects.get(pk=walk_id), by=by)
    return walk_id


def _set_aside(district: District, person: Person) -> int:
    """Have a phone send a line that waits in the inbox; gives its number there."""
    code = phones.make_code(person=person, district=district)
    paired = phones.pair(code=code, label="An old phone")
    assert paired is not None
    journal.take(paired[0], b'{"v":1,"kind":"cut off in the mid')
    return JournalEntry.objects.get(state="quarantined").pk


main()
