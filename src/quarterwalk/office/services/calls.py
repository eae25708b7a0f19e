"""Calls: made by the core from the rows as they stand, and kept whenever one differs."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Max, Prefetch, QuerySet

from quarterwalk.call import Call, CallOptions, make_call
from quarterwalk.files.call_json import walk_json
from quarterwalk.office import clock
from quarterwalk.office.crop_clocks import (
    Clocks,
    CropStanding,
    waits_for_clock,
    waits_for_flowers,
)
from quarterwalk.office.kept_weather import DistrictWeather
from quarterwalk.office.models import CallRow, CheckRow, FieldRow, SeasonRow, SeenRow, WalkRow
from quarterwalk.office.translate import to_guideline, to_line, to_walk
from quarterwalk.reading import Reading, take_readings
from quarterwalk.walk import Walk, WalkHead, WalkTable

LEVEL = 0.90
"""Chance that a range shown by the office holds the true value. [fraction]"""

# Numbers of a call that are nearer are the same: sums of chances differ in their last digits
# by the order of what is summed. [as the number]
_ROUNDING = 1e-6

# Walks whose calls are made at once: a season's plants of a large district fit in memory.
_AT_ONCE = 100


@dataclass(frozen=True, slots=True)
class Judged:
    """One walk with what the core makes of it.

    Parameters
    ----------
    row : WalkRow
        The walk.
    walk : Walk
        As the core knows it.
    reading : Reading
        What it says of its field.
    call : Call or None
        None where the field has no guideline, or nothing tells when first square was.
    lacking : tuple of str
        What the office knows that makes the call one for now, as sentences.
    why_not : str
        Why first square can't be worked out, as a sentence; empty where it needn't be.
    """

    row: WalkRow
    walk: Walk
    reading: Reading
    call: Call | None
    lacking: tuple[str, ...]
    why_not: str = ""

    @property
    def head(self) -> WalkHead:
        """Field, day and scouts."""
        walk = self.walk
        return WalkHead(
            walk.field, walk.date, walk.id, walk.method, walk.sites, walk.plan, walk.scouts
        )


def with_checks(walk_ids: Iterable[str]) -> list[WalkRow]:
    """Fetch walks with all that a call needs, in as many queries for one as for a hundred.

    Parameters
    ----------
    walk_ids : iterable of str
        Which.

    Returns
    -------
    list of WalkRow
    """
    rows = WalkRow.objects.filter(walk_id__in=list(walk_ids)).select_related(
        "field__grower", "district"
    )
    return list(
        rows.prefetch_related(
            Prefetch("checks", CheckRow.objects.order_by("position")),
            "field__seasons",
            "field__treatments",
        )
    )


def calls_for(
    walks: Iterable[WalkRow],
    *,
    language: str = "en",
    weather: Mapping[int, DistrictWeather] | None = None,
) -> dict[str, Judged]:
    """Make the calls of many walks at once; nothing is kept.

    Parameters
    ----------
    walks : iterable of WalkRow
        Which; only their ids are used.
    language : str
        The one that they are worded in.
    weather : mapping of int to DistrictWeather
        By district, in place of what is kept of it.

    Returns
    -------
    dict of str to Judged
        By walk id; a walk without plants, or of which nobody knows the field, is left out.
    """
    rows = with_checks(row.walk_id for row in walks)
    found = [(row, walk) for row in rows if (walk := to_walk(row)) is not None]
    if not found:
        return {}
    readings = take_readings(WalkTable.from_walks(walk for _, walk in found))
    clocks = Clocks(_fields(found), {walk.date.year for _, walk in found}, weather)
    judged = {}
    for (row, walk), reading in zip(found, readings, strict=True):
        crop = CropStanding() if row.field is None else clocks.standing(row.field, walk.date)
        call = _call(row.field, crop, reading, walk.date, language)
        judged[row.walk_id] = Judged(row, walk, reading, call, lacking(row), crop.why_not)
    return judged


def _fields(found: Iterable[tuple[WalkRow, Walk]]) -> list[FieldRow]:
    return list({row.field.pk: row.field for row, _ in found if row.field is not None}.values())


def call_for(walk: WalkRow, *, language: str = "en") -> Judged | None:
    """Make the call of one walk; nothing is kept.

    Parameters
    ----------
    walk : WalkRow
        Which.
    language : str
        The one that it is worded in.

    Returns
    -------
    Judged or None
    """
    return calls_for([walk], language=language).get(walk.walk_id)


def _call(
    field: FieldRow | None, crop: CropStanding, reading: Reading, on: date, language: str
) -> Call | None:
    guideline = None if field is None else to_guideline(field)
    if field is None or guideline is None or crop.dates is None or crop.stage is None:
        return None
    return make_call(
        reading,
        crop.stage,
        guideline,
        on=on,
        treated=crop.dates.last_treated_before(on),
        options=CallOptions(to_line(field), LEVEL, language),
    )


def lacking(row: WalkRow) -> tuple[str, ...]:
    """Say what is lacking of a walk, besides its plants.

    Parameters
    ----------
    row : WalkRow
        The walk.

    Returns
    -------
    tuple of str
        Sentences; none where the walk is whole.
    """
    told = []
    if row.waiting:
        noun = "entry" if row.waiting == 1 else "entries"
        told.append(f"Waiting for {row.waiting} more {noun} from the phone.")
    if row.state == "open":
        told.append("The walk is still going on.")
    if row.state == "handed-over":
        told.append("The walk was handed over; nobody has gone on yet.")
    if row.doubled:
        plants = "plant was" if row.doubled == 1 else "plants were"
        told.append(f"{row.doubled} {plants} entered twice; the first entry counts.")
    if row.unusable:
        samples = "sample has" if row.unusable == 1 else "samples have"
        told.append(f"{row.unusable} {samples} no number of sweeps and can't count.")
    return tuple(told)


def keep(walk_ids: Sequence[str]) -> None:
    """Keep the calls of some walks, where one differs from the last that was kept.

    Parameters
    ----------
    walk_ids : sequence of str
        Which; where first square is worked out, what their plants tell also makes the calls
        of the same field's later walks anew.
    """
    wanted = sorted({*walk_ids, *_walked_later(walk_ids)})
    for start in range(0, len(wanted), _AT_ONCE):
        _keep(wanted[start : start + _AT_ONCE])


def _keep(walk_ids: Sequence[str]) -> None:
    keep_texts(texts_of(walk_ids))


def texts_of(
    walk_ids: Sequence[str], weather: Mapping[int, DistrictWeather] | None = None
) -> dict[str, str]:
    """Make the calls of some walks, and write them as they are kept.

    Parameters
    ----------
    walk_ids : sequence of str
        Which.
    weather : mapping of int to DistrictWeather
        By district, in place of what is kept of it.

    Returns
    -------
    dict of str to str
        By walk; one that can't be judged is left out.
    """
    made: dict[str, str] = {}
    for start in range(0, len(walk_ids), _AT_ONCE):
        some = WalkRow.objects.filter(walk_id__in=list(walk_ids[start : start + _AT_ONCE]))
        judged = calls_for(some, weather=weather)
        made |= {id: call_text(each) for id, each in judged.items() if each.call is not None}
    return made


def keep_texts(texts: Mapping[str, str]) -> None:
    """Keep calls that are made already, where one differs from the last that was kept.

    Parameters
    ----------
    texts : mapping of str to str
        From `texts_of`.
    """
    now, last = clock.now(), _last_hashes(texts)
    sums = {walk_id: hashlib.sha256(text.encode()).hexdigest() for walk_id, text in texts.items()}
    other = [walk_id for walk_id in sorted(texts) if last.get(walk_id) != sums[walk_id]]
    before = _last_texts(walk_id for walk_id in other if walk_id in last)
    CallRow.objects.bulk_create(
        CallRow(walk_id=walk_id, made_at=now, content=texts[walk_id], sha256=sums[walk_id])
        for walk_id in other
        if walk_id not in before or not _says_the_same(before[walk_id], texts[walk_id])
    )


def _says_the_same(one: str, other: str) -> bool:
    """Tell whether two calls differ by nothing but rounding in the last digits of a number."""
    return _alike(json.loads(one), json.loads(other))


def _alike(one: Any, other: Any) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) < _ROUNDING
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(_alike(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_alike, one, other))
    return bool(one == other)


def _walked_later(walk_ids: Sequence[str]) -> set[str]:
    """Give the later walks of the same seasons, where the clock of one is told by the other."""
    walks = WalkRow.objects.filter(walk_id__in=list(walk_ids), field__isnull=False)
    begun: dict[tuple[int | None, int], date] = {}
    for field, on in walks.values_list("field", "on"):
        if on is not None:
            season = field, on.year
            begun[season] = min(on, begun.get(season, on))
    waiting = _waiting(SeasonRow.objects.filter(field__in={field for field, _ in begun}))
    first = {season: on for season, on in begun.items() if season in waiting}
    return {walk_id for walk_id, season, on in _walks_of(first) if on >= first[season]}


def _waiting(seasons: QuerySet[SeasonRow]) -> set[tuple[int | None, int]]:
    """Give the field and year of the seasons whose stage the clock tells."""
    return {(each.field_id, each.year) for each in seasons if waits_for_clock(each)}


def _walks_of(
    seasons: Iterable[tuple[int | None, int]],
) -> Iterator[tuple[str, tuple[int | None, int], date]]:
    """Give the walks of some seasons, each with its season and its day."""
    wanted = set(seasons)
    if not wanted:
        return
    rows = WalkRow.objects.filter(
        field__in={field for field, _ in wanted}, on__year__in={year for _, year in wanted}
    )
    for walk_id, field, on in rows.values_list("walk_id", "field", "on"):
        if on is not None and (field, on.year) in wanted:
            yield walk_id, (field, on.year), on


def keep_for_fields(fields: Sequence[FieldRow]) -> None:
    """Keep the calls of all walks of some fields, after their rules or dates have changed.

    Parameters
    ----------
    fields : sequence of FieldRow
        Which.
    """
    walks = WalkRow.objects.filter(field__in=[field.pk for field in fields])
    keep(list(walks.values_list("walk_id", flat=True)))


def keep_for_looks(looks: Iterable[SeenRow]) -> None:
    """Keep the calls of walks that something seen of their fields may change.

    Parameters
    ----------
    looks : iterable of SeenRow
        New or struck. Walks before a look know nothing of it; where first square was given,
        only what it tells of flowers counts, and only until first bloom is given too.
    """
    told = [((each.field_id, each.on.year), each) for each in looks]
    rows = SeasonRow.objects.filter(field__in={field for (field, _), _ in told})
    seasons = {(each.field_id, each.year): each for each in rows}
    since: dict[tuple[int | None, int], date] = {}
    for key, look in told:
        season = seasons.get(key)
        if season is not None and _tells(look, season):
            since[key] = min(look.on, since.get(key, look.on))
    keep([walk_id for walk_id, key, walked in _walks_of(since) if walked >= since[key]])


def _tells(look: SeenRow, season: SeasonRow) -> bool:
    """Tell whether a look may tell where the crop stood, by what is given of the season."""
    of_flowers = look.bloom is not None or look.nawf is not None
    return waits_for_clock(season) or (of_flowers and waits_for_flowers(season))


def call_text(judged: Judged) -> str:
    """Write a call as the JSON that `quarterwalk call` prints for one walk.

    Parameters
    ----------
    judged : Judged
        The walk and its call.

    Returns
    -------
    str
    """
    told = walk_json(judged.head, judged.reading, level=LEVEL, call=judged.call)
    told["office"] = {"provisional": bool(judged.lacking), "why": list(judged.lacking)}
    return json.dumps(told, ensure_ascii=False, sort_keys=True)


def _last_hashes(walk_ids: Iterable[str]) -> dict[str, str]:
    return dict(_newest(walk_ids).values_list("walk_id", "sha256"))


def _last_texts(walk_ids: Iterable[str]) -> dict[str, str]:
    return dict(_newest(walk_ids).values_list("walk_id", "content"))


def _newest(walk_ids: Iterable[str]) -> QuerySet[CallRow]:
    newest = (
        CallRow.objects.filter(walk_id__in=list(walk_ids))
        .values("walk_id")
        .annotate(last=Max("pk"))
        .values_list("last", flat=True)
    )
    return CallRow.objects.filter(pk__in=list(newest))
