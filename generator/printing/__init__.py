"""Model to paper: page data, templates, HTML, PDF.

`booklet_html`, `paper_html`, `key_html`, `slip_html` and `board_html` stand in the module of that
name and give HTML; `pdf.Printer` turns HTML into a file. `figures.FIGURES` names what can be drawn.
"""
