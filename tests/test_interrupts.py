"""Ctrl-C put off while something has to become whole, and kept from the processes we start."""

from __future__ import annotations

import signal
import subprocess
import sys

import pytest

from generator.interrupts import not_heard_by_children, put_off

pytestmark = pytest.mark.usefixtures("ctrl_c_is_heard")

SLEEPS_ON = "import sys, time; print('up', flush=True); time.sleep(0.3); print('done')"


def test_is_noted_within_the_block_and_heard_at_its_end() -> None:
    noted: list[bool] = []

    def go_on() -> None:
        with put_off() as interrupts:
            for _ in range(2):
                noted.append(interrupts.came)
                signal.raise_signal(signal.SIGINT)
            noted.append(interrupts.came)

    with pytest.raises(KeyboardInterrupt):
        go_on()
    assert noted == [False, True, True]


def test_no_ctrl_c_no_stop() -> None:
    with put_off() as interrupts:
        pass
    assert not interrupts.came


def test_is_heard_again_after_the_block_however_it_ends() -> None:
    with pytest.raises(ZeroDivisionError), put_off():
        _ = 1 // 0
    with pytest.raises(KeyboardInterrupt):
        signal.raise_signal(signal.SIGINT)


def test_stays_ignored_in_the_background() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with put_off() as interrupts:
        signal.raise_signal(signal.SIGINT)
    assert not interrupts.came
    assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN


@pytest.mark.posix("masks of signals")
def test_a_process_started_within_goes_on_from_its_first_moment() -> None:
    with not_heard_by_children():
        child = subprocess.Popen([sys.executable, "-c", SLEEPS_ON], stdout=subprocess.PIPE)
    child.send_signal(signal.SIGINT)  # most likely while Python itself is starting
    said, _ = child.communicate(timeout=60)

    assert (said, child.returncode) == (b"up\ndone\n", 0)
    with pytest.raises(KeyboardInterrupt):  # we do hear it
        signal.raise_signal(signal.SIGINT)
