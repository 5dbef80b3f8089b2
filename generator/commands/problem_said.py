"""Problems and what they draw, in words on the screen and as data."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import click

from generator.commands.saying import exact_text, number, say_json
from generator.items.draw import unit_of_answer
from generator.model.item import LETTERS, Item
from generator.model.problem import Problem
from generator.workflows.check import PLENTY, distinct_items


def list_problems(problems: Sequence[Problem], json_out: bool) -> None:
    """A table of all problems: where each belongs, and how many different items it makes."""
    if json_out:
        say_json([{"id": p.id, "module": p.module, "relation": p.relation.id} for p in problems])
        return
    longest = max(len(p.id) for p in problems), max(len(p.relation.id) for p in problems)
    row = f"{{:{longest[0] + 2}}}{{:17}}{{:{longest[1] + 2}}}{{:7}}{{:>8}}{{:>7}}  {{}}".format
    click.echo(row("problem", "module", "relation", "level", "distinct", "slips", "sources"))
    for each in problems:
        found = distinct_items(each)
        distinct = f"{found}+" if found == PLENTY else str(found)
        sources = ", ".join(each.relation.sources)
        where = each.module or "(owner)"
        counts = (distinct, len(each.slips))
        click.echo(row(each.id, where, each.relation.id, each.level, *counts, sources))


def say_item(item: Item) -> None:
    """An item with its options, working and slips."""
    click.echo(f"{item.id}, seed {item.seed}\n{item.ask}")
    for letter, option in zip(LETTERS, item.options, strict=False):
        click.echo(f"  {letter}  {option.text}{'  (right)' if option.right else ''}")
    for line in item.working:
        click.echo(f"    {line}")
    for slip in item.slips:
        click.echo(f"    {slip.text}: {slip.name}")
    click.echo()


def item_data(item: Item, source: Problem) -> dict[str, Any]:
    """An item as plain data for --json; its unit as the relation writes it."""
    answer = item.answer
    return {
        "id": item.id,
        "seed": item.seed,
        "given": {
            name: [number(v) for v in value] if isinstance(value, tuple) else number(value)
            for name, value in item.given.items()
        },
        "ask": item.ask,
        "answer": {
            "value": number(answer.value),
            "exact": exact_text(answer.exact),
            "unit": unit_of_answer(source).text,
            "word": answer.word or None,
            "low": number(answer.low),
            "high": number(answer.high),
        },
        "options": [
            {"text": option.text, "correct": option.right, "slip": option.slip or None}
            for option in item.options
        ],
        "working": list(item.working),
        "slips": [{"id": slip.id, "value": number(slip.value)} for slip in item.slips],
    }
