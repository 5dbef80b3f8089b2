"""A plan in words: one line of meaning for each number, for an owner in a hurry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

import click

from generator.commands.saying import say
from generator.model.paper import IN_A_ROW
from generator.papers.chances import Rule
from generator.workflows.plan import (
    KNOWN,
    LONGEST,
    MOST_COPIES,
    Plan,
    at_most,
    out_of_hundred,
    passing,
)


def say_plan(each: Plan) -> None:
    """One module: a line for each share known, then what it means."""
    rule, module = each.rule, each.module
    clears = f" Clears for: {module.grants}." if module.grants else ""
    musts = f"{len(rule.must) or 'no'} must-get{'' if len(rule.must) == 1 else 's'}"
    say(f"{module.title}: {_whole(rule)}, {musts}.{clears}")
    row = "  {:8}{:>14}{:>14}{:>14}".format
    click.echo("\n" + row("", "passes on", "passes", "is asked"))
    click.echo(row("knows", "the first try", f"in {_tries(rule)}", "aloud"))
    for chance in each.chances:
        first, whole = (passing(each, chance.knows, c) for c in (chance.first, chance.all))
        click.echo(row(at_most(chance.knows), first, whole, at_most(chance.aloud)))
    click.echo()
    for line in (*_meaning(each), "", *_counting(each.limits.high)):
        say(line)


def say_plans(plans: Sequence[Plan]) -> None:
    """Every module, one a line."""
    known = "".join(f"{at_most(share):>7}" for share in KNOWN)
    row = "{:18}{:18}{}  {:10}{}".format
    click.echo(f"{'':36}pass in all tries, of those who know")
    click.echo(row("module", "paper", known, "limits", "shortest that keeps them"))
    for each in plans:
        chances = "".join(f"{passing(each, c.knows, c.all):>7}" for c in each.chances)
        name = f"{each.module.id}{' *' if each.module.grants else ''}"
        best = _short(each.proposed) if each.proposed else "none: write more questions"
        kept = "kept" if each.kept else "NOT KEPT"
        click.echo(row(name, _short(each.rule), chances, kept, best))
    limits = plans[0].limits
    low, high = at_most(limits.low), at_most(limits.high)
    click.echo()
    say(
        "* clears people for a duty: there the limits matter most. A paper is written as: to "
        "write in + to choose, needed."
    )
    say(
        f"Limits: of people who know only {low}, at most {at_most(limits.false_pass)} pass (false "
        f"pass); of those who know {high}, at most {at_most(limits.false_fail)} are turned away "
        f"(false fail). For one module with its meaning: rigprimer plan MODULE"
    )
    for line in _counting(limits.high):
        say(line)


def _meaning(each: Plan) -> Iterator[str]:
    low, high = at_most(each.limits.low), at_most(each.limits.high)
    wrongly, away = out_of_hundred(each.false_pass), out_of_hundred(each.false_fail)
    yield (
        f"False pass: of 100 people who know only {low} of it, up to {wrongly} pass "
        f"({at_most(each.false_pass)}). {_kept(each.false_pass, each.limits.false_pass)}"
    )
    yield (
        f"False fail: of 100 people who know {high} of it, up to {away} are turned away "
        f"({at_most(each.false_fail)}). {_kept(each.false_fail, each.limits.false_fail)}"
    )
    yield "Asked aloud: so many have enough right on a paper but miss a must-get."
    yield (
        f"A second round of tries with nothing learnt brings the false pass to "
        f"{at_most(each.again)}. Teach before it."
    )
    yield _proposal(each)


def _kept(chance: Fraction, limit: Fraction) -> str:
    return f"Your limit is {at_most(limit)}: {'kept' if chance <= limit else 'NOT KEPT'}."


def _proposal(each: Plan) -> str:
    if each.proposed is None:
        return (
            f"Shortest paper that keeps both limits: none. Write more questions or problems "
            f"(papers of up to {LONGEST} items were tried, no problem more than {MOST_COPIES} "
            f"times)."
        )
    same = each.proposed == each.rule
    found = "the one you have" if same else _whole(each.proposed)
    return f"Shortest paper that keeps both limits: {found}."


def _counting(high: Fraction) -> Iterator[str]:
    yield (
        "How it is counted: who knows 70% knows each item with a chance of 70%. What is known is "
        "right. A choice not known is guessed 1 time in 3, and putting in order counts as a "
        "choice. Every try is a new paper, nothing learnt between. Practice papers do not count."
    )
    yield (
        "Half points (a right number without its unit, or rounded too roughly) are halves of what "
        "is known. With them a false pass is rarer than said here, a false fail a little likelier."
    )
    yield (
        f"Must-gets: one that is missed, when enough is right, is asked aloud the same day by "
        f"another trainer. {IN_A_ROW} fresh items in a row must be right, nothing to guess. That "
        f"is counted in."
    )
    yield f"Passes are rounded up, but down from {at_most(high)} known on; all else is rounded up."


def _whole(rule: Rule) -> str:
    mixture = f"{rule.write_in} to write in, {rule.choice} to choose"
    return f"{rule.items} items ({mixture}), {rule.cut} needed, {_tries(rule)}"


def _short(rule: Rule) -> str:
    return f"{rule.write_in} + {rule.choice}, {rule.cut} needed"


def _tries(rule: Rule) -> str:
    return "1 try" if rule.tries == 1 else f"{rule.tries} tries"
