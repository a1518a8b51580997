"""Times cold starts of the packaged plan; see benchmark-plan.sh."""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import hectare_grounds

RUNS = int(sys.argv[1]) if len(sys.argv) > 1 else 5
COMMAND = "cli/target/yardfall/bin/yardfall"
GROUNDS = ["even", "flat", "oblique", "bumpy", "two-outlets"]


def run(command):
    """Wall and processor time in s and greatest resident memory in MiB of one run."""
    start = time.monotonic()
    quiet = subprocess.DEVNULL
    process = subprocess.Popen(command, stdout=quiet, stderr=quiet)
    _, _, used = os.wait4(process.pid, 0)
    wall = time.monotonic() - start
    return wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def median(command):
    return [statistics.median(each) for each in zip(*(run(command) for _ in range(RUNS)))]


with tempfile.TemporaryDirectory() as folder:
    hectare_grounds.make(Path(folder))
    java = median(["java", "-version"])
    print(f"{'':20}   wall s  times  processor s  memory MiB")
    print(f"{'java -version':20} {java[0]:8.2f}")
    sites = {"sample": "samples/fernhill/site.yml"}
    sites |= {f"1 ha, {g}": f"{folder}/{g}/site.yml" for g in GROUNDS}
    for name, site in sites.items():
        out = f"{folder}/out"
        wall, used, memory = median([COMMAND, "plan", site, "--quiet", "--out", out])
        print(f"{name:20} {wall:8.2f} {wall / java[0]:6.1f} {used:12.1f} {memory:11.0f}")
