"""One relation and some numbers in; the answer, or the word that replaces it, and the working out.

Between the model and everything that asks for numbers: the reader (examples and look-ups of
lessons), items, and the owner's own `work` command all come here.
"""
