"""The same paper in another language: its items drawn again from the words of a curriculum."""

from __future__ import annotations

from dataclasses import replace

from generator.items.build import draw_item, question_item
from generator.model.course import Curriculum, Module, Question
from generator.model.item import Item
from generator.model.paper import Paper
from generator.model.problem import Problem


def drawn(thing: Problem | Question, seed: int) -> Item:
    """The item of a problem or a question and a seed."""
    return draw_item(thing, seed) if isinstance(thing, Problem) else question_item(thing, seed)


def reworded(paper: Paper, curriculum: Curriculum) -> Paper:
    """The same paper, its items with the same numbers, in the language of a curriculum."""
    module = curriculum.modules[paper.module]
    things = _things(module)
    items = tuple(drawn(things[item.id], item.seed) for item in paper.items)
    language = curriculum.shop.language
    return replace(paper, items=items, module_title=module.title, language=language)


def untranslated(paper: Paper, curriculum: Curriculum) -> int:
    """How many items of the paper stand in another language than the paper's own."""
    things = _things(curriculum.modules[paper.module])
    return sum(things[item.id].language != paper.language for item in paper.items)


def _things(module: Module) -> dict[str, Problem | Question]:
    problems: dict[str, Problem | Question] = {each.id: each for each in module.problems}
    return problems | {each.id: each for each in module.questions}
