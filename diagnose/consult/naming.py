"""A diagnosis without the names of its brewer and tasters, for showing to a club."""

import re
from collections.abc import Callable
from pathlib import PurePosixPath

from diagnose.answers import Diagnosis, FaultGroup, RankedCause
from diagnose.answers.background import Background, TastingLine

LEFT_OUT = "(name left out)"
Clean = Callable[[str], str]


def without_names(diagnosis: Diagnosis, background: Background) -> tuple[Diagnosis, Background]:
    """Leave out the names of the brewer and the tasters wherever the record's own words have them.

    Args:
        diagnosis: what came of the batch.
        background: who brewed and tasted it.

    Returns:
        both without names; tasters are numbered in the order in which they first tasted.
    """
    people = dict.fromkeys(line.who for line in background.tastings if line.who)
    names = {background.brewer, *people} - {""}
    if not names:
        return diagnosis, background
    free, rules = _cleaner(names, re.IGNORECASE), _cleaner(names)
    numbers = {who: f"taster {place}" for place, who in enumerate(people, start=1)}
    tastings = tuple(
        TastingLine(when=one.when, who=numbers.get(one.who, ""), words=free(one.words))
        for one in background.tastings
    )
    trace = background.trace
    if trace is not None:
        trace = trace.model_copy(update={"file": free(trace.file)})
    return _cleaned(diagnosis, free, rules), background.model_copy(
        update={"brewer": "", "tastings": tastings, "trace": trace}
    )


def _cleaner(names: set[str], flags: int = 0) -> Clean:
    """Names in full, then their capitalised parts ("Wren" of "Wren Marsh"), as whole words."""
    parts = {part for name in names for part in name.split() if part[:1].isupper()}
    ordered = sorted(names | parts, key=lambda one: (-len(one), one))
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, ordered))})(?!\w)", flags)
    return lambda words: pattern.sub(LEFT_OUT, words)


def _cleaned(diagnosis: Diagnosis, free: Clean, rules: Clean) -> Diagnosis:
    """`free` is for the record's own words, `rules` for sentences that may quote them.

    In a sentence of the rule base a taster called May would otherwise black out every "may".
    """
    return diagnosis.model_copy(
        update={
            "batch": free(diagnosis.batch),
            "understood": tuple(
                one.model_copy(update={"said": free(one.said)}) for one in diagnosis.understood
            ),
            "doubts": tuple(map(rules, diagnosis.doubts)),
            "not_understood": tuple(map(free, diagnosis.not_understood)),
            "odd_entries": tuple(
                one.model_copy(
                    update={"place": free(PurePosixPath(one.place).name), "text": free(one.text)}
                )
                for one in diagnosis.odd_entries
            ),
            "faults": tuple(_cleaned_group(group, rules) for group in diagnosis.faults),
        }
    )


def _cleaned_group(group: FaultGroup, rules: Clean) -> FaultGroup:
    causes = tuple(_cleaned_cause(cause, rules) for cause in group.causes)
    return group.model_copy(update={"causes": causes})


def _cleaned_cause(cause: RankedCause, rules: Clean) -> RankedCause:
    evidence = tuple(line.model_copy(update={"text": rules(line.text)}) for line in cause.evidence)
    return cause.model_copy(update={"evidence": evidence})
