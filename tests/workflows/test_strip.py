"""The formula strip of a paper, in words."""

from __future__ import annotations

from generator.model.course import Curriculum
from generator.workflows.strip import strip


def test_the_formula_strip_names_no_quantity_by_its_short_name(curriculum: Curriculum) -> None:
    for module in curriculum.modules.values():
        lines = strip(module)
        assert lines
        assert len(set(lines)) == len(lines)
        assert not [line for line in lines if "_" in line]
