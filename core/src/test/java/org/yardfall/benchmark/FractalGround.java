package org.yardfall.benchmark;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.IntStream;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;

/**
 * Invented ground of any size: octaves of smoothed random heights, each half as wide and half as
 * high as the one before, from hills of 512 cells to centimetres from cell to cell, as lidar ground
 * of 1 m looks. The same seed gives the same ground.
 */
public final class FractalGround {

  private static final int LARGEST_CELLS = 512;
  private static final double LARGEST_M = 20;

  private FractalGround() {}

  /** Ground of {@code side * side} cells of 1 m. */
  public static ElevationGrid of(int side, long seed) {
    float[] z = new float[side * side];
    IntStream.range(0, side).parallel().forEach(row -> fill(z, side, row, seed));
    return new ElevationGrid(new GridFrame(side, side, 0, side, 1), z);
  }

  private static void fill(float[] z, int side, int row, long seed) {
    for (int col = 0; col < side; col++) {
      double height = 0;
      double amplitude = LARGEST_M;
      for (int width = LARGEST_CELLS; width >= 1; width /= 2, amplitude /= 2) {
        height += amplitude * noise(col / (double) width, row / (double) width, seed + width);
      }
      z[row * side + col] = (float) height;
    }
  }

  private static double noise(double x, double y, long seed) {
    int col = (int) x;
    int row = (int) y;
    double u = smooth(x - col);
    double v = smooth(y - row);
    double north = lattice(col, row, seed) * (1 - u) + lattice(col + 1, row, seed) * u;
    double south = lattice(col, row + 1, seed) * (1 - u) + lattice(col + 1, row + 1, seed) * u;
    return north * (1 - v) + south * v;
  }

  private static double smooth(double t) {
    return t * t * (3 - 2 * t);
  }

  /** A random number from 0 to 1 for each point of the lattice (finaliser of SplitMix64). */
  private static double lattice(int col, int row, long seed) {
    long h = seed * 0x9E3779B97F4A7C15L + col * 0xC2B2AE3D27D4EB4FL + row * 0x165667B19E3779F9L;
    h = (h ^ (h >>> 30)) * 0xBF58476D1CE4E5B9L;
    h = (h ^ (h >>> 27)) * 0x94D049BB133111EBL;
    return ((h ^ (h >>> 31)) >>> 11) * 0x1.0p-53;
  }

  /**
   * Writes ground as little-endian float32 for other programs: {@code FILE SIDE}.
   *
   * @throws IOException if the file cannot be written
   */
  public static void main(String[] args) throws IOException {
    int side = Integer.parseInt(args[1]);
    float[] z = of(side, 1).z();
    ByteBuffer row = ByteBuffer.allocate(side * 4).order(ByteOrder.LITTLE_ENDIAN);
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(Path.of(args[0])))) {
      for (int r = 0; r < side; r++) {
        row.asFloatBuffer().put(z, r * side, side);
        out.write(row.array());
      }
    }
  }
}
