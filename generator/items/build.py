"""Items: what is printed for a drawn problem or a question, and how it is marked."""

from __future__ import annotations

import re
from collections.abc import Callable, Container
from fractions import Fraction
from functools import lru_cache

from generator.errors import Refusal
from generator.items.draw import Drawer, Drawn, WrongWay, accepted, drawer
from generator.items.stream import Stream
from generator.maths.amounts import amount_text, mark_text
from generator.maths.units import shown
from generator.model.course import Question
from generator.model.item import LETTERS, Answer, Item, Lines, Option, SlipValue
from generator.model.problem import Choices, Problem
from generator.solving.answer import Outcome, inexact, words_of
from generator.solving.explain import working
from generator.words import answer_word, enumerated, words

_BRACED = re.compile(r"\{([^{}]*)\}")

MOST_SEEDS = 500
"""Seeds tried for an item unlike others; a problem that `check` lets pass needs a few."""


def draw_item(problem: Problem, seed: int, form: str = "write") -> Item:
    """The item of a problem and a seed, to "write" or to "choose" among options.

    Raises Refusal when the problem has no allowed numbers.
    """
    source = drawer(problem)
    drawn = source.drawn(seed)
    body = _body(source, drawn)
    return Item(
        id=problem.id,
        form=form,
        seed=seed,
        ask=body.ask if form == "choose" else body.ask_rounded,
        answer=body.answer,
        options=_options(source, drawn, body.answer, seed) if form == "choose" else (),
        working=body.working,
        slips=body.slips,
        given=body.given,
        lesson=problem.lesson,
        must=problem.must,
        words=body.words,
        never_above=problem.rounding == "down",
    )


def unlike(
    made: Callable[[int], Item], seed: int, asked: Container[str], fits: Callable[[Item], bool]
) -> Item:
    """The first item, from that seed on, that fits and asks something not asked yet.

    Raises Refusal when the problem makes too few different ones.
    """
    for each in range(seed, seed + MOST_SEEDS):
        item = made(each)
        if item.ask not in asked and fits(item):
            return item
    raise Refusal(
        f"{item.id} makes too few different items",
        "give draw: more values; rigprimer check says how many it makes",
    )


def question_item(question: Question, seed: int) -> Item:
    """A question with its options, or the things to put in order, in a drawn order."""
    stream = Stream(question.id, seed)
    if question.order:
        return _order_item(question, seed, stream)
    options = tuple(
        Option(choice.text, choice.right, "", choice.reason)
        for choice in stream.shuffled(question.options)
    )
    right = next(place for place, option in enumerate(options) if option.right)
    return Item(
        id=question.id,
        form="choose",
        seed=seed,
        ask=question.ask,
        answer=Answer(None, None, "", text=LETTERS[right]),
        options=options,
        lesson=question.lesson,
        must=question.must,
    )


def _order_item(question: Question, seed: int, stream: Stream) -> Item:
    things = stream.shuffled(question.order)
    while things == list(question.order):  # printed in the right order it would ask nothing
        things = stream.shuffled(question.order)
    letters = "".join(LETTERS[things.index(thing)] for thing in question.order)
    return Item(
        id=question.id,
        form="order",
        seed=seed,
        ask=question.ask,
        answer=Answer(None, None, "", text=letters),
        options=tuple(Option(thing, False) for thing in things),
        order=letters,
        working=(question.reason,) if question.reason else (),
        lesson=question.lesson,
        must=question.must,
    )


class _Body:
    """The part of an item that hangs on its numbers alone, made once a combination."""

    def __init__(self, source: Drawer, drawn: Drawn) -> None:
        problem, outcome = source.problem, drawn.outcome
        columns = {choice.column or choice.name for choice in problem.choices}
        texts = {choice.name: _given_text(problem, choice, drawn) for choice in problem.choices}
        self.ask = _BRACED.sub(lambda found: texts.get(found[1], found[0]), problem.ask)
        self.ask_rounded = f"{self.ask} {_rounding(problem)}"
        self.answer = _answer(source, outcome)
        self.slips = tuple(_slip_value(source, way) for way in drawn.wrong)
        self.working = Lines(
            lambda: (*working(source.plan.arrangement, outcome), *_rounded(problem, self.answer))
        )
        self.given = {name: drawn.given[name] for name in drawn.given if name in columns}
        self.words = words_of(problem.relation, problem.find) if problem.word_share else ()


