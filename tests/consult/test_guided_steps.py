"""A guided entry step by step: the order, what is refused, going back, going on."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from diagnose.answers import lower_first, percent
from diagnose.answers.caution import CautionLine
from diagnose.answers.guided import Asked, Suspect
from diagnose.consult import diagnose
from diagnose.consult.guided import Sitting, Step, answered, begun
from diagnose.consult.guided_asking import Asking, of_rules, of_slot
from diagnose.consult.guided_measures import SLOTS
from diagnose.consult.guided_scripted import answered_all
from diagnose.consult.guided_slots import makes_sense
from diagnose.consult.guided_talk import hold, summed_up
from diagnose.consult.guided_why import why
from diagnose.errors import UnusableInput
from tests.knowledge.shipped import TODAY, rule_base

FILE = Path("shed.yaml")
FIRST_FACTS = ["papery", "today", "1 Sep", "all grain", "pale ale", "clean ale", "bottle", "20 Sep"]


class Script:
    """A brewer who types these lines; what was said is kept."""

    def __init__(self, lines: list[str]) -> None:
        self._lines: Iterator[str] = iter(lines)
        self.asked: list[Asked] = []
        self.said: list[str] = []
        self.offers: list[tuple[str, ...]] = []
        self.ranked: list[tuple[Suspect, ...]] = []
        self.kept: list[str] = []
        self.warned: list[CautionLine] = []

    def ask(self, asked: Asked) -> None:
        self.asked.append(asked)

    def say(self, sentence: str) -> None:
        self.said.append(sentence)

    def offer(self, offers: tuple[str, ...]) -> None:
        self.offers.append(offers)

    def warn(self, caution: CautionLine) -> None:
        self.warned.append(caution)

    def rank(self, suspects: tuple[Suspect, ...]) -> None:
        self.ranked.append(suspects)

    def hear(self) -> str | None:
        return next(self._lines, None)

    def keep(self, _before: str, after: str) -> None:
        self.kept.append(after)


def sitting(text: str = "", *, checks: bool = False) -> Sitting:
    return Sitting(rule_base(), FILE, TODAY, begun(text, FILE), checks=checks, words_only=checks)


def held(lines: list[str], text: str = "") -> tuple[Sitting, Script]:
    script = Script(lines)
    return hold(sitting(text), script, script.keep), script


def told(text: str, key: str, typed: str) -> Step:
    """What comes of a line typed at the question for one entry."""
    before = sitting(text)
    place = SLOTS[key].place(before.document.data)
    assert place is not None
    return answered(before, of_slot(SLOTS[key], place), typed)


def test_the_words_come_first_and_then_what_everything_needs() -> None:
    _, script = held(FIRST_FACTS)
    assert [asked.id for asked in script.asked][:8] == [
        *("tastings.words", "tastings.when", "brewed", "method", "style"),
        *("pitch.yeast.family", "packaging.package", "packaging.when"),
    ]


def test_after_the_first_facts_the_worthiest_question_comes_first() -> None:
    after, _ = held(FIRST_FACTS)
    assert after.question is not None
    askable = [gain.question.key for gain in after.standing.gains if gain.question.kind != "check"]
    assert after.question.id in askable[:3]


def test_a_ranking_is_shown_once_the_first_facts_are_in() -> None:
    _, script = held(FIRST_FACTS)
    assert script.ranked and all(len(suspects) == 3 for suspects in script.ranked)


def test_every_answer_is_kept_before_the_next_question() -> None:
    after, script = held(FIRST_FACTS)
    assert len(script.kept) == len(FIRST_FACTS) and script.kept[-1] == after.text


@cache
def unbroken() -> tuple[Sitting, Script]:
    return held([*FIRST_FACTS, "1"])


@pytest.mark.parametrize("kept", [1, 4, 8])
def test_an_entry_broken_off_anywhere_goes_on_as_if_it_had_not_been(kept: int) -> None:
    whole, script = unbroken()
    resumed, _ = held([*FIRST_FACTS, "1"][kept:], script.kept[kept - 1])
    assert resumed.text == whole.text


def test_the_record_alone_gives_the_same_ranking() -> None:
    after, _ = held([*FIRST_FACTS, "2", "", "1"])
    found = diagnose(rule_base(), after.standing.consultation).faults[0].causes
    assert [(one.id, one.responsible) for one in after.standing.suspects] == [
        (one.id, pytest.approx(one.responsible, abs=1e-12)) for one in found[:3]
    ]


def test_a_danger_is_said_at_once_and_once() -> None:
    _, script = held(["the bottles gush", "today", "1 Sep"])
    assert len(script.asked) > 2 and len(script.warned) == len(set(script.warned)) == 1


def test_flavours_of_two_kinds_have_a_ranking_each() -> None:
    after, _ = held(["butter and wet cardboard"])
    groups = {one.behind for one in after.standing.suspects}
    assert len(groups) == 2 and len(after.standing.suspects) == 4


def test_it_stops_by_itself_and_asks_nothing_twice() -> None:
    after, script = held([*FIRST_FACTS, *[""] * 200])
    asked = [(one.id, one.text) for one in script.asked]
    assert after.question is None and len(asked) == len(set(asked)) < 60
    assert "worth asking" in script.said[-1]


def test_what_is_not_known_is_marked_and_not_asked_again() -> None:
    after, script = held([*FIRST_FACTS, "?"])
    assert ": unknown" in after.text
    assert sitting(after.text).question != script.asked[-2].id


def test_an_entry_without_a_word_of_the_taste_does_not_begin() -> None:
    after, script = held(["", "?", "butter"])
    assert after.text.count("words") == 1 and "butter" in after.text
    assert script.said[0].startswith("A word is enough")


def test_back_takes_the_last_answer_out_of_the_record() -> None:
    after, script = held(["papery", "today", "back"])
    once, _ = held(["papery"])
    assert after.text == once.text and "Taken back." in script.said


def test_back_at_the_beginning_says_so() -> None:
    assert held(["back"])[1].said == ["Nothing to go back to in this sitting; mend it in the file."]


def test_help_says_why_and_writes_nothing() -> None:
    _, script = held(["help"])
    assert script.said == [SLOTS["tastings.words"].why] and script.kept == []


def test_help_for_a_weighed_question_says_what_each_answer_would_lead_to() -> None:
    after, _ = held(FIRST_FACTS)
    assert after.question is not None
    lines = why(after, after.question)
    assert any(line.startswith("If '") for line in lines) and "bits" in lines[-1]


TOLD_IN_PART = """\
style: amber lager
pitch: {yeast: {family: lager}}
fault: {first_noticed: first_weeks, course: grows}
tastings: [{words: "buttery, slick, not sour"}]
"""
# Questions of each kind: the last two say the same as, or speak beside, what the record tells.
WEIGHED = ["green_apple", "watery", "spread", "first_pour", "warm_hold_butter_test"]
TWINS = ["cold_kept_twin", "gravity_now"]


@cache
def in_part() -> Sitting:
    return sitting(TOLD_IN_PART, checks=True)


def choices_of(key: str) -> list[tuple[Asking, str, str]]:
    """Each likely answer to a question: the question, what is typed, and its line of help."""
    gains = [gain for gain in in_part().standing.gains if gain.question.key == key]
    asking = of_rules(rule_base(), gains[0])
    lines = [line for line in why(in_part(), asking) if line.startswith("If '")]
    said = {line.split("'")[1]: line for line in lines}
    values = {label: value for value, label in asking.choices}
    return [(asking, values.get(label, label.split(": ")[-1]), said[label]) for label in said]


# Source: what is promised is what comes; the record and the choice of questions are invented.
@pytest.mark.parametrize("key", [*WEIGHED, *TWINS])
def test_what_an_answer_is_said_to_lead_to_comes_true(key: str) -> None:
    for asking, value, line in choices_of(key):
        after = answered(in_part(), asking, value).sitting.standing.suspects
        first = max(after, key=lambda one: one.responsible)
        assert line.endswith(
            f"first comes {lower_first(first.name)} ({percent(first.responsible)})."
        )


def test_what_a_check_says_once_more_is_not_promised_as_news() -> None:
    (gain,) = [g for g in in_part().standing.gains if g.question.key == "cold_kept_twin"]
    for outcome, result in zip(
        gain.outcomes, rule_base().checks["cold_kept_twin"].results, strict=True
    ):
        after, _ = answered_all(in_part(), [f"cold_kept_twin={result.id}"])
        best = max(after.standing.suspects, key=lambda one: one.responsible)
        assert best.responsible == pytest.approx(outcome.responsible.max(), abs=1e-9)


def test_a_temperature_in_the_other_unit_is_asked_about_and_taken_on_a_yes() -> None:
    text = "pitch: {yeast: {family: clean ale}}\n"
    step = told(text, "fermentation.temperature", "68 C")
    assert "did you mean 68 F (20 C)?" in step.said[0] and step.sitting.offers == ("68 F",)
    asking = of_slot(SLOTS["fermentation.temperature"], ("fermentation", "temperature"))
    after = answered(step.sitting, asking, "y").sitting
    assert "temperature: 68 F" in after.text


def test_a_bare_number_that_can_only_be_one_thing_still_waits_for_a_yes() -> None:
    step = told("batch: b\n", "fermentation.temperature", "68")
    assert not step.settled and step.sitting.offers == ("68 F",)


def test_whose_gallon_it_is_is_asked_once() -> None:
    step = told("batch: b\n", "volume", "5 gal")
    assert step.sitting.offers == ("5 US gal", "5 imp gal")
    after = answered(step.sitting, of_slot(SLOTS["volume"], ("volume",)), "1").sitting
    second = told(after.text, "boil.volume_before", "7 gal")
    assert second.settled and "7 US gal" in second.sitting.text


def test_a_bare_temperature_is_read_as_the_others_of_its_record() -> None:
    step = told("mash: {at: 152 F}\n", "fermentation.temperature", "66")
    assert step.settled and "66 F" in step.sitting.text


def test_a_spoon_is_no_weight() -> None:
    step = told("packaging: {sugar: sucrose}\n", "packaging.sugar_amount", "2 tsp")
    assert not step.settled and "grams on a scale" in step.said[0]


def test_a_final_gravity_above_the_original_is_refused_with_the_reason() -> None:
    step = told("gravity: {original: 1.050}\n", "gravity.final", "1.060")
    assert not step.settled and "below the original (1.050)" in step.said[0]


@pytest.mark.parametrize(("typed", "odd"), [("1.012", False), ("0.998", True), ("1.035", True)])
def test_a_final_gravity_that_the_yeast_does_not_reach_is_remarked_on(
    typed: str, odd: bool
) -> None:
    text = "pitch: {yeast: {family: english ale}}\ngravity: {original: 1.050}\n"
    step = told(text, "gravity.final", typed)
    assert step.settled and any(line.startswith("Odd: ") for line in step.said) == odd


def test_a_fermentation_far_from_what_the_yeast_likes_is_remarked_on() -> None:
    text = "pitch: {yeast: {family: lager}}\n"
    assert "far above" in told(text, "fermentation.temperature", "25 C").said[0]


def test_a_beer_packaged_before_it_was_brewed_is_refused() -> None:
    step = told("brewed: 2026-09-05\n", "packaging.when", "1 Sep")
    assert not step.settled and "after the batch was brewed" in step.said[0]


@pytest.mark.parametrize("typed", ["12/9", "soon", "32 Sep"])
def test_a_day_that_cannot_be_read_gets_one_sentence(typed: str) -> None:
    step = told("batch: b\n", "brewed", typed)
    assert not step.settled and len(step.said) == 1 and "it takes" in step.said[0]


def test_a_yeast_is_found_by_a_near_name() -> None:
    step = told("batch: b\n", "pitch.yeast.family", "belgain yeast")
    assert "belgian yeast" in [offer.casefold() for offer in step.sitting.offers]


def test_a_kind_of_yeast_is_offered_once_however_many_names_it_has() -> None:
    offers = told("batch: b\n", "pitch.yeast.family", "english").sitting.offers
    assert [rule_base().yeast_called(one).id for one in offers].count("english_ale") == 1


def test_nothing_is_asked_about_the_mash_of_an_extract_beer() -> None:
    mash = [slot for slot in SLOTS.values() if slot.path[0] in ("mash", "sparge")]
    assert mash and not any(makes_sense(slot, {"method": "extract"}) for slot in mash)
    assert all(makes_sense(slot, {"method": "unknown"}) for slot in mash)


def test_a_check_not_done_yet_is_left_for_later_and_not_marked() -> None:
    text = "tastings: [{words: papery}]\n"
    now = sitting(text, checks=True)
    while now.question is not None and now.question.kind != "check":
        now = answered(now, now.question, "").sitting
    assert now.question is not None
    after = answered(now, now.question, "").sitting
    assert after.text == now.text and after.question != now.question


def test_answers_given_at_once_are_written_where_they_belong() -> None:
    text = "tastings: [{who: Wren, words: papery}]\n"
    given = ["spread=every_package", "cold_kept_twin=1", "packaging.fill=siphon", "sherry=no"]
    after, answer = answered_all(sitting(text, checks=True), given)
    record = after.batch.record
    assert record.fault["spread"] == "every_package" and "cold_kept_twin" in record.checks
    assert record.packaging.fill == "siphon" and record.tastings[1].words == "no sherry"
    assert answer.answered[0].id == "spread" and answer.before != answer.after


def test_every_answer_is_shown_with_the_line_it_ends_up_on() -> None:
    text = "tastings: [{words: papery}]\nboil:\n  lid: off\npackaging:\n  package: keg\n"
    given = ["packaging.fill=siphon", "boil.time=60"]
    after, answer = answered_all(sitting(text), given)
    lines = after.text.splitlines()
    found = [lines[one.line - 1].strip() for one in answer.answered]
    assert found == ["fill: siphon", "time: 60 min"]


# Source of the table: the ids of the rule base and the record of the first test line.
@pytest.mark.parametrize(
    ("given", "reason"),
    [
        ("spread", "ID=VALUE"),
        ("nonsense=yes", "no question called"),
        ("spraed=yes", "one of spread"),
        ("spread=no", "'no' is none of the answers"),
        ("pitch.at=68", "'68' needs its unit; wanted one of 68 F"),
        ("spread=purple", "every_package, some_packages, one_package"),
        ("brewed=2026-01-01", "there already"),
        ("volume=5 gal", "5 US gal, 5 imp gal"),
        ("packaged_oxygen_mg_per_l=1", "packaging.fill="),
        ("cold_kept_twin=?", "a result of the check"),
    ],
)
def test_an_answer_that_cannot_be_used_is_refused_with_the_reason(given: str, reason: str) -> None:
    text = "brewed: 2026-09-01\ntastings: [{words: papery}]\n"
    with pytest.raises(UnusableInput, match=reason):
        answered_all(sitting(text, checks=True), [given])


# Source of the table: the questions' own choices, and amounts in the units of a brewer's habit.
@pytest.mark.parametrize(
    ("given", "value", "said"),
    [
        ("spread=one", "one_package", "Taken as: "),
        ("spread=one_package", "one_package", ""),
        ("boil.time=60", "60 min", "Taken as 60 min."),
        ("boil.time=60 min", "60 min", ""),
        ("sherry=slightly", "faint sherry", ""),
        ("spread=not sure", "unknown", ""),
    ],
)
def test_an_answer_is_read_back_where_it_is_not_as_typed(given: str, value: str, said: str) -> None:
    text = "tastings: [{words: papery}]\n"
    (written,) = answered_all(sitting(text), [given])[1].answered
    assert written.value == value
    assert written.said.startswith(said) and bool(written.said) == bool(said)


def test_a_part_of_an_answer_is_read_back_at_the_terminal_too() -> None:
    assert told("batch: b\n", "method", "grain").said == ("Taken as: all grain.",)


def test_what_was_not_known_may_be_answered_later() -> None:
    text = "tastings: [{words: papery}]\nfault: {spread: unknown}\nboil: {time: unknown}\n"
    after, _ = answered_all(sitting(text), ["spread=1", "boil.time=60"])
    assert "{spread: every_package}" in after.text and "{time: 60 min}" in after.text


def test_the_sum_counts_what_is_known_and_what_is_not() -> None:
    answer = summed_up(held([*FIRST_FACTS, ""])[0])
    assert (answer.answered, answer.not_known) == (len(FIRST_FACTS) + 1, 1)
