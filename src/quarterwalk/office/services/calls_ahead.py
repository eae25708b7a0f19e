"""Calls that a change of weather makes anew: made before it is kept, and kept together with it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Max, Model, QuerySet

from quarterwalk.office.crop_clocks import waits_for_clock
from quarterwalk.office.models import (
    CheckRow,
    District,
    FieldRow,
    QuadrantNoteRow,
    SeasonRow,
    SeenRow,
    Treatment,
    WalkRow,
)
from quarterwalk.office.services import calls
from quarterwalk.office.translate import season_on
from quarterwalk.office.weather_change import WeatherChange

_Season = tuple[int | None, int]
"""A field's key and a year."""

_Footing = tuple[Any, ...]
"""All that a walk's call rests on besides weather; the same again is the same."""


@dataclass(frozen=True, slots=True)
class _Made:
    """What a change makes of one walk's call.

    Parameters
    ----------
    footing : tuple
        What it rests on besides weather.
    change : (str, str)
        The weather before and after.
    text : str or None
        The call as it is kept; None where the change can't make another of it.
    """

    footing: _Footing
    change: tuple[str, str]
    text: str | None


class CallsAhead:
    """The calls that a change of a district's weather makes anew.

    They are made outside of the transaction that keeps the change, which takes as long as a
    season of walks is; inside it is only seen whether they still hold.

    Parameters
    ----------
    district : District
        Whose weather changes.
    """

    def __init__(self, district: District) -> None:
        self._district = district
        self._made: dict[str, _Made] = {}
        self._now: frozenset[str] = frozenset()

    def lacking(self, change: WeatherChange) -> list[str]:
        """Name the walks that are still to be looked at, as the district stands now.

        Parameters
        ----------
        change : WeatherChange
            The change.

        Returns
        -------
        list of str
        """
        return sorted(self._to_make(change))

    def make(self, change: WeatherChange) -> None:
        """Make what is lacking.

        Parameters
        ----------
        change : WeatherChange
            The change.
        """
        wanted, key = self._to_make(change), _key(change)
        texts = calls.texts_of(list(_reached(change, wanted)), {self._district.pk: change.after})
        for walk_id, footing in wanted.items():
            self._made[walk_id] = _Made(footing, key, texts.get(walk_id))

    def keep(self) -> None:
        """Keep the calls of all walks that were named last."""
        made = {walk_id: self._made[walk_id].text for walk_id in self._now}
        calls.keep_texts({walk_id: text for walk_id, text in made.items() if text is not None})

    def _to_make(self, change: WeatherChange) -> dict[str, _Footing]:
        if change.since is None:
            return {}
        now, key = _footings(self._district, change.since), _key(change)
        self._now = frozenset(now)
        return {
            walk_id: footing
            for walk_id, footing in now.items()
            if not self._holds(walk_id, footing, key)
        }

    def _holds(self, walk_id: str, footing: _Footing, change: tuple[str, str]) -> bool:
        made = self._made.get(walk_id)
        return made is not None and (made.footing, made.change) == (footing, change)


def _key(change: WeatherChange) -> tuple[str, str]:
    return change.before.content, change.after.content


def _reached(change: WeatherChange, walk_ids: Iterable[str]) -> Iterator[str]:
    """Give those walks whose weather a change makes another, in the order of their ids."""
    rows = WalkRow.objects.filter(walk_id__in=list(walk_ids)).order_by("walk_id")
    walks = list(rows.values_list("walk_id", "field", "on"))
    fields = FieldRow.objects.prefetch_related("seasons").in_bulk({field for _, field, _ in walks})
    for walk_id, field, on in walks:
        season = None if on is None else season_on(fields[field], on)
        if on is not None and season is not None and change.reaches(fields[field], season, on):
            yield walk_id


def _footings(district: District, since: date) -> dict[str, _Footing]:
    """Give what each walk rests on, of walks from a day on whose stage the clock tells."""
    seasons = SeasonRow.objects.filter(field__district=district, year__gte=since.year)
    waiting: dict[_Season, SeasonRow] = {
        (each.field_id, each.year): each for each in seasons if waits_for_clock(each)
    }
    if not waiting:
        return {}
    fields = _by_field(FieldRow.objects.filter(district=district), "pk")
    treated = _by_field(Treatment.objects.filter(field__district=district), "field")
    noted = _by_field(SeenRow.objects.filter(field__district=district), "field")
    told: dict[str, _Footing] = {}
    for season, walks in _walks(district, waiting).items():
        here = tuple(rows.get(season[0], ()) for rows in (fields, treated, noted))
        row = _columns(waiting[season])
        for walk_id, on, *_ in walks:
            if on >= since:
                told[walk_id] = (*here, row, tuple(walk for walk in walks if walk[1] <= on))
    return told


def _columns(row: Model) -> _Footing:
    return tuple(getattr(row, column.attname) for column in row._meta.concrete_fields)


def _by_field(rows: QuerySet[Any], name: str) -> dict[int | None, _Footing]:
    found: dict[int | None, list[_Footing]] = defaultdict(list)
    columns = [column.attname for column in rows.model._meta.concrete_fields]
    for field, *row in rows.order_by("pk").values_list(name, *columns):
        found[field].append(tuple(row))
    return {field: tuple(told) for field, told in found.items()}


def _walks(district: District, waiting: Iterable[_Season]) -> dict[_Season, list[_Footing]]:
    """Give the walks of some seasons, in the order of their days, each with its newest rows."""
    seasons = set(waiting)
    rows = WalkRow.objects.filter(district=district, on__year__in={year for _, year in seasons})
    plants = _newest(CheckRow.objects.filter(walk__in=rows))
    notes = _newest(QuadrantNoteRow.objects.filter(walk__in=rows))
    columns = [column.attname for column in WalkRow._meta.concrete_fields]
    found: dict[_Season, list[_Footing]] = defaultdict(list)
    told = rows.order_by("on", "walk_id").values_list("walk_id", "on", "field", *columns)
    for walk_id, on, field, *row in told:
        if on is not None and (field, on.year) in seasons:
            newest = plants.get(walk_id), notes.get(walk_id)
            found[field, on.year].append((walk_id, on, *newest, *row))
    return found


def _newest(rows: QuerySet[Any]) -> dict[str, int]:
    """Give the key of each walk's newest row: rows are written anew, never changed."""
    newest = rows.order_by().values("walk").annotate(newest=Max("pk"))
    return dict(newest.values_list("walk", "newest"))
