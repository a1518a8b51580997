package org.yardfall.water;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;

/** A low spot for tests: it stands alone and nothing about it is in doubt. */
public final class MadeUpLowSpot {

  private MadeUpLowSpot() {}

  /** One that a test knows this much of. */
  public static LowSpot of(
      String id,
      Geometry outline,
      Coordinate deepest,
      double bottomM,
      double spillM,
      Coordinate spillPoint,
      double areaM2,
      double volumeM3,
      double contributingM2,
      LowSpot.Stage... stages) {
    return new LowSpot(
        id,
        outline,
        deepest,
        bottomM,
        spillM,
        spillPoint,
        spillM - bottomM,
        areaM2,
        volumeM3,
        contributingM2,
        false,
        "",
        List.of(),
        "",
        List.of(stages),
        "");
  }
}
