"""Problem and seed to item: a pure function of the two, the same in every process."""
