"""Cards and small words that cannot be used say what to mend."""

from collections.abc import Callable
from pathlib import Path
from shutil import copytree

import pytest

from diagnose.errors import UnusableInput
from diagnose.flavour import load_lexicon
from tests.flavour.shipped import RULES

# Source of the table: common practice, no source; mistakes a hand editing a card makes.
Edit = Callable[[str], str]
MISTAKES: list[tuple[str, Edit, str]] = [
    (
        "descriptors/butter.yaml",
        lambda t: t.replace("id: butter\n", "id: buter\n"),
        "butter.yaml:1: id: found 'buter'",
    ),
    ("descriptors/butter.yaml", lambda t: t + "colour: red\n", "an unknown key 'colour'"),
    (
        "descriptors/butter.yaml",
        lambda t: t.replace("phrasings: [butter,", "phrasings: [Butter,"),
        "phrasings[1]",
    ),
    (
        "descriptors/butter.yaml",
        lambda t: t.replace("[butter,", "[butter, the butter,"),
        "'butter' twice",
    ),
    (
        "descriptors/butter.yaml",
        lambda t: t.replace("[butter,", "[butter, papery,"),
        "'papery' on the cards butter, wet_cardboard",
    ),
    (
        "descriptors/butter.yaml",
        lambda t: t.replace("[butter,", "[butter, maybe,"),
        "'maybe' as unsure and on butter",
    ),
    (
        "descriptors/butter.yaml",
        lambda t: t.replace("low: 0.001", "low: 0.4"),
        "wanted low <= value <= high",
    ),
    (
        "descriptors/butter.yaml",
        lambda t: t.replace("basis: judgement", "basis: hearsay"),
        "found 'hearsay'",
    ),
    ("descriptors/butter.yaml", lambda t: t.replace("- id: honey", "- id: hony"), "found 'hony'"),
    ("words.yaml", lambda t: t.replace("negations:", "negation:"), "'negations', perhaps"),
    ("words.yaml", lambda t: t.replace("words: [hint,", "words: [hint, maybe,"), "'maybe'"),
    (
        "words.yaml",
        lambda t: t.replace("said: [cough syrup]", "said: [cough sirup]"),
        "'cough sirup'",
    ),
    (
        "words.yaml",
        lambda t: t.replace("vague: [something_off", "vague: [something_odd"),
        "'something_odd'",
    ),
]


@pytest.mark.parametrize(
    ("file", "edit", "wanted"), MISTAKES, ids=lambda p: p if isinstance(p, str) else ""
)
def test_a_mistake_is_named_with_what_was_found(
    tmp_path: Path, file: str, edit: Edit, wanted: str
) -> None:
    folder = copytree(RULES, tmp_path / "rules")
    path = folder / file
    before = path.read_text("utf-8")
    after = edit(before)
    assert after != before
    path.write_text(after, "utf-8")
    with pytest.raises(UnusableInput) as refusal:
        load_lexicon(folder)
    assert wanted in str(refusal.value)


def test_faults_of_several_cards_are_shown_at_once(tmp_path: Path) -> None:
    folder = copytree(RULES, tmp_path / "rules")
    slips = 0
    for name in ("butter", "honey"):
        path = folder / "descriptors" / f"{name}.yaml"
        card = path.read_text("utf-8")
        slips += card.count("basis: judgement")
        path.write_text(card.replace("basis: judgement", "basis: rumour"), "utf-8")
    with pytest.raises(UnusableInput) as refusal:
        load_lexicon(folder)
    assert len(refusal.value.faults) == slips >= 2
