"""What marked papers show, item by item: who sat what when, what was right, which slip was made.

Voided papers and marks are out, and of a paper marked twice the later mark counts, since all this
is read from the gathered facts. The kept data is read as it lies: rebuilding thousands of papers
to count answers would take too long.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import Any

from generator.errors import Refusal
from generator.memory import collecting_later
from generator.model.event import Event
from generator.records.facts import Book, Mark, folded
from generator.records.gather import gather

FIRST, LATER, PRACTICE = "first", "later", "practice"
"""The first counted paper of a person in a module and season; a later one, or one on coming back;
one for practice."""

UNNAMED = {  # verdicts that are a slip of their own, when no slip of the problem is named
    "blank": "left it blank",
    "no-unit": "left out the unit",
    "rounding": "rounded too roughly",
    "wrong-unit": "wrote another unit",
    "point": "put the point in the wrong place",
    "too-strong": "gave more than is safe",
}
OUT_OF_ORDER = "put them in another order"

_NO_PAPERS = frozenset(("taught", "sheets-shown", "signed-off"))  # most of a record, left out

Way = tuple[str, str]
"""A wrong way: the question it belongs to ("" for ways of working, which problems share), words."""


@dataclass(frozen=True)
class Shown:
    """What a paper shows of one item; where it stands there twice, of both together."""

    id: str
    lesson: str
    must: bool
    question: bool  # chosen or put in order, not worked out
    right: bool  # every time it stood there
    made: frozenset[Way]
    possible: frozenset[Way]  # those that would have been seen; none when nobody looked


@dataclass(frozen=True)
class Sitting:
    """A marked paper. `shown` is empty when it was marked without a verdict for each item."""

    person: str  # folded, to tell people apart only
    module: str
    title: str
    season: str  # the year
    kind: str
    right: int
    items: int
    shown: tuple[Shown, ...]


def sittings(events: Sequence[Event]) -> tuple[Sitting, ...]:
    """Every marked paper that stands, by person in the order of sitting.

    Raises Refusal when the record of one is not whole.
    """
    with collecting_later():
        book = gather([event for event in events if event.kind not in _NO_PAPERS])
        return tuple(_sittings(book))


def _sittings(book: Book) -> Iterator[Sitting]:
    for who in book.people.values():
        begun: set[tuple[str, str]] = set()
        marks = sorted(who.marks.values(), key=attrgetter("event.seen", "event.number"))
        for mark in marks:
            season = mark.module, mark.event.seen[:4]
            later = mark.back or season in begun
            kind = PRACTICE if mark.practice else LATER if later else FIRST
            if kind == FIRST:
                begun.add(season)
            yield _sitting(book, mark, folded(who.name), kind)


def _sitting(book: Book, mark: Mark, person: str, kind: str) -> Sitting:
    paper, data = book.papers[mark.code], mark.event.data
    try:
        shown = tuple(_shown(list(paper["items"]), list(data["verdicts"]), data.get("how")))
        title, scored = str(paper["module_title"]), (int(data["right"]), int(data["items"]))
    except (LookupError, TypeError, ValueError, AttributeError) as error:
        raise Refusal(
            f"the mark of paper {mark.code} (event {mark.event.number}) is not whole",
            "run rigprimer check --records, then bring back the last backup",
        ) from error
    return Sitting(person, mark.module, title, mark.event.seen[:4], kind, *scored, shown)


def _shown(
    items: Sequence[dict[str, Any]], verdicts: Sequence[dict[str, Any]], how: str | None
) -> Iterator[Shown]:
    """One Shown for each item id, in printed order."""
    named = _slips_named(verdicts, how)
    copies: dict[str, list[tuple[dict[str, Any], dict[str, Any]]]] = {}
    for verdict in verdicts:
        item = items[verdict["position"] - 1]
        copies.setdefault(item["id"], []).append((item, verdict))
    for id, pairs in copies.items():
        first = pairs[0][0]
        wrong = [pair for pair in pairs if not pair[1]["counts"]]
        yield Shown(
            id=id,
            lesson=first["lesson"],
            must=first["must"],
            question=first["form"] != "write" and not first["slips"],
            right=not wrong,
            made=frozenset(way for pair in wrong if named for way in _made(*pair)),
            possible=frozenset(way for pair in pairs if named for way in _possible(pair[0])),
        )


def _slips_named(verdicts: Sequence[dict[str, Any]], how: str | None) -> bool:
    """Whether whoever marked it looked for slips: by eye, only some do."""
    wrong = [verdict for verdict in verdicts if not verdict["counts"]]
    return how != "by eye" or not wrong or any(verdict["slip"] for verdict in wrong)


def _possible(item: dict[str, Any]) -> Iterator[Way]:
    yield "", UNNAMED["blank"]
    if item["form"] == "order":
        yield item["id"], OUT_OF_ORDER
    elif not item["slips"] and item["options"]:
        yield from (_chose(item, option) for option in item["options"] if not option["right"])
    else:
        yield from (("", slip["name"]) for slip in item["slips"])
        yield from (("", words) for words in UNNAMED.values())


def _made(item: dict[str, Any], verdict: dict[str, Any]) -> Iterator[Way]:
    """The slip of a wrong answer, when it has a name."""
    names = {slip["id"]: slip["name"] for slip in item["slips"]}
    if verdict["slip"] in names:
        yield "", names[verdict["slip"]]
    elif verdict["kind"] in UNNAMED:
        yield "", UNNAMED[verdict["kind"]]
    elif item["form"] == "order":
        yield item["id"], OUT_OF_ORDER
    elif item["form"] == "choose" and (option := _chosen(item, verdict["written"])):
        yield _chose(item, option)


def _chose(item: dict[str, Any], option: dict[str, Any]) -> Way:
    return item["id"], f'chose "{option["text"].rstrip(".")}"'


def _chosen(item: dict[str, Any], written: str) -> dict[str, Any] | None:
    """The wrong option that was written down, by its letter or its text."""
    bare = written.strip(" .,:;()[]").casefold()
    pairs = zip("abc", item["options"], strict=False)
    return next(
        (
            option
            for letter, option in pairs
            if not option["right"] and bare in (letter, option["text"].strip(" .").casefold())
        ),
        None,
    )
