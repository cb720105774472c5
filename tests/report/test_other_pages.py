"""The pages of the smaller commands: they fit, and they leave nothing out."""

import pytest

from diagnose.answers import CaseScore, FaultLine, RuleCheck, ScoreAnswer
from diagnose.consult import (
    check_batch,
    describe_probe,
    explain_card,
    list_cards,
    show_batch,
    words_answer,
)
from diagnose.flavour import understand
from diagnose.report import (
    print_batch,
    print_batch_check,
    print_card,
    print_card_list,
    print_probe,
    print_rule_check,
    print_score,
    print_words,
)
from tests.casebook.replayed import consultation_of
from tests.knowledge.shipped import case_ids, rule_base
from tests.report.printed import printed, printed_in_ascii, widest, words_of

COLUMNS = 80
CARDS = sorted({card_id for _, card_id in rule_base().places})
LOGGED = [one for one in case_ids() if consultation_of(one).log is not None]
every_case = pytest.mark.parametrize("case_id", case_ids())


def told(page: str) -> str:
    return " ".join(words_of(page))


@pytest.mark.parametrize("card_id", CARDS)
def test_every_card_fits_and_is_named(card_id: str) -> None:
    answer = explain_card(rule_base(), card_id)
    page = printed(lambda console: print_card(console, answer), COLUMNS)
    assert widest(page) <= COLUMNS
    assert " ".join(answer.name.split()) in told(page)


@every_case
def test_every_measure_and_entry_of_a_batch_is_on_its_page(case_id: str) -> None:
    answer = show_batch(rule_base(), consultation_of(case_id))
    page = printed(lambda console: print_batch(console, answer), COLUMNS)
    assert widest(page) <= COLUMNS
    assert all(" ".join(f"{one.name}:".split()) in told(page) for one in answer.measures)
    assert all(f"{entry.key}:" in page for entry in answer.entries)


@every_case
def test_a_checked_batch_says_how_many_entries_were_read(case_id: str) -> None:
    answer = check_batch(rule_base(), consultation_of(case_id))
    page = printed(lambda console: print_batch_check(console, answer), COLUMNS)
    assert f"{answer.entries} entries read" in told(page)
    assert widest(page) <= COLUMNS


@pytest.mark.parametrize("case_id", LOGGED)
def test_a_probe_log_s_page_fits_and_names_every_column(case_id: str) -> None:
    log = consultation_of(case_id).log
    assert log is not None
    answer = describe_probe(log)
    page = printed(lambda console: print_probe(console, answer), COLUMNS)
    assert widest(page) <= COLUMNS
    assert all(series.role in page for series in answer.series)
    assert answer.sha256 in page


# Source of the table: common practice, no source; as people write a tasting note.
@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("hint of butter, not sour", ["butter (faint)", "sour milk (not there)"]),
        ("frobnicated", ["not understood: 'frobnicated'"]),
        ("the", ["no flavour words in it"]),
        ("clean and crisp", ["praise, no fault: 'clean', 'crisp'"]),
        ("sour", ["Which of these is it?"]),
        ("butter, every bottle", ["spread: every package", "Easily taken for one another"]),
    ],
)
def test_words_come_back_as_they_were_understood(words: str, wanted: list[str]) -> None:
    lexicon = rule_base().lexicon
    answer = words_answer(lexicon, understand(words, lexicon))
    page = printed(lambda console: print_words(console, answer), COLUMNS)
    assert all(part in page for part in wanted), page
    assert widest(page) <= COLUMNS


def test_a_list_of_cards_has_one_line_for_each() -> None:
    answer = list_cards(rule_base(), "causes")
    lines = printed(lambda console: print_card_list(console, answer), COLUMNS).splitlines()
    assert [line.split()[0] for line in lines[: len(answer.cards)]] == list(rule_base().causes)


def test_a_list_of_cards_works_in_plain_signs() -> None:
    answer = list_cards(rule_base(), None)
    assert answer.version in printed_in_ascii(lambda console: print_card_list(console, answer))


def test_a_checked_rule_base_names_every_fault_with_its_place() -> None:
    fault = FaultLine(file="rules/x.yaml", line=3, key="id", found="a", wanted="b")
    answer = RuleCheck(cards={"causes": 1}, faults=(fault,))
    page = printed(lambda console: print_rule_check(console, answer), COLUMNS)
    assert page == "rules/x.yaml:3: id: found a; wanted b\n1 causes: 1 faults\n"


def test_a_sound_rule_base_says_so() -> None:
    answer = RuleCheck(cards={"causes": 36}, faults=())
    page = printed(lambda console: print_rule_check(console, answer), COLUMNS)
    assert page == "36 causes: no faults\n"


def test_a_score_says_which_case_fails_and_why() -> None:
    failed = CaseScore(
        case="one",
        first="hop_creep",
        wanted=("overprimed",),
        place=2,
        probability=0.25,
        verdict="close",
        holds=False,
        why="wanted overprimed first, found hop_creep",
    )
    answer = ScoreAnswer(cases=(failed,), top_1=0.0, top_3=1.0, mean_log_loss=1.39, all_hold=False)
    page = printed(lambda console: print_score(console, answer), COLUMNS)
    assert "FAILS one: hop_creep (25 %, close)" in page
    assert "why: wanted overprimed first, found hop_creep" in page
    assert "first in 0%, in the first three in 100%, mean log loss 1.39" in page
