"""Every number of the crop's clock has its unit, its reason and its source."""

from __future__ import annotations

import tomllib
from statistics import NormalDist, fmean, stdev

import pytest

from quarterwalk.crop import Event, load_needs
from quarterwalk.guideline import SourceKind
from quarterwalk.weather import HEAT_METHODS
from tests.contracts.source import PACKAGE

NEEDS = load_needs()
CONTENT = tomllib.loads((PACKAGE / "crop" / "needs.toml").read_text(encoding="utf-8"))
TABLES = [(name, table) for part in ("needs", "growth") for name, table in CONTENT[part].items()]


@pytest.mark.parametrize(("name", "table"), TABLES, ids=[name for name, _ in TABLES])
def test_a_number_has_a_unit_a_reason_and_a_source(name, table):
    assert table["unit"]
    assert len(table["why"]) > 20
    assert table["why"].endswith(".")
    assert table["source"]


def test_the_heat_that_is_summed_has_its_reason_and_source():
    for table in CONTENT["heat"].values():
        assert table["why"].endswith(".")
        assert table["source"] in CONTENT["sources"]
    assert CONTENT["heat"]["base_f"]["unit"] == "°F"


def test_every_source_is_used_and_every_used_one_is_there():
    used = {table["source"] for table in CONTENT["heat"].values()}
    for _, table in TABLES:
        used |= set(table["source"] if isinstance(table["source"], list) else [table["source"]])
    assert used == set(CONTENT["sources"])


def test_what_was_published_says_where():
    sources = [source for need in NEEDS.needs.values() for source in need.sources]
    for source in (*sources, *(growth.source for growth in NEEDS.growth.values())):
        assert source.title
        if source.kind is SourceKind.PUBLISHED:
            assert source.place or source.year


def test_the_method_is_one_of_those_that_are_there():
    assert NEEDS.method in HEAT_METHODS
    assert NEEDS.base_f == 60


def test_every_event_has_its_need_in_the_order_of_the_season():
    assert list(NEEDS.needs) == list(Event)


def test_fields_differ_in_every_need():
    for need in NEEDS.needs.values():
        assert 0 < need.sd < need.mean / 3


def test_no_number_can_be_changed_in_passing():
    with pytest.raises(TypeError):
        NEEDS.needs[Event.CUTOUT] = NEEDS.needs[Event.EMERGENCE]


def test_emergence_is_as_its_reason_says():
    need = NEEDS.needs[Event.EMERGENCE]
    middle = NormalDist(need.mean, need.sd)
    assert middle.inv_cdf(0.1) == pytest.approx(45, abs=1)
    assert middle.inv_cdf(0.9) == pytest.approx(69, abs=1)


def test_the_spread_of_first_square_is_that_of_cultivars_and_regions_together():
    assert NEEDS.needs[Event.FIRST_SQUARE].sd == pytest.approx(
        ((85**2 + 130**2) / 12) ** 0.5, abs=0.5
    )


def test_the_spread_of_first_bloom_is_that_of_three_published_middles():
    middles = [(300 + 350) / 2, 874 - 478, (422 + 609) / 2]
    need = NEEDS.needs[Event.FIRST_BLOOM]
    assert need.mean == pytest.approx(fmean(middles), abs=3)
    assert need.sd == pytest.approx(stdev(middles), abs=2)


def test_cutout_comes_about_three_weeks_after_first_bloom_at_22_a_day():
    need = NEEDS.needs[Event.CUTOUT]
    middle = NormalDist(need.mean, need.sd)
    days = [middle.inv_cdf(share) / 22 for share in (0.1, 0.5, 0.9)]
    assert days == pytest.approx([14, 21, 28], abs=0.7)
