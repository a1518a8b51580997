package org.yardfall.fieldwork;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds the water that stays in a pipe. It can leave downstream only, so it stands at every station
 * up to the highest invert downstream of it. Between shots the invert goes straight, the depth with
 * it, and the circular segment that the water fills integrates in closed form. O(shots).
 */
final class BellyFinder {

  private static final double TINY_M = 1e-9;

  private final String line;
  private final double[] stationM;
  private final double[] invertM;
  private final double radiusM;
  private final List<Belly> bellies = new ArrayList<>();
  private double fromM = Double.NaN;
  private double volumeM3;
  private double depthM;
  private double deepestM;

  private BellyFinder(String line, double[] stationM, double[] invertM, double insideM) {
    this.line = line;
    this.stationM = stationM;
    this.invertM = invertM;
    this.radiusM = insideM / 2;
  }

  /**
   * The bellies of a line, downstream.
   *
   * @param stationM stations of the inverts in metres, never falling
   * @param insideM inside diameter in metres
   */
  static List<Belly> find(String line, double[] stationM, double[] invertM, double insideM) {
    BellyFinder finder = new BellyFinder(line, stationM, invertM, insideM);
    finder.find();
    return finder.bellies;
  }

  private void find() {
    int n = stationM.length;
    double[] levelM = new double[n];
    for (int i = n - 1; i >= 0; i--) {
      levelM[i] = i == n - 1 ? invertM[i] : Math.max(invertM[i], levelM[i + 1]);
    }
    for (int i = 0; i + 1 < n; i++) {
      // Over a piece the water stands level, at what the next shot downstream lets it.
      double surface = levelM[i + 1];
      double from = surface - invertM[i];
      double to = surface - invertM[i + 1];
      if (from <= TINY_M && to <= TINY_M) {
        close(stationM[i]);
        continue;
      }
      double start = stationM[i];
      if (from < 0) {
        close(start);
        start += (stationM[i + 1] - start) * from / (from - to);
        from = 0;
      }
      add(start, from, stationM[i + 1], to);
      if (to <= TINY_M) {
        close(stationM[i + 1]);
      }
    }
    close(stationM[n - 1]);
  }

  private void add(double start, double from, double end, double to) {
    if (Double.isNaN(fromM)) {
      fromM = start;
      volumeM3 = 0;
      depthM = 0;
      deepestM = start;
    }
    deepest(start, from);
    deepest(end, to);
    volumeM3 += volume(end - start, from, to);
  }

  private void deepest(double station, double depth) {
    double inPipe = Math.min(depth, 2 * radiusM);
    if (inPipe > depthM) {
      depthM = inPipe;
      deepestM = station;
    }
  }

  private void close(double station) {
    if (!Double.isNaN(fromM)) {
      bellies.add(new Belly(line, fromM, station, depthM, volumeM3, deepestM));
      fromM = Double.NaN;
    }
  }

  /** Water in a piece of pipe whose depth goes straight from one value to another, in m³. */
  private double volume(double lengthM, double from, double to) {
    return Math.abs(to - from) < 1e-7
        ? lengthM * areaM2((from + to) / 2)
        : lengthM * (areaSum(to) - areaSum(from)) / (to - from);
  }

  /** Area of the circular segment filled to a depth, in m². */
  private double areaM2(double depth) {
    double h = Math.min(depth, 2 * radiusM);
    double u = radiusM - h;
    return radiusM * radiusM * Math.acos(u / radiusM)
        - u * Math.sqrt(Math.max(0, radiusM * radiusM - u * u));
  }

  /** Integral of {@link #areaM2} from an empty pipe to a depth. */
  private double areaSum(double depth) {
    double r = radiusM;
    double u = r - Math.min(depth, 2 * r);
    double chord = Math.max(0, r * r - u * u);
    double over = Math.max(0, depth - 2 * r);
    return r * r * (Math.sqrt(chord) - u * Math.acos(u / r))
        - chord * Math.sqrt(chord) / 3
        + over * Math.PI * r * r;
  }
}
