"""A curriculum folder to the Curriculum: everything read, every fault found, in one run."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from generator.errors import Fault, Faults, Refusal, nearest
from generator.model.course import (
    Blueprint,
    Change,
    Curriculum,
    Lesson,
    Module,
    SignOff,
    SkillLine,
    Source,
)
from generator.model.problem import Problem
from generator.model.reaction import Reaction
from generator.model.relation import Relation
from generator.model.shop import Shop
from generator.reading.gather import Gathered
from generator.reading.handouts import read_handouts
from generator.reading.lesson_shapes import ModuleShape
from generator.reading.lessons import LessonReader
from generator.reading.lookups import Table, settings, words
from generator.reading.nodes import Document
from generator.reading.problems import ProblemReader
from generator.reading.reactions import read_reactions
from generator.reading.relation_shapes import SourceShape
from generator.reading.relations import read_relations
from generator.reading.sheets import SheetReader
from generator.reading.shop import read_shop
from generator.reading.validate import validated

Places = dict[tuple[str, str], tuple[str, int]]


@dataclass(frozen=True)
class Reading:
    """What a folder holds, the faults found in it, where each thing stands, the files as read.

    `curriculum` is None when shop.yaml itself could not be read.
    """

    curriculum: Curriculum | None
    faults: tuple[Fault, ...]
    places: Places
    documents: Mapping[str, Document] = field(default_factory=dict)


def read_curriculum(folder: Path, language: str | None = None) -> Curriculum:
    """The curriculum in a folder, in a language of `words` or the shop's own.

    What is not translated stays as it is written. Raises Faults, all of them, if anything is wrong.
    """
    reading = read_all(folder, language)
    if reading.faults or reading.curriculum is None:
        raise Faults(reading.faults)
    return reading.curriculum


def read_all(folder: Path, language: str | None = None) -> Reading:
    """Everything in a folder that can be read, and every fault. Raises Refusal if it is none."""
    if not (folder / "shop.yaml").is_file():
        raise Refusal(
            f"there is no shop.yaml in {folder}", "name the folder with --curriculum, or run: start"
        )
    gathered = Gathered(folder)
    curriculum = _Reader(folder, gathered).curriculum(language)
    faults = tuple(sorted(set(gathered.faults)))
    return Reading(curriculum, faults, gathered.places, gathered.documents)


def read_shop_alone(folder: Path) -> Shop:
    """The shop's settings without any lesson. Raises Faults."""
    gathered = Gathered(folder)
    document = gathered.document(folder / "shop.yaml")
    shop = read_shop(document, gathered) if document else None
    if shop is None or gathered.faults:
        raise Faults(gathered.faults)
    return shop


