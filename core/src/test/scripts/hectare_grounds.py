"""Makes five invented lots of one hectare on grounds of different kinds, at cells of 0.25 m.

Usage: hectare_grounds.py FOLDER; needs numpy. All of it is made up: no ground was measured.
"""

import json
import sys
from pathlib import Path

import numpy as np

CELLS = 680
CELL_M = 0.25
WEST_M, SOUTH_M = 500000, 4999000
ROW, COL = np.mgrid[0:CELLS, 0:CELLS]
X = (COL + 0.5) * CELL_M
Y = (CELLS - ROW - 0.5) * CELL_M


def rough(seed, beta):
    """Rough ground of mean 0 and deviation 1 whose power falls with frequency by beta."""
    f = np.fft.fftfreq(CELLS)
    k = np.hypot(*np.meshgrid(f, f))
    k[0, 0] = 1
    white = np.random.default_rng(seed).normal(size=(CELLS, CELLS))
    ground = np.fft.ifft2(np.fft.fft2(white) * k ** (-beta / 2)).real
    return (ground - ground.mean()) / ground.std()


def even():
    """Gently waved, with a bowl of 30 m and a centimetre or two of roughness in streaks."""
    noise = np.empty(CELLS * CELLS)
    last = 0
    for i in range(noise.size):
        last = (last * 1103 + 12345 + i % CELLS) % 65536
        noise[i] = last
    z = 240 + 0.006 * Y - 0.004 * X + 0.12 * np.sin(X / 11) * np.sin(Y / 13)
    z += 4.5e-7 * noise.reshape(CELLS, CELLS)
    d = (X - 80) ** 2 + (Y - 95) ** 2
    return np.where(d < 900, z - 0.25 * (1 - d / 900), z)


def box(name, west, south, east, north):
    ring = [[west, south], [east, south], [east, north], [west, north], [west, south]]
    ring = [[WEST_M + x, SOUTH_M + y] for x, y in ring]
    return {
        "type": "Feature",
        "properties": {"LOT": name},
        "geometry": {"type": "Polygon", "coordinates": [ring]},
    }


def layer(path, features):
    crs = {"type": "name", "properties": {"name": "EPSG:26915"}}
    path.write_text(
        json.dumps({"type": "FeatureCollection", "crs": crs, "features": features})
    )


def site(folder, z, outlets):
    """Writes a site; outlets are (id, kind, x, y, depth below the ground there or invert)."""
    folder.mkdir(parents=True, exist_ok=True)
    with open(folder / "ground.asc", "w") as out:
        out.write(f"ncols {CELLS}\nnrows {CELLS}\nxllcorner {WEST_M}\nyllcorner {SOUTH_M}\n")
        out.write(f"cellsize {CELL_M}\nNODATA_value -9999\n")
        np.savetxt(out, z, fmt="%.3f")
    layer(
        folder / "lots.geojson", [box("1", 35, 35, 135, 135), box("2", 35, 135, 135, 165)]
    )
    layer(folder / "house.geojson", [box("h", 70, 55, 90, 70)])
    lines = ""
    for name, kind, x, y, level in outlets:
        if level < 10:
            level = z[int(CELLS - y / CELL_M), int(x / CELL_M)] - level
        at = f"[{WEST_M + x}, {SOUTH_M + y}]"
        lines += f"  - {{ id: {name}, kind: {kind}, at: {at}, invert: {level:.2f} m }}\n"
    (folder / "site.yml").write_text(
        "site:      { name: One hectare (invented), crs: EPSG:26915 }\n"
        "elevation: { files: [ground.asc], vertical-unit: m, crs: EPSG:26915 }\n"
        'parcels:   { file: lots.geojson, id: LOT, lot: "1" }\n'
        "buildings: { file: house.geojson }\n"
        f"outlets:\n{lines}"
    )


def make(folder):
    basin = ("B1", "catch-basin", 133, 37)
    site(folder / "even", even(), [("D1", "ditch", 138, 31, 238.2)])
    site(folder / "flat", 240 + 0.005 * Y + 0.02 * rough(1, 2.6), [(*basin, 0.9)])
    site(
        folder / "oblique",
        240 + 0.016 * Y - 0.012 * X + 0.03 * rough(2, 2.6),
        [(*basin, 0.9)],
    )
    site(
        folder / "bumpy",
        240 + 0.006 * Y - 0.004 * X + 0.25 * rough(3, 3.2),
        [("D1", "ditch", 138, 31, 1.3)],
    )
    site(
        folder / "two-outlets",
        240 + 0.008 * Y + 0.06 * rough(4, 3.0) + 0.0002 * (X - 80) ** 2,
        [(*basin, 1.0), ("D1", "ditch", 33, 32, 1.1)],
    )


if __name__ == "__main__":
    make(Path(sys.argv[1]))
