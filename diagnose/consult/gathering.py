"""From a batch and a brewer's words to everything that is known about it."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.batch import Batch, NotLogged
from diagnose.batch.probe import ProbeLog
from diagnose.batch.probe_beside import log_beside
from diagnose.errors import Fault, UnusableInput, one_of
from diagnose.evidence.beer import Beer, beer_of
from diagnose.evidence.gathering import Known
from diagnose.evidence.measuring import measure_batch
from diagnose.evidence.palates import heard_by
from diagnose.flavour import Understanding, understand
from diagnose.knowledge import RuleBase, retired_sides


@dataclass(frozen=True)
class Consultation:
    """A batch with its probe log, its beer (yeast, style), the words and what they come to."""

    batch: Batch
    log: ProbeLog | None
    beer: Beer
    words: tuple[Understanding, ...]
    known: Known


def consult_on(
    rules: RuleBase, batch: Batch, tastes: Sequence[str] = (), *, log: ProbeLog | None = None
) -> Consultation:
    """Read everything there is about a batch.

    Args:
        rules: the rule base.
        batch: the record.
        tastes: the brewer's words; where there are none, the tastings in the record are used.
        log: its probe log; where there is none, the file that the record names is read.

    Raises:
        UnusableInput: the probe log cannot be read, or the record uses a word (style, yeast
            family, circumstance, check result) that the rule base does not know.
    """
    faults = [*_unknown_circumstances(rules, batch), *_unknown_checks(rules, batch)]
    try:
        beer = beer_of(rules, batch)
    except UnusableInput as refused:
        faults += refused.faults
    if faults:
        raise UnusableInput(*sorted(faults))
    log = log or log_beside(batch)
    words = tuple(understand(said, rules.lexicon) for said in tastes or _tasted(batch))
    said = {} if tastes else _poured(rules, batch)
    said |= _told(words)
    recorded = {key: str(value) for key, value in batch.record.fault.items()}
    checked = {key: str(value) for key, value in batch.record.checks.items()}
    tasters = [None] * len(words) if tastes else _tasters(batch)
    by = zip(words, tasters, strict=True)
    heard = tuple(h for one, who in by for h in heard_by(rules, one.heard, who))
    findings = measure_batch(rules, batch, log)
    unread = any(one.not_understood and not one.praise for one in words)
    known = Known(findings, said | recorded, checked, heard, unread)
    return Consultation(batch, log, beer, words, known)


def _told(words: Sequence[Understanding]) -> dict[str, str]:
    """Circumstances told in several tastings, the later word counting.

    When the fault was first noticed is told by the first that reports one: "a month later" in the
    next tasting only says when that was.
    """
    told = {key: value for one in words for key, value in one.circumstances.items()}
    reporting = [one for one in words if any(heard.state == "reported" for heard in one.heard)]
    if len(reporting) > 1 and "first_noticed" not in reporting[0].circumstances:
        told.pop("first_noticed", None)
    elif reporting and "first_noticed" in reporting[0].circumstances:
        told["first_noticed"] = reporting[0].circumstances["first_noticed"]
    return told


def _poured(rules: RuleBase, batch: Batch) -> dict[str, str]:
    """Whether a recorded glass was the first of the day, from where it was poured from."""
    said = " . ".join(p for t in batch.record.tastings if isinstance(p := t.poured_from, str))
    told = understand(said, rules.lexicon).circumstances
    return {key: told[key] for key in ("first_pour",) if key in told}


def _tasted(batch: Batch) -> list[str]:
    return [str(t.words) for t in batch.record.tastings if not isinstance(t.words, NotLogged)]


def _tasters(batch: Batch) -> list[str | None]:
    """Who said each of the words of `_tasted`, where that is logged."""
    said = [t for t in batch.record.tastings if not isinstance(t.words, NotLogged)]
    return [None if isinstance(t.who, NotLogged) else str(t.who) for t in said]


def _unknown_circumstances(rules: RuleBase, batch: Batch) -> list[Fault]:
    found = []
    for key, value in batch.record.fault.items():
        card = rules.circumstances.get(key)
        wanted = rules.circumstances if card is None else card.values
        word = key if card is None else str(value)
        if word not in wanted:
            retired = retired_sides(rules, word, ("circumstances",)) if card is None else None
            sides = retired or (word, one_of(word, wanted))
            found.append(batch.document.fault(("fault", key), *sides))
    return found


def _unknown_checks(rules: RuleBase, batch: Batch) -> list[Fault]:
    found = []
    for key, value in batch.record.checks.items():
        check = rules.checks.get(key)
        wanted = list(rules.checks) if check is None else [result.id for result in check.results]
        word = key if check is None else str(value)
        if word not in wanted:
            retired = retired_sides(rules, word, ("checks",)) if check is None else None
            sides = retired or (word, one_of(word, wanted))
            found.append(batch.document.fault(("checks", key), *sides))
    return found
