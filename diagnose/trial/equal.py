"""What has to be the same in both arms: the other causes of the same compounds, and the rest."""

from diagnose.knowledge import RuleBase
from diagnose.trial.fault import SuspectedFault
from diagnose.trial.plan import Equal
from diagnose.trial.stages import acts_before

# A rival that reaches the fault less often than this need not be watched. Judgement.
_LEAST_REACH = 0.15
_SAME_FLAVOUR = "gives the same flavour by another way"


def equal_in_all_arms(
    rules: RuleBase, fault: SuspectedFault, split: tuple[str, ...]
) -> tuple[Equal, ...]:
    """Everything that must not differ, with the reason.

    Args:
        rules: its links from causes to compounds are the causal graph.
        fault: the fault and its compounds.
        split: the causes that are put to the split.
    """
    return (*_rivals(rules, fault, split), *_ALWAYS)


def _rivals(rules: RuleBase, fault: SuspectedFault, split: tuple[str, ...]) -> tuple[Equal, ...]:
    stages = [hint.stage for one in split if (hint := rules.causes[one].split) is not None]
    own = {name for name in fault.compounds if set(split) & set(rules.compounds[name].made_by)}
    found = []
    for rival, made in rivals_of(rules, fault.compounds).items():
        if rival in split or max(made.values()) < _LEAST_REACH:
            continue
        card = rules.causes[rival]
        shared = all(acts_before(card.stage, stage) for stage in stages)
        what = card.split.factor if card.split else card.name
        compound = rules.compounds[max(made, key=lambda one: (made[one], one))]
        makes = f"makes {compound.name.lower()} too" if compound.id in own else _SAME_FLAVOUR
        why = f"{card.name[:1].lower()}{card.name[1:]} {makes}"
        weight = fault.share(rival) + 0.02 * max(made.values())
        found.append((shared, -weight, Equal(what=what, why=why, shared=shared)))
    ordered = sorted(found, key=lambda one: (one[0], one[1], one[2].what))
    return tuple(line for _, _, line in ordered)


def rivals_of(rules: RuleBase, compounds: tuple[str, ...]) -> dict[str, dict[str, float]]:
    """Every cause of these compounds, with the strength of its link into each."""
    found: dict[str, dict[str, float]] = {}
    for name in compounds:
        for cause, number in rules.compounds[name].made_by.items():
            found.setdefault(cause, {})[name] = number.value
    return found


_ALWAYS = (
    Equal(what="vessels: same model, same age, same cleaning", why="no two ever match quite"),
    Equal(what="volume, within 2 %", why="small vessels cool, warm and stale faster"),
    Equal(
        what="headspace, at most a quarter of the vessel and equal within 2 points",
        why="air over the beer swamps everything else",
    ),
    Equal(what="gravity, within 0.0005 at the start and 0.001 at the end", why="body hides faults"),
    Equal(what="pH, within 0.05", why="a tenth of a pH can be tasted"),
    Equal(what="carbonation and fill height", why="gas lifts aromas out of the glass"),
    Equal(what="age: package both on one day, that of the later arm", why="age is a flavour"),
    Equal(what="every opening, transfer and sample", why="what is done to one is done to both"),
    Equal(what="temperature in the glass, within 1 C", why="warm beer shows more"),
    Equal(what="colour and haze, or hide them in opaque cups", why="or the panel tests its eyes"),
)
