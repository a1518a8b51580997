"""Draws time against cells of benchmark-routes.sh and prints the numbers."""

import json
import sys

import matplotlib

matplotlib.use("Agg")
import matplotlib.pyplot as plt

MARGIN_M = 5  # ground kept around a lot

times = {}
for run in json.load(open(sys.argv[1])):
    width, depth, cell = (
        float(part) for part in run["params"]["lot"].replace("@", "x").split("x")
    )
    cells = (width + 2 * MARGIN_M) * (depth + 2 * MARGIN_M) / cell**2
    name = run["benchmark"].rsplit(".", 1)[1]
    ms = run["primaryMetric"]["score"]
    times.setdefault(name, []).append((cells, ms, run["params"]["lot"]))
figure, axes = plt.subplots(figsize=(8, 5.5))
for name, points in sorted(times.items()):
    points.sort()
    axes.loglog([p[0] for p in points], [p[1] for p in points], "o-", label=name)
    for cells, ms, lot in points:
        print(f"{name:8} {lot:14} {cells:9.0f} cells {ms:9.1f} ms")
axes.set_xlabel("cells")
axes.set_ylabel("ms, warm, one thread")
axes.grid(True, which="both", alpha=0.3)
axes.legend()
figure.tight_layout()
figure.savefig(sys.argv[2], dpi=120)
