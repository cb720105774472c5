"""The verdict on faults made by hand: one word for scripts, one sentence for the brewer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.answers import (
    EvidenceLine,
    FamilyShare,
    FaultGroup,
    OneForAll,
    RankedCause,
    Separating,
    lower_first,
)
from diagnose.consult.verdict import OPEN_BELOW, SURE_FROM, TIMES_LIKELIER, verdict_of
from tests.knowledge.shipped import rule_base

WORD = EvidenceLine(kind="word", key="butter", text="butter", decibans=1.0, source="", own=True)
LOGGED = EvidenceLine(
    kind="measure", key="mash_c", text="mashed", decibans=1.0, source="mebak", own=True
)


def suspect(cause: str, responsible: float, line: EvidenceLine = LOGGED) -> RankedCause:
    card = rule_base().causes[cause]
    return RankedCause(
        id=cause,
        name=card.name,
        stage=card.stage,
        responsible=responsible,
        happened=responsible,
        base_rate=card.base_rate.value,
        evidence=(line,),
        together_decibans=0.0,
        paths=(),
        now=card.advice(),
        next_time=card.next_time,
        overturned_by=(),
        wrong_to_blame=card.wrong_to_blame,
    )


def fault(
    first: float,
    second: float,
    *,
    here: float = 0.0,
    unknown: float = 0.0,
    family: float = 0.0,
    word: str = "butter",
    suspects: tuple[str, str] = ("diacetyl_left_at_packaging", "hop_creep"),
) -> FaultGroup:
    """A fault with two suspects; early packaging first, hop creep second, unless told."""
    return FaultGroup(
        descriptors=(word,),
        names=(word,),
        causes=(suspect(suspects[0], first), suspect(suspects[1], second)),
        families=(FamilyShare(id="yeast", name="Yeast", responsible=family),) if family else (),
        expected_here=here,
        not_in_rule_base=unknown,
    )


def one_for_all(probability: float) -> tuple[OneForAll, ...]:
    name = rule_base().causes["hop_creep"].name
    return (OneForAll(id="hop_creep", name=name, probability=probability),)


FIZZY = rule_base().descriptors["gassy"].name
PLAIN = fault(0.8, 0.1)
GASSY = fault(0.8, 0.1, word="gassy", suspects=("hop_creep", "diacetyl_left_at_packaging"))
BOTH_OF_ONE = (PLAIN, fault(0.6, 0.1, word="gassy"))
CREEP = "Dry hops set fermentation going again"

# Source of the table: the thresholds named at the head of the module, read by hand.
VERDICTS = [
    ("nothing named", (), (), "open"),
    ("one suspect far ahead", (fault(0.60, 0.20),), (), "separated"),
    ("a suspect ahead of a strong second", (fault(0.60, 0.30),), (), "close"),
    ("a suspect ahead but not sure", (fault(0.50, 0.10),), (), "close"),
    ("two that hardly differ", (fault(0.36, 0.35),), (), "close"),
    ("suspects of one likely family", (fault(0.30, 0.28, family=0.60),), (), "close"),
    ("unlikely suspects of one family", (fault(0.15, 0.12, family=0.30),), (), "open"),
    ("likely suspects of one family", (fault(0.15, 0.12, family=0.60),), (), "close"),
    ("suspects that are all unlikely", (fault(0.15, 0.10),), (), "open"),
    ("the unknown ahead of all", (fault(0.40, 0.10, unknown=0.45),), (), "open"),
    ("the unknown just behind", (fault(0.45, 0.10, unknown=0.40),), (), "close"),
    ("a beer that brings it", (fault(0.30, 0.10, here=0.55),), (), "expected"),
    ("a beer that may bring it", (fault(0.05, 0.02, here=0.15),), (), "open"),
    (
        "a beer that brings it less than the suspect",
        (fault(0.60, 0.05, here=0.3),),
        (),
        "separated",
    ),
    ("two faults", (PLAIN, GASSY), (), "two_faults"),
    ("two faults with the same cause in front", BOTH_OF_ONE, (), "close"),
    (
        "two faults and one cause that hardly spans them",
        (PLAIN, GASSY),
        one_for_all(0.3),
        "two_faults",
    ),
    ("two faults of one sure cause", (PLAIN, GASSY), one_for_all(0.7), "separated"),
    ("two faults of one likely cause", (PLAIN, GASSY), one_for_all(0.52), "close"),
    ("a fault and words nobody explains", (PLAIN, fault(0.1, 0.1, word="gassy")), (), "separated"),
    (
        "a fault and what the beer brings",
        (PLAIN, fault(0.1, 0.1, here=0.7, word="banana")),
        (),
        "separated",
    ),
    (
        "two things the beer brings",
        (fault(0.1, 0.1, here=0.7), fault(0.1, 0.1, here=0.6)),
        (),
        "expected",
    ),
]


@pytest.mark.parametrize(
    ("faults", "for_all", "verdict"),
    [row[1:] for row in VERDICTS],
    ids=[row[0].replace(" ", "_") for row in VERDICTS],
)
def test_the_verdict_is(
    faults: tuple[FaultGroup, ...], for_all: tuple[OneForAll, ...], verdict: str
) -> None:
    assert verdict_of(rule_base(), faults, for_all)[0] == verdict


# Source of the table: first principles; what a reader must find in the sentence.
@pytest.mark.parametrize(
    ("faults", "for_all", "words"),
    [
        ((fault(0.60, 0.20),), (), "Packaged before the diacetyl was reduced: likely, 60 %."),
        ((fault(0.60, 0.30),), (), "cannot tell these two apart yet"),
        ((fault(0.45, 0.12),), (), "is not ruled out"),
        ((fault(0.30, 0.28, family=0.60),), (), "Yeast: likely, 60 %. Packaged before"),
        ((fault(0.50, 0.10, family=0.60),), (), "Which one is open; packaged before"),
        ((PLAIN, GASSY), one_for_all(0.7), f"Behind all of it: {CREEP} (likely, 70 %)."),
        ((PLAIN, GASSY), one_for_all(0.52), f"perhaps: {CREEP} (about even, 52 %)."),
        (
            (PLAIN, GASSY),
            (),
            "separate faults: butter (first: packaged before the diacetyl was reduced, 80 %); "
            f"{FIZZY} (first: {lower_first(CREEP)}, 80 %).",
        ),
        (BOTH_OF_ONE, (), f"comes first for each (80 % for butter; 60 % for {FIZZY})"),
        ((PLAIN, fault(0.1, 0.1, word="gassy")), (), f"Unexplained: {FIZZY}."),
        (
            (PLAIN, fault(0.1, 0.1, here=0.7, word="banana")),
            (),
            "The beer brings banana by itself.",
        ),
        ((fault(0.30, 0.10, here=0.55),), (), "a fault only if"),
        ((fault(0.15, 0.10),), (), "Nothing known here explains it well"),
    ],
)
def test_the_sentence_says(
    faults: tuple[FaultGroup, ...], for_all: tuple[OneForAll, ...], words: str
) -> None:
    assert words in verdict_of(rule_base(), faults, for_all)[1]


def test_an_open_verdict_on_words_alone_says_that_the_words_do_not_settle_it() -> None:
    group = fault(0.15, 0.10)
    first = suspect("hop_creep", 0.15, WORD)
    told = group.model_copy(update={"causes": (first, group.causes[1])})
    assert "The words alone do not settle it" in verdict_of(rule_base(), (told,))[1]


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_separated_means_sure_and_well_ahead(
    one: float, other: float, here: float, unknown: float
) -> None:
    second, first = sorted((one, other))
    group = fault(first, second, here=here, unknown=unknown)
    if verdict_of(rule_base(), (group,))[0] == "separated":
        assert first >= max(SURE_FROM, TIMES_LIKELIER * second, here, unknown)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_verdict_that_names_a_cause_or_the_beer_is_no_guess(
    one: float, other: float, here: float, unknown: float
) -> None:
    second, first = sorted((one, other))
    verdict, _ = verdict_of(rule_base(), (fault(first, second, here=here, unknown=unknown),))
    assert (verdict == "open") == (max(first, here) < max(OPEN_BELOW, unknown))


APART = Separating(text="Is it colder?", gain_bits=0.4, open_bits=0.9)
SETTLING = Separating(text="Is it colder?", gain_bits=0.6, open_bits=0.9)
SHARED = (*one_for_all(0.30), OneForAll(id="crash", name="Crashed", probability=0.25))


# Source of the table: what is expected to tell more than half of what is open "would".
@pytest.mark.parametrize(
    ("apart", "said"),
    [
        (SETTLING, "cannot tell these two apart yet. This would: Is it colder?"),
        (APART, "cannot tell these two apart yet. To tell, ask: Is it colder?"),
        (None, "cannot tell these two apart yet, and no one question or check here is likely to."),
    ],
)
def test_two_that_hardly_differ_are_said_to_with_what_would_tell_them_apart(
    apart: Separating | None, said: str
) -> None:
    group = fault(0.36, 0.35).model_copy(update={"told_apart_by": apart})
    assert verdict_of(rule_base(), (group,))[1].endswith(said)
    assert verdict_of(rule_base(), (PLAIN, GASSY), SHARED, apart)[1].endswith(said)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_no_sentence_claims_certainty(first: float, here: float) -> None:
    _, text = verdict_of(rule_base(), (fault(first, 0.0, here=here),))
    assert "100 %" not in text
    assert " 0 %" not in text
