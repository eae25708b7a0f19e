"""How the calls of a season compare with the fields that the walks were drawn from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quarterwalk.call import Call, Sureness, Verdict


@dataclass(frozen=True, slots=True)
class Tally:
    """Calls of one sort, and how many of them the true field bears out. [count]"""

    sure: Sureness
    calls: int
    agree: int


@dataclass(frozen=True, slots=True)
class Comparison:
    """Calls beside the truth.

    Parameters
    ----------
    tallies : tuple of Tally
        One for each word of sureness that occurs, the surest first.
    cautious : tuple of int
        Calls that do not say treat where the rule on the true field does. [index]
    early : tuple of int
        Calls to treat where the rule on the true field does not say so. [index]
    """

    tallies: tuple[Tally, ...]
    cautious: tuple[int, ...]
    early: tuple[int, ...]

    @property
    def calls(self) -> int:
        """Calls that could be compared. [count]"""
        return sum(tally.calls for tally in self.tallies)

    @property
    def agree(self) -> int:
        """Those of them that the true field bears out. [count]"""
        return sum(tally.agree for tally in self.tallies)


def compare(calls: Sequence[Call], truth_says: Sequence[bool | None]) -> Comparison:
    """Compare each call with what the rule says of the true field: treat, or not.

    Parameters
    ----------
    calls : sequence of Call
        The calls.
    truth_says : sequence of bool or None
        Whether the rule on the true field says treat; None where it says nothing.

    Returns
    -------
    Comparison
        Calls of verdict none, and walks out of season, are left out.
    """
    pairs = [
        (index, call, truth)
        for index, (call, truth) in enumerate(zip(calls, truth_says, strict=True))
        if call.sure is not None and truth is not None
    ]
    treats = {index: call.verdict is Verdict.TREAT for index, call, _ in pairs}
    tallies = []
    for sure in Sureness:
        same = [(treats[index], truth) for index, call, truth in pairs if call.sure is sure]
        if same:
            tallies.append(Tally(sure, len(same), sum(said == truth for said, truth in same)))
    return Comparison(
        tallies=tuple(tallies),
        cautious=tuple(index for index, _, truth in pairs if truth and not treats[index]),
        early=tuple(index for index, _, truth in pairs if treats[index] and not truth),
    )