def _answer(source: Drawer, outcome: Outcome) -> Answer:
    """What is right: the word, or the number as rounded with the range that is accepted."""
    problem, unit = source.problem, source.unit.text
    if outcome.value is None:
        text = answer_word(outcome.word, problem.language)
        return Answer(None, None, unit, outcome.word, text=text)
    value, low, high = accepted(outcome.value, problem.mark, problem.rounding)
    return Answer(
        value=value,
        exact=outcome.value,
        unit=unit,
        low=low,
        high=high,
        inexact=inexact(outcome, source.plan.arrangement),
        text=source.text(value),
    )


def _given_text(problem: Problem, choice: Choices, drawn: Drawn) -> str:
    quantity = problem.relation.quantity(choice.column or choice.name)
    value = drawn.given[choice.name]
    assert quantity
    assert isinstance(value, Fraction)
    return amount_text(value, quantity.unit, language=problem.language)


def _body(source: Drawer, drawn: Drawn) -> _Body:
    body = drawn.kept.get("body")
    if not isinstance(body, _Body):
        body = drawn.kept["body"] = _Body(source, drawn)
    return body


@lru_cache(maxsize=512)
def _rounding(problem: Problem) -> str:
    """The sentence that states unit and rounding, so that no paper leaves it to be guessed."""
    language = problem.language
    said = words(language)["rounding"]
    if problem.find == "verdict":
        named = [answer_word(word, language) for word in words_of(problem.relation, "verdict")]
        return said["write"].format(words=enumerated(named, language))
    if problem.find in problem.relation.whole:
        unit = shown(drawer(problem).unit, language)
        return said["size" if unit else "count"].format(unit=unit)
    whole = "whole_" if problem.mark == 1 and problem.rounding != "nearest" else ""
    mark = mark_text(problem.mark, drawer(problem).unit, language)
    return said[whole + problem.rounding].format(mark=mark)


def _rounded(problem: Problem, answer: Answer) -> tuple[str, ...]:
    if answer.value == answer.exact:
        return ()
    return (f"{words(problem.language)['rounding'][f'at_{problem.rounding}']}: {answer.text}",)


def _slip_value(source: Drawer, way: WrongWay) -> SlipValue:
    language = source.problem.language
    text = (
        answer_word(way.slip.word, language)
        if way.value is None
        else amount_text(way.value, source.unit, language=language)
    )
    return SlipValue(way.slip.id, way.slip.name, way.slip.tell, way.value, way.slip.word, text)


def _options(source: Drawer, drawn: Drawn, answer: Answer, seed: int) -> tuple[Option, ...]:
    """Three options in rising order, the place of the right one drawn among those possible.

    Words follow the numbers; words alone stand in the order of the relation.
    """
    stream = Stream(f"{source.problem.id} options", seed)
    if answer.word and all(way.value is None for way in drawn.wrong):
        return _word_options(source, drawn, answer, stream)
    ways = {source.option(way): way for way in drawn.wrong}
    ways.pop("", None)
    right, below, above = _rank(answer.value), list[WrongWay](), list[WrongWay]()
    for way in ways.values():
        (below if _rank(way.value) < right else above).append(way)
    places = [n for n in range(3) if n <= len(below) and 2 - n <= len(above)]
    place = stream.one_of(places)
    chosen = stream.shuffled(below)[:place] + stream.shuffled(above)[: 2 - place]
    chosen.sort(key=lambda way: _rank(way.value))
    options = _offered(source, chosen)
    options.insert(place, Option(answer.text, True))
    return tuple(options)


def _rank(value: Fraction | None) -> tuple[bool, Fraction | int]:
    """Numbers in rising order, then words."""
    return value is None, value or 0


def _offered(source: Drawer, ways: list[WrongWay]) -> list[Option]:
    return [Option(source.option(way), False, way.slip.id, way.slip.tell) for way in ways]


def _word_options(
    source: Drawer, drawn: Drawn, answer: Answer, stream: Stream
) -> tuple[Option, ...]:
    problem = source.problem
    options = _offered(source, stream.shuffled(drawn.wrong)[:2])
    options.append(Option(answer.text, True))
    known = words_of(problem.relation, problem.find)
    order = [answer_word(word, problem.language) for word in known]
    return tuple(sorted(options, key=lambda option: order.index(option.text)))
