"""Entries that cannot be read or be true: file, line, key, what was found, what is wanted."""

import pytest

from tests.batch.written import batch_of, faults_of

# Source of the table: the list of bad input, and slips of common practice, no source.
REFUSED = [
    (
        "style: bitter\nfermentation:\n  temperature: 68 C\n",
        "batch.yaml:3: fermentation.temperature: found 68 C; "
        "wanted between -2 and 45 C here; did you mean 68 F (20 C)?",
    ),
    (
        "fermentation:\n  temperature: 68\n",
        "batch.yaml:2: fermentation.temperature: found '68'; "
        "wanted the unit beside it: 68 could be 68 C or 68 F (20 C)",
    ),
    (
        "volume: 5 gal\n",
        "batch.yaml:1: volume: found '5 gal'; wanted US or imperial beside it: "
        "5 gal could be 5 US gal (18.9 L) or 5 imp gal (22.7 L)",
    ),
    (
        "gravity:\n  original: 1.050\n  final: 1.060\n",
        "batch.yaml:3: gravity.final: found 1.060; "
        "wanted a final gravity below the original (1.050)",
    ),
    (
        "gravity:\n  original: 1.050\n  forced_final: 1.060\n",
        "batch.yaml:3: gravity.forced_final: found 1.060; "
        "wanted a final gravity below the original (1.050)",
    ),
    (
        "packaging:\n  size: 500 mL\n  headspace: 700 mL\n",
        "batch.yaml:3: packaging.headspace: found 700 mL; "
        "wanted less than the package holds (500 mL)",
    ),
    (
        "mash:\n  at: 500 C\n",
        "batch.yaml:2: mash.at: found '500 C'; wanted a temperature between -30 and 150 C",
    ),
    (
        "mash:\n  at: 152 C\n",
        "batch.yaml:2: mash.at: found '152 C'; "
        "wanted a temperature between -30 and 150 C; did you mean 152 F (66.7 C)?",
    ),
    (
        "mash:\n  rests:\n    - at: 66 C\n    - at: 68 F\n",
        "batch.yaml:4: mash.rests[2].at: found 68 F; "
        "wanted between 25 and 101 C here; did you mean 68 C (154.4 F)?",
    ),
    (
        "storage:\n  - at: 90 C\n",
        "batch.yaml:2: storage[1].at: found 90 C; "
        "wanted between -25 and 60 C here; did you mean 90 F (32.2 C)?",
    ),
    (
        "tastings:\n  - words: thin\n  - at: 55 C\n",
        "batch.yaml:3: tastings[2].at: found 55 C; "
        "wanted between -3 and 35 C here; did you mean 55 F (12.8 C)?",
    ),
    (
        "fermentation:\n  steps:\n    - at: 50 C\n",
        "batch.yaml:3: fermentation.steps[1].at: found 50 C; "
        "wanted between -5 and 45 C here; did you mean 50 F (10 C)?",
    ),
    (
        "mash:\n  at: 20 C\n",
        "batch.yaml:2: mash.at: found 20 C; wanted between 30 and 85 C here",
    ),
    (
        "zone: Europe/Lissabon\n",
        "batch.yaml:1: zone: found 'Europe/Lissabon'; wanted an IANA zone such as 'Europe/Lisbon'",
    ),
    (
        "packaging:\n  package: botle\n",
        "batch.yaml:2: packaging.package: found 'botle'; "
        "wanted one of keg, bottle, can, cask ('bottle', perhaps?)",
    ),
    (
        "packaging:\n  package: jug\n",
        "batch.yaml:2: packaging.package: found 'jug'; wanted one of keg, bottle, can, cask",
    ),
    (
        "pitch:\n  nutrient: true\n",
        "batch.yaml:2: pitch.nutrient: found 'true'; wanted one of yes, no",
    ),
    (
        "batch: x\nfermentaton:\n  temperature: 20 C\n",
        "batch.yaml:2: fermentaton: found an unknown key 'fermentaton'; "
        "wanted 'fermentation', perhaps",
    ),
    (
        "tastings:\n  - {taster: Nell, words: butter}\n",
        "batch.yaml:2: tastings[1].taster: found an unknown key 'taster'; "
        "wanted one of at, poured_from, when, who, words",
    ),
    (
        "batch: x\nprobe_log: a.csv\n",
        "batch.yaml:2: probe_log: found an unknown key 'probe_log'; wanted it under 'fermentation'",
    ),
    (
        "recipe:\n  hops:\n    - alfa: 5 %\n",
        "batch.yaml:3: recipe.hops[1].alfa: found an unknown key 'alfa'; wanted 'alpha', perhaps",
    ),
    (
        "zymurgy: yes\n",
        "batch.yaml:1: zymurgy: found an unknown key 'zymurgy'; "
        "wanted a key this kind of file knows",
    ),
    (
        "tastings:\n  - {words: hot, boozy}\n",
        "batch.yaml:2: tastings[1].boozy: found an unknown key 'boozy'; "
        "wanted one of at, poured_from, when, who, words; "
        "inside {} a text with a comma needs quotes, as in {ph: '5,4'}",
    ),
    (
        "mash: {ph: 5,4}\n",
        "batch.yaml:1: mash.4: found an unknown key '4'; "
        "wanted a key; inside {} a text with a comma needs quotes, as in {ph: '5,4'}",
    ),
    (
        "equipment:\n  changes: [{what: new valve, its washer brown}]\n",
        "batch.yaml:2: equipment.changes[1].its washer brown: found an unknown key "
        "'its washer brown'; wanted a key; inside {} a text with a comma needs quotes, "
        "as in {ph: '5,4'}",
    ),
    (
        "boil: 60 min\n",
        "batch.yaml:1: boil: found '60 min'; "
        "wanted a mapping (lines of 'key: value', indented below)",
    ),
    (
        "boil:\n  - time: 60 min\n",
        "batch.yaml:1: boil: found a list; "
        "wanted a mapping (lines of 'key: value', indented below)",
    ),
    (
        "water:\n  source: tap\n",
        "batch.yaml:1: water: found a mapping; "
        "wanted a list (each item on a line that starts with '- ')",
    ),
    (
        "gravity:\n  readings:\n    - 1.050\n",
        "batch.yaml:3: gravity.readings[1]: found '1.050'; "
        "wanted a mapping (lines of 'key: value', indented below)",
    ),
    (
        "fermentation:\n  temperature: [18 C, 20 C]\n",
        "batch.yaml:2: fermentation.temperature: found a list; wanted one entry on this line",
    ),
    (
        "fault:\n  spread:\n    a: b\n",
        "batch.yaml:2: fault.spread: found a mapping; wanted one entry on this line",
    ),
    (
        "boil:\n  time: nan min\n",
        "batch.yaml:2: boil.time: found 'nan min', in which no quantity was recognised; "
        "wanted a duration such as 60 min, 1 h 30 min, 10 days or 14 months",
    ),
    (
        "boil:\n  time: -5 min\n",
        "batch.yaml:2: boil.time: found '-5 min', which is -0.08333 h; "
        "wanted a duration that is not below zero",
    ),
    (
        "boil:\n  time: 60 h\n",
        "batch.yaml:2: boil.time: found 60 h; wanted at most 12 h here",
    ),
    (
        "packaging:\n  size: 0 mL\n",
        "batch.yaml:2: packaging.size: found 0 mL; wanted more than nothing, or 'unknown'",
    ),
    (
        "- style: bitter\n",
        "batch.yaml:1: found a list; wanted a mapping (lines of 'key: value', indented below)",
    ),
    (
        "it tastes of butter\n",
        "batch.yaml:1: found 'it tastes of butter'; "
        "wanted a mapping (lines of 'key: value', indented below)",
    ),
]


