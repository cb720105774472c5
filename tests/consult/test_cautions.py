"""Cautions: the gravest first, set off by what can hurt and by nothing else."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from diagnose.answers import BatchCheck, CautionLine, Diagnosis, FaultGroup
from diagnose.consult import check_batch, diagnose, show_batch
from diagnose.consult.cautioning import SUSPECT_FROM, cautions_for
from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.knowledge import Caution
from diagnose.knowledge.lists import Trigger
from diagnose.process import Band
from diagnose.report import print_batch, print_batch_check, print_diagnosis
from tests.consult.asked import asked
from tests.consult.test_verdict import fault
from tests.knowledge.shipped import rule_base
from tests.report.printed import printed

BOTTLED = "packaging: {{package: bottle, carbonation: {} volumes}}"


def given(words: str, record: str = "batch: this beer") -> tuple[CautionLine, ...]:
    return diagnose(rule_base(), asked(words, record)).cautions


def levels(cautions: tuple[CautionLine, ...]) -> set[str]:
    return {line.level for line in cautions}


def texts(cautions: tuple[CautionLine, ...]) -> set[str]:
    return {line.text for line in cautions}


def text_of(caution: str) -> str:
    return rule_base().cautions[caution].text


def blaming(cause: str, responsible: float) -> FaultGroup:
    """A fault of which one cause is suspected."""
    group = fault(responsible, 0.0)
    first = group.causes[0].model_copy(update={"id": cause})
    return group.model_copy(update={"causes": (first,)})


# Source of the table: the levels on the cards; ordinary reused glass is sound to about 3 volumes.
@pytest.mark.parametrize(
    ("volumes", "stop", "warn"),
    [
        (2.4, False, False),
        (3.2, False, True),
        (3.95, True, False),
        (4.5, True, False),
        (9, True, False),
    ],
)
def test_gas_in_bottles_is_cautioned_against_by_how_much_there_may_be(
    volumes: float, stop: bool, warn: bool
) -> None:
    found = texts(given("", BOTTLED.format(volumes)))
    assert (text_of("bottle_pressure_stop") in found) == stop
    assert (text_of("bottle_pressure") in found) == warn


def test_too_much_priming_sugar_is_a_reason_to_stop() -> None:
    record = "packaging: {package: bottle, sugar: sucrose, sugar_amount: 400 g, volume: 20 L}"
    assert "stop" in levels(given("", record))


def test_an_absurd_dose_of_sugar_is_still_a_reason_to_stop() -> None:
    record = "packaging: {package: bottle, sugar: sucrose, sugar_amount: 3 kg, volume: 20 L}"
    assert "stop" in levels(given("", record))


@pytest.mark.parametrize("volume", ["0-20 L", "1 mL", "0-1 mL"])
def test_a_volume_that_may_be_next_to_nothing_is_a_reason_to_stop(volume: str) -> None:
    primed = "package: bottle, sugar: sucrose, sugar_amount: 120 g"
    assert "stop" in levels(given("", f"packaging: {{{primed}, volume: {volume}}}"))


def test_gravity_a_forced_sample_could_still_lose_is_a_reason_to_stop() -> None:
    record = (
        "packaging: {package: bottle, sugar: sucrose, sugar_amount: 120 g, volume: 20 L}\n"
        "gravity: {original: 1.060, final: 1.020, forced_final: 1.012}"
    )
    assert "stop" in levels(given("", record))


LEFT = "gravity: {{original: 1.060, final: 1.020, forced_final: {}}}\n"
CLOSED = (
    "{package: bottle, carbonation: 2.5 volumes}",
    "{package: bottle}",
    "{package: bottle, sugar: sucrose}",
    "{package: can, sugar: none}",
    "{package: can}",
    "{package: cask}",
    "{carbonation: 2.5 volumes}",
    "{when: 2026-03-20}",
)


# Source of the table: half a volume for each 0.001, so 12 points are 6 volumes; 4.0 is the stop.
@pytest.mark.parametrize("packaging", CLOSED)
@pytest.mark.parametrize("look", [diagnose, check_batch])
def test_much_gravity_left_is_a_reason_to_stop_however_little_is_noted_of_the_package(
    packaging: str, look: Callable[..., Diagnosis | BatchCheck]
) -> None:
    consultation = asked("cardboard", LEFT.format(1.008) + f"packaging: {packaging}")
    assert look(rule_base(), consultation).cautions[0].text == text_of("bottle_pressure_stop")


@pytest.mark.parametrize("packaging", CLOSED)
def test_a_forced_sample_that_ended_where_the_beer_did_is_no_reason_for_a_caution(
    packaging: str,
) -> None:
    consultation = asked("cardboard", LEFT.format(1.020) + f"packaging: {packaging}")
    assert check_batch(rule_base(), consultation).cautions == ()


def test_gravity_lost_after_bottling_is_a_reason_to_stop_without_any_sugar_noted() -> None:
    later = "readings: [{when: 2026-05-01, gravity: 1.008}]"
    record = f"gravity: {{final: 1.020, {later}}}\npackaging: {{package: bottle}}"
    assert text_of("bottle_pressure_stop") in texts(given("cardboard", record))


# Source of the table: 0.004 above a forced sample, or as good as, is practice.
@pytest.mark.parametrize(("forced", "cautioned"), [(1.018, False), (1.016, True), (1.008, True)])
def test_gravity_left_in_a_beer_not_known_to_be_packaged_is_warned_of(
    forced: float, cautioned: bool
) -> None:
    found = texts(given("cardboard", LEFT.format(forced)))
    assert (text_of("gravity_left_to_ferment") in found) == cautioned


def test_gravity_left_in_a_keg_bursts_no_bottle() -> None:
    record = LEFT.format(1.008) + "packaging: {package: keg, carbonation: 2.5 volumes}"
    bottles = {"bottle_pressure", "bottle_pressure_stop", "gravity_left_to_ferment"}
    assert not {text_of(one) for one in bottles} & texts(given("cardboard", record))


@pytest.mark.parametrize(("volumes", "level"), [(2.4, None), (3.2, "warn"), (4.5, "stop")])
def test_a_record_is_checked_and_shown_with_its_caution_first(
    volumes: float, level: str | None
) -> None:
    consultation = asked("", BOTTLED.format(volumes))
    checked, shown = (
        check_batch(rule_base(), consultation),
        show_batch(rule_base(), consultation),
    )
    firsts = [next((line.level for line in one.cautions), None) for one in (checked, shown)]
    assert firsts == [level, level]


# Source: common practice; slaked lime burns eyes and its dust is breathed in.
def test_slaked_lime_in_a_record_is_cautioned_against_first() -> None:
    lime = "salts: [{salt: calcium hydroxide, amount: 0.6 g, scale_step: 1 g}]"
    shown = show_batch(rule_base(), asked("", lime))
    assert [text_of("slaked_lime")] == [line.text for line in shown.cautions]


@pytest.mark.parametrize(("volumes", "mark"), [(3.2, "TAKE CARE:"), (4.5, "STOP:")])
def test_a_caution_comes_first_on_every_page_below_the_name(volumes: float, mark: str) -> None:
    consultation = asked("", BOTTLED.format(volumes))
    checked = check_batch(rule_base(), consultation)
    shown = show_batch(rule_base(), consultation)
    told = diagnose(rule_base(), consultation)
    pages = (
        printed(lambda console: print_batch_check(console, checked)),
        printed(lambda console: print_batch(console, shown)),
        printed(lambda console: print_diagnosis(console, told)),
    )
    told_at = [
        next(n for n, line in enumerate(filter(None, page.splitlines())) if line.startswith(mark))
        for page in pages
    ]
    assert max(told_at) <= 1


def test_gas_in_a_keg_bursts_no_bottle() -> None:
    record = "packaging: {package: keg, carbonation: 4.5 volumes}"
    found = texts(given("", record))
    assert not {text_of("bottle_pressure"), text_of("bottle_pressure_stop")} & found
    assert text_of("keg_pressure") in found
    bottled = record.replace("keg", "bottle")
    assert text_of("keg_pressure") not in texts(given("", bottled))


@pytest.mark.parametrize("words", ["gusher", "it gushes out of the bottle", "gushing, and sour"])
def test_a_word_of_gushing_is_a_reason_to_stop(words: str) -> None:
    assert text_of("gushing_bottles") in texts(given(words))


def test_no_gushing_is_no_reason_to_stop() -> None:
    assert text_of("gushing_bottles") not in texts(given("butter, no gushing"))


def test_gushing_in_the_record_is_a_reason_to_stop() -> None:
    assert "stop" in levels(given("butter", 'packaging: {gushing: "yes"}'))


def test_a_beer_of_which_nothing_is_said_needs_no_caution() -> None:
    assert given("") == ()


SET_OFF = [
    (card.id, trigger)
    for card in rule_base().cautions.values()
    for trigger in card.when
    if not trigger.said
]


def found_for(trigger: Trigger) -> dict[str, Finding]:
    """The finding that just meets the trigger's measure."""
    measure = str(trigger.measure)
    if trigger.any_of:
        return {measure: ClassFinding(measure, trigger.any_of[0], "", "")}
    level = trigger.at_least if trigger.at_least is not None else trigger.at_most
    assert level is not None
    return {measure: NumberFinding(measure, Band(level, level, level), "", "")}


