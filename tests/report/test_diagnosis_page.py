"""The page of a diagnosis: it fits, it names the suspect, cautions first, in any terminal."""

import re
from functools import cache

import pytest

from diagnose.answers import CautionLine, Diagnosis
from diagnose.report import print_demo, print_diagnosis, print_next_steps
from tests.casebook.replayed import case_called, diagnosis_of
from tests.knowledge.shipped import case_ids
from tests.report.printed import Print, printed, printed_in_ascii, widest, words_of

every_case = pytest.mark.parametrize("case_id", case_ids())
every_width = pytest.mark.parametrize("columns", [80, 60])
RANKING = "What may be behind"
ESCAPE = re.compile(r"\x1b\[[0-9;]*m")


def page_of(diagnosis: Diagnosis, top: int = 3) -> Print:
    return lambda console: print_diagnosis(console, diagnosis, top)


@cache
def page(case_id: str, columns: int = 80) -> str:
    return printed(page_of(diagnosis_of(case_id)), columns)


@every_case
@every_width
def test_no_line_runs_over_the_edge(case_id: str, columns: int) -> None:
    assert widest(page(case_id, columns)) <= columns


@every_case
@every_width
def test_the_first_suspect_of_every_fault_is_named(case_id: str, columns: int) -> None:
    for group in diagnosis_of(case_id).faults:
        assert set(group.causes[0].name.split()) <= set(words_of(page(case_id, columns)))


@every_case
@every_width
def test_the_verdict_is_said_in_full(case_id: str, columns: int) -> None:
    verdict = " ".join(words_of(diagnosis_of(case_id).verdict_text))
    assert verdict in " ".join(words_of(page(case_id, columns)))


@every_case
def test_cautions_to_stop_or_take_care_come_before_the_ranking(case_id: str) -> None:
    text = page(case_id)
    marks = [text.index(mark) for mark in ("STOP:", "TAKE CARE:") if mark in text]
    loud = [line for line in diagnosis_of(case_id).cautions if line.level != "note"]
    assert bool(marks) == bool(loud)
    assert all(place < text.index(RANKING) for place in marks)


@every_case
def test_every_caution_is_printed_in_full(case_id: str) -> None:
    text = " ".join(words_of(page(case_id)))
    for line in diagnosis_of(case_id).cautions:
        assert " ".join(line.text.split()) in text


@every_case
def test_a_terminal_of_plain_signs_shows_the_same_words(case_id: str) -> None:
    plain = printed_in_ascii(page_of(diagnosis_of(case_id)))
    wanted = page(case_id).replace("█", "#").replace("░", ".")
    assert plain == wanted.encode("ascii", "replace").decode("ascii")


@every_case
def test_colour_adds_nothing_but_colour(case_id: str) -> None:
    coloured = printed(
        page_of(diagnosis_of(case_id)), force_terminal=True, color_system="truecolor"
    )
    assert "\x1b[" in coloured
    assert ESCAPE.sub("", coloured) == page(case_id)


@every_case
def test_a_page_without_a_terminal_has_no_colour(case_id: str) -> None:
    assert "\x1b" not in page(case_id)


@every_case
def test_no_chance_reads_as_certain_or_impossible(case_id: str) -> None:
    chances = [line for line in page(case_id).splitlines() if re.search("[█░]|behind it;", line)]
    said = [*chances, diagnosis_of(case_id).verdict_text]
    assert not any(re.search(r"(?<!\d)(100|0) %", line) for line in said)


@every_case
@pytest.mark.parametrize("top", [1, 3])
def test_as_many_suspects_are_argued_as_are_asked_for(case_id: str, top: int) -> None:
    diagnosis = diagnosis_of(case_id)
    text = " ".join(words_of(printed(page_of(diagnosis, top))))
    argued = text.count("that it happened at all")
    assert argued == sum(min(top, len(group.causes)) for group in diagnosis.faults)


@every_case
@every_width
def test_the_next_steps_fit_and_say_what_each_is_worth(case_id: str, columns: int) -> None:
    diagnosis = diagnosis_of(case_id)
    text = printed(lambda console: print_next_steps(console, diagnosis), columns)
    assert widest(text) <= columns
    assert text.count("worth ") >= len(diagnosis.next_)


def test_a_note_comes_after_everything_else() -> None:
    note = CautionLine(level="note", text="Hops are no food for dogs.")
    diagnosis = diagnosis_of("crashed_too_soon")
    noted = diagnosis.model_copy(update={"cautions": (*diagnosis.cautions, note)})
    assert printed(page_of(noted)).rstrip().endswith("Note: Hops are no food for dogs.")


def test_a_caution_to_stop_comes_before_one_to_take_care() -> None:
    text = page("brown_as_strong_tea")
    assert text.index("STOP:") < text.index("TAKE CARE:")


def test_a_beer_of_which_nothing_is_said_has_a_short_page() -> None:
    nothing = diagnosis_of("crashed_too_soon").model_copy(
        update={"faults": (), "understood": (), "cautions": (), "next_": (), "odd_entries": ()}
    )
    text = printed(page_of(nothing))
    assert "no flavour words" in text
    assert RANKING not in text


@every_width
def test_the_demo_tells_its_story_before_its_diagnosis(columns: int) -> None:
    card, diagnosis = case_called("crashed_too_soon").card, diagnosis_of("crashed_too_soon")
    text = printed(lambda console: print_demo(console, card.story, diagnosis), columns)
    told = " ".join(words_of(text))
    assert told.index(" ".join(card.story.split())) < told.index(RANKING)
    assert widest(text) <= columns


# Source: a word of two names that the shipped case denies.
def test_a_denied_flavour_is_told_as_people_deny_it() -> None:
    assert "not sour or sour milk" in page("crashed_too_soon")
