"""Two entries that cannot both be true are said with their line, and used all the same."""

import pytest

from tests.batch.written import batch_of

BREWED = "brewed: 2026-05-02\n"
# Source of the table: the calendar, and that nothing held at 21 C is at most 19 C.
AGAINST_EACH_OTHER = [
    (BREWED + "tastings:\n  - when: 2026-05-01\n", 3, "tastings[1].when", "before it was brewed"),
    (BREWED + "events:\n  - when: 2026-04-30\n", 3, "events[1].when", "before it was brewed"),
    (
        BREWED + "gravity:\n  readings:\n    - {}\n    - when: 2026-05-01\n",
        5,
        "gravity.readings[2].when",
        "before it was brewed (2026-05-02)",
    ),
    (
        "packaging: {when: 2026-05-20}\nstorage:\n  - since: 2026-05-10\n",
        3,
        "storage[1].since",
        "before it was packaged (2026-05-20)",
    ),
    (
        "fermentation:\n  temperature: 21 C\n  peak: 66 F\n",
        3,
        "fermentation.peak",
        "18.9 C (66 F) as the warmest, but fermentation.temperature says 21.0 C (70 F)",
    ),
    (
        BREWED + "fermentation:\n  peak: 19 C\n  steps:\n    - {since: day 2, at: 22 C}\n",
        3,
        "fermentation.peak",
        "but fermentation.steps[1].at says 22.0 C (72 F)",
    ),
    (
        "boil:\n  volume_before: 20 L\n  volume_after: 6 US gal\n",
        3,
        "boil.volume_after",
        "6 US gal after the boil, but boil.volume_before says 20 L",
    ),
    (
        "boil: {time: 60 min}\nrecipe:\n  hops:\n    - {use: boil, boiled: 90 min}\n",
        4,
        "recipe.hops[1].boiled",
        "90 min in the boil, but boil.time says 60 min",
    ),
    (
        "gravity:\n  final: 1.010\n  forced_final: 1.014\n",
        3,
        "gravity.forced_final",
        "a forced sample at 1.014, but gravity.final says 1.010",
    ),
]


@pytest.mark.parametrize(("text", "line", "key", "said"), AGAINST_EACH_OTHER)
def test_entries_that_speak_against_each_other_are_said(
    text: str, line: int, key: str, said: str
) -> None:
    (doubt,) = batch_of(text).doubts
    assert (doubt.line, doubt.key) == (line, key)
    assert said in doubt.text


# Source of the table: as above; a day without its time may be any time of that day.
TOGETHER = [
    BREWED + "tastings: [{when: 2026-05-02}, {when: day 0}, {when: 2026-05-02 06:00}]",
    "tastings: [{when: 2026-05-01}]",
    "packaging: {when: 2026-05-20}\ntastings: [{when: 2026-05-10}]",
    "fermentation: {temperature: 19 C, peak: 19 C}",
    "fermentation: {temperature: 18-22 C, peak: 20 C}",
    BREWED + "fermentation: {peak: 12 C, steps: [{since: day 9, at: 18 C}]}",
    "boil: {volume_before: 26 L, volume_after: 23 L, time: 60 min}",
    # hops of the first wort lie in the kettle before it boils
    "boil: {time: 60 min}\nrecipe: {hops: [{use: first wort, boiled: 90 min}]}",
    "boil: {time: 60 min}\nrecipe: {hops: [{use: boil, boiled: 60 min}]}",
    # a hydrometer is read to a point or two
    "gravity: {final: 1.010, forced_final: 1.012}",
]


@pytest.mark.parametrize("text", TOGETHER)
def test_entries_that_can_both_be_true_raise_no_doubt(text: str) -> None:
    assert batch_of(text).doubts == ()
