"""sources.yaml to Sources."""

from __future__ import annotations

from generator.model.course import Source
from generator.reading.gather import Gathered
from generator.reading.nodes import Document
from generator.reading.relation_shapes import SourceShape
from generator.reading.validate import validated


def read_sources(document: Document, gathered: Gathered) -> dict[str, Source]:
    """Every source that could be read; the faults of the others are gathered."""
    read: dict[str, Source] = {}
    for name, data in gathered.entries(document):
        with gathered.at(document, (name,)):
            shape = validated(SourceShape, document, (name,), data)
            source = read[name] = Source(name, shape.title, shape.read, shape.checked)
            if source.is_published and not source.checked:
                next = "add checked: and the day you went over it, such as 2026-05-04"
                gathered.add(document, (name,), f"{name}: the date is missing", next)
    return read
