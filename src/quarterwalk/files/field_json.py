"""Fields as the GeoJSON that `quarters` and the others read."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from quarterwalk.field import Field
from quarterwalk.files.rounded import plain, rounded, rounded_shape

Json = dict[str, Any]


def field_json(fields: Iterable[Field]) -> Json:
    """Give fields as one GeoJSON FeatureCollection.

    Parameters
    ----------
    fields : iterable of Field
        In the order in which they are written.

    Returns
    -------
    dict
        Ready for `json.dumps`. What nobody said of a field is left out.

    References
    ----------
    H. Butler and others, "The GeoJSON Format", RFC 7946, 2016.
    """
    return {"type": "FeatureCollection", "features": [_feature(field) for field in fields]}


def _feature(field: Field) -> Json:
    said = {
        "name": field.name,
        "gate": list(rounded(field.gate)) if field.gate else None,
        "rows": field.rows,
        "grower": field.grower or None,
        "farm": field.farm or None,
    }
    return {
        "type": "Feature",
        "geometry": plain(rounded_shape(field.shape)).__geo_interface__,
        "properties": {name: value for name, value in said.items() if value is not None},
    }
