"""Answers given on the command line, "ID=VALUE" each, as one change of a record."""

from difflib import get_close_matches

from diagnose.answers.guided import AskAnswer
from diagnose.consult.diagnosing import diagnose
from diagnose.consult.guided import Sitting, answered
from diagnose.consult.guided_asking import Asking, of_rules, of_slot
from diagnose.consult.guided_measures import SLOTS, SLOTS_OF
from diagnose.consult.guided_reading import says_not_known
from diagnose.consult.guided_slots import is_known, makes_sense
from diagnose.errors import Fault, UnusableInput
from diagnose.inference.question import Gain, Question
from diagnose.knowledge import RuleBase

_OPTION = "--answer"
_WANTED = "ID=VALUE with an id from `faultwort ask`, such as spread=every_package"


def answered_all(sitting: Sitting, answers: list[str]) -> tuple[Sitting, AskAnswer]:
    """The sitting with every answer in it, and how the ranking moved.

    Args:
        sitting: the record.
        answers: "ID=VALUE" each; the id of a question, an entry, a check or a flavour, or an
            entry by its path.

    Raises:
        UnusableInput: one of them cannot be used; then none is.
    """
    after = sitting
    for answer in answers:
        after = _answered_one(after, answer)
    return after, moved_by(sitting, after)


def moved_by(before: Sitting, sitting: Sitting) -> AskAnswer:
    """What was written between two moments of a sitting, and how the ranking moved."""
    diagnosis = diagnose(sitting.rules, sitting.standing.consultation)
    # A later answer may have moved the lines of an earlier one.
    written = (
        one.written.model_copy(update={"line": sitting.document.line(one.path)})
        for one in sitting.past[len(before.past) :]
        if one.written is not None
    )
    return AskAnswer(
        batch=sitting.batch.name,
        record=str(sitting.path),
        answered=tuple(written),
        before=before.standing.suspects,
        after=sitting.standing.suspects,
        verdict=diagnosis.verdict,
        verdict_text=diagnosis.verdict_text,
        cautions=diagnosis.cautions,
        next_=diagnosis.next_,
    )


def _answered_one(sitting: Sitting, answer: str) -> Sitting:
    key, equals, value = (part.strip() for part in answer.partition("="))
    if not equals or not key:
        raise _unusable("", repr(answer), _WANTED)
    asking = _asking_called(sitting, key)
    if says_not_known(value) and asking.kind == "check":
        raise _unusable(key, repr(value), "a result of the check; leave it out until it is done")
    step = answered(sitting, asking, value)
    if not step.settled:
        offers = ", ".join(step.sitting.offers)
        choices = ", ".join(value for value, _ in asking.choices)
        wanted = f"one of {choices}" if choices else f"an answer to: {asking.text}"
        wanted = f"one of {offers}" if offers else wanted
        raise _unusable(key, " ".join(step.said).rstrip("."), wanted)
    return step.sitting


def _asking_called(sitting: Sitting, key: str) -> Asking:
    """The question with an id, whether or not it is worth asking."""
    rules = sitting.rules
    gain = next((one for one in sitting.standing.gains if one.question.key == key), None)
    if key in SLOTS:
        return _of_entry(sitting, key)
    if key in rules.measures:
        return _of_measure(sitting, key, gain)
    asking = of_rules(rules, gain or _unweighed(rules, key))
    known = sitting.standing.consultation.known
    judged = {heard.descriptor for heard in known.heard}
    told = known.checks if asking.kind == "check" else known.circumstances
    if key in (judged if asking.word else told):
        raise _unusable(key, "an answer there already", "a change by hand in the record")
    return asking


def _unweighed(rules: RuleBase, key: str) -> Gain:
    """A question of which nobody asked what it is worth."""
    if key in rules.checks:
        return Gain(Question("check", key, rules.checks[key].minutes, ()), 0.0, ())
    if key in rules.circumstances:
        return Gain(Question("question", key, 1.0, ()), 0.0, ())
    if key in rules.descriptors:
        return Gain(Question("question", key, 1.0, (), word=key), 0.0, ())
    askable = [*SLOTS, *rules.measures, *rules.circumstances, *rules.checks, *rules.descriptors]
    near = get_close_matches(key, askable, n=3)
    wanted = f"one of {', '.join(near)}, perhaps" if near else _WANTED
    raise _unusable("", f"no question called {key!r}", wanted)


def _of_entry(sitting: Sitting, key: str) -> Asking:
    slot, data = SLOTS[key], sitting.document.data
    place = slot.place(data)
    if place is None:
        raise _unusable(key, "no line it belongs to", "the list it belongs to first")
    if is_known(slot, data):
        raise _unusable(key, "an entry there already", "a change by hand in the record")
    return of_slot(slot, place)


def _of_measure(sitting: Sitting, key: str, gain: Gain | None) -> Asking:
    data, slots = sitting.document.data, SLOTS_OF.get(key, ())
    open_slots = [s for s in slots if makes_sense(s, data) and not is_known(s, data)]
    if len(open_slots) > 1:
        names = ", ".join(f"{one.key}=..." for one in open_slots)
        raise _unusable(key, "one answer for several entries", names)
    slot = open_slots[0] if open_slots else None
    place = slot.place(data) if slot else None
    if slot is None or place is None:
        wanted = f"the entries of {', '.join(sitting.rules.measures[key].entries)}, by hand"
        raise _unusable(key, "no single entry to be asked for", wanted)
    return of_slot(slot, place, gain)


def _unusable(key: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault(_OPTION, 0, key, found, wanted))
