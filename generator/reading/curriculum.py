"""A curriculum folder to the Curriculum: everything read, every fault found, in one run."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from generator.errors import Fault, Faults, Refusal, nearest
from generator.model.course import Curriculum, Module, Source
from generator.model.problem import Problem
from generator.model.reaction import Reaction
from generator.model.relation import Relation
from generator.model.shop import Shop
from generator.reading.fields import require_id
from generator.reading.files import module_files, plain_files
from generator.reading.gather import Gathered
from generator.reading.handouts import read_handouts
from generator.reading.lesson_shapes import ModuleShape
from generator.reading.lessons import LessonReader
from generator.reading.lookups import Table, settings, words
from generator.reading.modules import ModuleReader, item_ids
from generator.reading.nodes import Document
from generator.reading.problems import ProblemReader
from generator.reading.reactions import read_reactions
from generator.reading.relations import read_relations
from generator.reading.sheets import SheetReader
from generator.reading.shop import read_shop
from generator.reading.sources import read_sources
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
    """Everything in a folder that can be read, and every fault. Raises Refusal if it is none.

    Nothing is read of a folder that holds anything but plain files.
    """
    if not (folder / "shop.yaml").is_file():
        raise Refusal(
            f"there is no shop.yaml in {folder}",
            "name the folder with --curriculum, or make one: rigprimer start FOLDER",
        )
    try:
        plain_files(folder)
    except Faults as odd:
        return Reading(None, odd.faults, {})
    gathered = Gathered(folder)
    curriculum = _Reader(folder, gathered).curriculum(language)
    faults = tuple(sorted(set(gathered.faults)))
    return Reading(curriculum, faults, gathered.places, gathered.documents)


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
        sheets = SheetReader(self.gathered, table, shop, relations, sources)
        handouts = read_handouts(self.folder, sheets)
        lessons = LessonReader(self.gathered, table, relations, sources, handouts.card)
        modules = self.modules(lessons, problems)
        sums = self.sums(problems)
        self.check_requires(modules)
        self.check_ids(modules, sums)
        return Curriculum(
            shop,
            sources,
            relations,
            modules,
            digest_of(self.folder),
            sums,
            sheets.folder(self.folder / "sheets"),
            handouts,
            reactions,
            tuple(lessons.stated),
        )

    def shop(self) -> Shop | None:
        document = self.gathered.document(self.folder / "shop.yaml")
        with self.gathered.all_faults():
            return read_shop(document, self.gathered) if document else None
        return None

    def sources(self) -> dict[str, Source]:
        document = self.gathered.document(self.folder / "sources.yaml")
        return read_sources(document, self.gathered) if document else {}

    def reactions(self, sources: dict[str, Source]) -> dict[str, Reaction]:
        """The reactions of reactions.yaml; a curriculum may have none."""
        document = self.gathered.optional(self.folder / "reactions.yaml")
        if document is None:
            return {}
        read = read_reactions(document, self.gathered)
        for reaction in read.values():
            where, about = (reaction.id, "sources"), f"{reaction.id}: "
            self.gathered.check_sources(document, where, reaction.sources, sources, about)
        return read

    def relations(
        self, table: Table, sources: dict[str, Source], reactions: dict[str, Reaction]
    ) -> dict[str, Relation]:
        read: dict[str, Relation] = {}
        for _, document in self.gathered.folder(self.folder / "relations"):
            for name, relation in read_relations(document, self.gathered, table, reactions).items():
                if name in read:
                    what = f'the relation "{name}" stands in another file too'
                    self.gathered.add(document, (name,), what, "rename one of the two")
                used = [*relation.sources, *(e.source for e in relation.examples if e.source)]
                where, about = (name, "sources"), f"{name}: "
                self.gathered.check_sources(document, where, used, sources, about)
                read[name] = relation
        return read

    def sums(self, problems: ProblemReader) -> tuple[Problem, ...]:
        """The owner's own sums, prices above all: in no lesson and on no paper."""
        document = self.gathered.optional(self.folder / "problems.yaml")
        return problems.read(document, "", ()) if document else ()

    def modules(self, lessons: LessonReader, problems: ProblemReader) -> dict[str, Module]:
        read: dict[str, Module] = {}
        for path in module_files(self.folder):
            document = self.gathered.document(path)
            if document is None:
                continue
            with self.gathered.at(document, ()):
                require_id(path.parent.name)
                shape = validated(ModuleShape, document, (), document.data)
                reader = ModuleReader(self.gathered, path.parent, document, shape)
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
        named = [(m.id, kind, name) for m in modules.values() for kind, name in item_ids(m)]
        for module, kind, name in [*named, *(("problems.yaml", "problem", p.id) for p in sums)]:
            if name in seen:
                file, line = self.gathered.places[kind, name]
                what = f'the id "{name}" stands in {seen[name]} too'
                self.gathered.faults.append(Fault(file, line, what, "rename one of the two"))
            seen[name] = module


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


def digest_of(folder: Path) -> str:
    """A digest over every YAML file of a curriculum: names and bytes."""
    total = hashlib.sha256()
    for path in plain_files(folder, ".yaml"):
        total.update(path.relative_to(folder).as_posix().encode() + b"\0")
        total.update(hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()[:16]
