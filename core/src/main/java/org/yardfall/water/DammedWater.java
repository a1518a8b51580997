package org.yardfall.water;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/**
 * Where water would stand deeper because a swale below is levelled: the swale's upper part goes on
 * beyond the lot, and the fill closes it.
 */
public final class DammedWater {

  /** A rise of the water by less, in metres, is not told. */
  private static final double RISE_M = 0.01;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private DammedWater() {}

  private record Rise(double mostM, double areaM2) {

    Rise and(Rise other) {
      return new Rise(Math.max(mostM, other.mostM), areaM2 + other.areaM2);
    }
  }

  /**
   * A sentence for each neighbour on whose ground water would stand deeper.
   *
   * @param levelled the ground before and after
   * @param after the surface water once it is levelled
   */
  public static List<String> on(Site site, LevelledGround levelled, SurfaceWater after) {
    GridFrame frame = after.flow().frame();
    float[] before = levelled.waterBefore().filled();
    Map<String, Rise> rises = new TreeMap<>();
    for (int cell = 0; cell < before.length; cell++) {
      double stands = after.filled()[cell] - after.ground().z()[cell];
      double by = Math.min(stands, after.filled()[cell] - before[cell]);
      if (by > RISE_M) {
        Geometry here = FACTORY.createPoint(frame.centre(cell));
        for (Parcel parcel : site.neighbours()) {
          if (parcel.outline().intersects(here)) {
            rises.merge(parcel.id(), new Rise(by, frame.cellAreaM2()), Rise::and);
          }
        }
      }
    }
    List<String> said = new ArrayList<>();
    rises.forEach(
        (id, rise) ->
            said.add(
                String.format(
                    Locale.ROOT,
                    "the levelled swale dams the water of parcel %s: up to %.2f m deeper over %.1f m2"
                        + " there where the drain does not take it in; its inlet belongs at that"
                        + " place",
                    id,
                    rise.mostM(),
                    rise.areaM2())));
    return said;
  }
}
