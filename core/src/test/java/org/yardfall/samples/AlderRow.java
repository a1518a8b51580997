package org.yardfall.samples;

import java.util.List;
import java.util.Random;

/**
 * The invented second sample, in US survey feet with elevations in feet: a lot below a hillside
 * whose rear yard falls toward the house, with a catch basin in the street.
 *
 * <p>{@code u} counts feet east, {@code v} feet north from the sample's south-west corner.
 */
final class AlderRow {

  static final double WEST_FT = 1500000;
  static final double SOUTH_FT = 600000;
  static final int COLS = 400;
  static final int ROWS = 360;

  private AlderRow() {}

  /** Elevations in feet by cell, north row first, with a survey's noise. */
  static double[] elevationsFt(long seed) {
    Random random = new Random(seed);
    double[] z = new double[COLS * ROWS];
    for (int row = 0; row < ROWS; row++) {
      for (int col = 0; col < COLS; col++) {
        double ground = elevationFt(col + 0.5, ROWS - row - 0.5);
        z[row * COLS + col] = Math.round((ground + 0.02 * random.nextGaussian()) * 200) / 200.0;
      }
    }
    return z;
  }

  /** Elevation in feet without noise. */
  static double elevationFt(double u, double v) {
    double z = 812 - 0.004 * (u - 200) + 0.006 * (v - 80);
    // The hillside: its crest, and the ridges that bound what drains to the middle lot.
    z += 0.035 * (softRamp(v - 236, 8) - 1.6 * softRamp(v - 310, 10));
    double aside = Math.abs(u - 195);
    z += 0.010 * aside - 0.022 * softRamp(aside - 110, 8);
    z += house(u, v, 85, 125, 1.0) + house(u, v, 265, 125, 1.0) + house(u, v, 175, 125, 0.5);
    // The yard behind the middle house falls toward its back wall, and a hollow lies there.
    z -= 0.75 * bell(v - 168, 8) * bell(u - 195, 26);
    double off = Math.abs(v - 52);
    if (off < 28) {
      double crown = 811.3 + 0.004 * Math.min(Math.abs(u - 200), 120);
      double street = off <= 12 ? crown - 0.02 * off : crown - 0.24 + 0.5 + 0.02 * (off - 12);
      double share = Math.max(0, Math.min(1, (off - 14) / 14));
      z = street + (z - street) * share;
    }
    return z;
  }

  static List<Feature> parcels() {
    return List.of(
        box(60, 80, 150, 230, "lot", "A"),
        box(150, 80, 240, 230, "lot", "B"),
        box(240, 80, 330, 230, "lot", "C"),
        box(60, 230, 330, 360, "lot", "hillside"));
  }

  static List<Feature> buildings() {
    return List.of(
        box(85, 125, 125, 160, "id", "house A"),
        box(175, 125, 215, 160, "id", "house B"),
        box(265, 125, 305, 160, "id", "house C"));
  }

  static List<Feature> crossings() {
    return List.of(
        box(0, 70, 400, 74, "id", "walk", "thickness", 0.1016, "base", 0.1016),
        box(218, 74, 230, 135, "id", "drive", "thickness", 0.1016, "base", 0.1524));
  }

  private static double house(double u, double v, double west, double south, double height) {
    double across = Math.max(0, Math.max(west - u, u - (west + 40)));
    double along = Math.max(0, Math.max(south - v, v - (south + 35)));
    return height * Math.max(0, 1 - Math.hypot(across, along) / 12);
  }

  /** 0 well below zero, x well above. */
  private static double softRamp(double x, double width) {
    return width * Math.log1p(Math.exp(x / width));
  }

  private static double bell(double distance, double width) {
    return Math.exp(-0.5 * distance * distance / (width * width));
  }

  private static Feature box(
      double west, double south, double east, double north, Object... fields) {
    return Feature.rectangle(
        WEST_FT + west, SOUTH_FT + south, WEST_FT + east, SOUTH_FT + north, fields);
  }
}
