"""Limits for files of boundaries, against files made to fill the memory or to keep the
computer busy. All are this project's rules; a district of 500 fields needs a tenth of each.
"""

from __future__ import annotations

MOST_BYTES = 32 << 20
"""Largest file, and most that a zip may unpack to; 500 fields have under 5 MB. [bytes]"""

MOST_FIELDS = 5_000
"""Features of a file, points and lines among them. [count]"""

MOST_POINTS_A_FIELD = 20_000
"""Points of one field; one drawn by satellite, ten a second, has about 8,000. [count]"""

MOST_POINTS = 500_000
"""Points of all features of a file. [count]"""

MOST_RINGS_A_FIELD = 500
"""Parts and holes of one field. [count]"""

DEEPEST = 32
"""Brackets, elements or collections one inside the other; the formats need about ten.
[count]"""

MOST_ELEMENTS = 1_000_000
"""Brackets of a GeoJSON file, elements of a KML file. [count]"""

MOST_MEMBERS = 200
"""Files in a zip; a layer has up to ten. [count]"""

MOST_RATIO = 200
"""How many times its size a packed file may unpack to, beyond its first megabyte. Tables
of blanks pack best, about a hundred to one. [times]"""

FREE_OF_RATIO = 1 << 20
"""Size up to which the ratio does not count: so little harms nobody. [bytes]"""

MOST_LAYERS = 50
"""Layers of a zip or of a GeoPackage. [count]"""

LONGEST_NAME = 200
"""A field's, a grower's or a farm's name. [characters]"""

LONGEST_CRS = 20_000
"""Description of a coordinate system; the longest common one has about 5,000.
[characters]"""

MOST_STEPS = 50_000_000
"""Steps of the database engine on one GeoPackage; 5,000 fields take under one in a
hundred of them. [count]"""


def megabytes(count: int) -> str:
    """Write a size as people say it."""
    return f"{count >> 20} MB"
