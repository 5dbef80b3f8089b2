"""What a paper's rules are worth: who passes over all tries, and the shortest that will do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor
from typing import Any

from generator.errors import Refusal
from generator.maths.exact import half_up
from generator.model.course import Module
from generator.model.paper import IN_A_ROW
from generator.papers.chances import (
    Limits,
    Must,
    Rule,
    all_tries,
    keeps,
    needs_asking,
    one_try,
    shortest,
)

KNOWN = tuple(Fraction(percent, 100) for percent in (60, 70, 80, 85, 90, 95))
LONGEST = 60
"""Items of the longest paper that is looked at: nobody sits more."""
MOST_COPIES = 3
"""How often the numbers of one problem are drawn anew for one paper of the shortest kind."""


@dataclass(frozen=True)
class Chance:
    """What becomes of people who know so much (a share from 0 to 1), nothing learnt between."""

    knows: Fraction
    first: Fraction  # pass on the first try
    all: Fraction  # pass on one of the tries
    aloud: Fraction  # need a must-get asked aloud on the first try

    @property
    def turned_away(self) -> Fraction:
        """The chance that every try is failed."""
        return 1 - self.all


@dataclass(frozen=True)
class Plan:
    """A module's rule with its chances, and the shortest rule that keeps the limits."""

    module: Module
    limits: Limits
    rule: Rule
    chances: tuple[Chance, ...]
    false_pass: Fraction
    false_fail: Fraction
    again: Fraction  # false pass when all tries are used and a second round is sat, nothing learnt
    kept: bool
    proposed: Rule | None


def plan(module: Module, limits: Limits, tries: int | None = None) -> Plan:
    """The plan of a module; `tries` in place of its own."""
    own = rule_of(module)
    rule = replace(own, tries=tries) if tries else own
    return Plan(
        module=module,
        limits=limits,
        rule=rule,
        chances=tuple(_chance(rule, knows) for knows in KNOWN),
        false_pass=all_tries(rule, limits.low),
        false_fail=1 - all_tries(rule, limits.high),
        again=all_tries(replace(rule, tries=2 * rule.tries), limits.low),
        kept=keeps(rule, limits),
        proposed=shortest(candidates(module, rule.tries), limits),
    )


def limits_of(low: Fraction, false_pass: Fraction, high: Fraction, false_fail: Fraction) -> Limits:
    """Limits from percents, as they are typed. Raises Refusal for what can't be meant."""
    if not 0 < low < high < 100:
        raise Refusal(
            f"{float(low):g}% and {float(high):g}% can't be the two shares known",
            "give --low below --high, both between 0 and 100",
        )
    for each in (false_pass, false_fail):
        if not 0 < each < 100:
            raise Refusal(
                f"a limit of {float(each):g}% makes no sense", "give more than 0 and less than 100"
            )
    return Limits(*(Fraction(percent) / 100 for percent in (low, false_pass, high, false_fail)))


def rule_of(module: Module) -> Rule:
    """The rule of the module's own paper."""
    paper = module.blueprint
    return _laid_out(module, paper.write_in, paper.choice, paper.cut, paper.tries)


def candidates(module: Module, tries: int) -> Iterator[Rule]:
    """Papers this module can print, shortest first, with about its own share to write in."""
    paper = module.blueprint
    problems = {problem.id for problem in module.problems if problem.level == "crew"}
    repeated = problems.difference(paper.must) or problems
    for items in range(1, LONGEST + 1):
        share = half_up(Fraction(items * paper.choice, paper.items), Fraction(1))
        choice = min(int(share), len(module.questions))
        rule = _laid_out(module, items - choice, choice, 0, tries)
        enough = rule.plain(chosen=True) >= 0 and rule.plain(chosen=False) >= 0
        if enough and rule.plain(chosen=False) <= MOST_COPIES * len(repeated):
            yield rule


def _chance(rule: Rule, knows: Fraction) -> Chance:
    return Chance(knows, one_try(rule, knows), all_tries(rule, knows), needs_asking(rule, knows))


def _laid_out(module: Module, write_in: int, choice: int, cut: int, tries: int) -> Rule:
    """A rule with the must-gets as papers have them: once, where there is anything else to ask."""
    must = set(module.blueprint.must)
    problems = [problem.id for problem in module.problems if problem.level == "crew"]
    written = [name for name in problems if name in must]
    chosen = [question for question in module.questions if question.id in must]
    alone = bool(written) and len(written) == len(problems)
    each, more = divmod(write_in, len(written)) if alone else (1, 0)
    copies = [max(1, each + (place < more)) for place in range(len(written))]
    musts = [Must(1, chosen=True)] * len(chosen) + [Must(n, chosen=False) for n in copies]
    return Rule(write_in, choice, cut, tries, tuple(musts))


def at_most(chance: Fraction) -> str:
    """A chance as a percent, never less than it is.

    >>> at_most(Fraction(429, 10000)), at_most(Fraction(0))
    ('4.3%', '0%')
    """
    tenths = ceil(chance * 1000)
    return f"{tenths // 10}.{tenths % 10}%" if tenths % 10 else f"{tenths // 10}%"


def at_least(chance: Fraction) -> str:
    """A chance as a percent, never more than it is.

    >>> at_least(Fraction(9876, 10000))
    '98.7%'
    """
    return at_most(Fraction(floor(chance * 1000), 1000))


def passing(each: Plan, knows: Fraction, chance: Fraction) -> str:
    """The chance to pass, rounded against us: up for who should not, down for who should."""
    return at_least(chance) if knows >= each.limits.high else at_most(chance)


def out_of_hundred(chance: Fraction) -> int:
    """People out of a hundred, never fewer than there are."""
    return ceil(chance * 100)


def as_data(each: Plan) -> dict[str, Any]:
    """A plan as plain data for --json; shares and chances from 0 to 1, exact ones as text."""
    return {
        "module": each.module.id,
        "title": each.module.title,
        "clears_for": each.module.grants or None,
        "paper": _rule_data(each.rule),
        "aloud_in_a_row": IN_A_ROW,
        "chances": [
            {
                "knows": float(chance.knows),
                "first_try": float(chance.first),
                "all_tries": float(chance.all),
                "turned_away": float(chance.turned_away),
                "asked_aloud": float(chance.aloud),
                "exact": str(chance.all),
            }
            for chance in each.chances
        ],
        "limits": {
            "low": float(each.limits.low),
            "false_pass": float(each.limits.false_pass),
            "high": float(each.limits.high),
            "false_fail": float(each.limits.false_fail),
        },
        "false_pass": float(each.false_pass),
        "false_pass_second_round": float(each.again),
        "false_fail": float(each.false_fail),
        "kept": each.kept,
        "shortest": _rule_data(each.proposed) if each.proposed else None,
    }


def _rule_data(rule: Rule) -> dict[str, Any]:
    return {
        "items": rule.items,
        "write_in": rule.write_in,
        "choice": rule.choice,
        "cut": rule.cut,
        "tries": rule.tries,
        "must_gets": len(rule.must),
    }
