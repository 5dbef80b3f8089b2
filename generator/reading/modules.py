"""A module's folder to the Module."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from generator.errors import Fault, nearest
from generator.model.course import Blueprint, Change, Lesson, Module, SignOff, SkillLine
from generator.model.problem import Problem
from generator.reading.gather import Gathered
from generator.reading.lesson_shapes import ModuleShape
from generator.reading.nodes import Document

if TYPE_CHECKING:
    from generator.reading.lessons import LessonReader
    from generator.reading.problems import ProblemReader


def item_ids(module: Module) -> list[tuple[str, str]]:
    """What may stand on a paper of the module, each with its kind: "problem" or "question"."""
    problems = [("problem", problem.id) for problem in module.problems]
    return problems + [("question", question.id) for question in module.questions]


class ModuleReader:
    """Reads one module: its lessons, its problems, its paper, and how they fit together."""

    def __init__(
        self, gathered: Gathered, folder: Path, document: Document, shape: ModuleShape
    ) -> None:
        self.gathered, self.folder, self.document = gathered, folder, document
        self.shape, self.name = shape, folder.name
        self.texts = [self.as_written(document)]

    def module(self, lessons: LessonReader, problems: ProblemReader) -> Module:
        """The module, its faults gathered."""
        self.gathered.place("module", self.name, self.document, ())
        listed = self.shape.lessons
        read = [lesson for name in listed if (lesson := self.lesson(lessons, name))]
        drawn = self.problems(problems)
        module = replace(
            self.outline(read),
            digest=_digest_of_texts(self.texts),
            problems=drawn,
            changed=self.changed(listed),
        )
        self.check_paper(module)
        self.check_named_problems(module)
        return module

    def outline(self, lessons: Sequence[Lesson]) -> Module:
        """What module.yaml itself says of the module with these lessons."""
        shape = self.shape
        listed = {"must": tuple(shape.paper.must), "strip": tuple(shape.paper.strip)}
        return Module(
            id=self.name,
            title=shape.title,
            short=shape.short,
            aim=shape.aim,
            edition=shape.edition,
            wording=shape.wording,
            digest="",
            lessons=tuple(lessons),
            problems=(),
            blueprint=Blueprint(**shape.paper.model_dump() | listed),
            sign_off=SignOff(
                tuple(SkillLine(x.id, x.do, x.look, x.must) for x in shape.signoff.lines),
                shape.signoff.per_rig,
            ),
            requires=tuple(shape.requires),
            grants=shape.grants or "",
            may_passed=shape.may.passed,
            may_not_yet=shape.may.not_yet,
            covers=shape.covers,
        )

    def lesson(self, reader: LessonReader, name: str) -> Lesson | None:
        """A lesson that the module lists; None once its fault is gathered."""
        path = self.folder / f"{name}.yaml"
        if not path.is_file():
            there = [p.stem for p in self.folder.glob("*.yaml")]
            what = f'there is no lesson file "{name}.yaml"'
            self.gathered.add(self.document, ("lessons",), what, nearest(name, there))
            return None
        document = self.gathered.document(path)
        if document is None:
            return None
        self.texts.append(self.as_written(document))
        return reader.read(document, self.name, name)

    def problems(self, reader: ProblemReader) -> tuple[Problem, ...]:
        """The problems of the module; it may have none."""
        document = self.gathered.optional(self.folder / "problems.yaml")
        if document is None:
            return ()
        self.texts.append(self.as_written(document))
        return reader.read(document, self.name, self.shape.lessons)

    def as_written(self, document: Document) -> Any:
        """What the file itself says: the edition does not hang on the language."""
        return self.gathered.documents[document.file].data

    def changed(self, lessons: list[str]) -> Change | None:
        """What the edition changed, as the owner typed it."""
        shape = self.shape.changed
        if shape is None:
            return None
        for name in shape.lessons:
            if name not in lessons:
                what = f'changed: names "{name}", which is no lesson of this module'
                self.gathered.add(self.document, ("changed",), what, nearest(name, lessons))
        return Change(shape.edition, tuple(shape.what), tuple(shape.lessons))

    def check_paper(self, module: Module) -> None:
        """Gather what the paper asks for and the module does not have."""
        paper, known = module.blueprint, [name for _, name in item_ids(module)]
        if paper.practice_cut > paper.items:
            what = f"practice_cut {paper.practice_cut} does not fit a paper of {paper.items}"
            self.gathered.add(self.document, ("paper", "practice_cut"), what, "write a smaller one")
        if not 0 < paper.cut <= paper.items:
            what = f"the cut {paper.cut} does not fit a paper of {paper.items}"
            self.gathered.add(self.document, ("paper", "cut"), what, "write a smaller cut")
        if len(module.questions) < paper.choice:
            what = f"{len(module.questions)} questions for {paper.choice} choose-one items"
            self.gathered.add(self.document, ("paper", "choice"), what, "write more questions")
        if paper.write_in and not module.problems:
            what = "write-in items but no problems"
            self.gathered.add(self.document, ("paper", "write_in"), what, "write problems.yaml")
        flagged = [p.id for p in module.problems if p.must]
        flagged += [q.id for q in module.questions if q.must]
        for name in sorted(set(flagged) - set(paper.must)):
            what = f'"{name}" says must: yes but is not among the must-gets of the paper'
            self.gathered.add(self.document, ("paper", "must"), what, "add it, or say must: no")
        for name in sorted(set(paper.must) & set(known) - set(flagged)):
            what = f'the must-get "{name}" does not say must: yes'
            self.gathered.add(self.document, ("paper", "must"), what, "add must: yes to it")
        asked = [problem.relation.id for problem in module.problems]
        for name in paper.strip:
            if name not in asked:
                what = f'the formula strip names "{name}", which no problem here uses'
                self.gathered.add(self.document, ("paper", "strip"), what, nearest(name, asked))
        for name in paper.must:
            if name not in known:
                what = f'the must-get "{name}" is no problem or question here'
                self.gathered.add(self.document, ("paper", "must"), what, nearest(name, known))

    def check_named_problems(self, module: Module) -> None:
        """Gather problems that a lesson names and the module does not have."""
        known = [problem.id for problem in module.problems]
        for lesson in module.lessons:
            for name in (*lesson.examples, *lesson.practice):
                if name not in known:
                    file, line = self.gathered.places["lesson", f"{module.id}/{lesson.id}"]
                    what = f'the problem "{name}" is not in problems.yaml'
                    self.gathered.faults.append(Fault(file, line, what, nearest(name, known)))


def _digest_of_texts(texts: list[Any]) -> str:
    """Six hex digits over what the module says; comments, edition and wording do not count."""
    module = {k: v for k, v in texts[0].items() if k not in ("edition", "wording", "changed")}
    canonical = json.dumps([module, *texts[1:]], sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(canonical.encode()).hexdigest()[:6]
