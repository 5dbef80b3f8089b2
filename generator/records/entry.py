"""An event someone wants to enter, with what it must fit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from generator.errors import Refusal, nearest
from generator.model.course import Curriculum, Module
from generator.model.event import Event
from generator.records.crew import known
from generator.records.facts import EVERYTHING, Book, Person
from generator.records.gather import gather


@dataclass(frozen=True)
class Entry:
    """An event someone wants to enter, with what it must fit."""

    event: Event
    history: Sequence[Event]
    curriculum: Curriculum

    @cached_property
    def book(self) -> Book:
        """The facts so far."""
        return gather(self.history)

    @cached_property
    def then(self) -> Book:
        """The facts up to the day it was seen: all of them, if nothing was seen later."""
        day = self.event.seen
        later = any(event.seen > day for event in self.history)
        return gather(self.history, day) if later else self.book

    @cached_property
    def who(self) -> Person:
        """The person it is about."""
        return known(self.book, self.event.person)

    @property
    def module_named(self) -> str:
        """The id of the module it is about: its own, or that of its paper; "" for all work."""
        data = self.event.data
        named = data.get("module") or ("paper" in data and self.paper["module"])
        return str(named or EVERYTHING)

    @property
    def module(self) -> Module:
        """The module it is about."""
        named, modules = self.module_named, self.curriculum.modules
        if named not in modules:
            raise Refusal(f'"{named}" is not a module', nearest(named, modules))
        return modules[named]

    @property
    def paper(self) -> dict[str, Any]:
        """The paper it is about, as kept: in the event itself, or issued before."""
        named = self.event.data["paper"]
        paper = named if isinstance(named, dict) else self.book.papers.get(named)
        if paper is None:
            raise Refusal(
                f'no paper "{named}" was printed from this record',
                "read the code on the paper again",
            )
        return paper
