"""An acre is an acre, whichever way it is turned."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.units import acres_from_hectares, hectares_from_acres


def test_an_acre_is_4046_8564224_square_metres() -> None:
    # the international acre: 66 ft by 660 ft, one foot 0.3048 m
    assert hectares_from_acres(1) * 10_000 == Fraction("4046.8564224")


def test_an_acre_is_the_published_one_to_the_digits_that_the_survey_foot_shares() -> None:
    # NIST Special Publication 811, 2008, appendix B.8: acre, 4.046 873 E+03 m², by the
    # survey foot, which is longer than the foot by 2 parts in a million
    assert float(hectares_from_acres(1)) == pytest.approx(0.404_687_3, rel=5e-6)


def test_eighty_acres_are_a_little_over_thirty_two_hectares() -> None:
    assert hectares_from_acres(80) == Fraction("32.3748513792")


@given(st.fractions(min_value=0, max_value=100_000))
def test_there_and_back_again_nothing_is_lost(acres: Fraction) -> None:
    assert acres_from_hectares(hectares_from_acres(acres)) == acres
