"""The executor that is made where nobody names one: processes of this machine."""

import signal
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context


def processes(workers: int) -> ProcessPoolExecutor:
    """Return an executor of so many processes, each begun afresh.

    A process that is forked would share locks with the threads of its parent, so none is.
    """
    return ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=leave_keys)


def leave_keys() -> None:
    """Leave an interrupt from the keyboard to the process that handed the work out."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
