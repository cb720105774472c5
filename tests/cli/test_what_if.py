"""`diagnose --suppose` and `--without`: what is understood, refused, and left alone."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import Faultwort, written

BATCH = """\
batch: tansy's blond
brewed: 2026-05-16
zone: Europe/Lisbon
style: blond ale
volume: 20 L
recipe:
  hops:
    - {form: pellet, amount: 35 g, alpha: 4.5 %, use: boil, boiled: 60 min}
    - {form: pellet, amount: 20 g, use: dry hop, steeped: 3 days}
mash: {at: 66 C, time: 60 min, ph: 5.9}
sparge: {kind: fly, at: 82 C, ph: 6.3}
boil: {time: 70 min, lid: off}
pitch: {at: 18 C, yeast: {family: clean ale, form: dry, amount: 11 g}}
gravity: {original: 1.044, final: 1.009}
fermentation:
  lag: 10 h
  steps:
    - {since: 2026-05-16, at: 18 C}
packaging: {when: 2026-05-31, package: bottle}
fault: {course: grows}
tastings:
  - {when: 2026-06-20, who: Wren, words: "tannic, butter"}
"""


@pytest.fixture
def batch(tmp_path: Path) -> Path:
    return written(tmp_path, BATCH)


def what_if(faultwort: Faultwort, batch: Path, *typed: object) -> dict[str, Any]:
    outcome = faultwort("diagnose", batch, "--json", *typed)
    assert (outcome.code, outcome.err) == (0, "")
    return dict(outcome.json["what_if"])


# Source of the table: how a brewer would say it, and the record's schema.
@pytest.mark.parametrize(
    ("typed", "supposed"),
    [
        ("storage at 4 C", "storage.at: 4 C"),
        ("mash.at=70 C", "mash.at: 70 C"),
        ("no butter", "no butter"),
    ],
)
def test_a_supposition_is_understood_as(
    faultwort: Faultwort, batch: Path, typed: str, supposed: str
) -> None:
    assert what_if(faultwort, batch, "--suppose", typed)["supposed"] == [supposed]


# Source of the table: a phrase that names no entry, several, or what no record may hold.
@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("kegged", "perhaps packaging.when or packaging.package"),
        ("lid on", "one of boil.lid, hot_stand.lid"),
        ("mash.at=66", "66 could be 66 C or 66 F"),
    ],
)
def test_what_is_not_understood_is_refused_in_one_sentence_with_the_nearest_entries(
    faultwort: Faultwort, batch: Path, typed: str, said: str
) -> None:
    outcome = faultwort("diagnose", batch, "--suppose", typed)
    assert (outcome.code, outcome.out, len(outcome.err.splitlines())) == (2, "", 1)
    assert outcome.err.startswith("faultwort: --suppose")
    assert said in outcome.err


# Source of the table: keys of the evidence as --json prints them, and entries as typed.
@pytest.mark.parametrize(
    "key", ["mash_ph", "mash.ph", "sparge", "recipe.hops[2]", "course", "fault.course", "butter"]
)
def test_what_is_left_out_is_said(faultwort: Faultwort, batch: Path, key: str) -> None:
    assert what_if(faultwort, batch, "--without", key)["without"] == [key]


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("storage.at", "an entry that the record has"),
        ("mash.pH", "perhaps mash.ph"),
        ("recipe.hops[3]", "perhaps recipe.hops[2]"),
        ("", "an entry that the record has"),
    ],
)
def test_what_is_not_there_cannot_be_left_out(
    faultwort: Faultwort, batch: Path, key: str, said: str
) -> None:
    outcome = faultwort("diagnose", batch, "--without", key)
    assert (outcome.code, outcome.out, len(outcome.err.splitlines())) == (2, "", 1)
    assert said in outcome.err


@pytest.mark.parametrize(
    "typed", [("--suppose", "mash.ph=5.2"), ("--without", "tastings"), ("--suppose", "nonsense")]
)
def test_the_record_is_never_changed(
    faultwort: Faultwort, batch: Path, typed: tuple[str, str]
) -> None:
    faultwort("diagnose", batch, *typed)
    assert batch.read_text("utf-8") == BATCH
    assert list(batch.parent.iterdir()) == [batch]


def chances(group: dict[str, Any]) -> dict[str, float]:
    causes = {cause["id"]: cause["responsible"] for cause in group["causes"]}
    return causes | {key: group[key] for key in ("expected_here", "not_in_rule_base")}


def changed_chances(group: dict[str, Any], key: str) -> dict[str, float]:
    others = [group["expected_here"], group["not_in_rule_base"]]
    return {one["id"]: one[key] for one in (*group["causes"], *others)}


def edited(batch: Path, old: str, new: str) -> Path:
    assert old in BATCH
    return written(batch.parent, BATCH.replace(old, new), "edited.yaml")


# Source of the table: each supposition written into the record by hand.
@pytest.mark.parametrize(
    ("typed", "old", "new"),
    [
        (("--suppose", "mash.ph=5.3"), "ph: 5.9", "ph: 5.3"),
        (("--suppose", "boiled 20 min"), "boil: {time: 70 min", "boil: {time: 20 min"),
        (("--suppose", "course=fades"), "course: grows", "course: fades"),
        (("--suppose", "no butter"), "tannic, butter", "tannic, no butter"),
        (("--suppose", "cardboard"), "tannic, butter", "tannic, butter, cardboard"),
        (("--without", "mash.ph"), ", ph: 5.9", ""),
        (("--without", "butter"), ", butter", ""),
        (("--without", "sparge"), "sparge: {kind: fly, at: 82 C, ph: 6.3}\n", ""),
        (("--without", "course"), "fault: {course: grows}\n", ""),
    ],
)
def test_supposing_is_worth_as_much_as_writing_it_down(
    faultwort: Faultwort, batch: Path, typed: tuple[str, str], old: str, new: str
) -> None:
    supposed = what_if(faultwort, batch, *typed)
    wanted = faultwort("diagnose", edited(batch, old, new), "--json").json
    groups = {tuple(sorted(one["descriptors"])): one for one in wanted["faults"]}
    assert supposed["verdict_text"] == wanted["verdict_text"]
    assert len(groups) == len(supposed["faults"])
    for group in supposed["faults"]:
        as_written = chances(groups[tuple(sorted(group["descriptors"]))])
        told = changed_chances(group, "responsible")
        both = as_written.keys() & told.keys()
        assert len(both) > 5
        assert {key: told[key] for key in both} == pytest.approx(
            {key: as_written[key] for key in both}, abs=1e-9
        )


def test_the_first_column_is_the_ranking_as_recorded(faultwort: Faultwort, batch: Path) -> None:
    diagnosis = faultwort("diagnose", batch, "--json", "--suppose", "mash.ph=5.2").json
    for recorded, supposed in zip(diagnosis["faults"], diagnosis["what_if"]["faults"], strict=True):
        was = changed_chances(supposed, "was")
        told = {key: chance for key, chance in chances(recorded).items() if key in was}
        assert {key: was[key] for key in told} == pytest.approx(told, abs=1e-9)


def test_everything_else_is_told_of_the_record_as_it_is(faultwort: Faultwort, batch: Path) -> None:
    plain = faultwort("diagnose", batch, "--json").json
    supposed = faultwort("diagnose", batch, "--json", "--suppose", "mash.ph=5.2").json
    assert plain.pop("what_if") is None
    assert supposed.pop("what_if") is not None
    assert json.dumps(plain) == json.dumps(supposed)


def test_several_suppositions_are_taken_together(faultwort: Faultwort, batch: Path) -> None:
    typed = ("--suppose", "boiled 20 min", "--suppose", "no butter", "--without", "sparge")
    told = what_if(faultwort, batch, *typed)
    assert told["supposed"] == ["boil.time: 20 min", "no butter"]
    assert told["without"] == ["sparge"]


def test_what_gives_way_is_said(faultwort: Faultwort, batch: Path) -> None:
    told = what_if(faultwort, batch, "--suppose", "fermented at 28 C")
    assert told["set_aside"] == ["fermentation.steps"]


def test_a_supposition_brings_its_own_cautions(faultwort: Faultwort, batch: Path) -> None:
    typed = ("--suppose", "packaging.sugar_amount: 400 g", "--suppose", "packaging.sugar=glucose")
    told = what_if(faultwort, batch, *typed)
    assert {one["level"] for one in told["cautions"]} & {"stop", "warn"}


def test_without_a_word_nothing_is_left_to_explain(faultwort: Faultwort, batch: Path) -> None:
    told = what_if(faultwort, batch, "--without", "tastings")
    assert (told["faults"], told["verdict"]) == ([], "open")


def test_the_page_puts_both_in_columns_and_says_what_comes_of_it(
    faultwort: Faultwort, batch: Path
) -> None:
    page = faultwort("diagnose", batch, "--suppose", "mash.ph=5.2").out
    for words in (
        "supposed: mash.ph: 5.2",
        "recorded   supposed   change",
        "As recorded:",
        "Then:",
    ):
        assert words in page
    assert "The record's file stays as it is." in page
    assert "Find out next" not in page
    # A path is as long as it is.
    assert max(len(line) for line in page.splitlines() if str(batch) not in line) <= 80


def test_a_page_on_which_nothing_moves_says_so_in_place_of_columns(
    faultwort: Faultwort, batch: Path
) -> None:
    page = faultwort("diagnose", batch, "--suppose", "pitched at 18 C").out
    assert "nothing moves by as much as one in a hundred" in page
    assert "change" not in page


def test_the_written_page_holds_both_too(faultwort: Faultwort, batch: Path, tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    assert faultwort("diagnose", batch, "--suppose", "mash.ph=5.2", "--html", page).code == 0
    html = page.read_text("utf-8")
    assert "supposed: mash.ph: 5.2" in html
    assert "Recorded" in html


def test_what_was_recorded_in_the_place_is_named(faultwort: Faultwort, batch: Path) -> None:
    typed = ("--suppose", "recipe.hops.amount=90 g", "--suppose", "no butter")
    told = what_if(faultwort, batch, *typed, "--suppose", "course=fades")
    assert told["replaced"] == [
        "recipe.hops[1].amount: 35 g",
        "recipe.hops[2].amount: 20 g",
        "fault.course: grows",
        "butter",
    ]


def test_where_only_what_happened_moves_the_page_says_that(
    faultwort: Faultwort, batch: Path
) -> None:
    batch = edited(batch, "tannic, butter", "butter")
    told = what_if(faultwort, batch, "--suppose", "fermented at 28 C")
    (hot,) = (one for one in told["happened"] if one["id"] == "hot_early_fermentation")
    assert hot["happened"] > hot["was"] + 0.1
    page = faultwort("diagnose", batch, "--suppose", "fermented at 28 C").out
    assert "What may have happened" in page
    assert "nothing moves" not in page


def test_the_happenings_are_those_of_the_record_written_so(
    faultwort: Faultwort, batch: Path
) -> None:
    told = what_if(faultwort, batch, "--suppose", "mash.ph=5.3")["happened"]
    written_so = faultwort("diagnose", edited(batch, "ph: 5.9", "ph: 5.3"), "--json").json
    as_written = {c["id"]: c["happened"] for g in written_so["faults"] for c in g["causes"]}
    both = {one["id"]: one["happened"] for one in told if one["id"] in as_written}
    assert both
    assert both == pytest.approx({key: as_written[key] for key in both}, abs=1e-9)


def test_a_band_is_drawn_on_both_columns(faultwort: Faultwort, batch: Path) -> None:
    typed = ("--suppose", "mash.ph=5.2", "--band")
    for group in what_if(faultwort, batch, *typed)["faults"]:
        first = group["causes"][0]
        for chance, held in (("was", "was_range"), ("responsible", "responsible_range")):
            assert first[held]["low"] <= first[chance] <= first[held]["high"]
    page = faultwort("diagnose", batch, *typed).out
    assert "8 of 10 redraws" in page
    # A path is as long as it is.
    assert max(len(line) for line in page.splitlines() if str(batch) not in line) <= 80


def test_a_caution_of_what_is_supposed_comes_before_the_rest_of_it(
    faultwort: Faultwort, batch: Path
) -> None:
    typed = ("--suppose", "packaging.sugar_amount: 400 g", "--suppose", "packaging.sugar=glucose")
    page = faultwort("diagnose", batch, *typed).out
    _, after = page.split("What if", 1)
    before, _ = after.split("supposed:", 1)
    assert "STOP" in before or "TAKE CARE" in before


def test_no_verdict_points_to_what_the_page_does_not_hold(
    faultwort: Faultwort, batch: Path
) -> None:
    page = faultwort("diagnose", "--taste", "odd", "--suppose", "stale").out
    assert "below" not in page


def test_the_written_page_tells_the_recorded_verdict_from_the_supposed(
    faultwort: Faultwort, batch: Path, tmp_path: Path
) -> None:
    page = tmp_path / "page.html"
    faultwort("diagnose", batch, "--suppose", "mash.ph=5.2", "--html", page)
    html = page.read_text("utf-8")
    assert "<h2>Verdict on the batch as recorded</h2>" in html
    _, supposed = html.split('<div id="what_if">')
    first, *_ = supposed.split("</section>")
    assert first.count("<h2>") == 1
    assert "<h3>Behind" in first
