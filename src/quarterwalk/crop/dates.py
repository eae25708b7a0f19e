"""The dates of one field's crop that a call needs: first square, first bloom, treatments."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.errors import QuarterwalkError


class CropDateError(QuarterwalkError, ValueError):
    """Crop dates that contradict each other."""


@dataclass(frozen=True, slots=True)
class CropDates:
    """What is known of one field's season.

    Parameters
    ----------
    first_square : date
        The day of first square; of a range, its first day.
    first_square_latest : date or None
        The last day of the range; None where the day is known.
    bloom : date or None
        The day of first bloom, once it is known.
    treated : tuple of date
        Days on which something was sprayed against the insects, in any order.

    Raises
    ------
    CropDateError
        If the range ends before it begins, or bloom comes before first square.
    """

    first_square: date
    first_square_latest: date | None = None
    bloom: date | None = None
    treated: tuple[date, ...] = ()

    def __post_init__(self) -> None:
        if self.latest < self.first_square:
            raise CropDateError(
                f"first square must be a day or a range, got {self.first_square} to {self.latest}."
            )
        if self.bloom is not None and self.bloom <= self.first_square:
            raise CropDateError(
                f"first bloom must be after first square ({self.first_square}), got {self.bloom}."
            )

    @property
    def latest(self) -> date:
        """The last day on which first square may have been."""
        return self.first_square_latest or self.first_square

    def last_treated_before(self, day: date) -> date | None:
        """Give the last treatment before a day.

        Parameters
        ----------
        day : date
            The day of the walk; a treatment on the day itself does not count.

        Returns
        -------
        date or None
        """
        return max((on for on in self.treated if on < day), default=None)
