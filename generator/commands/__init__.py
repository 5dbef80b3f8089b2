"""The commands, by who uses them; each is thin: arguments in, one workflow, words out.

Heavy modules (sympy, weasyprint, pydantic) are imported inside the commands, so that help is
instant.
"""
