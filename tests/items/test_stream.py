"""Draws from a seed: the same for ever, apart by label, and even."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chisquare

from generator.items.stream import Stream


def test_first_draws_never_change() -> None:
    # A seed names the same numbers for ever, so these may never be edited.
    stream = Stream("batch-stock", 7)
    assert [stream.below(1000) for _ in range(10)] == FIRST_TEN


FIRST_TEN = [886, 296, 263, 629, 331, 111, 818, 327, 536, 698]


@given(label=st.text(max_size=20), seed=st.integers() | st.text(max_size=20))
def test_same_seed_gives_the_same_draws(label: str, seed: int | str) -> None:
    one, other = Stream(label, seed), Stream(label, seed)
    assert [one.below(97) for _ in range(40)] == [other.below(97) for _ in range(40)]


def test_labels_and_seeds_keep_streams_apart() -> None:
    streams = [("a", 1), ("a", 2), ("b", 1), ("a1", 1), ("a", 11), ("", 1)]
    draws = {tuple(Stream(label, seed).below(2**60) for _ in range(4)) for label, seed in streams}
    assert len(draws) == len(streams)


def test_a_stream_past_its_first_block_does_not_repeat() -> None:
    stream = Stream("long", 1)
    draws = [stream.below(2**64) for _ in range(1000)]
    assert len(set(draws)) == 1000


@given(seed=st.integers(), count=st.integers(1, 500))
def test_draws_stay_below(seed: int, count: int) -> None:
    stream = Stream("law", seed)
    assert all(0 <= stream.below(count) < count for _ in range(20))


@given(seed=st.integers(), things=st.lists(st.integers()))
def test_shuffling_loses_and_adds_nothing(seed: int, things: list[int]) -> None:
    before = list(things)
    assert Counter(Stream("law", seed).shuffled(things)) == Counter(before)
    assert things == before


@pytest.mark.parametrize("count", [2, 3, 7, 10, 64])
def test_draws_are_even(count: int) -> None:
    found = Counter(Stream("even", seed).below(count) for seed in range(6000))
    assert chisquare([found[n] for n in range(count)]).pvalue > 0.001


def test_every_order_is_as_likely() -> None:
    found = Counter("".join(Stream("order", seed).shuffled("abcd")) for seed in range(7200))
    assert len(found) == 24
    assert chisquare(list(found.values())).pvalue > 0.001


def test_another_process_draws_the_same() -> None:
    code = (
        "from generator.items.stream import Stream\n"
        "s = Stream('batch-stock', 7)\n"
        "print([s.below(1000) for _ in range(10)])"
    )
    printed = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    ).stdout
    assert printed.strip() == str(FIRST_TEN)
