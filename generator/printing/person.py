"""A person's file on paper."""

from __future__ import annotations

from generator.model.file import PersonFile, Trail
from generator.model.shop import Shop
from generator.printing.board import label
from generator.printing.environment import render
from generator.printing.files import one_line
from generator.words import WRITTEN_IN


def person_html(shop: Shop, file: PersonFile) -> str:
    """The file as HTML: where the person stands, then what that rests on."""
    return render(
        "person.html",
        shop,
        file=file,
        label=label,
        one_line=one_line,
        days=days,
        language=WRITTEN_IN,
    )


def days(trail: Trail) -> str:
    """The day it happened, and the day it was entered where that was another."""
    return trail.seen if trail.seen == trail.entered else f"{trail.seen}, entered {trail.entered}"
