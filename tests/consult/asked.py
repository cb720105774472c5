"""A brewer at the counter: words and a small record in, what is known and the network out."""

from diagnose.consult import Consultation, consult_on
from diagnose.consult.networks import network_of_batch
from diagnose.evidence.gathering import gather
from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Network
from tests.evidence.records import batch_of
from tests.knowledge.shipped import rule_base


def asked(words: str, record: str = "batch: this beer") -> Consultation:
    """What is known when these words are said of this record."""
    return consult_on(rule_base(), batch_of(record), [words] if words else [])


def network_and_evidence(consultation: Consultation) -> tuple[Network, Evidence]:
    """What a diagnosis of the consultation is worked out from."""
    rules = rule_base()
    return network_of_batch(rules, consultation), gather(rules, consultation.known)
