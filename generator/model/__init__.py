"""What the tool knows: frozen dataclasses, ignorant of files, HTML and databases."""
