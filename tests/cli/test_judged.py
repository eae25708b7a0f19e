"""How the head of a call says where the crop stands."""

from __future__ import annotations

import pytest

from quarterwalk.cli.judged import stage_words
from quarterwalk.crop import Stage, StageName


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ((3, 3), "week 1 of squaring"),
        ((5, 14), "week 1, 2 or 3 of squaring"),
        ((-6, 4), "perhaps week 1 of squaring"),
        ((-1, 8), "perhaps week 1 or 2 of squaring"),
    ],
)
def test_a_week_is_perhaps_where_the_field_may_not_square_yet(days, said):
    assert stage_words(Stage(StageName.SQUARING, days)) == said
