"""A program for tests: a cluster of two workers on this machine, one of which is killed while it works.

Prints the address of the scheduler, then ``killed`` once that is done, and ends when standard input does.
"""

from __future__ import annotations

import os
import signal
import sys
import threading
import time

from distributed import LocalCluster


def kill_one(cluster: LocalCluster) -> None:
    """Kill the first worker that has something to do."""
    while True:
        for worker in list(cluster.scheduler.workers.values()):
            busy = [task for task in worker.processing if task.state == "processing"]
            for nanny in cluster.workers.values() if busy else ():
                if nanny.worker_address == worker.address and nanny.pid is not None:
                    os.kill(nanny.pid, signal.SIGKILL)
                    sys.stdout.write("killed\n")
                    sys.stdout.flush()
                    return
        time.sleep(0.01)


def main() -> None:
    """Run the cluster."""
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None, host="127.0.0.1") as cluster:
        sys.stdout.write(f"{cluster.scheduler_address}\n")
        sys.stdout.flush()
        threading.Thread(target=kill_one, args=[cluster], daemon=True).start()
        sys.stdin.read()


if __name__ == "__main__":
    main()
