package org.yardfall.samples;

import static org.yardfall.samples.FernhillGround.DITCH_TURN_U;
import static org.yardfall.samples.FernhillGround.FIRST_LOT_U;
import static org.yardfall.samples.FernhillGround.HEIGHT_M;
import static org.yardfall.samples.FernhillGround.LOT_DEPTH_M;
import static org.yardfall.samples.FernhillGround.LOT_WIDTH_M;
import static org.yardfall.samples.FernhillGround.STREET_NORTH_V;
import static org.yardfall.samples.FernhillGround.STREET_SOUTH_V;
import static org.yardfall.samples.FernhillGround.WIDTH_M;

import java.util.ArrayList;
import java.util.List;

/** What stands on the invented ground of the Fernhill sample: parcels, houses, walks, obstacles. */
final class FernhillPlan {

  static final double WEST_M = 500000;
  static final double SOUTH_M = 4999800;

  private FernhillPlan() {}

  /** Twelve lots, and the fields and the hill around them; street and ditch are in no parcel. */
  static List<Feature> parcels() {
    List<Feature> parcels = new ArrayList<>();
    double last = FIRST_LOT_U + 6 * LOT_WIDTH_M;
    for (int lot = 1; lot <= 12; lot++) {
      double west = FernhillGround.lotCentreU(lot) - LOT_WIDTH_M / 2;
      double south = lot <= 6 ? STREET_NORTH_V : STREET_SOUTH_V - LOT_DEPTH_M;
      parcels.add(box(west, south, west + LOT_WIDTH_M, south + LOT_DEPTH_M, "LOT", "" + lot));
    }
    double rear = STREET_NORTH_V + LOT_DEPTH_M;
    parcels.add(box(FIRST_LOT_U, rear, last, HEIGHT_M, "LOT", "hill"));
    parcels.add(box(0, STREET_NORTH_V, FIRST_LOT_U, HEIGHT_M, "LOT", "west field"));
    parcels.add(box(last, STREET_NORTH_V, WIDTH_M, HEIGHT_M, "LOT", "east field"));
    parcels.add(box(0, 96, FIRST_LOT_U, STREET_SOUTH_V, "LOT", "west paddock"));
    double ditchEast = DITCH_TURN_U + 6;
    parcels.add(
        shape(
            new double[] {
              ditchEast,
              0,
              WIDTH_M,
              0,
              WIDTH_M,
              STREET_SOUTH_V,
              last,
              STREET_SOUTH_V,
              last,
              96,
              ditchEast,
              96,
              ditchEast,
              0
            },
            "LOT",
            "east paddock"));
    parcels.add(box(0, 0, DITCH_TURN_U - 6, 84, "LOT", "south meadow"));
    return parcels;
  }

  /** A house on every lot. */
  static List<Feature> buildings() {
    List<Feature> houses = new ArrayList<>();
    for (int lot = 1; lot <= 12; lot++) {
      double u = FernhillGround.lotCentreU(lot);
      double v = lot <= 6 ? 178 : 118;
      houses.add(box(u - 7, v - 6, u + 7, v + 6, "id", "house " + lot));
    }
    return houses;
  }

  /** The walks along the street and a drive for every lot, all slabs to bore under. */
  static List<Feature> crossings() {
    List<Feature> slabs = new ArrayList<>();
    slabs.add(box(0, 153.8, WIDTH_M, 155.3, "id", "north walk", "thickness", 0.10, "base", 0.10));
    slabs.add(box(0, 140.7, WIDTH_M, 142.2, "id", "south walk", "thickness", 0.10, "base", 0.10));
    for (int lot = 1; lot <= 12; lot++) {
      double west = FernhillGround.lotCentreU(lot) + 3;
      boolean north = lot <= 6;
      slabs.add(
          box(
              west,
              north ? 155.3 : 124,
              west + 3.2,
              north ? 172 : 140.7,
              "id",
              "drive " + lot,
              "thickness",
              0.12,
              "base",
              0.15));
    }
    return slabs;
  }

  /** A cable along the street, two trees and a sprinkler line. */
  static List<Feature> obstacles() {
    return List.of(
        shapeLine(
            xy(0, 157.2, WIDTH_M, 157.2),
            "id",
            "street cable",
            "kind",
            "utility",
            "clearance",
            0.5,
            "passage",
            "under",
            "bottom",
            239.48,
            "vertical-clearance",
            0.15),
        point(148, 197.2, "id", "maple", "kind", "tree", "clearance", 2.0, "passage", "solid-pipe"),
        point(186.5, 99, "id", "willow", "kind", "tree", "clearance", 2.5, "passage", "none"),
        shapeLine(
            xy(170, 159, 190, 159),
            "id",
            "sprinkler 3",
            "kind",
            "sprinkler",
            "clearance",
            0.3,
            "passage",
            "under"));
  }

  private static Feature box(
      double west, double south, double east, double north, Object... fields) {
    return Feature.rectangle(
        WEST_M + west, SOUTH_M + south, WEST_M + east, SOUTH_M + north, fields);
  }

  private static Feature shape(double[] uv, Object... fields) {
    return Feature.polygon(xy(uv), fields);
  }

  private static Feature shapeLine(double[] xy, Object... fields) {
    return Feature.line(xy, fields);
  }

  private static Feature point(double u, double v, Object... fields) {
    return Feature.point(WEST_M + u, SOUTH_M + v, fields);
  }

  private static double[] xy(double... uv) {
    double[] xy = new double[uv.length];
    for (int i = 0; i < uv.length; i += 2) {
      xy[i] = WEST_M + uv[i];
      xy[i + 1] = SOUTH_M + uv[i + 1];
    }
    return xy;
  }
}
