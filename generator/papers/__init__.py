"""What goes on a paper, and the code that names it."""
