"""One use case a file: here strangers meet. Papers pick, items draw, records store, pages print."""
