"""Probabilities as words with their numbers."""

# Probability words in the order of their floors. Judgement.
_WORDS = (
    (0.95, "almost certain"),
    (0.75, "very likely"),
    (0.55, "likely"),
    (0.35, "about even"),
    (0.15, "possible"),
    (0.05, "unlikely"),
    (0.0, "very unlikely"),
)


def chance_words(probability: float) -> str:
    """A probability as a word with its number: "likely, 62 %"."""
    # By the number as it is shown, so that no number has two words.
    shown = round(probability, 2)
    word = next(word for floor, word in _WORDS if shown >= floor)
    return f"{word}, {percent(probability)}"


def percent(probability: float) -> str:
    """A probability as a percentage that never reads 0 % or 100 %."""
    if probability < 0.01:
        return "under 1 %"
    return "over 99 %" if probability > 0.99 else f"{100 * probability:.0f} %"


def chance_figure(p: float) -> str:
    """A p-value with two figures, and none of a chance too small to tell."""
    return f"{p:.2g}" if p >= 1e-4 else "under 0.0001"


def odds_text(probability: float) -> str:
    """A probability as odds that claim no more than they know: "4 to 1 against"."""
    less = min(probability, 1.0 - probability)
    times = (1.0 - less) / max(less, 1e-9)
    if times < 1.25:
        return "about even"
    number = f"{times:.1f}".removesuffix(".0") if times < 3.0 else f"{times:.0f}"
    side = "for" if probability > 0.5 else "against"
    return f"{'over 99' if times > 99.0 else number} to 1 {side}"


def not_words(name: str) -> str:
    """A flavour that is not there: "not sour or sour milk" for one with two names."""
    return f"not {' or '.join(name.split(', '))}"


def lower_first(sentence: str) -> str:
    """The sentence with a lower-case first letter, for use inside another one."""
    return sentence[:1].lower() + sentence[1:]
