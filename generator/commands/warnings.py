"""What is logged, said on the screen; loaded by commands that run, not by their help."""

from __future__ import annotations

import logging

import click


class OnScreen(logging.Handler):
    """Says what is logged, such as a second copy that failed, where errors are said."""

    def emit(self, record: logging.LogRecord) -> None:
        """Say it."""
        click.echo(record.getMessage(), err=True)


def show_warnings() -> None:
    """Put warnings of ours on the screen, once."""
    ours = logging.getLogger("generator")
    if not ours.handlers:
        ours.addHandler(OnScreen(logging.WARNING))
