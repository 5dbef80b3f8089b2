"""A person's file on paper."""

from __future__ import annotations

from generator.model.file import PersonFile, Trail
from generator.model.shop import Shop
from generator.printing.board import MEANS, label
from generator.printing.environment import render
from generator.words import WRITTEN_IN


def person_html(shop: Shop, file: PersonFile) -> str:
    """The file as HTML: where the person stands, then what that rests on."""
    return render(
        "person.html",
        shop,
        file=file,
        label=label,
        means=MEANS,
        days=days,
        trainers=trainers_in(file),
        language=WRITTEN_IN,
    )


def trainers_in(file: PersonFile) -> list[tuple[str, str]]:
    """Who stated something in the file, and why that word is taken, each pair once."""
    trails = [remark.trail for remark in file.remarks]
    for module in file.modules:
        trails += [each.trail for each in module.lessons]
        trails += [each.trail for each in module.signatures]
        for sitting in module.sittings:
            trails += [sitting.trail, *(oral.trail for oral in sitting.orals)]
    ordered = sorted(trails, key=lambda trail: trail.number)
    return list(dict.fromkeys((trail.by, trail.basis) for trail in ordered if trail.basis))


def days(trail: Trail) -> str:
    """The day it happened, and the day it was entered where that was another."""
    return trail.seen if trail.seen == trail.entered else f"{trail.seen}, entered {trail.entered}"
