"""How a supposition is read: in a brewer's words or as an entry, refused with what is near it."""

import pytest

from diagnose.consult.supposing import Supposed, Supposition, suppose
from diagnose.errors import UnusableInput
from tests.consult.asked import asked
from tests.knowledge.shipped import TODAY, rule_base

RECORD = """\
batch: tansy's blond
brewed: 2026-05-16
zone: Europe/Lisbon
recipe:
  hops:
    - {form: pellet, amount: 35 g, alpha: 4.5 %, use: boil, boiled: 60 min}
    - {form: pellet, amount: 20 g, use: dry hop, steeped: 3 days}
fault: {course: grows}
fermentation:
  steps:
    - {since: 2026-05-16, at: 18 C}
"""


def supposed(*typed: str) -> Supposed:
    consultation = asked("butter", RECORD)
    return suppose(rule_base(), consultation, Supposition(typed, (), ("butter",), TODAY))


def refusal(typed: str) -> str:
    with pytest.raises(UnusableInput) as refused:
        supposed(typed)
    return str(refused.value)


# Source of the table: how a brewer would say it, and the record's schema.
@pytest.mark.parametrize(
    ("typed", "taken"),
    [
        ("storage at 4 C", "storage.at: 4 C"),
        ("stored at 40 F", "storage.at: 40 F"),
        ("stored 3 months", "storage.time: 3 months"),
        ("stored dark", "storage.light: dark"),
        ("fermented at 24 C", "fermentation.temperature: 24 C"),
        ("boiled 90 min", "boil.time: 90 min"),
        ("boiled for 90 min", "boil.time: 90 min"),
        ("Mashed at 70 C", "mash.at: 70 C"),
        ("mash temperature 70 C", "mash.at: 70 C"),
        ("mash pH 5.3", "mash.ph: 5.3"),
        ("pitching temperature 26 C", "pitch.at: 26 C"),
        ("pitched at 26 C", "pitch.at: 26 C"),
        ("OG 1.050", "gravity.original: 1.050"),
        ("final gravity 1.016", "gravity.final: 1.016"),
        ("yeast 22 g", "pitch.yeast.amount: 22 g"),
        ("sugar amount 120 g", "packaging.sugar_amount: 120 g"),
        ("crashed to 2 C", "fermentation.crashed_to: 2 C"),
        ("bottled 2026-06-05", "packaging.when: 2026-06-05"),
        ("water sulphate 300 mg/L", "water.sulfate: 300 mg/L"),
        ("mash.at: 70 C", "mash.at: 70 C"),
        ("mash.at=70 C", "mash.at: 70 C"),
        ("recipe.hops[2].amount=90 g", "recipe.hops[2].amount: 90 g"),
        ("fault.course=fades", "fault.course: fades"),
        ("course=fades", "fault.course: fades"),
        ("cardboard", "cardboard (taken as: wet cardboard)"),
        ("no butter", "no butter"),
        ("no sour", "no sour (taken as: not sour or sour milk)"),
        ("gets worse with time", "gets worse with time (taken as: growing with time)"),
    ],
)
def test_a_supposition_is_taken_as(typed: str, taken: str) -> None:
    assert supposed(typed).supposed == (taken,)


# Source of the table: phrases that name no entry, several, or what no record may hold; and the
# words that the one sentence has to say.
@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("zzz", "wanted a flavour word, or an entry of the record with its value"),
        ("", "wanted a flavour word"),
        ("kegged", "perhaps packaging.when or packaging.package"),
        ("stored at 12", "'storage.at: 12' with its unit"),
        ("boiled at 90", "'boil.time: 90' with its unit"),
        ("fermented 2 weeks", "perhaps 'fermentation.lag: 2 weeks'"),
        ("gravity 1.010", "'gravity.original: 1.010' or 'gravity.final: 1.010'"),
        ("dry hopped 100 g", "perhaps 'recipe.hops.amount: 100 g'"),
        ("oxygen 8 mg/L", "one of packaging.dissolved_oxygen, pitch.oxygen.dissolved"),
        ("lid on", "one of boil.lid, hot_stand.lid"),
        ("stored at 4 C and boiled 90 min", "one thing at a time"),
        ("storag.at=4 C", "perhaps storage.at"),
        ("mash.at=", "wanted a value for mash.at"),
        ("mash.at=warm", "mash.at: found 'warm'"),
        ("mash.at=66", "66 could be 66 C or 66 F"),
        ("recipe.hops[9].amount=3 g", "a place in the list that the record has"),
        ("course=sideways", "fault.course: found sideways; wanted one of fades, steady, grows"),
        ("bottled 2026-01-01", "a date after the batch was brewed"),
    ],
)
def test_what_is_not_understood_is_refused_in_one_sentence(typed: str, said: str) -> None:
    assert said in refusal(typed)
    assert len(refusal(typed).splitlines()) == 1
