"""Times scikit-image's fill of a ground and compares it with JMH's times (see benchmark-fill.sh)."""
import json
import subprocess
import sys
import time

import numpy as np
from skimage.morphology import reconstruction

path, side = sys.argv[1], int(sys.argv[2])
warm, cold, raster, read = sys.argv[3:7]
ground = np.fromfile(path, "<f4").reshape(side, side)
seed = np.full_like(ground, ground.max())
seed[0], seed[-1] = ground[0], ground[-1]
seed[:, 0], seed[:, -1] = ground[:, 0], ground[:, -1]
start = time.perf_counter()
reconstruction(seed, ground, method="erosion", footprint=np.ones((3, 3)))
reference = time.perf_counter() - start
print(f"{side * side / 1e6:.0f} million cells; scikit-image's fill {reference:.2f} s")


def seconds(results):
    """Seconds by benchmark and cells a side."""
    with open(results) as file:
        return {
            (run["benchmark"].rsplit(".", 1)[1], int(run["params"]["side"])):
                run["primaryMetric"]["score"] / 1000
            for run in json.load(file)
        }


times, first = seconds(warm), seconds(cold)
for name, goal in ("fill", 12), ("whole", 3):
    for state, measured in ("warm", times), ("cold", first):
        took = measured[name, side]
        print(f"{name:6} {state} {took:6.2f} s, {reference / took:5.1f} times as fast; goal {goal}")
ratio = times["fill", side] / times["sort", side]
print(f"sort   {times['sort', side]:6.2f} s; fill takes {ratio:.2f} of it; goal 1")
for name in "fill", "whole":
    growth = times[name, side] / times[name, 1000] / (side / 1000) ** 2
    print(f"{name:6} grows from 1 million cells by {growth:.2f} of linear; goal 1.3")
gdal = []
for _ in range(5):
    start = time.perf_counter()
    subprocess.run(["gdal_translate", "-q", "-of", "MEM", raster, "none"], check=True)
    gdal.append(time.perf_counter() - start)
ours = float(open(read).read().split()[1])
print(f"read   {ours:6.2f} s; {ours / min(gdal):.1f} of GDAL's {min(gdal):.2f} s; goal 2")
