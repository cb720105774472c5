"""The next question of a guided entry: first the facts that everything needs, then by worth."""

from dataclasses import dataclass
from typing import Any

from diagnose.answers.guided import Asked
from diagnose.consult.guided_measures import SLOTS_OF
from diagnose.consult.guided_opening import OPENING
from diagnose.consult.guided_slots import Slot, first_open, inside, is_known
from diagnose.consult.guided_standing import Standing
from diagnose.consult.stepping import question_text
from diagnose.documents import Path
from diagnose.inference.question import Gain, worth
from diagnose.knowledge import RuleBase

# What is worth less than this, in all or by the minute, is not worth an evening. Judgement.
LEAST_BITS, LEAST_BITS_PER_MINUTE = 0.02, 0.004


@dataclass(frozen=True)
class Asking:
    """One question: where its answer goes, what may be answered, and what it is worth.

    `choices` are (what is written, how it is said).
    """

    id: str
    kind: str
    text: str
    path: Path
    choices: tuple[tuple[str, str], ...] = ()
    hint: str = ""
    slot: Slot | None = None
    word: str | None = None
    gain: Gain | None = None

    @property
    def needed(self) -> bool:
        """Whether nothing can be said without an answer."""
        return self.slot is not None and self.slot.needed

    def shown(self) -> Asked:
        """The question as it is put."""
        return Asked.model_validate(
            {
                "id": self.id,
                "kind": self.kind,
                "text": self.text,
                "choices": tuple(said for _, said in self.choices),
                "hint": self.hint,
                "gain_bits": self.gain.bits if self.gain else 0.0,
                "minutes": self.gain.question.minutes if self.gain else 1.0,
            }
        )


def opening_question(standing: Standing, data: Any, *, words_only: bool) -> Asking | None:
    """The next of the few facts that everything needs."""
    for slot in OPENING[:1] if words_only else OPENING:
        tasted = slot is OPENING[0] and bool(standing.consultation.words)
        place = slot.place(data)
        if not tasted and place is not None and is_known(slot, data) is None:
            return of_slot(slot, place)
    return None


def of_slot(slot: Slot, place: Path, gain: Gain | None = None) -> Asking:
    """The question for one entry of the record."""
    return Asking(
        id=gain.question.key if gain else slot.key,
        kind="entry",
        text=slot.asks,
        path=place,
        choices=slot.choices,
        hint=slot.hint,
        slot=slot,
        gain=gain,
    )


def asking_of(rules: RuleBase, gain: Gain, data: Any) -> Asking | None:
    """A weighed question as it can be put; None where it was asked or cannot be stored."""
    key = gain.question.key
    if gain.question.kind == "entry":
        slot = first_open(SLOTS_OF.get(key, ()), data)
        place = slot.place(data) if slot else None
        return of_slot(slot, place, gain) if slot and place is not None else None
    asking = of_rules(rules, gain)
    return asking if inside(data, asking.path) is None else None


def of_rules(rules: RuleBase, gain: Gain) -> Asking:
    """The question for a circumstance, a flavour or a check of the rule base."""
    key, word = gain.question.key, gain.question.word
    if gain.question.kind == "check":
        return _of_check(rules, gain)
    choices: tuple[tuple[str, str], ...] = (("yes", "yes"), ("faint", "a little"), ("no", "no"))
    if word is None:
        values = rules.circumstances[key].values
        choices = tuple((name, value.says) for name, value in values.items())
    return Asking(
        id=key,
        kind="question",
        text=question_text(rules, gain),
        path=("fault", key),
        choices=choices,
        word=word,
        gain=gain,
    )


def _of_check(rules: RuleBase, gain: Gain) -> Asking:
    check = rules.checks[gain.question.key]
    results = tuple((result.id, result.says) for result in check.results)
    return Asking(check.id, "check", check.asks, ("checks", check.id), results, gain=gain)


def is_worth_it(gain: Gain) -> bool:
    """Whether the answer is worth its minutes."""
    return gain.bits >= LEAST_BITS and worth(gain) >= LEAST_BITS_PER_MINUTE
