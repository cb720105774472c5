"""Difference tests: planning a panel, reading it, and saying what it could not show."""

from diagnose.sensory.a_not_a import (
    SingleGlasses,
    SingleGlassReading,
    fisher_p,
    least_hits,
    matched_p,
    power_a_not_a,
    read_a_not_a,
)
from diagnose.sensory.bayes import (
    STRONG_FACTOR,
    BayesReading,
    bayes_factor_at,
    bayes_reading,
    fewest_answers,
)
from diagnose.sensory.beta_binomial import (
    TasterSpread,
    able_interval,
    bayes_factor_by_taster,
    fit_spread,
)
from diagnose.sensory.control_difference import (
    RatedDistance,
    RatedReading,
    distance_from_ratings,
    least_rank_sum,
    read_ratings,
)
from diagnose.sensory.criticals import Critical, critical, exact_p
from diagnose.sensory.estimate import Estimate, able_estimate, dprime_estimate, share_interval
from diagnose.sensory.evenings import (
    Evening,
    EveningsPlan,
    EveningsReading,
    chance_to_show,
    plan_evenings,
    read_evenings,
)
from diagnose.sensory.methods import (
    A_NOT_A,
    DIFFERENCE_FROM_CONTROL,
    METHODS,
    Method,
    method_named,
    name_of_test,
)
from diagnose.sensory.one_by_one import (
    SequentialPlan,
    plan_one_by_one,
    read_one_by_one,
    wald_lines,
)
from diagnose.sensory.paired_answers import (
    PairedAnswers,
    PairedReading,
    read_paired_answers,
)
from diagnose.sensory.power import chance_to_find, power_by_able, power_by_dprime
from diagnose.sensory.psychometric import (
    able_from_share,
    dprime_from_share,
    share_from_able,
    share_right,
)
from diagnose.sensory.reading import (
    SHOWN,
    USUAL_ABLE,
    USUAL_ALPHA,
    Reading,
    Verdict,
    read_rounds,
    read_tasting,
)
from diagnose.sensory.replicated import (
    ReplicatedReading,
    power_replicated,
    read_replicated,
    similarity_p_replicated,
)
from diagnose.sensory.similarity import (
    Similarity,
    similarity_limit,
    similarity_p,
    similarity_sizes,
)
from diagnose.sensory.sizes import PanelSize, Sizes, first_and_safe, panel_sizes

__all__ = [
    "A_NOT_A",
    "DIFFERENCE_FROM_CONTROL",
    "METHODS",
    "SHOWN",
    "STRONG_FACTOR",
    "USUAL_ABLE",
    "USUAL_ALPHA",
    "BayesReading",
    "Critical",
    "Estimate",
    "Evening",
    "EveningsPlan",
    "EveningsReading",
    "Method",
    "PairedAnswers",
    "PairedReading",
    "PanelSize",
    "RatedDistance",
    "RatedReading",
    "Reading",
    "ReplicatedReading",
    "SequentialPlan",
    "Similarity",
    "SingleGlassReading",
    "SingleGlasses",
    "Sizes",
    "TasterSpread",
    "Verdict",
    "able_estimate",
    "able_from_share",
    "able_interval",
    "bayes_factor_at",
    "bayes_factor_by_taster",
    "bayes_reading",
    "chance_to_find",
    "chance_to_show",
    "critical",
    "distance_from_ratings",
    "dprime_estimate",
    "dprime_from_share",
    "exact_p",
    "fewest_answers",
    "first_and_safe",
    "fisher_p",
    "fit_spread",
    "least_hits",
    "least_rank_sum",
    "matched_p",
    "method_named",
    "name_of_test",
    "panel_sizes",
    "plan_evenings",
    "plan_one_by_one",
    "power_a_not_a",
    "power_by_able",
    "power_by_dprime",
    "power_replicated",
    "read_a_not_a",
    "read_evenings",
    "read_one_by_one",
    "read_paired_answers",
    "read_ratings",
    "read_replicated",
    "read_rounds",
    "read_tasting",
    "share_from_able",
    "share_interval",
    "share_right",
    "similarity_limit",
    "similarity_p",
    "similarity_p_replicated",
    "similarity_sizes",
    "wald_lines",
]
