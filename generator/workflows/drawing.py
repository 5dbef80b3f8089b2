"""Papers drawn at random, no two alike; they are printed and kept in `paper.py`."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Sequence
from functools import partial
from typing import Any

from generator.errors import Refusal
from generator.items.build import unlike
from generator.model.course import Curriculum, Module
from generator.model.item import Item
from generator.model.paper import Paper
from generator.papers.codes import new_code
from generator.papers.pick import Pick, picks, returning
from generator.workflows.reword import drawn
from generator.workflows.today import today

_DRAWS = 50
"""How often a paper that is like another is drawn anew."""


def draw_papers(
    curriculum: Curriculum,
    module: Module,
    people: Sequence[str],
    practice: bool,
    used: Iterable[str] = (),
    day: str | None = None,
    *,
    back: bool = False,
) -> tuple[Paper, ...]:
    """A paper each, no two alike, printed on that day (today if none); "" for a spare one.

    No code of `used` is given again. Raises Refusal.
    """
    papers: dict[tuple[Any, ...], Paper] = {}
    taken = set(used)
    for person in people:
        code = new_code(taken)
        taken.add(code)
        for _ in range(_DRAWS):
            paper = draw_paper(curriculum, module, person, practice, code, day=day, back=back)
            if _asked(paper) not in papers:
                break
        else:
            raise Refusal(
                f"{module.id} has too few items for {len(people)} papers, no two alike",
                "write more questions or problems, or print fewer at a time",
            )
        papers[_asked(paper)] = paper
    return tuple(papers.values())


def _asked(paper: Paper) -> tuple[Any, ...]:
    """What a person sees of a paper: papers that ask the same in the same order are alike."""
    return tuple((item.ask, tuple(o.text for o in item.options)) for item in paper.items)


def draw_paper(
    curriculum: Curriculum,
    module: Module,
    person: str,
    practice: bool,
    code: str,
    seed: str | None = None,
    day: str | None = None,
    *,
    back: bool = False,
) -> Paper:
    """One paper, printed on that day (today if none); `back` makes it a short return paper.

    `seed` is 128 random bits in hex; the same seed gives the same items.
    """
    seed = seed or secrets.token_hex(16)
    asked = returning(module) if back else module
    return Paper(
        code=code,
        seed=seed,
        module=module.id,
        module_title=module.title,
        edition=module.edition,
        curriculum=curriculum.digest,
        person=person,
        printed=day or today(),
        items=_items(picks(asked, seed)),
        cut=asked.blueprint.cut,
        practice=practice,
        language=curriculum.shop.language,
        back=back,
        practice_cut=asked.blueprint.practice_cut if practice else 0,
    )


def _items(chosen: Sequence[Pick]) -> tuple[Item, ...]:
    """The items, each with numbers no other item of the paper has."""
    items: dict[str, Item] = {}
    for pick in chosen:
        item = unlike(partial(drawn, pick.thing), pick.seed, items, lambda item: True)
        items[item.ask] = item
    return tuple(items.values())
