"""The printable sheets: whole by themselves, safe to show, and silent about the key."""

import re
from html.parser import HTMLParser

import pytest

from diagnose.consult.split_panels import glasses_each, pour
from diagnose.report.sheets import ballots_page, host_page, plan_page, pourer_page
from diagnose.trial.fitting import TESTS_WITH_BALLOTS
from diagnose.trial.safety import alcohol_of, alcohol_words, allergens_in
from tests.trial.arms import TASTERS, asked_of, usual_plan

VOID = {"meta", "br", "hr", "img", "input", "link"}


class Tags(HTMLParser):
    """Every tag with its attributes; open tags that are not closed are kept."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.seen: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.seen.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def sheets(test: str = "triangle", seed: int = 5, **told) -> dict[str, str]:
    poured = pour(usual_plan(), asked_of(test, **told), (seed, "salt"))
    return {
        "plan": plan_page(usual_plan()),
        "ballots": ballots_page(poured.panel),
        "host": host_page(poured.panel, glasses_each(poured.panel)),
        "pourer": pourer_page(poured.panel, poured.vessels),
    }


SHEETS = ("plan", "ballots", "host", "pourer")


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_has_no_script_and_nothing_outside_it(name):
    text = sheets()[name]
    tags = Tags(text)
    assert not {"script", "link", "img", "iframe", "object"} & {tag for tag, _ in tags.seen}
    assert not any(
        key in ("src", "href") or key.startswith("on") for _, attrs in tags.seen for key in attrs
    )
    assert "http" not in text and "@import" not in text and "url(" not in text


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_is_well_formed(name):
    text = sheets()[name]
    assert Tags(text).open == []
    assert text.startswith("<!DOCTYPE html>")
    assert "@page" in text and "@media print" in text and 'name="viewport"' in text


@pytest.mark.parametrize("test", TESTS_WITH_BALLOTS)
@pytest.mark.parametrize("name", ["ballots", "host"])
def test_nothing_of_the_key_or_the_factor_is_on_what_the_table_sees(name, test):
    text = sheets(test)[name]
    shown = re.sub(r"<style>.*?</style>", "", text, flags=re.S).casefold()
    factor = usual_plan().factors[0]
    for secret in (factor.suspect, factor.other, factor.what, factor.name, "vessel", "salt"):
        assert secret.casefold() not in shown


def test_the_arms_may_be_swapped_and_no_ballot_changes():
    poured = pour(usual_plan(), asked_of(), (5, "salt"))
    swapped = pour(usual_plan(), asked_of(arms=("B", "A")), (5, "salt"))
    assert ballots_page(poured.panel) == ballots_page(swapped.panel)
    assert poured.vessels != swapped.vessels


def test_the_pourer_has_every_glass_and_its_vessel():
    poured = pour(usual_plan(), asked_of("duo-trio"), (5, "salt"))
    text = pourer_page(poured.panel, poured.vessels)
    assert all(f"{code} from vessel" in text for code in poured.key.arms)
    assert text.count("open glass from vessel") == len(TASTERS)


@pytest.mark.parametrize(("rounds", "spares"), [(1, 0), (2, 1)])
def test_there_is_one_folded_sheet_for_every_taster_and_round(rounds, spares):
    text = sheets(rounds=rounds, spares=spares)["ballots"]
    count = rounds * (len(TASTERS) + spares)
    assert text.count('<article class="sheet">') == text.count("Fold here") == count


def test_comments_come_after_the_choice():
    for sheet in sheets()["ballots"].split("<article")[1:]:
        assert sheet.index("Which one") < sheet.index("Fold here") < sheet.index("What was it like")


def test_the_host_has_the_hash_and_every_tray():
    poured = pour(usual_plan(), asked_of(), (5, "salt"))
    text = host_page(poured.panel, 2)
    assert poured.panel.commitment in text
    assert all(" ".join(one.codes) in text for one in poured.panel.servings)


@pytest.mark.parametrize(
    "words",
    ["drinking age", "pregnant", "medicine", "does not drive", "spit cup", "mould", "gluten"],
)
def test_the_host_is_told_what_keeps_people_safe(words):
    assert words in sheets()["host"]


def test_what_people_typed_cannot_break_a_sheet():
    plan = usual_plan().model_copy(update={"batch": '<b>& "x"</b>', "contains": ("<i>",)})
    panel = pour(plan, asked_of(), (5, "salt")).panel
    for text in (plan_page(plan), ballots_page(panel), host_page(panel, 2)):
        assert "<b>&" not in text and "<i>" not in text


# Source of the table: the fact sheet's grams for one triangle and one tetrad of 40 ml.
@pytest.mark.parametrize(
    ("glasses", "percent", "grams"), [(3, 3.5, 3.3), (4, 5.0, 6.3), (9, 5.0, 14.2), (12, 8.0, 30.3)]
)
def test_the_alcohol_of_a_session_is_that_of_the_sheet(glasses, percent, grams):
    assert alcohol_of(glasses, percent).grams == pytest.approx(grams, abs=0.06)


# Source: the fact sheet: 10 g are 253 ml of a 5 % beer.
def test_more_than_the_ceiling_is_spat_out():
    many = alcohol_of(9, 5.0)
    assert many.swallow_at_most_ml == pytest.approx(253, abs=1)
    assert "Swallow at most 253 ml" in alcohol_words(many, True)
    assert "Local guidance" in alcohol_words(many, True)


def test_an_unknown_strength_is_said_to_be_taken():
    assert "taken as 5 %" in alcohol_words(alcohol_of(3, 5.0), False)


def test_allergens_are_read_from_the_ingredients_and_gluten_is_always_named():
    found = allergens_in(("pale malt", "Lactose", "hazelnut extract", "campden tablet"))
    assert found[0].startswith("gluten")
    assert {"milk (lactose)", "nuts", "sulphite"} <= set(found)
    assert len(allergens_in(("pale malt",))) == 1
