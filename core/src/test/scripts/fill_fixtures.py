#!/usr/bin/python3
"""Writes the fixtures of FillingOracleTest: grounds and their filled surfaces by scikit-image.

The filled surface is morphological reconstruction by erosion from the edge of the known ground
(Soille & Gratin 1994). Each fixture NAME is two files of little-endian float32, north row first:
NAME.ground and NAME.filled; NaN is ground not known.

    fill_fixtures.py OUT_DIR REAL.tif     (REAL.tif: a bare-earth raster to cut 96 x 96 cells from)
"""
import pathlib
import sys

import numpy as np
from skimage.io import imread
from skimage.morphology import reconstruction


def fill(ground):
    known = ~np.isnan(ground)
    low = np.float32(np.nanmin(ground) - 1)
    # unknown ground and the outside are a sea lower than everything
    mask = np.pad(np.where(known, ground, low), 1, constant_values=low)
    seed = np.full_like(mask, mask.max())
    sea = np.pad(~known, 1, constant_values=True)
    seed[sea] = low
    filled = reconstruction(seed, mask, method="erosion", footprint=np.ones((3, 3)))
    filled = filled[1:-1, 1:-1].astype("<f4")
    filled[~known] = np.nan
    return filled


def main(out, real):
    rng = np.random.default_rng(20)
    holes = rng.normal(10, 2, (80, 90)).astype("<f4")
    holes[rng.random(holes.shape) < 0.02] = np.nan
    holes[30:40, 50:70] = np.nan
    grounds = {
        "random": rng.normal(100, 1, (97, 101)).astype("<f4"),
        "flats": rng.integers(0, 6, (80, 90)).astype("<f4"),
        "holes": holes,
        "real": imread(real)[80:176, 40:136].astype("<f4"),
    }
    for name, ground in grounds.items():
        ground.tofile(out / (name + ".ground"))
        fill(ground).tofile(out / (name + ".filled"))


if __name__ == "__main__":
    main(pathlib.Path(sys.argv[1]), sys.argv[2])
