"""Textbook ranges against published values."""

from __future__ import annotations

import numpy as np
import pytest

from quarterwalk.reading.textbook import clopper_pearson, garwood, wilson

# Garwood 1936, Biometrika 28:437, 95 %
GARWOOD = [
    (0, 0.0, 3.6889),
    (1, 0.0253, 5.5716),
    (5, 1.6235, 11.6683),
    (10, 4.7954, 18.3904),
    (25, 16.1787, 36.9049),
    (100, 81.3640, 121.6268),
]
# Newcombe 1998, Statistics in Medicine 17:857, 95 % score method without correction
WILSON = [
    (81, 263, 0.2553, 0.3662),
    (15, 148, 0.0624, 0.1605),
    (0, 20, 0.0, 0.1611),
    (1, 29, 0.0061, 0.1718),
]
# 95 %, Newcombe 1998 for 0 of 20; the others by an independent statistics package
CLOPPER = [(0, 20, 0.0, 0.168433), (10, 10, 0.691503, 1.0), (7, 21, 0.145877, 0.569675)]


@pytest.mark.parametrize(("count", "low", "high"), GARWOOD)
def test_garwood(count, low, high):
    assert garwood(count, level=0.95) == pytest.approx((low, high), abs=6e-5)


@pytest.mark.parametrize(("hit", "seen", "low", "high"), WILSON)
def test_wilson(hit, seen, low, high):
    assert wilson(hit, seen, level=0.95) == pytest.approx((low, high), abs=6e-5)


@pytest.mark.parametrize(("hit", "seen", "low", "high"), CLOPPER)
def test_clopper_pearson(hit, seen, low, high):
    assert clopper_pearson(hit, seen, level=0.95) == pytest.approx((low, high), abs=1e-6)


@pytest.mark.parametrize("share_range", [wilson, clopper_pearson])
def test_nothing_looked_at_has_no_range(share_range):
    assert np.isnan(share_range(0, 0, level=0.9)).all()
