"""What the crew gets wrong, counted from the marked papers, with the worst first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any, TypeVar

from generator.errors import Refusal
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.model.tally import (
    Count,
    ItemTally,
    ModuleTally,
    Papers,
    SlipTally,
    Tally,
    in_words,
    worst_first,
)
from generator.papers.analysis import FEW
from generator.records.sittings import FIRST, LATER, PRACTICE, Shown, Sitting, Way, sittings

TOO_FEW = "too few to say"
T = TypeVar("T")
Rows = Sequence[tuple[Sitting, Shown]]
"""What papers show of something, each with the paper it stands on."""


def marked_papers(events: Sequence[Event], module: str | None = None) -> tuple[Sitting, ...]:
    """The marked papers, of one module if it is named. Raises Refusal when there are none."""
    found = tuple(s for s in sittings(events) if module in (None, s.module))
    if not found:
        raise Refusal(
            "no paper has been marked yet" + (f" in {module}" if module else ""),
            "mark one first: rigprimer grade",
        )
    return found


def tallies(papers: Iterable[Sitting], curriculum: Curriculum) -> tuple[ModuleTally, ...]:
    """A tally for each module that has marked papers, in the order of the curriculum."""
    by_module = _grouped((sitting.module, sitting) for sitting in papers)
    order = [*curriculum.modules, *sorted(set(by_module) - set(curriculum.modules))]
    return tuple(_tally(by_module[id], curriculum) for id in order if id in by_module)


def seasons_of(papers: Iterable[Sitting]) -> tuple[str, ...]:
    """The seasons (years) in which papers were sat."""
    return tuple(sorted({sitting.season for sitting in papers}))


def by_season(papers: Iterable[Sitting]) -> dict[str, list[Sitting]]:
    """The papers of each season, the oldest first."""
    papers = list(papers)
    return {season: [s for s in papers if s.season == season] for season in seasons_of(papers)}


def first_tries(papers: Iterable[Sitting]) -> list[Sitting]:
    """The first counted tries that were marked item by item."""
    return [sitting for sitting in papers if sitting.kind == FIRST and sitting.shown]


def _tally(papers: Sequence[Sitting], curriculum: Curriculum) -> ModuleTally:
    module = curriculum.modules.get(papers[0].module)
    titles = {lesson.id: lesson.title for lesson in module.lessons} if module else {}
    rows = [(s, shown) for s in papers if s.kind != LATER for shown in s.shown]
    by_item = _grouped((shown.id, (s, shown)) for s, shown in rows)
    items = [_item(found, titles) for found in by_item.values()]
    return ModuleTally(
        module=papers[0].module,
        title=module.title if module else papers[-1].title,
        short=module.short if module else papers[0].module,
        seasons=seasons_of(papers),
        papers=_counted(papers),
        items=tuple(worst_first(items)),
        slips=_slips(rows, titles),
    )


def _grouped(pairs: Iterable[tuple[str, T]]) -> dict[str, list[T]]:
    groups: dict[str, list[T]] = {}
    for key, value in pairs:
        groups.setdefault(key, []).append(value)
    return groups


def _counted(papers: Sequence[Sitting]) -> Papers:
    kinds = Counter(sitting.kind for sitting in papers if sitting.shown)
    people = {sitting.person for sitting in papers}
    without = sum(not sitting.shown for sitting in papers)
    return Papers(kinds[FIRST], kinds[PRACTICE], kinds[LATER], without, len(people))


def _item(rows: Rows, titles: dict[str, str]) -> ItemTally:
    shown = rows[-1][1]
    missed = _tally_of((s, not seen.right) for s, seen in rows)
    main = FIRST if missed.first.of else PRACTICE
    ways = Counter(words for s, seen in rows if s.kind == main for _, words in seen.made)
    slip, count = min(ways.items(), key=lambda way: (-way[1], way[0]), default=("", 0))
    return ItemTally(
        shown.id, _title(shown, titles), shown.must, shown.question, missed, slip, count
    )


def _slips(rows: Rows, titles: dict[str, str]) -> tuple[SlipTally, ...]:
    """Every slip that was made; a paper counts once however often it shows it."""
    made: dict[Way, list[tuple[Sitting, Shown]]] = {}
    could: dict[Way, dict[int, Sitting]] = {}
    for sitting, shown in rows:
        for way in shown.made:
            made.setdefault(way, []).append((sitting, shown))
        for way in shown.possible | shown.made:
            could.setdefault(way, {})[id(sitting)] = sitting
    slips = [_slip(way, found, could[way].values(), titles) for way, found in made.items()]
    return tuple(worst_first(slips))


def _slip(way: Way, rows: Rows, could: Iterable[Sitting], titles: dict[str, str]) -> SlipTally:
    makers = {id(sitting) for sitting, _ in rows}
    items = Counter(shown.id for _, shown in rows)
    lessons = Counter(_title(shown, titles) for _, shown in rows)
    made = _tally_of((sitting, id(sitting) in makers) for sitting in could)
    return SlipTally(way[1], _commonest(items), _commonest(lessons), made)


def _title(shown: Shown, titles: dict[str, str]) -> str:
    return titles.get(shown.lesson, in_words(shown.lesson))


def _commonest(counted: Counter[str]) -> tuple[str, ...]:
    return tuple(sorted(counted, key=lambda name: (-counted[name], name)))


def _tally_of(pairs: Iterable[tuple[Sitting, bool]]) -> Tally:
    """Papers of each kind counted, those for which the answer is yes."""
    pairs = list(pairs)
    kinds = {kind: [yes for s, yes in pairs if s.kind == kind] for kind in (FIRST, PRACTICE)}
    first, practice = (Count(sum(kinds[kind]), len(kinds[kind])) for kind in (FIRST, PRACTICE))
    main = FIRST if first.of else PRACTICE
    return Tally(first, practice, len({s.person for s, _ in pairs if s.kind == main}))


def share_text(tally: Tally) -> str:
    """The share as a percent, or that there are too few people to say.

    >>> share_text(Tally(Count(5, 8), Count(), 8)), share_text(Tally(Count(6, 12), Count(), 12))
    ('too few to say', '50%')
    """
    if tally.people < FEW:
        return TOO_FEW
    return f"{(200 * tally.main.count + tally.main.of) // (2 * tally.main.of)}%"


def as_data(tally: ModuleTally) -> dict[str, Any]:
    """A tally as plain data for --json."""
    papers = tally.papers
    return {
        "module": tally.module,
        "title": tally.title,
        "seasons": list(tally.seasons),
        "people": papers.people,
        "first_tries": papers.first,
        "practice_papers": papers.practice,
        "later_tries_not_counted": papers.later,
        "marked_without_items": papers.without,
        "items": [
            {
                "id": each.id,
                "kind": "question" if each.question else "problem",
                "lesson": each.lesson,
                "must": each.must,
                **_tally_data(each.missed, "right"),
                "commonest_slip": each.slip or None,
            }
            for each in tally.items
        ],
        "slips": [
            {
                "slip": each.words,
                "items": list(each.items),
                "lessons": list(each.lessons),
                **_tally_data(each.made, "made"),
            }
            for each in tally.slips
        ],
    }


def _tally_data(tally: Tally, name: str) -> dict[str, Any]:
    """Both counts; those of what is `right` are kept as what was missed."""
    counts = {"first_tries": tally.first, "practice": tally.practice}
    shown = {key: each.rest if name == "right" else each for key, each in counts.items()}
    return {
        **{key: {name: each.count, "of": each.of} for key, each in shown.items()},
        "people": tally.people,
        "too_few": tally.people < FEW,
    }
