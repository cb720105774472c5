"""Answers as they are typed: days, amounts, grists, choices; nothing is guessed."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.consult.guided import Sitting, answered, begun, tried
from diagnose.consult.guided_asking import Asking, of_slot
from diagnose.consult.guided_dates import day_written
from diagnose.consult.guided_grist import grist_lines
from diagnose.consult.guided_measures import SLOTS, SLOTS_OF
from diagnose.consult.guided_quantities import ways_meant
from diagnose.consult.guided_reading import (
    Desk,
    Entry,
    NotRead,
    plain_phrase,
    read_answer,
    says_not_known,
)
from diagnose.consult.guided_slots import at, inside
from diagnose.flavour import understand
from diagnose.units import NO_HABITS, Field, Habits, read_quantity
from tests.evidence.records import measure_ids
from tests.knowledge.shipped import TODAY, rule_base


def sitting(text: str = "") -> Sitting:
    return Sitting(rule_base(), Path("b.yaml"), TODAY, begun(text, Path("b.yaml")))


def asking(key: str, of: Sitting) -> Asking:
    place = SLOTS[key].place(of.document.data)
    assert place is not None
    return of_slot(SLOTS[key], place)


# Source of the table: the calendar, and how people say a day; today is Tuesday 24 November 2026.
@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("today", "2026-11-24"),
        ("Yesterday", "2026-11-23"),
        ("3 weeks ago", "2026-11-03"),
        ("a week ago", "2026-11-17"),
        ("5 Sep", "2026-09-05"),
        ("September 5th", "2026-09-05"),
        ("5 December", "2025-12-05"),
        ("5 December 2024", "2024-12-05"),
        ("29 Feb", "2024-02-29"),
        ("24.10.2026", "2026-10-24"),
        ("2026-09-05 10:30", "2026-09-05 10:30"),
        ("Day 6", "day 6"),
        ("12/9", None),
        ("31 Feb", None),
        ("5 Foo", None),
        ("soon", None),
    ],
)
def test_a_day_is_read_as_people_say_it(typed: str, day: str | None) -> None:
    assert day_written(typed, TODAY) == day


@given(st.dates(date(1990, 1, 1), TODAY))
def test_a_day_with_its_year_is_that_day(day: date) -> None:
    assert day_written(f"{day.day} {day:%B} {day.year}", TODAY) == day.isoformat()


# Source of the table: acceptance examples for units; what cannot be told is asked.
@pytest.mark.parametrize(
    ("typed", "field", "habits", "ways"),
    [
        ("66 F", Field.TEMPERATURE, NO_HABITS, ["66 F"]),
        ("68", Field.TEMPERATURE, NO_HABITS, ["68 C", "68 F"]),
        ("68", Field.TEMPERATURE, Habits(temperature="F"), ["68 F"]),
        ("5 gal", Field.VOLUME, NO_HABITS, ["5 US gal", "5 imp gal"]),
        ("5 gal", Field.VOLUME, Habits(measures="imperial"), ["5 imp gal"]),
        ("19", Field.VOLUME, Habits(measures="US"), ["19 L", "19 US gal"]),
        ("90 m", Field.DURATION, NO_HABITS, ["90 min", "90 months"]),
        ("1052", Field.GRAVITY, NO_HABITS, ["1052"]),
    ],
)
def test_an_amount_stands_for_all_it_may_mean(
    typed: str, field: Field, habits: Habits, ways: list[str]
) -> None:
    assert list(ways_meant(typed, field, "", habits)) == ways


@given(st.integers(0, 100), st.sampled_from([Field.TEMPERATURE, Field.VOLUME, Field.MASS]))
def test_whatever_an_amount_may_mean_can_be_read(number: int, field: Field) -> None:
    for way in ways_meant(str(number), field, "", NO_HABITS):
        assert read_quantity(way, field).typed == way


# Source of the table: names of malts and sugars in common use.
@pytest.mark.parametrize(
    ("typed", "kinds"),
    [
        ("4.5 kg pale malt, 300 g crystal 60", ["base malt", "crystal malt"]),
        ("10 lb pilsner and 1 lb munich", ["lager malt", "munich malt"]),
        ("3 kg liquid extract + 0,5 kg sugar", ["liquid extract", "sugar"]),
        ("2 lb 8 oz DME; 200g chocolate malt", ["dry extract", "roasted malt"]),
        ("flubber 2 kg", [None]),
    ],
)
def test_a_grist_is_read_in_one_breath(typed: str, kinds: list[str | None]) -> None:
    assert [line.get("kind") for line in grist_lines(typed)] == kinds


def test_no_amount_of_a_grist_is_lost() -> None:
    lines = grist_lines("4.5 kg pale malt, 0,2 kg sugar and 2 lb 8 oz wheat")
    assert [line["amount"] for line in lines] == ["4.5 kg", "0,2 kg", "2 lb 8 oz"]


CHOICES = [(key, value) for key, slot in SLOTS.items() for value, _ in slot.choices]


@pytest.mark.parametrize(("key", "value"), CHOICES)
def test_every_choice_is_one_a_record_may_hold(key: str, value: str) -> None:
    slot, begins = SLOTS[key], sitting()
    written: object = [{"use": value}] if slot.kind == "hops" else value
    place = slot.place(begins.document.data)
    assert place is not None
    entry = Entry(place, written)  # type: ignore[arg-type]
    assert tried(begins, of_slot(slot, place), entry, value).batch.record is not None


def test_every_measure_that_is_asked_for_is_one_that_is_computed() -> None:
    assert set(SLOTS_OF) <= set(measure_ids())


def test_an_entry_that_depends_on_another_names_one_that_is_there() -> None:
    names = {slot.only_if[0] for slot in SLOTS.values() if slot.only_if}
    keys = {".".join(str(s) for s in slot.path) for slot in SLOTS.values()}
    assert names <= keys


@pytest.mark.parametrize("descriptor", sorted(rule_base().descriptors))
def test_a_flavour_is_written_in_words_that_say_just_that(descriptor: str) -> None:
    phrase = plain_phrase(rule_base(), descriptor)
    for said, state in ((phrase, "reported"), (f"no {phrase}", "absent")):
        heard = understand(said, rule_base().lexicon).heard
        assert [(one.descriptor, one.state) for one in heard] == [(descriptor, state)]


# Source of the table: the questions' own choices; a number, a word, its start or a part of it.
@pytest.mark.parametrize(
    ("key", "typed", "value"),
    [
        ("method", "2", "extract"),
        ("method", "grain", "all grain"),
        ("method", "Extract", "extract"),
        ("packaging.package", "bot", "bottle"),
        ("packaging.purged", "y", "yes"),
        ("packaging.sugar", "table", "sucrose"),
        ("water.disinfectant", "nothing", "none"),
    ],
)
def test_a_choice_is_taken_by_number_or_word(key: str, typed: str, value: str) -> None:
    begins = sitting()
    after = answered(begins, asking(key, begins), typed).sitting
    place = SLOTS[key].place(after.document.data)
    assert inside(after.document.data, place or ()) == value


# Source of the table: common speech, no source.
@pytest.mark.parametrize(
    ("typed", "unknown"),
    [
        *((typed, True) for typed in ("?", "not sure", "Not sure.", "I'm not sure", "no idea")),
        *((typed, True) for typed in ("don't know", "I don\u2019t know", "we can't remember")),
        *((typed, True) for typed in ("unknown", "n/a", "cannot say", "idk", "I forgot")),
        *((typed, False) for typed in ("no", "none", "sure", "no idea about hops", "i", "I am")),
    ],
)
def test_that_something_is_not_known_is_heard_as_people_say_it(typed: str, unknown: bool) -> None:
    assert says_not_known(typed) == unknown


# Source of the table: what a yes or a no could be mistaken for the beginning of.
@pytest.mark.parametrize("typed", ["no", "yes", "not", "none", "never", "n"])
def test_a_yes_or_no_is_never_taken_for_the_beginning_of_something_else(typed: str) -> None:
    choices = (("later", "noticed later"), ("nowhere", "yeasty or nonesuch, nevertheless"))
    with pytest.raises(NotRead):
        read_answer(
            Desk(rule_base(), sitting().batch, TODAY),
            Asking("when", "question", "When?", ("fault", "when"), choices),
            typed,
        )


@pytest.mark.parametrize("typed", ["maybe", "9", "x" * 500, "\x1b[2J", "zz"])
def test_what_is_no_choice_is_said_and_nothing_is_written(typed: str) -> None:
    begins = sitting()
    step = answered(begins, asking("method", begins), typed)
    assert "of the answers; it takes a number from 1 to 3" in step.said[0]
    assert not step.settled and step.sitting.text == begins.text


@given(st.text(max_size=40))
def test_no_line_typed_breaks_the_record(typed: str) -> None:
    begins = sitting()
    step = answered(begins, asking("fermentation.vessel", begins), typed)
    assert replace(step.sitting).batch.record.batch == "b"


def test_a_dotted_path_counts_from_nought() -> None:
    assert at("water.0.iron") == ("water", 0, "iron")
