"""The re-brief sheet: one page a person, and the answers for the trainer."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.course import Change, Module
from generator.model.item import Item
from generator.model.shop import Shop
from generator.printing.environment import render
from generator.printing.files import one_line
from generator.printing.guide import reason


def brief_html(
    shop: Shop, module: Module, change: Change, items: Sequence[Item], people: Sequence[str]
) -> str:
    """The sheets as HTML; a blank one when no name is given."""
    return render(
        "brief.html",
        shop,
        module=module,
        change=change,
        lessons=lessons_of(module, change),
        items=items,
        people=[one_line(name) for name in people] or [""],
    )


def brief_key_html(shop: Shop, module: Module, items: Sequence[Item]) -> str:
    """The answers as HTML, with the reasons to say aloud."""
    reasons = {question.id: reason(question) for question in module.questions}
    return render("brief_key.html", shop, module=module, items=items, reasons=reasons)


def lessons_of(module: Module, change: Change) -> list[tuple[int, str]]:
    """The number in the booklet and the title of each changed lesson."""
    return [
        (number, lesson.title)
        for number, lesson in enumerate(module.lessons, 1)
        if lesson.id in change.lessons
    ]
