"""The audit pack on paper."""

from __future__ import annotations

from generator.model.file import Audit, ModuleFile
from generator.model.shop import Shop
from generator.printing.board import label
from generator.printing.environment import render
from generator.printing.files import one_line
from generator.words import WRITTEN_IN, language_name

STATEMENTS = (
    ("Written hazard communication program", "Who wrote it, and its date"),
    ("Safety data sheets of every product, on every truck", "Where on each truck"),
    ("Hazard assessment for protective gear, written and certified", "Who certified it, and when"),
    ("Weekly check of each eyewash", "Who does it; where the log is"),
    ("Inspection of ladders", "Who does it; where the log is"),
    ("Incident and near-miss log", "Where it is kept"),
    ("Heat plan", "Who calls the break"),
    ("Hearing: noise measured, protection given", "Who measured, and when"),
    ("Respirators: a program, or a statement that none are used", "Which of the two"),
    ("Fall training for ladders and roofs", "Who taught it, and when"),
    ("Fire extinguisher training", "Who taught it, and when"),
    ("Training for carrying dangerous goods on the road, where it binds", "Whom it binds"),
    ("Signed papers and sign-off sheets", "Where they are kept"),
)


def audit_html(shop: Shop, audit: Audit) -> str:
    """The pack as HTML."""
    return render(
        "audit.html",
        shop,
        audit=audit,
        statements=STATEMENTS,
        label=label,
        taught=taught,
        tested=tested,
        seen=seen,
        language=WRITTEN_IN,
    )


def taught(module: ModuleFile) -> str:
    """When lessons were taught, in which language, by whom."""
    told = [
        ", ".join(
            filter(None, (f"{each.trail.seen} by {each.trail.by}", language_name(each.language)))
        )
        for each in module.lessons
        if not each.rebrief
    ]
    briefed = [f"re-brief {each.trail.seen}" for each in module.lessons if each.rebrief]
    return one_line("; ".join([*told, *briefed]))


def tested(module: ModuleFile) -> str:
    """The counted papers: day, code, edition, score and what came out."""
    return one_line(
        "; ".join(
            f"{each.trail.seen} paper {each.code}, edition {each.edition}, "
            f"{language_name(each.language or WRITTEN_IN)}: "
            f"{each.right} of {each.items} (needed {each.cut}), "
            f"{'passed' if each.passed else 'not passed'}"
            for each in module.sittings
            if each.kind != "practice"
        )
    )


def seen(module: ModuleFile) -> str:
    """The sign-off sheets: day, rig, trainer, lines that were yes."""
    return one_line(
        "; ".join(
            f"{each.trail.seen}{f' {each.rig}' if each.rig else ''} by {each.trail.by}, "
            f"{sum(line.answer == 'yes' for line in each.lines)} of {len(each.lines)} lines yes"
            for each in module.signatures
        )
    )
