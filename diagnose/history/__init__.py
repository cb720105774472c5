"""The flaw history: every batch, tasting and verdict, kept so that nothing is overwritten.

Nothing is imported here, so that a command which needs no store does not wait for one.
"""
