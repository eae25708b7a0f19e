"""Reads for pages; how many questions they ask does not grow with the rows."""
