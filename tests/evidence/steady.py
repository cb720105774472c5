"""How property tests run here: the same examples every time, and no clock."""

from hypothesis import settings

steadily = settings(deadline=None, derandomize=True)
