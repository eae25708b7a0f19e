"""The growth stage by the BBCH scale of cotton, as far as it can be told.

References
----------
Munger, P., Bleiholder, H., Hack, H., Hess, M., Stauss, R., van den Boom, T., Weber, E.,
1998. Phenological growth stages of the cotton plant (Gossypium hirsutum L.): codification
and description according to the BBCH scale. Journal of Agronomy and Crop Science 180.
"""

from __future__ import annotations

from quarterwalk.crop.clock import CropClock, without
from quarterwalk.crop.needs import Event

EMERGED, COTYLEDONS, FIRST_BUDS, FIRST_FLOWERS = 9, 10, 51, 60
"""Codes of emergence, unfolded cotyledons, detectable floral buds and first flowers."""

_MOST_LEAVES = 9  # code 19 stands for nine leaves and more


def bbch(clock: CropClock) -> int | None:
    """Give the BBCH code that a field has most likely reached.

    Parameters
    ----------
    clock : CropClock
        Where the season stands.

    Returns
    -------
    int or None
        9, 10 to 19, 51 or 60; None before emergence. Codes between 51 and 60 (larger
        buds) and past 60 take a look that is not asked for here.
    """
    reached = [event for event in Event if clock.odds[event].by(clock.on) >= 1 / 2]
    if Event.FIRST_BLOOM in reached or (clock.bloom is not None and clock.bloom <= clock.on):
        return FIRST_FLOWERS
    if Event.FIRST_SQUARE in reached:
        return FIRST_BUDS
    if Event.EMERGENCE not in reached:
        return None
    leaves = _leaves(clock)
    return EMERGED if leaves is None else COTYLEDONS + min(leaves, _MOST_LEAVES)


def _leaves(clock: CropClock) -> int | None:
    """Give the true leaves by heat, but none fewer than counted; None before any can be out."""
    looks = [without(each, clock.set_aside) for each in clock.seen]
    counted = [(each.on, int(each.true_leaves)) for each in looks if each.true_leaves is not None]
    least = max((leaves for _, leaves in counted), default=None)
    if counted and counted[-1][0] == clock.on:
        return least
    heat = _leaves_by_heat(clock)
    return heat if least is None else max(least, heat or 0)


def _leaves_by_heat(clock: CropClock) -> int | None:
    needs = clock.needs
    likely = clock.odds[Event.FIRST_SQUARE].likely
    if likely is None:
        return None
    days = [(day - clock.planted).days for day in (clock.on, likely)]
    now, then = (float(clock.heat.summed.mean(axis=0)[day]) for day in days)
    leaves = needs.value("first_branch_node") - (then - now) / needs.value("node_heat")
    return None if leaves < 0 else int(leaves)
