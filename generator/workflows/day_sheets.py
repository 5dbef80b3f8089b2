"""A day's sign-off sheets from a table, entered in one go."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from pathlib import Path

from generator.errors import Fault, Faults, Refusal
from generator.marking.answers import read_table
from generator.model.course import Curriculum
from generator.model.event import Event
from generator.workflows.people import on_rig, signed_off
from generator.workflows.record import module_id, rig_id

COLUMNS = ("module", "name", "rig", "by", "seen_on", "not_yet", "told")
NEEDED = ("module", "name")


def signed_sheets(
    curriculum: Curriculum, path: Path, by: str | None, seen: str | None
) -> list[Event]:
    """An event for each row; `by` and `seen` serve where a row leaves them out.

    Raises Refusal for a file that is no such table, Faults for every row that is not right.
    """
    text = read_table(path)
    try:
        return _events(curriculum, path, text, by, seen)
    except csv.Error as trouble:
        raise Refusal(f"{path} can't be read: {trouble}", "save it again as CSV UTF-8") from trouble


def _events(
    curriculum: Curriculum, path: Path, text: str, by: str | None, seen: str | None
) -> list[Event]:
    reader = csv.DictReader(io.StringIO(text, newline=""), restval="")
    heads = [str(name).strip().lower() for name in reader.fieldnames or ()]
    _check_heads(path, heads)
    reader.fieldnames = heads
    events: list[Event] = []
    faults: list[Fault] = []
    for row in reader:
        try:
            events.append(_event(curriculum, row, by, seen))
        except Refusal as refusal:
            faults.append(refusal.at(str(path), reader.line_num))
    if faults:
        raise Faults(faults)
    if not events:
        raise Refusal(f"{path} holds no sheets", "write one row for each sheet")
    return events


def _check_heads(path: Path, heads: list[str]) -> None:
    for name in NEEDED:
        if name not in heads:
            what = f'{path} has no column "{name}"'
            raise Refusal(what, f"name the columns in the first row: {', '.join(COLUMNS)}")
    for name in heads:
        if name not in COLUMNS:
            raise Refusal(f'{path} has a column "{name}"', f"use only these: {', '.join(COLUMNS)}")


def _event(
    curriculum: Curriculum, row: Mapping[str | None, str], by: str | None, seen: str | None
) -> Event:
    if None in row:
        raise Refusal("the row has more cells than the first one", "put quotes around commas")
    cell = {name: row.get(name, "").strip() for name in COLUMNS}
    trainer = cell["by"] or by
    if not trainer:
        raise Refusal("it is not said who saw it", "fill the column by, or add --by")
    if not cell["name"]:
        raise Refusal("it is not said whose sheet it is", "fill the column name")
    module = curriculum.modules[module_id(curriculum, cell["module"])]
    rig = on_rig(curriculum, module, rig_id(curriculum, cell["rig"]) if cell["rig"] else None)
    answers = dict.fromkeys(cell["not_yet"].replace(";", " ").split(), "not yet")
    answers |= dict.fromkeys(cell["told"].replace(";", " ").split(), "told")
    return signed_off(module, cell["name"], rig, trainer, cell["seen_on"] or seen, answers)
