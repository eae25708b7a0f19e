"""Fields side by side: what each stretch of a walk may add in each of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from quarterwalk.plan.course import Course
from quarterwalk.plan.laws import FloatArray, insects_law, lost_law, transition
from quarterwalk.plan.worlds import World

BoolArray = NDArray[np.bool_]
IntArray = NDArray[np.intp]


@dataclass(frozen=True)
class Columns:
    """Fields with known true values, and the laws of one course in them.

    Parameters
    ----------
    course : Course
        The walk.
    worlds : tuple of World, length fields
        The world of each field.
    density : float array, shape (fields,)
        Insects per plant. [count per plant]
    share : float array, shape (fields,)
        Lost share of the squares. [fraction]
    """

    course: Course
    worlds: tuple[World, ...]
    density: FloatArray
    share: FloatArray

    @cached_property
    def _insect_kinds(self) -> tuple[list[tuple[World, float]], IntArray]:
        return _kinds(self.worlds, self.density)

    @cached_property
    def _lost_kinds(self) -> tuple[list[tuple[World, float]], IntArray]:
        return _kinds(self.worlds, self.share)

    @property
    def insect_kind(self) -> IntArray:
        """Which of the different insect laws is each field's, shape (fields,)."""
        return self._insect_kinds[1]

    @property
    def lost_kind(self) -> IntArray:
        """Which of the different laws of lost squares is each field's, shape (fields,)."""
        return self._lost_kinds[1]

    def insect_laws(self, stretch: int) -> FloatArray:
        """Give the different insect laws of one stretch, shape (kinds, counts). [fraction]"""
        stops = self.course.stretches[stretch].stops
        cap = self.course.cap_insects
        return np.array([insects_law(w, d, stops, cap) for w, d in self._insect_kinds[0]])

    def lost_laws(self, stretch: int) -> FloatArray:
        """Give the different laws of lost squares of one stretch. [fraction]"""
        part, cap = self.course.stretches[stretch], self.course.cap_lost
        return np.array(
            [lost_law(w, q, part.square_plants, part.squares, cap) for w, q in self._lost_kinds[0]]
        )

    @cached_property
    def insect_steps(self) -> list[FloatArray]:
        """Transitions of insects by the second stretch and later, (kinds, counts, counts)."""
        return self._steps(self.insect_laws)

    @cached_property
    def lost_steps(self) -> list[FloatArray]:
        """Transitions of lost squares by the second stretch and later."""
        return self._steps(self.lost_laws)

    def _steps(self, laws: Callable[[int], FloatArray]) -> list[FloatArray]:
        made: dict[bytes, FloatArray] = {}
        steps = []
        for stretch in range(1, len(self.course.stretches)):
            law = laws(stretch)
            key = law.tobytes()
            if key not in made:
                made[key] = np.array([transition(each) for each in law])
            steps.append(made[key])
        return steps

    def first(self) -> FloatArray:
        """Give the chances of all counts at the first look, (fields, insects, lost)."""
        insects = self.insect_laws(0)[self.insect_kind]
        lost = self.lost_laws(0)[self.lost_kind]
        return insects[:, :, None] * lost[:, None, :]

    def onward(self, reach: FloatArray, look: int) -> FloatArray:
        """Carry chances from one look to the next.

        Parameters
        ----------
        reach : float array, shape (fields, insects, lost)
            Chances of the counts with which the walk goes on. [fraction]
        look : int
            At which look, from 0.

        Returns
        -------
        float array, shape (fields, insects, lost)
        """
        insects = self.insect_steps[look][self.insect_kind]
        lost = self.lost_steps[look][self.lost_kind]
        return np.asarray(np.swapaxes(insects, 1, 2) @ reach @ lost)

    def back(self, value: FloatArray, look: int) -> FloatArray:
        """Give what a value at the next look is worth at this one, where the walk goes on."""
        insects = self.insect_steps[look][self.insect_kind]
        lost = self.lost_steps[look][self.lost_kind]
        return np.asarray(insects @ value @ np.swapaxes(lost, 1, 2))

    def full_ahead(self, look: int) -> FloatArray:
        """Give the chance that the full walk will say treat, from each count of a look.

        Parameters
        ----------
        look : int
            At the last look before the end, from 0.

        Returns
        -------
        float array, shape (fields, insects, lost)
            [fraction]
        """
        over = self.insect_steps[look][:, :, self.course.treat_insects :].sum(axis=2)
        past = self.lost_steps[look][:, :, self.course.treat_lost :].sum(axis=2)
        chance: FloatArray = over[self.insect_kind][:, :, None] * past[self.lost_kind][:, None, :]
        return chance

    def full_walk(self) -> FloatArray:
        """Give the chance that the full walk says treat, shape (fields,). [fraction]"""
        stops = sum(part.stops for part in self.course.stretches)
        course = self.course
        over = np.array(
            [
                insects_law(w, d, stops, course.cap_insects)[course.treat_insects :].sum()
                for w, d in self._insect_kinds[0]
            ]
        )
        lost = self.lost_laws(0)
        for step in self.lost_steps:
            lost = (lost[:, None, :] @ step)[:, 0, :]
        past = lost[:, course.treat_lost :].sum(axis=1)
        return np.asarray(over[self.insect_kind] * past[self.lost_kind])


def columns(
    course: Course, worlds: Sequence[World], density: FloatArray, share: FloatArray
) -> Columns:
    """Set the same fields side by side in several worlds.

    Parameters
    ----------
    course : Course
        The walk.
    worlds : sequence of World
        In which the fields lie.
    density, share : float arrays, shape (fields,)
        True values. [count per plant, fraction]

    Returns
    -------
    Columns
        All fields of the first world, then all of the next.
    """
    return Columns(
        course,
        tuple(world for world in worlds for _ in density),
        np.tile(density, len(worlds)),
        np.tile(share, len(worlds)),
    )


def _kinds(
    worlds: tuple[World, ...], values: FloatArray
) -> tuple[list[tuple[World, float]], IntArray]:
    place: dict[tuple[World, float], int] = {}
    which = [
        place.setdefault((w, float(v)), len(place)) for w, v in zip(worlds, values, strict=True)
    ]
    return list(place), np.array(which)
