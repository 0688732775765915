"""How fast this machine is, so that figures of two machines can be laid beside each other."""

import json
import time
from collections.abc import Callable
from contextlib import nullcontext

ROUNDS = 3_000_000


def fixed_loop() -> float:
    """Seconds of one fixed loop of whole numbers."""
    began = time.perf_counter()
    total = 0
    for number in range(ROUNDS):
        total += number * number % 7
    return round(time.perf_counter() - began, 3)


def measured(do: Callable[[], object], queries: Callable[[], object] = nullcontext) -> tuple[object, dict]:
    """Do it once; its answer, seconds by the wall and of the processor, queries when they are counted."""
    with queries() as counted:
        began, worked = time.perf_counter(), time.process_time()
        answer = do()
        seconds, processor = time.perf_counter() - began, time.process_time() - worked
    facts = {"seconds": round(seconds, 3), "processor": round(processor, 3)}
    if counted is not None:
        facts["queries"] = len(counted)
    return answer, facts


def say(what: str, machine: float, **facts: object) -> None:
    """One JSON line."""
    print(json.dumps({"what": what, **facts, "machine": machine}), flush=True)
