"""Every outside format, in and out: walk tables, plantings, guideline files, calls."""

__all__: list[str] = []
