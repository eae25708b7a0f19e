"""How far errors rise between two rows of the packaged stop plans, as looked up and on paper.

Between two rows a phone and the office take each limit from the straight line between theirs.
A card on paper takes those that hold from the row with fewer squares and those that treat from
the row with more. Every packaged plan that asks for squares, in all worlds; nothing is
simulated. Run: python benchmarks/between.py [--every N]

--every N   only each Nth number of squares
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from quarterwalk.guideline import load_routine
from quarterwalk.plan import WORLDS, Course, Look, Plan, Row, shelved_plans, walked
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.outcome import sides


@dataclass(frozen=True, slots=True)
class Worst:
    """The most by which errors lie above the full walk's. [percentage points]"""

    clear: float
    near: float

    def or_worse(self, other: Worst) -> Worst:
        """Give the worse of both, at clear and at near points."""
        return Worst(max(self.clear, other.clear), max(self.near, other.near))


NOTHING = Worst(-100.0, -100.0)

THIN = load_routine().thin_sites
"""With fewer squares no call can read the square set. [count]"""

Read = Callable[[Look, int], Row]
"""How the limits of a look are read for a number of squares."""


def on_the_line(look: Look, squares: int) -> Row:
    """Give the limits as a phone and the office look them up."""
    row = look.row_for(squares)
    if row is None:
        raise ValueError(f"no row has {squares} squares or fewer.")
    return row


def on_paper(look: Look, squares: int) -> Row:
    """Give the limits as they are read from a card: of both rows the stricter ones."""
    fewer = [row for row in look.rows if row.squares <= squares][-1]
    more = next(row for row in look.rows if row.squares >= squares)
    both = (fewer, more)
    treats = all(row.lost_high is not None for row in both)
    return Row(
        squares,
        min(row.insects_low for row in both),
        min(row.lost_low for row in both),
        min(row.sum_low for row in both),
        max(row.insects_high for row in both) if treats else None,
        max(row.lost_high for row in both) if treats else None,
    )


def courses(plan: Plan, every: int, *, thin: bool) -> Iterator[Course]:
    """Give the walks whose squares lie between two rows, those too few to be read or the others."""
    numbers = [row.squares for row in plan.looks[0].rows]
    for squares in sorted(set(range(numbers[0], numbers[-1], every)) - set(numbers)):
        if thin == (squares < THIN):
            yield walked(plan.question, plan.loops, plan.squares_on, squares)


def limits_of(plan: Plan, course: Course, read: Read) -> list[Row]:
    """Give the limits of all looks of a walk."""
    return [read(look, n) for look, n in zip(plan.looks, course.squares, strict=False)]


def worst(plan: Plan, read: Read, every: int = 1, *, thin: bool = False) -> Worst:
    """Give the worst errors of a plan between its rows, over all worlds."""
    found = NOTHING
    for course in courses(plan, every, thin=thin):
        rows = limits_of(plan, course, read)
        for world in WORLDS:
            found = found.or_worse(Worst(*worst_errors(course, rows, world)))
    return found


def only_on_paper(plan: Plan, every: int = 1, *, thin: bool = False) -> tuple[int, int]:
    """Count the numbers of squares at which paper ends walks that go on else.

    Returns
    -------
    not_to_treat, treat : int
        By the side to which they end. [count]
    """
    holds = treats = 0
    for course in courses(plan, every, thin=thin):
        both = zip(
            limits_of(plan, course, on_paper), limits_of(plan, course, on_the_line), strict=True
        )
        ends = [(sides(course, paper), sides(course, line)) for paper, line in both]
        holds += any((paper[0] & ~line[0]).any() for paper, line in ends)
        treats += any((paper[1] & ~line[1]).any() for paper, line in ends)
    return holds, treats


def main() -> None:
    """Print all of it."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--every", type=int, default=1, metavar="N")
    every = parser.parse_args().every
    for thin in (True, False):
        print(f"{'fewer than' if thin else 'from'} {THIN} squares")
        print_between(every, thin=thin)


def print_between(every: int, *, thin: bool) -> None:
    """Print how far errors rise in each plan and in all of them."""
    looked_up = paper = NOTHING
    for plan in (each.plan for each in shelved_plans() if each.plan.question.bar is not None):
        line, card = (worst(plan, read, every, thin=thin) for read in (on_the_line, on_paper))
        looked_up, paper = looked_up.or_worse(line), paper.or_worse(card)
        if line == NOTHING:
            continue
        holds, treats = only_on_paper(plan, every, thin=thin)
        kind = f"{plan.stopping}, squares on {plan.squares_on}, {len(plan.loops)} loops"
        print(
            f"  {plan.short} {kind}: {told(line)}; on paper {told(card)},"
            f" ends of its own at {holds} + {treats} numbers",
            flush=True,
        )
    print(f"  all plans: {told(looked_up)}; on paper {told(paper)}")


def told(found: Worst) -> str:
    """Write errors as clear/near."""
    return f"{found.clear:.3f}/{found.near:.3f}"


if __name__ == "__main__":
    main()
