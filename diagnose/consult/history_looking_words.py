"""What a contrast comes to, in sentences."""

from collections.abc import Iterator, Sequence

from diagnose.answers.chances import chance_figure, odds_text, percent
from diagnose.answers.history_looking import (
    Contrast,
    MovedWith,
    SharedCauses,
    SplitAdvice,
    SuspectLine,
)
from diagnose.history.statistics.reach import can_show, clean_to_show, least_p, luck


def contrast_says(answer: Contrast, batch: str | None, worth: float) -> tuple[str, ...]:
    """The sentences, the most important first.

    Args:
        answer: the contrast without its sentences.
        batch: key of the latest flawed batch.
        worth: chance from which on the model's cause is put forward for a split.
    """
    return (
        *_claims(answer),
        *_aliased(answer),
        *_model_says(answer),
        *_next(answer, batch, worth),
        *_more_clean(answer),
        *_cautions(answer),
    )


def _claims(answer: Contrast) -> Iterator[str]:
    every = answer.flawed + answer.clean
    if not every:
        yield "No batch to compare: none here was tasted. See 'faultwort history list'."
        return
    if not answer.flawed or not answer.clean:
        all_of_them = "none" if not answer.flawed else "every one"
        yield f"{_batches(every)} tasted, {all_of_them} flawed: nothing to compare."
        return
    if not can_show(every, answer.flawed, answer.level):
        p = least_p(every, answer.flawed)
        needed = clean_to_show(answer.flawed, answer.level) or 0
        yield (
            f"No test was made: with {answer.flawed} flawed of {every} even a perfect match comes "
            f"about by luck {percent(p)} of the time. {_batches(needed - answer.clean)} more, "
            "clean ones, are the fewest that could show anything."
        )
        return
    claimed = _leading(answer.suspects)
    if not claimed:
        yield (
            f"Nothing is claimed: of {answer.tested} factors looked at, none has an adjusted p of "
            f"{answer.level:g} or less.{_closest(answer)}"
        )
        return
    names = "; ".join(one.name for one in claimed)
    yield (
        f"What separates the flawed batches, after {answer.tested} looks (adjusted p up to "
        f"{answer.level:g}): {names}. This says what goes with the flaw, not what makes it."
    )


def _leading(suspects: Sequence[SuspectLine]) -> list[SuspectLine]:
    """The suspects that are claimed, without those that moved with an earlier one."""
    found: list[SuspectLine] = []
    for suspect in suspects:
        known = {alias.name for one in found for alias in one.moved_with if not alias.separable}
        if suspect.claimed and suspect.name not in known:
            found.append(suspect)
    return found


def _closest(answer: Contrast) -> str:
    if not answer.suspects:
        return " These batches could show nothing of any factor that was logged."
    first = answer.suspects[0]
    closest = f" The closest is {first.name} (adjusted p {chance_figure(first.p_adjusted)})."
    if first.flawed_with != first.flawed or first.clean_with != 0:
        return closest
    more = 0
    while answer.tested * least_p(first.flawed + first.clean + more, first.flawed) > answer.level:
        more += 1
    return f"{closest} {_batches(more)} more, clean and without it, would be enough to claim it."


def _aliased(answer: Contrast) -> Iterator[str]:
    for suspect in _leading(answer.suspects):
        if suspect.moved_with:
            yield _moved_together(suspect)


def _moved_together(suspect: SuspectLine) -> str:
    exact = [one.name for one in suspect.moved_with if one.together >= 1.0 - 1e-9]
    near = [one for one in suspect.moved_with if one.together < 1.0 - 1e-9]
    parts = []
    if exact:
        parts.append(f"always together with {'; '.join(exact)}: no test can tell them apart")
    if near:
        parts.append(f"nearly always with {'; '.join(_parting(one) for one in near)}")
    return f"{suspect.name} moved {', and '.join(parts)}."


def _parting(one: MovedWith) -> str:
    if one.differ is None:
        return one.name
    enough = "enough" if one.separable else "too few"
    return f"{one.name} (apart in {_batches(one.differ)}, {enough} to tell{_alone(one)})"


