"""Rigprimer: lessons in YAML become booklets, quiz papers, and a board of who may mix."""

__version__ = "0.1.0"
