"""The ground of every shape: the shapes are the reference of how the files are written.

Every scalar arrives as text. A field without a default must be there; an unknown one is a fault.
"""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Shape(BaseModel):
    """A mapping with known keys."""

    model_config = ConfigDict(extra="forbid", frozen=True)