class _Reader:
    def __init__(self, folder: Path, gathered: Gathered) -> None:
        self.folder, self.gathered = folder, gathered

    def curriculum(self, language: str | None) -> Curriculum | None:
        shop = self.shop()
        if shop is None:
            return None
        if language:
            shop = replace(shop, language=language)
        self.gathered.language = shop.language
        table = settings(shop)
        sources = self.sources()
        reactions = self.reactions(sources)
        table |= {f"reaction.{name}": words(r.balanced.text()) for name, r in reactions.items()}
        relations = self.relations(table, sources, reactions)
        problems = ProblemReader(self.gathered, table, relations, shop)
        lessons = LessonReader(self.gathered, table, relations, sources)
        modules = self.modules(lessons, problems)
        sums = self.sums(problems)
        self.check_requires(modules)
        self.check_ids(modules, sums)
        sheets = SheetReader(self.gathered, table, shop, relations, sources)
        return Curriculum(
            shop,
            sources,
            relations,
            modules,
            digest_of(self.folder),
            sums,
            sheets.folder(self.folder / "sheets"),
            read_handouts(self.folder, sheets),
            reactions,
        )

    def shop(self) -> Shop | None:
        document = self.gathered.document(self.folder / "shop.yaml")
        with self.gathered.all_faults():
            return read_shop(document, self.gathered) if document else None
        return None

    def sources(self) -> dict[str, Source]:
        document = self.gathered.document(self.folder / "sources.yaml")
        read: dict[str, Source] = {}
        for name, data in self.gathered.entries(document) if document else ():
            with self.gathered.all_faults():
                shape = validated(SourceShape, document, (name,), data)  # type: ignore[arg-type]
                read[name] = Source(name, shape.title, shape.read)
        return read

    def reactions(self, sources: dict[str, Source]) -> dict[str, Reaction]:
        """The reactions of reactions.yaml; a curriculum may have none."""
        path = self.folder / "reactions.yaml"
        document = self.gathered.document(path) if path.is_file() else None
        if document is None:
            return {}
        read = read_reactions(document, self.gathered)
        for reaction in read.values():
            self.check_sources(document, reaction.id, reaction.sources, sources)
        return read

    def relations(
        self, table: Table, sources: dict[str, Source], reactions: dict[str, Reaction]
    ) -> dict[str, Relation]:
        read: dict[str, Relation] = {}
        for path in sorted((self.folder / "relations").glob("*.yaml")):
            document = None if "." in path.stem else self.gathered.document(path)
            if document is None:
                continue
            for name, relation in read_relations(document, self.gathered, table, reactions).items():
                if name in read:
                    what = f'the relation "{name}" stands in another file too'
                    self.gathered.add(document, (name,), what, "rename one of the two")
                used = [*relation.sources, *(e.source for e in relation.examples if e.source)]
                self.check_sources(document, name, used, sources)
                read[name] = relation
        return read

    def check_sources(
        self, document: Document, name: str, used: Iterable[str], sources: dict[str, Source]
    ) -> None:
        for source in used:
            if source not in sources:
                what = f'{name}: the source "{source}" is not in sources.yaml'
                self.gathered.add(document, (name, "sources"), what, nearest(source, sources))

    def sums(self, problems: ProblemReader) -> tuple[Problem, ...]:
        """The owner's own sums, prices above all: in no lesson and on no paper."""
        path = self.folder / "problems.yaml"
        document = self.gathered.document(path) if path.is_file() else None
        return problems.read(document, "", ()) if document else ()

    def modules(self, lessons: LessonReader, problems: ProblemReader) -> dict[str, Module]:
        read: dict[str, Module] = {}
        for path in sorted((self.folder / "modules").glob("*/module.yaml")):
            document = self.gathered.document(path)
            if document is None:
                continue
            with self.gathered.all_faults():
                shape = validated(ModuleShape, document, (), document.data)
                reader = _ModuleReader(self.gathered, path.parent, document, shape)
                read[path.parent.name] = reader.module(lessons, problems)
        return read

    def check_requires(self, modules: dict[str, Module]) -> None:
        for module in modules.values():
            for needed in module.requires:
                what = None
                if needed == module.id or module.id in _required(needed, modules):
                    what = f"{module.id} requires itself"
                elif needed not in modules:
                    what = f'{module.id} requires "{needed}", which is not a module'
                if what:
                    file, line = self.gathered.places["module", module.id]
                    hint = nearest(needed, set(modules) - {module.id})
                    self.gathered.faults.append(Fault(file, line, what, hint))

    def check_ids(self, modules: dict[str, Module], sums: tuple[Problem, ...]) -> None:
        """Problem and question ids name items on papers: each stands for one thing."""
        seen: dict[str, str] = {}
        named = [(m.id, kind, name) for m in modules.values() for kind, name in _item_ids(m)]
        for module, kind, name in [*named, *(("problems.yaml", "problem", p.id) for p in sums)]:
            if name in seen:
                file, line = self.gathered.places[kind, name]
                what = f'the id "{name}" stands in {seen[name]} too'
                self.gathered.faults.append(Fault(file, line, what, "rename one of the two"))
            seen[name] = module


def _item_ids(module: Module) -> list[tuple[str, str]]:
    problems = [("problem", problem.id) for problem in module.problems]
    return problems + [("question", question.id) for question in module.questions]


def _required(name: str, modules: dict[str, Module]) -> set[str]:
    """Every module that `name` requires, directly or through others."""
    found: set[str] = set()
    waiting = [name]
    while waiting:
        module = modules.get(waiting.pop())
        for needed in module.requires if module else ():
            if needed not in found:
                found.add(needed)
                waiting.append(needed)
    return found


class _ModuleReader:
    def __init__(
        self, gathered: Gathered, folder: Path, document: Document, shape: ModuleShape
    ) -> None:
        self.gathered, self.folder, self.document = gathered, folder, document
        self.shape, self.name = shape, folder.name
        self.texts = [self.as_written(document)]

    def module(self, lessons: LessonReader, problems: ProblemReader) -> Module:
        shape = self.shape
        self.gathered.place("module", self.name, self.document, ())
        read = tuple(lesson for name in shape.lessons if (lesson := self.lesson(lessons, name)))
        drawn = self.problems(problems)
        listed = {"must": tuple(shape.paper.must), "strip": tuple(shape.paper.strip)}
        paper = shape.paper.model_dump() | listed
        module = Module(
            id=self.name,
            title=shape.title,
            short=shape.short,
            aim=shape.aim,
            edition=shape.edition,
            wording=shape.wording,
            digest=_digest_of_texts(self.texts),
            lessons=read,
            problems=drawn,
            blueprint=Blueprint(**paper),
            sign_off=SignOff(
                tuple(SkillLine(x.id, x.do, x.look, x.must) for x in shape.signoff.lines),
                shape.signoff.per_rig,
            ),
            requires=tuple(shape.requires),
            grants=shape.grants or "",
            may_passed=shape.may.passed,
            may_not_yet=shape.may.not_yet,
            covers=shape.covers,
            changed=self.changed(shape.lessons),
        )
        self.check_paper(module)
        self.check_named_problems(module)
        return module

    def lesson(self, reader: LessonReader, name: str) -> Lesson | None:
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
        path = self.folder / "problems.yaml"
        document = self.gathered.document(path) if path.is_file() else None
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
        paper, known = module.blueprint, [name for _, name in _item_ids(module)]
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


def digest_of(folder: Path) -> str:
    """A digest over every YAML file of a curriculum: names and bytes."""
    total = hashlib.sha256()
    for path in sorted(folder.rglob("*.yaml")):
        total.update(path.relative_to(folder).as_posix().encode() + b"\0")
        total.update(hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()[:16]
