"""A search shared out to several processes."""

import signal
from collections.abc import Callable, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, wait
from multiprocessing import get_context
from multiprocessing.sharedctypes import SynchronizedArray
from multiprocessing.synchronize import Event

from beltwright.build.model import Build
from beltwright.options.hunt import Hunt
from beltwright.options.option import Choice
from beltwright.options.walk import Share

SHARES = 8
"""Shares for each process, so that none waits long for the others."""

POLL = 0.2
"""Time between two looks at the processes [s]."""

Stop = Callable[[int, int], bool]
"""Told the candidates disposed of and the options that fit; says whether to stop."""


def shared_hunt(build: Build, choices: Sequence[Choice], stop: Stop, processes: int) -> Hunt:
    """The same pass as `Hunt.run`, by several processes; ended early where `stop` says so."""
    # started anew rather than forked: a page that serves from threads may be the one who asks
    context = get_context("spawn")
    shares = processes * SHARES
    stopping = context.Event()
    counts = context.Array("q", shares)
    whole = Hunt(build, choices)
    with ProcessPoolExecutor(processes, context, _begin, (stopping, counts)) as pool:
        waiting = {
            pool.submit(_one_share, build, choices, Share(mine, shares)) for mine in range(shares)
        }
        try:
            while waiting:
                waiting = _joined(whole, waiting)
                if stop(sum(counts[:]), len(whole.front.candidates)):
                    stopping.set()
        except KeyboardInterrupt:
            stopping.set()
            while waiting:
                waiting = _joined(whole, waiting)
            raise StoppedEarly(whole) from None
    return whole


class StoppedEarly(KeyboardInterrupt):
    """Ctrl-C, with what was found so far."""

    def __init__(self, hunt: Hunt) -> None:
        super().__init__()
        self.hunt = hunt


def _joined(whole: Hunt, waiting: "set[Future[Hunt]]") -> "set[Future[Hunt]]":
    done, left = wait(waiting, timeout=POLL)
    for future in done:
        whole.join(future.result())
    return left


_stopping: Event
_counts: "SynchronizedArray[int]"


def _begin(stopping: Event, counts: "SynchronizedArray[int]") -> None:
    """Let the process that asked handle Ctrl-C, and report to it."""
    # a process of a pool has no other place for what it is handed at its start
    global _stopping, _counts
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _stopping, _counts = stopping, counts


def _one_share(build: Build, choices: Sequence[Choice], share: Share) -> Hunt:
    def stop(hunt: Hunt) -> bool:
        _counts[share.mine] = hunt.disposed
        return _stopping.is_set()

    hunt = Hunt(build, choices, share)
    hunt.run(stop)
    _counts[share.mine] = hunt.disposed
    return hunt
