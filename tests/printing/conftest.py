"""Samples and one Printer for all tests of printing."""

from __future__ import annotations

import sys
from collections.abc import Callable
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest

from generator.printing.pdf import Printer


@pytest.fixture(scope="session")
def samples() -> ModuleType:
    """The module samples.py beside this file."""
    spec = spec_from_file_location("printing_samples", Path(__file__).parent / "samples.py")
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def printer() -> Printer:
    """One Printer, as every printing process has."""
    return Printer()


@pytest.fixture(scope="session")
def printed(
    samples: ModuleType, printer: Printer, tmp_path_factory: pytest.TempPathFactory
) -> Callable[[str], Path]:
    """The PDF of a product by name, each printed once."""
    folder = tmp_path_factory.mktemp("printed")

    def of(product: str) -> Path:
        path: Path = folder / f"{product}.pdf"
        if not path.exists():
            printer.write(samples.PRODUCTS[product](), path)
        return path

    return of
