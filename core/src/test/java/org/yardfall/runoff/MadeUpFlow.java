package org.yardfall.runoff;

import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/** Flows across a property line of which a test knows the totals and nothing else. */
public final class MadeUpFlow {

  private MadeUpFlow() {}

  /** Water that enters over a straight stretch, by its area alone. */
  public static BoundaryFlow inward(
      String id, String neighbour, LineString stretch, double areaM2) {
    return of(
        id,
        true,
        neighbour,
        stretch,
        stretch.getCoordinateN(0),
        0,
        stretch.getLength(),
        areaM2,
        false,
        0,
        0,
        "");
  }

  /** Water that crosses, its components in the order of {@link BoundaryFlow}. */
  public static BoundaryFlow of(
      String id,
      boolean enters,
      String neighbour,
      LineString stretch,
      Coordinate at,
      double bearingDeg,
      double widthM,
      double areaM2,
      boolean atLeast,
      double volumeM3,
      double peakM3S,
      String surfaces) {
    return new BoundaryFlow(
        id,
        enters,
        neighbour,
        stretch,
        at,
        bearingDeg,
        widthM,
        areaM2,
        atLeast,
        volumeM3,
        peakM3S,
        surfaces,
        false,
        Map.of(),
        new CurveNumber.Runoff(List.of(), 0, 0),
        new TimeOfConcentration(List.of(), 0, 0),
        0,
        0,
        List.of());
  }
}
