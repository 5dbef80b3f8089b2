"""Laws of standing, and an independent oracle that works it out the slow way."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields
from datetime import date, timedelta
from itertools import pairwise
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.model.shop import Lapse, Rules
from generator.model.standing import STATES, WORKING
from generator.records.standing import standings

History = Callable[[str], tuple[Event, ...]]

EXTRA = """
2025-01-11 trainer-ended Boss by Owner why=office
2025-01-11 left Boss
2025-01-11 suspended Boss by Owner why=speeding
2025-01-12 returned Boss
2025-01-12 suspended Ana by Owner module=mixing why=no-goggles
2025-01-13 restored Ana by Owner module=mixing
2025-01-13 left Ana
2025-01-14 returned Ana
2025-01-15 sat Ana by Boss M2 mixing 1/4
2025-01-16 sat Ana by Boss M3 mixing 3/4 missed=acid
2025-01-16 oral Ana by Cal module=mixing item=acid right_in_a_row=2 paper=M3
2025-01-16 oral Ana by Boss module=mixing item=acid right_in_a_row=2 paper=M3
2025-01-16 oral Ana by Cal module=mixing item=acid right_in_a_row=1 paper=M3
2025-01-17 sat Ana by Cal M4 mixing 4/4 practice
2025-01-17 sat Ana by Cal M5 mixing 4/4 edition=2
2025-01-18 sat Cal by Boss M6 mixing 4/4 spare
2025-01-18 marked Ana by Cal M6 mixing 4/4
2025-01-19 signed-off Ana by Cal module=mixing rig=rig-1 goggles=yes pour=yes tidy=told
2025-01-19 signed-off Ana by Cal module=mixing rig=rig-1 goggles=yes pour=told tidy=yes
2025-01-19 signed-off Ana by Ana module=mixing rig=rig-2 goggles=yes pour=yes tidy=yes
2025-01-19 signed-off Ana by Cal module=mixing rig=rig-2 goggles=yes pour=yes tidy=yes
2025-01-12 signed-off Ana by Cal module=mixing rig=rig-1 goggles=yes pour=not_yet tidy=yes
2025-01-09 signed-off Ana by Cal module=mixing rig=rig-1 goggles=yes pour=yes tidy=yes
2025-01-08 trainer-ended Cal by Owner why=never-was
2025-01-15 trainer-named Cal by Owner basis=again
2025-01-10 restored Ana by Owner module=mixing
2025-01-20 sheets-shown Ana by Cal rig=rig-2
2025-02-01 edition - module=mixing edition=2 lessons=percent,ratios must=goggles,pour
2025-02-03 taught Ana by Boss module=mixing lessons= edition=2 rebrief=yes
2025-01-13 incident Ana by Boss module=mixing what=splash
2025-01-18 incident Ana by Boss what=slipped
2025-02-05 incident Ana by Boss module=gear what=hose-whipped
2025-01-14 changed - by Owner module=mixing rig=rig-1 cause=equipment what=new-pump
2025-01-06 changed - by Owner module=mixing rig= cause=strength_test what=new-strips
2025-02-04 changed - by Owner module=gear rig= cause=hazard what=hot-water
2025-01-14 suspended Ana by Owner module=gear why=ran-it-dry
2025-01-18 restored Ana by Owner module=gear
2025-01-14 under-age Ana by Owner until=2025-02-01
2025-01-20 under-age Ana by Owner until=2025-01-15
2025-01-08 sat Ana by Boss M8 mixing 2/4
2025-01-09 sat Ana by Boss M9 mixing 2/4
2025-01-16 oral Ana by Boss module=mixing item=acid right_in_a_row=2 paper=M3 alone=yes
2025-01-17 oral Ana by Cal module=mixing item=acid right_in_a_row=2 paper=M3
2025-01-17 sat Ana by Boss R1 mixing 4/4 back
2025-01-18 sat Ana by Cal R2 mixing 1/4 back
2025-09-01 sat Ana by Boss R3 mixing 4/4 back
2025-05-20 exception Ana by Owner why=seen-at-work
2025-06-20 sat Ana by Boss G2 gear 2/4
2025-09-01 sat Ana by Boss M7 mixing 4/4 edition=2
2025-09-02 signed-off Ana by Cal module=mixing rig=rig-1 goggles=yes pour=yes tidy=yes
"""
DAYS = (
    "2025-01-10",
    "2025-01-19",
    "2025-02-10",
    "2025-04-15",
    "2025-09-05",
    "2025-12-28",
    "2026-01-20",
)


@dataclass(frozen=True)
class Pool:
    """Events to make histories of: those of a cleared person, and those that may get in between."""

    base: tuple[Event, ...]
    extra: tuple[Event, ...]

    def history(self, random: Random) -> tuple[Event, ...]:
        """Most of the base, some of the rest, some twice, now and then shuffled, some voided."""
        base, extra = random.choice((0.9, 0.98, 1)), random.choice((0.05, 0.2, 0.5))
        keep = [e for e in self.base if random.random() < base]
        keep += [e for e in self.extra if random.random() < extra]
        keep += random.choices(keep, k=random.choice((0, 0, 1, 3)))
        if random.random() < 0.1:
            random.shuffle(keep)
        else:
            keep.sort(key=lambda event: (event.seen, event.kind, random.random()))
        for _ in range(random.choice((0, 0, 0, 1, 2))):  # entered late
            keep.append(keep.pop(random.randrange(len(keep))))
        for _ in range(random.choice((0, 0, 0, 1, 3))):
            aim = {"number": random.randint(1, len(keep))}
            keep.append(Event("voided", "Ana", "2025-01-20", "2025-01-20", "Boss", aim))
        return tuple(event._replace(number=n) for n, event in enumerate(keep, start=1))


@pytest.fixture(scope="module")
def pool(starts: dict[str, str], history: History) -> Pool:
    return Pool(history(starts["year"]), history(EXTRA))


# The oracle: no folding and no state, each question asked of the whole history anew.


def stands(events: Sequence[Event], number: int) -> bool:
    """Whether no standing voiding aims at the event."""
    return not any(
        e.kind == "voided" and e.data["number"] == number and stands(events, e.number)
        for e in events
        if e.number > number
    )


class Oracle:
    """Answers about one history, one curriculum and one day."""

    def __init__(self, events: Sequence[Event], curriculum: Curriculum, on: str) -> None:
        self.events = [
            e for e in events if e.kind != "voided" and stands(events, e.number) and e.seen <= on
        ]
        self.curriculum, self.on = curriculum, on

    def about(self, person: str, *kinds: str) -> list[Event]:
        return [e for e in self.events if e.person == person and e.kind in kinds and self.known(e)]

    def known(self, event: Event) -> bool:
        """Whether the person had joined by then."""
        return any(
            e.kind in ("joined", "returned") and e.person == event.person
            for e in self.events
            if e.number <= event.number
        )

    def skills(self, module: Module) -> list[str]:
        """The module; and the duties it builds on, however far back, if it is one itself."""
        return [module.id, *(self.duties_before(module) if module.grants else ())]

    def duties_before(self, module: Module) -> list[str]:
        needed = [self.curriculum.modules[name] for name in module.requires]
        further = [name for each in needed for name in self.duties_before(each)]
        return further + [each.id for each in needed if each.grants]

    def here(self, person: str, before: int = 10**9) -> bool:
        moves = [e for e in self.about(person, "joined", "left", "returned") if e.number < before]
        return bool(moves) and moves[-1].kind != "left"

    def suspended(self, person: str, module: str, before: int = 10**9) -> bool:
        """Whether a suspension stands that was not lifted later, by order and by day."""
        turns = [e for e in self.about(person, "suspended", "restored") if e.number < before]
        return any(
            e.kind == "suspended"
            and (of := e.data.get("module", "")) in ("", module)
            and not any(
                later.kind == "restored"
                and later.data.get("module", "") in ("", of)
                and later.number > e.number
                and later.seen >= e.seen
                for later in turns
            )
            for e in turns
        )

    def trainer(self, person: str, module: str, before: int) -> bool:
        turns = [
            e
            for e in self.about(person, "trainer-named", "trainer-ended", "left")
            if e.number < before and (e.kind != "trainer-named" or e.by)
        ]
        named = bool(turns) and turns[-1].kind == "trainer-named"
        return named and self.here(person, before) and not self.suspended(person, module, before)

    def vouched(self, event: Event) -> bool:
        """Whether a trainer, not himself, stands for it: by number as it was entered, and by day
        as it was seen.
        """
        if event.by == event.person:
            return False
        if not self.trainer(event.by, event.data["module"], event.number):
            return False
        turns = self.about(event.by, "trainer-named", "trainer-ended", "left")
        ended = [e.number for e in turns if e.kind != "trainer-named" and e.number < event.number]
        named = [
            e.seen
            for e in turns
            if e.kind == "trainer-named"
            and e.by
            and max(ended, default=0) < e.number < event.number
        ]
        too_early = any(
            e.kind == "trainer-ended" and e.number > event.number and e.seen < event.seen
            for e in turns
        )
        return min(named) <= event.seen and not too_early

    def paper(self, mark: Event) -> dict[str, Any] | None:
        """The paper that was marked, if it was printed before."""
        issued = [
            e.data["paper"]
            for e in self.events
            if e.kind == "issued"
            and e.data["paper"]["code"] == mark.data["paper"]
            and e.number < mark.number
        ]
        return issued[-1] if issued else None

    def papers(self, person: str, module: str) -> list[tuple[Event, dict[str, Any]]]:
        """The counted papers of the module, each with its last mark, in order of that mark."""
        last: dict[str, tuple[Event, dict[str, Any]]] = {}
        for mark in self.about(person, "marked"):
            paper = self.paper(mark)
            if paper and paper["person"] in ("", person):
                last[mark.data["paper"]] = (mark, paper)
        counted = [
            (mark, paper)
            for mark, paper in last.values()
            if paper["module"] == module and not paper["practice"] and not mark.data["practice"]
        ]
        return sorted(counted, key=lambda pair: pair[0].number)

    def is_pass(self, person: str, mark: Event, paper: dict[str, Any]) -> bool:
        if mark.data["right"] < mark.data["cut"]:
            return False
        for place in mark.data["must_missed"]:
            item = paper["items"][place - 1]["id"]
            asked = [
                e
                for e in self.about(person, "oral")
                if e.data["paper"] == paper["code"]
                and e.data["item"] == item
                and self.vouched(e)
                and (e.by != mark.by or e.data.get("alone"))
            ]
            if not asked or asked[0].data["right_in_a_row"] < 2:
                return False
        return True

    def last_pass(self, person: str, module: str) -> tuple[Event, dict[str, Any]] | None:
        """The full paper that the person still has: passed, the last one, none failed since."""
        papers = self.papers(person, module)
        full = [pair for pair in papers if not pair[1]["back"]]
        if not papers or not full:
            return None
        both = (full[-1], papers[-1])
        return full[-1] if all(self.is_pass(person, *pair) for pair in both) else None

    def rounds_lost(self, person: str, module: Module) -> list[Event]:
        """The marks that ended a round of tries: every second one of failures in a row."""
        papers = self.papers(person, module.id)
        fails = [not self.is_pass(person, *pair) for pair in papers]
        tries = module.blueprint.tries
        return [
            mark
            for n, (mark, _) in enumerate(papers)
            if fails[n] and next((k for k in range(n + 1) if not fails[n - k]), n + 1) % tries == 0
        ]

    def changes(self, module: Module, rig: str) -> list[Event]:
        """What has changed in the work, on this rig or on all."""
        rules = self.curriculum.shop.rules.lapse
        causes = {
            "hazard": rules.hazard,
            "equipment": rules.equipment,
            "strength_test": rules.strength_test,
        }
        return [
            e
            for e in self.events
            if e.kind == "changed"
            and e.data["module"] in self.skills(module)
            and (not e.data["rig"] or e.data["rig"] == rig)
            and causes[e.data["cause"]]
        ]

    def shown_again(self, proofs: Sequence[Event], person: str, module: Module, rig: str) -> bool:
        """Whether a proof came after each thing that speaks against the skill."""
        switch = self.curriculum.shop.rules.lapse
        against = [
            e
            for e in self.about(person, "incident", "suspended")
            if e.data.get("module") in self.skills(module)
            and (switch.incident if e.kind == "incident" else switch.suspended)
        ]
        against += self.changes(module, rig)
        if module.sign_off.lines:
            against += self.rounds_lost(person, module)
        return all(any(p.number > e.number and p.seen >= e.seen for p in proofs) for e in against)

    def of_age(self, person: str, module: Module) -> bool:
        until = [e.data["until"] for e in self.about(person, "under-age")]
        return not module.grants or not until or until[-1] <= self.on

    def sheets(self, person: str, module: str, rig: str) -> list[Event]:
        return [
            e
            for e in self.about(person, "signed-off")
            if (e.data["module"], e.data["rig"]) == (module, rig) and self.vouched(e)
        ]

    def sign_off(self, person: str, module: str, rig: str) -> Event | None:
        """What was seen last; of one day, what was entered last."""
        found = self.sheets(person, module, rig)
        return max(found, key=lambda e: (e.seen, e.number), default=None)

    def shows(self, sheets: Sequence[Event], line: str) -> bool:
        """Whether the line was right, and after each time it was not: by day and by order."""
        right = [e for e in sheets if e.data["lines"][line] == "yes"]
        wrong = [e for e in sheets if e.data["lines"][line] != "yes"]
        return bool(right) and all(
            any(e.number > no.number and e.seen >= no.seen for e in right) for no in wrong
        )

    def everything(self, person: str, module: Module, rig: str) -> bool:
        """Whether all is there, editions aside (here no edition changes lessons or lines)."""
        lessons = {
            lesson
            for e in self.about(person, "taught")
            if e.data["module"] == module.id
            for lesson in e.data["lessons"]
        }
        sheets = {e.data["rig"] for e in self.about(person, "sheets-shown")}
        signed = self.sheets(person, module.id, rig if module.sign_off.per_rig else "")
        must = [line.id for line in module.sign_off.lines if line.must]
        return (
            {lesson.id for lesson in module.lessons} <= lessons
            and self.of_age(person, module)
            and self.last_pass(person, module.id) is not None
            and all(self.last_pass(person, needed) for needed in module.requires)
            and (not module.grants.startswith("mix") or rig in sheets)
            and (
                not module.sign_off.lines
                or (bool(signed) and all(self.shows(signed, line) for line in must))
            )
        )

    def day(self, text: str, days: int = 0) -> date:
        return date.fromisoformat(text) + timedelta(days)

    def at_work(self, person: str) -> set[date]:
        with_trainer = ("taught", "sheets-shown", "marked", "oral", "signed-off")
        alone = ("joined", "left", "returned", "restored", "incident", "exception")
        own = self.about(person, *with_trainer, *alone)
        joined = min(e.number for e in self.about(person, "joined", "returned"))
        others = [
            e
            for e in self.events
            if e.kind in with_trainer and e.by == person and self.known(e) and e.number > joined
        ]
        return {self.day(e.seen) for e in [*own, *others]}

    def young(self, seen: str) -> bool:
        """Whether what was proved on that day needs no renewal yet."""
        rules = self.curriculum.shop.rules
        return not rules.lapse.renewal or self.day(self.on) <= self.day(seen, rules.renewal)

    def never_away(self, person: str, seen: str) -> bool:
        """Whether the person was never off the job too long since that day."""
        rules = self.curriculum.shop.rules
        days = {d for d in self.at_work(person) if d >= self.day(seen)} | {self.day(self.on)}
        gaps = [(b - a).days for a, b in pairwise(sorted(days))]
        return not rules.lapse.away or max(gaps, default=0) <= rules.away

    def paper_counts(self, person: str, module: Module, rig: str) -> bool:
        """Whether the pass is young, and borne out since the last absence."""
        full, last = self.last_pass(person, module.id), self.papers(person, module.id)[-1]
        assert full
        return (
            self.young(full[0].seen)
            and self.never_away(person, last[0].seen)
            and (bool(module.sign_off.lines) or self.shown_again([full[0]], person, module, rig))
        )

    def signature_counts(self, person: str, module: Module, rig: str) -> bool:
        """Whether the sign-off is young, and shown again after all that spoke against it."""
        if not module.sign_off.lines:
            return True
        on = rig if module.sign_off.per_rig else ""
        sheets, signed = self.sheets(person, module.id, on), self.sign_off(person, module.id, on)
        assert signed
        return (
            self.young(signed.seen)
            and self.never_away(person, signed.seen)
            and self.shown_again(sheets, person, module, rig)
        )

    def edition_state(self, person: str, module: Module) -> str:
        passed = [
            paper["edition"]
            for mark, paper in self.papers(person, module.id)
            if self.is_pass(person, mark, paper) and not paper["back"]
        ]
        last = self.last_pass(person, module.id)
        assert last
        briefs = [
            e.data["edition"]
            for e in self.about(person, "taught")
            if e.data["module"] == module.id and e.data.get("rebrief")
        ]
        if max([last[1]["edition"], *briefs[-1:]]) >= module.edition:
            return "current"
        heard = [
            e.seen
            for e in self.events
            if (e.kind == "edition" and e.data["edition"] == 2)
            or (e.kind == "issued" and e.data["paper"]["edition"] == 2)
        ]
        assert min(passed) == 1
        if not self.curriculum.shop.rules.lapse.new_edition:
            return "grace"
        last_day = self.day(min(heard, default=self.on), self.curriculum.shop.rules.grace)
        return "grace" if self.day(self.on) <= last_day else "over"

    def state(self, person: str, module: Module, rig: str) -> str:
        if not self.here(person):
            return "left"
        if any(self.suspended(person, skill) for skill in self.skills(module)):
            return "suspended"
        last = self.last_pass(person, module.id)
        if not self.everything(person, module, rig):
            if last and self.paper_counts(person, module, rig):
                return "passed paper"
            return "learning" if self.touched(person, module.id) else "not started"
        assert last
        edition = self.edition_state(person, module)
        counts = self.paper_counts(person, module, rig) and self.signature_counts(
            person, module, rig
        )
        if edition == "over" or not counts:
            return "lapsed"
        if edition == "grace":
            return "re-brief"
        return "due soon" if self.nearly_due(person, module, rig) else "cleared"

    def nearly_due(self, person: str, module: Module, rig: str) -> bool:
        """Whether the older of paper and sign-off has thirty days or fewer to go."""
        full, rules = self.last_pass(person, module.id), self.curriculum.shop.rules
        signed = self.sign_off(person, module.id, rig if module.sign_off.per_rig else "")
        days = [e.seen for e in (full[0] if full else None, signed) if e]
        due = min(self.day(seen, rules.renewal) for seen in days)
        return rules.lapse.renewal and (due - self.day(self.on)).days <= 30

    def touched(self, person: str, module: str) -> bool:
        if any(e.data["module"] == module for e in self.about(person, "taught")):
            return True
        for mark in self.about(person, "marked"):
            paper = self.paper(mark)
            if paper and paper["module"] == module and paper["person"] in ("", person):
                return True
        return any(
            e.data["module"] == module and self.vouched(e) for e in self.about(person, "signed-off")
        )


def agreement(pool: Pool, curriculum: Callable[..., Curriculum], random: Random) -> Counter[str]:
    """Compare one random history with the oracle, and count the states that came out."""
    events, on = pool.history(random), random.choice(DAYS)
    switches = Lapse(*(random.random() < 0.8 for _ in fields(Lapse)))
    today = curriculum(
        Rules(lapse=switches),
        gear={"grants": random.choice(("", "", "mix-card"))},
        mixing={"edition": random.choice((1, 2))},
    )
    oracle = Oracle(events, today, on)
    found = standings(events, today, on)
    for one in found:
        expected = oracle.state(one.person, today.modules[one.module], one.rig)
        assert one.state == expected, (one, on, events)
    return Counter(one.state for one in found)


@pytest.mark.parametrize("count", [600, pytest.param(10_000, marks=pytest.mark.deep)])
def test_random_histories_agree_with_the_oracle(
    pool: Pool, curriculum: Callable[..., Curriculum], count: int
) -> None:
    random = Random(20250301)
    seen: Counter[str] = Counter()
    for _ in range(count):
        seen += agreement(pool, curriculum, random)
    assert set(seen) == set(STATES)
    assert min(seen.values()) >= 20, seen


@settings(deadline=None)
@given(seed=st.integers(0, 10**6), data=st.data())
def test_voiding_an_event_equals_its_never_having_happened(
    pool: Pool, curriculum: Callable[..., Curriculum], seed: int, data: st.DataObject
) -> None:
    events = tuple(e for e in pool.history(Random(seed)) if e.kind != "voided")
    victim = data.draw(st.sampled_from(events))
    on = data.draw(st.sampled_from(DAYS))
    void = Event("voided", "Ana", on, on, "Boss", {"number": victim.number, "why": "x"}, 10**6)
    without = [event for event in events if event is not victim]
    today = curriculum(mixing={"edition": 2})
    assert standings([*events, void], today, on) == standings(without, today, on)


NEEDED: tuple[tuple[str, dict[str, str]], ...] = (
    ("sheets-shown", {"rig": "rig-1"}),
    ("signed-off", {"rig": "rig-1"}),
    ("taught", {"module": "mixing"}),
    ("taught", {"module": "gear"}),
    ("marked", {}),
    ("issued", {}),
    ("trainer-named", {}),
)


@settings(deadline=None)
@given(seed=st.integers(0, 10**6), on=st.sampled_from(DAYS[:-1]), needed=st.sampled_from(NEEDED))
def test_nobody_is_cleared_to_mix_without_each_thing_needed(
    pool: Pool,
    curriculum: Callable[..., Curriculum],
    seed: int,
    on: str,
    needed: tuple[str, dict[str, str]],
) -> None:
    kind, data = needed
    without = [
        e
        for e in pool.history(Random(seed))
        if not (e.kind == kind and all(e.data.get(k) == v for k, v in data.items()))
    ]
    found = standings(without, curriculum(), on)
    module = data.get("module", "mixing")
    assert not [s for s in found if s.module == module and s.rig != "rig-2" and s.cleared]


@pytest.mark.parametrize("number", range(1, 14))
def test_each_event_of_the_shortest_way_is_needed(
    starts: dict[str, str], history: History, curriculum: Callable[..., Curriculum], number: int
) -> None:
    events = [e for e in history(starts["cleared"]) if "Cal" not in (e.person, e.by)]
    events = [e for e in events if e.data.get("module") != "gear"]
    assert len(events) == 10

    def cleared(history: list[Event]) -> bool:
        return any(s.cleared for s in standings(history, curriculum(), "2025-01-10") if s.rig)

    assert cleared(events)
    if number <= len(events):
        assert not cleared(events[: number - 1] + events[number:])


@settings(deadline=None)
@given(seed=st.integers(0, 10**6), on=st.sampled_from(DAYS))
def test_what_may_work_and_what_is_missing_fit_together(
    pool: Pool, curriculum: Callable[..., Curriculum], seed: int, on: str
) -> None:
    for one in standings(pool.history(Random(seed)), curriculum(mixing={"edition": 2}), on):
        assert one.cleared == (one.state in WORKING)
        assert bool(one.missing) == (one.state not in ("cleared", "due soon"))
        assert one.since <= on or one.state == "re-brief"
        assert bool(one.due) == one.cleared
        assert not one.due or one.due >= on


@settings(deadline=None)
@given(seed=st.integers(0, 10**6), on=st.sampled_from(DAYS))
def test_only_numbers_order_events(
    pool: Pool, curriculum: Callable[..., Curriculum], seed: int, on: str
) -> None:
    events = list(pool.history(Random(seed)))
    mixed = Random(seed + 1).sample(events, len(events))
    assert standings(mixed, curriculum(), on) == standings(events, curriculum(), on)