def _alone(one: MovedWith) -> str:
    """How often the flaw came where only one of the two was there."""
    parts = []
    if one.suspect_alone:
        parts.append(f"{one.suspect_alone_flawed} of {one.suspect_alone} flawed without it")
    if one.this_alone:
        parts.append(f"{one.this_alone_flawed} of {one.this_alone} with it alone")
    return f": {', '.join(parts)}" if parts else ""


def _model_says(answer: Contrast) -> Iterator[str]:
    model = answer.model
    if model is None or not model.causes:
        return
    first = model.causes[0]
    if model.unknown > max(first.share, model.none, model.own):
        yield (
            "By the model the flawed batches have a cause in common that the rule base lacks or "
            f"weighs too lightly ({odds_text(model.unknown)}).{_goes_with(model)}"
        )
    elif first.share > max(model.none, model.own):
        yield (
            "By the model, which weighs the words and measures and knows none of the tests above, "
            f"the flawed batches have '{first.name}' in common ({odds_text(first.share)}; no "
            f"cause in common {odds_text(model.none)})."
        )
    elif model.own > model.none:
        yield (
            "By the model this flavour is what yeast and style bring by themselves "
            f"({odds_text(model.own)})."
        )
    else:
        yield (
            "By the model they need have no cause in common (that they have one: "
            f"{odds_text(1.0 - model.none)}): the flaw may have several, or one that now and then "
            "does no harm."
        )


def _goes_with(model: SharedCauses) -> str:
    return f" It would go with {' or '.join(model.goes_with[:3])}." if model.goes_with else ""


def split_advised(suspects: Sequence[SuspectLine]) -> SplitAdvice | None:
    """The split that would settle the foremost claim; None where nothing is claimed."""
    claimed = _leading(suspects)
    if not claimed:
        return None
    rivals = tuple(one.name for one in claimed[0].moved_with if not one.separable)
    return SplitAdvice(differ_in=claimed[0].name, keep_alike=rivals)


def _next(answer: Contrast, batch: str | None, worth: float) -> Iterator[str]:
    """What would tell more: a split, else what the latest flawed batch lacks."""
    if answer.split is not None:
        rivals = answer.split.keep_alike
        alike = f" and alike in {'; '.join(rivals)}" if rivals else ""
        yield f"A split would settle it: two arms that differ in {answer.split.differ_in}{alike}."
    causes = answer.model.causes if answer.model else ()
    if batch and causes and causes[0].share >= worth:
        yield f"Next: 'faultwort split plan {batch} {causes[0].id}', for the model's suspect."
    elif batch and answer.split is not None:
        yield f"Next: 'faultwort split choose {batch}' says what the splits of its suspects cost."
    elif batch:
        yield f"Next: 'faultwort ask {batch}' says what would tell most of the latest flawed batch."


def _more_clean(answer: Contrast) -> Iterator[str]:
    every, run = answer.flawed + answer.clean, answer.clean_in_a_row
    if run is None or not answer.clean:
        return
    rate = answer.flawed / every
    yield (
        f"After a change, {_batches(run)} in a row must be clean before that means anything: at "
        f"{answer.flawed} flawed in {every}, one clean batch is luck {percent(luck(rate, 1))} of "
        f"the time, three are {percent(luck(rate, 3))}."
    )


def _cautions(answer: Contrast) -> Iterator[str]:
    left = []
    if answer.beyond_reach:
        left.append(f"{len(answer.beyond_reach)} factors that too few batches have, lack or log")
    if answer.not_tasted:
        untold = "not tasted, or in words that say neither what is wrong nor that nothing is"
        left.append(f"{_batches(answer.not_tasted)} {untold}")
    if left:
        yield f"Left out: {'; '.join(left)}."
    if answer.flawed and answer.clean:
        yield "Batches of one brew day, yeast or sack tell less than as many that share nothing."


def _batches(number: int) -> str:
    return "1 batch" if number == 1 else f"{number} batches"
