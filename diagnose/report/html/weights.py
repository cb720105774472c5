"""A weight of evidence in words: how clearly it speaks, and what it does to the odds."""

# From so many decibans on. Judgement; 10 decibans are odds times 10, 3 are odds times 2.
_FORCES = (
    (15.0, "very strongly"),
    (10.0, "strongly"),
    (5.0, "clearly"),
    (2.0, "somewhat"),
    (0.0, "slightly"),
)


def weight_words(decibans: float) -> str:
    """A weight in words: "clearly for it: odds times 8 (9 decibans)"."""
    force = next(words for floor, words in _FORCES if abs(decibans) >= floor)
    times = float(10.0 ** (abs(decibans) / 10.0))
    number = f"{times:.1f}" if times < 3.0 else f"{times:.0f}"
    side, does = ("for", "times") if decibans >= 0 else ("against", "divided by")
    return f"{force} {side} it: odds {does} {number} ({_counted(abs(decibans))})"


def _counted(decibans: float) -> str:
    number = f"{decibans:.0f}" if decibans >= 3.0 else f"{decibans:.1f}"
    return f"{number} decibans"
