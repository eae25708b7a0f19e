"""The textbook sampling plans, with the error rates that they really have.

For readers who know them, for the method page and for tests. No walk ends by them.
"""
