"""A boundary made ready to be cut, and its parts brought back to the globe."""

from __future__ import annotations

import shapely
from shapely import MultiPolygon

from quarterwalk.field.cut import areas_of
from quarterwalk.field.frame import Frame

# An edge of a boundary is straight in degrees (RFC 7946, section 3.1.1). In steps of this
# share of the field it is straight in the frame too. [dimensionless]
_STEPS = 16
# What bends less than this is straight: about two steps of the net on which cuts lie.
# [degrees]
_STRAIGHT_DEGREES = 2e-9


def to_cut(shape: MultiPolygon, frame: Frame) -> MultiPolygon:
    """Take a boundary into a frame in which cuts along the compass are straight in degrees.

    Parameters
    ----------
    shape : MultiPolygon
        On WGS 84. [degrees]
    frame : Frame
        Whose meridians and parallels are straight.

    Returns
    -------
    MultiPolygon
        With steps along its edges, which may bend there. [m]
    """
    west, south, east, north = shape.bounds
    step = max(east - west, north - south) / _STEPS
    stepped = frame.to_ground(shapely.segmentize(shape, step))
    return areas_of(stepped, whole=stepped.area)


def from_cut(part: MultiPolygon, frame: Frame) -> MultiPolygon:
    """Bring a part of a boundary back to the globe, without the steps along its edges.

    Parameters
    ----------
    part : MultiPolygon
        In the frame. [m]
    frame : Frame
        The same as it was cut in.

    Returns
    -------
    MultiPolygon
        Valid, outer rings counter-clockwise. [degrees]
    """
    stepped = frame.to_globe(part)
    plain = shapely.simplify(stepped, _STRAIGHT_DEGREES)
    valid = plain if plain.is_valid else shapely.make_valid(stepped)
    return areas_of(shapely.orient_polygons(valid), whole=valid.area)
