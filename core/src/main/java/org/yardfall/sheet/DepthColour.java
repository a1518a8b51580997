package org.yardfall.sheet;

import java.util.List;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Location;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.water.StandingWater;

/** The colour of the water standing at a place, by its depth over the ground. */
final class DepthColour {

  private final ElevationGrid ground;
  private final List<Pond> ponds;

  private record Pond(IndexedPointInAreaLocator area, double levelM) {}

  DepthColour(ElevationGrid ground, StandingWater standing) {
    this.ground = ground;
    this.ponds =
        standing.ponds().stream()
            .map(p -> new Pond(new IndexedPointInAreaLocator(p.outline()), p.levelM()))
            .toList();
  }

  /** The colour as ARGB; 0 where the place is dry. */
  double at(double x, double y) {
    Coordinate place = new Coordinate(x, y);
    int cell = ground.frame().index(x, y);
    for (Pond pond : ponds) {
      if (cell >= 0 && pond.area().locate(place) != Location.EXTERIOR) {
        double depth = Math.max(0, pond.levelM() - ground.z()[cell]);
        return 0xFF000000L | Backdrop.blue(depth);
      }
    }
    return 0;
  }
}
