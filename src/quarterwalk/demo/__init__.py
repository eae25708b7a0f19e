"""An invented district with known truth, to try everything on: walks made by seeded dice.

Knows the calls, because they say when a field is walked next, and the files that a
district hands in.
"""

from quarterwalk.demo.boundaries import demo_fields
from quarterwalk.demo.comparison import Comparison, Tally, compare
from quarterwalk.demo.district import DemoField, District, Visit, Way, load_district
from quarterwalk.demo.season import FieldSeason, Season, TrueWalk, make_season
from quarterwalk.demo.tables import (
    CARDS,
    FIELDS,
    PLANTED,
    PLANTINGS,
    REPORTS,
    SEASONS,
    SEEN,
    TRUTH,
    WALKS,
    WEATHER,
    write_rows,
    write_season,
)
from quarterwalk.demo.truth import Truth, rule_says_treat, true_field

__all__ = [
    "CARDS",
    "FIELDS",
    "PLANTED",
    "PLANTINGS",
    "REPORTS",
    "SEASONS",
    "SEEN",
    "TRUTH",
    "WALKS",
    "WEATHER",
    "Comparison",
    "DemoField",
    "District",
    "FieldSeason",
    "Season",
    "Tally",
    "TrueWalk",
    "Truth",
    "Visit",
    "Way",
    "compare",
    "demo_fields",
    "load_district",
    "make_season",
    "rule_says_treat",
    "true_field",
    "write_rows",
    "write_season",
]