@pytest.mark.parametrize(("caution", "trigger"), SET_OFF)
def test_every_trigger_of_a_caution_sets_it_off(caution: str, trigger: Trigger) -> None:
    consultation, faults = asked(""), ()
    if trigger.descriptor:
        consultation = asked(rule_base().descriptors[trigger.descriptor].phrasings[0])
    elif trigger.cause:
        faults = (blaming(trigger.cause, SUSPECT_FROM),)
    elif trigger.salt:
        consultation = asked("", f"salts: [{{salt: {trigger.salt}}}]")
    else:
        only = rule_base().cautions[caution].only[:1]
        found = {key: one for needed in (trigger, *only) for key, one in found_for(needed).items()}
        known = replace(consultation.known, findings=found)
        consultation = replace(consultation, known=known)
    assert text_of(caution) in texts(cautions_for(rule_base(), consultation, faults))


NAMED = [
    (cause.id, caution)
    for cause in rule_base().causes.values()
    for caution in cause.cautions
    if rule_base().cautions[caution].level != "stop"
]


@pytest.mark.parametrize(("cause", "caution"), NAMED)
@pytest.mark.parametrize(
    ("responsible", "cautioned"), [(SUSPECT_FROM, True), (SUSPECT_FROM - 0.01, False)]
)
def test_a_suspect_brings_the_cautions_of_its_card_once_it_is_likely_enough(
    cause: str, caution: str, responsible: float, cautioned: bool
) -> None:
    found = cautions_for(rule_base(), asked(""), (blaming(cause, responsible),))
    assert (text_of(caution) in texts(found)) == cautioned


@pytest.mark.parametrize("card", rule_base().cautions.values(), ids=lambda card: card.id)
def test_a_caution_to_stop_waits_for_no_ranking(card: Caution) -> None:
    if card.level == "stop" and card.id not in {"copper_smell_only"}:
        assert card.when