@pytest.mark.parametrize(("text", "said"), REFUSED, ids=lambda text: repr(text)[:30])
def test_an_entry_is_refused_in_one_sentence_with_its_line(text: str, said: str) -> None:
    assert faults_of(text) == [said]


def test_several_faults_come_at_once_in_the_order_of_their_lines() -> None:
    text = (
        "volume: 5 gal\n"
        "zone: Mars\n"
        "mash: {at: 200 C}\n"
        "packaging:\n  package: jug\n  size: huge\n"
        "brewd: 2026-01-01\n"
    )
    lines = [int(fault.split(":")[1]) for fault in faults_of(text)]
    assert lines == [1, 2, 3, 5, 6, 7]


def test_several_entries_that_cannot_be_true_come_at_once() -> None:
    text = (
        "gravity: {original: 1.050, final: 1.060}\n"
        "fermentation: {temperature: 68 C}\n"
        "pitch: {when: 2026-05-02}\n"
        "packaging: {when: 2026-05-01}\n"
        "tastings:\n  - when: 2027-01-01\n"
    )
    keys = [fault.split(": ")[1] for fault in faults_of(text)]
    assert keys == [
        "gravity.final",
        "fermentation.temperature",
        "packaging.when",
        "tastings[1].when",
    ]


def test_a_very_long_entry_is_cut_in_the_message() -> None:
    (fault,) = faults_of(f"zone: {'x' * 5000}\n")
    assert len(fault) < 300


# Source of the table: common practice, no source; how people write the words of a list.
WORDS = [
    ("packaging: {package: Bottle}", "bottle"),
    ("packaging: {fill: Counter Pressure}", "counter-pressure"),
    ("cleaning: {rinsed: no_rinse}", "no-rinse"),
    ("pitch: {oxygen: {method: pure-oxygen}}", "pure oxygen"),
]


@pytest.mark.parametrize(("text", "word"), WORDS)
def test_case_hyphens_and_underscores_do_not_matter(text: str, word: str) -> None:
    assert f"={word!r}" in repr(batch_of(text).record)
