"""The commands."""

from typing import Annotated

import typer

from diagnose.cli import options
from diagnose.cli.asking import AskCommand
from diagnose.cli.batch import batch_app
from diagnose.cli.history import history_app
from diagnose.cli.panel import panel_app
from diagnose.cli.plain_slips import WholeHelp
from diagnose.cli.probe import probe
from diagnose.cli.rules import rules_app
from diagnose.cli.split import split_app

app = typer.Typer(
    name="faultwort",
    cls=WholeHelp,
    help="Find out why a batch of home-brewed beer tastes wrong.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    add_completion=False,
)
app.add_typer(batch_app, name="batch")
app.add_typer(rules_app, name="rules")
app.add_typer(panel_app, name="panel")
app.add_typer(split_app, name="split")
app.add_typer(history_app, name="history")

AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]


@app.callback(invoke_without_command=True)
def _root(
    version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False,
) -> None:
    if version:
        from diagnose import __version__

        typer.echo(f"faultwort {__version__}")
        raise typer.Exit


@app.command(short_help="Diagnose a batch that ships with it, then show what to type.")
def demo(as_json: AsJson = False) -> None:
    """Diagnose a batch that ships with Faultwort, then show what to type next."""
    from diagnose.casebook import demo_case
    from diagnose.cli.loading import batch_at, print_json, shipped_rules
    from diagnose.consult import consult_on, diagnose
    from diagnose.report import print_demo, terminal
    from diagnose.shipped import shipped

    rules, case = shipped_rules(), demo_case(shipped("cases"))
    diagnosis = diagnose(rules, consult_on(rules, batch_at(case.folder)))
    if as_json:
        answer = diagnosis.model_dump(mode="json", by_alias=True)
        print_json({"schema": "faultwort/demo/1", "case": case.card.id, "diagnosis": answer})
    else:
        print_demo(terminal(), case.card.story, diagnosis)


@app.command("diagnose", short_help="Rank what may have caused a flavour, with the evidence.")
def diagnose_command(
    batch: options.MaybeBatch = None,
    taste: options.Taste = None,
    top: options.Top = 3,
    as_json: options.AsJson = False,
    html: options.Html = None,
    suppose: options.Suppose = None,
    without: options.Without = None,
    band: options.Band = False,
    without_names: options.WithoutNames = False,
    remember: options.Remember = False,
    learned: options.Learned = None,
    store: options.Store = None,
) -> None:
    """Rank what may have caused a flavour, with the evidence for and against."""
    from diagnose import consult
    from diagnose.cli import remembering
    from diagnose.cli.loading import batch_at, print_json, shipped_rules
    from diagnose.cli.pages import write_diagnosis_page
    from diagnose.cli.supposing import with_supposed
    from diagnose.report import print_diagnosis, terminal

    told = batch_at(batch, store)
    rules, use = remembering.rules_to_use(shipped_rules(), told, store, learned)
    consultation = consult.consult_on(rules, told, taste or ())
    found = remembering.with_learned(consult.diagnose(rules, consultation), use)
    diagnosis, background = found, None
    if html is not None or without_names:
        diagnosis, background = consult.to_show(rules, consultation, found, names=not without_names)
    if band or html is not None:
        diagnosis = consult.with_bands(rules, consultation, diagnosis)
    changes = (suppose or (), without or (), taste or ())
    diagnosis = with_supposed(rules, consultation, diagnosis, changes)
    if html is not None and background is not None:
        write_diagnosis_page(html, diagnosis, background, quiet=as_json)
    if as_json:
        print_json(diagnosis.model_dump(mode="json", by_alias=True))
    elif html is None:
        print_diagnosis(terminal(), diagnosis, top)
    if remember:
        remembering.kept(rules, told, (found, taste or []), store, quiet=as_json)


@app.command(
    cls=AskCommand, short_help="The next best questions, entries and checks, and their worth."
)
def ask(
    batch: options.Record,
    taste: Annotated[list[str] | None, typer.Option("--taste", help="What it tastes of.")] = None,
    answer: Annotated[
        list[str] | None,
        typer.Option("--answer", help="ID=VALUE into the record; alone: be asked, one by one."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """The next best questions, log entries and cheap checks, and what each is worth."""
    if answer is not None:
        from diagnose.cli.asking import take_answers

        take_answers(batch, answer, taste or [], as_json=as_json)
        return
    from shlex import quote

    from diagnose.cli.loading import batch_at, print_json, shipped_rules
    from diagnose.consult import consult_on, diagnose
    from diagnose.report import print_next_steps, terminal

    rules = shipped_rules()
    diagnosis = diagnose(rules, consult_on(rules, batch_at(batch), taste or ()))
    if as_json:
        told = diagnosis.model_dump(mode="json", by_alias=True)
        shown = {key: told[key] for key in ("batch", "cautions", "next")}
        print_json({"schema": "faultwort/ask/1", **shown})
    else:
        # Answers go into a file, and words typed beside it are not in it.
        answers = batch.exists() and not taste
        answering = f"faultwort ask {quote(str(batch))} --answer" if answers else ""
        print_next_steps(terminal(), diagnosis, answering)


@app.command(short_help="How the words are understood, and what to tell apart.")
def taste(
    words: Annotated[str, typer.Argument(help='For example "buttery, no sourness".')],
    as_json: AsJson = False,
) -> None:
    """How the words are understood: descriptors, doubts, what to tell apart."""
    from diagnose.cli.loading import print_json, shipped_lexicon
    from diagnose.consult import words_answer
    from diagnose.flavour import understand
    from diagnose.report import print_words, terminal

    lexicon = shipped_lexicon()
    answer = words_answer(lexicon, understand(words, lexicon))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_words(terminal(), answer)


@app.command()
def explain(
    card_id: Annotated[
        str, typer.Argument(metavar="ID", help="A cause, compound, descriptor, check or source.")
    ],
    as_json: AsJson = False,
) -> None:
    """One card of the rule base, with its path and sources."""
    from diagnose.cli.loading import print_json, shipped_rules
    from diagnose.consult import explain_card
    from diagnose.report import print_card, terminal

    answer = explain_card(shipped_rules(), card_id)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_card(terminal(), answer)


app.command(short_help="What a logger's export contains, and how it was understood.")(probe)
