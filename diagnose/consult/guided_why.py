"""Why a question is asked: what each likely answer would lead to; for a check, how it is done."""

from diagnose.answers import lower_first, percent
from diagnose.answers.guided import Suspect
from diagnose.consult.guided import Sitting, tried
from diagnose.consult.guided_asking import Asking
from diagnose.consult.guided_reading import Desk, read_answer
from diagnose.consult.guided_standing import suspects_of
from diagnose.inference.question import Gain, Outcome

MOST_OUTCOMES = 3


def why(sitting: Sitting, asking: Asking) -> tuple[str, ...]:
    """Why a question is asked, in sentences."""
    if asking.gain is None:
        return (asking.slot.why,) if asking.slot and asking.slot.why else ()
    return (
        *_about(sitting, asking.gain),
        *(_leads_to(sitting, asking, outcome) for outcome in _likeliest(asking.gain)),
        f"Worth {asking.gain.bits:.2f} bits.",
    )


def _about(sitting: Sitting, gain: Gain) -> tuple[str, ...]:
    """What an entry goes into, or what a check needs and how it is done."""
    rules, key = sitting.rules, gain.question.key
    if gain.question.kind == "entry":
        return (f"It goes into this: {lower_first(rules.measures[key].name)}.",)
    if gain.question.kind == "check":
        check = rules.checks[key]
        return (f"You need: {', '.join(check.needs)}.", *check.how)
    return ()


def _likeliest(gain: Gain) -> list[Outcome]:
    chances = sorted((outcome.chance for outcome in gain.outcomes), reverse=True)
    least = chances[:MOST_OUTCOMES][-1]
    return [outcome for outcome in gain.outcomes if outcome.chance >= least]


def _leads_to(sitting: Sitting, asking: Asking, outcome: Outcome) -> str:
    label = outcome.answer.label
    value = _value_of(asking, label)
    name, chance = (
        _first_on_average(sitting, outcome) if value is None else _first(sitting, asking, value)
    )
    return f"If '{label}', first comes {lower_first(name)} ({percent(chance)})."


def _value_of(asking: Asking, label: str) -> str | None:
    """The choice that an answer stands for; None where an amount is to be typed."""
    if asking.word is not None:
        return label.rpartition(": ")[2]
    return None if asking.slot else next(value for value, said in asking.choices if said == label)


def _first(sitting: Sitting, asking: Asking, value: str) -> tuple[str, float]:
    """The first suspect and its chance once the answer stands in the record."""
    desk = Desk(sitting.rules, sitting.batch, sitting.today)
    after = tried(sitting, asking, read_answer(desk, asking, value), value)
    first = max(suspects_of(after.rules, after.batch), key=_chance)
    return first.name, first.responsible


def _chance(suspect: Suspect) -> float:
    return suspect.responsible


def _first_on_average(sitting: Sitting, outcome: Outcome) -> tuple[str, float]:
    """The first suspect where a measure is about as much as the answer says."""
    best = outcome.responsible.max(axis=0)
    first = int(best.argmax())
    return sitting.rules.causes[sitting.standing.causes[first]].name, float(best[first])
