"""Which arm of a split brings the fault if the suspect is responsible."""

from diagnose.knowledge.causes import SplitHint


def settings_of(hint: SplitHint) -> tuple[str, str]:
    """The setting that brings the fault if the cause is responsible, and the other one."""
    first, second = hint.arms
    return (second, first) if hint.suspect == "second" else (first, second)
