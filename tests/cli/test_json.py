"""`--json` of every command: one JSON document on stdout, with the keys the contract promises."""

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from diagnose.batch.schema import PUBLISHED
from tests.cli.running import CASES, NAMES, Faultwort, Outcome, written

# Six cases spread over the alphabet of the shipped ones.
LESSONS = [case for case in CASES if case.parent.name != "field"]
SIX = LESSONS[:: max(1, len(LESSONS) // 6)][:6]
TWO_WORDS = "hint of butter, wet cardboard, no sourness, glorpish"

# Source of the table: the contract, the schema of each command.
COMMANDS = [
    (("demo",), "demo"),
    (("diagnose", "--taste", TWO_WORDS), "diagnose"),
    (("ask", "{case}"), "ask"),
    (("taste", TWO_WORDS), "taste"),
    (("explain", "diacetyl"), "explain"),
    (("explain", "butter"), "explain"),
    (("explain", "warm_storage"), "explain"),
    (("explain", "warm_hold_butter_test"), "explain"),
    (("explain", "trade_judgement"), "explain"),
    (("batch", "check", "{record}"), "batch-check"),
    (("batch", "show", "{case}"), "batch-show"),
    (("probe", "{log}"), "probe"),
    (("rules", "check"), "rules-check"),
    (("rules", "list"), "rules-list"),
    (("rules", "list", "causes"), "rules-list"),
    (("rules", "sheet", "diacetyl"), "rules-sheet"),
    (("rules", "score", "{case}"), "rules-score"),
]


def places(folder: Path) -> dict[str, Path]:
    log = written(folder, "time,temp (C)\n2026-05-01 10:00,18\n2026-05-01 11:00,19\n", "log.csv")
    return {"case": CASES[0], "record": written(folder, "style: bitter\n"), "log": log}


@pytest.mark.parametrize(
    ("typed", "command"), COMMANDS, ids=[" ".join(t)[:30] for t, _ in COMMANDS]
)
def test_every_command_prints_one_json_document_with_its_schema(
    faultwort: Faultwort, tmp_path: Path, typed: tuple[str, ...], command: str
) -> None:
    outcome = faultwort(*(part.format(**places(tmp_path)) for part in typed), "--json")
    assert (outcome.code in (0, 1), outcome.err) == (True, "")
    assert outcome.json["schema"] == f"faultwort/{command}/1"


def test_the_network_is_exported_as_one_json_document(faultwort: Faultwort) -> None:
    answer = faultwort("rules", "export", "--format", "json").json
    assert answer["schema"] == "faultwort/rules-export/1"


def test_the_schema_of_records_is_printed_as_it_is_published(faultwort: Faultwort) -> None:
    assert faultwort("batch", "schema").out == PUBLISHED.read_text("utf-8")


# The contract's keys of `diagnose --json`. A list holds what each of its items is; a tuple what a
# value may be; a share is a number in [0, 1].
SHARE, NUMBER, TEXT = "share", "number", "text"
LEVELS, VERDICTS = (
    ("stop", "warn", "note"),
    ("separated", "close", "open", "two_faults", "expected"),
)
EVIDENCE = {"kind": TEXT, "key": TEXT, "text": TEXT, "decibans": NUMBER, "source": TEXT}
CAUSE = {
    **{"id": TEXT, "name": TEXT, "stage": TEXT},
    **{"responsible": SHARE, "happened": SHARE, "base_rate": SHARE},
    **{"evidence": [EVIDENCE], "paths": [[TEXT]]},
    **{"now": [TEXT], "next_time": [TEXT], "overturned_by": [TEXT]},
}
CONTRACT = {
    "batch": TEXT,
    "rules": {"version": TEXT, "causes": NUMBER, "compounds": NUMBER, "descriptors": NUMBER},
    "understood": [
        {
            "said": TEXT,
            "descriptor": TEXT,
            "state": ("reported", "absent"),
            "intensity": (None, "faint", "clear", "strong"),
        }
    ],
    "not_understood": [TEXT],
    "faults": [
        {
            "descriptors": [TEXT],
            "causes": [CAUSE],
            "expected_here": SHARE,
            "not_in_rule_base": SHARE,
        }
    ],
    "compounds": [
        {
            "id": TEXT,
            "probability": SHARE,
            "predicted": {"low": NUMBER, "mid": NUMBER, "high": NUMBER, "unit": TEXT},
            "noticed_from": {},
        }
    ],
    "next": [
        {
            "id": TEXT,
            "kind": ("question", "entry", "check"),
            "text": TEXT,
            "gain_bits": NUMBER,
            "minutes": NUMBER,
        }
    ],
    "cautions": [{"level": LEVELS, "text": TEXT}],
    "verdict": VERDICTS,
}
MAY_BE_NULL = ("predicted", "noticed_from")


def breaches(value: Any, wanted: Any, path: str = "$") -> list[str]:
    """Where `value` is not what the contract says."""
    if isinstance(wanted, dict):
        return _of_mapping(value, wanted, path)
    if isinstance(wanted, list):
        if not isinstance(value, list):
            return [f"{path}: no list"]
        return [b for i, one in enumerate(value) for b in breaches(one, wanted[0], f"{path}[{i}]")]
    if isinstance(wanted, tuple):
        return [] if value in wanted else [f"{path}: {value!r}"]
    fits = isinstance(value, str) if wanted == TEXT else isinstance(value, int | float)
    fits = fits and (wanted != SHARE or 0 <= value <= 1)
    return [] if fits else [f"{path}: {value!r}"]


def _of_mapping(value: Any, wanted: dict[str, Any], path: str) -> list[str]:
    if value is None and path.endswith(MAY_BE_NULL):
        return []
    missing = [f"{path}.{key}: missing" for key in wanted if key not in value]
    known = [key for key in wanted if key in value]
    return [*missing, *(b for k in known for b in breaches(value[k], wanted[k], f"{path}.{k}"))]


@pytest.fixture(scope="module")
def kept() -> dict[Path, Outcome]:
    """Diagnoses of the six cases, made once."""
    return {}


@pytest.fixture(params=SIX, ids=[case.name for case in SIX])
def diagnosed(
    request: pytest.FixtureRequest, faultwort: Faultwort, kept: dict[Path, Outcome]
) -> Outcome:
    case = request.param
    return kept.setdefault(case, kept.get(case) or faultwort("diagnose", case, "--json"))


def test_a_diagnosis_has_every_key_of_the_contract(diagnosed: Outcome) -> None:
    assert diagnosed.code == 0
    assert diagnosed.json["faults"]
    assert breaches(diagnosed.json, CONTRACT) == []


def test_the_parts_of_a_diagnosis_agree_with_one_another(diagnosed: Outcome) -> None:
    answer = diagnosed.json
    compounds = {compound["id"] for compound in answer["compounds"]}
    reported = {one["descriptor"] for one in answer["understood"] if one["state"] == "reported"}
    grouped = [word for group in answer["faults"] for word in group["descriptors"]]
    paths = [p for g in answer["faults"] for cause in g["causes"] for p in cause["paths"]]
    assert sorted(grouped) == sorted(reported)
    assert {compound for _, compound, _ in paths} <= compounds


def test_suspects_stand_in_the_order_of_their_responsibility(diagnosed: Outcome) -> None:
    for group in diagnosed.json["faults"]:
        ranked = [cause["responsible"] for cause in group["causes"]]
        assert all(one >= other for one, other in pairwise(ranked))


def test_nobody_is_more_responsible_than_likely_to_have_happened(diagnosed: Outcome) -> None:
    for group in diagnosed.json["faults"]:
        assert all(c["responsible"] <= c["happened"] + 1e-9 for c in group["causes"])


def test_every_next_step_is_worth_something_and_takes_time(diagnosed: Outcome) -> None:
    steps = diagnosed.json["next"]
    assert all(step["gain_bits"] > 0 and step["minutes"] > 0 for step in steps)


def test_the_same_question_has_the_same_answer_each_time(faultwort: Faultwort) -> None:
    typed = ("diagnose", CASES[3], "--taste", TWO_WORDS, "--json")
    assert faultwort(*typed).out == faultwort(*typed).out


def test_a_record_in_json_gives_the_same_answer_as_in_yaml(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    data = {"batch": "x", "style": "bitter", "mash": {"at": "66 C", "ph": 5.4}}
    as_json = written(tmp_path, json.dumps(data), "a.json")
    as_yaml = written(tmp_path, "batch: x\nstyle: bitter\nmash:\n  at: 66 C\n  ph: 5.4\n", "b.yaml")
    one, other = (
        faultwort("diagnose", p, "--taste", "husky", "--json") for p in (as_json, as_yaml)
    )
    assert one.out == other.out


def test_words_on_the_command_line_stand_in_for_those_of_the_record(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    path = written(tmp_path, "tastings: [{words: skunk}]\n")
    said = [
        faultwort("diagnose", path, *more, "--json").json for more in ((), ("--taste", "butter"))
    ]
    assert [one["understood"][0]["descriptor"] for one in said] == ["skunk", "butter"]


@pytest.mark.parametrize("name", NAMES)
def test_every_case_folder_can_be_checked(faultwort: Faultwort, name: str) -> None:
    folder = next(case for case in CASES if case.name == name)
    outcome = faultwort("batch", "check", folder, "--json")
    assert (outcome.code in (0, 1), outcome.err) == (True, "")
