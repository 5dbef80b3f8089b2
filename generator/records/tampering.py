"""What was done to a record behind its back: the rows that do not fit the chain, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain, pairwise

from generator.records.chain import START, seal
from generator.records.rows import Row

CLOSELY = 200
"""Broken rows looked into one by one; when more are broken, the file as a whole is."""

FEW = 5000
"""Events of a record in which a broken row is tried under every number."""

_WORDS = {
    "kind": "the kind of event",
    "person": "the person",
    "seen": "the day it happened",
    "entered": "the day it was entered",
    "by": "who states it",
    "paper": "the paper's code",
}


@dataclass(frozen=True)
class Link:
    """A row without its text. `home` is the number it was sealed under, 0 when none fits."""

    number: int
    previous: str
    hash: str
    home: int


@dataclass
class Finding:
    """Everything read from the file once: its links, and the rows whose seal is broken."""

    links: list[Link] = field(default_factory=list)
    spoiled: dict[int, Row] = field(default_factory=dict)
    values: dict[str, set[str]] = field(default_factory=lambda: {name: set() for name in _WORDS})


def breaks(rows: Iterable[Row], last: int) -> list[str]:
    """Every edited, removed, reordered or inserted row; `last` is the highest number ever given."""
    found = _read(rows)
    _find_homes(found, last)
    words = [*_removed(found, last), *_moved(found), *_put_in_or_changed(found), *_replaced(found)]
    return [text for _, text in sorted(words, key=lambda each: each[0])]


def _read(rows: Iterable[Row]) -> Finding:
    found = Finding()
    for row in rows:
        whole = seal(row) == row.hash
        found.links.append(Link(row.number, row.previous, row.hash, row.number if whole else 0))
        if not whole:
            found.spoiled[row.number] = row
        for name, values in found.values.items():
            values.add(getattr(row, name))
    return found


def _find_homes(found: Finding, last: int) -> None:
    """Try each broken row under other numbers: a row that fits one was moved from there."""
    places = {link.hash: place for place, link in enumerate(found.links)} if found.spoiled else {}
    step = 0
    for place, link in enumerate(found.links):
        row = found.spoiled.get(link.number)
        if row is None:
            continue
        before = found.links[places[row.previous]] if row.previous in places else None
        likely = [before.home + 1, before.number + 1] if before else [1]
        candidates = chain(likely, (link.number + by for by in (step, 1, -1)), _others(found, last))
        home = next((n for n in candidates if n > 0 and seal(row, n) == row.hash), 0)
        step = home - link.number if home else step
        found.links[place] = Link(link.number, link.previous, link.hash, home)


def _others(found: Finding, last: int) -> Iterable[int]:
    """Less likely numbers: every one in a short record, else those of the broken rows."""
    if len(found.spoiled) > CLOSELY:
        return ()
    return range(1, last + 2) if last <= FEW else found.spoiled


Words = Iterator[tuple[int, str]]
"""The number of an event, to sort by, and what is to say about it."""


def _moved(found: Finding) -> Words:
    """Rows that stand under another number than they were entered with, in runs."""
    away = [each for each in found.links if each.home not in (0, each.number)]
    taken = {each.home: each.hash for each in found.links if each.home == each.number}
    for run in _runs(away):
        first, final = run[0], run[-1]
        if taken.get(first.home) == first.hash:
            yield first.number, f"event {first.number} was put in: it is event {first.home} again"
            continue
        if first.home in taken:
            both = f"both event {first.home} and event {first.number} claim to be it"
            yield first.home, f"a row was put in for event {first.home}: {both}"
        if first is final:
            yield (
                first.number,
                f"event {first.number} stands out of order: it was entered as event {first.home}",
            )
        else:
            here = f"events {first.number} to {final.number} stand out of order"
            yield first.number, f"{here}: they were entered as events {first.home} to {final.home}"


def _runs(links: Sequence[Link]) -> list[list[Link]]:
    """Links that follow each other and were moved by the same step."""
    runs: list[list[Link]] = []
    for link in links:
        last = runs[-1][-1] if runs else None
        if last and (link.number, link.home) == (last.number + 1, last.home + 1):
            runs[-1].append(link)
        else:
            runs.append([link])
    return runs


def _put_in_or_changed(found: Finding) -> Words:
    """Rows that fit under no number."""
    homes = {each.home for each in found.links}
    around = zip([None, *found.links], found.links, [*found.links[1:], None], strict=False)
    for before, link, after in around:
        if link.home:
            continue
        row = found.spoiled[link.number]
        name = f"event {link.number}{_label(row)}"
        skipped = before and after and before.hash == after.previous
        if link.number in homes or skipped:
            yield link.number, f"{name} was put in: it was never entered here"
        elif after and after.home and seal(row) == after.previous:
            yield link.number, f"the seal of {name} was changed; what it says is as it was entered"
        else:
            yield link.number, f"{name} {_what_changed(row, before, found)}"


def _what_changed(row: Row, before: Link | None, found: Finding) -> str:
    """What the seal proves was there before, if it is a value that occurs elsewhere."""
    unlinked = row._replace(previous=before.hash if before else START)
    if seal(unlinked) == row.hash:
        return "was changed: its link to the event before it, and nothing else"
    if len(found.spoiled) <= CLOSELY:
        for name, values in found.values.items():
            for value in values:
                if seal(_with(row, name, value)) == row.hash:
                    now = getattr(row, name)
                    return f'was changed: {_WORDS[name]} was "{value}" and is now "{now}"'
    return "was changed after it was entered"


def _with(row: Row, name: str, value: str) -> Row:
    return Row(**{**row._asdict(), name: value})


def _label(row: Row) -> str:
    words = [row.kind, row.person, row.seen]
    return f" ({', '.join(word for word in words if word)})"


def _replaced(found: Finding) -> Words:
    """Rows with a right seal that the next row was not sealed over."""
    first = found.links[0] if found.links else None
    if first and first.home == first.number == 1 and first.previous != START:
        yield 1, "event 1 was not the first: the ones before it were removed"
    for before, link in pairwise(found.links):
        follows = link.home and before.home and link.home == before.home + 1
        if follows and link.previous != before.hash:
            last = f"event {link.number} was entered after another one"
            yield before.number, f"event {before.number} was replaced: {last}"


def _removed(found: Finding, last: int) -> Words:
    """Numbers that were given and are nobody's any more, in runs."""
    there = {each.home or each.number for each in found.links}
    top = max(there, default=0)  # a number above it counts if no row was moved there
    there |= {each.number for each in found.links if each.number > top}
    gone = [number for number in range(1, last + 1) if number not in there]
    runs: list[list[int]] = []
    for number in gone:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    for run in runs:
        one = f"event {run[0]} was removed"
        many = f"events {run[0]} to {run[-1]} were removed"
        yield run[0], one if len(run) == 1 else many
