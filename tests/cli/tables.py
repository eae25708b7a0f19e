"""Walk tables as text, for the tests of the command line."""

from __future__ import annotations

HEADER = "field,date,scout,quadrant,stop,plant,adults,nymphs,healthy,missing,blasted,flared,note"


def rows(
    *,
    field: str = "Home 40",
    on: str = "2026-06-20",
    insects: int = 21,
    healthy: int = 105,
    lost: int = 15,
    blasted: int = 0,
    square_plants: int = 40,
) -> list[str]:
    """Give the rows of a walk of 100 plants, squares on the first plants of each quadrant."""
    told = []
    each = square_plants // 4
    for place, quadrant in enumerate(("NW", "NE", "SW", "SE")):
        for plant in range(25):
            n = plant * 4 + place
            adults = insects // 100 + (n < insects % 100)
            squares = ",,,"
            if plant < each:
                parts = [c // square_plants + (n < c % square_plants)
                         for c in (healthy, lost - blasted, blasted)]  # fmt: skip
                squares = ",".join(map(str, [*parts, 0]))
            place_in = f"{quadrant},{plant // 5 + 1},{plant % 5 + 1}"
            told.append(f"{field},{on},Ana,{place_in},{adults},0,{squares},")
    return told


def table(*walks: list[str]) -> str:
    """Join rows into a table."""
    return "\n".join([HEADER, *(row for walk in walks for row in walk)]) + "\n"
