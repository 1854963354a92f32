"""The executor that is made where nobody names one: processes of this machine."""

import os
import signal
import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import parent_process
from multiprocessing.context import SpawnContext, SpawnProcess
from multiprocessing.process import BaseProcess
from threading import Thread
from typing import Any


class Noting(SpawnContext):
    """Begins processes afresh, and knows those that it began."""

    def __init__(self) -> None:
        super().__init__()
        self.begun: list[SpawnProcess] = []

    def Process(self, *args: Any, **named: Any) -> SpawnProcess:  # type: ignore[override]  # noqa: N802
        """Return a process to be begun."""
        self.begun.append(SpawnProcess(*args, **named))
        return self.begun[-1]


class Processes(ProcessPoolExecutor):
    """Processes that can be ended, whatever they do: of the standard library's from 3.14 on."""

    def __init__(self, workers: int) -> None:
        self.noting = Noting()
        super().__init__(workers, mp_context=self.noting, initializer=settle_in)

    def kill_workers(self) -> None:
        """End every process; what they had is told as broken."""
        for process in self.noting.begun:
            if process.is_alive():
                process.kill()


def processes(workers: int) -> Processes:
    """Return an executor of so many processes, each begun afresh.

    A process that is forked would share locks with the threads of its parent, so none is.
    """
    return Processes(workers)


def settle_in() -> None:
    """Begin a worker: it leaves interrupts from the keyboard to its parent, and ends with it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=end_with, args=(parent_process(),), daemon=True).start()


def end_with(parent: BaseProcess | None, leave: Callable[[int], object] = os._exit) -> None:
    """End this process as soon as its parent has.

    One that was killed tells its workers nothing: they would wait for work for ever, or loop.
    """
    if parent is not None:
        parent.join()
        leave(1)


def is_from_standard_input() -> bool:
    """Return whether the script that runs was read from standard input.

    A process that is begun afresh reads the script again, by the name of its file; this one has
    the name `<stdin>` and no file.
    """
    return getattr(sys.modules["__main__"], "__file__", None) == "<stdin>"
