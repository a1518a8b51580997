"""Times scikit-image's fill of a ground and compares it with JMH's times (see benchmark-fill.sh)."""
import json
import sys
import time

import numpy as np
from skimage.morphology import reconstruction

path, side, results = sys.argv[1], int(sys.argv[2]), sys.argv[3]
ground = np.fromfile(path, "<f4").reshape(side, side)
seed = np.full_like(ground, ground.max())
seed[0], seed[-1] = ground[0], ground[-1]
seed[:, 0], seed[:, -1] = ground[:, 0], ground[:, -1]
start = time.perf_counter()
reconstruction(seed, ground, method="erosion", footprint=np.ones((3, 3)))
reference = time.perf_counter() - start
print(f"{side * side / 1e6:.0f} million cells; scikit-image's fill {reference:.2f} s")
for run in json.load(open(results)):
    name = run["benchmark"].rsplit(".", 1)[1]
    seconds = run["primaryMetric"]["score"] / 1000
    print(f"{name:6} {seconds:6.2f} s  {reference / seconds:5.1f} times as fast")
